/* Quarter-squares: sizes, and the squares that they are cut from. They are
 * half-squares made from half-squares, so every size comes from those. */
#include "solver.h"

/* Square by nature; `size` fixes both sides. */
static void quarter_square_sizes(struct system *system,
                                 const struct piece *piece, bool local_grid)
{
    (void)local_grid;
    system_equal(system, width_of(piece), height_of(piece));
    length_fact(system, width_of(piece), piece->element, &piece->size);
}

/* The half-squares are as large as the squares that a half-square of the same
 * finished size is cut from. Two at a time that is F + 2s + s * sqrt 2, rounded
 * up; they are made two at a time in turn: for s = 1/4, F + 7/8 and F + 1 1/4
 * (K. Combs, Formulas for Quilters, 2002: long side and 1 1/4). */
static struct real_size cut_squares(const struct pattern *pattern,
                                    const struct piece *piece,
                                    struct real_size finished)
{
    struct rational width = finished.width;
    if (piece->method == METHOD_TWO)
        width = rational_sub(half_square_cut(pattern, METHOD_TWO, width).side,
                             rational_times(pattern->seam, 2));
    const struct rational side =
        half_square_cut(pattern, piece->method, width).side;
    return (struct real_size){side, side};
}

static const char *cut_note(struct run *run, const struct pattern *pattern,
                            const struct piece *piece,
                            struct real_size finished)
{
    const char *size = length_plain(run->arena, finished.width, pattern->units);
    if (piece->method == METHOD_ONE)
        return arena_printf(run->arena,
                            "%s finished; one at a time the squares of its "
                            "half-squares take two seams more",
                            size);
    const struct real_size half = {
        half_square_cut(pattern, METHOD_TWO, finished.width).side,
        rational_unknown()};
    return arena_printf(
        run->arena,
        "%s finished; its half-squares are trimmed to %s, and their squares "
        "take seam x root 2 more, rounded up to the cutting step",
        size, length_plain(run->arena, half.width, pattern->units));
}

/* Corner c lies between side c, clockwise from the top, and the one before.
 * reports: a plain half of two fabrics. */
static void check_plain(struct run *run, const struct sized *sized,
                        const struct piece *piece)
{
    const struct piece_fabric *sides = piece->fabrics.items;
    const struct piece_fabric *next = &sides[piece->plain];
    const struct piece_fabric *before = &sides[(piece->plain + 3) % 4];
    if (!piece->has_plain || next->fabric == before->fabric ||
        next->fabric == NO_FABRIC || before->fabric == NO_FABRIC)
        return;
    const char *name = fabric_id(sized->design, before->fabric);
    struct diagnostic *d = report_in(
        run, sized->sound, piece->owner, DIAG_STATEMENT,
        value_span(piece->element, ATTR_PLAIN),
        "the %s half is plain, but its `%s` is of `%s` and its `%s` of `%s`",
        corner_name(piece->plain), attribute_name(before->attribute), name,
        attribute_name(next->attribute), fabric_id(sized->design, next->fabric));
    diag_mend(run, d, value_span(piece->element, next->attribute), name,
              "%s=\"%s\" makes it one piece of cloth",
              attribute_name(next->attribute), name);
}

const struct sizing sizing_quarter_square = {.sizes = quarter_square_sizes,
                                             .cut = cut_squares,
                                             .cut_note = cut_note,
                                             .check = check_plain};
