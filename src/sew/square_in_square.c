/* Squares in squares. With corners: a square with four more sewn across its
 * corners, two opposite ones at a time, all of it the work of corners.c. With
 * triangles: a center that stands on its point and two squares that are cut on
 * the diagonal; no cloth is lost but slack, and long edges are bias. Read next:
 * join.c. */
#include "bench.h"

static const struct operation sew_triangles = {
    .name = "square-in-square",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_CORNER)};

/* Inputs: the center; with triangles, the square for the top left and bottom
 * right corners and that for the two others. */
enum { CENTER, FIRST_PAIR, SECOND_PAIR };

/* ---- building ---- */

/* Opposite corners one after the other, as they are sewn. */
static struct ref build_corners_in(struct sewer *sewer,
                                   const struct piece *piece,
                                   struct heap *recipe)
{
    static const enum corner_place order[] = {TOP_LEFT, BOTTOM_RIGHT, TOP_RIGHT,
                                              BOTTOM_LEFT};
    const struct rational zero = rational_whole(0);
    add_input(sewer, recipe,
              build_cut(sewer, *recipe, fabric_of(sewer, piece, 0),
                        recipe->width, recipe->width),
              zero, zero);
    for (size_t i = 0; i < 4; i++)
        add_corner(sewer, recipe, fabric_of(sewer, piece, 1),
                   rational_div(recipe->width, rational_whole(2)), order[i]);
    return find_or_add(sewer, recipe);
}

/* Derived. The center finishes at F / sqrt 2 and is cut two seams larger; the
 * triangles have legs of F / 2, so they are half-squares: their squares are F /
 * 2 + s * (2 + sqrt 2), in the trade F / 2 + 7/8. (Lesson 5, Square in a
 * Square, slideblast.com: 9 and 6 7/8 for 12.) Sewn, a center that is e too
 * large puts its points e / sqrt 2 nearer to the edge on each side, and the
 * corners as far out in all. */
static struct ref build_triangles(struct sewer *sewer,
                                  const struct piece *piece,
                                  struct heap *recipe)
{
    const struct pattern *pattern = sewer->sized->design->pattern;
    const struct rational seams = rational_times(pattern->seam, 2);
    const struct rational half = rational_div(recipe->width, rational_whole(2));
    const struct cut_across center = cut_across(pattern, seams, half);
    const struct cut_across corner =
        cut_across(pattern, rational_add(half, seams), pattern->seam);
    if (!rational_known(center.slack) || !rational_known(corner.slack))
        report_too_fine(sewer, piece->element);
    if (rational_sign(center.slack) < 0 || rational_sign(corner.slack) < 0)
        internal_error("the square in `%s` is cut too small", piece->owner->id);
    const struct rational nearer =
        rational_mul(center.slack, rational_make(47321, 2 * 33461));
    recipe->of.square_in_square.slack = rational_add(corner.slack, nearer);
    recipe->of.square_in_square.reach = rational_sub(pattern->seam, nearer);
    for (size_t i = CENTER; i <= SECOND_PAIR; i++) {
        const struct rational side =
            rational_sub(i == CENTER ? center.side : corner.side, seams);
        const int fabric = fabric_of(sewer, piece, i == CENTER ? 0 : 1);
        add_input(sewer, recipe, build_cut(sewer, *recipe, fabric, side, side),
                  rational_whole(0), rational_whole(0));
    }
    return find_or_add(sewer, recipe);
}

static struct ref build_square_in_square(struct sewer *sewer,
                                         const struct piece *piece,
                                         struct rational factor, bool mirror)
{
    struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_SQUARE_IN_SQUARE,
                   &craft_square_in_square);
    recipe.of.square_in_square.method = piece->square_method;
    return piece->square_method == SQUARE_TRIANGLES
               ? build_triangles(sewer, piece, &recipe)
               : build_corners_in(sewer, piece, &recipe);
}

