/* Settings on point, drawn as the designer told them: in level lines, each
 * block turned about its own middle. Rows, which hands sew, are not known here,
 * so that a row that is set wrongly does not come out as it is drawn. Places
 * count in halves of the diagonal from one block to the next: block i of line k
 * lies at 2i + 1, or 2i + 2 where k is odd, and k + 1. A strip lies at odd
 * quarters both ways, which way it runs goes by turns; cornerstones lie where
 * both numbers of halves have an even sum. The triangles' tips are told one by
 * one. */
#include "design_walk.h"

struct drawn_setting {
    struct faces *faces;
    struct cloth *cloth;
    const struct on_point *of;
    struct rational half;   /* of the diagonal of a block with its strip */
    struct rational excess; /* from the points to the edge */
};

/* So many halves from the left or the top, behind what floats. */
static struct rational place(const struct drawn_setting *drawn, int64_t halves)
{
    return rational_add(rational_times(drawn->half, halves), drawn->excess);
}

/* Turned clockwise by an eighth about the middle of a width x height rectangle,
 * which comes to lie at `middle`. */
struct tilt {
    struct rational width, height;
    struct vertex middle;
};

/* As cloth_mapped asks for it. */
static struct vertex tilted(struct vertex v, const void *how)
{
    const struct tilt *tilt = how;
    const struct rational two = rational_whole(2);
    const struct rational cosine = rational_div(rational_root(2), two);
    v.x = rational_sub(v.x, rational_div(tilt->width, two));
    v.y = rational_sub(v.y, rational_div(tilt->height, two));
    return (struct vertex){
        rational_add(tilt->middle.x,
                     rational_mul(cosine, rational_sub(v.x, v.y))),
        rational_add(tilt->middle.y,
                     rational_mul(cosine, rational_add(v.x, v.y)))};
}

/* What a piece shows, turned about its middle. */
static void draw_cell(const struct drawn_setting *drawn,
                      const struct piece *piece, struct orientation lies,
                      struct vertex middle)
{
    struct arena *arena = drawn->faces->arena;
    const struct cloth *cloth =
        cloth_oriented(arena, drawn->faces->draw(drawn->faces, piece), lies);
    const struct tilt tilt = {cloth->width, cloth->height, middle};
    cloth_add_all(arena, drawn->cloth,
                  cloth_mapped(arena, cloth, tilted, &tilt));
}

/* The first line lies half a diagonal below the top, its first block as far
 * from the left; blocks of every second line lie between those. */
static void draw_blocks(const struct drawn_setting *drawn)
{
    size_t i = 0;
    for (size_t line = 0; line + 1 < 2 * drawn->of->down; line++)
        for (size_t k = 0; k < drawn->of->across - line % 2; k++, i++)
            draw_cell(
                drawn, drawn->of->blocks[i].piece,
                drawn->of->blocks[i].orientation,
                (struct vertex){place(drawn, (int64_t)(2 * k + 1 + line % 2)),
                                place(drawn, (int64_t)line + 1)});
}

/* Cornerstones at the corners of all diagonals; the edge of the top cuts some
 * in half. Strips lie halfway between two: the fourth of a diagonal from a
 * block's middle in each way. One beside a block's upper right side or lower
 * left one falls from left to right, along the rows. */
static void draw_sashing(const struct drawn_setting *drawn)
{
    const struct on_point *of = drawn->of;
    const struct orientation straight = {0, false};
    const struct orientation along = {of->turned ? 1 : 0, false};
    const struct rational quarter =
        rational_div(drawn->half, rational_whole(2));
    for (size_t y = 0; y <= 2 * of->down; y++)
        for (size_t x = (y + 1) % 2; x <= 2 * of->across; x += 2)
            draw_cell(drawn, of->crossing, straight,
                      (struct vertex){place(drawn, (int64_t)x),
                                      place(drawn, (int64_t)y)});
    for (size_t y = 1; y < 4 * of->down; y += 2)
        for (size_t x = 1; x < 4 * of->across; x += 2) {
            const bool falls = (x + y) % 4 == 0;
            const struct vertex middle = {
                rational_add(rational_times(quarter, (int64_t)x),
                             drawn->excess),
                rational_add(rational_times(quarter, (int64_t)y),
                             drawn->excess)};
            draw_cell(drawn, falls ? of->level : of->upright,
                      falls ? along : straight, middle);
        }
}

/* ---- what lies around ---- */

/* The three corners of a triangle at an edge or a corner, told by its right
 * angle, or the tip that points inwards, and the ways to the others. */
