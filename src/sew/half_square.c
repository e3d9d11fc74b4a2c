/* Half-squares, one, two, four and eight at a time. Method one wastes a pair of
 * triangles and is exact; the others lose nothing but slack. Read next: join.c.
 */
#include "bench.h"

/* Only methods one and two have a single line, whose direction matters. */
#define HALF_SQUARE_PRESSES \
    (PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_FABRIC))
static const struct operation sew_half = {.name = "half-square",
                                          .laid = LAID_TOGETHER,
                                          .presses = HALF_SQUARE_PRESSES,
                                          .draws_line = true};
static const struct operation sew_four = {.name = "half-square-four",
                                          .laid = LAID_TOGETHER,
                                          .presses = HALF_SQUARE_PRESSES};
static const struct operation sew_eight = {.name = "half-square-eight",
                                           .laid = LAID_TOGETHER,
                                           .presses = HALF_SQUARE_PRESSES};

static const struct operation *operation_of(enum half_square_method method)
{
    return method == METHOD_FOUR    ? &sew_four
           : method == METHOD_EIGHT ? &sew_eight
                                    : &sew_half;
}

/* How many of those made at a time are what is needed. Turned, all of them look
 * alike; a one-way print tells them apart. Of two, the second stands on its
 * head; of four, each lies turned by a quarter against the next; of eight, the
 * four whose line runs this way are two such pairs. */
static size_t yield_of(enum half_square_method method, bool one_way)
{
    switch (method) {
    case METHOD_TWO:
        return one_way ? 1 : 2;
    case METHOD_FOUR:
        return one_way ? 1 : 4;
    case METHOD_EIGHT:
        return one_way ? 2 : 8;
    case METHOD_ONE:
        break;
    }
    return 1;
}

/* The two squares have finished sizes only so that cut heaps look alike: cut
 * side less two seams. Method one is exact: what was cut up to the step is
 * trimmed first, as a patch is. */
static struct rational square_side(const struct pattern *pattern,
                                   enum half_square_method method,
                                   struct rational width,
                                   struct half_square_cut cut)
{
    return method == METHOD_ONE
               ? width
               : rational_sub(cut.side, rational_times(pattern->seam, 2));
}

/* Of one lightness, the darker is the left one. */
static int darker_of(const struct sewer *sewer, const struct half_square *half)
{
    return fabric_lightness(sewer, half->right) <
                   fabric_lightness(sewer, half->left)
               ? half->right
               : half->left;
}

static int lighter_of(const struct sewer *sewer, const struct half_square *half)
{
    return darker_of(sewer, half) == half->left ? half->right : half->left;
}

/* A seam that is to nest goes against the rule, unless the designer spoke of it
 * or the rule does as is wanted. */
static int against_rule(const struct sewer *sewer, const struct piece *piece,
                        const struct half_square *half)
{
    return half->toward == darker_of(sewer, half) ||
                   stated_side(sewer, piece, operation_of(half->method)) !=
                       PRESS_RULE
               ? NO_FABRIC
               : half->toward;
}

/* The lighter square lies on top, so that the line that is drawn on its wrong
 * side is seen. A one-way print lies as it is told, whichever is lighter; four
 * and eight at a time are cut so that both lie on top. */
static bool flap_is_left(const struct sewer *sewer, const struct heap *recipe,
                         bool one_way)
{
    const struct half_square *half = &recipe->of.half_square;
    const struct heap *twin = cast_twin(sewer, recipe);
    if (!one_way && twin != recipe)
        return twin->of.half_square.flap_left;
    return !one_way &&
           (half->method == METHOD_ONE || half->method == METHOD_TWO) &&
           fabric_lightness(sewer, half->left) >
               fabric_lightness(sewer, half->right);
}

