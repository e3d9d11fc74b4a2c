/* How to read the figures: each cloth, and each sign that this booklet uses,
 * drawn by the same functions as in the figures. What no figure shows is left
 * out. Lengths are points. Read next: figure.c. */
#include "section.h"
#include "structure.h"

struct legend {
    struct booklet *booklet;
    struct box *box;
    double x, y; /* where the next sign goes */
    int column;
};

/* Columns, each of a sign of 12 mm and its words. */
enum { COLUMNS = 3, SIGN = 34, SIGN_GAP = 6, LEGEND_LINE = 17, SWATCH = 20 };

/* Which signs the figures hold. */
struct signs {
    bool wrong_side, marks[MARK_FOLD + 1], press, open, turn, numbers;
};

/* ---- what is used ---- */

/* Both states of an action are looked at: lines are in the first, pressing is
 * in the second. */
static void look_at_state(struct signs *signs, const struct state *state)
{
    for (size_t i = 0; i < state->faces.count; i++)
        signs->wrong_side |= state->faces.items[i].face.wrong_side;
    for (size_t i = 0; i < state->marks.count; i++)
        signs->marks[state->marks.items[i].kind] = true;
    for (size_t i = 0; i < state->presses.count; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        const bool open = mark->x == 0 && mark->y == 0;
        signs->open |= open;
        signs->press |= !open;
    }
    signs->turn |= state->turns.count > 0;
}

/* Is the end of a strip opened, with its crease? */
static bool opens_strips(const struct booklet *booklet,
                         const struct fabric_plan *plan)
{
    bool opens = false;
    for (size_t i = 0; i < plan->strips.count; i++)
        opens |= !is_whole_strip(plan, &plan->strips.items[i]) &&
                 fold_strip(booklet->flow.canvas.arena, plan,
                            &plan->strips.items[i], false)
                         .singles.count > 0;
    return opens;
}

static struct signs signs_of(const struct booklet *booklet)
{
    struct signs signs = {0};
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *heap = &booklet->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->actions.count; k++) {
            look_at_state(&signs, &heap->actions.items[k].before);
            look_at_state(&signs, &heap->actions.items[k].after);
        }
        signs.numbers |= seams_in(heap, NULL) > 1;
    }
    for (size_t i = 0; i < booklet->design->fabrics.count; i++)
        signs.marks[MARK_FOLD] |=
            opens_strips(booklet, &booklet->plan->fabrics[i]);
    return signs;
}

/* ---- signs and words ---- */

/* Writes the words of a sign and moves on; the caller draws the sign at the
 * point that it gets. */
static struct point legend_entry(struct legend *legend, const char *key)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const struct wording *w = &legend->booklet->wording;
    const struct point at = {legend->x, legend->y};
    box_tag(canvas, legend->box, "P", NULL);
    box_label(canvas, legend->box, at.x + SIGN + SIGN_GAP, at.y + 1.0,
              say(w->arena, w->phrases, key, NULL), style_small(), 0.0, false);
    legend->column = (legend->column + 1) % COLUMNS;
    legend->x = canvas->width / COLUMNS * legend->column;
    legend->y += legend->column == 0 ? LEGEND_LINE : 0.0;
    return at;
}

/* Behind the sign, which belongs to its words. */
static void legend_end(struct legend *legend)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    box_tag_end(canvas, legend->box, "P");
}

/* Left out where no figure has it. The style is the figures' own, so that they
 * cannot differ. */
static void legend_line(struct legend *legend, const struct signs *signs,
                        enum mark_kind kind, const char *key)
{
    if (!signs->marks[kind])
        return;
    const struct point at = legend_entry(legend, key);
    box_stroke(&legend->booklet->flow.canvas, legend->box, at.x, at.y + 8.0,
               at.x + SIGN, at.y + 8.0, mark_style(kind));
    legend_end(legend);
}

/* Wide enough for a hatch at the scale of the figures, which is never scaled
 * with them. */
static void legend_fill(struct legend *legend, struct path_item fill,
                        const char *key)
{
    const struct point at = legend_entry(legend, key);
    box_rectangle(&legend->booklet->flow.canvas, legend->box, at.x, at.y + 1.0,
                  SIGN, 14.0, fill);
    legend_end(legend);
}

