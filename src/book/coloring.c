/* One page of line drawings to color: blocks with all their seams, and below
 * them the whole top, of which only those lines are left that part fabrics and
 * blocks. Nothing is filled. Read next: cloth_edges.c. */
#include <math.h>

#include "cloth_edges.h"
#include "place.h"

/* ---- drawings ---- */

/* All lines of the page. */
static struct path_item pencil_line(void)
{
    return (struct path_item){.stroke = LINE_MIDDLE,
                              .stroke_color = pencil_grey};
}

/* From lengths of the pattern to points. */
static struct point scaled(struct vertex v, double scale)
{
    return (struct point){rational_double(v.x) * scale,
                          rational_double(v.y) * scale};
}

/* An empty drawing, as large as the room allows, and its scale. */
static struct box *drawing_for(const struct canvas *canvas,
                               const struct cloth *cloth, double width,
                               double height, double *scale)
{
    *scale = fmin(width / rational_double(cloth->width),
                  height / rational_double(cloth->height));
    return box_new(canvas, rational_double(cloth->width) * *scale,
                   rational_double(cloth->height) * *scale);
}

/* Every seam. Edges that two faces share are drawn twice, in one opaque gray:
 * they look like one line. */
static struct box *block_drawing(const struct canvas *canvas,
                                 const struct cloth *cloth, double width,
                                 double height, const char *words)
{
    enum { CORNERS = 72 };
    double scale = 1.0;
    struct box *box = drawing_for(canvas, cloth, width, height, &scale);
    box_tag(canvas, box, "Figure", words);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        struct point points[CORNERS];
        const size_t count = face->count < CORNERS ? face->count : CORNERS;
        for (size_t k = 0; k < count; k++)
            points[k] = scaled(face->points[k], scale);
        box_polygon(canvas, box, points, count, pencil_line());
    }
    box_rectangle(canvas, box, 0.0, 0.0, box->width, box->height,
                  pencil_line());
    box_tag_end(canvas, box, "Figure");
    return box;
}

/* Where the fabric changes, and around each block. */
static struct box *top_drawing(const struct booklet *booklet, double width,
                               double height, const char *words)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct cloth *cloth =
        finished_cloth(canvas->arena, booklet->quilt->cloth);
    const struct cloth_edges edges = cloth_edges(canvas->arena, cloth);
    const struct block_places blocks =
        block_places(canvas->arena, booklet->quilt);
    double scale = 1.0;
    struct box *box = drawing_for(canvas, cloth, width, height, &scale);
    box_tag(canvas, box, "Figure", words);
    for (size_t i = 0; i < edges.items.count; i++) {
        const struct point p = scaled(edges.items.items[i].from, scale);
        const struct point q = scaled(edges.items.items[i].to, scale);
        box_stroke(canvas, box, p.x, p.y, q.x, q.y, pencil_line());
    }
    for (size_t i = 0; i < blocks.items.count; i++) {
        const struct block_place *place = &blocks.items.items[i];
        box_rectangle(canvas, box, place->x * scale, place->y * scale,
                      place->width * scale, place->height * scale,
                      pencil_line());
    }
    box_tag_end(canvas, box, "Figure");
    return box;
}

/* ---- the page ---- */

/* Below a drawing for its name; a block that is smaller cannot be colored. */
#define NAME_SPACE MM(6.6)
#define LEAST_SIDE MM(45.0)

/* How blocks lie: up to three in a row. */
struct layout {
    size_t count, columns; /* of the blocks that are drawn */
    double side;           /* of the square that each may fill */
};

/* Room for one block in rows of so many columns. */
static double side_for(size_t count, size_t columns, double room)
{
    const double rows = (double)((count + columns - 1) / columns);
    return fmin(columns_wide(12 / (int)columns), room / rows - NAME_SPACE);
}

/* The largest squares; fewer blocks where they would be too small. */
static struct layout find_layout(size_t count, double room)
{
    enum { COLUMNS_MOST = 3 };
    struct layout layout = {.count = count};
    for (; layout.count > 0; layout.count--) {
        layout.side = 0.0;
        for (size_t columns = 1; columns <= COLUMNS_MOST; columns++) {
            const double side = side_for(layout.count, columns, room);
            if (side > layout.side) {
                layout.side = side;
                layout.columns = columns;
            }
        }
        if (layout.side >= LEAST_SIDE)
            break;
    }
    return layout;
}

/* A drawing in the middle of its columns, its name below. A name that is longer
 * than the columns is cut, as the neighbor's begins there. */
static void put_drawing(const struct canvas *canvas, struct box *box,
                        const struct box *drawing, const char *name, double x,
                        double y, double width)
{
    struct text_style style = style_small();
    style.align = ALIGN_CENTER;
    const double space = (width - drawing->width) / 2.0;
    box_put(canvas, box, drawing, x + space, y);
    box_put(
        canvas, box,
        box_text(canvas, box_fitted(canvas, name, style, width), style, width),
        x, y + drawing->height + SPACE_QUARTER);
}

/* ensures: where the rows end. */
static double put_blocks(struct booklet *booklet, struct box *box,
                         const struct contents *contents, struct layout layout)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    double y = 0.0;
    size_t i = 0;
    for (size_t k = 0; k < contents->items.count && i < layout.count; k++) {
        const struct told_figure *told = &contents->items.items[k].as.figure;
        if (contents->items.items[k].part != PART_BLOCKS)
            continue;
        const size_t column = i++ % layout.columns;
        const double width = columns_wide(12 / (int)layout.columns);
        const struct heap *heap = &booklet->quilt->heaps.items[told->heap];
        const struct box *drawing =
            block_drawing(canvas, finished_cloth(canvas->arena, heap->cloth),
                          layout.side, layout.side, told->told);
        put_drawing(canvas, box, drawing, told->caption,
                    (double)column * (width + GRID_GUTTER), y, width);
        if (column + 1 == layout.columns || i == layout.count)
            y += layout.side + NAME_SPACE;
    }
    return y;
}

/* Blocks take up to a little less than half of the page, the top the rest. */
static struct box *coloring_box(struct booklet *booklet,
                                const struct contents *contents, double room)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct told_figure *top =
        &content_of(contents, PART_MAIN, CONTENT_FIGURE)->as.figure;
    struct box *box = box_new(canvas, canvas->width, room);
    size_t blocks = 0;
    for (size_t i = 0; i < contents->items.count; i++)
        blocks += contents->items.items[i].part == PART_BLOCKS;
    const double y =
        put_blocks(booklet, box, contents, find_layout(blocks, room * 0.47));
    put_drawing(canvas, box,
                top_drawing(booklet, canvas->width,
                            box->height - NAME_SPACE - y, top->told),
                top->caption, 0.0, y, canvas->width);
    return box;
}

/* Nobody needs this page to sew, so a booklet that would be too long with it,
 * and with the back cover behind it, has it as a figure alone. */
void section_coloring(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct contents contents = tell_coloring(&booklet->wording);
    const struct told_heading *heading = heading_of(&contents, PART_MAIN);
    struct box *head = flow_head(flow, heading->title, heading->lead, true);
    const size_t pages = flow_end(flow).page;
    struct box *box =
        coloring_box(booklet, &contents,
                     flow_page_height(flow) - head->height - SPACE_LINE - 1.0);
    name_coloring_figure(booklet, heading->title, box);
    if (pages + 2 > most_pages(&booklet->wording))
        return;
    flow_add(flow, head, SPACE_MOST);
    flow_add(flow, box, SPACE_LINE);
}
