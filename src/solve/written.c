/* What is written and can be read, but cannot be meant: decimals that no ruler
 * has, and cloth that is sewn and then wholly covered. May assume that sizes
 * are solved. */
#include <string.h>

#include "solver.h"

/* ---- decimals ---- */

/* Rulers in inches have halves, quarters, eighths and so on, down to 1/64;
 * those in centimetres have millimetres and their halves. A third is written as
 * one. */
static bool on_ruler(struct rational value, enum length_unit units)
{
    return rational_is_fraction(value) &&
           (units == UNIT_IN ? 64 : 20) % value.den == 0;
}

static struct rational rounded(struct rational value, int64_t parts)
{
    const struct rational twice =
        rational_add(rational_times(value, 2 * parts), rational_whole(1));
    return rational_make(rational_floor(rational_div(twice, rational_whole(2))),
                         parts);
}

/* reports: the fractions beside it, as a question. */
static void check_decimal(struct run *run, const struct sized *sized,
                          const struct definition *owner,
                          const struct stated *stated, enum attribute_id id)
{
    const enum length_unit units = sized->design->pattern->units;
    if (!stated->usable || strchr(stated->text, '.') == NULL ||
        stated->has_unit || on_ruler(stated->value, units))
        return;
    struct diagnostic *d =
        report_in(run, sized->sound, owner, DIAG_RULER, stated->span,
                  "%s=%s is on no ruler", attribute_name(id),
                  quoted(run->arena, stated->text));
    if (units != UNIT_IN)
        return;
    diag_note(run, d, (struct span){0, 0},
              "a decimal is taken as it stands: %s",
              length_plain(run->arena, stated->value, units));
    diag_help(run, d, "is %s meant, or %s?",
              length_plain(run->arena, rounded(stated->value, 3), units),
              length_plain(run->arena, rounded(stated->value, 8), units));
}

static void check_decimals(struct run *run, const struct sized *sized,
                           const struct piece *piece)
{
    const struct stated *all[] = {&piece->width,      &piece->height,
                                  &piece->size,       &piece->finished,
                                  &piece->unfinished, &piece->cut};
    static const enum attribute_id ids[] = {ATTR_WIDTH,      ATTR_HEIGHT,
                                            ATTR_SIZE,       ATTR_FINISHED,
                                            ATTR_UNFINISHED, ATTR_CUT};
    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++)
        check_decimal(run, sized, piece->owner, all[i], ids[i]);
    for (size_t i = 0; i < piece->corners.count; i++)
        check_decimal(run, sized, piece->owner,
                      &piece->corners.items[i].stated_size, ATTR_SIZE);
}

/* ---- hidden cloth ---- */

/* reports: a corner that covers one that was sewn before it in its place. */
static bool covers(struct run *run, const struct sized *sized,
                   const struct piece *piece, const struct corner *first,
                   const struct corner *second)
{
    if (first->at != second->at || !rational_known(first->size) ||
        !rational_known(second->size) ||
        rational_compare(second->size, first->size) < 0)
        return false;
    struct diagnostic *d =
        report_in(run, sized->sound, piece->owner, DIAG_CORNER_SIZE,
                  value_span(second->element, ATTR_AT),
                  "this corner hides the one that was sewn at the %s before it",
                  corner_name(second->at));
    diag_note(run, d, value_span(first->element, ATTR_AT), "the one before");
    return true;
}

/* Two corners as large as a square piece, across from each other. */
static bool covers_all(const struct sized *sized, const struct piece *piece,
                       const struct corner *a, const struct corner *b)
{
    const struct rational width = sized->width[piece->index];
    return (a->at + 2) % 4 == (unsigned)b->at &&
           rational_equal(width, sized->height[piece->index]) &&
           rational_equal(a->size, width) && rational_equal(b->size, width);
}

static void check_hidden(struct run *run, const struct sized *sized,
                         const struct piece *piece)
{
    for (size_t i = 0; i < piece->corners.count; i++)
        for (size_t k = i + 1; k < piece->corners.count; k++) {
            const struct corner *a = &piece->corners.items[i];
            const struct corner *b = &piece->corners.items[k];
            if (covers(run, sized, piece, a, b))
                return;
            if (!covers_all(sized, piece, a, b))
                continue;
            struct diagnostic *d =
                report_in(run, sized->sound, piece->owner, DIAG_CORNER_SIZE,
                          value_span(b->element, ATTR_SIZE),
                          "two corners of %s hide all of this `%s`",
                          length_plain(run->arena, b->size,
                                       sized->design->pattern->units),
                          element_name(piece->element->kind));
            diag_note(run, d, value_span(a->element, ATTR_SIZE),
                      "the other one");
            return;
        }
}

void check_written(struct run *run, const struct sized *sized)
{
    const struct design *design = sized->design;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->first != piece)
            continue;
        check_decimals(run, sized, piece);
        check_hidden(run, sized, piece);
    }
}
