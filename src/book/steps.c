/* The steps: one heap after the other, each action with the figures of before
 * and after. Everything drawn is a state of the sewn cloth. May assume heaps in
 * the order of sewing. Words are wording.c's, figures figure.c's; here only the
 * page is laid out. Lengths are points. Read next: figure.c. */
#include <math.h>
#include <string.h>

#include "section.h"
#include "structure.h"
#include "words.h"

/* Points: the column of words, and gaps beside and inside figures. */
enum { STEP_TEXT = 212, STEP_GAP = 16, FIGURE_GAP = 20, PART_GAP = 8 };

/* `heap` names the parts in labels, or is NULL for none. */
static struct figure figure_for(struct booklet *booklet,
                                const struct heap *heap, double scale)
{
    /* Parts that lie apart keep their allowances: the gap opens beyond. */
    const double seams =
        2.0 * rational_double(booklet->design->pattern->seam) * scale;
    return (struct figure){&booklet->flow.canvas,
                           &booklet->wording,
                           booklet->plan->colorway,
                           heap,
                           scale,
                           PART_GAP + seams};
}

/* The size at scale 1, without gaps; and how much the gaps add. Gaps are points
 * and do not scale, so the two are kept apart. */
static struct figure_size bare_size(struct booklet *booklet,
                                    const struct state *state,
                                    struct figure_size *gaps)
{
    struct figure unit = figure_for(booklet, NULL, 1.0);
    unit.gap -= PART_GAP; /* what scales with the parts */
    int across = 0, down = 0;
    for (size_t i = 0; i < state->faces.count; i++) {
        across = state->faces.items[i].gap_x > across
                     ? state->faces.items[i].gap_x
                     : across;
        down = state->faces.items[i].gap_y > down ? state->faces.items[i].gap_y
                                                  : down;
    }
    *gaps = (struct figure_size){across * (double)PART_GAP,
                                 down * (double)PART_GAP};
    return figure_size(&unit, state);
}

/* Points for one unit of length, so that the state fits the room. */
static double fitting_scale(struct booklet *booklet, const struct state *state,
                            double width, double height)
{
    struct figure_size gaps;
    const struct figure_size bare = bare_size(booklet, state, &gaps);
    return fmin((width - gaps.width) / bare.width,
                (height - gaps.height) / bare.height);
}

/* One scale for the figures of before and after, not so large that small pieces
 * look like large ones. */
static double action_scale(struct booklet *booklet, const struct action *action,
                           double width, double height, double most)
{
    const double before =
        fitting_scale(booklet, &action->before, width, height);
    const double after = fitting_scale(booklet, &action->after, width, height);
    return fmin(most, fmin(before, after));
}

/* The figure in the middle, its caption below; never narrower than `width`. */
static struct box *captioned(struct booklet *booklet, struct box *figure,
                             const char *caption, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const double wide = fmax(width, figure->width);
    struct box *text = box_text(canvas, caption, style, wide);
    struct box *box =
        box_new(canvas, wide, figure->height + 8.0 + text->height);
    put_figure(booklet, box, figure, (wide - figure->width) / 2.0, 2.0,
               caption);
    box_put(canvas, box, text, 0.0, figure->height + 8.0);
    return box;
}

static const char *line_word(const struct wording *w, enum line_direction line)
{
    return say(w->arena, w->phrases,
               line == LINE_RISING ? "line.rising" : "line.falling", NULL);
}

/* Says what is seen, not what to do: that is the text's part. Lines are told as
 * they lie. */
static const char *before_caption(struct booklet *booklet,
                                  const struct heap *heap,
                                  const struct action *action)
{
    const struct wording *w = &booklet->wording;
    switch (action->kind) {
    case ACTION_FLIP_CORNER:
    case ACTION_JOIN_DIAGONAL:
        return action->parts.count > 2
                   ? say(w->arena, w->phrases, "caption.laid-corners", NULL)
                   : say(w->arena, w->phrases, "caption.laid", "line",
                         line_word(w, action->line), NULL);
    case ACTION_HALF_SQUARE:
        return say(w->arena, w->phrases, "caption.laid-on", "flap",
                   word_part(w, heap->inputs.items[1].heap), "base",
                   word_part(w, heap->inputs.items[0].heap), "line",
                   line_word(w, action->line), NULL);
    case ACTION_JOIN_ROW:
        return say(w->arena, w->phrases,
                   heap->down > 1 ? "caption.lay-rows" : "caption.lay", NULL);
    case ACTION_JOIN_COLUMN:
        break;
    }
    return say(w->arena, w->phrases,
               heap->across > 1 ? "caption.rows" : "caption.lay", NULL);
}

