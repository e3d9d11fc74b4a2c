/* Written apart from the crafts, and without seams, heaps or mirrors of
 * plans, so that the two can check each other: verify.c compares them face by
 * face, blame.c asks for what-ifs. Lengths are local. May assume that all sizes
 * below the definition are known. */
#include "design_walk.h"

/* Rows, columns and grids: children side by side. A change may put a cell of
 * another size here, so the next place is behind what lies here now; the
 * picture then differs, and the trial fails. */
static struct cloth *container_faces(struct faces *faces,
                                     const struct piece *piece)
{
    struct cloth *cloth = ARENA_NEW(faces->arena, struct cloth);
    struct rational x = rational_whole(0), y = rational_whole(0);
    /* One loop for the three: a column is a grid of one across. */
    const size_t across = piece->kind == PIECE_GRID  ? piece->across
                          : piece->kind == PIECE_ROW ? piece->cells.count
                                                     : 1;
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = cell_drawn(faces, piece, i);
        const struct change *changed =
            find_change(faces, piece, CHANGE_CELL, i);
        struct cloth *child = cloth_oriented(
            faces->arena, faces->draw(faces, cell->piece),
            changed == NULL ? cell->orientation : changed->orientation);
        cloth_add_all(faces->arena, cloth,
                      cloth_moved(faces->arena, child, x, y));
        x = rational_add(x, child->width);
        if ((i + 1) % across == 0) {
            x = rational_whole(0);
            y = rational_add(y, child->height);
        }
    }
    return cloth;
}

/* The line across a join's square [0, w] x [y, y + w] of a strip down. */
static void join_line(enum line_direction line, struct rational width,
                      struct rational y, struct vertex *p, struct vertex *q)
{
    const struct rational low = rational_add(y, width);
    const bool rising = line == LINE_RISING;
    *p = (struct vertex){rational_whole(0), rising ? low : y};
    *q = (struct vertex){width, rising ? y : low};
}

/* A strip across is a strip down, turned: the first member goes to the left. */
static const struct orientation turned_back = {3, true};

/* Each member keeps the part of its overlap on its own side of the line; walked
 * downwards, the earlier member is above it. */
static struct cloth *diagonal_faces(struct faces *faces,
                                    const struct piece *piece)
{
    struct arena *arena = faces->arena;
    const bool across = piece->horizontal;
    const struct rational width = across ? faces->sized->height[piece->index]
                                         : faces->sized->width[piece->index];
    const struct rational length = across ? faces->sized->width[piece->index]
                                          : faces->sized->height[piece->index];
    enum line_direction line = piece->line;
    if (find_change(faces, piece, CHANGE_LINE, 0) != NULL)
        line = line == LINE_RISING ? LINE_FALLING : LINE_RISING;
    /* Solved as a strip that runs down, whose geometry is simpler to state; the
     * result is turned back at the end. The line turns along. */
    if (across)
        line = line_oriented(line, orientation_inverse(turned_back));
    struct cloth *cloth = ARENA_NEW(arena, struct cloth);
    cloth->width = width;
    cloth->height = length;
    struct rational y = rational_whole(0);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct piece *member = cell_drawn(faces, piece, i)->piece;
        struct cloth *strip = faces->draw(faces, member);
        if (across)
            strip =
                cloth_oriented(arena, strip, orientation_inverse(turned_back));
        const struct rational long_edge = strip->height;
        strip = cloth_moved(arena, strip, rational_whole(0), y);
        struct vertex p, q;
        if (i > 0) { /* below the join with the one before */
            join_line(line, width, y, &p, &q);
            strip = cloth_clipped(arena, strip,
                                  half_plane_other(half_plane_left(p, q)));
        }
        y = rational_sub(rational_add(y, long_edge), width);
        if (i + 1 < piece->cells.count) {
            join_line(line, width, y, &p, &q);
            strip = cloth_clipped(arena, strip, half_plane_left(p, q));
        }
        cloth_add_all(arena, cloth, strip);
    }
    return across ? cloth_oriented(arena, cloth, turned_back) : cloth;
}

/* A square or another rectangle, cut in two from corner to corner: left and
 * right are the sides of the line as seen. */
