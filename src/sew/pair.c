/* Two squares of one size, laid right sides together and sewn on a diagonal or
 * a seam's width beside it. On the line is exact; beside it the seam lies a
 * root of 2 away, so that cloth is trimmed and set to its exact place. Read
 * next: half_square.c. */
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

/* A coordinate that is within 1e-6 of an edge of the unfinished square, or of
 * its middle, lies there: sewing beside a diagonal goes by the square root
 * of 2. Any other coordinate is a fault of ours. */
static struct rational snapped(const struct bench *bench, struct rational value)
{
    const struct rational tolerance = rational_make(1, 1000000);
    const struct rational width = bench->heap->width;
    const struct rational places[3] = {rational_times(bench->seam, -1),
                                       rational_add(width, bench->seam),
                                       rational_div(width, rational_whole(2))};
    for (size_t i = 0; i < 3; i++) {
        const struct rational off = rational_sub(value, places[i]);
        if (rational_compare(off, tolerance) <= 0 &&
            rational_compare(off, rational_times(tolerance, -1)) >= 0)
            return places[i];
    }
    internal_error("a square of `%s` does not trim to its size",
                   bench->heap->piece->owner->id);
}

static struct vertex snapped_point(struct vertex v, const void *bench)
{
    return (struct vertex){snapped(bench, v.x), snapped(bench, v.y)};
}

struct cloth *trim_square(const struct bench *bench, const struct cloth *cloth,
                          struct rational x, struct rational y)
{
    const struct rational low = rational_times(bench->seam, -1);
    const struct rational size =
        rational_add(bench->heap->width, rational_times(bench->seam, 2));
    const struct cloth *trimmed = cloth_within(
        bench->arena, cloth, outline_rectangle(bench->arena, x, y, size, size));
    return cloth_mapped(bench->arena,
                        cloth_moved(bench->arena, trimmed, rational_sub(low, x),
                                    rational_sub(low, y)),
                        snapped_point, bench);
}

/* The stitch line lies a seam's width from the drawn diagonal, so s * sqrt 2
 * along the edges. The kept half, opened, is a square that is a little too
 * large; half of that comes off at each side, so that the seam stays in the
 * corners. */
struct cloth *sew_pair_beside(const struct bench *bench,
                              const struct pair *pair)
{
    const struct rational along = diagonal_offset(bench);
    struct vertex p, q;
    pair_line(bench, pair, &p, &q);
    beside(bench, &p, &q, kept_x(pair), kept_y(pair));
    const struct rational seams = rational_times(bench->seam, 2);
    const struct rational cut = rational_add(pair->side, seams);
    const struct rational size = rational_add(bench->heap->width, seams);
    const struct rational slack = rational_sub(rational_sub(cut, along), size);
    const struct rational half = rational_div(slack, rational_whole(2));
    const struct rational low = rational_times(bench->seam, -1);
    const struct rational near = rational_add(low, half);
    const struct rational far =
        rational_sub(rational_sub(rational_add(low, cut), half), size);
    return trim_square(bench, opened(bench, pair, p, q),
                       kept_x(pair) < 0 ? near : far,
                       kept_y(pair) < 0 ? near : far);
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
