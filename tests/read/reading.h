/* Reading a text in memory, for the tests here. */
#ifndef SEAMWRIGHT_TESTS_READ_READING_H
#define SEAMWRIGHT_TESTS_READ_READING_H

#include <string.h>

#include "../unit.h"
#include "pattern.h"
#include "source.h"

struct reading {
    struct run *run;
    struct pattern *pattern; /* NULL where nothing could be read */
};

/* Reads `length` bytes, which are copied so that a sanitizer sees every step
 * past their end. */
static inline struct reading read_bytes(struct arena *arena, const char *bytes,
                                        size_t length)
{
    const char *copy = arena_copy(arena, bytes, length);
    struct reading reading = {
        .run =
            run_create(arena, source_create(arena, "tide.xml", copy, length))};
    reading.pattern = read_pattern(reading.run);
    return reading;
}

static inline struct reading read_text(void **state, const char *text)
{
    return read_bytes(*state, text, strlen(text));
}

/* The diagnostic of that rank in the order of the source. */
static inline const struct diagnostic *diagnostic_at(struct reading reading,
                                                     size_t index)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(reading.run, &sorted);
    assert_true(index < count);
    return sorted[index];
}

/* Nothing was wrong; what was is told. */
static inline void assert_sound(struct reading reading)
{
    if (reading.pattern == NULL || diag_count(reading.run, DIAG_ERROR) > 0)
        diag_print(reading.run, (struct diag_style){false, false}, stdout);
    assert_non_null(reading.pattern);
    assert_int_equal(diag_count(reading.run, DIAG_ERROR), 0);
}

/* One error and no more, of that code, at that line and column. */
static inline void assert_one_error(struct reading reading, enum diag_code code,
                                    size_t line, size_t column)
{
    assert_int_equal(diag_count(reading.run, DIAG_ERROR), 1);
    const struct diagnostic *d = diagnostic_at(reading, 0);
    const struct place place = source_place(reading.run->source, d->span.start);
    if (d->code != code || place.line != line || place.column != column)
        print_message("# %zu:%zu: %s [%s]\n", place.line, place.column,
                      d->message, diag_entry(d->code)->name);
    assert_int_equal(d->code, code);
    assert_int_equal(place.line, line);
    assert_int_equal(place.column, column);
}

#endif
