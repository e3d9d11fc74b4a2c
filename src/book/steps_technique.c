/* Frames of a technique. Where it is used first, each move has its own frame:
 * the line, the seam, the cut; later uses show all in one. Every frame of a
 * step has one scale. Read next: steps_join.c. */
#include <math.h>
#include <string.h>

#include "steps.h"
#include "structure.h"
#include "telling.h"

/* Frames of one step, in the order of the work. */
struct frame_list {
    LIST(struct framed) items;
};

/* A frame of a state, with some kinds of its lines. */
struct shot {
    const struct action *action;
    const struct state *state;
    bool drawn, sewn, cut;
    const char *caption;
};

/* The state with those marks alone that the shot has come to. Folds are always
 * shown, as they lie under whatever is done next. */
static struct state with_marks(struct arena *arena, const struct shot *shot)
{
    struct state state = *shot->state;
    state.marks.items = NULL;
    state.marks.count = state.marks.capacity = 0;
    /* The flap turns when all is sewn. */
    if (!shot->cut)
        state.turns.count = 0;
    for (size_t i = 0; i < shot->state->marks.count; i++) {
        const struct mark mark = shot->state->marks.items[i];
        if ((mark.kind == MARK_DRAWN && shot->drawn) ||
            (mark.kind == MARK_SEWN && shot->sewn) ||
            (mark.kind == MARK_CUT && shot->cut) || mark.kind == MARK_FOLD)
            *LIST_ADD(arena, &state.marks) = mark;
    }
    return state;
}

/* An action need not have marks of every kind: what is sewn along an edge has
 * no line that is drawn. */
static bool has_mark(const struct state *state, enum mark_kind kind)
{
    for (size_t i = 0; i < state->marks.count; i++)
        if (state->marks.items[i].kind == kind)
            return true;
    return false;
}

/* ---- scale ---- */

/* Of each side by itself, so that one scale serves both figures. */
static struct figure_size larger(struct figure_size a, struct figure_size b)
{
    return (struct figure_size){fmax(a.width, b.width),
                                fmax(a.height, b.height)};
}

/* Without labels and shade, which differ between shots and result. */
static struct figure figure_at(const struct step_view *view, double scale)
{
    return (struct figure){.canvas = &view->booklet->flow.canvas,
                           .wording = &view->booklet->wording,
                           .colorway = view->booklet->plan->colorway,
                           .scale = scale};
}

/* Of a heap that is sewn in several actions, what needs most room. */
static double scale_for(const struct step_view *view, const struct heap *heap,
                        int columns)
{
    const struct figure unit = figure_at(view, 1.0);
    struct figure_size most = {0.0, 0.0};
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        most = larger(most, figure_size(&unit, &action->before));
        most = larger(most, figure_size(&unit, &action->after));
    }
    const struct figure_size sizes = {RESULT_MARGIN, RESULT_MARGIN};
    return step_scale(view->booklet, most, sizes,
                      view_room(view, columns, true), MM(40.0) * view->size);
}

/* ---- frames ---- */

/* What is drawn is told in words too, for those who do not see it: how parts
 * lie before the sewing. */
static void add_shot(const struct step_view *view, const struct heap *heap,
                     const struct shot *shot, double scale,
                     struct frame_list *list)
{
    struct arena *arena = view->booklet->wording.arena;
    const struct state state = with_marks(arena, shot);
    struct figure_part *parts =
        ARENA_ARRAY(arena, struct figure_part, heap->inputs.count + 1);
    for (size_t i = 0; i < heap->inputs.count; i++)
        parts[i] = (struct figure_part){heap->inputs.items[i].heap,
                                        heap->inputs.items[i].turn,
                                        false,
                                        {{0, 0}, {0, 0}}};
    struct figure figure = figure_at(view, scale);
    figure.parts = parts;
    figure.part_count = heap->inputs.count;
    figure.shade = SHADE_WORK;
    *LIST_ADD(arena, &list->items) =
        (struct framed){.figure = figure_state(&figure, &state),
                        .caption = shot->caption,
                        .told = telling_of(heap)->before(
                            &view->booklet->wording, heap, shot->action)};
}

/* A flap that is not turned out lies in the way of the next square. "Stitch and
 * flip" says so already. */
static const char *pressed_before_next(const struct wording *w,
                                       const struct heap *heap,
                                       const struct action *action)
{
    return action == &heap->actions.items[heap->actions.count - 1]
               ? ""
               : word_press(w, heap, action);
}

/* Each move by itself: what is laid and drawn, what is sewn, what is cut; where
 * more actions follow, seam and cut are one frame. */
static void add_moves(const struct step_view *view, const struct heap *heap,
                      const struct action *action, double scale,
                      struct frame_list *list)
{
    const struct wording *w = &view->booklet->wording;
    const struct told_action told = telling_of(heap)->action(w, heap, action);
    const struct state *before = &action->before;
    const bool cuts = has_mark(before, MARK_CUT) && heap->actions.count == 1;
    const bool draws = told.lay[0] != '\0' || told.draw[0] != '\0';
    if (draws) {
        const struct shot shot = {action, before,
                                  true,   false,
                                  false,  word_then(w, told.lay, told.draw)};
        add_shot(view, heap, &shot, scale, list);
    }
    const char *pressed = pressed_before_next(w, heap, action);
    const struct shot sew = {
        action,
        before,
        true,
        true,
        !cuts,
        cuts ? told.sew
             : word_then(w, word_then(w, told.sew, told.cut), pressed)};
    add_shot(view, heap, &sew, scale, list);
    if (cuts) {
        const struct shot cut = {action, before, false, true, true, told.cut};
        add_shot(view, heap, &cut, scale, list);
    }
}

