/* Half-squares, one and two at a time. Method one wastes a pair of triangles
 * and is exact; method two loses nothing but slack. Read next: join.c. */
#include "bench.h"

static const struct operation sew_half = {
    .name = "half-square",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_FABRIC),
    .draws_line = true};

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

struct ref build_half(struct sewer *sewer, struct heap recipe,
                      struct half_square half, struct rational width)
{
    const struct pattern *pattern = sewer->sized->design->pattern;
    const struct half_square_cut cut =
        half_square_cut(pattern, half.method, width);
    const struct rational side = square_side(pattern, half.method, width, cut);
    half.slack = cut.slack;
    recipe.technique = TECHNIQUE_HALF_SQUARE;
    recipe.craft = &craft_half_square;
    recipe.width = recipe.height = width;
    recipe.of.half_square = half;
    /* The second of a pair is the first turned by half: with a one-way print
     * it stands on its head, so only one of the two is what is needed. */
    const struct fabric *roles = sewer->sized->design->fabrics.items;
    const bool one_way = roles[half.left].one_way || roles[half.right].one_way;
    recipe.yield = half.method == METHOD_TWO && !one_way ? 2 : 1;
    const int fabrics[2] = {half.left, half.right};
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
    const int left = piece->fabrics.items[0].fabric;
    const int right = piece->fabrics.items[1].fabric;
    return build_half(
        sewer, recipe,
        (struct half_square){
            .line = line_oriented(piece->line, (struct orientation){0, mirror}),
            .left = mirror ? right : left,
            .right = mirror ? left : right,
            .method = piece->method},
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
    key_press(sewer, key, heap, turn, &sew_half);
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

/* Of the two units that method two gives, the left one is drawn: the other is
 * the same, turned by half. */
static void sew_half_square(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const struct input *inputs = heap->inputs.items;
    const struct cloth *base = heap_at(bench->sewer, inputs[0].heap)->cloth;
    const struct cloth *square = heap_at(bench->sewer, inputs[1].heap)->cloth;
    const struct pair pair = {
        base, face_down(bench, square), base->width,
        heap->of.half_square.line == LINE_RISING ? TOP_LEFT : BOTTOM_LEFT};
    struct action *action = add_action(bench, &sew_half);
    lay_pair(bench, action, &pair);
    struct cloth *cloth;
    if (heap->of.half_square.method == METHOD_ONE) {
        mark_pair_on(bench, &action->before, &pair);
        cloth = sew_pair_on(bench, &pair);
    } else {
        mark_pair_beside(bench, &action->before, &pair);
        cloth = sew_pair_beside(bench, &pair);
    }
    heap->cloth = cloth;
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    cloth_add_seam(bench->arena, cloth,
                   sew_seam(bench, action, pair_seam(bench, &pair)));
    name_pressed_cloth(bench, action);
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