struct ref build_half(struct sewer *sewer, struct heap recipe,
                      struct half_square half, struct rational width)
{
    const struct pattern *pattern = sewer->sized->design->pattern;
    const struct half_square_cut cut =
        half_square_cut(pattern, half.method, width);
    const struct rational side = square_side(pattern, half.method, width, cut);
    half.slack = cut.slack;
    if (half.toward == NO_FABRIC &&
        planned_way(sewer, recipe.piece, operation_of(half.method)) < 0)
        half.toward = lighter_of(sewer, &half);
    half.toward = against_rule(sewer, recipe.piece, &half);
    recipe.technique = TECHNIQUE_HALF_SQUARE;
    recipe.craft = &craft_half_square;
    recipe.width = recipe.height = width;
    const struct fabric *roles = sewer->sized->design->fabrics.items;
    const bool one_way = roles[half.left].one_way || roles[half.right].one_way;
    recipe.of.half_square = half;
    half.flap_left = flap_is_left(sewer, &recipe, one_way);
    recipe.of.half_square = half;
    recipe.yield = yield_of(half.method, one_way);
    const int fabrics[2] = {half.flap_left ? half.right : half.left,
                            half.flap_left ? half.left : half.right};
    for (size_t i = 0; i < 2; i++)
        add_input(sewer, &recipe,
                  build_cut(sewer, recipe, fabrics[i], side, side),
                  rational_whole(0), rational_whole(0));
    return find_or_add(sewer, &recipe);
}

static struct ref build_half_square(struct sewer *sewer,
                                    const struct piece *piece,
                                    struct rational factor, bool mirror)
{
    const struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_HALF_SQUARE,
                   &craft_half_square);
    const int left = fabric_of(sewer, piece, 0);
    const int right = fabric_of(sewer, piece, 1);
    return build_half(
        sewer, recipe,
        (struct half_square){
            .line = line_oriented(piece->line, (struct orientation){0, mirror}),
            .left = mirror ? right : left,
            .right = mirror ? left : right,
            .method = piece->method,
            .toward = NO_FABRIC},
        recipe.width);
}

/* The fabrics of the four quarters, turned. Quarters run clockwise from the
 * top: a diagonal leaves two neighbors of one fabric on each side, so the four
 * tell both line and fabrics. */
static void key_half_square(struct sewer *sewer, struct buffer *key,
                            const struct heap *heap, unsigned turn)
{
    const struct half_square *half = &heap->of.half_square;
    const struct fabric *fabrics = sewer->sized->design->fabrics.items;
    const bool one_way =
        fabrics[half->left].one_way || fabrics[half->right].one_way;
    const bool rising = half->line == LINE_RISING;
    const int quarters[4] = {rising ? half->left : half->right, half->right,
                             rising ? half->right : half->left, half->left};
    buffer_printf(key, "%d ", (int)half->method);
    key_number(key, heap->width);
    for (unsigned i = 0; i < 4; i++)
        buffer_printf(key, "%d ", quarters[(i + 4 - turn) % 4]);
    if (one_way)
        buffer_printf(key, "print %u", turn);
    if (half->toward != NO_FABRIC)
        buffer_printf(key, "toward %d ", half->toward);
    key_press(sewer, key, heap, turn, operation_of(half->method));
}

/* The upper one lies face down. Only the flag: that does not move a plain
 * square. */
static struct cloth *face_down(const struct bench *bench,
                               const struct cloth *square)
{
    struct cloth *laid =
        cloth_moved(bench->arena, square, rational_whole(0), rational_whole(0));
    for (size_t i = 0; i < laid->faces.count; i++)
        laid->faces.items[i].wrong_side = true;
    return laid;
}

/* ---- four at a time ---- */

/* From the square as it is sewn to the unit: its middle to the unit's, an
 * eighth of a turn, and as much smaller as trimming makes it. */
struct eighth_turn {
    struct vertex from, to;
    int way; /* 1 clockwise, -1 the other way */
    struct rational scale;
};

/* A turn by an eighth divides by the square root of 2. What is too much is
 * trimmed off evenly, so the scale is the one that leaves nothing to trim: the
 * same cloth, in exact numbers. */
static struct vertex turned_eighth(struct vertex v, const void *how)
{
    const struct eighth_turn *turn = how;
    const struct rational x = rational_sub(v.x, turn->from.x);
    const struct rational y = rational_sub(v.y, turn->from.y);
    return moved(turn->to,
                 rational_mul(turn->scale,
                              rational_sub(x, rational_times(y, turn->way))),
                 rational_mul(turn->scale,
                              rational_add(y, rational_times(x, turn->way))));
}

