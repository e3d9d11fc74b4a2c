/* Half-rectangles: the rectangles that they are cut from. Lengths along a
 * slant are roots of a sum of two squares, and no fractions; a root is never
 * rounded where a size comes from it, as squares are compared instead. Read
 * next: use.c. */
#include "solver.h"

#include "trade.h"

/* A root is told in parts of so much of its denominator. */
enum { ROOT_PARTS = 256 };

/* straight + across * D, where D * D is the sum of the squares of the sides. */
struct slant {
    struct rational straight, across;
};

static struct rational square_of(struct rational a)
{
    return rational_mul(a, a);
}

/* The whole part of a root, by bits. */
static int64_t whole_root(int64_t n)
{
    int64_t root = 0;
    for (int64_t bit = (int64_t)1 << 31; bit != 0; bit /= 2)
        if (root + bit <= n / (root + bit))
            root += bit;
    return root;
}

/* ensures: the root, rounded down to a part; itself where it is a fraction of
 * the square's denominator (3 : 4 : 5). sqrt(n / d) = sqrt(n d) / d. */
static struct rational root_below(struct rational square)
{
    const struct rational parts = rational_times(
        rational_times(
            rational_mul(square, square_of(rational_whole(square.den))),
            ROOT_PARTS),
        ROOT_PARTS);
    if (!rational_known(square) || !rational_known(parts))
        return rational_unknown();
    return rational_div(rational_whole(whole_root(parts.num)),
                        rational_times(rational_whole(square.den), ROOT_PARTS));
}

/* Is m no less? With d = m - straight: d >= 0, d * d >= across^2 * D^2. */
static bool reaches(struct rational m, struct slant slant,
                    struct rational square, bool *known)
{
    const struct rational d = rational_sub(m, slant.straight);
    const struct rational own = square_of(d);
    const struct rational other = rational_mul(square_of(slant.across), square);
    *known = rational_known(own) && rational_known(other);
    return !*known ||
           (rational_sign(d) >= 0 && rational_compare(own, other) >= 0);
}

/* The smallest multiple of the step that reaches it. The start is a little
 * below, so that there are few steps. */
static struct rational
multiple_above(struct slant slant, struct rational square, struct rational step)
{
    struct rational m = rational_round_up(
        rational_add(slant.straight,
                     rational_mul(slant.across, root_below(square))),
        step);
    bool known = true;
    while (!reaches(m, slant, square, &known))
        m = rational_add(m, step);
    return known ? m : rational_unknown();
}

/* The leg `own` of the triangle with seams, and room: so much of the shorter
 * leg, and of the longer one in proportion. */
static struct slant leg_of(const struct pattern *pattern, struct rational own,
                           struct rational other, struct rational room)
{
    const struct rational across = rational_div(pattern->seam, other);
    const struct rational more =
        rational_mul(room, rational_div(own, rational_min(own, other)));
    return (struct slant){
        rational_add(rational_add(own, more),
                     rational_mul(across, rational_add(own, other))),
        across};
}

/* Of the shape of the finished one: sides in its whole numbers times the
 * cutting step, so that both are multiples of that. */
static struct real_size similar_size(const struct pattern *pattern,
                                     struct rational room,
                                     struct real_size finished,
                                     struct rational square)
{
    const bool upright = rational_compare(finished.width, finished.height) <= 0;
    const struct rational small = upright ? finished.width : finished.height;
    const struct rational large = upright ? finished.height : finished.width;
    const struct rational ratio = rational_div(large, small);
    const struct rational least =
        multiple_above(leg_of(pattern, small, large, room), square,
                       rational_times(pattern->cutting_step, ratio.den));
    const struct rational most = rational_mul(least, ratio);
    return upright ? (struct real_size){least, most}
                   : (struct real_size){most, least};
}

/* Cloth that a cut from corner to corner may take more, along the longer side:
 * our choice. */
static bool is_worth(const struct pattern *pattern, struct real_size similar,
                     struct real_size least)
{
    const struct rational most =
        rational_times(trade_length(TRADE_TRIM, pattern->units), 4);
    return rational_known(similar.width) && rational_known(similar.height) &&
           rational_compare(rational_sub(similar.width, least.width), most) <=
               0 &&
           rational_compare(rational_sub(similar.height, least.height), most) <=
               0;
}

/* Where the line through the middle meets the edges. Half a mark of a ruler
 * beside a corner, a sixteenth of an inch or a millimetre, is that corner. */