/* All moves in one frame: in short where an earlier frame or step tells how; of
 * another step it names the number. */
static void add_again(const struct step_view *view, const struct heap *heap,
                      const struct action *action, double scale,
                      struct frame_list *list)
{
    const struct wording *w = &view->booklet->wording;
    const struct told_action told = telling_of(heap)->action(w, heap, action);
    const bool first = action == &heap->actions.items[0];
    const bool here = view->told_in == 0 || view->told_in == view->step->number;
    const char *text = told.again;
    if (text[0] == '\0' || (here && first))
        text = word_then(w, word_then(w, told.lay, told.draw),
                         word_then(w, word_then(w, told.sew, told.cut),
                                   pressed_before_next(w, heap, action)));
    if (!here && first)
        text = word_then(w, text,
                         say(w->arena, w->phrases, "step.again", "number",
                             say_count(w->arena, view->told_in), NULL));
    const struct shot shot = {action, &action->before, true, true, true, text};
    add_shot(view, heap, &shot, scale, list);
}

/* A second way that makes the same: cut, then sewn. */
static void add_other(const struct step_view *view, const struct heap *heap,
                      double scale, struct frame_list *list)
{
    const struct wording *w = &view->booklet->wording;
    const struct action *action = &heap->actions.items[0];
    if (telling_of(heap)->other == NULL || action->other.faces.count == 0)
        return;
    const struct told_action told = telling_of(heap)->other(w, heap, action);
    const struct shot cut = {action, &action->other, true,
                             false,  true,           told.draw};
    const struct shot sew = {action, &action->other, true,
                             true,   true,           told.sew};
    add_shot(view, heap, &cut, scale, list);
    add_shot(view, heap, &sew, scale, list);
}

/* What the last action makes. */
static void add_result(const struct step_view *view, const struct heap *heap,
                       double scale, struct frame_list *list)
{
    struct booklet *booklet = view->booklet;
    const struct wording *w = &booklet->wording;
    const struct action *action = &heap->actions.items[heap->actions.count - 1];
    const struct figure figure = figure_at(view, scale);
    const struct told_action told = telling_of(heap)->action(w, heap, action);
    struct box *cloth = figure_state(&figure, &action->after);
    const bool named = view->told_in == view->step->number &&
                       action->operation->at_corner && told.again[0] != '\0';
    const char *caption = result_caption(view, action, told.trim);
    if (named)
        caption = word_then(w, caption,
                            say(w->arena, w->phrases, "step.flip-named", NULL));
    *LIST_ADD(w->arena, &list->items) =
        (struct framed){.figure = measured_cloth(booklet, heap, cloth),
                        .caption = caption,
                        .told = result_told(booklet, heap),
                        .result = true};
}

/* Rows of at most four frames, or two in half the page, as even as can be; a
 * row of two or three has wider ones, where no other has four. */
static void add_rows(const struct step_view *view,
                     const struct frame_list *list, char letter,
                     struct rows *rows)
{
    struct booklet *booklet = view->booklet;
    const size_t most = view->columns == 12 ? 4 : 2;
    const size_t lines = (list->items.count + most - 1) / most;
    const size_t longest = (list->items.count + lines - 1) / lines;
    const int columns = view->columns == 6 || longest > 3
                            ? 3
                            : 4; /* a frame of two would be too wide */
    for (size_t i = 0; i < list->items.count; i += longest) {
        const size_t left = list->items.count - i;
        const size_t count = left < longest ? left : longest;
        for (size_t k = 0; k < count; k++)
            list->items.items[i + k].columns = columns;
        struct box *row =
            frames_row(booklet, list->items.items + i, count,
                       list->items.count == 1 ? 0 : (char)(letter + (int)i));
        name_step_figure(booklet, view->heap, row);
        *LIST_ADD(booklet->wording.arena, &rows->items) = row;
    }
}

/* Are there words for a move that was shown before? */
static bool told_in_short(const struct step_view *view, const struct heap *heap,
                          const struct action *action)
{
    return telling_of(heap)
               ->action(&view->booklet->wording, heap, action)
               .again[0] != '\0';
}

/* All moves are shown where a technique comes up first, or is told in full
 * again; later steps show less and point back. The other way to do it comes
 * last, with letters that go on. */
void technique_rows(const struct step_view *view, struct rows *rows)
{
    const struct wording *w = &view->booklet->wording;
    const struct heap *heap = view->heap;
    const bool full = view->told_in == view->step->number &&
                      heap->technique != TECHNIQUE_BORDER;
    const double scale = scale_for(view, heap, 3);
    struct frame_list list = {.items = {0}}, other = {.items = {0}};
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        if (full && (i == 0 || !told_in_short(view, heap, action)))
            add_moves(view, heap, action, scale, &list);
        else
            add_again(view, heap, action, scale, &list);
    }
    add_result(view, heap, scale, &list);
    add_rows(view, &list, 'a', rows);
    if (!full)
        return;
    add_other(view, heap, scale, &other);
    if (other.items.count == 0)
        return;
    struct box * or = box_text(&view->booklet->flow.canvas,
                               say(w->arena, w->phrases, "corner.or", NULL),
                               style_bold(), view->booklet->flow.canvas.width);
    *LIST_ADD(w->arena, &rows->items) = or ;
    add_rows(view, &other, (char)('a' + (int)list.items.count), rows);
}