/* The last action of a heap makes what the step promises. */
static bool is_last(const struct heap *heap, const struct action *action)
{
    return action == &heap->actions.items[heap->actions.count - 1];
}

/* The unfinished size, which a ruler can check at the machine. */
static const char *after_caption(struct booklet *booklet,
                                 const struct heap *heap,
                                 const struct action *action)
{
    const struct wording *w = &booklet->wording;
    const struct rational seams =
        rational_times(booklet->design->pattern->seam, 2);
    if (!is_last(heap, action))
        return say(w->arena, w->phrases, "caption.pressed", NULL);
    return say(w->arena, w->phrases, "caption.unfinished", "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               NULL);
}

/* Before and after side by side. */
static struct box *action_figures(struct booklet *booklet,
                                  const struct heap *heap,
                                  const struct action *action, double width,
                                  double height, double most)
{
    const double each = (width - FIGURE_GAP) / 2.0;
    const double scale =
        action_scale(booklet, action, each - 8.0, height, most);
    const struct figure before = figure_for(booklet, heap, scale);
    struct figure after = before;
    after.heap = NULL; /* what is sewn is one thing: no labels inside */
    struct box *pair[2] = {
        captioned(booklet, figure_state(&before, &action->before),
                  before_caption(booklet, heap, action), each),
        captioned(booklet, figure_state(&after, &action->after),
                  after_caption(booklet, heap, action), each)};
    return box_row(&booklet->flow.canvas, pair, 2, FIGURE_GAP);
}

/* What to do, how to press, and at the end what it must measure. */
static struct box *action_text(struct booklet *booklet, const struct heap *heap,
                               const struct action *action, double width)
{
    const struct wording *w = &booklet->wording;
    const char *text =
        word_then(w, word_action(w, heap, action), word_press(w, heap, action));
    if (is_last(heap, action))
        text = word_then(w, text, word_measure(w, heap));
    return box_text(&booklet->flow.canvas, text, style_body(), width);
}

/* Text on the left, figures on the right. 24 points a unit at most, 128 high:
 * three or four actions fit a page. */
static void add_action(struct booklet *booklet, const struct heap *heap,
                       const struct action *action)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double room = canvas->width - STEP_TEXT - STEP_GAP;
    struct box *parts[2] = {
        action_text(booklet, heap, action, STEP_TEXT),
        action_figures(booklet, heap, action, room, 128.0, 24.0)};
    name_step_figure(booklet, heap, parts[1]);
    flow_add(&booklet->flow, box_row(canvas, parts, 2, STEP_GAP), 6.0);
}

/* A wide layout: text above, one large figure below. The first action shows how
 * parts are laid, the later ones what they become: both of them large would
 * fill two pages. */
static void add_wide_action(struct booklet *booklet, const struct heap *heap,
                            const struct action *action)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *text = action_text(booklet, heap, action, canvas->width);
    text->keep_with_next = true;
    flow_add(&booklet->flow, text, 6.0);
    const bool first = action == &heap->actions.items[0];
    const struct state *state = first ? &action->before : &action->after;
    /* A column alone need not fill a page. */
    const double height = first && heap->across > 1 ? 430.0 : 250.0;
    const double scale =
        fitting_scale(booklet, state, canvas->width - 4.0, height);
    const struct figure figure =
        figure_for(booklet, first ? heap : NULL, fmin(scale, 16.0));
    const char *caption = first ? before_caption(booklet, heap, action)
                                : after_caption(booklet, heap, action);
    struct box *drawn = captioned(booklet, figure_state(&figure, state),
                                  caption, canvas->width);
    name_step_figure(booklet, heap, drawn);
    flow_add(&booklet->flow, drawn, 8.0);
}