static struct cloth *halved_faces(struct faces *faces,
                                  const struct piece *piece)
{
    const struct rational width = faces->sized->width[piece->index];
    const struct rational height = faces->sized->height[piece->index];
    const struct rational zero = rational_whole(0);
    enum line_direction line = piece->line;
    if (find_change(faces, piece, CHANGE_LINE, 0) != NULL)
        line = line == LINE_RISING ? LINE_FALLING : LINE_RISING;
    const int left = drawn_fabric(faces, piece, 0);
    const int right = drawn_fabric(faces, piece, 1);
    const bool rising = line == LINE_RISING;
    const struct vertex p = {zero, rising ? height : zero};
    const struct vertex q = {width, rising ? zero : height};
    /* The left part of either diagonal: above a rising one, below a falling. */
    const struct half_plane above = half_plane_left(p, q);
    const struct half_plane below = half_plane_other(above);
    struct cloth *cloth = cloth_rectangle(faces->arena, left, width, height);
    struct face whole = cloth->faces.items[0];
    cloth->faces.count = 0;
    cloth_add(faces->arena, cloth,
              face_clip(faces->arena, whole, rising ? above : below));
    whole.fabric = right;
    cloth_add(faces->arena, cloth,
              face_clip(faces->arena, whole, rising ? below : above));
    return cloth;
}

/* Four triangles from the sides to the middle, clockwise from the top. */
static struct cloth *quarter_square_faces(struct faces *faces,
                                          const struct piece *piece)
{
    const struct rational side = faces->sized->width[piece->index];
    const struct rational zero = rational_whole(0);
    const struct rational half = rational_div(side, rational_whole(2));
    const struct vertex corners[4] = {
        {zero, zero}, {side, zero}, {side, side}, {zero, side}};
    struct cloth *cloth = ARENA_NEW(faces->arena, struct cloth);
    for (size_t i = 0; i < 4; i++) {
        struct vertex *points = ARENA_ARRAY(faces->arena, struct vertex, 3);
        points[0] = corners[i];
        points[1] = corners[(i + 1) % 4];
        points[2] = (struct vertex){half, half};
        cloth_add(faces->arena, cloth,
                  (struct face){.fabric = drawn_fabric(faces, piece, i),
                                .points = points,
                                .count = 3});
    }
    return cloth;
}

/* Corners clockwise from the top left, as sides are from the top: the side that
 * the goose points to lies between the corner of its number and the next one.
 */
static struct cloth *geese_faces(struct faces *faces, const struct piece *piece)
{
    const struct change *change = find_change(faces, piece, CHANGE_WORD, 0);
    const size_t side =
        change == NULL ? (size_t)piece->points : (size_t)change->choice;
    const int goose = drawn_fabric(faces, piece, 0);
    const int sky = drawn_fabric(faces, piece, 1);
    struct cloth *cloth =
        cloth_rectangle(faces->arena, sky, faces->sized->width[piece->index],
                        faces->sized->height[piece->index]);
    const struct vertex *at = cloth->faces.items[0].points;
    cloth->faces.count = 0;
    const struct vertex first = at[side], next = at[(side + 1) % 4];
    const struct vertex opposite = at[(side + 2) % 4],
                        last = at[(side + 3) % 4];
    const struct rational half = rational_make(1, 2);
    const struct vertex point = {
        rational_mul(rational_add(first.x, next.x), half),
        rational_mul(rational_add(first.y, next.y), half)};
    add_triangle(faces, cloth, sky, last, first, point);
    add_triangle(faces, cloth, sky, point, next, opposite);
    add_triangle(faces, cloth, goose, point, opposite, last);
    return cloth;
}

