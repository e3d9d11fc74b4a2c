/* A C source as tokens: what a change must not touch is not among them. */
#include <ctype.h>
#include <string.h>

#include "find.h"

struct scan {
    const struct code *code;
    size_t at, line;
};

static char peek(const struct scan *scan, size_t ahead)
{
    const size_t at = scan->at + ahead;
    return at < scan->code->length ? scan->code->bytes[at] : '\0';
}

static void step(struct scan *scan)
{
    scan->line += peek(scan, 0) == '\n';
    scan->at++;
}

/* An escaped end of line belongs to it. */
static void skip_line(struct scan *scan)
{
    while (scan->at < scan->code->length && peek(scan, 0) != '\n') {
        if (peek(scan, 0) == '\\')
            step(scan);
        step(scan);
    }
}

static void skip_comment(struct scan *scan)
{
    step(scan);
    step(scan);
    while (scan->at < scan->code->length &&
           !(peek(scan, 0) == '*' && peek(scan, 1) == '/'))
        step(scan);
    step(scan);
    step(scan);
}

/* ensures: true where something was passed over. */
static bool skip_blank(struct scan *scan, bool line_start)
{
    const char c = peek(scan, 0);
    if (isspace((unsigned char)c))
        step(scan);
    else if (c == '/' && peek(scan, 1) == '*')
        skip_comment(scan);
    else if ((c == '/' && peek(scan, 1) == '/') || (c == '#' && line_start))
        skip_line(scan);
    else
        return false;
    return true;
}

static void take_string(struct scan *scan, char quote)
{
    step(scan);
    while (scan->at < scan->code->length && peek(scan, 0) != quote) {
        if (peek(scan, 0) == '\\')
            step(scan);
        step(scan);
    }
    step(scan);
}

/* The longest sign that stands there. */
static void take_sign(struct scan *scan)
{
    static const char *const signs[] = {
        "<<=", ">>=", "...", "->", "++", "--", "<<", ">>", "<=", ">=", "==",
        "!=",  "&&",  "||",  "+=", "-=", "*=", "/=", "%=", "&=", "^=", "|="};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        const size_t length = strlen(signs[i]);
        if (scan->code->length - scan->at >= length &&
            memcmp(scan->code->bytes + scan->at, signs[i], length) == 0) {
            scan->at += length;
            return;
        }
    }
    scan->at++;
}

/* Letters and points belong to a number: 0x1f, 2.5, 10u; a sign behind an
 * exponent does, too. */
static void take_word(struct scan *scan, bool number)
{
    while (isalnum((unsigned char)peek(scan, 0)) || peek(scan, 0) == '_' ||
           (number && peek(scan, 0) == '.') ||
           (number && (peek(scan, 0) == '-' || peek(scan, 0) == '+') &&
            scan->code->bytes[scan->at - 1] == 'e'))
        scan->at++;
}

static enum token_kind take_token(struct scan *scan)
{
    const char c = peek(scan, 0);
    if (c == '"' || c == '\'') {
        take_string(scan, c);
        return TOKEN_STRING;
    }
    if (isdigit((unsigned char)c)) {
        take_word(scan, true);
        return TOKEN_NUMBER;
    }
    if (isalpha((unsigned char)c) || c == '_') {
        take_word(scan, false);
        return TOKEN_NAME;
    }
    take_sign(scan);
    return TOKEN_SIGN;
}

struct tokens tokens_of(struct arena *arena, const struct code *code)
{
    struct scan scan = {code, 0, 1};
    struct tokens tokens = {NULL, 0, 0};
    size_t last_line = 0;
    while (scan.at < code->length) {
        if (skip_blank(&scan, scan.line != last_line))
            continue;
        struct token token = {TOKEN_SIGN, scan.at, scan.at, scan.line};
        token.kind = take_token(&scan);
        token.end = scan.at;
        last_line = scan.line;
        *LIST_ADD(arena, &tokens) = token;
    }
    return tokens;
}

bool token_is(const struct code *code, const struct token *token,
              const char *text)
{
    const size_t length = strlen(text);
    return token->end - token->start == length &&
           memcmp(code->bytes + token->start, text, length) == 0;
}

/* Blanks between words of a string are kept, as they are what it says. */
const char *one_line(struct arena *arena, const char *bytes, size_t length)
{
    char *text = arena_copy(arena, bytes, length);
    size_t end = 0;
    for (size_t i = 0; i < length; i++) {
        const bool blank = text[i] == '\n' || text[i] == '\t';
        if (blank) {
            while (end > 0 && text[end - 1] == ' ')
                end--;
            text[end++] = ' ';
            while (i + 1 < length &&
                   (text[i + 1] == ' ' || text[i + 1] == '\n'))
                i++;
        } else {
            text[end++] = text[i];
        }
    }
    text[end] = '\0';
    return text;
}
