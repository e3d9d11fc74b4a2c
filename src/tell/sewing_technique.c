/* Frames of a technique. Where it is used first, each move has its own frame:
 * the line, the seam, the cut; later uses show all in one. Read next:
 * sewing_join.c. */
#include "sewing.h"
#include "telling.h"

/* An action need not have marks of every kind: what is sewn along an edge has
 * no line that is drawn. */
static bool has_mark(const struct state *state, enum mark_kind kind)
{
    for (size_t i = 0; i < state->marks.count; i++)
        if (state->marks.items[i].kind == kind)
            return true;
    return false;
}

/* A corner that is mitred: of the whole quilt only that is seen. */
static bool is_close(const struct sewing *sewing, const struct state *state)
{
    return sewing->heap->technique == TECHNIQUE_BORDER &&
           has_mark(state, MARK_DRAWN);
}

/* A frame of a state, with some kinds of its lines. */
struct shot {
    const struct action *action;
    const struct state *state;
    bool drawn, sewn, cut;
    const char *caption;
    const char *told; /* in words; NULL for what the technique says */
};

/* A list that one of the technique's two ways goes to. */
struct frame_list {
    LIST(struct told_figure) items;
};

/* What is drawn is told in words too, for those who do not see it: how parts
 * lie before the sewing. */
static void add_shot(const struct sewing *sewing, const struct shot *shot,
                     struct frame_list *list)
{
    const struct wording *w = sewing->w;
    *LIST_ADD(w->arena, &list->items) = (struct told_figure){
        .drawing = DRAWING_MOVE,
        .heap = sewing->step->heap,
        .state = shot->state,
        .drawn = shot->drawn,
        .sewn = shot->sewn,
        .cut = shot->cut,
        .close = is_close(sewing, shot->state),
        .caption = shot->caption,
        .wide = heap_has_cells(sewing->heap) &&
                shot->action->operation->laid == LAID_ACROSS,
        .told = shot->told != NULL
                    ? shot->told
                    : telling_of(sewing->heap)
                          ->before(w, sewing->heap, shot->action)};
}

static struct told_action tell_action(const struct sewing *sewing,
                                      const struct action *action)
{
    return telling_of(sewing->heap)->action(sewing->w, sewing->heap, action);
}

/* A flap that is not turned out lies in the way of the next square. "Stitch and
 * flip" says so already. */
static const char *pressed_before_next(const struct sewing *sewing,
                                       const struct action *action)
{
    const struct heap *heap = sewing->heap;
    return action == &heap->actions.items[heap->actions.count - 1]
               ? ""
               : word_press(sewing->w, sewing->plan->colorway, heap,
                            action);
}

/* Cloth that is cut before it is laid. */
static void add_parting(const struct sewing *sewing,
                        const struct action *action, struct frame_list *list)
{
    const struct wording *w = sewing->w;
    if (action->parted.faces.count == 0)
        return;
    const struct shot shot = {.action = action,
                              .state = &action->parted,
                              .cut = true,
                              .caption = told_parting(w, sewing->heap, action),
                              .told = say(w->arena, w->phrases,
                                          has_mark(&action->parted, MARK_CUT)
                                              ? "caption.parted"
                                              : "caption.marked",
                                          NULL)};
    add_shot(sewing, &shot, list);
}

/* Is the opened piece shown by itself, before it is trimmed? */
static bool shows_opened(const struct sewing *sewing,
                         const struct action *action)
{
    return action->opened.faces.count > 0 &&
           sewing->work->told_in == sewing->step->number;
}

/* Pressed, with what a ruler trims off. */
static void add_opening(const struct sewing *sewing,
                        const struct action *action, struct frame_list *list)
{
    const struct wording *w = sewing->w;
    const struct shot shot = {
        .action = action,
        .state = &action->opened,
        .cut = true,
        .caption =
            result_caption(sewing, action, tell_action(sewing, action).trim),
        .told = say(w->arena, w->phrases, "caption.opened", NULL)};
    if (shows_opened(sewing, action))
        add_shot(sewing, &shot, list);
}

/* Each move by itself: what is laid and drawn, what is sewn, what is cut; where
 * more actions follow, seam and cut are one frame. */
static void add_moves(const struct sewing *sewing, const struct action *action,
                      struct frame_list *list)
{
    const struct wording *w = sewing->w;
    const struct told_action told = tell_action(sewing, action);
    const struct state *before = &action->before;
    const bool cuts =
        has_mark(before, MARK_CUT) && sewing->heap->actions.count == 1;
    /* What was cut to shape is laid edge on edge, with nothing to draw: laying
     * and sewing are one figure. */
    const bool shaped = action->parted.faces.count > 0;
    const bool draws = !shaped && (told.lay[0] != '\0' || told.draw[0] != '\0');
    add_parting(sewing, action, list);
    if (draws) {
        const struct shot shot = {.action = action,
                                  .state = before,
                                  .drawn = true,
                                  .caption = word_then(w, told.lay, told.draw)};
        add_shot(sewing, &shot, list);
    }
    const char *pressed = pressed_before_next(sewing, action);
    const char *sewn = word_then(w, shaped ? told.lay : "", told.sew);
    const struct shot sew = {
        .action = action,
        .state = before,
        .drawn = true,
        .sewn = true,
        .cut = !cuts,
        .caption =
            cuts ? sewn : word_then(w, word_then(w, sewn, told.cut), pressed)};
    add_shot(sewing, &sew, list);
    if (cuts) {
        const struct shot cut = {.action = action,
                                 .state = before,
                                 .sewn = true,
                                 .cut = true,
                                 .caption = told.cut};
        add_shot(sewing, &cut, list);
    }
    add_opening(sewing, action, list);
}

