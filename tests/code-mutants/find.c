/* The kinds of change: a comparison turned, a constant off by one, a branch
 * inverted, two neighbouring arguments exchanged, "and" for "or", plus for
 * minus. Inside functions, and constants that a file begins with; not in what
 * says that a fault is our own. Read next: tokens.c. */
#include "find.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

struct finder {
    struct arena *arena;
    const struct code *code;
    struct tokens tokens;
    struct mutants mutants;
};

static bool is(const struct finder *finder, size_t at, const char *text)
{
    return at < finder->tokens.count &&
           token_is(finder->code, &finder->tokens.items[at], text);
}

static bool is_one_of(const struct finder *finder, size_t at,
                      const char *const *texts)
{
    for (; *texts != NULL; texts++)
        if (is(finder, at, *texts))
            return true;
    return false;
}

static const char *text_of(const struct finder *finder, size_t from, size_t to)
{
    const size_t start = finder->tokens.items[from].start;
    return one_line(finder->arena, finder->code->bytes + start,
                    finder->tokens.items[to].end - start);
}

/* The tokens `from` to `to` become `text`. */
static void add(struct finder *finder, size_t from, size_t to, const char *kind,
                const char *text)
{
    const struct token *first = &finder->tokens.items[from];
    *LIST_ADD(finder->arena, &finder->mutants) = (struct mutant){
        first->line, first->start, finder->tokens.items[to].end - first->start,
        text, kind};
}

/* ---- brackets ---- */

static const char *const opening[] = {"(", "[", "{", NULL};
static const char *const closing[] = {")", "]", "}", NULL};

/* Behind `at`, the first of these signs outside of brackets that open there;
 * the end of the tokens where there is none. */
static size_t find_outside(const struct finder *finder, size_t at,
                           const char *const *signs)
{
    int depth = 0;
    for (; at < finder->tokens.count; at++) {
        if (depth == 0 && is_one_of(finder, at, signs))
            return at;
        depth += is_one_of(finder, at, opening);
        depth -= is_one_of(finder, at, closing);
        if (depth < 0)
            return finder->tokens.count;
    }
    return at;
}

static size_t closing_of(const struct finder *finder, size_t at)
{
    return find_outside(finder, at + 1, closing);
}

/* ---- the kinds ---- */

static void find_exchange(struct finder *finder, size_t at, const char *kind,
                          const char *const (*pairs)[2])
{
    for (; (*pairs)[0] != NULL; pairs++)
        if (is(finder, at, (*pairs)[0]))
            add(finder, at, at, kind, (*pairs)[1]);
}

static void find_signs(struct finder *finder, size_t at)
{
    static const char *const compared[][2] = {
        {"<", "<="},  {"<=", "<"},  {">", ">="}, {">=", ">"},
        {"==", "!="}, {"!=", "=="}, {NULL, NULL}};
    static const char *const logic[][2] = {
        {"&&", "||"}, {"||", "&&"}, {NULL, NULL}};
    static const char *const sums[][2] = {
        {"++", "--"}, {"--", "++"}, {"+=", "-="}, {"-=", "+="}, {NULL, NULL}};
    static const char *const binary[][2] = {
        {"+", "-"}, {"-", "+"}, {NULL, NULL}};
    static const char *const words[][2] = {
        {"true", "false"}, {"false", "true"}, {NULL, NULL}};
    static const char *const no_value[] = {"return", "case", NULL};
    find_exchange(finder, at, "comparison", compared);
    find_exchange(finder, at, "logic", logic);
    find_exchange(finder, at, "sum", sums);
    find_exchange(finder, at, "constant", words);
    const bool behind_value =
        at > 0 && !is_one_of(finder, at - 1, no_value) &&
        (finder->tokens.items[at - 1].kind != TOKEN_SIGN ||
         is(finder, at - 1, ")") || is(finder, at - 1, "]"));
    if (behind_value)
        find_exchange(finder, at, "sum", binary);
}

/* Decimal numbers, of fractions the whole part; their ending stays. */
static void find_constant(struct finder *finder, size_t at)
{
    const struct token *token = &finder->tokens.items[at];
    if (token->kind != TOKEN_NUMBER)
        return;
    const char *text = text_of(finder, at, at);
    char *end = NULL;
    const unsigned long long value = strtoull(text, &end, 10);
    if (strpbrk(text, "xXeE") != NULL || strlen(text) > 12)
        return;
    add(finder, at, at, "constant",
        arena_printf(finder->arena, "%llu%s", value + 1, end));
    if (value > 0)
        add(finder, at, at, "constant",
            arena_printf(finder->arena, "%llu%s", value - 1, end));
}

static void find_branch(struct finder *finder, size_t at)
{
    if (!is(finder, at, "if") || !is(finder, at + 1, "("))
        return;
    const size_t end = closing_of(finder, at + 1);
    if (end < finder->tokens.count)
        add(finder, at + 1, end, "branch",
            arena_printf(finder->arena, "(!%s)", text_of(finder, at + 1, end)));
}

