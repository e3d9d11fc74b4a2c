/* Half-squares, one and two at a time. Method one wastes a pair of triangles
 * and is exact; method two loses nothing but slack, and its seam lies a root of
 * 2 away, so its cloth is trimmed and set to its exact place. Read next:
 * join.c. */
#include "bench.h"

static const struct operation sew_half = {
    .name = "half-square",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_FABRIC),
    .draws_line = true};

/* The two squares have finished sizes only so that cut heaps look alike: cut
 * side less two seams. Method two makes two units from one pair. */
static struct ref build_half_square(struct sewer *sewer,
                                    const struct piece *piece,
                                    struct rational factor, bool mirror)
{
    struct heap recipe = recipe_for(sewer, piece, factor, mirror,
                                    TECHNIQUE_HALF_SQUARE, &craft_half_square);
    const struct pattern *pattern = sewer->sized->design->pattern;
    const struct half_square_cut cut =
        half_square_cut(pattern, piece->method, recipe.width);
    /* Method one is exact: what was cut up to the step is trimmed first, as a
     * patch is. */
    const struct rational side =
        piece->method == METHOD_ONE
            ? recipe.width
            : rational_sub(cut.side, rational_times(pattern->seam, 2));
    const int left = piece->fabrics.items[0].fabric;
    const int right = piece->fabrics.items[1].fabric;
    recipe.of.half_square = (struct half_square){
        line_oriented(piece->line, (struct orientation){0, mirror}),
        mirror ? right : left, mirror ? left : right, piece->method, cut.slack};
    /* The second of a pair is the first turned by half: with a one-way print
     * it stands on its head, so only one of the two is what is needed. */
    const struct fabric *roles = sewer->sized->design->fabrics.items;
    const bool one_way = roles[left].one_way || roles[right].one_way;
    recipe.yield = piece->method == METHOD_TWO && !one_way ? 2 : 1;
    const int fabrics[2] = {recipe.of.half_square.left,
                            recipe.of.half_square.right};
    for (size_t i = 0; i < 2; i++)
        add_input(sewer, &recipe,
                  build_cut(sewer, recipe, fabrics[i], side, side),
                  rational_whole(0), rational_whole(0));
    return find_or_add(sewer, &recipe);
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

/* Method two: draw the diagonal, sew a seam's width on both sides of it, cut
 * on it. Method one: sew on it, trim one side. */
static void mark_half_square(const struct bench *bench, struct state *state,
                             struct vertex p, struct vertex q)
{
    const struct heap *heap = bench->heap;
    const int down = heap->of.half_square.line == LINE_RISING ? 1 : -1;
    if (heap->of.half_square.method == METHOD_ONE) {
        mark_seam(bench, state, p, q, 1, down);
        return;
    }
    mark_line(bench, state, MARK_DRAWN, p, q);
    mark_line(bench, state, MARK_CUT, p, q);
    mark_beside(bench, state, MARK_SEWN, p, q, 1, down);
    mark_beside(bench, state, MARK_SEWN, p, q, -1, -down);
}

/* What is on the left of the stitch line stays; of the upper square that part
 * is turned over the line. requires: both cloths in one place, the upper one
 * face down. */
static struct cloth *open_half(const struct bench *bench,
                               const struct cloth *base,
                               const struct cloth *laid, struct vertex p,
                               struct vertex q, struct half_plane left)
{
    struct cloth *opened = cloth_clipped(bench->arena, base, left);
    cloth_add_all(bench->arena, opened,
                  cloth_flipped(bench->arena,
                                cloth_clipped(bench->arena, laid, left), p, q));
    return opened;
}

/* A coordinate that is within 1e-6 of an edge of the unfinished square lies on
 * it: sewing beside a diagonal goes by the square root of 2. Any other
 * coordinate is a fault of ours. */
static struct rational snapped(const struct bench *bench, struct rational value)
{
    const struct rational tolerance = rational_make(1, 1000000);
    const struct rational edges[2] = {
        rational_times(bench->seam, -1),
        rational_add(bench->heap->width, bench->seam)};
    for (size_t i = 0; i < 2; i++) {
        const struct rational off = rational_sub(value, edges[i]);
        if (rational_compare(off, tolerance) <= 0 &&
            rational_compare(off, rational_times(tolerance, -1)) >= 0)
            return edges[i];
    }
    internal_error("a half-square of `%s` does not trim to its size",
                   bench->heap->piece->owner->id);
}

static struct vertex snapped_point(struct vertex v, const void *bench)
{
    return (struct vertex){snapped(bench, v.x), snapped(bench, v.y)};
}

/* Two at a time: the stitch line lies a seam's width from the drawn diagonal,
 * so s * sqrt 2 along the edges. The left half, opened, is a square that is a
 * little too large; half of that comes off at each side, so that the seam stays
 * in the corners. */
static struct cloth *sew_two(const struct bench *bench,
                             const struct cloth *base, const struct cloth *laid,
                             struct vertex p, struct vertex q)
{
    const bool rising = bench->heap->of.half_square.line == LINE_RISING;
    const struct rational along = diagonal_offset(bench);
    const struct rational zero = rational_whole(0);
    /* Towards the left part: up and left of a rising line, down and left of a
     * falling one. */
    p = moved(p, zero, rising ? rational_times(along, -1) : along);
    q = moved(q, rational_times(along, -1), zero);
    const struct half_plane above = half_plane_left(p, q);
    const struct cloth *opened = open_half(
        bench, base, laid, p, q, rising ? above : half_plane_other(above));
    const struct rational seams = rational_times(bench->seam, 2);
    const struct rational cut = rational_add(base->width, seams);
    const struct rational size = rational_add(bench->heap->width, seams);
    const struct rational slack = rational_sub(rational_sub(cut, along), size);
    const struct rational half = rational_div(slack, rational_whole(2));
    const struct rational low = rational_times(bench->seam, -1);
    const struct rational x = rational_add(low, half);
    const struct rational y =
        rising ? x
               : rational_sub(rational_sub(rational_add(low, cut), half), size);
    const struct cloth *trimmed =
        cloth_within(bench->arena, opened,
                     outline_rectangle(bench->arena, x, y, size, size));
    /* To its place, its corners where they belong. */
    return cloth_mapped(bench->arena,
                        cloth_moved(bench->arena, trimmed, rational_sub(low, x),
                                    rational_sub(low, y)),
                        snapped_point, bench);
}

/* Before: both squares, the upper one wrong side up. */
static void lay_squares(const struct bench *bench, struct action *action,
                        const struct cloth *base, struct cloth *laid)
{
    for (size_t i = 0; i < laid->faces.count; i++)
        laid->faces.items[i].wrong_side = true;
    add_part(bench, action, 0);
    add_part(bench, action, 1);
    show(bench, &action->before, base, 0, 0, 0);
    show(bench, &action->before, laid, 1, 0, 0);
}

/* Of the two units that method two gives, the left one is drawn: the other is
 * the same, turned by half. */
static void sew_half_square(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const struct rational zero = rational_whole(0);
    struct action *action = add_action(bench, &sew_half);
    const enum line_direction line = heap->of.half_square.line;
    action->line = line;
    const struct cloth *base =
        heap_at(bench->sewer, heap->inputs.items[0].heap)->cloth;
    struct cloth *laid = cloth_moved(
        bench->arena, heap_at(bench->sewer, heap->inputs.items[1].heap)->cloth,
        zero, zero);
    lay_squares(bench, action, base, laid);
    struct vertex p, q;
    square_diagonal(bench, zero, zero, base->width, line, &p, &q);
    mark_half_square(bench, &action->before, p, q);
    struct cloth *cloth;
    if (heap->of.half_square.method == METHOD_ONE) {
        const struct half_plane above = half_plane_left(p, q);
        cloth =
            open_half(bench, base, laid, p, q,
                      line == LINE_RISING ? above : half_plane_other(above));
    } else {
        cloth = sew_two(bench, base, laid, p, q);
    }
    heap->cloth = cloth;
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    struct sewn_seam seam = diagonal_seam(zero, zero, heap->width, line);
    seam.next = 1;
    seam.across_x = 1;
    seam.across_y = line == LINE_RISING ? 1 : -1;
    cloth_add_seam(bench->arena, cloth, sew_seam(bench, action, seam));
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
