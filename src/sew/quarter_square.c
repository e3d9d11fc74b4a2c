/* Quarter-squares: two half-squares laid on each other, sewn across their seams
 * as half-squares are. Of three patches, one of the two is a plain square; it
 * lies below, so that the figure shows how the other one lies on it. Read next:
 * join.c. */
#include "bench.h"

static const struct operation sew_quarter = {
    .name = "quarter-square",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_FABRIC),
    .draws_line = true};

static enum corner_place across_from(enum corner_place at)
{
    return (enum corner_place)((at + 2) % 4);
}

/* The corner of the half that lies below. No half is sewn of one fabric where
 * the other diagonal parts it. */
static enum corner_place base_corner(const struct quarter_square *quarter)
{
    const int *f = quarter->fabrics;
    const bool rising = f[0] == f[3] || f[1] == f[2];
    const bool falling = f[0] == f[1] || f[2] == f[3];
    return quarter->has_plain   ? quarter->plain
           : rising && !falling ? TOP_RIGHT
                                : TOP_LEFT;
}

/* The half at a corner, as a half-square that lies as it does in the whole: its
 * line runs into that corner. Corner c lies between side c, clockwise from the
 * top, and the one before. */
static struct half_square half_at(const struct quarter_square *quarter,
                                  enum corner_place at)
{
    const int next = quarter->fabrics[at];
    const int before = quarter->fabrics[(at + 3) % 4];
    const bool top = at == TOP_LEFT || at == TOP_RIGHT;
    return (struct half_square){
        .line = corner_line(at) == LINE_RISING ? LINE_FALLING : LINE_RISING,
        .left = top ? before : next,
        .right = top ? next : before,
        .method = quarter->method,
        .toward = NO_FABRIC};
}

/* ---- building ---- */

/* The second of a pair is the first in a mirror: about the rising diagonal top
 * and right change places, and bottom and left. Turned, is it the first? */
static bool is_own_mirror(const struct quarter_square *quarter)
{
    static const int mirrored[4] = {1, 0, 3, 2};
    static const enum corner_place corners[4] = {BOTTOM_RIGHT, TOP_RIGHT,
                                                 TOP_LEFT, BOTTOM_LEFT};
    for (int turn = 0; turn < 4; turn++) {
        bool same =
            !quarter->has_plain ||
            (int)quarter->plain == ((int)corners[quarter->plain] + turn) % 4;
        for (int i = 0; i < 4; i++)
            same &= quarter->fabrics[(i + turn) % 4] ==
                    quarter->fabrics[mirrored[i]];
        if (same)
            return true;
    }
    return false;
}

static bool is_one_way(const struct sewer *sewer,
                       const struct quarter_square *quarter)
{
    for (size_t i = 0; i < 4; i++)
        if (sewer->sized->design->fabrics.items[quarter->fabrics[i]].one_way)
            return true;
    return false;
}

/* Clockwise from the top, as they lie in the piece; mirrored, left and right
 * change places. */
static struct quarter_square quarter_of(const struct sewer *sewer,
                                        const struct piece *piece, bool mirror)
{
    struct quarter_square quarter = {
        .has_plain = piece->has_plain,
        .plain = corner_oriented(piece->plain, (struct orientation){0, mirror}),
        .method = piece->method};
    for (size_t i = 0; i < 4; i++)
        quarter.fabrics[i] = fabric_of(sewer, piece, mirror ? (4 - i) % 4 : i);
    return quarter;
}

/* To the right of its line? As the heap that was found or made lies. */
static bool pressed_right(const struct sewer *sewer, struct ref half)
{
    const struct cloth *cloth =
        cloth_oriented(sewer->run->arena, heap_at(sewer, half.heap)->cloth,
                       (struct orientation){half.turn, false});
    return cloth->seams.items[0].x > 0;
}

/* The half that lies below: a half-square, or a plain square. */
static struct ref build_base(struct sewer *sewer, const struct heap *recipe,
                             struct rational width)
{
    const struct quarter_square *quarter = &recipe->of.quarter_square;
    const struct half_square half = half_at(quarter, quarter->base);
    return quarter->has_plain
               ? build_cut(sewer, *recipe, half.left, width, width)
               : build_half(sewer, *recipe, half, width);
}

/* The half that is laid on top is pressed the other way than the one below, so
 * that their seams nest. Opened, the two lines are one, so what lies to the
 * right of it does so for both. */
static struct ref build_upper(struct sewer *sewer, const struct heap *recipe,
                              struct ref base, struct rational width)
{
    const struct quarter_square *quarter = &recipe->of.quarter_square;
    struct half_square half = half_at(quarter, across_from(quarter->base));
    if (!quarter->has_plain)
        half.toward = pressed_right(sewer, base) ? half.left : half.right;
    return build_half(sewer, *recipe, half, width);
}

/* Method two: halves as large as the squares of a half-square of this size;
 * they are made two at a time in turn. */
