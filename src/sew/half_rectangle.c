/* Half-rectangles: two rectangles, cut in two on one slant, and a half of each
 * joined along it. The seam runs from corner to corner of the finished unit, so
 * that it misses those of the unfinished one; its mirror image is no turn of
 * it. All is worked out for a line that rises, and mirrored for one that falls.
 * Read next: join.c. */
#include "bench.h"

/* On the line, so that words tell which way it runs. */
static const struct operation sew_slant = {
    .name = "half-rectangle",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_FABRIC),
    .draws_line = true};

/* Inputs: the rectangle of the left triangle, which lies below, and that of the
 * right one. */
enum { LEFT, RIGHT };

static bool is_one_way(const struct sewer *sewer,
                       const struct half_rectangle *half)
{
    const struct fabric *fabrics = sewer->sized->design->fabrics.items;
    return fabrics[half->left].one_way || fabrics[half->right].one_way;
}

/* ---- building ---- */

/* The second half of each rectangle makes the same unit, turned by half, on
 * which a print stands on its head. */
static struct ref build_half_rectangle(struct sewer *sewer,
                                       const struct piece *piece,
                                       struct rational factor, bool mirror)
{
    struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_HALF_RECTANGLE,
                   &craft_half_rectangle);
    const struct pattern *pattern = sewer->sized->design->pattern;
    const struct rational seams = rational_times(pattern->seam, 2);
    const int left = fabric_of(sewer, piece, 0);
    const int right = fabric_of(sewer, piece, 1);
    const struct half_rectangle half = {
        .line = line_oriented(piece->line, (struct orientation){0, mirror}),
        .left = mirror ? right : left,
        .right = mirror ? left : right,
        .cut = half_rectangle_cut(pattern, piece->room, recipe.width,
                                  recipe.height)};
    recipe.of.half_rectangle = half;
    recipe.yield = is_one_way(sewer, &half) ? 1 : 2;
    const int fabrics[2] = {[LEFT] = half.left, [RIGHT] = half.right};
    for (size_t i = LEFT; i <= RIGHT; i++)
        add_input(sewer, &recipe,
                  build_cut(sewer, recipe, fabrics[i],
                            rational_sub(half.cut.width, seams),
                            rational_sub(half.cut.height, seams)),
                  rational_whole(0), rational_whole(0));
    return find_or_add(sewer, &recipe);
}

/* The fabrics of the four sides, turned, tell both line and fabrics; with other
 * room it is cut from other rectangles. */
static void key_half_rectangle(struct sewer *sewer, struct buffer *key,
                               const struct heap *heap, unsigned turn)
{
    const struct half_rectangle *half = &heap->of.half_rectangle;
    const bool rising = half->line == LINE_RISING, turned = turn % 2 == 1;
    const int sides[4] = {rising ? half->left : half->right, half->right,
                          rising ? half->right : half->left, half->left};
    key_number(key, turned ? heap->height : heap->width);
    key_number(key, turned ? heap->width : heap->height);
    key_number(key, turned ? half->cut.height : half->cut.width);
    key_number(key, turned ? half->cut.width : half->cut.height);
    for (unsigned i = 0; i < 4; i++)
        buffer_printf(key, "%d ", sides[(i + 4 - turn) % 4]);
    if (is_one_way(sewer, half))
        buffer_printf(key, "print %u", turn);
    key_press(sewer, key, heap, turn, &sew_slant);
}

/* ---- where things lie ---- */

/* A way of the slope of the line, through a point; to the right. */
struct way_through {
    struct vertex from, to;
};

static struct way_through along_line(const struct bench *bench,
                                     struct vertex through)
{
    const struct heap *heap = bench->heap;
    const bool rising = heap->of.half_rectangle.line == LINE_RISING;
    return (struct way_through){
        through,
        moved(through, heap->width,
              rising ? rational_times(heap->height, -1) : heap->height)};
}

/* The side of such a way on which the left triangle lies, or the other. */
static struct half_plane side_of(const struct bench *bench,
                                 struct way_through way, size_t input)
{
    const struct half_plane above = half_plane_left(way.from, way.to);
    const bool rising = bench->heap->of.half_rectangle.line == LINE_RISING;
    return (input == LEFT) == rising ? above : half_plane_other(above);
}

/* The stitch line: from corner to corner of the finished unit. */
static struct way_through stitches(const struct bench *bench)
{
    const bool rising = bench->heap->of.half_rectangle.line == LINE_RISING;
    const struct rational zero = rational_whole(0);
    return along_line(
        bench, (struct vertex){zero, rising ? bench->heap->height : zero});
}

/* How far a leg lies out from the finished edge: a seam, and half of what the
 * triangle has to spare in that direction, rounded down so that numbers stay
 * short. It then lies nearer than it would on the table, by less than is seen;
 * that rectangles suffice was decided by squares where they were made. */