/* One arrow, or two that part. */
static void legend_press(struct legend *legend, bool open, const char *key)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const struct point at = legend_entry(legend, key);
    const double y = at.y + 8.0, middle = at.x + SIGN / 2.0;
    draw_arrow(canvas, legend->box, open ? middle : at.x + 6.0, y,
               at.x + SIGN - 6.0, y);
    if (open)
        draw_arrow(canvas, legend->box, middle, y, at.x + 6.0, y);
    legend_end(legend);
}

/* What has no style of its own in the list of marks. */
static void legend_signs(struct legend *legend, const struct signs *signs)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    if (signs->press)
        legend_press(legend, false, "legend.press");
    if (signs->open)
        legend_press(legend, true, "legend.press-open");
    if (signs->turn) {
        const struct point at = legend_entry(legend, "legend.turn");
        draw_turn(canvas, legend->box, (struct point){at.x + 7.0, at.y + 13.0},
                  (struct point){at.x + 27.0, at.y + 9.0});
        legend_end(legend);
    }
    if (signs->numbers) {
        const struct point at = legend_entry(legend, "legend.seam-number");
        draw_number(canvas, legend->box, at.x + SIGN / 2.0, at.y + 8.0, 1);
        legend_end(legend);
    }
}

/* Letter, hatch and name of each cloth, on lines as wide as the page. */
static void legend_fabrics(struct legend *legend)
{
    struct booklet *booklet = legend->booklet;
    const struct canvas *canvas = &booklet->flow.canvas;
    for (size_t i = 0; i < booklet->design->fabrics.count; i++) {
        if (booklet->plan->fabrics[i].items.count == 0)
            continue;
        const char *text =
            box_fitted(canvas, booklet->design->fabrics.items[i].name,
                       style_small(), canvas->width * 0.8);
        const double name_width =
            typeset_measure(canvas->typeset, text, style_small(), 0.0).width;
        struct box *swatch = swatch_box(booklet, (int)i, SWATCH);
        const double width = swatch->width + SIGN_GAP + name_width;
        if (legend->x > 0.0 && legend->x + width > canvas->width) {
            legend->x = 0.0;
            legend->y += SWATCH + 6.0;
        }
        box_tag(canvas, legend->box, "LI", NULL);
        box_tag(canvas, legend->box, "Lbl", NULL);
        box_put(canvas, legend->box, swatch, legend->x, legend->y);
        box_tag_end(canvas, legend->box, "Lbl");
        box_tagged_label(canvas, legend->box, "LBody",
                         legend->x + swatch->width + SIGN_GAP, legend->y + 4.0,
                         text, style_small());
        box_tag_end(canvas, legend->box, "LI");
        legend->x += width + 22.0;
    }
    legend->x = 0.0;
    legend->y += SWATCH + 8.0;
}

/* Before the first step, so that no figure needs words of its own. */
void section_legend(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct colorway *colorway = booklet->plan->colorway;
    const struct signs signs = signs_of(booklet);
    struct legend legend = {booklet, box_new(canvas, canvas->width, 0.0), 0.0,
                            0.0, 0};
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "legend.title", NULL));
    box_in_list(legend.box, ROLE_NONE, true);
    legend_fabrics(&legend);
    legend.box->height = legend.y;
    legend.box->keep_with_next = true;
    flow_add(&booklet->flow, legend.box, 6.0);
    legend = (struct legend){booklet, box_new(canvas, canvas->width, 0.0), 0.0,
                             0.0, 0};
    /* By the second cloth, as the first has no hatch. */
    const int shown = booklet->design->fabrics.count > 1 ? 1 : 0;
    legend_fill(&legend, face_fill(canvas, colorway, shown, false, SHADE_DONE),
                "legend.right-side");
    if (signs.wrong_side)
        legend_fill(&legend,
                    face_fill(canvas, colorway, shown, true, SHADE_WORK),
                    "legend.wrong-side");
    legend_line(&legend, &signs, MARK_DRAWN, "legend.drawn");
    legend_line(&legend, &signs, MARK_SEWN, "legend.sewn");
    legend_line(&legend, &signs, MARK_CUT, "legend.cut");
    legend_line(&legend, &signs, MARK_FOLD, "legend.fold");
    legend_signs(&legend, &signs);
    legend_fill(&legend, waste_fill(), "legend.left-over");
    legend.box->height = legend.y + (legend.column > 0 ? LEGEND_LINE : 0.0);
    legend.box->keep_with_next = true;
    flow_add(&booklet->flow, legend.box, 6.0);
}
