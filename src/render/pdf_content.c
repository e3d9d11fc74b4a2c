/* Page furniture, rules and swatches are drawn outside every element. A reader
 * aloud passes them over only where the page says that they are artifacts, and
 * Cairo 1.16 has no word for that; so the operators of each page are read here
 * once, and the words put in. Nothing else is changed. */
#include "pdf_content.h"

#include <stdlib.h>
#include <string.h>

/* ---- tokens (ISO 32000-1, 7.2 and 7.3) ---- */

/* Reads forward only, and never past `length`: a stream may hold any byte, also
 * one of 0. */
struct scanner {
    const char *bytes;
    size_t length;
    size_t at;         /* behind the token that was read last */
    size_t start, end; /* of that token */
};

/* White space of 7.2.2, with the byte of 0. */
static bool is_blank(char c)
{
    return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' ||
           c == '\0';
}

/* They end a word without a blank between. */
static bool is_delimiter(char c)
{
    switch (c) {
    case '(':
    case ')':
    case '<':
    case '>':
    case '[':
    case ']':
    case '{':
    case '}':
    case '/':
    case '%':
        return true;
    default:
        return false;
    }
}

/* Behind a string in parentheses, which may hold balanced ones. */
static size_t string_end(const struct scanner *scanner, size_t at)
{
    int depth = 0;
    for (; at < scanner->length; at++) {
        const char c = scanner->bytes[at];
        if (c == '\\')
            at++;
        else if (c == '(')
            depth++;
        else if (c == ')' && --depth == 0)
            return at + 1;
    }
    return scanner->length;
}

/* Behind a name, a number or an operator. Numbers are most of a page, and end
 * with a blank. */
static size_t word_end(const struct scanner *scanner, size_t at)
{
    for (at++; at < scanner->length; at++) {
        const char c = scanner->bytes[at];
        if (c <= '9' && c >= '0')
            continue;
        if (is_blank(c) || is_delimiter(c))
            break;
    }
    return at;
}

/* Brackets stand alone; a hexadecimal string reads as a bracket and a word,
 * which is told apart from an operator by that bracket. */
static bool next_token(struct scanner *scanner)
{
    while (scanner->at < scanner->length &&
           is_blank(scanner->bytes[scanner->at]))
        scanner->at++;
    if (scanner->at == scanner->length)
        return false;
    scanner->start = scanner->at;
    const char c = scanner->bytes[scanner->at];
    if (c == '(')
        scanner->at = string_end(scanner, scanner->at);
    else if (is_delimiter(c) && c != '/')
        scanner->at++;
    else
        scanner->at = word_end(scanner, scanner->at);
    scanner->end = scanner->at;
    return true;
}

/* Tokens are compared where they lie; nothing is copied. */
static bool token_is(const struct scanner *scanner, const char *word)
{
    const size_t length = scanner->end - scanner->start;
    return strlen(word) == length &&
           memcmp(scanner->bytes + scanner->start, word, length) == 0;
}

/* `words` ends with NULL. */
static bool token_in(const struct scanner *scanner, const char *const *words)
{
    const char first = scanner->bytes[scanner->start];
    for (; *words != NULL; words++)
        if (**words == first && token_is(scanner, *words))
            return true;
    return false;
}

/* Letters without a bracket before them. */
static bool is_operator(const struct scanner *scanner)
{
    const char c = scanner->bytes[scanner->start];
    const bool in_hexadecimal =
        scanner->start > 0 && scanner->bytes[scanner->start - 1] == '<';
    return !in_hexadecimal && ((c >= 'a' && c <= 'z') ||
                               (c >= 'A' && c <= 'Z') || c == '\'' || c == '"');
}

/* ---- what is painted where ---- */

/* Where the reading of a page stands. */
struct marking {
    struct buffer *out;
    struct scanner scanner;
    size_t segment;  /* where what was not yet written begins */
    size_t operands; /* where those of the next operator begin */
    bool identified; /* MCID stands among them */
    int tagged;      /* open sequences, from one with an identifier on */
    int loose;       /* open sequences outside such */
    bool in_text;
    bool painted; /* outside, since the segment began */
};

/* Writes the segment up to `end`, as an artifact where it shows. */
static void flush_segment(struct marking *marking, size_t end)
{
    if (marking->painted)
        buffer_text(marking->out, "\n/Artifact BMC\n");
    buffer_add(marking->out, marking->scanner.bytes + marking->segment,
               end - marking->segment);
    if (marking->painted)
        buffer_text(marking->out, "\nEMC\n");
    marking->segment = end;
    marking->painted = false;
}

/* Sequences and text objects must nest, so an element may not begin inside a
 * text object or another sequence. */
static bool begin_sequence(struct marking *marking)
{
    if (marking->tagged > 0) {
        marking->tagged++;
        return !marking->identified; /* no element inside another's marks */
    }
    if (!marking->identified) {
        marking->loose++;
        return true;
    }
    if (marking->in_text || marking->loose > 0)
        return false;
    flush_segment(marking, marking->operands);
    marking->tagged = 1;
    return true;
}

/* Spans may lie in both, so the two are counted apart. */
static bool end_sequence(struct marking *marking)
{
    if (marking->tagged == 0)
        return --marking->loose >= 0;
    if (--marking->tagged == 0)
        flush_segment(marking, marking->scanner.end);
    return true;
}

/* All operators that leave a mark (Annex A); clips and states do not.
 * ensures: false where the stream is of an unknown form. */
static bool follow_operator(struct marking *marking)
{
    static const char *const painting[] = {"Tj", "TJ", "'",  "\"", "f",  "F",
                                           "f*", "S",  "s",  "B",  "B*", "b",
                                           "b*", "Do", "sh", NULL};
    const struct scanner *scanner = &marking->scanner;
    if (token_is(scanner, "BDC") || token_is(scanner, "BMC"))
        return begin_sequence(marking);
    if (token_is(scanner, "EMC"))
        return end_sequence(marking);
    if (token_is(scanner, "BT") || token_is(scanner, "ET"))
        marking->in_text = token_is(scanner, "BT");
    if (marking->tagged == 0 && token_in(scanner, painting))
        marking->painted = true;
    /* The bytes of an inline image are no tokens. Cairo writes none. */
    return !token_is(scanner, "ID");
}

/* Each page is read by itself: what it opens may not go on to the next.
 * ensures: false where sequences do not nest, or one stays open; what `out`
 * holds is of no use then. */
bool content_mark_artifacts(struct buffer *out, const char *stream,
                            size_t length)
{
    struct marking marking = {.out = out, .scanner = {stream, length, 0, 0, 0}};
    while (next_token(&marking.scanner)) {
        if (token_is(&marking.scanner, "/MCID"))
            marking.identified = true;
        if (!is_operator(&marking.scanner))
            continue;
        if (!follow_operator(&marking))
            return false;
        marking.identified = false;
        marking.operands = marking.scanner.end;
    }
    flush_segment(&marking, length);
    return marking.tagged == 0 && marking.loose == 0 && !marking.in_text;
}