/* The designer's words come first, set apart by their slope. */
static void add_says(struct booklet *booklet, const struct heap *heap)
{
    struct text_style style = style_body();
    style.face = FACE_ITALIC;
    for (size_t i = 0; i < heap->says.count; i++) {
        const char *text =
            word_words(&booklet->wording, booklet->plan->colorway,
                       heap->says.items[i], heap);
        if (text[0] != '\0')
            flow_add(&booklet->flow,
                     box_text(&booklet->flow.canvas, text, style,
                              booklet->flow.canvas.width),
                     4.0);
    }
}

/* Number, name, and how many to make; below, what one of them takes. */
static void add_step_heading(struct booklet *booklet, size_t index)
{
    const struct wording *w = &booklet->wording;
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct heap *heap = &booklet->quilt->heaps.items[index];
    const char *title =
        arena_printf(w->arena, "%zu. %s", heap->step, word_heap(w, index));
    struct text_style make = style_bold();
    make.align = ALIGN_RIGHT;
    const struct box *left =
        box_heading(canvas, title, style_step(), canvas->width - 90.0, "H2");
    struct box *box = box_new(canvas, canvas->width, left->height + 2.0);
    struct path_item rule = outline_narrow();
    rule.stroke_color = grey;
    box_stroke(canvas, box, 0.0, -4.0, canvas->width, -4.0, rule);
    box_put(canvas, box, left, 0.0, 0.0);
    box_tagged_label(canvas, box, "P", canvas->width, 1.0,
                     word_make(w, heap->count), make);
    box->place = place_step(w->arena, heap->step);
    box->keep_with_next = true;
    flow_add(&booklet->flow, box, 24.0);
    struct box *parts =
        linked_parts(booklet, heap,
                     say(w->arena, w->phrases,
                         heap->yield == 2 ? "step.for-two" : "step.for-one",
                         "parts", word_parts(w, heap), NULL),
                     style_small());
    parts->keep_with_next = true;
    flow_add(&booklet->flow, parts, 1.0);
}

/* A step that fits a page stays whole. Called with the step's own boxes at the
 * end of the flow. */
static void keep_together(struct booklet *booklet, size_t first)
{
    double height = 60.0; /* of the heading before it */
    for (size_t i = first; i < booklet->flow.boxes.count; i++)
        height += booklet->flow.boxes.items[i]->height +
                  booklet->flow.boxes.items[i]->space_before;
    for (size_t i = first; i + 1 < booklet->flow.boxes.count; i++)
        if (height < flow_page_height(&booklet->flow))
            booklet->flow.boxes.items[i]->keep_with_next = true;
}

/* Many parts need the whole width of the page. */
static void add_heap(struct booklet *booklet, size_t index)
{
    enum { MANY = 9 };
    const struct heap *heap = &booklet->quilt->heaps.items[index];
    add_step_heading(booklet, index);
    add_says(booklet, heap);
    if (heap->says.count > 0)
        booklet->flow.boxes.items[booklet->flow.boxes.count - 1]
            ->keep_with_next = true;
    const size_t first = booklet->flow.boxes.count;
    const double ratio =
        rational_double(heap->width) / rational_double(heap->height);
    const bool slim = heap->inputs.count > 3 && (ratio > 3.0 || ratio < 0.34);
    const bool wide =
        heap->work == WORK_JOIN && (heap->inputs.count > MANY || slim);
    for (size_t i = 0; i < heap->actions.count; i++) {
        if (wide)
            add_wide_action(booklet, heap, &heap->actions.items[i]);
        else
            add_action(booklet, heap, &heap->actions.items[i]);
    }
    keep_together(booklet, first);
}

/* ---- legend ---- */

struct legend {
    struct booklet *booklet;
    struct box *box;
    double x, y; /* where the next sign goes */
};

enum { SIGN = 26, LEGEND_LINE = 17, LEGEND_GAP = 16 };

/* Room for a sign and its words, on this line or the next. The caller draws the
 * sign, legend_next writes the words. */
static void legend_room(struct legend *legend, const char *text)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style_small(), 0.0);
    if (legend->x + SIGN + 5.0 + extent.width > canvas->width) {
        legend->x = 0.0;
        legend->y += LEGEND_LINE;
    }
    box_tag(canvas, legend->box, "LI", NULL);
    box_tag(canvas, legend->box, "Lbl", NULL);
    box_tag(canvas, legend->box, "Figure",
            say(canvas->arena, legend->booklet->wording.phrases, "figure.sign",
                "meaning", text, NULL));
}