/* What the two cuts leave at the right edge, on the inner side of its seam. */
static struct cloth *right_quarter(const struct bench *bench,
                                   const struct cloth *square,
                                   struct rational side)
{
    const struct rational zero = rational_whole(0), one = rational_whole(1);
    struct vertex p, q;
    square_diagonal(bench, zero, zero, side, LINE_FALLING, &p, &q);
    struct cloth *quarter =
        cloth_clipped(bench->arena, square, half_plane_left(p, q));
    square_diagonal(bench, zero, zero, side, LINE_RISING, &p, &q);
    quarter = cloth_clipped(bench->arena, quarter,
                            half_plane_other(half_plane_left(p, q)));
    return cloth_clipped(bench->arena, quarter,
                         (struct half_plane){one, zero, side});
}

/* Of the four, the one at the right edge: opened, it stands on a corner, with
 * the base on its left. An eighth of a turn clockwise makes its seam rise; the
 * other way it falls. Its prints turn along. */
static struct cloth *sew_edges(const struct bench *bench,
                               const struct pair *pair)
{
    struct heap *heap = bench->heap;
    const bool rising = heap->of.half_square.line == LINE_RISING;
    const struct rational zero = rational_whole(0), two = rational_whole(2);
    const struct rational middle = rational_div(heap->width, two);
    const struct rational size =
        rational_add(heap->width, rational_times(bench->seam, 2));
    const struct eighth_turn turn = {
        {pair->side, rational_div(pair->side, two)},
        {middle, middle},
        rising ? 1 : -1,
        rational_div(size, pair->side)};
    prove_room(bench, pair->side, size);
    struct cloth *open = right_quarter(bench, pair->base, pair->side);
    cloth_add_all(bench->arena, open,
                  cloth_flipped(bench->arena,
                                right_quarter(bench, pair->laid, pair->side),
                                (struct vertex){pair->side, zero},
                                (struct vertex){pair->side, pair->side}));
    struct cloth *unit = cloth_mapped(bench->arena, open, turned_eighth, &turn);
    for (size_t i = 0; i < unit->faces.count; i++) {
        unit->faces.items[i].slanted = true;
        unit->faces.items[i].turn = rising ? 0 : 3;
    }
    return unit;
}

/* Both diagonals of a square, as they are drawn or cut. */
static void mark_diagonals(const struct bench *bench, struct state *state,
                           enum mark_kind kind, struct rational side)
{
    const struct rational zero = rational_whole(0);
    for (int i = 0; i < 2; i++) {
        struct vertex p, q;
        square_diagonal(bench, zero, zero, side,
                        i == 0 ? LINE_RISING : LINE_FALLING, &p, &q);
        mark_line(bench, state, kind, p, q);
    }
}

static void mark_edges(const struct bench *bench, struct state *state,
                       const struct pair *pair)
{
    const struct rational zero = rational_whole(0), side = pair->side;
    const struct vertex corners[4] = {
        {zero, zero}, {side, zero}, {side, side}, {zero, side}};
    mark_diagonals(bench, state, MARK_CUT, side);
    for (size_t i = 0; i < 4; i++)
        mark_line(bench, state, MARK_SEWN, corners[i], corners[(i + 1) % 4]);
}

/* ---- eight at a time ---- */

/* A quarter of the square, moved to where a square of its own would lie. */
static const struct cloth *quarter_square(const struct bench *bench,
                                          const struct cloth *square,
                                          bool right, struct rational half)
{
    const struct rational low = rational_times(bench->seam, -1);
    const struct rational x = right ? half : rational_whole(0);
    const struct cloth *quarter = cloth_within(
        bench->arena, square,
        outline_rectangle(bench->arena, rational_add(low, x), low, half, half));
    return cloth_moved(bench->arena, quarter, rational_times(x, -1),
                       rational_whole(0));
}

/* A line that rises lies in the quarter at the top right, one that falls in
 * that at the top left; there, sewing is that of method two. */
static struct cloth *sew_quarters(const struct bench *bench,
                                  const struct pair *pair)
{
    const bool right = pair->kept == TOP_LEFT;
    const struct rational seams = rational_times(bench->seam, 2);
    const struct rational half =
        rational_div(rational_add(pair->side, seams), rational_whole(2));
    const struct pair quarter = {quarter_square(bench, pair->base, right, half),
                                 quarter_square(bench, pair->laid, right, half),
                                 rational_sub(half, seams), pair->kept};
    return sew_pair_beside(bench, &quarter);
}

