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

/* Derived: a seam s beside a diagonal takes s * sqrt 2 along the edges of its
 * square. Sewn, a square measures side - seam * sqrt 2; trimming leaves `base`.
 * `squares` is how many squares lie side by side in the cloth that is cut. */
static struct half_square_cut beside_diagonal(const struct pattern *pattern,
                                              struct rational base,
                                              int64_t squares)
{
    const struct rational all = rational_times(base, squares);
    const struct rational seams = rational_times(pattern->seam, squares);
    const struct cut_across cut = cut_across(pattern, all, seams);
    return (struct half_square_cut){
        cut.side, rational_div(cut.slack, rational_whole(squares))};
}

/* Derived: stitches a seam from all edges make a square of side - 2 seams; cut
 * on its diagonals and opened, each quarter is a square whose diagonal is one
 * of its sides. The slack is rounded down, so it may come out below nothing
 * where it is next to nothing. */
static struct half_square_cut along_edges(const struct pattern *pattern,
                                          struct rational base)
{
    const struct rational seams = rational_times(pattern->seam, 2);
    const struct rational side =
        rational_round_up_root2(seams, base, pattern->cutting_step);
    const struct rational half =
        rational_div(rational_sub(side, seams), rational_whole(2));
    const struct rational slack =
        rational_sub(rational_root2_below(rational_whole(0), half), base);
    return (struct half_square_cut){
        side,
        rational_known(slack) ? rational_max(slack, rational_whole(0)) : slack};
}

/* All numbers of the work are parts of this many of a unit; tried, half as many
 * again are too many (the root is told in parts of 33461). */
enum { MOST_PARTS = 100000 };

/* The parts that hold both, or one more than the most. */
static int64_t common_parts(int64_t a, int64_t b)
{
    const int64_t times = b / whole_common_divisor(a, b);
    return a > MOST_PARTS / times ? MOST_PARTS + 1 : a * times;
}

/* Of an inch, of which seam, cutting step and side are so many. */
static int64_t parts_of(const struct pattern *pattern, struct rational side)
{
    const struct rational all[] = {side, pattern->seam, pattern->cutting_step};
    int64_t parts = 1;
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        parts = rational_is_fraction(all[i]) ? common_parts(parts, all[i].den)
                                             : MOST_PARTS + 1;
    return parts;
}

void check_across(struct run *run, const struct sized *sized,
                  const struct piece *piece)
{
    const struct pattern *pattern = sized->design->pattern;
    const struct definition_scales *scales =
        &sized->scales[piece->owner->index];
    for (size_t i = 0; i < scales->items.count; i++) {
        const struct rational side = rational_mul(
            sized->width[piece->index], scales->items.items[i].factor);
        if (!rational_known(side) || parts_of(pattern, side) <= MOST_PARTS)
            continue;
        report_in(run, sized->sound, piece->owner, DIAG_LIMIT,
                  piece->element->name,
                  "the size of `%s` is too fine to be sewn exactly",
                  element_name(piece->element->kind));
        return;
    }
}

/* `finished` is the real side of one finished half-square. */
struct half_square_cut half_square_cut(const struct pattern *pattern,
                                       enum half_square_method method,
                                       struct rational finished)
{
    const struct rational base =
        rational_add(finished, rational_times(pattern->seam, 2));
    switch (method) {
    case METHOD_ONE:
        return (struct half_square_cut){cut_length(pattern, finished),
                                        rational_whole(0)};
    case METHOD_FOUR:
        return along_edges(pattern, base);
    case METHOD_EIGHT:
        return beside_diagonal(pattern, base, 2);
    case METHOD_TWO:
        break;
    }
    return beside_diagonal(pattern, base, 1);
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
    case METHOD_FOUR:
        return "four at a time the squares take root 2 x (the size and two "
               "seams) and two seams, rounded up to the cutting step";
    case METHOD_EIGHT:
        return "eight at a time the squares take twice the size and seam x "
               "(4 + 2 x root 2), rounded up to the cutting step";
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
