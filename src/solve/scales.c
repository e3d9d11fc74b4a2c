/* At which real sizes each definition is sewn, and whether those cut on a
 * ruler. A block with a grid is drawn in squares; a quilt says how large one
 * is, and may use the block at several sizes. factor = real length of one local
 * unit. May assume known sizes or silence. Read next: statements.c. */
#include <string.h>

#include "solver.h"

/* ensures: true where this scale of the definition is new. */
static bool add_scale(struct run *run, struct sized *sized,
                      const struct definition *definition,
                      struct rational factor, struct span span)
{
    struct definition_scales *scales = &sized->scales[definition->index];
    for (size_t i = 0; i < scales->items.count; i++)
        if (rational_equal(scales->items.items[i].factor, factor))
            return false;
    struct scale *scale = LIST_ADD(run->arena, &scales->items);
    *scale = (struct scale){factor, span};
    return true;
}

/* What the block's pieces make: its grid, where that is not wrong. */
static struct rational squares_across(const struct sized *sized,
                                      const struct definition *block)
{
    if (block->root != NULL && rational_known(sized->width[block->root->index]))
        return sized->width[block->root->index];
    return block->grid_across;
}

/* A block without a grid, and every unit, keeps the local unit of where it is
 * used. The grid's width lies down the page where the use is turned by a
 * quarter. */
struct rational use_scale(const struct sized *sized, const struct piece *piece,
                          struct rational factor)
{
    if (!piece->target->gridded)
        return factor;
    const bool swapped = piece->orientation.turn % 2 == 1;
    const struct rational across =
        swapped ? sized->height[piece->index] : sized->width[piece->index];
    return rational_div(rational_mul(across, factor),
                        squares_across(sized, piece->target));
}

/* The nearest finished size, up or down, at which a square cuts on the ruler.
 * Sizes for which a square is a whole number of steps are multiples of squares
 * * step. */
static struct rational ruler_size(struct rational finished,
                                  struct rational squares, struct rational step,
                                  bool up)
{
    const struct rational unit = rational_mul(squares, step);
    const struct rational larger = rational_round_up(finished, unit);
    return up ? larger : rational_sub(larger, unit);
}

void help_ruler(struct run *run, struct diagnostic *d,
                const struct pattern *pattern, struct rational finished,
                struct rational squares, const char *what)
{
    const struct rational below =
        ruler_size(finished, squares, pattern->cutting_step, false);
    const char *up = length_plain(
        run->arena, ruler_size(finished, squares, pattern->cutting_step, true),
        pattern->units);
    if (rational_sign(below) > 0)
        diag_help(run, d, "%s that cut: %s and %s", what,
                  length_plain(run->arena, below, pattern->units), up);
    else
        diag_help(run, d, "the smallest %.*s that cuts: %s",
                  (int)strlen(what) - 1, what, up);
}

/* `square` is the real side of one grid square. reports: one that is no whole
 * number of cutting steps, with the next sizes that are. A warning or an error
 * as the catalogue says; the numbers stay exact either way. */
static void check_ruler(struct run *run, const struct sized *sized,
                        const struct piece *use, struct rational square)
{
    const struct pattern *pattern = sized->design->pattern;
    const struct rational steps = rational_div(square, pattern->cutting_step);
    if (!rational_known(steps) || steps.den == 1)
        return;
    const struct rational squares = squares_across(sized, use->target);
    const struct rational finished = rational_mul(square, squares);
    /* The size that was written, or, where its neighbors gave it, the block's
     * name. */
    const enum attribute_id id =
        use->finished.written ? ATTR_FINISHED : ATTR_BLOCK;
    struct diagnostic *d = report_in(
        run, sized->sound, use->owner, DIAG_RULER, value_span(use->element, id),
        "a grid square of `%s` is %s, which no ruler cuts", use->target->id,
        length_plain(run->arena, square, pattern->units));
    diag_note(run, d, (struct span){0, 0},
              "%s over %s squares = %s; cutting steps are %s",
              length_plain(run->arena, finished, pattern->units),
              length_plain(run->arena, squares, pattern->units),
              length_plain(run->arena, square, pattern->units),
              length_plain(run->arena, pattern->cutting_step, pattern->units));
    help_ruler(run, d, pattern, finished, squares, "finished sizes");
}

/* Each definition once a scale; a design without circles has finitely many. */
static void walk(struct run *run, struct sized *sized,
                 const struct definition *definition, struct rational factor,
                 struct span span)
{
    if (!rational_known(factor) ||
        !add_scale(run, sized, definition, factor, span))
        return;
    for (size_t i = 0; i < definition->uses.count; i++) {
        const struct piece *piece = definition->uses.items[i];
        if (piece->target == NULL)
            continue;
        const struct rational inner = use_scale(sized, piece, factor);
        if (piece->target->gridded && rational_known(inner))
            check_ruler(run, sized, piece, inner);
        walk(run, sized, piece->target, inner, piece->element->name);
    }
}

/* What a quilt with a mistake uses may be sewn at scales that nobody knows. */
static void open_scales(struct sized *sized,
                        const struct definition *definition)
{
    for (size_t i = 0; i < definition->uses.count; i++) {
        const struct definition *target = definition->uses.items[i]->target;
        if (target == NULL || sized->scales[target->index].open)
            continue;
        sized->scales[target->index].open = true;
        open_scales(sized, target);
    }
}

/* Quilts are sewn at scale 1: their local unit is the pattern's. What no quilt
 * reaches has no scale at all, which statements.c takes for "not checked". */
void find_scales(struct run *run, struct sized *sized)
{
    const struct design *design = sized->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *quilt = design->definitions.items[i];
        if (quilt->kind != DEFINE_QUILT)
            continue;
        if (!sized->sound[quilt->index])
            open_scales(sized, quilt);
        walk(run, sized, quilt, rational_whole(1), quilt->element->name);
    }
}
