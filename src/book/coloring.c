/* One page of line drawings to color: blocks with all their seams, and below
 * them the whole top, of which only those lines are left that part fabrics and
 * blocks. Nothing is filled. Read next: cloth_edges.c. */
#include <math.h>

#include "cloth_edges.h"
#include "section.h"

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

/* ---- blocks ---- */

struct block {
    const struct heap *heap;
    const struct heap_name *name;
};

/* A type of its own, or no function could hand the list back. */
struct blocks {
    LIST(struct block) items;
};

/* Once, however often, large or turned it is sewn. */
static void add_block(struct arena *arena, struct blocks *blocks,
                      struct block block)
{
    for (size_t i = 0; i < blocks->items.count; i++)
        if (blocks->items.items[i].name->definition == block.name->definition)
            return;
    *LIST_ADD(arena, &blocks->items) = block;
}

/* A block that is cut in one piece has no line to color along. */
static struct blocks find_blocks(const struct booklet *booklet)
{
    struct blocks blocks = {0};
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *heap = &booklet->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++)
            if (is_sewn_block(heap, &heap->names.items[k]))
                add_block(booklet->wording.arena, &blocks,
                          (struct block){heap, &heap->names.items[k]});
    }
    return blocks;
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
                         const struct blocks *blocks, struct layout layout)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    double y = 0.0;
    for (size_t i = 0; i < layout.count; i++) {
        const struct block *block = &blocks->items.items[i];
        const char *name = block->name->definition->name;
        const size_t column = i % layout.columns;
        const double width = columns_wide(12 / (int)layout.columns);
        const struct box *drawing = block_drawing(
            canvas, finished_cloth(canvas->arena, block->heap->cloth),
            layout.side, layout.side,
            say(w->arena, w->phrases, "coloring.block", "name", name, NULL));
        put_drawing(canvas, box, drawing, name,
                    (double)column * (width + GRID_GUTTER), y, width);
        if (column + 1 == layout.columns || i + 1 == layout.count)
            y += layout.side + NAME_SPACE;
    }
    return y;
}

/* Nobody needs this page to sew. Blocks take up to a little less than half of
 * it, the top the rest. */
void section_coloring(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    const struct wording *w = &booklet->wording;
    flow_section(flow, say(w->arena, w->phrases, "coloring.title", NULL),
                 say(w->arena, w->phrases, "coloring.use", NULL), true);
    const struct box *head = flow->boxes.items[flow->boxes.count - 1];
    const double room = flow_page_height(flow) - head->height - SPACE_LINE;
    struct box *box = box_new(canvas, canvas->width, room - 1.0);
    const struct blocks blocks = find_blocks(booklet);
    const double y = put_blocks(booklet, box, &blocks,
                                find_layout(blocks.items.count, room * 0.47));
    const char *name = booklet->quilt->definition->name;
    put_drawing(canvas, box,
                top_drawing(booklet, canvas->width,
                            box->height - NAME_SPACE - y,
                            say(w->arena, w->phrases, "coloring.top", "name",
                                name, NULL)),
                name, 0.0, y, canvas->width);
    flow_add(flow, box, SPACE_LINE);
}
