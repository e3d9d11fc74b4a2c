/* A run over a text in memory, and what it prints, for the tests here. */
#ifndef SEAMWRIGHT_TESTS_DIAG_PRINTED_H
#define SEAMWRIGHT_TESTS_DIAG_PRINTED_H

#include <stdlib.h>
#include <string.h>

#include "../unit.h"
#include "diag.h"

static inline struct run *run_of(struct arena *arena, const char *bytes,
                                 size_t length)
{
    return run_create(arena,
                      source_create(arena, "lantern.xml", bytes, length));
}

static inline struct run *run_over(void **state, const char *text)
{
    return run_of(*state, text, strlen(text));
}

static inline const char *printed(const struct run *run,
                                  struct diag_style style)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    diag_print(run, style, out);
    assert_int_equal(fclose(out), 0);
    const char *copy = arena_copy(run->arena, text, length);
    free(text);
    return copy;
}

static inline const char *plain(const struct run *run)
{
    return printed(run, (struct diag_style){false, false});
}

#endif