/* Writes the words behind the sign and moves on behind them. */
static void legend_next(struct legend *legend, const char *text)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    box_tag_end(canvas, legend->box, "Figure");
    box_tag_end(canvas, legend->box, "Lbl");
    box_tagged_label(canvas, legend->box, "LBody", legend->x + SIGN + 5.0,
                     legend->y + 1.0, text, style_small());
    box_tag_end(canvas, legend->box, "LI");
    const struct text_extent extent = typeset_measure(
        legend->booklet->flow.canvas.typeset, text, style_small(), 0.0);
    legend->x += SIGN + 5.0 + extent.width + LEGEND_GAP;
}

/* One of the three kinds of mark. */
static void legend_line(struct legend *legend, struct path_item line,
                        const char *text)
{
    legend_room(legend, text);
    box_stroke(&legend->booklet->flow.canvas, legend->box, legend->x,
               legend->y + 8.0, legend->x + SIGN, legend->y + 8.0, line);
    legend_next(legend, text);
}

/* By the first fabric: what differs is the side, not the cloth. */
static void legend_fill(struct legend *legend, bool wrong_side,
                        const char *text)
{
    legend_room(legend, text);
    box_rectangle(&legend->booklet->flow.canvas, legend->box, legend->x,
                  legend->y + 1.0, SIGN, 14.0,
                  face_fill(legend->booklet->plan->colorway, 0, wrong_side));
    legend_next(legend, text);
}

/* One arrow, or two that part. */
static void legend_press(struct legend *legend, bool open, const char *text)
{
    const struct canvas *canvas = &legend->booklet->flow.canvas;
    legend_room(legend, text);
    const double y = legend->y + 8.0, middle = legend->x + SIGN / 2.0;
    draw_arrow(canvas, legend->box, open ? middle : legend->x, y,
               legend->x + SIGN, y);
    if (open)
        draw_arrow(canvas, legend->box, middle, y, legend->x, y);
    legend_next(legend, text);
}

/* Drawn by the same function as in figures, so that both look alike. */
static void legend_turn(struct legend *legend, const char *text)
{
    legend_room(legend, text);
    draw_turn(&legend->booklet->flow.canvas, legend->box,
              (struct point){legend->x + 3.0, legend->y + 13.0},
              (struct point){legend->x + 22.0, legend->y + 9.0});
    legend_next(legend, text);
}

/* Before the first step, so that no figure needs words of its own. */
static void add_legend(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct legend legend = {booklet, box_new(canvas, canvas->width, 0.0), 0.0,
                            0.0};
    const struct wording *w = &booklet->wording;
    box_in_list(legend.box, ROLE_NONE, true);
    legend_fill(&legend, false,
                say(w->arena, w->phrases, "legend.right-side", NULL));
    legend_fill(&legend, true,
                say(w->arena, w->phrases, "legend.wrong-side", NULL));
    legend_line(&legend, mark_style(MARK_DRAWN),
                say(w->arena, w->phrases, "legend.draw", NULL));
    legend_line(&legend, mark_style(MARK_SEWN),
                say(w->arena, w->phrases, "legend.sew", NULL));
    legend_line(&legend, mark_style(MARK_CUT),
                say(w->arena, w->phrases, "legend.cut", NULL));
    legend_press(&legend, false,
                 say(w->arena, w->phrases, "legend.press", NULL));
    legend_press(&legend, true,
                 say(w->arena, w->phrases, "legend.press-open", NULL));
    legend_turn(&legend, say(w->arena, w->phrases, "legend.turn", NULL));
    legend.box->height = legend.y + LEGEND_LINE;
    legend.box->keep_with_next = true;
    flow_add(&booklet->flow, legend.box, 6.0);
}

/* Each heap that is sewn is a step; cuts have none. */
void section_steps(struct booklet *booklet)
{
    flow_section(&booklet->flow,
                 say(booklet->wording.arena, booklet->wording.phrases,
                     "step.title", NULL),
                 true);
    add_legend(booklet);
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++)
        if (booklet->quilt->heaps.items[i].step > 0)
            add_heap(booklet, i);
}