/* The name of what was shown, where it comes up first: before later corners are
 * told by it. */
static const char *flip_named(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const struct action *first = &sewing->heap->actions.items[0];
    return sewing->work->told_in == sewing->step->number &&
                   first->operation->at_corner &&
                   tell_action(sewing, first).again[0] != '\0'
               ? say(w->arena, w->phrases, "step.flip-named", NULL)
               : "";
}

/* The words that name the step which tells how. Where its seams are pressed to
 * one side and these are open, or the other way about, the words say that, too:
 * two orders for one seam leave a beginner to guess. */
static const char *as_in_step(const struct sewing *sewing, size_t told_in)
{
    const struct wording *w = sewing->w;
    const struct action *first = &sewing->heap->actions.items[0];
    const bool open = first->press.side == PRESS_OPEN;
    bool told_open = open;
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        if (heap->step == told_in && heap->within == i &&
            heap->actions.count > 0)
            told_open = heap->actions.items[0].press.side == PRESS_OPEN;
    }
    return say(w->arena, w->phrases,
               open && !told_open ? "step.again-open"
               : told_open && !open && first->operation->at_corner
                   ? "step.again-outward"
                   : "step.again",
               "number", say_count(w->arena, told_in), NULL);
}

/* All moves in one frame: in short where an earlier frame or step tells how; of
 * another step it names the number. */
static void add_again(const struct sewing *sewing, const struct action *action,
                      struct frame_list *list)
{
    const struct wording *w = sewing->w;
    const size_t told_in = sewing->work->told_in;
    const struct told_action told = tell_action(sewing, action);
    const bool first = action == &sewing->heap->actions.items[0];
    const bool here = told_in == 0 || told_in == sewing->step->number;
    const char *text = told.again;
    if (text[0] == '\0' || (here && first))
        text = word_then(w,
                         word_then(w, told_parting(w, sewing->heap, action),
                                   word_then(w, told.lay, told.draw)),
                         word_then(w, word_then(w, told.sew, told.cut),
                                   pressed_before_next(sewing, action)));
    if (!here && first)
        text = word_then(w, text, as_in_step(sewing, told_in));
    const struct shot shot = {.action = action,
                              .state = &action->before,
                              .drawn = true,
                              .sewn = true,
                              .cut = true,
                              .caption = text};
    add_shot(sewing, &shot, list);
}

/* A second way that makes the same: cut, then sewn. */
static void add_other(const struct sewing *sewing, struct frame_list *list)
{
    const struct heap *heap = sewing->heap;
    const struct action *action = &heap->actions.items[0];
    if (telling_of(heap)->other == NULL || action->other.faces.count == 0)
        return;
    const struct told_action told =
        telling_of(heap)->other(sewing->w, heap, action);
    const struct shot cut = {.action = action,
                             .state = &action->other,
                             .drawn = true,
                             .cut = true,
                             .caption = told.draw};
    const struct shot sew = {.action = action,
                             .state = &action->other,
                             .drawn = true,
                             .sewn = true,
                             .cut = true,
                             .caption = told.sew};
    add_shot(sewing, &cut, list);
    add_shot(sewing, &sew, list);
}

static void name_flip(const struct sewing *sewing, struct told_figure *frame)
{
    frame->caption = word_then(sewing->w, frame->caption, flip_named(sewing));
}

/* What the last action makes. */
static void add_result(const struct sewing *sewing, struct frame_list *list)
{
    const struct wording *w = sewing->w;
    const struct heap *heap = sewing->heap;
    const struct action *action = &heap->actions.items[heap->actions.count - 1];
    const struct told_action told = tell_action(sewing, action);
    const char *caption = shows_opened(sewing, action)
                              ? word_measure(w, heap)
                              : result_caption(sewing, action, told.trim);
    if (heap->actions.count == 1)
        caption = word_then(w, caption, flip_named(sewing));
    *LIST_ADD(w->arena, &list->items) =
        (struct told_figure){.drawing = DRAWING_MADE,
                             .heap = sewing->step->heap,
                             .state = &action->after,
                             .caption = caption,
                             .told = result_told(sewing),
                             .result = true};
}

/* All moves are shown where a technique comes up first, or is told in full
 * again; later steps show less and point back. The other way to do it comes
 * last. */
void add_technique_frames(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const struct heap *heap = sewing->heap;
    const bool full = sewing->work->told_in == sewing->step->number &&
                      heap->technique != TECHNIQUE_BORDER;
    struct frame_list list = {.items = {0}}, other = {.items = {0}};
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        /* Are there words for a move that was shown before? */
        const bool in_short = tell_action(sewing, action).again[0] != '\0';
        if ((full && (i == 0 || !in_short)) ||
            is_close(sewing, &action->before))
            add_moves(sewing, action, &list);
        else
            add_again(sewing, action, &list);
        if (i == 0 && heap->actions.count > 1)
            name_flip(sewing, &list.items.items[list.items.count - 1]);
    }
    add_result(sewing, &list);
    if (full)
        add_other(sewing, &other);
    for (size_t i = 0; i < list.items.count; i++)
        *LIST_ADD(w->arena, &sewing->work->frames) = list.items.items[i];
    for (size_t i = 0; i < other.items.count; i++)
        *LIST_ADD(w->arena, &sewing->work->others) = other.items.items[i];
    if (other.items.count > 0)
        sewing->work->other = say(w->arena, w->phrases, "corner.or", NULL);
}
