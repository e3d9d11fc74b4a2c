/* Line drawings to color: the whole top, and each block once. Every seam is a
 * line, and nothing is filled. Read next: scale.c. */
#include <math.h>
#include <string.h>

#include "section.h"

/* Pale enough to vanish beside a pencil, and still 3 : 1 against the paper
 * (WCAG 2.1, 1.4.11). */
static const struct color pencil_line = {0.58, 0.58, 0.58};

/* A convex face has few corners; each clip adds one at most. */
enum { CORNERS_MOST = 72 };

/* A face in points of the drawing. Fixed room, as it is clipped four times and
 * copied each time. */
struct seam_lines {
    struct point points[CORNERS_MOST];
    size_t count;
};

/* How far a point lies inside of one line: x, or y, above `limit` where the
 * sign is positive, below it where it is negative. Outside is less than 0. */
static double inside_by(struct point p, bool vertical, double limit,
                        double sign)
{
    return sign * ((vertical ? p.y : p.x) - limit);
}

/* Cuts off what lies beyond one line (I. Sutherland, G. Hodgman, Reentrant
 * polygon clipping, 1974). */
static void clip(struct seam_lines *outline, bool vertical, double limit,
                 double sign)
{
    struct seam_lines kept = {.count = 0};
    for (size_t i = 0; i < outline->count; i++) {
        const struct point p = outline->points[i];
        const struct point q = outline->points[(i + 1) % outline->count];
        const double a = inside_by(p, vertical, limit, sign);
        const double b = inside_by(q, vertical, limit, sign);
        if (a >= 0.0 && kept.count < CORNERS_MOST)
            kept.points[kept.count++] = p;
        if ((a < 0.0) != (b < 0.0) && a != b && kept.count < CORNERS_MOST)
            kept.points[kept.count++] =
                (struct point){p.x + (q.x - p.x) * a / (a - b),
                               p.y + (q.y - p.y) * a / (a - b)};
    }
    *outline = kept;
}

/* What shows when it is sewn in: the seam allowance around it is left out. */
static void draw_outline(const struct canvas *canvas, struct box *box,
                         const struct face *face, double scale)
{
    struct seam_lines outline = {.count = 0};
    struct path_item line = outline_narrow();
    line.stroke_color = pencil_line;
    while (outline.count < face->count && outline.count < CORNERS_MOST) {
        const struct vertex v = face->points[outline.count];
        outline.points[outline.count++] = (struct point){
            rational_double(v.x) * scale, rational_double(v.y) * scale};
    }
    clip(&outline, false, 0.0, 1.0);
    clip(&outline, false, box->width, -1.0);
    clip(&outline, true, 0.0, 1.0);
    clip(&outline, true, box->height, -1.0);
    if (outline.count > 2)
        box_polygon(canvas, box, outline.points, outline.count, line);
}

/* The cloth as large as the room allows, with words for those who cannot see
 * it. Edges that two faces share are drawn twice, in one opaque gray: they
 * look like one line. */