static void mark_quarters(const struct bench *bench, struct state *state,
                          const struct pair *pair)
{
    const struct rational zero = rational_whole(0);
    const struct rational low = rational_times(bench->seam, -1);
    const struct rational high = rational_add(pair->side, bench->seam);
    const struct rational middle = rational_div(pair->side, rational_whole(2));
    mark_diagonals(bench, state, MARK_DRAWN, pair->side);
    mark_diagonals(bench, state, MARK_CUT, pair->side);
    mark_line(bench, state, MARK_CUT, (struct vertex){middle, low},
              (struct vertex){middle, high});
    mark_line(bench, state, MARK_CUT, (struct vertex){low, middle},
              (struct vertex){high, middle});
    for (int i = 0; i < 2; i++) {
        const bool rising = i == 0;
        struct vertex p, q;
        square_diagonal(bench, zero, zero, pair->side,
                        rising ? LINE_RISING : LINE_FALLING, &p, &q);
        mark_beside(bench, state, MARK_SEWN, p, q, 1, rising ? 1 : -1);
        mark_beside(bench, state, MARK_SEWN, p, q, -1, rising ? -1 : 1);
    }
}

/* ---- sewing ---- */

/* Draws what is done, and gives one of those that are made: the others are the
 * same, turned. */
static struct cloth *sewn_half(const struct bench *bench, struct state *before,
                               const struct pair *pair)
{
    switch (bench->heap->of.half_square.method) {
    case METHOD_ONE:
        mark_pair_on(bench, before, pair);
        return sew_pair_on(bench, pair);
    case METHOD_FOUR:
        mark_edges(bench, before, pair);
        return sew_edges(bench, pair);
    case METHOD_EIGHT:
        mark_quarters(bench, before, pair);
        return sew_quarters(bench, pair);
    case METHOD_TWO:
        break;
    }
    mark_pair_beside(bench, before, pair);
    return sew_pair_beside(bench, pair);
}

/* The half of the lower square that stays where it is. */
static enum corner_place kept_corner(const struct half_square *half)
{
    if (half->line == LINE_RISING)
        return half->flap_left ? BOTTOM_RIGHT : TOP_LEFT;
    return half->flap_left ? TOP_RIGHT : BOTTOM_LEFT;
}

static void sew_half_square(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const struct half_square *half = &heap->of.half_square;
    const struct input *inputs = heap->inputs.items;
    const struct cloth *base = heap_at(bench->sewer, inputs[0].heap)->cloth;
    const struct cloth *square = heap_at(bench->sewer, inputs[1].heap)->cloth;
    const struct pair pair = {base, face_down(bench, square), base->width,
                              kept_corner(half)};
    struct action *action = add_action(bench, operation_of(half->method));
    if (half->toward != NO_FABRIC)
        action->press =
            (struct press){.side = PRESS_TOWARD_FABRIC, .fabric = half->toward};
    lay_pair(bench, action, &pair);
    struct cloth *cloth = sewn_half(bench, &action->before, &pair);
    heap->cloth = cloth;
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    cloth_add_seam(bench->arena, cloth,
                   sew_seam(bench, action, pair_seam(bench, &pair)));
    name_pressed_cloth(bench, action);
    /* Said only now: a seam that the designer did not speak of collides with
     * none. */
    action->pressed_by_rule &= half->toward == NO_FABRIC;
}

static void try_half_square(struct slips *slips, const struct piece *piece)
{
    slips->try_change(slips,
                      (struct change){.kind = CHANGE_LINE, .piece = piece});
    try_exchanges(slips, piece);
    try_fabrics(slips, piece);
}

static unsigned half_square_presses(const struct piece *piece)
{
    (void)piece;
    return sew_half.presses;
}

const struct craft craft_half_square = {.name = "half-square",
                                        .build = build_half_square,
                                        .key = key_half_square,
                                        .sew = sew_half_square,
                                        .slips = try_half_square,
                                        .presses = half_square_presses};
