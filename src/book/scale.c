/* Pages in true size. One unit of the frame is one unit of the pattern, so what
 * lies on the page can be laid on cloth. Squares are drawn with their outer
 * edges on the measure, as a ruler is laid against an edge, not against the
 * middle of a line. Read next: box.c. */
#include <math.h>

#include "section.h"
#include "structure.h"
#include "trade.h"

/* Points. What A4 (ISO 216) and US letter share: the width of the one, the
 * height of the other. */
static const double SHARED_WIDTH = 595.276, SHARED_HEIGHT = 792.0;
static const double INCH = 72.0, CENTIMETRE = 72.0 / 2.54;

/* A rectangle whose outer edges are exact: the line lies inside. */
static void exact_rectangle(const struct canvas *canvas, struct box *box,
                            double x, double y, double width, double height)
{
    const struct path_item line = outline_narrow();
    box_rectangle(canvas, box, x + line.stroke / 2.0, y + line.stroke / 2.0,
                  width - line.stroke, height - line.stroke, line);
}

/* One square and its words to the right. ensures: where the next one begins. */
static double test_square(struct booklet *booklet, struct box *box, double x,
                          double y, double side, const char *words,
                          double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    box_tag(canvas, box, "Figure", words);
    exact_rectangle(canvas, box, x, y, side, side);
    box_tag_end(canvas, box, "Figure");
    struct box *text = box_text(canvas, words, style_body(), width);
    box_put(canvas, box, text, x + side + 10.0, y);
    return x + side + 10.0 + width + 18.0;
}

/* Heading, test squares, and below them the frame. The box is as high as a
 * letter page on both papers, so no second box fits beside it and the page is
 * its own. */
struct scale_page scale_page(struct booklet *booklet, const char *title)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    const struct wording *w = &booklet->wording;
    const double width = SHARED_WIDTH - 2.0 * flow->margin;
    struct box *box =
        box_new(canvas, width, SHARED_HEIGHT - flow->top - flow->bottom);
    struct box *heading =
        box_heading(canvas, title, style_section(), width, "H1");
    box_put(canvas, box, heading, 0.0, 0.0);
    const double y = heading->height + 8.0;
    const double next =
        test_square(booklet, box, 0.0, y, INCH,
                    say(w->arena, w->phrases, "scale.inch", NULL), 200.0);
    test_square(booklet, box, next, y, 2.0 * CENTIMETRE,
                say(w->arena, w->phrases, "scale.centimetres", NULL),
                width - next - 2.0 * CENTIMETRE - 10.0);
    box->outline = title;
    box->starts_page = true;
    box->true_to_scale = true;
    flow_add(flow, box, 22.0);
    flow->book->true_scale = true;
    struct scale_page page = {.box = box, .width = width};
    page.unit = booklet->design->pattern->units == UNIT_CM ? CENTIMETRE : INCH;
    page.top = y + INCH + 16.0;
    page.height = box->height - page.top;
    return page;
}

/* ---- seam gauge ---- */

/* A scant seam is narrower by the thickness of the fold. */
static struct rational scant_by(const struct booklet *booklet)
{
    return trade_length(TRADE_SCANT, booklet->design->pattern->units);
}

/* A sentence about one length. */
static const char *with_unit(const struct wording *w, const char *key,
                             struct rational length)
{
    return say(w->arena, w->phrases, key, "length",
               arena_printf(w->arena, "%s\u00a0%s", word_length(w, length),
                            word_unit(w)),
               NULL);
}

/* The needle's line from x to x + width, and its words below. Dashed, as sewing
 * lines are in all figures. ensures: where the words end. */
static double needle_line(struct booklet *booklet,
                          const struct scale_page *page, double x, double width,
                          struct rational seam, const char *words)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double y = page->top + 22.0 + rational_double(seam) * page->unit;
    box_stroke(canvas, page->box, x, y, x + width, y, mark_style(MARK_SEWN));
    struct box *text = box_text(canvas, words, style_small(), width);
    box_put(canvas, page->box, text, x, y + 6.0);
    return y + 6.0 + text->height;
}