/* It looks the same from all sides, but for its print. */
static void key_square(struct sewer *sewer, struct buffer *key,
                       const struct heap *heap, unsigned turn)
{
    if (heap->of.square_in_square.method == SQUARE_CORNERS) {
        craft_corners.key(sewer, key, heap, turn);
        return;
    }
    const struct fabric *roles = sewer->sized->design->fabrics.items;
    buffer_printf(key, "triangles ");
    key_number(key, heap->width);
    for (size_t i = CENTER; i <= FIRST_PAIR; i++) {
        const size_t input = heap->inputs.items[i].heap;
        buffer_printf(key, "%zu ", input);
        if (roles[heap_fabric(heap_at(sewer, input))].one_way)
            buffer_printf(key, "print %u ", turn);
    }
    key_press(sewer, key, heap, turn, &sew_triangles);
}

/* ---- sewing ---- */

/* A point that is told for the top left corner, at another corner. */
static struct vertex at_corner(const struct bench *bench, enum corner_place at,
                               struct rational x, struct rational y)
{
    const struct rational side = bench->heap->width;
    return vertex_oriented((struct vertex){x, y}, side, side,
                           (struct orientation){(unsigned)at, false});
}

/* The center on its point, as it was cut. Its corners are a root away, so they
 * are as near as drawing needs; its seams are exact. A print lies aslant, which
 * counts as sideways. */
static struct cloth *center_on_point(const struct bench *bench)
{
    const struct heap *cut =
        heap_at(bench->sewer, bench->heap->inputs.items[CENTER].heap);
    const struct rational half =
        rational_div(bench->heap->width, rational_whole(2));
    const struct rational out =
        rational_mul(cut->of.cut.width, rational_make(47321, 2 * 33461));
    struct vertex *points = ARENA_ARRAY(bench->arena, struct vertex, 4);
    for (unsigned i = 0; i < 4; i++)
        points[i] = at_corner(bench, (enum corner_place)i, half,
                              rational_sub(half, out));
    struct cloth *cloth = ARENA_NEW(bench->arena, struct cloth);
    cloth_add(bench->arena, cloth,
              (struct face){.fabric = cut->of.cut.fabric,
                            .points = points,
                            .count = 4,
                            .slanted = true});
    return cloth;
}

/* Half of a square that was cut on the diagonal, its long edge a seam's width
 * past the seam. */
static struct cloth *triangle_at(const struct bench *bench, size_t input,
                                 enum corner_place at)
{
    const struct cut_piece cut =
        heap_at(bench->sewer, bench->heap->inputs.items[input].heap)->of.cut;
    const struct rational half =
        rational_div(bench->heap->width, rational_whole(2));
    /* Both legs end on the line where x and y add up to this. */
    const struct rational edge = rational_add(half, diagonal_offset(bench));
    const struct rational near =
        rational_div(rational_sub(edge, cut.width), rational_whole(2));
    const struct rational far = rational_add(near, cut.width);
    struct vertex *points = ARENA_ARRAY(bench->arena, struct vertex, 3);
    points[0] = at_corner(bench, at, near, near);
    points[1] = at_corner(bench, at, far, near);
    points[2] = at_corner(bench, at, near, far);
    struct cloth *cloth = ARENA_NEW(bench->arena, struct cloth);
    cloth_add(
        bench->arena, cloth,
        (struct face){.fabric = cut.fabric, .points = points, .count = 3});
    return cloth;
}

/* A triangle as it is laid: its long edge on the side of the center, wrong side
 * up. The stitches run as far as the center does. */
static void lay_triangle(const struct bench *bench, struct state *state,
                         const struct cloth *triangle, size_t input,
                         const struct sewn_seam *seam, enum corner_place at)
{
    const struct vertex from = seam->seam.from, to = seam->seam.to;
    const struct rational half =
        rational_div(bench->heap->width, rational_whole(2));
    const struct rational past =
        rational_div(diagonal_offset(bench), rational_whole(2));
    show(bench, state, cloth_flipped(bench->arena, triangle, from, to),
         (int)input, 0, 0);
    const struct vertex p = at_corner(bench, at, rational_times(past, -1),
                                      rational_add(half, past));
    const struct vertex q = at_corner(bench, at, rational_add(half, past),
                                      rational_times(past, -1));
    const bool ahead = rational_compare(p.x, q.x) < 0;
    mark_line(bench, state, MARK_SEWN, ahead ? p : q, ahead ? q : p);
    mark_turn(bench, state, ahead ? p : q, ahead ? q : p, half, seam->across_x,
              seam->across_y);
}