/* The center reaches to the middles of the sides; a triangle in each corner. */
static struct cloth *square_faces(struct faces *faces,
                                  const struct piece *piece)
{
    const struct rational side = faces->sized->width[piece->index];
    const struct rational half = rational_mul(side, rational_make(1, 2));
    const struct rational zero = rational_whole(0);
    struct vertex *middles = ARENA_ARRAY(faces->arena, struct vertex, 4);
    middles[0] = (struct vertex){half, zero};
    middles[1] = (struct vertex){side, half};
    middles[2] = (struct vertex){half, side};
    middles[3] = (struct vertex){zero, half};
    struct cloth *cloth =
        cloth_rectangle(faces->arena, drawn_fabric(faces, piece, 1), side, side);
    const struct face whole = cloth->faces.items[0];
    cloth->faces.count = 0;
    for (size_t i = 0; i < 4; i++)
        add_triangle(faces, cloth, whole.fabric, middles[(i + 3) % 4],
                     whole.points[i], middles[i]);
    cloth_add(faces->arena, cloth,
              (struct face){.fabric = drawn_fabric(faces, piece, 0),
                            .points = middles,
                            .count = 4});
    return cloth;
}

struct cloth *cloth_cast(struct arena *arena, struct cloth *cloth,
                         const struct design *design,
                         const struct definition *definition, const int *cast)
{
    struct cloth *result = ARENA_NEW(arena, struct cloth);
    result->width = cloth->width;
    result->height = cloth->height;
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct face face = cloth->faces.items[i];
        if (design_role(design, face.fabric) != NULL)
            face.fabric = cast[(size_t)face.fabric - design->fabrics.count -
                               definition->first_role];
        cloth_add(arena, result, face);
    }
    return result;
}

/* ensures: the target's faces in the unit and the fabrics of the piece that
 * uses it. */
static struct cloth *use_faces(struct faces *faces, const struct piece *piece)
{
    /* A what-if turn replaces the stated one, before anything is placed. */
    const struct change *change =
        find_change(faces, piece, CHANGE_ORIENTATION, 0);
    const struct orientation o =
        change == NULL ? piece->orientation : change->orientation;
    struct cloth *cloth = cloth_oriented(
        faces->arena, faces->draw(faces, piece->target->root), o);
    if (piece->cast != NULL)
        cloth = cloth_cast(faces->arena, cloth, faces->sized->design,
                           piece->target, piece->cast);
    /* A block with a grid of its own comes in its own squares. */
    const struct rational factor =
        rational_div(faces->sized->width[piece->index], cloth->width);
    return rational_equal(factor, rational_whole(1))
               ? cloth
               : cloth_scaled(faces->arena, cloth, factor);
}

/* The two ends of the seam that cuts a corner off. */
static void corner_ends(enum corner_place at, struct rational width,
                        struct rational height, struct rational size,
                        struct vertex *p, struct vertex *q)
{
    const bool right = at == TOP_RIGHT || at == BOTTOM_RIGHT;
    const bool bottom = at == BOTTOM_LEFT || at == BOTTOM_RIGHT;
    const struct rational x = right ? width : rational_whole(0);
    const struct rational y = bottom ? height : rational_whole(0);
    *p = (struct vertex){right ? rational_sub(x, size) : rational_add(x, size),
                         y};
    *q = (struct vertex){x, bottom ? rational_sub(y, size)
                                   : rational_add(y, size)};
}

/* The corner's triangle takes the place of what was there: no flap, no seam. */
static struct cloth *with_corner(struct faces *faces, const struct piece *piece,
                                 struct cloth *cloth, size_t number)
{
    const struct corner *corner = &piece->corners.items[number];
    const struct change *place =
        find_change(faces, piece, CHANGE_CORNER_PLACE, number);
    const struct change *fabric =
        find_change(faces, piece, CHANGE_CORNER_FABRIC, number);
    const enum corner_place at = place == NULL ? corner->at : place->at;
    struct vertex *points = ARENA_ARRAY(faces->arena, struct vertex, 3);
    corner_ends(at, cloth->width, cloth->height, corner->size, &points[0],
                &points[1]);
    points[2].x = at == TOP_RIGHT || at == BOTTOM_RIGHT ? cloth->width
                                                        : rational_whole(0);
    points[2].y = at == BOTTOM_LEFT || at == BOTTOM_RIGHT ? cloth->height
                                                          : rational_whole(0);
    /* Either side may be the left hand, depending on the corner. */
    struct half_plane keep = half_plane_left(points[0], points[1]);
    /* The corner itself must be outside what is kept. */
    if (rational_sign(half_plane_side(keep, points[2])) < 0)
        keep = half_plane_other(keep);
    struct cloth *result = cloth_clipped(faces->arena, cloth, keep);
    cloth_add(faces->arena, result,
              (struct face){.fabric = fabric == NULL ? corner->fabric
                                                     : fabric->fabric,
                            .points = points,
                            .count = 3});
    return result;
}

