/* A small source, taken as far through the stages as a test needs, and what
 * was reported about it. */
#ifndef SEAMWRIGHT_TESTS_SMALL_H
#define SEAMWRIGHT_TESTS_SMALL_H

#include <stdio.h>
#include <string.h>

#include "../unit.h"
#include "sewn.h"

struct small {
    struct run *run;
    const char *text;
    const struct pattern *pattern;
    struct design *design;
    struct sized *sized;
    struct sewn *sewn; /* NULL where there were errors before */
};

/* Fabrics 0 night, 1 flame, 2 glow; keys n, f, g. */
#define SMALL_HEAD                                                        \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"small\" "           \
    "title=\"Small\" units=\"in\" seam=\"1/4\">\n"                        \
    "<fabrics><fabric id=\"night\" key=\"n\"/><fabric id=\"flame\" "      \
    "key=\"f\"/><fabric id=\"glow\" key=\"g\"/></fabrics>\n"              \
    "<colorway id=\"dusk\"><cloth fabric=\"night\" color=\"#1d2540\"/>"   \
    "<cloth fabric=\"flame\" color=\"#d9552b\"/>"                         \
    "<cloth fabric=\"glow\" color=\"#f2cf63\"/></colorway>\n"

static inline struct small small_whole(struct arena *arena, const char *text)
{
    struct small small = {.text = text};
    small.run = run_create(
        arena, source_create(arena, "small.xml", text, strlen(text)));
    small.pattern = read_pattern(small.run);
    assert_non_null(small.pattern);
    small.design = resolve_pattern(small.run, small.pattern);
    return small;
}

/* `body` with the fabrics above and the end tag around it. */
static inline struct small small_resolve(struct arena *arena, const char *body)
{
    return small_whole(arena, arena_printf(arena, "%s%s</pattern>\n",
                                           SMALL_HEAD, body));
}

static inline struct small small_solve(struct arena *arena, const char *body)
{
    struct small small = small_resolve(arena, body);
    small.sized = solve_design(small.run, small.design);
    return small;
}

/* The passes of the driver, with its gate before sewing. */
static inline void small_finish(struct small *small)
{
    if (small->sized == NULL)
        small->sized = solve_design(small->run, small->design);
    check_pictures(small->run, small->sized);
    if (diag_count(small->run, DIAG_ERROR) == 0)
        small->sewn = sew_design(small->run, small->sized);
}

static inline struct small small_sew(struct arena *arena, const char *body)
{
    struct small small = small_solve(arena, body);
    small_finish(&small);
    return small;
}

/* ---- what was reported ---- */

/* Shows source and messages where an expectation fails. */
static inline void small_show(const struct small *small)
{
    fprintf(stderr, "%s\n", small->text);
    diag_print(small->run, (struct diag_style){false, false}, stderr);
}

/* ensures: the number of different messages with this code. */
static inline size_t small_count(const struct small *small, enum diag_code code)
{
    const struct diagnostic **sorted;
    size_t count = 0;
    for (size_t i = 0, all = diag_sorted(small->run, &sorted); i < all; i++)
        count += sorted[i]->code == code;
    return count;
}

static inline size_t small_errors(const struct small *small)
{
    const struct diagnostic **sorted;
    size_t count = 0;
    for (size_t i = 0, all = diag_sorted(small->run, &sorted); i < all; i++)
        count += diag_entry(sorted[i]->code)->level == DIAG_ERROR;
    return count;
}

static inline void expect_clean(const struct small *small)
{
    if (small_errors(small) > 0)
        small_show(small);
    assert_int_equal(small_errors(small), 0);
}

/* Where `part` lies in `context`, which the source must have just once. */
static inline uint32_t small_place(const struct small *small,
                                   const char *context, const char *part)
{
    const char *at = strstr(small->text, context);
    if (at == NULL || strstr(at + 1, context) != NULL)
        fprintf(stderr, "not once in the source: %s\n", context);
    assert_non_null(at);
    assert_null(strstr(at + 1, context));
    const char *inside = strstr(at, part);
    assert_non_null(inside);
    return (uint32_t)(inside - small->text);
}

/* The message with this code at that place; there must be one. */
static inline const struct diagnostic *expect_at(const struct small *small,
                                                 enum diag_code code,
                                                 const char *context,
                                                 const char *part)
{
    const uint32_t place = small_place(small, context, part);
    const struct diagnostic **sorted;
    for (size_t i = 0, all = diag_sorted(small->run, &sorted); i < all; i++)
        if (sorted[i]->code == code && sorted[i]->span.start == place)
            return sorted[i];
    small_show(small);
    fail_msg("no [%s] at \"%s\" of %s", diag_entry(code)->name, part, context);
    return NULL;
}

/* That message, and no other error. */
static inline const struct diagnostic *expect_only(const struct small *small,
                                                   enum diag_code code,
                                                   const char *context,
                                                   const char *part)
{
    const struct diagnostic *d = expect_at(small, code, context, part);
    const size_t own = diag_entry(code)->level == DIAG_ERROR;
    if (small_errors(small) != own || small_count(small, code) != 1)
        small_show(small);
    assert_int_equal(small_errors(small), own);
    assert_int_equal(small_count(small, code), 1);
    return d;
}

/* True where the message, one of its notes or its help holds the words. */
static inline bool says(const struct diagnostic *d, const char *words)
{
    bool found = strstr(d->message, words) != NULL ||
                 (d->help != NULL && strstr(d->help, words) != NULL);
    for (size_t i = 0; i < d->notes.count; i++)
        found |= strstr(d->notes.items[i].text, words) != NULL;
    return found;
}

/* ---- what was made ---- */

/* The piece with this id; its index is that of its sizes. */
static inline const struct piece *small_piece(const struct small *small,
                                              const char *id)
{
    for (size_t i = 0; i < small->design->pieces.count; i++) {
        const struct piece *piece = small->design->pieces.items[i];
        if (piece->id != NULL && strcmp(piece->id, id) == 0)
            return piece;
    }
    fail_msg("no piece with the id %s", id);
    return NULL;
}

static inline void assert_rational(struct rational found, int64_t num,
                                   int64_t den)
{
    const struct rational wanted = rational_make(num, den);
    if (!rational_equal(found, wanted))
        fail_msg("%lld/%lld instead of %lld/%lld", (long long)found.num,
                 (long long)found.den, (long long)wanted.num,
                 (long long)wanted.den);
}

#endif
