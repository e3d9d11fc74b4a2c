/* Pages in true size. One unit of the frame is one unit of the pattern, so what
 * lies on the page can be laid on cloth. Squares are drawn with their outer
 * edges on the measure, as a ruler is laid against an edge, not against the
 * middle of a line. Read next: box.c. */
#include <math.h>

#include "dimension.h"
#include "frames.h"
#include "structure.h"
#include "trade.h"

static const double INCH = 72.0, CENTIMETRE = 72.0 / 2.54;

/* A rectangle whose outer edges are exact: the line lies inside. */
static void exact_rectangle(const struct canvas *canvas, struct box *box,
                            double x, double y, double width, double height)
{
    const struct path_item line = outline_narrow();
    box_rectangle(canvas, box, x + line.stroke / 2.0, y + line.stroke / 2.0,
                  width - line.stroke, height - line.stroke, line);
}

/* One square and its words to the right, in half of the measure. */
static void test_square(struct booklet *booklet, struct box *box, double x,
                        double y, double side, const char *words)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double left = side + SPACE_LINE;
    box_tag(canvas, box, "Figure", words);
    exact_rectangle(canvas, box, x, y, side, side);
    box_tag_end(canvas, box, "Figure");
    box_put(canvas, box,
            box_text(canvas, words, style_body(), columns_wide(6) - left),
            x + left, y);
}

/* Heading, test squares, and below them the frame. The box takes all that the
 * heading leaves of a page, so no second box fits beside it, wherever it stands
 * in the booklet. */
struct scale_page scale_page(struct booklet *booklet, const char *title)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    const struct wording *w = &booklet->wording;
    flow_section(flow, title, "", true);
    const struct box *head = flow->boxes.items[flow->boxes.count - 1];
    struct box *box =
        box_new(canvas, canvas->width,
                flow_page_height(flow) - head->height - SPACE_LINE - 1.0);
    test_square(booklet, box, 0.0, 0.0, INCH,
                say(w->arena, w->phrases, "scale.inch", NULL));
    test_square(booklet, box, columns_wide(6) + GRID_GUTTER, 0.0,
                2.0 * CENTIMETRE,
                say(w->arena, w->phrases, "scale.centimetres", NULL));
    box->true_to_scale = true;
    flow_add(flow, box, SPACE_LINE);
    flow->book->true_scale = true;
    struct scale_page page = {.box = box, .width = canvas->width};
    page.unit = booklet->design->pattern->units == UNIT_CM ? CENTIMETRE : INCH;
    page.top = INCH + SPACE_STEP;
    page.height = box->height - page.top;
    return page;
}

/* A part of the page, as a step begins. ensures: where it goes on. */
static double put_head(struct booklet *booklet, const struct scale_page *page,
                       double y, const char *title, const char *words)
{
    const struct step_head head = {.title = title, .right = ""};
    const struct box *drawn = step_head(booklet, &head, page->width);
    const struct box *text =
        box_text(&booklet->flow.canvas, words, style_body(), columns_wide(8));
    box_put(&booklet->flow.canvas, page->box, drawn, 0.0, y);
    box_put(&booklet->flow.canvas, page->box, text, 0.0, y + drawn->height);
    return y + drawn->height + text->height + SPACE_HALF;
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

/* The needle's line from x to x + width, and its words below. Stitches, as in
 * all figures. ensures: where the words end. */
static double needle_line(struct booklet *booklet,
                          const struct scale_page *page, double edge, double x,
                          double width, struct rational seam, const char *words)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double y = edge + rational_double(seam) * page->unit;
    box_stroke(canvas, page->box, x, y, x + width, y, mark_style(MARK_SEWN));
    struct text_style style = style_small();
    style.color = ink;
    struct box *text = box_text(canvas, words, style, width);
    box_put(canvas, page->box, text, x, y + SPACE_HALF);
    return y + SPACE_HALF + text->height;
}

/* Two strips ten seams wide: what they are together when the seam is right.
 * Common practice. */
static const char *gauge_words(const struct wording *w, struct rational seam)
{
    return say(w->arena, w->phrases, "scale.gauge", "strip",
               word_length_unit(w, rational_times(seam, 10)), "joined",
               word_length_unit(w, rational_times(seam, 18)), NULL);
}

/* Edge and needle, as they lie under the foot: at the left the seam of the
 * pattern, at the right a scant one, so that the two can be compared and no
 * line is nearer to another than 0.7 mm (ISO 128-20). The edge is what is cut.
 * ensures: where it ends. */
