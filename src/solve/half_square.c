/* Half-squares: sizes, and the squares that they are cut from. Read next:
 * use.c. */
#include "solver.h"

/* Square by nature; `size` fixes both sides. */
static void half_square_sizes(struct system *system, const struct piece *piece,
                              bool local_grid)
{
    (void)local_grid;
    system_equal(system, width_of(piece), height_of(piece));
    length_fact(system, width_of(piece), piece->element, &piece->size);
}

struct cut_across cut_across(const struct pattern *pattern,
                             struct rational straight, struct rational across)
{
    const struct rational side =
        rational_round_up_root2(straight, across, pattern->cutting_step);
    return (struct cut_across){
        side, rational_sub(side, rational_root2_below(straight, across))};
}

/* `finished` is the real side of one finished half-square. */
struct half_square_cut half_square_cut(const struct pattern *pattern,
                                       enum half_square_method method,
                                       struct rational finished)
{
    struct half_square_cut cut = {cut_length(pattern, finished),
                                  rational_whole(0)};
    if (method == METHOD_ONE)
        return cut;
    /* Derived: a seam s beside the diagonal takes s * sqrt 2 along the edges,
     * so two squares S give units S - s * sqrt 2 wide, which must be F + 2s: S
     * = F + s * (2 + sqrt 2). For s = 1/4 in that is 0.8536, which the trade
     * rounds up to 7/8. */
    const struct rational base =
        rational_add(finished, rational_times(pattern->seam, 2));
    /* Sewn it measures side - seam * sqrt 2; trimming leaves `base`. */
    const struct cut_across across = cut_across(pattern, base, pattern->seam);
    return (struct half_square_cut){across.side, across.slack};
}

static struct real_size cut_pair(const struct pattern *pattern,
                                 const struct piece *piece,
                                 struct real_size finished)
{
    const struct half_square_cut cut =
        half_square_cut(pattern, piece->method, finished.width);
    return (struct real_size){cut.side, cut.side};
}

/* How the squares grow with the unit, as a designer would work it out. */
static const char *growth(enum half_square_method method)
{
    switch (method) {
    case METHOD_ONE:
        return "one at a time the squares take two seams more";
    case METHOD_TWO:
        break;
    }
    return "two at a time the squares take seam x (2 + root 2) more, rounded "
           "up to the cutting step";
}

static const char *cut_note(struct run *run, const struct pattern *pattern,
                            const struct piece *piece,
                            struct real_size finished)
{
    return arena_printf(
        run->arena, "%s finished; %s",
        length_plain(run->arena, finished.width, pattern->units),
        growth(piece->method));
}

const struct sizing sizing_half_square = {
    .sizes = half_square_sizes, .cut = cut_pair, .cut_note = cut_note};
