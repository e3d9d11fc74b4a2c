/* An eight-pointed star, drawn corner by corner. A point lies as far from a
 * corner of the block as the block is wider than half its diagonal (derived:
 * the circle about that corner through the middle ends there); the ends of
 * seams inside lie as far from the middle as a diamond's side is long. Strips
 * and turns of pieces are not known here. Read next: design_triangles.c. */
#include "design_walk.h"

/* The corners of what lies in a quarter of the block: clockwise, as seen from
 * the middle. */
struct drawn_star {
    struct faces *faces;
    struct cloth *cloth;
    struct rational block;
    struct vertex middle;
    int fabrics[4]; /* first and second diamond, corners, sides */
};

/* A point told for the top right quarter, so many quarters further. */
static struct vertex further(const struct drawn_star *star, struct vertex v,
                             unsigned quarters)
{
    return vertex_oriented(v, star->block, star->block,
                           (struct orientation){quarters, false});
}

static void draw_diamond(const struct drawn_star *star, int fabric,
                         const struct vertex *outer, unsigned quarters)
{
    struct vertex *points = ARENA_ARRAY(star->faces->arena, struct vertex, 4);
    points[0] = star->middle;
    for (size_t i = 0; i < 3; i++)
        points[i + 1] = further(star, outer[i], quarters);
    cloth_add(star->faces->arena, star->cloth,
              (struct face){.fabric = fabric, .points = points, .count = 4});
}

/* The square in the corner, as two triangles would not be its one face. */
static void draw_corner(const struct drawn_star *star,
                        const struct vertex *square, unsigned quarters)
{
    struct vertex *points = ARENA_ARRAY(star->faces->arena, struct vertex, 4);
    for (size_t i = 0; i < 4; i++)
        points[i] = further(star, square[i], quarters);
    cloth_add(star->faces->arena, star->cloth,
              (struct face){
                  .fabric = star->fabrics[2], .points = points, .count = 4});
}

/* From the middle of the top edge to that of the right one. */
static void draw_quarter(const struct drawn_star *star, unsigned quarters)
{
    const struct rational b = star->block, zero = rational_whole(0);
    const struct rational half = rational_div(b, rational_whole(2));
    const struct rational reach = rational_mul(half, rational_root(2));
    const struct rational near = rational_sub(b, reach); /* to the corner */
    const struct rational in = rational_sub(half, near); /* under the edge */
    const struct vertex above = {half, in}, right = {rational_sub(b, in), half};
    const struct vertex first = {reach, zero}, second = {b, near};
    const struct vertex corner = {b, zero}, inner = {reach, near};
    const struct vertex one[3] = {above, first, inner};
    const struct vertex two[3] = {inner, second, right};
    const struct vertex square[4] = {first, corner, second, inner};
    draw_diamond(star, star->fabrics[0], one, quarters);
    draw_diamond(star, star->fabrics[1], two, quarters);
    draw_corner(star, square, quarters);
    add_triangle(star->faces, star->cloth, star->fabrics[3],
                 further(star, (struct vertex){near, zero}, quarters),
                 further(star, first, quarters),
                 further(star, above, quarters));
}

struct cloth *star_faces(struct faces *faces, const struct piece *piece)
{
    const struct rational block = faces->sized->width[piece->index];
    const struct rational half = rational_div(block, rational_whole(2));
    struct drawn_star star = {.faces = faces,
                              .cloth = ARENA_NEW(faces->arena, struct cloth),
                              .block = block,
                              .middle = {half, half}};
    for (size_t i = 0; i < 4; i++)
        star.fabrics[i] = drawn_fabric(faces, piece, i);
    for (unsigned quarter = 0; quarter < 4; quarter++)
        draw_quarter(&star, quarter);
    return star.cloth;
}
