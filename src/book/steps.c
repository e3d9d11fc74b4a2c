/* The steps: one heap after the other, each action with the figures of before
 * and after. Everything drawn is a state of the sewn cloth. May assume heaps in
 * the order of sewing. Words are wording.c's, figures figure.c's; here only the
 * page is laid out. Lengths are points. Read next: figure.c. */
#include <math.h>
#include <string.h>

#include "mirror_pair.h"
#include "result.h"
#include "section.h"
#include "structure.h"
#include "telling.h"
#include "words.h"

/* Points: the column of words, and gaps beside and inside figures. A seam's
 * number has room between parts. */
enum { STEP_TEXT = 212, STEP_GAP = 16, FIGURE_GAP = 20, PART_GAP = 13 };

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
                           PART_GAP + seams,
                           false};
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

/* The last action of a heap makes what the step promises. */
static bool is_last(const struct heap *heap, const struct action *action)
{
    return action == &heap->actions.items[heap->actions.count - 1];
}

/* The dimensions of a result take room of their own. */
static double action_scale(struct booklet *booklet, const struct heap *heap,
                           const struct action *action, double width,
                           double height)
{
    const double sizes = is_last(heap, action) ? RESULT_MARGIN : 0.0;
    const double before =
        fitting_scale(booklet, &action->before, width, height);
    const double after =
        fitting_scale(booklet, &action->after, width - sizes, height);
    return fmin(before, after);
}

/* One scale for all figures of a step, not so large that small pieces look like
 * large ones. */
static double step_scale(struct booklet *booklet, const struct heap *heap,
                         double width, double height, double most)
{
    for (size_t i = 0; i < heap->actions.count; i++)
        most = fmin(most, action_scale(booklet, heap, &heap->actions.items[i],
                                       width, height));
    return most;
}

/* The figure in the middle, its caption below; never narrower than `width`.
 * `told` is what it tells in words; the left `margin` is no part of the cloth,
 * under whose middle the caption stands. */
static struct box *captioned(struct booklet *booklet, struct box *figure,
                             const char *caption, const char *told,
                             double width, double margin)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const double wide = fmax(width, figure->width);
    struct box *text = box_text(canvas, caption, style, wide);
    struct box *box =
        box_new(canvas, wide, figure->height + 8.0 + text->height);
    put_figure(booklet, box, figure, (wide - figure->width) / 2.0, 2.0, told);
    box_put(canvas, box, text, margin / 2.0, figure->height + 8.0);
    return box;
}

/* A figure with its seams numbered, where several join parts. */
static struct box *laid_figure(const struct figure *figure,
                               const struct heap *heap,
                               const struct action *action)
{
    struct box *box = figure_state(figure, &action->before);
    if (seams_in(heap, NULL) > 1)
        number_gaps(figure, box, action, seams_in(heap, action) + 1);
    return box;
}

/* Three where an action of the heap has a second way. */
static double figure_columns(const struct heap *heap)
{
    for (size_t i = 0; i < heap->actions.count; i++)
        if (heap->actions.items[i].other.faces.count > 0)
            return 3.0;
    return 2.0;
}

/* The figure of after; the last one shows what a ruler can check at the
 * machine, and how many to make. What is sewn is one thing: no labels inside.
 */
static struct box *sewn_figure(struct booklet *booklet, const struct heap *heap,
                               const struct action *action, double scale,
                               double width, bool numbered)
{
    const struct wording *w = &booklet->wording;
    const struct figure figure = figure_for(booklet, NULL, scale);
    struct box *box = figure_state(&figure, &action->after);
    if (numbered)
        number_ends(&figure, box, action, seams_in(heap, action) + 1);
    if (!is_last(heap, action))
        return captioned(
            booklet, box, say(w->arena, w->phrases, "caption.pressed", NULL),
            say(w->arena, w->phrases, "caption.pressed", NULL), width, 0.0);
    return captioned(booklet, result_box(booklet, heap, box),
                     say(w->arena, w->phrases, "figure.unfinished", NULL),
                     result_told(booklet, heap), width, RESULT_MARGIN);
}

/* Tops of cloth are level: what lies beside a result begins where it does,
 * unless that would make the row higher. */
