/* Words that several checks share. Read next: quilting.c. */
#include "echo.h"
#include "fill.h"
#include "nodes.h"
#include "quilter.h"

#include <math.h>
#include <stdarg.h>

/* Also marks the quilt: behind an error, what hangs on it is not said. */
struct diagnostic *say_error(struct quilter *quilter, enum diag_code code,
                             struct span span, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = arena_vprintf(quilter->arena, format, arguments);
    va_end(arguments);
    quilter->failed = true;
    return diag_report(quilter->run, code, span, "%s", text);
}

/* The element whose lines outgrow the numbers is told, once; what follows
 * from it is not. */
bool say_fault(struct quilter *quilter, const struct told_item *item,
               struct fault fault)
{
    const struct element *element =
        item == NULL ? quilter->told->element : item->element;
    switch (fault.kind) {
    case FAULT_NONE:
        return false;
    case FAULT_LIMIT:
        break;
    case FAULT_ROOM:
        internal_error("the geometry of a `%s` came to nothing",
                       element_name(element->kind));
    }
    /* Every later line would echo it. */
    if (!quilter->failed) {
        struct diagnostic *d = say_error(
            quilter, DIAG_LIMIT, element->name,
            "this `%s` makes lines too fine or too many to be worked out",
            element_name(element->kind));
        diag_note(quilter->run, d, (struct span){0, 0},
                  "places where lines meet are exact, in whole numbers of 1,024 "
                  "bits; an area holds at most %d echoes and %d lines, all lines of "
                  "a quilt %d straight stretches, and %d once they are cut where "
                  "they meet",
                  ECHO_MOST, FILL_MOST, QUILTING_MOST, NODES_MOST);
        if (item != NULL &&
            (item->kind == TOLD_ECHO || item->kind == TOLD_FILL))
            diag_help(quilter->run, d,
                      item->kind == TOLD_ECHO
                          ? "a wider spacing or fewer `times` makes fewer; "
                            "times=\"all\" ends where no room is left"
                          : "a wider spacing makes fewer");
        if (item != NULL && item->kind == TOLD_CONNECT &&
            item->of.connect.pair == TOLD_ALL)
            diag_help(quilter->run, d,
                      "pair=\"nearest\" asks few pairs of points, pair=\"all\" "
                      "each with each");
    }
    quilter->failed = true;
    return true;
}

/* As few places as tell it, three at most. */
const char *size_words(struct quilter *quilter, double size)
{
    const struct rational value = rational_make(llround(size * 1000), 1000);
    const int places = value.den == 1                        ? 0
                       : rational_times(value, 10).den == 1  ? 1
                       : rational_times(value, 100).den == 1 ? 2
                                                             : 3;
    return rational_decimal(quilter->arena, value, places);
}

const char *length_words(struct quilter *quilter, double length)
{
    return arena_printf(
        quilter->arena, "%s %s", size_words(quilter, length),
        length_unit_name(quilter->sized->design->pattern->units));
}

/* From two edges, and from the block that one looks for first. */
const char *place_words(struct quilter *quilter, struct spot at)
{
    const struct setting_cell *cell = nearest_cell(quilter, at);
    return arena_printf(
        quilter->arena,
        "%s from the left and %s from the top (row %zu, "
        "column %zu)",
        length_words(quilter, at.x), length_words(quilter, at.y),
        cell == NULL ? 1 : cell->row, cell == NULL ? 1 : cell->column);
}
