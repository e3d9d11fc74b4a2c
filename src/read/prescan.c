/* A linear look at the bytes before libxml2 sees them. It does not judge the
 * XML: it only measures what would cost too much to parse. May assume nothing
 * but a NUL behind the last byte. What passes is UTF-8 without NUL and of
 * bounded depth, which xml.c and every recursive walk after it rely on. Read
 * next: xml.c. */
#include "reader.h"

#include <string.h>
#include <strings.h>

struct scan {
    struct run *run;
    const struct opened *file;
    const char *bytes; /* of the file alone */
    size_t length;
    size_t at;    /* of the byte looked at */
    size_t depth; /* open elements, as far as tags tell */
};

/* Length of the UTF-8 sequence at `bytes`, or 0 where it is malformed. */
static size_t utf8_length(const unsigned char *bytes, size_t left)
{
    if (bytes[0] < 0x80)
        return 1;
    const size_t length = bytes[0] >= 0xF0 ? 4 : bytes[0] >= 0xE0 ? 3 : 2;
    if (bytes[0] < 0xC2 || bytes[0] > 0xF4 || length > left)
        return 0;
    for (size_t i = 1; i < length; i++)
        if ((bytes[i] & 0xC0) != 0x80)
            return 0;
    const unsigned second = bytes[1];
    if ((bytes[0] == 0xE0 && second < 0xA0) || /* overlong */
        (bytes[0] == 0xED && second > 0x9F) || /* surrogates */
        (bytes[0] == 0xF0 && second < 0x90) ||
        (bytes[0] == 0xF4 && second > 0x8F))
        return 0;
    return length;
}

/* A place in the file as one in the source. */
static struct span span_in(const struct opened *file, size_t start, size_t end)
{
    return (struct span){file->part.start + (uint32_t)start,
                         file->part.start + (uint32_t)end};
}

/* reports: the first byte that is not UTF-8. One is enough: in a file of
 * another encoding there are thousands. */
static bool check_encoding(const struct scan *scan)
{
    const unsigned char *bytes = (const unsigned char *)scan->bytes;
    const size_t length = scan->length;
    for (size_t i = 0; i < length;) {
        const size_t step =
            bytes[i] == 0 ? 0 : utf8_length(bytes + i, length - i);
        if (step == 0) {
            struct diagnostic *d = diag_report(
                scan->run, DIAG_ENCODING, span_in(scan->file, i, i + 1),
                "byte %02X is no part of UTF-8 text", (unsigned)bytes[i]);
            note_include(scan->run, d, scan->file);
            diag_help(scan->run, d, "save the file with the encoding UTF-8");
            return false;
        }
        i += step;
    }
    return true;
}

/* The XML declaration may name UTF-8 or nothing. A file that names another
 * encoding but passed check_encoding would be read otherwise than its writer
 * meant. reports: such a name. */
static bool check_declaration(const struct scan *scan)
{
    struct run *run = scan->run;
    const char *bytes = scan->bytes;
    const char *text =
        strncmp(bytes, "\xEF\xBB\xBF", 3) == 0 ? bytes + 3 : bytes;
    const char *end =
        strncmp(text, "<?xml", 5) == 0 ? strstr(text, "?>") : NULL;
    const char *word = end == NULL ? NULL : strstr(text, "encoding");
    if (word == NULL || word > end)
        return true;
    const char *open = strpbrk(word, "\"'");
    if (open == NULL || open > end)
        return true;
    const char *close = strchr(open + 1, *open);
    if (close == NULL || close > end)
        return true;
    const size_t length = (size_t)(close - open - 1);
    if (length == 5 && strncasecmp(open + 1, "UTF-8", 5) == 0)
        return true;
    const struct span span = span_in(scan->file, (size_t)(open + 1 - bytes),
                                     (size_t)(close - bytes));
    struct diagnostic *d = diag_report(
        run, DIAG_ENCODING, span, "the file calls itself %s, but UTF-8 is read",
        quoted(run->arena, arena_copy(run->arena, open + 1, length)));
    note_include(run, d, scan->file);
    diag_mend(run, d, span, "UTF-8",
              "save the file as UTF-8 and write encoding=\"UTF-8\"");
    return false;
}

/* Moves behind `end`, or to the end of the text. */
static void skip_past(struct scan *scan, const char *end)
{
    const char *found = strstr(scan->bytes + scan->at, end);
    scan->at = found == NULL ? scan->length
                             : (size_t)(found - scan->bytes) + strlen(end);
}

/* ensures: false, so that a caller can return it. */
static bool limit_exceeded(struct scan *scan, size_t at, const char *what,
                           int limit)
{
    struct diagnostic *d =
        diag_report(scan->run, DIAG_LIMIT, span_in(scan->file, at, at + 1),
                    "more than %d %s", limit, what);
    note_include(scan->run, d, scan->file);
    return false;
}

/* Walks over one start tag; counts its equals signs outside quotes. A tag that
 * closes itself adds no depth. */
static bool scan_tag(struct scan *scan)
{
    const size_t start = scan->at;
    int attributes = 0;
    char quote = '\0';
    char last = '\0';
    for (; scan->at < scan->length; scan->at++) {
        const char c = scan->bytes[scan->at];
        if (quote != '\0') {
            if (c == quote)
                quote = '\0';
            continue;
        }
        if (c == '"' || c == '\'')
            quote = c;
        else if (c == '=')
            attributes++;
        else if (c == '>')
            break;
        last = c;
    }
    scan->at += scan->at < scan->length;
    if (attributes > LIMIT_ATTRIBUTES)
        return limit_exceeded(scan, start, "attributes in one tag",
                              LIMIT_ATTRIBUTES);
    if (scan->depth + 1 > LIMIT_DEPTH)
        return limit_exceeded(scan, start, "elements inside each other",
                              LIMIT_DEPTH);
    scan->depth += last != '/';
    return true;
}

/* ensures: `at` behind the markup that begins here; false where a limit was
 * passed. A stray closing tag takes nothing off depth 0: the parser says so in
 * words of its own. */
static bool scan_markup(struct scan *scan)
{
    const char *here = scan->bytes + scan->at;
    if (strncmp(here, "<!--", 4) == 0) {
        scan->at += 4;
        skip_past(scan, "-->");
    } else if (strncmp(here, "<![CDATA[", 9) == 0) {
        skip_past(scan, "]]>");
    } else if (here[1] == '?') {
        skip_past(scan, "?>");
    } else if (here[1] == '/') {
        scan->depth -= scan->depth > 0;
        skip_past(scan, ">");
    } else if (here[1] == '!') {
        scan->at = scan->length; /* a DOCTYPE: the parser refuses it */
    } else {
        return scan_tag(scan);
    }
    return true;
}

/* One pass over the bytes for each question, so time grows with the length of
 * the file and with nothing in it. */
bool prescan(struct run *run, const struct opened *file)
{
    struct scan scan = {.run = run,
                        .file = file,
                        .bytes = run->source->bytes + file->part.start,
                        .length = file->part.length};
    if (!check_encoding(&scan) || !check_declaration(&scan))
        return false;
    while (scan.at < scan.length) {
        if (scan.bytes[scan.at] != '<')
            scan.at++;
        else if (!scan_markup(&scan))
            return false;
    }
    return true;
}