static void draw_triangle(const struct drawn_setting *drawn,
                          const struct piece *piece, struct vertex at,
                          struct rational long_x, struct rational long_y,
                          struct rational more_x, struct rational more_y)
{
    add_triangle(
        drawn->faces, drawn->cloth, drawn_fabric(drawn->faces, piece, 0), at,
        (struct vertex){rational_add(at.x, long_x), rational_add(at.y, long_y)},
        (struct vertex){rational_add(at.x, more_x),
                        rational_add(at.y, more_y)});
}

/* Half a block's diagonal high, its tip inwards; `way` is 1 at the left and the
 * top. */
static void draw_sides(const struct drawn_setting *drawn, struct rational high,
                       bool upright, size_t count, int64_t edge, int way)
{
    const struct rational inward = rational_times(high, way);
    const struct rational outward = rational_times(inward, -1);
    const struct rational back = rational_times(high, -1);
    for (size_t i = 1; i < count; i++) {
        const struct rational along = place(drawn, 2 * (int64_t)i);
        const struct rational tip = rational_add(place(drawn, edge), inward);
        if (upright)
            draw_triangle(drawn, drawn->of->side, (struct vertex){tip, along},
                          outward, high, outward, back);
        else
            draw_triangle(drawn, drawn->of->side, (struct vertex){along, tip},
                          high, outward, back, outward);
    }
}

/* Clockwise from the top left, their legs along the edges. */
static void draw_corners(const struct drawn_setting *drawn,
                         struct rational legs)
{
    const struct rational zero = rational_whole(0);
    for (int i = 0; i < 4; i++) {
        const bool right = i == 1 || i == 2, low = i >= 2;
        const struct vertex at = {
            place(drawn, right ? 2 * (int64_t)drawn->of->across : 0),
            place(drawn, low ? 2 * (int64_t)drawn->of->down : 0)};
        draw_triangle(drawn, drawn->of->corner, at,
                      rational_times(legs, right ? -1 : 1), zero, zero,
                      rational_times(legs, low ? -1 : 1));
    }
}

/* A band around the points, where the setting floats. */
static void draw_excess(const struct drawn_setting *drawn)
{
    struct arena *arena = drawn->faces->arena;
    const struct rational zero = rational_whole(0), e = drawn->excess;
    const int fabric = drawn_fabric(drawn->faces, drawn->of->corner, 0);
    const struct rational right = place(drawn, 2 * (int64_t)drawn->of->across);
    const struct rational bottom = place(drawn, 2 * (int64_t)drawn->of->down);
    if (rational_sign(e) == 0)
        return;
    const struct rational width = rational_add(right, e);
    const struct rational middle = rational_sub(bottom, e);
    const struct cloth *level = cloth_rectangle(arena, fabric, width, e);
    const struct cloth *upright = cloth_rectangle(arena, fabric, e, middle);
    cloth_add_all(arena, drawn->cloth, level);
    cloth_add_all(arena, drawn->cloth, cloth_moved(arena, level, zero, bottom));
    cloth_add_all(arena, drawn->cloth, cloth_moved(arena, upright, zero, e));
    cloth_add_all(arena, drawn->cloth, cloth_moved(arena, upright, right, e));
}

/* Blocks, sashing, triangles; what lies beyond the edge is cut off. */
struct cloth *on_point_faces(struct faces *faces, const struct piece *piece)
{
    const struct on_point *of = piece->on_point;
    const struct rational *width = faces->sized->width;
    const struct rational half_root =
        rational_div(rational_root(2), rational_whole(2));
    struct drawn_setting drawn = {.faces = faces,
                                  .cloth =
                                      ARENA_NEW(faces->arena, struct cloth),
                                  .of = of,
                                  .excess = of->excess};
    const struct rational block = width[of->blocks[0].piece->index];
    const struct rational high = rational_mul(block, half_root);
    drawn.half = high;
    if (of->sashed)
        drawn.half = rational_add(
            high, rational_mul(width[of->upright->index], half_root));
    draw_blocks(&drawn);
    if (of->sashed)
        draw_sashing(&drawn);
    draw_sides(&drawn, high, true, of->down, 0, 1);
    draw_sides(&drawn, high, true, of->down, 2 * (int64_t)of->across, -1);
    draw_sides(&drawn, high, false, of->across, 0, 1);
    draw_sides(&drawn, high, false, of->across, 2 * (int64_t)of->down, -1);
    draw_corners(&drawn, high);
    draw_excess(&drawn);
    return cloth_within(faces->arena, drawn.cloth,
                        outline_rectangle(faces->arena, rational_whole(0),
                                          rational_whole(0),
                                          width[piece->index],
                                          faces->sized->height[piece->index]));
}
