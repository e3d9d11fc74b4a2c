/* How to read the figures: signs are drawn by the same functions as in the
 * figures, in one panel. Lengths are points. Read next: figure.c. */
#include "structure.h"

struct legend {
    struct booklet *booklet;
    struct box *box;
    int count; /* of entries so far */
};

/* ---- signs and words ---- */

/* An entry is a sign and its words beside it, in one of the panel's columns. */
enum { COLUMNS = 4 };
#define SIGN MM(12.0)
#define ENTRY_HEIGHT MM(7.4)
#define PANEL_PAD MM(2.2)

/* ensures: the middle of the sign, at its left end. */
static struct point legend_entry(struct legend *legend, const char *words)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const double wide = (canvas->width - 2.0 * PANEL_PAD) / COLUMNS;
    const double x = PANEL_PAD + wide * (legend->count % COLUMNS);
    const double y = PANEL_PAD + ENTRY_HEIGHT * (legend->count / COLUMNS);
    struct text_style style = style_small();
    style.color = ink;
    const struct box *text =
        box_heading(canvas, words, style, wide - SIGN - 10.0, "Span");
    box_tag(canvas, legend->box, "P", NULL);
    box_put(canvas, legend->box, text, x + SIGN + 5.0,
            y + (ENTRY_HEIGHT - text->height) / 2.0);
    legend->count++;
    return (struct point){x, y + ENTRY_HEIGHT / 2.0};
}

/* Behind the sign, which belongs to its words. */
static void legend_end(struct legend *legend)
{
    box_tag_end(&legend->booklet->flow.canvas, legend->box, "P");
}

/* The style is the figures' own, so that they cannot differ. */
static void draw_line(const struct legend *legend, enum mark_kind kind,
                      struct point at)
{
    const double inset = kind == MARK_CUT ? MM(3.0) : 0.0;
    draw_mark(&legend->booklet->flow.canvas, legend->box, kind,
              (struct point){at.x + inset, at.y},
              (struct point){at.x + SIGN, at.y});
}

/* The right side in two cells: in full, and in work; the wrong side in one. By
 * the second cloth, as the first is often the ground. */
static void draw_side(const struct legend *legend, bool wrong, struct point at)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const struct colorway *colorway = legend->booklet->plan->colorway;
    const int shown = legend->booklet->design->fabrics.count > 1 ? 1 : 0;
    const struct path_item in_work =
        face_fill(canvas, colorway, shown, wrong, SHADE_WORK);
    const double wide = wrong ? SIGN : SIGN / 2.0;
    const double high = MM(5.6);
    box_rectangle(canvas, legend->box, at.x, at.y - high / 2.0, wide, high,
                  wrong
                      ? in_work
                      : face_fill(canvas, colorway, shown, false, SHADE_DONE));
    if (!wrong)
        box_rectangle(canvas, legend->box, at.x + wide, at.y - high / 2.0, wide,
                      high, in_work);
}

/* One arrow, or two that part. */
static void draw_press(const struct legend *legend, bool open, struct point at)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const double middle = at.x + SIGN / 2.0;
    draw_arrow(canvas, legend->box, open ? middle : at.x + 1.0, at.y,
               at.x + SIGN - 1.0, at.y);
    if (open)
        draw_arrow(canvas, legend->box, middle, at.y, at.x + 1.0, at.y);
}

/* Signs that are written are elements of their own: what lies loose in a
 * paragraph is not read. */
static void draw_written(const struct legend *legend, enum told_sign sign,
                         struct point at)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    box_tag(canvas, legend->box, "Span", NULL);
    if (sign == SIGN_TURNED)
        draw_turned(canvas, legend->box, at.x + SIGN / 2.0, at.y, TURN_RING,
                    1);
    else
        draw_number(canvas, legend->box, at.x + SIGN / 2.0, at.y, 1);
    box_tag_end(canvas, legend->box, "Span");
}

static void draw_sign(const struct legend *legend, enum told_sign sign,
                      struct point at)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    switch (sign) {
    case SIGN_RIGHT_SIDE:
    case SIGN_WRONG_SIDE:
        draw_side(legend, sign == SIGN_WRONG_SIDE, at);
        break;
    case SIGN_DRAWN:
        draw_line(legend, MARK_DRAWN, at);
        break;
    case SIGN_SEWN:
        draw_line(legend, MARK_SEWN, at);
        break;
    case SIGN_CUT:
        draw_line(legend, MARK_CUT, at);
        break;
    case SIGN_DOT:
        draw_mark(canvas, legend->box, MARK_DOT,
                  (struct point){at.x + SIGN / 2.0, at.y}, at);
        break;
    case SIGN_PRESSED:
    case SIGN_PRESSED_OPEN:
        draw_press(legend, sign == SIGN_PRESSED_OPEN, at);
        break;
    case SIGN_TURNED_OVER:
        draw_turn(canvas, legend->box, (struct point){at.x + 4.0, at.y + 4.0},
                  (struct point){at.x + SIGN - 4.0, at.y + 1.0});
        break;
    case SIGN_TURNED:
    case SIGN_SEAM_NUMBER:
        draw_written(legend, sign, at);
        break;
    case SIGN_PRINT:
        draw_print(canvas, legend->box, at.x + SIGN / 2.0, at.y, 0, MM(4.4),
                   ink);
        break;
    case SIGN_NONE:
    case SIGN_COUNT:
        break;
    }
}

/* Before the first step, so that no figure needs words of its own. */
struct box *legend_box(struct booklet *booklet, const struct told_list *signs)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct legend legend = {booklet, box_new(canvas, canvas->width, 0.0), 0};
    box_rectangle(canvas, legend.box, 0.0, 0.0, canvas->width, 0.0,
                  (struct path_item){.filled = true, .fill = pale});
    for (size_t i = 0; i < signs->items.count; i++) {
        const struct told_point *item = &signs->items.items[i];
        const struct point at = legend_entry(&legend, item->text);
        draw_sign(&legend, item->sign, at);
        legend_end(&legend);
    }
    legend.box->height =
        2.0 * PANEL_PAD +
        ENTRY_HEIGHT * ((legend.count + COLUMNS - 1) / COLUMNS);
    /* The panel was put first, so that it lies below. */
    struct point *corners = ARENA_ARRAY(canvas->arena, struct point, 4);
    for (int i = 0; i < 4; i++)
        corners[i] = (struct point){i == 1 || i == 2 ? canvas->width : 0.0,
                                    i > 1 ? legend.box->height : 0.0};
    legend.box->items.items[0].as.path.points = corners;
    legend.box->keep_with_next = true;
    return legend.box;
}
