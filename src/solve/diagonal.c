/* Strips joined by diagonal seams: lengths. Read next: half_square.c. */
#include "solver.h"

/* Strips joined by diagonal seams: each join takes one strip width, corner to
 * corner of the overlap (derived). Derived: the overlap is a square of the
 * strip's width, sewn corner to corner, and both strips lie in it once. */
static void diagonal_sizes(struct system *system, const struct piece *piece,
                           bool local_grid)
{
    (void)local_grid;
    const bool across = piece->horizontal;
    const variable length = across ? width_of(piece) : height_of(piece);
    const variable width = across ? height_of(piece) : width_of(piece);
    struct sum *sum =
        system_sum(system, length, piece->element, across ? "wide" : "high");
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct piece *member = piece->cells.items[i].piece;
        system_equal(system, width,
                     across ? height_of(member) : width_of(member));
        system_term(system, sum, across ? width_of(member) : height_of(member),
                    rational_whole(1), member->element);
    }
    const int64_t joins = (int64_t)piece->cells.count - 1;
    if (joins > 0)
        system_term(system, sum, width, rational_whole(-joins), piece->element);
}

/* A member's joins take a strip's width at each end that is joined: an end
 * member must be as long as that, one between two joins longer. Derived: at a
 * joined end a triangle of the overlap is cut away, whose legs are the strip's
 * width. Two of them would meet in a member that is no longer than wide. */
static void check_members(struct run *run, const struct sized *sized,
                          const struct piece *strip)
{
    const struct rational *along =
        strip->horizontal ? sized->width : sized->height;
    const struct rational width =
        (strip->horizontal ? sized->height : sized->width)[strip->index];
    for (size_t i = 0; i < strip->cells.count && strip->cells.count > 1; i++) {
        const struct piece *member = strip->cells.items[i].piece;
        const struct rational length = along[member->index];
        const bool end = i == 0 || i + 1 == strip->cells.count;
        if (!rational_known(length) || !rational_known(width) ||
            rational_compare(length, width) >= (end ? 0 : 1))
            continue;
        const enum length_unit units = sized->design->pattern->units;
        struct diagnostic *d = report_in(
            run, sized->sound, member->owner, DIAG_SIZE_NEGATIVE,
            member->element->name,
            "a member %s long has no room for the diagonal seam%s of a strip "
            "%s wide",
            length_plain(run->arena, length, units), end ? "" : "s",
            length_plain(run->arena, width, units));
        diag_help(run, d, "make it %s %s, its long edge",
                  end ? "at least" : "longer than",
                  length_plain(run->arena, width, units));
    }
}

const struct sizing sizing_diagonal = {.sizes = diagonal_sizes,
                                       .check = check_members};
