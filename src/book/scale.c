/* Pages in true size. One unit of the frame is one unit of the pattern, so what
 * lies on the page can be laid on cloth. Squares are drawn with their outer
 * edges on the measure, as a ruler is laid against an edge, not against the
 * middle of a line. Read next: box.c. */
#include <math.h>

#include "dimension.h"
#include "frames.h"
#include "place.h"
#include "scale.h"
#include "structure.h"

/* A page on which a length is as long as it is in the quilt. Its box is in the
 * flow already; what is drawn must stay inside the frame, which is the same on
 * all papers and lies in what A4 and letter share. */
struct scale_page {
    struct box *box;
    double unit;      /* points for one of the pattern's units */
    double left, top; /* of the frame, in the box */
    double width, height;
};

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
static void test_square(struct booklet *booklet, struct box *box,
                        const struct told_figure *told)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const bool inch = told->drawing == DRAWING_INCH;
    const double side = inch ? INCH : 2.0 * CENTIMETRE;
    const double x = inch ? 0.0 : columns_wide(6) + GRID_GUTTER;
    const double left = side + SPACE_LINE;
    box_tag(canvas, box, "Figure", told->told);
    exact_rectangle(canvas, box, x, 0.0, side, side);
    box_tag_end(canvas, box, "Figure");
    box_put(
        canvas, box,
        box_text(canvas, told->caption, style_body(), columns_wide(6) - left),
        x + left, 0.0);
}

struct box *test_squares(struct booklet *booklet,
                         const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *box = box_new(canvas, canvas->width, INCH);
    for (size_t i = 0; i < contents->items.count; i++)
        if (contents->items.items[i].part == PART_SQUARES)
            test_square(booklet, box, &contents->items.items[i].as.figure);
    box->true_to_scale = true;
    return box;
}

/* Heading, test squares, and below them the frame. The box takes all that the
 * heading leaves of a page, so no second box fits beside it, wherever it stands
 * in the booklet. */
static struct scale_page scale_page(struct booklet *booklet,
                                    const struct contents *contents)
{
    struct flow *flow = &booklet->flow;
    const struct canvas *canvas = &flow->canvas;
    const struct told_heading *heading = heading_of(contents, PART_MAIN);
    flow_section(flow, heading->title, heading->lead, true);
    const struct box *head = flow->boxes.items[flow->boxes.count - 1];
    struct box *box =
        box_new(canvas, canvas->width,
                flow_page_height(flow) - head->height - SPACE_LINE - 1.0);
    for (size_t i = 0; i < contents->items.count; i++)
        if (contents->items.items[i].part == PART_SQUARES)
            test_square(booklet, box, &contents->items.items[i].as.figure);
    box->true_to_scale = true;
    flow_add(flow, box, SPACE_LINE);
    flow->book->true_scale = true;
    struct scale_page page = {.box = box, .width = canvas->width};
    page.unit = booklet->design->pattern->units == UNIT_CM ? CENTIMETRE : INCH;
    page.top = INCH + SPACE_STEP;
    page.height = box->height - page.top;
    return page;
}

/* A part of the page, as a step begins. ensures: where it goes on. `put`: it is
 * drawn, too. */
static double place_head(struct booklet *booklet, const struct scale_page *page,
                         double y, const struct contents *contents,
                         enum content_part part, bool put)
{
    const struct step_head head = {.title = heading_of(contents, part)->title,
                                   .right = ""};
    const struct box *drawn = step_head(booklet, &head, page->width);
    const struct box *text = place_paragraph(
        &booklet->flow.canvas,
        &content_of(contents, part, CONTENT_PARAGRAPH)->as.paragraph,
        style_body(), columns_wide(8));
    if (put) {
        box_put(&booklet->flow.canvas, page->box, drawn, 0.0, y);
        box_put(&booklet->flow.canvas, page->box, text, 0.0, y + drawn->height);
    }
    return y + drawn->height + text->height + SPACE_HALF;
}

/* ---- seam gauge ---- */

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

/* Edge and needle, as they lie under the foot: at the left the seam of the
 * pattern, at the right a scant one, so that the two can be compared and no
 * line is nearer to another than 0.7 mm (ISO 128-20). The edge is what is cut.
 * ensures: where it ends. */
static double seam_gauge(struct booklet *booklet, const struct scale_page *page,
                         const struct contents *contents)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct told_figure *told =
        &content_of(contents, PART_GAUGE, CONTENT_FIGURE)->as.figure;
    const double half = columns_wide(6), right = half + GRID_GUTTER;
    struct text_style style = style_small();
    style.color = ink;
    const double top = place_head(booklet, page, page->top, contents, PART_GAUGE, true);
    struct box *label = box_text(canvas, told->labels.items[0], style, half);
    const double edge = top + label->height + SPACE_HALF;
    box_put(canvas, page->box, label, MM(4.4), top);
    box_tag(canvas, page->box, "Figure", told->told);
    draw_mark(canvas, page->box, MARK_CUT, (struct point){MM(3.0), edge},
              (struct point){page->width, edge});
    double end = needle_line(booklet, page, edge, 0.0, half, told->width,
                             told->labels.items[1]);
    if (told->labels.count > 2)
        end = fmax(end, needle_line(booklet, page, edge, right, half,
                                    told->height, told->labels.items[2]));
    box_tag_end(canvas, page->box, "Figure");
    return end;
}

