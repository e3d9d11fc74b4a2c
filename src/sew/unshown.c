/* Seams that run inside the cells of a picture. No cell can show them, so
 * nothing that is drawn would be the cloth; what helps is a finer picture, and
 * how fine is computed. */
#include "blame.h"

/* More cells a side than this nobody draws. */
enum { CELLS_MOST = 200 };

bool picture_hides(const struct picture *made)
{
    for (size_t i = 0; i < made->across * made->down; i++)
        for (int quarter = 0; quarter < 4; quarter++)
            if (made->cells[i].quarters[quarter] == QUARTER_MIXED)
                return true;
    return false;
}

static int64_t common_divisor(int64_t a, int64_t b)
{
    while (b != 0) {
        const int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* The least number of cells of which both are multiples; 0 for too many. */
static int64_t common_cells(int64_t a, struct rational share)
{
    if (a == 0 || !rational_is_fraction(share) || share.den > CELLS_MOST)
        return 0;
    const int64_t all = a / common_divisor(a, share.den) * share.den;
    return all > CELLS_MOST ? 0 : all;
}

/* Where an edge meets the left or the top side of the block, or would: on the
 * line of a cell it lies along one, or from corner to corner. Unknown for other
 * angles. */
static struct rational edge_place(struct vertex p, struct vertex q)
{
    const struct rational x = rational_sub(q.x, p.x);
    const struct rational y = rational_sub(q.y, p.y);
    if (rational_sign(x) == 0)
        return p.x;
    if (rational_sign(y) == 0)
        return p.y;
    if (rational_equal(x, y))
        return rational_sub(p.x, p.y);
    return rational_equal(x, rational_sub(rational_whole(0), y))
               ? rational_add(p.x, p.y)
               : rational_unknown();
}

/* Square cells across in which every edge is a line that cells have. */
static int64_t cells_of_edges(const struct cloth *cloth)
{
    int64_t all = common_cells(1, rational_div(cloth->height, cloth->width));
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        for (size_t k = 0; k < face->count; k++)
            all = common_cells(
                all,
                rational_div(edge_place(face->points[k],
                                        face->points[(k + 1) % face->count]),
                             cloth->width));
    }
    return all;
}

/* The area of all cloth of one fabric, doubled. */
static struct rational area_of_fabric(const struct cloth *cloth, int fabric)
{
    struct rational area = rational_whole(0);
    for (size_t i = 0; i < cloth->faces.count; i++)
        if (cloth->faces.items[i].fabric == fabric)
            area = rational_add(area, face_double_area(cloth->faces.items[i]));
    return area;
}

/* Whether each fabric is so much cloth as some quarters of cells are. Where a
 * picture shows the cloth, each quarter is of one fabric, so that most numbers
 * of cells need no picture. */
static bool fills_quarters(const struct cloth *cloth, struct rational side)
{
    const struct rational quarter =
        rational_div(rational_mul(side, side), rational_whole(2));
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const int fabric = cloth->faces.items[i].fabric;
        if (i > 0 && cloth->faces.items[i - 1].fabric == fabric)
            continue;
        const struct rational quarters =
            rational_div(area_of_fabric(cloth, fabric), quarter);
        if (rational_known(quarters) && quarters.den != 1)
            return false;
    }
    return true;
}

/* Whether so many cells across show the cloth; they must be squares. */
static bool shows(const struct cloth *cloth, int64_t across)
{
    const struct rational side =
        rational_div(cloth->width, rational_whole(across));
    const struct rational down = rational_div(cloth->height, side);
    if (down.den != 1 || !fills_quarters(cloth, side))
        return false;
    struct arena *scratch = arena_create();
    const struct picture like = {.across = (size_t)across,
                                 .down = (size_t)down.num,
                                 .cell_width = side,
                                 .cell_height = side};
    const bool hides = picture_hides(picture_of(scratch, cloth, &like));
    arena_destroy(scratch);
    return !hides;
}

/* Edges between two pieces of one fabric are not seen, so a part of the cells
 * may do; all of them do in any case, and take longest to try. */
size_t picture_cells_needed(const struct cloth *cloth)
{
    const int64_t all = cells_of_edges(cloth);
    for (int64_t across = 1; across <= all; across++)
        if (across == all || (all % across == 0 && shows(cloth, across)))
            return (size_t)across;
    return 0;
}

/* The first cell that cannot show what lies in it. */
static size_t first_hidden(const struct picture *made)
{
    size_t i = 0;
    for (; i < made->across * made->down; i++)
        for (int quarter = 0; quarter < 4; quarter++)
            if (made->cells[i].quarters[quarter] == QUARTER_MIXED)
                return i;
    return i;
}

void say_hidden(struct blame *blame, const struct cloth *cloth,
                const struct picture *made)
{
    struct run *run = blame->run;
    const struct definition *block = blame->block;
    const size_t cells = picture_cells_needed(cloth);
    const struct span span = block->picture_cells == 0
                                 ? block->picture->name
                                 : value_span(block->picture, ATTR_CELLS);
    const char *needs = cells == 0
                            ? "`shape`s"
                            : arena_printf(run->arena, "cells=\"%zu\"", cells);
    struct diagnostic *d = diag_report(
        run, DIAG_PICTURE_SIZE, span,
        "seams of `%s` run inside the cells of its picture, which needs %s",
        block->id, needs);
    const size_t i = first_hidden(made);
    diag_note(run, d, made->cells[i].span,
              "row %zu, column %zu: two fabrics meet where a cell has no line",
              i / made->across + 1, i % made->across + 1);
    if (cells == 0)
        diag_help(run, d, "draw it as polygons, with `shape`");
    else if (cells % made->across == 0)
        diag_help(run, d, "with %s write %zu x %zu cells in place of each",
                  needs, cells / made->across, cells / made->across);
    else
        diag_help(
            run, d, "with %s it is drawn in %zu x %zu cells", needs, cells,
            (size_t)rational_ceil(rational_div(
                rational_times(cloth->height, (int64_t)cells), cloth->width)));
}