/* Edge and needle, as they lie under the foot: at the left the seam of the
 * pattern, at the right a scant one, so that the two can be compared and no
 * line is nearer to another than 0.7 mm (ISO 128-20). ensures: where it ends.
 * */
static double seam_gauge(struct booklet *booklet, const struct scale_page *page)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct rational seam = booklet->design->pattern->seam;
    const double half = page->width / 2.0 - 10.0;
    const char *words = with_unit(w, "scale.seam", seam);
    const double edge = page->top + 22.0;
    box_put(canvas, page->box,
            box_text(canvas, say(w->arena, w->phrases, "scale.edge", NULL),
                     style_small(), page->width),
            0.0, page->top + 6.0);
    box_tag(canvas, page->box, "Figure", words);
    box_stroke(canvas, page->box, 0.0, edge, page->width, edge,
               outline_narrow());
    double end = needle_line(booklet, page, 0.0, half, seam, words);
    /* A seam that is hardly wider than the difference has no scant one. */
    const struct rational scant = rational_sub(seam, scant_by(booklet));
    if (rational_compare(seam, rational_times(scant_by(booklet), 3)) > 0)
        end = fmax(end,
                   needle_line(booklet, page, half + 20.0, half, scant,
                               with_unit(w, "scale.scant", scant_by(booklet))));
    box_tag_end(canvas, page->box, "Figure");
    struct box *use =
        box_text(canvas, say(w->arena, w->phrases, "scale.gauge", NULL),
                 style_body(), page->width);
    box_put(canvas, page->box, use, 0.0, end + 6.0);
    return end + 6.0 + use->height;
}

/* ---- corner squares ---- */

/* One size, and the labels of all cut pieces that have it. */
struct cut_shape {
    struct rational width, height;
    const char *labels;
    bool corner; /* sewn on as a corner square */
};
/* Named, as one function gathers them and another lays them out. */
struct cut_shapes {
    LIST(struct cut_shape) items;
};

/* Is the heap laid on the corner of another in this action? */
static bool lays_on_corner(const struct heap *heap, const struct action *action,
                           size_t index)
{
    for (size_t i = 1; action->operation->at_corner && i < action->parts.count;
         i++)
        if (heap->inputs.items[action->parts.items[i]].heap == index)
            return true;
    return false;
}

static bool is_corner_square(const struct sewn_quilt *quilt, size_t index)
{
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        for (size_t k = 0; k < heap->actions.count; k++)
            if (lays_on_corner(heap, &heap->actions.items[k], index))
                return true;
    }
    return false;
}

/* One entry a size, however many cloths are cut that size. A label belongs to
 * one heap, so none is told twice. */
static void add_shape(struct booklet *booklet, struct cut_shapes *shapes,
                      const struct heap *heap, bool corner)
{
    struct arena *arena = booklet->wording.arena;
    for (size_t i = 0; i < shapes->items.count; i++) {
        struct cut_shape *shape = &shapes->items.items[i];
        if (!rational_equal(shape->width, heap->of.cut.width) ||
            !rational_equal(shape->height, heap->of.cut.height))
            continue;
        shape->labels =
            say(arena, booklet->wording.phrases, "scale.and", "first",
                shape->labels, "next", heap->of.cut.label, NULL);
        shape->corner |= corner;
        return;
    }
    *LIST_ADD(arena, &shapes->items) = (struct cut_shape){
        heap->of.cut.width, heap->of.cut.height, heap->of.cut.label, corner};
}

/* Corner squares before other pieces, then the smaller before the larger: what
 * is most easily cut wrong stands on the page even where not all fit. */
static bool comes_before(const struct cut_shape *a, const struct cut_shape *b)
{
    if (a->corner != b->corner)
        return a->corner;
    return rational_compare(rational_mul(a->width, a->height),
                            rational_mul(b->width, b->height)) < 0;
}