static void find_line(struct half_rectangle_cut *cut, struct real_size finished,
                      enum length_unit units)
{
    const struct rational two = rational_whole(2);
    const struct rational across = rational_div(cut->width, finished.width);
    const struct rational down = rational_div(cut->height, finished.height);
    cut->scale = rational_div(rational_add(across, down), two);
    cut->on_width = rational_compare(across, down) > 0;
    cut->reach =
        cut->on_width
            ? rational_sub(cut->width, rational_mul(finished.width, cut->scale))
            : rational_sub(cut->height,
                           rational_mul(finished.height, cut->scale));
    const struct rational mark = rational_make(1, units == UNIT_CM ? 20 : 32);
    cut->corners =
        rational_known(cut->reach) && rational_compare(cut->reach, mark) < 0;
}

/* 1 + s (W + H + D) / (W H). */
static struct rational scale_with(const struct pattern *pattern,
                                  struct real_size finished,
                                  struct rational diagonal)
{
    const struct rational round =
        rational_add(rational_add(finished.width, finished.height), diagonal);
    return rational_add(
        rational_whole(1),
        rational_div(rational_mul(pattern->seam, round),
                     rational_mul(finished.width, finished.height)));
}

static bool all_known(const struct half_rectangle_cut *cut)
{
    return rational_known(cut->width) && rational_known(cut->height) &&
           rational_known(cut->diagonal) && rational_known(cut->scale) &&
           rational_known(cut->least) && rational_known(cut->reach);
}

struct half_rectangle_cut half_rectangle_cut(const struct pattern *pattern,
                                             struct rational room,
                                             struct rational width,
                                             struct rational height)
{
    const struct real_size finished = {width, height};
    const struct half_rectangle_cut none = {.width = rational_unknown(),
                                            .height = rational_unknown()};
    const struct rational square =
        rational_add(square_of(finished.width), square_of(finished.height));
    if (!rational_known(square))
        return none;
    struct real_size size = {
        multiple_above(leg_of(pattern, finished.width, finished.height, room),
                       square, pattern->cutting_step),
        multiple_above(leg_of(pattern, finished.height, finished.width, room),
                       square, pattern->cutting_step)};
    if (!rational_known(size.width) || !rational_known(size.height))
        return none;
    const struct real_size similar =
        similar_size(pattern, room, finished, square);
    if (is_worth(pattern, similar, size))
        size = similar;
    struct half_rectangle_cut cut = {.width = size.width,
                                     .height = size.height,
                                     .diagonal = root_below(square)};
    find_line(&cut, finished, pattern->units);
    /* A root that is no fraction is less than the next part. */
    const struct rational above =
        rational_equal(square_of(cut.diagonal), square)
            ? cut.diagonal
            : rational_add(cut.diagonal, rational_make(1, ROOT_PARTS));
    cut.least = scale_with(pattern, finished, above);
    return all_known(&cut) ? cut : none;
}

static struct real_size cut_rectangle(const struct pattern *pattern,
                                      const struct piece *piece,
                                      struct real_size finished)
{
    const struct half_rectangle_cut cut = half_rectangle_cut(
        pattern, piece->room, finished.width, finished.height);
    return (struct real_size){cut.width, cut.height};
}

static const char *cut_note(struct run *run, const struct pattern *pattern,
                            const struct piece *piece,
                            struct real_size finished)
{
    const enum length_unit units = pattern->units;
    const char *grown = arena_printf(
        run->arena,
        "%s x %s finished; with a seam all round, its triangles grow by one "
        "factor in both ways",
        length_plain(run->arena, finished.width, units),
        length_plain(run->arena, finished.height, units));
    if (rational_sign(piece->room) == 0)
        return arena_printf(run->arena, "%s, rounded up to the cutting step",
                            grown);
    return arena_printf(run->arena,
                        "%s; the shorter leg gets %s more for trimming, the "
                        "other in proportion; rounded up to the cutting step",
                        grown, length_plain(run->arena, piece->room, units));
}

/* reports: sizes so fine that such rectangles cannot be told within 64 bits. */
static void check_size(struct run *run, const struct sized *sized,
                       const struct piece *piece)
{
    const struct definition_scales *scales =
        &sized->scales[piece->owner->index];
    for (size_t i = 0; i < scales->items.count; i++) {
        const struct rational factor = scales->items.items[i].factor;
        const struct rational width =
            rational_mul(sized->width[piece->index], factor);
        const struct rational height =
            rational_mul(sized->height[piece->index], factor);
        if (!rational_known(width) || !rational_known(height) ||
            rational_known(half_rectangle_cut(sized->design->pattern,
                                              piece->room, width, height)
                               .width))
            continue;
        report_in(run, sized->sound, piece->owner, DIAG_LIMIT,
                  piece->element->name,
                  "the size of `%s` is too fine to be sewn exactly",
                  element_name(piece->element->kind));
        return;
    }
}

const struct sizing sizing_half_rectangle = {
    .cut = cut_rectangle, .cut_note = cut_note, .check = check_size};