/* Sewn and turned over, each keeps its own side of the seam. ensures: the cloth
 * with the triangle on it. */
static struct cloth *sew_triangle(const struct bench *bench,
                                  struct action *action,
                                  const struct cloth *base, size_t input,
                                  enum corner_place at)
{
    const struct rational zero = rational_whole(0);
    const struct rational half =
        rational_div(bench->heap->width, rational_whole(2));
    const struct vertex p = at_corner(bench, at, zero, half);
    const struct vertex q = at_corner(bench, at, half, zero);
    const struct sewn_seam seam = {
        .seam = {.from = p, .to = q},
        .before = CENTER,
        .next = input,
        .across_x = at == TOP_RIGHT || at == BOTTOM_RIGHT ? 1 : -1,
        .across_y = at == BOTTOM_LEFT || at == BOTTOM_RIGHT ? 1 : -1};
    const struct cloth *triangle = triangle_at(bench, input, at);
    lay_triangle(bench, &action->before, triangle, input, &seam, at);
    /* From the left side to the top, the corner is at the left hand. */
    const struct half_plane outside = half_plane_left(p, q);
    struct cloth *cloth =
        cloth_clipped(bench->arena, base, half_plane_other(outside));
    cloth_add_all(bench->arena, cloth,
                  cloth_clipped(bench->arena, triangle, outside));
    cloth_add_seam(bench->arena, cloth, sew_seam(bench, action, seam));
    return cloth;
}

/* Two triangles on opposite sides. */
static struct cloth *sew_pair(const struct bench *bench,
                              const struct cloth *base, size_t input,
                              enum corner_place at)
{
    struct action *action = add_action(bench, &sew_triangles);
    add_part(bench, action, CENTER);
    add_part(bench, action, input);
    show(bench, &action->before, base, input == FIRST_PAIR ? CENTER : WHOLE, 0,
         0);
    struct cloth *cloth = sew_triangle(bench, action, base, input, at);
    cloth = sew_triangle(bench, action, cloth, input,
                         (enum corner_place)((at + 2) % 4));
    if (input == SECOND_PAIR)
        cloth = cloth_within(
            bench->arena, cloth,
            outline_grown(bench->arena, bench->heap->outline, bench->seam));
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    return cloth;
}

static void sew_square_in_square(const struct bench *bench)
{
    struct cloth *cloth;
    if (bench->heap->of.square_in_square.method == SQUARE_TRIANGLES) {
        cloth = sew_pair(bench, center_on_point(bench), FIRST_PAIR, TOP_LEFT);
        cloth = sew_pair(bench, cloth, SECOND_PAIR, TOP_RIGHT);
    } else {
        cloth = placed(bench, &bench->heap->inputs.items[CENTER]);
        sew_corner_batch(bench, &cloth, 1, 3);
        sew_corner_batch(bench, &cloth, 3, 5);
    }
    bench->heap->cloth = cloth;
}

static void try_square(struct slips *slips, const struct piece *piece)
{
    slips->try_change(slips, (struct change){.kind = CHANGE_FABRICS_EXCHANGED,
                                             .piece = piece,
                                             .first = 0,
                                             .second = 1});
    try_fabrics(slips, piece);
}

static unsigned square_presses(const struct piece *piece)
{
    (void)piece;
    return sew_triangles.presses;
}

const struct craft craft_square_in_square = {.name = "square-in-square",
                                             .build = build_square_in_square,
                                             .key = key_square,
                                             .sew = sew_square_in_square,
                                             .slips = try_square,
                                             .presses = square_presses};