static double seam_gauge(struct booklet *booklet, const struct scale_page *page)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct rational seam = booklet->design->pattern->seam;
    const double half = columns_wide(6), right = half + GRID_GUTTER;
    const char *words = with_unit(w, "scale.seam", seam);
    struct text_style style = style_small();
    style.color = ink;
    const double top = put_head(booklet, page, page->top,
                                say(w->arena, w->phrases, "scale.width", NULL),
                                gauge_words(w, seam));
    struct box *label = box_text(
        canvas, say(w->arena, w->phrases, "scale.edge", NULL), style, half);
    const double edge = top + label->height + SPACE_HALF;
    box_put(canvas, page->box, label, MM(4.4), top);
    box_tag(canvas, page->box, "Figure", words);
    draw_mark(canvas, page->box, MARK_CUT, (struct point){MM(3.0), edge},
              (struct point){page->width, edge});
    double end = needle_line(booklet, page, edge, 0.0, half, seam, words);
    /* A seam that is hardly wider than the difference has no scant one. */
    const struct rational scant = rational_sub(seam, scant_by(booklet));
    if (rational_compare(seam, rational_times(scant_by(booklet), 3)) > 0)
        end = fmax(end,
                   needle_line(booklet, page, edge, right, half, scant,
                               with_unit(w, "scale.scant", scant_by(booklet))));
    box_tag_end(canvas, page->box, "Figure");
    return end;
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

/* The shape in its true size with its sizes; squares need only one. */
static struct box *shape_box(struct booklet *booklet,
                             const struct scale_page *page,
                             const struct cut_shape *shape)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const double width = rational_double(shape->width) * page->unit;
    const double height = rational_double(shape->height) * page->unit;
    const bool square = rational_equal(shape->width, shape->height);
    const double left = square ? 0.0 : DIMENSION_SPACE;
    struct box *box = box_new(canvas, left + width, DIMENSION_SPACE + height);
    exact_rectangle(canvas, box, left, DIMENSION_SPACE, width, height);
    draw_dimension(canvas, box, left, DIMENSION_SPACE, width, false,
                   word_length_unit(w, shape->width));
    if (!square)
        draw_dimension(canvas, box, left, DIMENSION_SPACE, height, true,
                       word_length_unit(w, shape->height));
    /* Small pieces have no room for their labels; the sizes tell them, too. */
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const char *labels =
        box_fitted(canvas, shape->labels, style, fmax(width - 6.0, 0.0));
    const double line =
        typeset_measure(canvas->typeset, labels, style, 0.0).height;
    if (width > 24.0 && height > line + 4.0)
        box_label(canvas, box, left + width / 2.0,
                  DIMENSION_SPACE + (height - line) / 2.0, labels, style, 0.0,
                  false);
    return box;
}

/* What the ruler takes at the foot, with its words. */
#define RULER MM(16.0)

/* In lines from the left, as far as the frame goes. What does not fit is passed
 * over: a smaller one behind it may. */
static void lay_shapes(struct booklet *booklet, const struct scale_page *page,
                       const struct cut_shapes *shapes, double top)
{
    const struct wording *w = &booklet->wording;
    const double end = page->top + page->height - RULER;
    double x = 0.0, y = top, line = 0.0;
    for (size_t i = 0; i < shapes->items.count; i++) {
        const struct cut_shape *shape = &shapes->items.items[i];
        const struct box *box = shape_box(booklet, page, shape);
        if (x > 0.0 && x + box->width > page->width) {
            x = 0.0;
            y += line + SPACE_STEP;
            line = 0.0;
        }
        if (box->width > page->width || y + box->height > end)
            continue;
        put_figure(booklet, page->box, box, x, y,
                   say(w->arena, w->phrases, "scale.shape", "labels",
                       shape->labels, "size",
                       word_size_unit(w, shape->width, shape->height), NULL));
        x += box->width + SPACE_STEP;
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
    const double top =
        page->top + page->height - SPACE_LINE - SPACE_QUARTER - y;
    put_figure(booklet, page->box, ruler, 0.0, top, words);
    box_put(canvas, page->box,
            box_text(canvas, words, style_small(), page->width), 0.0,
            top + y + SPACE_QUARTER);
}

/* A page of its own, wherever it stands. */
void section_scale(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct scale_page page =
        scale_page(booklet, say(w->arena, w->phrases, "scale.title", NULL));
    const double y = seam_gauge(booklet, &page) + SPACE_STEP;
    const struct cut_shapes shapes = find_shapes(booklet);
    if (shapes.items.count > 0)
        lay_shapes(booklet, &page, &shapes,
                   put_head(booklet, &page, y,
                            say(w->arena, w->phrases, "scale.sizes", NULL),
                            say(w->arena, w->phrases, "scale.ruler", NULL)));
    draw_ruler(booklet, &page);
}