/* The whole in the border's fabric, but for the middle and, where something
 * lies there, the corners: four bands, however they are cut. */
static struct cloth *border_faces(struct faces *faces,
                                  const struct piece *piece)
{
    struct arena *arena = faces->arena;
    const struct rational width = faces->sized->width[piece->index];
    const struct rational height = faces->sized->height[piece->index];
    const struct rational b = piece->border->width, zero = rational_whole(0);
    const struct rational far_x = rational_sub(width, b);
    const struct rational far_y = rational_sub(height, b);
    const struct rational inner = rational_sub(far_x, b);
    const struct rational down = rational_sub(far_y, b);
    struct cloth *cloth = cloth_moved(
        arena, faces->draw(faces, piece->cells.items[0].piece), b, b);
    for (size_t i = 0; i < 4; i++) { /* clockwise, a corner and a band each */
        const struct rational x = i == 0 || i == 3 ? zero : far_x;
        const struct rational y = i < 2 ? zero : far_y;
        const int fabric = drawn_fabric(faces, piece, 0);
        const bool level = i % 2 == 0;
        cloth_add_all(
            arena, cloth,
            cloth_moved(arena,
                        cloth_rectangle(arena, fabric, level ? inner : b,
                                        level ? b : down),
                        level    ? b
                        : i == 1 ? far_x
                                 : zero,
                        level ? y : b));
        const struct cell *cell =
            i + 1 < piece->cells.count ? &piece->cells.items[i + 1] : NULL;
        cloth_add_all(
            arena, cloth,
            cloth_moved(arena,
                        cell == NULL
                            ? cloth_rectangle(arena, fabric, b, b)
                            : cloth_oriented(arena,
                                             faces->draw(faces, cell->piece),
                                             cell->orientation),
                        x, y));
    }
    return cloth;
}

/* The piece without its corners, which are cut from the whole. */
static struct cloth *bare_faces(struct faces *faces, const struct piece *piece)
{
    switch (piece->kind) {
    case PIECE_PATCH:
        return cloth_rectangle(faces->arena, drawn_fabric(faces, piece, 0),
                               faces->sized->width[piece->index],
                               faces->sized->height[piece->index]);
    case PIECE_ROW:
    case PIECE_COLUMN:
    case PIECE_GRID:
        return container_faces(faces, piece);
    case PIECE_USE:
        return use_faces(faces, piece);
    case PIECE_DIAGONAL:
        return diagonal_faces(faces, piece);
    case PIECE_BORDER:
        return border_faces(faces, piece);
    case PIECE_QUARTER_SQUARE:
        return quarter_square_faces(faces, piece);
    case PIECE_HALF_SQUARE:
    case PIECE_HALF_RECTANGLE:
        return halved_faces(faces, piece);
    case PIECE_FLYING_GEESE:
        return geese_faces(faces, piece);
    case PIECE_ON_POINT:
        return on_point_faces(faces, piece);
    case PIECE_TRIANGLES:
        return triangle_faces(faces, piece);
    case PIECE_STAR:
        return star_faces(faces, piece);
    case PIECE_SQUARE_IN_SQUARE:
        break;
    }
    return square_faces(faces, piece);
}

/* The solved size is set again: a cloth put together of parts has none. */
static struct cloth *piece_faces(struct faces *faces,
                                 const struct piece *piece)
{
    struct cloth *cloth = bare_faces(faces, piece);
    cloth->width = faces->sized->width[piece->index];
    cloth->height = faces->sized->height[piece->index];
    for (size_t i = 0; i < piece->corners.count; i++)
        cloth = with_corner(faces, piece, cloth, i);
    return cloth;
}

/* A scratch arena may be given: nothing is kept elsewhere. */
struct cloth *design_faces(struct arena *arena, const struct sized *sized,
                           const struct piece *piece,
                           const struct change *changes, size_t count)
{
    struct faces faces = {arena, sized, changes, count, piece_faces};
    return piece_faces(&faces, piece);
}
