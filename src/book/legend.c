/* How to read the figures: each sign that this booklet uses, drawn by the same
 * functions as in the figures, in one panel. What no figure shows is left out.
 * Lengths are points. Read next: figure.c. */
#include "section.h"
#include "structure.h"

struct legend {
    struct booklet *booklet;
    struct box *box;
    int count; /* of entries so far */
};

/* Which signs the figures hold. */
struct signs {
    bool wrong_side, marks[MARK_FOLD + 1], press, open, flap, turned, numbers,
        print;
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
    signs->flap |= state->turns.count > 0;
}

/* Does a part lie turned, so that its turn is marked? */
static bool has_turns(const struct sewn_quilt *quilt, const struct heap *heap)
{
    bool turned = false;
    for (size_t i = 0; heap->step > 0 && i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct heap *part = &quilt->heaps.items[input->heap];
        turned |= part->technique != TECHNIQUE_CUT &&
                  input->turn % part->symmetry != 0;
    }
    return turned && heap->technique == TECHNIQUE_JOIN;
}

/* What the figures of this quilt show; signs that it does not need are not
 * explained. */
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
        signs.turned |= has_turns(booklet->quilt, heap);
        signs.print |= heap->technique == TECHNIQUE_CUT && heap->step == 0 &&
                       has_way(&booklet->flow.canvas, heap->of.cut.fabric);
    }
    return signs;
}

/* ---- signs and words ---- */

/* An entry is a sign and its words beside it, in one of the panel's columns. */
enum { COLUMNS = 4 };
#define SIGN MM(12.0)
#define ENTRY_HEIGHT MM(7.4)
#define PANEL_PAD MM(2.2)

/* ensures: the middle of the sign, at its left end. */
static struct point legend_entry(struct legend *legend, const char *key)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const struct wording *w = &legend->booklet->wording;
    const double wide = (canvas->width - 2.0 * PANEL_PAD) / COLUMNS;
    const double x = PANEL_PAD + wide * (legend->count % COLUMNS);
    const double y = PANEL_PAD + ENTRY_HEIGHT * (legend->count / COLUMNS);
    struct text_style style = style_small();
    style.color = ink;
    const struct box *text =
        box_heading(canvas, say(w->arena, w->phrases, key, NULL), style,
                    wide - SIGN - 10.0, "Span");
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

/* Left out where no figure has it. The style is the figures' own, so that they
 * cannot differ. */
static void legend_line(struct legend *legend, const struct signs *signs,
                        enum mark_kind kind, const char *key)
{
    if (!signs->marks[kind])
        return;
    const struct point at = legend_entry(legend, key);
    const double inset = kind == MARK_CUT ? MM(3.0) : 0.0;
    draw_mark(&legend->booklet->flow.canvas, legend->box, kind,
              (struct point){at.x + inset, at.y},
              (struct point){at.x + SIGN, at.y});
    legend_end(legend);
}

/* Two cells: the first in full, the second in work; or one. */
static void legend_fill(struct legend *legend, struct path_item first,
                        const struct path_item *second, const char *key)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const struct point at = legend_entry(legend, key);
    const double wide = second == NULL ? SIGN : SIGN / 2.0;
    const double high = MM(5.6);
    box_rectangle(canvas, legend->box, at.x, at.y - high / 2.0, wide, high,
                  first);
    if (second != NULL)
        box_rectangle(canvas, legend->box, at.x + wide, at.y - high / 2.0, wide,
                      high, *second);
    legend_end(legend);
}

/* One arrow, or two that part. */
static void legend_press(struct legend *legend, bool open, const char *key)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const struct point at = legend_entry(legend, key);
    const double middle = at.x + SIGN / 2.0;
    draw_arrow(canvas, legend->box, open ? middle : at.x + 1.0, at.y,
               at.x + SIGN - 1.0, at.y);
    if (open)
        draw_arrow(canvas, legend->box, middle, at.y, at.x + 1.0, at.y);
    legend_end(legend);
}

/* What has no style of its own in the list of marks. Signs that are written are
 * elements of their own: what lies loose in a paragraph is not read. */
static void legend_signs(struct legend *legend, const struct signs *signs)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    if (signs->press)
        legend_press(legend, false, "legend.press");
    if (signs->open)
        legend_press(legend, true, "legend.press-open");
    if (signs->flap) {
        const struct point at = legend_entry(legend, "legend.turn");
        draw_turn(canvas, legend->box, (struct point){at.x + 4.0, at.y + 4.0},
                  (struct point){at.x + SIGN - 4.0, at.y + 1.0});
        legend_end(legend);
    }
    if (signs->turned) {
        const struct point at = legend_entry(legend, "legend.turned");
        box_tag(canvas, legend->box, "Span", NULL);
        draw_turned(canvas, legend->box, at.x + SIGN / 2.0, at.y, 1);
        box_tag_end(canvas, legend->box, "Span");
        legend_end(legend);
    }
    if (signs->numbers) {
        const struct point at = legend_entry(legend, "legend.seam-number");
        box_tag(canvas, legend->box, "Span", NULL);
        draw_number(canvas, legend->box, at.x + SIGN / 2.0, at.y, 1);
        box_tag_end(canvas, legend->box, "Span");
        legend_end(legend);
    }
    if (signs->print) {
        const struct point at = legend_entry(legend, "legend.print");
        draw_print(canvas, legend->box, at.x + SIGN / 2.0, at.y, 0, MM(4.4),
                   ink);
        legend_end(legend);
    }
}

/* Before the first step, so that no figure needs words of its own. */
void section_legend(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct colorway *colorway = booklet->plan->colorway;
    const struct signs signs = signs_of(booklet);
    struct legend legend = {booklet, box_new(canvas, canvas->width, 0.0), 0};
    /* By the second cloth, as the first is often the ground. */
    const int shown = booklet->design->fabrics.count > 1 ? 1 : 0;
    const struct path_item done =
        face_fill(canvas, colorway, shown, false, SHADE_DONE);
    const struct path_item in_work =
        face_fill(canvas, colorway, shown, false, SHADE_WORK);
    box_rectangle(canvas, legend.box, 0.0, 0.0, canvas->width, 0.0,
                  (struct path_item){.filled = true, .fill = pale});
    legend_fill(&legend, done, &in_work, "legend.right-side");
    if (signs.wrong_side)
        legend_fill(&legend,
                    face_fill(canvas, colorway, shown, true, SHADE_WORK), NULL,
                    "legend.wrong-side");
    legend_line(&legend, &signs, MARK_DRAWN, "legend.drawn");
    legend_line(&legend, &signs, MARK_SEWN, "legend.sewn");
    legend_line(&legend, &signs, MARK_CUT, "legend.cut");
    legend_signs(&legend, &signs);
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
    flow_add(&booklet->flow, legend.box, SPACE_HALF);
}