static struct rational leg_out(const struct bench *bench, struct rational side)
{
    enum { PARTS = 256 };
    const struct half_rectangle_cut *cut = &bench->heap->of.half_rectangle.cut;
    const struct rational spare =
        rational_mul(side, rational_sub(cut->scale, cut->least));
    if (!rational_known(spare) || rational_sign(spare) <= 0)
        return bench->seam;
    const int64_t half = rational_floor(rational_times(spare, PARTS)) / 2;
    return rational_add(bench->seam, rational_make(half, PARTS));
}

/* The top left corner of a rectangle as it was cut, where it lies in the unit.
 * The right triangle is the left one turned by half about the middle. */
static struct vertex rectangle_at(const struct bench *bench, size_t input)
{
    const struct heap *heap = bench->heap;
    const struct half_rectangle *half = &heap->of.half_rectangle;
    const bool top = (half->line == LINE_RISING) == (input == LEFT);
    const struct rational x = leg_out(bench, heap->width);
    const struct rational y = leg_out(bench, heap->height);
    return (struct vertex){
        input == LEFT
            ? rational_times(x, -1)
            : rational_sub(rational_add(heap->width, x), half->cut.width),
        top ? rational_times(y, -1)
            : rational_sub(rational_add(heap->height, y), half->cut.height)};
}

/* A rectangle that lies with its corner there. */
static struct cloth *rectangle(const struct bench *bench, size_t input,
                               struct vertex corner)
{
    return cloth_moved(bench->arena,
                       placed(bench, &bench->heap->inputs.items[input]),
                       rational_add(corner.x, bench->seam),
                       rational_add(corner.y, bench->seam));
}

/* The line that cuts it, through its middle. */
static struct way_through cut_line(const struct bench *bench,
                                   struct vertex corner)
{
    const struct half_rectangle_cut *cut = &bench->heap->of.half_rectangle.cut;
    const struct rational half = rational_make(1, 2);
    return along_line(bench, moved(corner, rational_mul(cut->width, half),
                                   rational_mul(cut->height, half)));
}

/* A triangle as it lies in the unit, with all that will be trimmed. */
static struct cloth *triangle(const struct bench *bench, size_t input)
{
    const struct vertex corner = rectangle_at(bench, input);
    return cloth_clipped(bench->arena, rectangle(bench, input, corner),
                         side_of(bench, cut_line(bench, corner), input));
}

/* ---- what is seen ---- */

/* The part of a way that lies on the cloth: its leftmost and rightmost point of
 * those that faces have on it. */
static struct way_through across_cloth(const struct cloth *cloth,
                                       struct half_plane on)
{
    struct way_through part = {{rational_unknown(), rational_unknown()},
                               {rational_unknown(), rational_unknown()}};
    for (size_t i = 0; i < cloth->faces.count; i++)
        for (size_t k = 0; k < cloth->faces.items[i].count; k++) {
            const struct vertex v = cloth->faces.items[i].points[k];
            if (rational_sign(half_plane_side(on, v)) != 0)
                continue;
            if (!rational_known(part.from.x) ||
                rational_compare(v.x, part.from.x) < 0)
                part.from = v;
            if (!rational_known(part.to.x) ||
                rational_compare(v.x, part.to.x) > 0)
                part.to = v;
        }
    return part;
}

/* Both rectangles, right side up, beside or below each other, with the line
 * that cuts them. */
static void show_cutting(const struct bench *bench, struct state *state)
{
    const struct half_rectangle_cut *cut = &bench->heap->of.half_rectangle.cut;
    const struct rational zero = rational_whole(0);
    const bool upright = rational_compare(cut->width, cut->height) <= 0;
    const struct rational apart = rational_mul(
        rational_min(cut->width, cut->height), rational_make(5, 4));
    for (size_t i = LEFT; i <= RIGHT; i++) {
        const struct vertex corner = {i == RIGHT && upright ? apart : zero,
                                      i == RIGHT && !upright ? apart : zero};
        struct cloth *cloth = rectangle(bench, i, corner);
        const struct half_plane side =
            side_of(bench, cut_line(bench, corner), i);
        show(bench, state, cloth, (int)i, 0, 0);
        const struct way_through line =
            across_cloth(cloth_clipped(bench->arena, cloth, side), side);
        mark_line(bench, state, MARK_CUT, line.from, line.to);
    }
}

/* The later end of two ways of one line, or the earlier. */
static struct vertex inner(struct vertex a, struct vertex b, bool later)
{
    return (rational_compare(a.x, b.x) < 0) == later ? b : a;
}

/* The right triangle on the left one, wrong side up; the stitches run as far as
 * both do. */