/* What stands for true and for false, exchanged. */
static void find_choice(struct finder *finder, size_t at)
{
    static const char *const ends[] = {",", ";", ")", "]", "}", NULL};
    if (!is(finder, at, "?"))
        return;
    const size_t end = find_outside(finder, at + 1, ends);
    size_t colon = at + 1;
    for (int open = 1; colon < end; colon++) {
        open += is(finder, colon, "?");
        open -= is(finder, colon, ":");
        if (open == 0)
            break;
    }
    if (colon + 1 < end && end < finder->tokens.count)
        add(finder, at, end - 1, "branch",
            arena_printf(finder->arena, "? %s : %s",
                         text_of(finder, colon + 1, end - 1),
                         text_of(finder, at + 1, colon - 1)));
}

/* A mutant for each two neighbours that differ; of functions to which the order
 * is nothing it would be the same program. */
static void find_arguments(struct finder *finder, size_t at)
{
    static const char *const not_called[] = {
        "if", "for", "while", "switch", "return", "sizeof", "LIST", NULL};
    static const char *const without_order[] = {"rational_add",
                                                "rational_mul",
                                                "rational_min",
                                                "rational_max",
                                                "rational_equal",
                                                "fmin",
                                                "fmax",
                                                "hypot",
                                                "face_shared_area",
                                                "picture_differences",
                                                "plus",
                                                "times",
                                                NULL};
    static const char *const ends[] = {",", ")", NULL};
    if (finder->tokens.items[at].kind != TOKEN_NAME ||
        !is(finder, at + 1, "(") || is_one_of(finder, at, not_called) ||
        is_one_of(finder, at, without_order))
        return;
    size_t first = at + 2;
    size_t comma = find_outside(finder, first, ends);
    while (is(finder, comma, ",")) {
        const size_t next = comma + 1;
        const size_t end = find_outside(finder, next, ends);
        if (end >= finder->tokens.count || end == next || comma == first)
            return;
        const char *a = text_of(finder, first, comma - 1);
        const char *b = text_of(finder, next, end - 1);
        if (strcmp(a, b) != 0)
            add(finder, first, end - 1, "argument",
                arena_printf(finder->arena, "%s, %s", b, a));
        first = next;
        comma = end;
    }
}

/* ---- where ---- */

/* The room of an array in its declaration: NAME NAME [, after a type and before
 * a value. */
static bool opens_room(const struct finder *finder, size_t at)
{
    return is(finder, at, "[") && at >= 2 &&
           finder->tokens.items[at - 1].kind == TOKEN_NAME &&
           (finder->tokens.items[at - 2].kind == TOKEN_NAME ||
            is(finder, at - 2, "*"));
}

/* ensures: the token behind what is passed over, or `at`. */
static size_t skip_untouchable(const struct finder *finder, size_t at)
{
    static const char *const own_faults[] = {"internal_error", "static_assert",
                                             "_Static_assert", NULL};
    static const char *const ends[] = {";", NULL};
    if (is_one_of(finder, at, own_faults))
        return find_outside(finder, at, ends);
    if (!opens_room(finder, at))
        return at;
    at = closing_of(finder, at);
    while (is(finder, at + 1, "["))
        at = closing_of(finder, at + 1);
    return at;
}

/* Where the function that begins with `{` ends. */
static size_t find_in_function(struct finder *finder, size_t at)
{
    const size_t end = closing_of(finder, at);
    while (++at < end && at < finder->tokens.count) {
        const size_t behind = skip_untouchable(finder, at);
        if (behind != at) {
            at = behind;
            continue;
        }
        find_signs(finder, at);
        find_constant(finder, at);
        find_branch(finder, at);
        find_choice(finder, at);
        find_arguments(finder, at);
    }
    return end;
}

/* Values at the top of a file: constants, tables, numbered names. Places in
 * tables and rooms of arrays stand in square brackets. */
static size_t find_in_value(struct finder *finder, size_t at)
{
    static const char *const ends[] = {",", ";", "}", NULL};
    const size_t end = find_outside(finder, at, ends);
    for (; at < end && at < finder->tokens.count; at++) {
        if (is(finder, at, "["))
            at = closing_of(finder, at);
        else
            find_constant(finder, at);
    }
    return end;
}

static int by_line(const void *a, const void *b)
{
    const struct mutant *x = a, *y = b;
    if (x->line != y->line)
        return x->line < y->line ? -1 : 1;
    if (x->offset != y->offset)
        return x->offset < y->offset ? -1 : 1;
    return strcmp(x->text, y->text);
}

struct mutants find_mutants(struct arena *arena, const struct code *code)
{
    struct finder finder = {arena, code, tokens_of(arena, code), {NULL, 0, 0}};
    for (size_t at = 0; at < finder.tokens.count; at++) {
        if (is(&finder, at, "{") && is(&finder, at - 1, ")"))
            at = find_in_function(&finder, at);
        else if (is(&finder, at, "="))
            at = find_in_value(&finder, at + 1);
    }
    if (finder.mutants.count > 0)
        qsort(finder.mutants.items, finder.mutants.count,
              sizeof *finder.mutants.items, by_line);
    return finder.mutants;
}
