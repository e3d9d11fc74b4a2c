/* Frames of a technique. Every frame of a step has one scale. Read next:
 * steps_join.c. */
#include <math.h>

#include "steps.h"

/* The state with those marks alone that the figure has come to. Folds are
 * always shown, as they lie under whatever is done next. */
static struct state with_marks(struct arena *arena,
                               const struct told_figure *told)
{
    struct state state = *told->state;
    state.marks.items = NULL;
    state.marks.count = state.marks.capacity = 0;
    /* The flap turns when all is sewn. */
    if (!told->cut)
        state.turns.count = 0;
    for (size_t i = 0; i < told->state->marks.count; i++) {
        const struct mark mark = told->state->marks.items[i];
        if ((mark.kind == MARK_DRAWN && told->drawn) ||
            (mark.kind == MARK_SEWN && told->sewn) ||
            (mark.kind == MARK_CUT && told->cut) || mark.kind == MARK_FOLD ||
            mark.kind == MARK_DOT)
            *LIST_ADD(arena, &state.marks) = mark;
    }
    return state;
}

/* ---- scale ---- */

/* Of each side by itself, so that one scale serves both figures. */
static struct figure_size larger(struct figure_size a, struct figure_size b)
{
    return (struct figure_size){fmax(a.width, b.width),
                                fmax(a.height, b.height)};
}

/* What is put together in many actions has small parts, and some of it on the
 * way: its figures are larger, and what is not sewn yet lies apart. */
static bool takes_long(const struct heap *heap)
{
    enum { MANY = 5 };
    return heap->actions.count >= MANY;
}

/* Without labels and shade, which differ between shots and result. Parts that
 * lie apart need room for their allowances. */
static struct figure figure_at(const struct step_view *view, double scale)
{
    const double seams =
        2.0 * rational_double(view->booklet->design->pattern->seam) * scale;
    return (struct figure){.canvas = &view->booklet->flow.canvas,
                           .wording = &view->booklet->wording,
                           .colorway = view->booklet->plan->colorway,
                           .scale = scale,
                           .gap = heap_has_cells(view->heap) ||
                                          takes_long(view->heap)
                                      ? seams + MM(0.4)
                                      : 0.0};
}

/* The room of one figure. Where one frame shows a corner of the whole quilt,
 * the others show all of it, and what is sewn to it is narrow; what is sewn in
 * many actions has small parts, too: they are higher. */
static struct figure_size room_of(const struct step_view *view, int columns,
                                  bool result)
{
    enum { HIGH = 40, HIGHER = 54 };
    bool close = false;
    for (size_t i = 0; i < view->told->frames.count; i++)
        close |= view->told->frames.items[i].close;
    const bool high =
        close || takes_long(view->heap) || heap_has_cells(view->heap);
    /* Smaller, a line that is drawn and its label would lie on each other. */
    const double size = fmax(view->size, 0.7);
    return (struct figure_size){frame_room(columns, result) * fmin(size, 1.0),
                                (high ? MM(HIGHER) : MM(HIGH)) * size};
}

/* What is cut before and what is trimmed, where a frame shows it: they have no
 * measures beside them. */
static struct figure_size unmeasured(const struct step_view *view,
                                     const struct figure *unit,
                                     const struct heap *heap)
{
    struct figure_size most = {0.0, 0.0};
    for (size_t i = 0; i < view->told->frames.count; i++) {
        const struct state *state = view->told->frames.items[i].state;
        for (size_t k = 0; k < heap->actions.count; k++)
            if (state == &heap->actions.items[k].parted ||
                state == &heap->actions.items[k].opened)
                most = larger(most, figure_size(unit, state));
    }
    return most;
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
    const struct figure_size bare = unmeasured(view, &unit, heap);
    const struct figure_size none = {0.0, 0.0};
    const struct figure_size sizes = {RESULT_MARGIN, RESULT_MARGIN};
    const struct figure_size room = room_of(view, columns, true);
    const struct figure_size wide = room_of(view, columns, false);
    const double scale =
        step_scale(view->booklet, most, sizes, room.width, room.height);
    return bare.width == 0.0 ? scale
                             : fmin(scale, step_scale(view->booklet, bare, none,
                                                      wide.width, wide.height));
}

/* ---- frames ---- */

/* Rows of a setting on point. */
static bool lies_aslant(const struct heap *heap)
{
    return heap->inputs.count > 0 && heap->inputs.items[0].slanted;
}

/* How parts lie before the sewing. */
static struct box *draw_move(const struct step_view *view,
                             const struct told_figure *told, double scale)
{
    struct arena *arena = view->booklet->wording.arena;
    const struct heap *heap = view->heap;
    const struct state state = with_marks(arena, told);
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
    struct box *box = figure_state(&figure, &state);
    if (told->wide && heap->technique == TECHNIQUE_TRIANGLES)
        return number_level_rows(&figure, box, &state, heap);
    return told->wide && lies_aslant(heap)
               ? number_rows(&figure, box, &state, heap)
               : box;
}