static struct box *lowered(const struct canvas *canvas, const struct box *part,
                           double by, const struct box *beside)
{
    by = fmax(0.0, fmin(by, beside->height - part->height));
    struct box *box = box_new(canvas, part->width, part->height + by);
    box_put(canvas, box, part, 0.0, by);
    return box;
}

/* A second way that makes the same, beside the first. */
static struct box *other_figure(struct booklet *booklet,
                                const struct figure *figure,
                                const struct action *action, double width)
{
    const char *caption = other_caption(&booklet->wording, action);
    return captioned(booklet, figure_state(figure, &action->other), caption,
                     caption, width, 0.0);
}

/* Before and after side by side; where there are two ways, both before. */
static struct box *action_figures(struct booklet *booklet,
                                  const struct heap *heap,
                                  const struct action *action, double width,
                                  double scale)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double columns = figure_columns(heap);
    const double each = (width - (columns - 1.0) * FIGURE_GAP) / columns;
    const struct figure before = figure_for(booklet, heap, scale);
    const char *caption =
        telling_of(heap)->before(&booklet->wording, heap, action);
    struct box *laid = captioned(booklet, laid_figure(&before, heap, action),
                                 caption, caption, each, 0.0);
    struct box *sewn = sewn_figure(booklet, heap, action, scale, each, false);
    const double lower = is_last(heap, action) ? RESULT_MARGIN : 0.0;
    struct box *row[3] = {lowered(canvas, laid, lower, sewn), sewn, NULL};
    if (action->other.faces.count == 0)
        return box_row(canvas, row, 2, FIGURE_GAP);
    row[2] = sewn;
    row[1] = lowered(canvas, other_figure(booklet, &before, action, each),
                     lower, sewn);
    return box_row(canvas, row, 3, FIGURE_GAP);
}

/* What to do, how to press, and at the end what it must measure. */
static struct box *action_text(struct booklet *booklet, const struct heap *heap,
                               const struct action *action, double width)
{
    const struct wording *w = &booklet->wording;
    const char *text = word_action(w, heap, action);
    if (action == &heap->actions.items[0] && seams_in(heap, NULL) > 1)
        text = word_then(w, text,
                         say(w->arena, w->phrases, "step.seam-order", NULL));
    text = word_then(w, text, word_press(w, heap, action));
    if (is_last(heap, action))
        text = word_then(w, text, word_measure(w, heap));
    return box_text(&booklet->flow.canvas, text, style_body(), width);
}

/* 24 points a unit at most, 128 high: three or four actions fit a page. */
static double action_step_scale(struct booklet *booklet,
                                const struct heap *heap)
{
    const double room = booklet->flow.canvas.width - STEP_TEXT - STEP_GAP;
    const double columns = figure_columns(heap);
    const double each = (room - (columns - 1.0) * FIGURE_GAP) / columns;
    return step_scale(booklet, heap, each - 8.0, 128.0, 24.0);
}

/* Text on the left, figures on the right. */
static void add_action(struct booklet *booklet, const struct heap *heap,
                       const struct action *action)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double room = canvas->width - STEP_TEXT - STEP_GAP;
    const double scale = action_step_scale(booklet, heap);
    struct box *parts[2] = {action_text(booklet, heap, action, STEP_TEXT),
                            action_figures(booklet, heap, action, room, scale)};
    name_step_figure(booklet, heap, parts[1]);
    flow_add(&booklet->flow, box_row(canvas, parts, 2, STEP_GAP), 6.0);
}

/* A text that its figure follows on the same page. */
static void add_wide_text(struct booklet *booklet, const struct heap *heap,
                          const struct action *action)
{
    struct box *text =
        action_text(booklet, heap, action, booklet->flow.canvas.width);
    text->keep_with_next = true;
    flow_add(&booklet->flow, text, 6.0);
}

/* Figures of before and after as large as the page allows: a long row's below
 * each other, others side by side. */
static void add_long_action(struct booklet *booklet, const struct heap *heap,
                            const struct action *action)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const bool row =
        rational_double(heap->width) > 2.0 * rational_double(heap->height);
    const double width =
        row ? canvas->width : (canvas->width - FIGURE_GAP) / 2.0;
    const double scale = step_scale(booklet, heap, width - 4.0, 250.0, 16.0);
    const struct figure before = figure_for(booklet, heap, scale);
    const char *caption =
        telling_of(heap)->before(&booklet->wording, heap, action);
    struct box *laid = captioned(booklet, laid_figure(&before, heap, action),
                                 caption, caption, width, 0.0);
    struct box *sewn = sewn_figure(booklet, heap, action, scale, width, false);
    add_wide_text(booklet, heap, action);
    struct box *pair[2] = {
        row ? laid : lowered(canvas, laid, RESULT_MARGIN, sewn), sewn};
    struct box *both = row ? box_stack(canvas, pair, 2, 8.0)
                           : box_row(canvas, pair, 2, FIGURE_GAP);
    name_step_figure(booklet, heap, both);
    flow_add(&booklet->flow, both, 8.0);
}

