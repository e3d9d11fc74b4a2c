/* Where a C source can be changed at one place. */
#ifndef SEAMWRIGHT_TESTS_FIND_H
#define SEAMWRIGHT_TESTS_FIND_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"

struct code {
    const char *path, *bytes;
    size_t length;
};

struct mutant {
    size_t line;           /* from 1 */
    size_t offset, length; /* of what goes */
    const char *text;      /* what stands there instead, on one line */
    const char *kind;
};
struct mutants {
    struct mutant *items;
    size_t count, capacity;
};

/* ensures: all of them by their lines. */
struct mutants find_mutants(struct arena *arena, const struct code *code);

/* ensures: the text with one blank for each row of blanks and ends of lines. */
const char *one_line(struct arena *arena, const char *bytes, size_t length);

/* ---- tokens ---- */

enum token_kind { TOKEN_NAME, TOKEN_NUMBER, TOKEN_STRING, TOKEN_SIGN };

struct token {
    enum token_kind kind;
    size_t start, end, line;
};
struct tokens {
    struct token *items;
    size_t count, capacity;
};

/* ensures: all but comments and lines of the preprocessor. */
struct tokens tokens_of(struct arena *arena, const struct code *code);
bool token_is(const struct code *code, const struct token *token,
              const char *text);

#endif