/* Up to 4 in or 10 cm on each side: larger ones leave no room for others, and a
 * ruler that is right over 4 in is right. In the order of `comes_before`. */
static struct cut_shapes find_shapes(struct booklet *booklet)
{
    struct cut_shapes shapes = {0};
    const struct rational most =
        rational_whole(booklet->design->pattern->units == UNIT_CM ? 10 : 4);
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *heap = &booklet->quilt->heaps.items[i];
        if (heap->technique == TECHNIQUE_CUT &&
            rational_compare(heap->of.cut.width, most) <= 0 &&
            rational_compare(heap->of.cut.height, most) <= 0)
            add_shape(booklet, &shapes, heap,
                      is_corner_square(booklet->quilt, i));
    }
    for (size_t i = 1; i < shapes.items.count; i++) {
        const struct cut_shape shape = shapes.items.items[i];
        size_t at = i;
        for (; at > 0 && comes_before(&shape, &shapes.items.items[at - 1]);
             at--)
            shapes.items.items[at] = shapes.items.items[at - 1];
        shapes.items.items[at] = shape;
    }
    return shapes;
}

/* A dimension line from (0, 0) to the right or down, as `down` says, its words
 * above it or, turned, to the left of it (ISO 129-1). */
static void dimension(struct booklet *booklet, struct box *box, double x,
                      double y, double length, bool down, struct rational size)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct path_item line = outline_narrow();
    const double dx = down ? 0.0 : length, dy = down ? length : 0.0;
    const double tick = 3.0;
    box_stroke(canvas, box, x, y, x + dx, y + dy, line);
    for (int end = 0; end < 2; end++) {
        const double ex = x + end * dx, ey = y + end * dy;
        box_stroke(canvas, box, ex - tick, ey + tick, ex + tick, ey - tick,
                   line);
        /* From just above the outline to just past the dimension line. */
        box_stroke(canvas, box, ex + (down ? 8.0 : 0.0),
                   ey + (down ? 0.0 : 8.0), ex - (down ? 4.0 : 0.0),
                   ey - (down ? 0.0 : 4.0), line);
    }
    struct text_style style = style_small();
    style.align = ALIGN_CENTER;
    const char *words = arena_printf(w->arena, "%s\u00a0%s",
                                     word_length(w, size), word_unit(w));
    const double height =
        typeset_measure(canvas->typeset, words, style, 0.0).height;
    box_label(canvas, box, x + dx / 2.0 - (down ? height + 1.0 : 0.0),
              y + dy / 2.0 - (down ? 0.0 : height + 1.0), words, style,
              down ? -90.0 : 0.0, false);
}

/* Points: around a shape for its sizes, between shapes, and for the ruler. */
enum { DIM_SPACE = 26, SHAPE_GAP = 18, RULER_SPACE = 44 };

/* The shape in its true size with its sizes; squares need only one. */
static struct box *shape_box(struct booklet *booklet,
                             const struct scale_page *page,
                             const struct cut_shape *shape)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double width = rational_double(shape->width) * page->unit;
    const double height = rational_double(shape->height) * page->unit;
    const bool square = rational_equal(shape->width, shape->height);
    const double left = square ? 0.0 : DIM_SPACE;
    struct box *box = box_new(canvas, left + width, DIM_SPACE + height);
    exact_rectangle(canvas, box, left, DIM_SPACE, width, height);
    dimension(booklet, box, left, DIM_SPACE - 10.0, width, false, shape->width);
    if (!square)
        dimension(booklet, box, left - 10.0, DIM_SPACE, height, true,
                  shape->height);
    /* Small pieces have no room for their labels; the sizes tell them, too. */
    struct text_style style = style_small();
    style.align = ALIGN_CENTER;
    const char *labels =
        box_fitted(canvas, shape->labels, style, fmax(width - 6.0, 0.0));
    const double line =
        typeset_measure(canvas->typeset, labels, style, 0.0).height;
    if (width > 24.0 && height > line + 4.0)
        box_label(canvas, box, left + width / 2.0,
                  DIM_SPACE + (height - line) / 2.0, labels, style, 0.0, false);
    return box;
}