/* A wide layout: text above, one large figure below. The first action shows how
 * parts are laid, the later ones what they become: both of them large would
 * fill two pages. */
static void add_wide_action(struct booklet *booklet, const struct heap *heap,
                            const struct action *action)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double width = canvas->width;
    const bool first = action == &heap->actions.items[0];
    add_wide_text(booklet, heap, action);
    struct box *drawn = NULL;
    if (first) {
        /* A column alone need not fill a page. */
        const double height = heap_across(heap) > 1 ? 320.0 : 250.0;
        const double scale =
            fitting_scale(booklet, &action->before, width - 4.0, height);
        const struct figure figure =
            figure_for(booklet, heap, fmin(scale, 16.0));
        const char *caption =
            telling_of(heap)->before(&booklet->wording, heap, action);
        drawn = captioned(booklet, laid_figure(&figure, heap, action), caption,
                          caption, width, 0.0);
    } else {
        const double scale = fitting_scale(booklet, &action->after,
                                           width - RESULT_MARGIN - 4.0, 250.0);
        drawn = sewn_figure(booklet, heap, action, fmin(scale, 16.0), width,
                            seams_in(heap, NULL) > 1);
    }
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

/* What one round of the work takes, which may make several. */
static const char *word_takes(const struct wording *w, const struct heap *heap)
{
    return say(w->arena, w->phrases,
               heap->yield == 1   ? "step.for-one"
               : heap->yield == 2 ? "step.for-two"
                                  : "step.for-many",
               "count", say_count(w->arena, heap->yield), "parts",
               word_parts(w, heap), NULL);
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
        linked_parts(booklet, heap, word_takes(w, heap), style_small());
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

/* Many parts need the whole width of the page, and so do large ones: beside the
 * text their patches would be too small to be told apart. */
static bool is_wide(struct booklet *booklet, const struct heap *heap)
{
    enum { MANY = 9 };
    if (heap->technique != TECHNIQUE_JOIN)
        return false;
    const double ratio =
        rational_double(heap->width) / rational_double(heap->height);
    const bool slim = heap->inputs.count > 3 && (ratio > 3.0 || ratio < 0.34);
    /* Points for an inch, or for a centimetre. */
    const double least = booklet->design->pattern->units == UNIT_CM ? 1.0 : 2.5;
    return heap->inputs.count > MANY || slim ||
           action_step_scale(booklet, heap) < least;
}

static void add_heap(struct booklet *booklet, size_t index)
{
    const struct heap *heap = &booklet->quilt->heaps.items[index];
    add_step_heading(booklet, index);
    add_says(booklet, heap);
    if (heap->says.count > 0)
        booklet->flow.boxes.items[booklet->flow.boxes.count - 1]
            ->keep_with_next = true;
    const size_t first = booklet->flow.boxes.count;
    const bool wide = is_wide(booklet, heap);
    for (size_t i = 0; i < heap->actions.count; i++) {
        if (wide && heap->actions.count == 1)
            add_long_action(booklet, heap, &heap->actions.items[i]);
        else if (wide)
            add_wide_action(booklet, heap, &heap->actions.items[i]);
        else
            add_action(booklet, heap, &heap->actions.items[i]);
    }
    struct box *pair = mirror_pair(booklet, heap);
    if (pair != NULL)
        flow_add(&booklet->flow, pair, 8.0);
    keep_together(booklet, first);
}

/* Each heap that is sewn is a step; cuts have none. */
void section_steps(struct booklet *booklet)
{
    flow_section(&booklet->flow,
                 say(booklet->wording.arena, booklet->wording.phrases,
                     "step.title", NULL),
                 "", true);
    section_legend(booklet);
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++)
        if (booklet->quilt->heaps.items[i].step > 0)
            add_heap(booklet, i);
}
