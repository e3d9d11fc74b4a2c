/* What each technique takes, as sums of one side. Coefficients are derived by
 * plane geometry: a seam of width q beside the diagonal of a square takes 2q
 * across it, and so 2q / sqrt 2 of a side. Read next: sums.c. */
#include "form.h"

struct supply supply_heap(size_t heap)
{
    return (struct supply){heap, 0, 0};
}

struct supply supply_cut(double across, double down)
{
    return (struct supply){NO_HEAP, across, down};
}

void take(struct arena *arena, struct form *form, struct supply supply,
          int side, double factor)
{
    if (supply.heap == NO_HEAP) {
        form->base += factor * (side == ACROSS ? supply.across : supply.down);
        form->cuts += factor * factor;
        return;
    }
    *LIST_ADD(arena, &form->terms) = (struct term){supply.heap, side, factor};
}

/* The factor is below 0: a fold takes. */
void add_fold(struct form *form, bool open, double factor)
{
    if (open)
        form->folds_open += factor;
    else
        form->folds += factor;
}

/* It takes its width from both pieces, with the same chance. */
void add_seam(struct form *form, bool open)
{
    form->seams -= 2;
    form->stitches += 4;
    add_fold(form, open, -1);
}

/* Four seams, each of which takes its width from one edge of what stands on its
 * corner, and of that the root of 2: stitches of 4 * 1/2. */
void add_slanted_seams(struct form *form, bool open)
{
    form->seams -= 4 / ROOT2;
    form->stitches += 2;
    add_fold(form, open, -2 / ROOT2);
}

/* The last that is done to a side. */
void trim_form(struct form *form, double size)
{
    form->trimmed = true;
    form->size = size;
}

/* The flap's edge lies further out by sqrt 2 of what the line lies off,
 * whatever the square: its own size cancels, but not the errors of its two
 * sides. */
void add_flap(struct arena *arena, struct form *form, struct supply square,
              bool open, double share)
{
    take(arena, form, square, ACROSS, share / 2);
    take(arena, form, square, DOWN, -share / 2);
    form->lines += ROOT2 * share;
    form->stitches += 2 * share * share;
    add_fold(form, open, -share / ROOT2);
}

/* Of the four sides that two squares have, two are left, each half of the
 * unit's side. Four at a time, the seam runs along the edge, and the cuts on
 * both diagonals become the unit's edges; of eight, each unit has a quarter of
 * its squares, two sides of which are cut after sewing. */
void pair_form(struct arena *arena, struct form *form,
               enum half_square_method method, struct supply base,
               struct supply laid, bool open)
{
    const double part = method == METHOD_FOUR    ? 1 / (2 * ROOT2)
                        : method == METHOD_EIGHT ? 0.25
                                                 : 0.5;
    take(arena, form, base, ACROSS, part);
    take(arena, form, laid, DOWN, part);
    add_fold(form, open, -1 / ROOT2);
    form->stitches += 2;
    if (method == METHOD_ONE)
        form->lines += ROOT2;
    else
        form->seams -= ROOT2;
    if (method == METHOD_FOUR)
        form->cuts += 2;
    else if (method == METHOD_EIGHT)
        form->cuts += 0.5;
}

/* The base is a side of the large square, less what two seams beside diagonals
 * take; a side of the unit is one of a small square, less one such seam. */
void geese_form(struct arena *arena, struct form *form, bool along,
                struct supply large, struct supply near, struct supply free,
                bool open)
{
    if (along) {
        take(arena, form, large, ACROSS, 1);
    } else {
        take(arena, form, near, DOWN, 0.5);
        take(arena, form, free, DOWN, 0.5);
    }
    const double seams = along ? 2 : 1;
    form->seams -= seams * ROOT2;
    form->stitches += along ? 4 : 1;
    add_fold(form, open, -seams / ROOT2);
}

/* From corner to corner: the center, a whole square on its point (the two
 * halves of one cut, so that the cut between them does not matter), less two
 * seams. A side is that by the root of 2; both ways count half. */
void triangles_form(struct arena *arena, struct form *form,
                    struct supply center, struct supply first,
                    struct supply second, bool open)
{
    take(arena, form, center, ACROSS, 1 / (2 * ROOT2));
    take(arena, form, center, DOWN, 1 / (2 * ROOT2));
    take(arena, form, first, ACROSS, 0.25);
    take(arena, form, first, DOWN, 0.25);
    take(arena, form, second, ACROSS, 0.25);
    take(arena, form, second, DOWN, 0.25);
    form->seams -= 2 * ROOT2;
    form->stitches += 2;
    add_fold(form, open, -ROOT2);
}
