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

/* Row by row, place by place. */
struct cloth *triangle_faces(struct faces *faces, const struct piece *piece)
{
    const struct triangle_rows *rows = piece->triangles;
    struct drawn_rows drawn = {
        faces, ARENA_NEW(faces->arena, struct cloth),
        rational_div(faces->sized->width[piece->index],
                     rational_whole((int64_t)rows->across + 1)),
        rational_div(faces->sized->height[piece->index],
                     rational_whole((int64_t)rows->rows))};
    for (size_t row = 0; row < rows->rows; row++) {
        const size_t begin = rows->first[row], end = rows->first[row + 1];
        for (size_t i = begin; i < end; i++) {
            const int fabric =
                drawn_fabric(faces, piece->cells.items[i].piece, 0);
            const bool first = i == begin, last = i + 1 == end;
            if (first || last) {
                const size_t beside = first ? 0 : rows->across - 1;
                draw_end(&drawn, fabric, row, first ? 0 : rows->across + 1,
                         first ? 1 : rows->across,
                         rows->down != ((row + beside) % 2 == 1));
                continue;
            }
            const size_t beyond =
                i + 2 == end ? rows->across : rows->place[i + 1];
            for (size_t place = rows->place[i]; place < beyond; place++)
                draw_place(&drawn, fabric, row, place, rows->across,
                           rows->down != ((row + place) % 2 == 1));
        }
    }
    return drawn.cloth;
}