static struct box *line_drawing(const struct canvas *canvas,
                                const struct cloth *cloth, double width,
                                double height, const char *words)
{
    const double scale = fmin(width / rational_double(cloth->width),
                              height / rational_double(cloth->height));
    struct box *box = box_new(canvas, rational_double(cloth->width) * scale,
                              rational_double(cloth->height) * scale);
    struct path_item line = outline_narrow();
    line.stroke_color = pencil_line;
    box_tag(canvas, box, "Figure", words);
    for (size_t i = 0; i < cloth->faces.count; i++)
        draw_outline(canvas, box, &cloth->faces.items[i], scale);
    box_rectangle(canvas, box, 0.0, 0.0, box->width, box->height, line);
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

/* Points: between drawings, and below each for its name. */
enum { BLOCK_GAP = 22, NAME_SPACE = 18, COLUMNS_MOST = 3 };

/* The side of the largest square that so many columns leave on one page. */
static double side_for(const struct flow *flow, size_t count, size_t columns,
                       double room)
{
    const double rows = (double)((count + columns - 1) / columns);
    const double across =
        (flow->canvas.width - BLOCK_GAP * (double)(columns - 1)) /
        (double)columns;
    return fmin(across, room / rows - NAME_SPACE - BLOCK_GAP);
}

/* A drawing with its name below it, both in the middle of a square. A name that
 * is longer than its drawing is cut, as the neighbor's begins there. */
static struct box *block_box(struct booklet *booklet, struct block block,
                             double side)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const char *name = block.name->definition->name;
    struct box *drawing = line_drawing(
        canvas, block.heap->cloth, side, side,
        say(w->arena, w->phrases, "coloring.block", "name", name, NULL));
    struct box *box = box_new(canvas, side, drawing->height + NAME_SPACE);
    struct text_style style = style_small();
    box_put(canvas, box, drawing, (side - drawing->width) / 2.0, 0.0);
    style.align = ALIGN_CENTER;
    struct box *label =
        box_text(canvas, box_fitted(canvas, name, style, side), style, side);
    box_put(canvas, box, label, 0.0, drawing->height + 4.0);
    return box;
}

/* Rows of blocks; few of them are drawn large. The number of columns is the one
 * that gives the largest drawings on one page. */
static void add_blocks(struct booklet *booklet, const struct blocks *blocks,
                       double room)
{
    struct flow *flow = &booklet->flow;
    size_t columns = 1;
    for (size_t i = 2; i <= COLUMNS_MOST; i++)
        if (side_for(flow, blocks->items.count, i, room) >
            side_for(flow, blocks->items.count, columns, room))
            columns = i;
    /* More than a page of them goes on, rather than be too small to color. */
    const double side = fmin(
        fmax(side_for(flow, blocks->items.count, columns, room), 140.0), 400.0);
    for (size_t i = 0; i < blocks->items.count; i += columns) {
        struct box *row[COLUMNS_MOST];
        size_t count = 0;
        for (; count < columns && i + count < blocks->items.count; count++)
            row[count] =
                block_box(booklet, blocks->items.items[i + count], side);
        struct box *drawn = box_row(&flow->canvas, row, count, BLOCK_GAP);
        struct box *box =
            box_new(&flow->canvas, flow->canvas.width, drawn->height);
        box_put(&flow->canvas, box, drawn,
                fmax((flow->canvas.width - drawn->width) / 2.0, 0.0), 0.0);
        flow_add(flow, box, BLOCK_GAP);
    }
}

/* The top as large as a page. */
static void add_top(struct booklet *booklet, double room)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    const struct wording *w = &booklet->wording;
    const struct sewn_quilt *quilt = booklet->quilt;
    struct box *top = line_drawing(canvas, quilt->cloth, canvas->width, room,
                                   say(w->arena, w->phrases, "coloring.top",
                                       "name", quilt->definition->name, NULL));
    struct box *box = box_new(canvas, canvas->width, top->height);
    box_put(canvas, box, top, (canvas->width - top->width) / 2.0, 0.0);
    flow_add(flow, box, 10.0);
}

/* Blocks come first: they may share a page with the end of the finishing, and
 * the top then has one of its own. Nobody needs these pages to sew. */
void section_coloring(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    const struct wording *w = &booklet->wording;
    flow_section(flow, say(w->arena, w->phrases, "coloring.title", NULL), "",
                 true);
    const struct box *heading = flow->boxes.items[flow->boxes.count - 1];
    struct box *use =
        box_text(canvas, say(w->arena, w->phrases, "coloring.use", NULL),
                 style_body(), canvas->width);
    use->keep_with_next = true;
    flow_add(flow, use, 2.0);
    const struct blocks blocks = find_blocks(booklet);
    const double above = heading->height + use->height + 14.0;
    if (blocks.items.count > 0)
        add_blocks(booklet, &blocks, flow_page_height(flow) - above);
    add_top(booklet,
            flow_page_height(flow) - (blocks.items.count > 0 ? 0.5 : above));
}