static struct ref build_quarter_square(struct sewer *sewer,
                                       const struct piece *piece,
                                       struct rational factor, bool mirror)
{
    struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_QUARTER_SQUARE,
                   &craft_quarter_square);
    const struct pattern *pattern = sewer->sized->design->pattern;
    struct quarter_square quarter = quarter_of(sewer, piece, mirror);
    const struct half_square_cut cut =
        half_square_cut(pattern, quarter.method, recipe.width);
    const struct rational width =
        quarter.method == METHOD_ONE
            ? recipe.width
            : rational_sub(cut.side, rational_times(pattern->seam, 2));
    quarter.slack = cut.slack;
    quarter.base = base_corner(&quarter);
    recipe.of.quarter_square = quarter;
    if (quarter.method == METHOD_TWO && is_own_mirror(&quarter) &&
        !is_one_way(sewer, &quarter))
        recipe.yield = 2;
    const struct ref base = build_base(sewer, &recipe, width);
    const struct ref upper = build_upper(sewer, &recipe, base, width);
    const struct rational zero = rational_whole(0);
    add_input(sewer, &recipe, base, zero, zero);
    add_input(sewer, &recipe, upper, zero, zero);
    return find_or_add(sewer, &recipe);
}

/* Which of its seams is sewn last is not told: what looks alike is made alike.
 */
static void key_quarter_square(struct sewer *sewer, struct buffer *key,
                               const struct heap *heap, unsigned turn)
{
    const struct quarter_square *quarter = &heap->of.quarter_square;
    buffer_printf(key, "%d ", (int)quarter->method);
    key_number(key, heap->width);
    for (unsigned i = 0; i < 4; i++)
        buffer_printf(key, "%d ", quarter->fabrics[(i + 4 - turn) % 4]);
    if (quarter->has_plain)
        buffer_printf(key, "plain %u ", ((unsigned)quarter->plain + turn) % 4);
    if (is_one_way(sewer, quarter))
        buffer_printf(key, "print %u", turn);
    key_press(sewer, key, heap, turn, &sew_quarter);
}

/* ---- sewing ---- */

/* The seam of a half comes to lie between its corner and the middle, pressed as
 * it was. A plain square has none. */
static void add_half_seam(const struct bench *bench, struct cloth *cloth,
                          const struct cloth *half, enum corner_place at)
{
    const struct rational zero = rational_whole(0);
    const struct rational width = bench->heap->width;
    const struct rational middle = rational_div(width, rational_whole(2));
    if (half->seams.count == 0)
        return;
    struct seam seam = half->seams.items[0];
    seam.from =
        (struct vertex){at == TOP_RIGHT || at == BOTTOM_RIGHT ? width : zero,
                        at == BOTTOM_LEFT || at == BOTTOM_RIGHT ? width : zero};
    seam.to = (struct vertex){middle, middle};
    cloth_add_seam(bench->arena, cloth, seam);
}

/* Do the allowances of the two go to opposite sides of their common line? Lying
 * face down does not change the side: it mirrors along the line. */
static bool seams_nest(const struct cloth *base, const struct cloth *upper)
{
    if (base->seams.count == 0 || upper->seams.count == 0)
        return false;
    const struct seam *a = &base->seams.items[0], *b = &upper->seams.items[0];
    return a->x != 0 && a->x == -b->x && a->y == -b->y;
}

/* The upper half lies face down: turned over the line, as it is opened again
 * afterwards. */
static void sew_quarter_square(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    struct quarter_square *quarter = &heap->of.quarter_square;
    const enum corner_place kept = quarter->base;
    const struct cloth *base = placed(bench, &heap->inputs.items[0]);
    const struct cloth *upper = placed(bench, &heap->inputs.items[1]);
    const struct rational zero = rational_whole(0);
    struct vertex p, q;
    square_diagonal(bench, zero, zero, base->width, corner_line(kept), &p, &q);
    const struct pair pair = {base, cloth_flipped(bench->arena, upper, p, q),
                              base->width, kept};
    struct action *action = add_action(bench, &sew_quarter);
    lay_pair(bench, action, &pair);
    struct cloth *cloth;
    if (quarter->method == METHOD_ONE) {
        mark_pair_on(bench, &action->before, &pair);
        cloth = sew_pair_on(bench, &pair);
    } else {
        mark_pair_beside(bench, &action->before, &pair);
        cloth = sew_pair_beside(bench, &pair);
    }
    quarter->nested = seams_nest(base, upper);
    add_half_seam(bench, cloth, base, kept);
    add_half_seam(bench, cloth, upper, across_from(kept));
    heap->cloth = cloth;
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    cloth_add_seam(bench->arena, cloth,
                   sew_seam(bench, action, pair_seam(bench, &pair)));
    name_pressed_cloth(bench, action);
}

/* Method and plain half do not change what is seen. */
static void try_quarter_square(struct slips *slips, const struct piece *piece)
{
    try_exchanges(slips, piece);
    try_fabrics(slips, piece);
}

static unsigned quarter_square_presses(const struct piece *piece)
{
    (void)piece;
    return sew_quarter.presses;
}

const struct craft craft_quarter_square = {.name = "quarter-square",
                                           .build = build_quarter_square,
                                           .key = key_quarter_square,
                                           .sew = sew_quarter_square,
                                           .slips = try_quarter_square,
                                           .presses = quarter_square_presses};
