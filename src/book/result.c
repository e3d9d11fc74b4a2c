/* What a step promises, at the figure of its result: the unfinished size on two
 * sides. Dimensions as in ISO 129-1: outside the outline,
 * text above its line, read from the bottom or from the right; oblique strokes
 * end them, as arrows mean pressing here. Lengths are points. */
#include "result.h"

/* The dimension line lies 6 mm off, its text above; extension lines leave a
 * gap and pass the line. */
static const double off = 17.1, gap = 2.0, beyond = 3.0, stroke_half = 2.5;

/* The middle of a line of text stands so far from its top. */
static const double text_off = 10.9;

/* A side's unfinished length as the ruler shows it. The blank between keeps
 * number and unit on one line. */
static const char *side_text(const struct booklet *booklet,
                             const struct heap *heap, bool across)
{
    const struct wording *w = &booklet->wording;
    return arena_printf(w->arena, "%s\u00a0%s",
                        word_length(w, unfinished_side(w, heap, across)),
                        word_unit(w));
}

/* A number wider than its side would meet the extension lines' ends, so it
 * stands beyond them. Four points are kept free between. */
static double text_distance(const struct canvas *canvas, const char *text,
                            double side)
{
    const double width =
        typeset_measure(canvas->typeset, text, style_size(), 0.0).width;
    return width + 4.0 > side ? text_off + beyond : text_off;
}

/* Ends a dimension line: rising, as the norm draws it. */
static void oblique(const struct canvas *canvas, struct box *box, double x,
                    double y)
{
    box_stroke(canvas, box, x - stroke_half, y + stroke_half, x + stroke_half,
               y - stroke_half, outline_narrow());
}

/* Above an outline that reaches from `left` to `right` below `top`. */
static void dimension_above(const struct canvas *canvas, struct box *box,
                            double left, double right, double top,
                            const char *text)
{
    const double y = top - off;
    const struct path_item line = outline_narrow();
    struct text_style style = style_size();
    style.align = ALIGN_CENTER;
    box_stroke(canvas, box, left, top - gap, left, y - beyond, line);
    box_stroke(canvas, box, right, top - gap, right, y - beyond, line);
    box_stroke(canvas, box, left, y, right, y, line);
    oblique(canvas, box, left, y);
    oblique(canvas, box, right, y);
    box_label(canvas, box, (left + right) / 2.0,
              y - text_distance(canvas, text, right - left), text, style, 0.0,
              false);
}

/* To the left of an outline that reaches from `top` to `bottom`. */
static void dimension_left(const struct canvas *canvas, struct box *box,
                           double top, double bottom, double left,
                           const char *text)
{
    const double x = left - off;
    const struct path_item line = outline_narrow();
    struct text_style style = style_size();
    style.align = ALIGN_CENTER;
    box_stroke(canvas, box, left - gap, top, x - beyond, top, line);
    box_stroke(canvas, box, left - gap, bottom, x - beyond, bottom, line);
    box_stroke(canvas, box, x, top, x, bottom, line);
    oblique(canvas, box, x, top);
    oblique(canvas, box, x, bottom);
    box_label(canvas, box, x - text_distance(canvas, text, bottom - top),
              (top + bottom) / 2.0, text, style, -90.0, false);
}

/* Margins on two sides only: what stands beside it need not make room on the
 * others. */
struct box *measured_cloth(const struct booklet *booklet,
                           const struct heap *heap, const struct box *cloth)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double right = RESULT_MARGIN + cloth->width;
    const double bottom = RESULT_MARGIN + cloth->height;
    struct box *box = box_new(canvas, right, bottom);
    box_put(canvas, box, cloth, RESULT_MARGIN, RESULT_MARGIN);
    dimension_above(canvas, box, RESULT_MARGIN, right, RESULT_MARGIN,
                    side_text(booklet, heap, true));
    dimension_left(canvas, box, RESULT_MARGIN, bottom, RESULT_MARGIN,
                   side_text(booklet, heap, false));
    return box;
}
