/* Two squares of one size, laid right sides together and sewn on a diagonal or
 * beside it. A seam's width beside a line is a root of 2 along the edges, but
 * what is too much is trimmed off evenly: any line that is a little nearer
 * gives the same cloth, in exact numbers. That the true one leaves enough is
 * proved. Read next: half_square.c. */
#include "bench.h"

/* Towards the corner whose half of the base stays. */
static int kept_x(const struct pair *pair)
{
    return pair->kept == TOP_RIGHT || pair->kept == BOTTOM_RIGHT ? 1 : -1;
}
static int kept_y(const struct pair *pair)
{
    return pair->kept == BOTTOM_LEFT || pair->kept == BOTTOM_RIGHT ? 1 : -1;
}

/* The diagonal that cuts the kept corner off, drawn from corner to corner. */
static void pair_line(const struct bench *bench, const struct pair *pair,
                      struct vertex *p, struct vertex *q)
{
    const struct rational zero = rational_whole(0);
    square_diagonal(bench, zero, zero, pair->side, corner_line(pair->kept), p,
                    q);
}

void lay_pair(const struct bench *bench, struct action *action,
              const struct pair *pair)
{
    action->line = corner_line(pair->kept);
    add_part(bench, action, 0);
    add_part(bench, action, 1);
    show(bench, &action->before, pair->base, 0, 0, 0);
    show(bench, &action->before, pair->laid, 1, 0, 0);
}

void mark_pair_on(const struct bench *bench, struct state *state,
                  const struct pair *pair)
{
    struct vertex p, q;
    pair_line(bench, pair, &p, &q);
    mark_seam(bench, state, p, q, -kept_x(pair), -kept_y(pair));
}

void mark_pair_beside(const struct bench *bench, struct state *state,
                      const struct pair *pair)
{
    struct vertex p, q;
    const int x = kept_x(pair), y = kept_y(pair);
    pair_line(bench, pair, &p, &q);
    mark_line(bench, state, MARK_DRAWN, p, q);
    mark_line(bench, state, MARK_CUT, p, q);
    mark_beside(bench, state, MARK_SEWN, p, q, -x, -y);
    mark_beside(bench, state, MARK_SEWN, p, q, x, y);
}

/* What is on the kept side of the stitch line stays; of the upper square that
 * part is turned over the line. p is the left end. */
static struct cloth *opened(const struct bench *bench, const struct pair *pair,
                            struct vertex p, struct vertex q)
{
    const struct half_plane above = half_plane_left(p, q);
    const struct half_plane keep =
        kept_y(pair) < 0 ? above : half_plane_other(above);
    struct cloth *open = cloth_clipped(bench->arena, pair->base, keep);
    open->seams.count = 0; /* the caller knows where they come to lie */
    cloth_add_all(bench->arena, open,
                  cloth_flipped(bench->arena,
                                cloth_clipped(bench->arena, pair->laid, keep),
                                p, q));
    return open;
}

struct cloth *sew_pair_on(const struct bench *bench, const struct pair *pair)
{
    struct vertex p, q;
    pair_line(bench, pair, &p, &q);
    return opened(bench, pair, p, q);
}

void prove_room(const struct bench *bench, struct rational length,
                struct rational side)
{
    const struct rational square = rational_mul(length, length);
    const struct rational twice = rational_times(rational_mul(side, side), 2);
    if (!rational_known(square) || !rational_known(twice))
        report_too_fine(bench->sewer, bench->heap->piece->element);
    else if (rational_compare(square, twice) < 0)
        internal_error("the squares of `%s` are too small",
                       bench->heap->piece->owner->id);
}

/* 7/5 is a little below the square root of 2. The kept half, opened, is a
 * square at its corner of the two that were laid; half of what is too much
 * comes off at each side, so that the seam stays in the corners. */
struct cloth *sew_pair_beside(const struct bench *bench,
                              const struct pair *pair)
{
    const struct rational along =
        rational_mul(bench->seam, rational_make(7, 5));
    const struct rational room = rational_sub(pair->side, bench->heap->width);
    prove_room(bench, room, bench->seam);
    struct vertex p, q;
    pair_line(bench, pair, &p, &q);
    beside(&p, &q, along, kept_x(pair), kept_y(pair));
    const struct rational half =
        rational_div(rational_sub(room, along), rational_whole(2));
    const struct rational far = rational_sub(room, half);
    const struct rational x = kept_x(pair) < 0 ? half : far;
    const struct rational y = kept_y(pair) < 0 ? half : far;
    const struct rational low = rational_times(bench->seam, -1);
    const struct rational size =
        rational_add(bench->heap->width, rational_times(bench->seam, 2));
    const struct cloth *trimmed =
        cloth_within(bench->arena, opened(bench, pair, p, q),
                     outline_rectangle(bench->arena, rational_add(low, x),
                                       rational_add(low, y), size, size));
    return cloth_moved(bench->arena, trimmed, rational_times(x, -1),
                       rational_times(y, -1));
}

struct sewn_seam pair_seam(const struct bench *bench, const struct pair *pair)
{
    const struct rational zero = rational_whole(0);
    struct sewn_seam seam =
        diagonal_seam(zero, zero, bench->heap->width, corner_line(pair->kept));
    seam.next = 1;
    seam.across_x = -kept_x(pair);
    seam.across_y = -kept_y(pair);
    return seam;
}