static void show_laying(const struct bench *bench, struct state *state,
                        const struct cloth *const *open,
                        const struct cloth *const *whole)
{
    const struct way_through line = stitches(bench);
    struct way_through both[2];
    for (size_t i = LEFT; i <= RIGHT; i++)
        both[i] = across_cloth(open[i], side_of(bench, line, i));
    show(bench, state, whole[LEFT], LEFT, 0, 0);
    show(bench, state,
         cloth_flipped(bench->arena, whole[RIGHT], line.from, line.to), RIGHT,
         0, 0);
    mark_line(bench, state, MARK_SEWN,
              inner(both[LEFT].from, both[RIGHT].from, true),
              inner(both[LEFT].to, both[RIGHT].to, false));
}

/* Where the seam meets the edge of the unfinished unit, beside the corner at
 * its left or right end: on the shorter edges, as the slant is steeper there,
 * by s - s * short side / long side. */
static void mark_point(const struct bench *bench, struct state *state,
                       struct vertex end, int x)
{
    const struct heap *heap = bench->heap;
    const bool steep = rational_compare(heap->width, heap->height) <= 0;
    const struct rational one = rational_whole(1);
    const struct rational share = steep
                                      ? rational_div(heap->width, heap->height)
                                      : rational_div(heap->height, heap->width);
    const int y = rational_sign(end.y) == 0 ? 1 : -1; /* into the cloth */
    const struct rational out = rational_mul(bench->seam, share);
    struct edge_point *point = LIST_ADD(bench->arena, &state->points);
    *point = (struct edge_point){
        .at = steep ? moved(end, rational_times(out, -x),
                            rational_times(bench->seam, -y))
                    : moved(end, rational_times(bench->seam, -x),
                            rational_times(out, -y)),
        .reach = rational_mul(bench->seam, rational_sub(one, share)),
        .x = steep ? 0 : x,
        .y = steep ? y : 0,
        .along_x = steep ? x : 0,
        .along_y = steep ? 0 : y};
}

/* Opened: what is trimmed off, and the two places by which a ruler is laid. */
static void show_trimming(const struct bench *bench, struct state *state,
                          const struct cloth *const *open)
{
    const struct outline edge =
        outline_grown(bench->arena, bench->heap->outline, bench->seam);
    const struct way_through line = stitches(bench);
    for (size_t i = LEFT; i <= RIGHT; i++)
        show(bench, state, open[i], WHOLE, 0, 0);
    /* The cut begins at a corner where the seam is not. */
    const size_t first =
        bench->heap->of.half_rectangle.line == LINE_RISING ? 0 : 1;
    for (size_t i = 0; i < edge.count; i++) {
        mark_line(bench, state, MARK_CUT, edge.points[i],
                  edge.points[(i + 1) % edge.count]);
        state->marks.items[i].goes_on = i != first;
    }
    mark_point(bench, state, line.from, 1);
    mark_point(bench, state, line.to, -1);
}

/* ---- sewing ---- */

/* Each triangle keeps its own side of the seam, and what the ruler leaves. */
static void sew_half_rectangle(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const bool rising = heap->of.half_rectangle.line == LINE_RISING;
    const struct way_through line = stitches(bench);
    const struct cloth *whole[2], *open[2];
    struct action *action = add_action(bench, &sew_slant);
    action->line = heap->of.half_rectangle.line;
    struct cloth *cloth = ARENA_NEW(bench->arena, struct cloth);
    for (size_t i = LEFT; i <= RIGHT; i++) {
        whole[i] = triangle(bench, i);
        open[i] =
            cloth_clipped(bench->arena, whole[i], side_of(bench, line, i));
        add_part(bench, action, i);
        cloth_add_all(bench->arena, cloth,
                      cloth_within(bench->arena, open[i],
                                   outline_grown(bench->arena, heap->outline,
                                                 bench->seam)));
    }
    if (!bench->sewer->run->unseen) {
        show_cutting(bench, &action->parted);
        show_laying(bench, &action->before, open, whole);
        show_trimming(bench, &action->opened, open);
    }
    heap->cloth = cloth;
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    cloth_add_seam(
        bench->arena, cloth,
        sew_seam(bench, action,
                 (struct sewn_seam){.seam = {.from = line.from, .to = line.to},
                                    .before = LEFT,
                                    .next = RIGHT,
                                    .across_x = 1,
                                    .across_y = rising ? 1 : -1}));
    name_pressed_cloth(bench, action);
}

static void try_half_rectangle(struct slips *slips, const struct piece *piece)
{
    slips->try_change(slips,
                      (struct change){.kind = CHANGE_LINE, .piece = piece});
    try_exchanges(slips, piece);
    try_fabrics(slips, piece);
}

static unsigned half_rectangle_presses(const struct piece *piece)
{
    (void)piece;
    return sew_slant.presses;
}

const struct craft craft_half_rectangle = {.name = "half-rectangle",
                                           .build = build_half_rectangle,
                                           .key = key_half_rectangle,
                                           .sew = sew_half_rectangle,
                                           .slips = try_half_rectangle,
                                           .presses = half_rectangle_presses};