/* ---- pieces ---- */

/* Where two lines meet that run through p and q in the directions v and w. */
static struct point crossing(struct point p, struct point v, struct point q,
                             struct point w)
{
    const double t = ((q.x - p.x) * w.y - (q.y - p.y) * w.x) /
                     (v.x * w.y - v.y * w.x);
    return (struct point){p.x + t * v.x, p.y + t * v.y};
}

/* An outline whose outer edges are exact: the line lies inside. Its corners are
 * clockwise, on the page. */
static void exact_outline(const struct canvas *canvas, struct box *box,
                          const struct point *corners, size_t count)
{
    const struct path_item line = outline_narrow();
    struct point begins[4], ways[4], inner[4];
    for (size_t i = 0; i < count; i++) {
        const struct point a = corners[i], b = corners[(i + 1) % count];
        const double length = hypot(b.x - a.x, b.y - a.y);
        ways[i] = (struct point){(b.x - a.x) / length, (b.y - a.y) / length};
        begins[i] = (struct point){a.x - ways[i].y * line.stroke / 2.0,
                                   a.y + ways[i].x * line.stroke / 2.0};
    }
    for (size_t i = 0; i < count; i++) {
        const size_t before = (i + count - 1) % count;
        inner[i] =
            crossing(begins[before], ways[before], begins[i], ways[i]);
    }
    box_polygon(canvas, box, inner, count, line);
}

/* A piece with slanted edges in its true size, with its height at the left; the
 * length of its lower edge, which is the longer one or turned to be, inside. */
static struct box *slanted_box(struct booklet *booklet,
                               const struct scale_page *page,
                               const struct told_figure *told)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct outline outline = told->shape->as_cut;
    const struct shape_measures m = measure_shape(told->shape);
    const double width = rational_double(told->width) * page->unit;
    const double height = rational_double(told->height) * page->unit;
    struct box *box = box_new(canvas, DIMENSION_SPACE + width, height);
    struct point corners[4];
    double left = INFINITY, right = 0.0;
    for (size_t i = 0; i < outline.count; i++) {
        const double x = rational_double(outline.points[i].x) * page->unit;
        const double y = rational_double(outline.points[i].y) * page->unit;
        corners[i].x = DIMENSION_SPACE + (m.longer_above ? width - x : x);
        corners[i].y = m.longer_above ? height - y : y;
        if (corners[i].y < height - 0.01)
            continue;
        left = fmin(left, corners[i].x);
        right = fmax(right, corners[i].x);
    }
    exact_outline(canvas, box, corners, outline.count);
    draw_dimension(canvas, box, left, height, right - left, false,
                   word_length_unit(w, m.longer));
    draw_dimension(canvas, box, DIMENSION_SPACE, 0.0, height, true,
                   word_length_unit(w, told->height));
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    box_label(canvas, box, (left + right) / 2.0,
              height - DIMENSION_SPACE - style.size * 2.0,
              box_fitted(canvas, told->labels.items[0], style,
                         (right - left) / 2.0),
              style, 0.0, false);
    return box;
}

/* The shape in its true size with its sizes; squares need only one. */
static struct box *shape_box(struct booklet *booklet,
                             const struct scale_page *page,
                             const struct told_figure *shape)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    if (shape->shape != NULL)
        return slanted_box(booklet, page, shape);
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
    const char *labels = box_fitted(canvas, shape->labels.items[0], style,
                                    fmax(width - 6.0, 0.0));
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
 * over: a smaller one behind it may. ensures: how many fit; they are drawn where
 * `put`. */
static size_t lay_shapes(struct booklet *booklet, const struct scale_page *page,
                       const struct contents *contents, double top, bool put)
{
    const double end = page->top + page->height - RULER;
    double x = 0.0, y = top, line = 0.0;
    size_t laid = 0;
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct told_figure *shape = &contents->items.items[i].as.figure;
        if (contents->items.items[i].part != PART_SHAPES ||
            contents->items.items[i].kind != CONTENT_FIGURE)
            continue;
        const struct box *box = shape_box(booklet, page, shape);
        if (x > 0.0 && x + box->width > page->width) {
            x = 0.0;
            y += line + SPACE_STEP;
            line = 0.0;
        }
        if (box->width > page->width || y + box->height > end)
            continue;
        if (put)
            put_figure(booklet, page->box, box, x, y, shape->told);
        laid++;
        x += box->width + SPACE_STEP;
        line = fmax(line, box->height);
    }
    return laid;
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
    const char *words =
        word_true_length(w, "scale.length", rational_whole(whole));
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
    const struct contents contents = tell_scale(&booklet->wording);
    const struct scale_page page = scale_page(booklet, &contents);
    const double y = seam_gauge(booklet, &page, &contents) + SPACE_STEP;
    if (content_of(&contents, PART_SHAPES, CONTENT_HEADING) != NULL) {
        /* No heading over an empty place. */
        const double top =
            place_head(booklet, &page, y, &contents, PART_SHAPES, false);
        if (lay_shapes(booklet, &page, &contents, top, false) > 0) {
            place_head(booklet, &page, y, &contents, PART_SHAPES, true);
            lay_shapes(booklet, &page, &contents, top, true);
        }
    }
    draw_ruler(booklet, &page);
}
