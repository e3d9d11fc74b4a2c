/* A roll as a bar, to scale along its length: what is cut from it, what is left
 * and where it cannot be used. Numbers stand where they fit; the table below
 * tells all of them. Read next: kit_card.c. */
#include <math.h>

#include "figure_parts.h"
#include "kit_boxes.h"
#include "structure.h"

#define BAR MM(8.0)

/* From a place on the roll to the page. */
struct bar {
    const struct canvas *canvas;
    struct box *box;
    const struct told_roll *roll;
    double scale; /* points for a unit of length */
};

/* Each place by itself, so that rounding does not add up. */
static double at(const struct bar *bar, struct rational place)
{
    return rational_double(place) * bar->scale;
}

/* The looks of cloth in work, of what stays, of what is lost. */
static struct path_item stretch_fill(const struct bar *bar,
                                     enum told_stretch_kind kind)
{
    struct path_item fill = outline_narrow();
    if (kind == STRETCH_LOST || kind == STRETCH_FLAW)
        fill = waste_fill(bar->canvas);
    fill.filled = true;
    fill.stroke = 0.0;
    if (kind == STRETCH_CUT) {
        fill.fill = mixed(color_of(bar->roll->color), white, 0.6);
        fill.role = ROLE_CLOTH;
    } else {
        fill.fill = white;
    }
    return fill;
}

/* In the first of its cuts where that has room, else in the middle of all, on
 * a plate. */
static void put_label(const struct bar *bar, const struct told_stretch *stretch,
                      double x, double width)
{
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(bar->canvas->typeset, stretch->label, style, 0.0);
    const double one = width / (double)stretch->count;
    const bool first = extent.width + 4.0 <= one;
    if (stretch->label[0] == '\0' || extent.width + 4.0 > width)
        return;
    box_label(bar->canvas, bar->box, x + (first ? one : width) / 2.0,
              (BAR - extent.height) / 2.0, stretch->label, style, 0.0,
              stretch->kind == STRETCH_LOST || !first);
}

/* A cut is red, as all that hands do, on white; narrow strips have no room for
 * that. */
static void put_cut(const struct bar *bar, double x, double wide)
{
    struct path_item line = mark_style(MARK_CUT);
    if (wide < MM(3.0))
        line.stroke = LINE_FINE;
    else
        box_stroke(bar->canvas, bar->box, x, 0.0, x, BAR, casing(line.stroke));
    box_stroke(bar->canvas, bar->box, x, 0.0, x, BAR, line);
}

/* A flaw is crossed out, so that it is no lost end in print without color. */
static void put_cross(const struct bar *bar, double x, double width)
{
    box_stroke(bar->canvas, bar->box, x, 0.0, x + width, BAR, outline_wide());
    box_stroke(bar->canvas, bar->box, x, BAR, x + width, 0.0, outline_wide());
}

/* The cloth first, the lines over it. */
static void put_stretch(const struct bar *bar,
                        const struct told_stretch *stretch)
{
    const double x = at(bar, stretch->from);
    const double width = at(bar, stretch->to) - x;
    box_rectangle(bar->canvas, bar->box, x, 0.0, width, BAR,
                  stretch_fill(bar, stretch->kind));
    if (stretch->kind == STRETCH_FLAW)
        put_cross(bar, x, width);
    if (stretch->kind != STRETCH_CUT)
        return;
    /* Where lines would run together, the last tells how far it goes. */
    const double one = width / (double)stretch->count;
    for (size_t i = one < MM(1.0) ? stretch->count : 1; i <= stretch->count;
         i++)
        put_cut(bar, x + one * (double)i, one);
}

/* Where it begins and how long it is; beside a bar that is too short for both.
 */
static void put_ends(const struct bar *bar, double width)
{
    struct text_style style = style_size();
    const struct text_extent extent =
        typeset_measure(bar->canvas->typeset, bar->roll->end, style, 0.0);
    if (width < extent.width + MM(6.0)) {
        box_label(bar->canvas, bar->box, width + 4.0,
                  (BAR - extent.height) / 2.0, bar->roll->end, style, 0.0,
                  false);
        return;
    }
    box_label(bar->canvas, bar->box, 0.0, BAR + 1.0, bar->roll->begin, style,
              0.0, false);
    style.align = ALIGN_RIGHT;
    box_label(bar->canvas, bar->box, width, BAR + 1.0, bar->roll->end, style,
              0.0, false);
}

/* From the inside out: cloth, edge, numbers. */
static struct box *bar_box(const struct canvas *canvas,
                           const struct told_roll *roll)
{
    struct box *box = box_new(canvas, canvas->width, BAR + 11.0);
    const struct bar bar = {canvas, box, roll,
                            canvas->width / rational_double(roll->longest)};
    const double width = at(&bar, roll->length);
    struct path_item edge = outline_wide();
    for (size_t i = 0; i < roll->stretches.count; i++)
        put_stretch(&bar, &roll->stretches.items[i]);
    box_rectangle(canvas, box, 0.0, 0.0, width, BAR, edge);
    /* Numbers last, or a cut would cross them. */
    for (size_t i = 0; i < roll->stretches.count; i++) {
        const struct told_stretch *stretch = &roll->stretches.items[i];
        const double x = at(&bar, stretch->from);
        put_label(&bar, stretch, x, at(&bar, stretch->to) - x);
    }
    put_ends(&bar, width);
    return box;
}

/* The caption is a paragraph of its own, the bar a figure that is told by
 * it. */
struct box *kit_roll_box(struct kit_book *book,
                         const struct told_figure *figure)
{
    const struct canvas *canvas = &book->booklet.flow.canvas;
    const struct box *drawing = bar_box(canvas, figure->roll);
    const struct box *caption =
        box_text(canvas, figure->caption, style_bold(), canvas->width);
    struct box *box = box_new(canvas, canvas->width,
                              caption->height + SPACE_QUARTER + drawing->height);
    box_put(canvas, box, caption, 0.0, 0.0);
    put_figure(&book->booklet, box, drawing, 0.0,
               caption->height + SPACE_QUARTER, figure->told);
    return box;
}