/* In lines from the left, as far as the frame goes. What does not fit is passed
 * over: a smaller one behind it may. */
static void lay_shapes(struct booklet *booklet, const struct scale_page *page,
                       const struct cut_shapes *shapes, double top)
{
    const struct wording *w = &booklet->wording;
    const double end = page->top + page->height - RULER_SPACE;
    double x = 0.0, y = top, line = 0.0;
    for (size_t i = 0; i < shapes->items.count; i++) {
        const struct cut_shape *shape = &shapes->items.items[i];
        const struct box *box = shape_box(booklet, page, shape);
        if (x > 0.0 && x + box->width > page->width) {
            x = 0.0;
            y += line + SHAPE_GAP;
            line = 0.0;
        }
        if (box->width > page->width || y + box->height > end)
            continue;
        put_figure(booklet, page->box, box, x, y,
                   say(w->arena, w->phrases, "scale.shape", "labels",
                       shape->labels, "size",
                       word_size_unit(w, shape->width, shape->height), NULL));
        x += box->width + SHAPE_GAP;
        line = fmax(line, box->height);
    }
}

/* ---- ruler ---- */

/* Whole units with their numbers, as many as the frame is wide, and between
 * them eighths of an inch or halves of a centimetre. */
static void draw_ruler(struct booklet *booklet, const struct scale_page *page)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const bool metric = booklet->design->pattern->units == UNIT_CM;
    const int parts = metric ? 2 : 8;
    const int whole = (int)floor((page->width - 10.0) / page->unit);
    const char *words = with_unit(w, "scale.length", rational_whole(whole));
    const double y = 24.0;
    struct box *ruler = box_new(canvas, whole * page->unit, y);
    box_stroke(canvas, ruler, 0.0, y, whole * page->unit, y, outline_narrow());
    struct text_style style = style_small();
    style.align = ALIGN_CENTER;
    for (int i = 0; i <= whole * parts; i++) {
        const double x = i * page->unit / parts;
        const double tick = i % parts == 0       ? 12.0
                            : i * 2 % parts == 0 ? 8.0
                            : i * 4 % parts == 0 ? 6.0
                                                 : 4.0;
        box_stroke(canvas, ruler, x, y, x, y - tick, outline_narrow());
        if (i % parts == 0 && i > 0)
            box_label(canvas, ruler, x, y - tick - 12.0,
                      arena_printf(w->arena, "%d", i / parts), style, 0.0,
                      false);
    }
    const double top = page->top + page->height - 16.0 - y;
    put_figure(booklet, page->box, ruler, 0.0, top, words);
    box_put(canvas, page->box,
            box_text(canvas, words, style_small(), page->width), 0.0,
            top + y + 4.0);
}

/* The last page: it is cut up, so nothing else may be lost with it. */
void section_scale(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct scale_page page =
        scale_page(booklet, say(w->arena, w->phrases, "scale.title", NULL));
    double y = seam_gauge(booklet, &page) + 14.0;
    const struct cut_shapes shapes = find_shapes(booklet);
    if (shapes.items.count == 0) {
        draw_ruler(booklet, &page);
        return;
    }
    struct box *heading =
        box_heading(canvas, say(w->arena, w->phrases, "scale.sizes", NULL),
                    style_step(), page.width, "H2");
    box_put(canvas, page.box, heading, 0.0, y);
    y += heading->height + 2.0;
    struct box *use =
        box_text(canvas, say(w->arena, w->phrases, "scale.ruler", NULL),
                 style_body(), page.width);
    box_put(canvas, page.box, use, 0.0, y);
    lay_shapes(booklet, &page, &shapes, y + use->height + 4.0);
    draw_ruler(booklet, &page);
}