/* What shows a part of the work fills its own frame. */
static double close_scale(const struct step_view *view,
                          const struct told_figure *told)
{
    const struct figure unit = figure_at(view, 1.0);
    const struct figure_size room = room_of(view, 3, false);
    return step_scale(view->booklet, figure_size(&unit, told->state),
                      (struct figure_size){0.0, 0.0}, room.width, room.height);
}

/* Work in many actions has no measures beside it, so that it may be larger than
 * its result: as large as fits what needs most room. */
static double work_scale(const struct step_view *view)
{
    const struct figure unit = figure_at(view, 1.0);
    const struct figure_size room = room_of(view, 3, false);
    struct figure_size most = unmeasured(view, &unit, view->heap);
    for (size_t i = 0; i < view->heap->actions.count; i++)
        most = larger(most,
                      figure_size(&unit, &view->heap->actions.items[i].before));
    return step_scale(view->booklet, most, (struct figure_size){0.0, 0.0},
                      room.width, room.height);
}

static struct box *draw_frame(const struct step_view *view,
                              const struct told_figure *told, double scale)
{
    if (told->close)
        scale = close_scale(view, told);
    else if (takes_long(view->heap) && !told->result)
        scale = work_scale(view);
    const struct figure figure = figure_at(view, scale);
    return told->drawing == DRAWING_MOVE
               ? draw_move(view, told, scale)
               : measured_cloth(view->booklet, view->heap,
                                figure_state(&figure, told->state));
}

/* Corners that are mitred: what is told of the first two frames is long, and
 * stands in half the measure each. */
static bool begins_with_two(const struct step_view *view,
                            const struct told_figure *told, size_t frames)
{
    enum { MITRED = 5 };
    return view->columns == 12 && frames == MITRED && told[2].close;
}

/* From one frame on, so many in a row, each so many columns wide. */
static void add_row(const struct step_view *view,
                    const struct told_figure *told, size_t count, int columns,
                    double scale, char letter, struct rows *rows)
{
    enum { MOST = 4 };
    struct booklet *booklet = view->booklet;
    struct framed framed[MOST];
    for (size_t k = 0; k < count; k++)
        framed[k] =
            framed_as(&told[k], draw_frame(view, &told[k], scale), columns);
    struct box *row = frames_row(booklet, framed, count, letter);
    name_step_figure(booklet, view->heap, row);
    *LIST_ADD(booklet->wording.arena, &rows->items) = row;
}

/* Rows of at most four frames, or two in half the page, as even as can be; a
 * row of two or three has wider ones, where no other has four. */
static void add_rows(const struct step_view *view,
                     const struct told_figure *told, size_t frames,
                     double scale, char letter, struct rows *rows)
{
    enum { MOST = 4, HALF = 6 };
    const size_t most = view->columns == 12 ? MOST : 2;
    const size_t lines = (frames + most - 1) / most;
    const size_t longest = (frames + lines - 1) / lines;
    const int columns = view->columns == 6 || longest > 3
                            ? 3
                            : 4; /* a frame of two would be too wide */
    size_t i = 0;
    if (begins_with_two(view, told, frames)) {
        add_row(view, told, 2, HALF, scale, letter, rows);
        i = 2;
    }
    while (i < frames) {
        const size_t left = frames - i;
        const size_t count = left < longest ? left : longest;
        add_row(view, &told[i], count, columns, scale,
                frames == 1 ? 0 : (char)(letter + (int)i), rows);
        i += count;
    }
}

/* A frame of many parts by itself, as large as the measure and a third of the
 * page allow. */
static void add_wide(const struct step_view *view,
                     const struct told_figure *told, struct rows *rows)
{
    const struct figure unit = figure_at(view, 1.0);
    const struct figure_size none = {0.0, 0.0};
    const double scale = step_scale(
        view->booklet, figure_size(&unit, told->state), none,
        view_room(view, view->columns, false), MM(118.0) * view->size);
    struct framed framed =
        framed_as(told, draw_frame(view, told, scale), view->columns);
    struct box *row = frames_row(view->booklet, &framed, 1, 'a');
    name_step_figure(view->booklet, view->heap, row);
    *LIST_ADD(view->booklet->wording.arena, &rows->items) = row;
}

/* The other way to do it comes last, with letters that go on. */
void technique_rows(const struct step_view *view, struct rows *rows)
{
    const struct told_work *told = view->told;
    const size_t frames = told->frames.count;
    const size_t wide = told->frames.items[0].wide ? 1 : 0;
    const double scale = scale_for(view, view->heap, wide > 0 ? 4 : 3);
    if (wide > 0)
        add_wide(view, &told->frames.items[0], rows);
    add_rows(view, told->frames.items + wide, frames - wide, scale,
             (char)('a' + (int)wide), rows);
    if (told->others.count == 0)
        return;
    *LIST_ADD(view->booklet->wording.arena, &rows->items) =
        box_text(&view->booklet->flow.canvas, told->other, style_bold(),
                 view->booklet->flow.canvas.width);
    add_rows(view, told->others.items, told->others.count, scale,
             (char)('a' + (int)frames), rows);
}
