/* Patches with edges at 60 degrees, and the diamonds of stars at 45: outlines
 * and cuts. All are as high as their row; upper and lower edge are level. An
 * edge at 60 degrees runs height / sqrt 3 to the side; a seam s beside it is s *
 * 2 / sqrt 3 along a level edge. At 45 degrees these are the height, and s *
 * sqrt 2. Read next: patch.c. */
#include "craft.h"

/* The two ends of the upper edge and of the lower one. */
struct edges {
    struct rational top_left, top_right, bottom_left, bottom_right;
};

/* How far a slanted edge of that height runs to the side; at 60 degrees half a
 * side of a triangle. */
static struct rational run_of(enum patch_shape shape, struct rational height)
{
    return shape == PATCH_STAR_DIAMOND
               ? height
               : rational_mul(height, rational_div(rational_root(3),
                                                   rational_whole(3)));
}

/* A seam beside a slanted edge, along a level one. */
static struct rational beside_of(enum patch_shape shape, struct rational seam)
{
    return shape == PATCH_STAR_DIAMOND
               ? rational_mul(seam, rational_root(2))
               : run_of(shape, rational_times(seam, 2));
}

/* Its sides are all as long as the slanted ones: height * sqrt 2. */
static struct edges star_edges(struct rational height)
{
    const struct rational side = rational_mul(height, rational_root(2));
    return (struct edges){height, rational_add(height, side),
                          rational_whole(0), side};
}

/* How often half a side: where each end lies in the finished shape. */
static struct edges edges_of(enum patch_shape shape, struct rational height)
{
    static const int ends[][4] = {[PATCH_TRIANGLE] = {1, 1, 0, 2},
                                  [PATCH_DIAMOND_RIGHT] = {1, 3, 0, 2},
                                  [PATCH_DIAMOND_LEFT] = {0, 2, 1, 3},
                                  [PATCH_HALF_HEXAGON] = {1, 3, 0, 4},
                                  [PATCH_END_LEFT] = {0, 1, 0, 0},
                                  [PATCH_END_RIGHT] = {0, 1, 1, 1}};
    if (shape == PATCH_STAR_DIAMOND)
        return star_edges(height);
    const struct rational half = run_of(shape, height);
    return (struct edges){rational_times(half, ends[shape][0]),
                          rational_times(half, ends[shape][1]),
                          rational_times(half, ends[shape][2]),
                          rational_times(half, ends[shape][3])};
}

/* Clockwise from the top left; where an edge is a point, that is there once. */
static struct outline outline_between(struct arena *arena, struct edges edges,
                                      struct rational top,
                                      struct rational bottom)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, 4);
    size_t count = 0;
    points[count++] = (struct vertex){edges.top_left, top};
    if (!rational_equal(edges.top_left, edges.top_right))
        points[count++] = (struct vertex){edges.top_right, top};
    points[count++] = (struct vertex){edges.bottom_right, bottom};
    if (!rational_equal(edges.bottom_left, edges.bottom_right))
        points[count++] = (struct vertex){edges.bottom_left, bottom};
    return (struct outline){points, count};
}

/* Finished, with its box at 0, 0. */
struct outline angled_outline(struct arena *arena, enum patch_shape shape,
                              struct rational height)
{
    return outline_between(arena, edges_of(shape, height), rational_whole(0),
                           height);
}

/* The ends of level edges of the cloth as it is cut: `above` and `below` the
 * finished ones, one seam outside of the others. */
static struct edges cut_edges(enum patch_shape shape, struct rational height,
                              struct rational seam, struct rational above,
                              struct rational below)
{
    struct edges edges = edges_of(shape, height);
    const struct rational up = run_of(shape, above);
    const struct rational down = run_of(shape, below);
    const struct rational beside = beside_of(shape, seam);
    const bool left_upright = shape == PATCH_END_LEFT;
    const bool right_upright = shape == PATCH_END_RIGHT;
    /* 1 where the edge leans to the right, -1 where to the left. */
    const int left = left_upright ? 0
                     : rational_compare(edges.top_left, edges.bottom_left) > 0
                         ? 1
                         : -1;
    const int right =
        right_upright                                               ? 0
        : rational_compare(edges.top_right, edges.bottom_right) > 0 ? 1
                                                                    : -1;
    const struct rational out_left = left_upright ? seam : beside;
    const struct rational out_right = right_upright ? seam : beside;
    edges.top_left = rational_sub(
        rational_add(edges.top_left, rational_times(up, left)), out_left);
    edges.bottom_left = rational_sub(
        rational_sub(edges.bottom_left, rational_times(down, left)), out_left);
    edges.top_right = rational_add(
        rational_add(edges.top_right, rational_times(up, right)), out_right);
    edges.bottom_right = rational_add(
        rational_sub(edges.bottom_right, rational_times(down, right)),
        out_right);
    return edges;
}

/* Tips stick out by two seams: of a triangle at the top, of a row's end at the
 * bottom. */
static struct rational above_of(enum patch_shape shape, struct rational seam)
{
    return rational_times(seam, shape == PATCH_TRIANGLE ? 2 : 1);
}
static struct rational below_of(enum patch_shape shape, struct rational seam)
{
    return rational_times(
        seam, shape == PATCH_END_LEFT || shape == PATCH_END_RIGHT ? 2 : 1);
}

/* A seam outside of the finished outline, tips as they are cut. */
struct outline angled_cut(struct arena *arena, enum patch_shape shape,
                          struct rational height, struct rational seam)
{
    const struct rational above = above_of(shape, seam);
    const struct rational below = below_of(shape, seam);
    return outline_between(arena, cut_edges(shape, height, seam, above, below),
                           rational_times(above, -1),
                           rational_add(height, below));
}

/* The mean of two widths. */
static struct rational half_sum(struct rational a, struct rational b)
{
    return rational_div(rational_add(a, b), rational_whole(2));
}

/* Two slanted ends take as much as one slant, an upright end none. Pieces that
 * lie turned against each other are as wide as their edges are on the mean. */
const struct strip_shape *angled_strip(struct arena *arena,
                                       enum patch_shape shape,
                                       struct rational height,
                                       struct rational seam)
{
    const struct rational above = above_of(shape, seam);
    const struct rational below = below_of(shape, seam);
    const struct rational high =
        rational_add(height, rational_add(above, below));
    struct edges edges = cut_edges(shape, height, seam, above, below);
    const struct rational least =
        rational_min(edges.top_left, edges.bottom_left);
    edges.top_left = rational_sub(edges.top_left, least);
    edges.top_right = rational_sub(edges.top_right, least);
    edges.bottom_left = rational_sub(edges.bottom_left, least);
    edges.bottom_right = rational_sub(edges.bottom_right, least);
    const bool end = shape == PATCH_END_LEFT || shape == PATCH_END_RIGHT;
    const struct rational run = run_of(shape, high);
    struct strip_shape *strip = ARENA_NEW(arena, struct strip_shape);
    *strip = (struct strip_shape){
        .as_cut = outline_between(arena, edges, rational_whole(0), high),
        .advance =
            half_sum(rational_sub(edges.top_right, edges.top_left),
                     rational_sub(edges.bottom_right, edges.bottom_left)),
        .run = end ? rational_div(run, rational_whole(2)) : run,
        .turned = shape != PATCH_DIAMOND_LEFT &&
                  shape != PATCH_DIAMOND_RIGHT && shape != PATCH_STAR_DIAMOND,
        .degrees = shape == PATCH_STAR_DIAMOND ? 45 : 60};
    return strip;
}
