/* Rows of triangles, drawn corner by corner: a corner lies at so many halves of
 * a side, on a line between rows. Shapes and their turns, which hands cut and
 * lay, are not known here; a place covers what is between its corners. */
#include "design_walk.h"

struct drawn_rows {
    struct faces *faces;
    struct cloth *cloth;
    struct rational half, height;
};

/* On a line between rows. */
static struct vertex corner(const struct drawn_rows *drawn, size_t halves,
                            size_t line)
{
    return (struct vertex){rational_times(drawn->half, (int64_t)halves),
                           rational_times(drawn->height, (int64_t)line)};
}

/* One place: half a triangle at an end, else a whole one. */
static void draw_place(const struct drawn_rows *drawn, int fabric, size_t row,
                       size_t place, size_t across, bool down)
{
    const size_t tip = down ? row + 1 : row, base = down ? row : row + 1;
    const size_t right = place + 2 > across + 1 ? across + 1 : place + 2;
    add_triangle(drawn->faces, drawn->cloth, fabric, corner(drawn, place, base),
                 corner(drawn, place + 1, tip), corner(drawn, right, base));
}

/* Between the edge and the first place, or behind the last. Where the triangle
 * beside it points up, it has its long side above. */
static void draw_end(const struct drawn_rows *drawn, int fabric, size_t row,
                     size_t edge, size_t beside, bool down)
{
    const size_t tip = down ? row + 1 : row, base = down ? row : row + 1;
    add_triangle(drawn->faces, drawn->cloth, fabric, corner(drawn, edge, tip),
                 corner(drawn, beside, tip), corner(drawn, edge, base));
}

/* Of a word of the map, or of what lies there after an exchange. */
static int word_fabric(const struct faces *faces, const struct piece *piece,
                       size_t i)
{
    const struct change *patch = find_change(faces, piece, CHANGE_PATCH, i);
    return patch != NULL
               ? patch->fabric
               : drawn_fabric(faces, cell_drawn(faces, piece, i)->piece, 0);
}

/* Halves are of the fabric that is told for them, or of that beside them. */
static int end_fabric(const struct faces *faces, const struct piece *piece,
                      size_t beside)
{
    return piece->fabrics.count > 0 ? drawn_fabric(faces, piece, 0)
                                    : word_fabric(faces, piece, beside);
}

/* Which way the first triangle points, changes applied. */
static bool begins_down(const struct faces *faces, const struct piece *piece)
{
    const struct change *word = find_change(faces, piece, CHANGE_WORD, 0);
    return word == NULL ? piece->triangles->down : word->choice == 1;
}

/* How many places a cell covers. */
static size_t places_of(const struct cell *cell)
{
    return cell->piece->shape == PATCH_TRIANGLE       ? 1
           : cell->piece->shape == PATCH_HALF_HEXAGON ? 3
                                                      : 2;
}

/* From the left; an exchange may put what covers more places or fewer here, so
 * that the row ends where its places do. */
static void draw_row(const struct drawn_rows *drawn, const struct piece *piece,
                     size_t row, bool down)
{
    const struct faces *faces = drawn->faces;
    const struct triangle_rows *rows = piece->triangles;
    const size_t first = rows->first[row] + 1, last = rows->first[row + 1] - 2;
    const size_t across = rows->across;
    draw_end(drawn, end_fabric(faces, piece, first), row, 0, 1,
             down != (row % 2 == 1));
    size_t place = 0;
    for (size_t i = first; i <= last; i++) {
        const int fabric = word_fabric(faces, piece, i);
        for (size_t k = places_of(cell_drawn(faces, piece, i));
             k > 0 && place < across; k--) {
            draw_place(drawn, fabric, row, place, across,
                       down != ((row + place) % 2 == 1));
            place++;
        }
    }
    draw_end(drawn, end_fabric(faces, piece, last), row, across + 1, across,
             down != ((row + across - 1) % 2 == 1));
}

/* Row by row, place by place. */
struct cloth *triangle_faces(struct faces *faces, const struct piece *piece)
{
    const struct triangle_rows *rows = piece->triangles;
    const bool down = begins_down(faces, piece);
    struct drawn_rows drawn = {
        faces, ARENA_NEW(faces->arena, struct cloth),
        rational_div(faces->sized->width[piece->index],
                     rational_whole((int64_t)rows->across + 1)),
        rational_div(faces->sized->height[piece->index],
                     rational_whole((int64_t)rows->rows))};
    for (size_t row = 0; row < rows->rows; row++)
        draw_row(&drawn, piece, row, down);
    return drawn.cloth;
}
