/* Frames of what is joined: the parts apart, with their turns and the numbers
 * of their seams, and the result with its pressing. Read next: exploded.c. */
#include <math.h>

#include "buffer.h"
#include "exploded.h"
#include "figure_parts.h"
#include "steps.h"
#include "structure.h"

/* Between the edges of parts that lie apart: a seam's number has room. */
#define PART_GAP MM(5.5)

struct joined {
    const struct step_view *view;
    struct exploded exploded;
    struct figure_part *parts;
};

/* A gap on paper holds both seam allowances and some air, so that parts which
 * are drawn with their allowances do not touch. */
static struct figure laid_figure(const struct joined *joined, double scale)
{
    const struct booklet *booklet = joined->view->booklet;
    const double seams =
        2.0 * rational_double(booklet->design->pattern->seam) * scale;
    return (struct figure){.canvas = &booklet->flow.canvas,
                           .wording = &booklet->wording,
                           .colorway = booklet->plan->colorway,
                           .parts = joined->parts,
                           .part_count = joined->exploded.parts.count,
                           .scale = scale,
                           .gap = (PART_GAP + seams) / GAP_PARTS,
                           .shade = SHADE_WORK};
}

/* What scales with the cloth, and what does not. */
static double scale_in(const struct joined *joined, double width, double height)
{
    struct figure unit = laid_figure(joined, 1.0);
    unit.gap -= PART_GAP / GAP_PARTS;
    const struct figure_size bare = figure_size(&unit, &joined->exploded.laid);
    const struct figure_size gaps = {
        joined->exploded.gaps_x * PART_GAP / GAP_PARTS,
        joined->exploded.gaps_y * PART_GAP / GAP_PARTS};
    return step_scale(joined->view->booklet, bare, gaps, width, height);
}

/* The scale at which the sewn unit fits, with room for its measures. */
static double result_scale(const struct joined *joined, double width,
                           double height)
{
    struct figure unit = laid_figure(joined, 1.0);
    const struct figure_size margins = {RESULT_MARGIN, RESULT_MARGIN};
    return step_scale(joined->view->booklet,
                      figure_size(&unit, &joined->exploded.sewn), margins,
                      width, height);
}

/* ---- the parts apart ---- */

/* Points of the whole become points of the box that the figure was drawn in;
 * `origin` is the upper left corner of all that is drawn. */
static struct point in_box(const struct figure *figure, struct extent origin,
                           struct vertex at, int gap_x, int gap_y)
{
    const struct point p = shown_point(figure, at, gap_x, gap_y);
    return (struct point){p.x - origin.left, p.y - origin.top};
}

/* A cut piece that lies sideways shows it by its shape; a sewn part has a mark
 * for its turn, unless it looks the same. */
static unsigned shown_turn(const struct booklet *booklet,
                           const struct figure_part *part)
{
    const struct heap *heap = &booklet->quilt->heaps.items[part->heap];
    return heap->technique == TECHNIQUE_CUT ? 0 : part->turn % heap->symmetry;
}

/* A face's middle, and how far it is from the nearest edge. */
static double face_room(const struct face *face, struct vertex *middle)
{
    struct rational x = rational_whole(0), y = rational_whole(0);
    for (size_t i = 0; i < face->count; i++) {
        x = rational_add(x, face->points[i].x);
        y = rational_add(y, face->points[i].y);
    }
    const struct rational count = rational_whole((int64_t)face->count);
    *middle = (struct vertex){rational_div(x, count), rational_div(y, count)};
    const double mx = rational_double(middle->x),
                 my = rational_double(middle->y);
    double room = HUGE_VAL;
    for (size_t i = 0; i < face->count; i++) {
        const struct vertex a = face->points[i],
                            b = face->points[(i + 1) % face->count];
        const double ax = rational_double(a.x), ay = rational_double(a.y);
        const double dx = rational_double(b.x) - ax,
                     dy = rational_double(b.y) - ay;
        room = fmin(room, fabs(dx * (my - ay) - dy * (mx - ax)) /
                              fmax(hypot(dx, dy), 1e-9));
    }
    return room;
}

/* The mark lies on the largest plain patch of its part, not on the small one
 * that tells how it lies. One walk over all faces, as there may be many. */
static void place_marks(struct joined *joined)
{
    const struct state *laid = &joined->exploded.laid;
    double *most = ARENA_ARRAY(joined->view->booklet->wording.arena, double,
                               joined->exploded.parts.count + 1);
    for (size_t i = 0; i < joined->exploded.parts.count; i++)
        joined->parts[i].mark = joined->exploded.parts.items[i].middle;
    for (size_t i = 0; i < laid->faces.count; i++) {
        const int part = laid->faces.items[i].part;
        struct vertex middle;
        if (part < 0 || !joined->parts[part].marked)
            continue;
        const double room = face_room(&laid->faces.items[i].face, &middle);
        if (room > most[part] + 1e-6) {
            most[part] = room;
            joined->parts[part].mark = middle;
        }
    }
}

static void mark_turns(const struct joined *joined, const struct figure *figure,
                       struct box *box, struct extent origin)
{
    const struct exploded *e = &joined->exploded;
    for (size_t i = 0; i < e->parts.count; i++) {
        const struct exploded_part *part = &e->parts.items[i];
        const unsigned turn = shown_turn(joined->view->booklet, &part->part);
        if (turn == 0)
            continue;
        const struct point p = in_box(figure, origin, joined->parts[i].mark,
                                      part->gap_x, part->gap_y);
        draw_turned(figure->canvas, box, p.x, p.y, turn);
    }
}

/* A single seam needs no number. */
static void number_seams(const struct joined *joined,
                         const struct figure *figure, struct box *box,
                         struct extent origin)
{
    const struct exploded *e = &joined->exploded;
    for (size_t i = 0; i < e->seams.count && e->seams.count > 1; i++) {
        const struct exploded_seam *seam = &e->seams.items[i];
        const struct point p =
            in_box(figure, origin, seam->middle, seam->gap_x, seam->gap_y);
        draw_number(figure->canvas, box, p.x, p.y, seam->number);
    }
}

/* Marks and numbers are put on last, as they have to lie on the cloth. */
static struct box *laid_box(const struct joined *joined, double scale)
{
    const struct figure figure = laid_figure(joined, scale);
    const struct extent origin = state_extent(&figure, &joined->exploded.laid);
    struct box *box = figure_state(&figure, &joined->exploded.laid);
    mark_turns(joined, &figure, box, origin);
    number_seams(joined, &figure, box, origin);
    return box;
}

/* Without labels: what is sewn is one part, with its measures beside it. */
static struct box *sewn_box(const struct joined *joined, double scale)
{
    struct figure figure = laid_figure(joined, scale);
    figure.parts = NULL;
    figure.shade = SHADE_DONE;
    return measured_cloth(joined->view->booklet, joined->view->heap,
                          figure_state(&figure, &joined->exploded.sewn));
}

/* ---- words ---- */

/* Both 0 for open, so open seams are alike too. */
static bool same_way(const struct exploded_seam *a,
                     const struct exploded_seam *b)
{
    return a->x == b->x && a->y == b->y;
}

/* Do seams of one number lie there twice, turned against each other? */
static bool turns_against(struct arena *arena, const struct exploded *e)
{
    const struct exploded_seam **first =
        ARENA_ARRAY(arena, const struct exploded_seam *, e->seams.count + 1);
    for (size_t i = 0; i < e->seams.count; i++) {
        const struct exploded_seam *seam = &e->seams.items[i];
        if (first[seam->number] == NULL)
            first[seam->number] = seam;
        else if (!same_way(first[seam->number], seam))
            return true;
    }
    return false;
}

static const char *laid_words(const struct joined *joined)
{
    const struct wording *w = &joined->view->booklet->wording;
    const struct exploded *e = &joined->exploded;
    bool turned = false;
    for (size_t i = 0; i < e->parts.count; i++)
        turned |=
            shown_turn(joined->view->booklet, &e->parts.items[i].part) != 0;
    const char *text =
        turned ? say(w->arena, w->phrases, "step.turned", NULL) : "";
    if (turns_against(w->arena, e))
        text =
            word_then(w, text, say(w->arena, w->phrases, "step.alike", NULL));
    return word_then(
        w, text,
        say(w->arena, w->phrases,
            e->seams.count > 1 ? "step.seams-in-order" : "step.one-seam",
            NULL));
}

/* Of a grid, rows go to and fro. */
static const char *many_ways(const struct joined *joined)
{
    const struct wording *w = &joined->view->booklet->wording;
    const struct heap *heap = joined->view->heap;
    if (joined->view->step->heaps.count > 1 || heap->actions.count != 2)
        return say(w->arena, w->phrases, "step.press-arrows", NULL);
    return word_then(w, word_press(w, heap, &heap->actions.items[0]),
                     word_press(w, heap, &heap->actions.items[1]));
}

/* requires: a seam along one axis; a join has no others. */
static const char *way_key(const struct exploded_seam *seam)
{
    return seam->x > 0   ? "press.way-right"
           : seam->x < 0 ? "press.way-left"
           : seam->y > 0 ? "press.way-down"
           : seam->y < 0 ? "press.way-up"
                         : "press.way-open";
}

/* "1\u20132, 5": the seams that are pressed as the one at `first` is, in runs.
 * ensures: false where there are too many to be told. */
static bool seams_alike(struct arena *arena, const struct exploded_seam *order,
                        size_t seams, size_t first, const char **told)
{
    enum { RUNS = 5 };
    struct buffer text = buffer_in(arena);
    size_t runs = 0;
    for (size_t from = first, to; from < seams; from = to) {
        to = from + 1;
        if (!same_way(&order[first], &order[from]))
            continue;
        while (to < seams && same_way(&order[first], &order[to]))
            to++;
        buffer_printf(&text, "%s%zu", runs++ > 0 ? ", " : "", from + 1);
        if (to > from + 1) /* no line ends behind the dash */
            buffer_printf(&text, "\u2013\u2060%zu", to);
    }
    *told = buffer_string(&text);
    return runs <= RUNS;
}

/* Was the seam told with one before it? */
static bool told_before(const struct exploded_seam *order, size_t seam)
{
    for (size_t i = 0; i < seam; i++)
        if (same_way(&order[i], &order[seam]))
            return true;
    return false;
}

/* Seams by their number. ensures: how many there are. */
static size_t seams_by_number(const struct exploded *e,
                              struct exploded_seam *order)
{
    size_t seams = 0;
    for (size_t i = 0; i < e->seams.count; i++) {
        order[e->seams.items[i].number - 1] = e->seams.items[i];
        if (e->seams.items[i].number > seams)
            seams = e->seams.items[i].number;
    }
    return seams;
}

/* "Press seams 1\u20132, 5\u20136 right; 3\u20134 left." Where there are too
 * many ways to be told, the arrows say it. */
static const char *press_words(const struct joined *joined)
{
    const struct wording *w = &joined->view->booklet->wording;
    const struct exploded *e = &joined->exploded;
    if (turns_against(w->arena, e))
        return say(w->arena, w->phrases, "step.press-arrows", NULL);
    struct exploded_seam *order =
        ARENA_ARRAY(w->arena, struct exploded_seam, e->seams.count + 1);
    const size_t seams = seams_by_number(e, order);
    struct buffer text = buffer_in(w->arena);
    size_t ways = 0;
    for (size_t i = 0; i < seams; i++) {
        if (told_before(order, i))
            continue;
        const char *numbers;
        if (!seams_alike(w->arena, order, seams, i, &numbers))
            return many_ways(joined);
        buffer_printf(
            &text, "%s%s", ways++ > 0 ? "; " : "",
            say(w->arena, w->phrases, "press.group", "seams", numbers, "way",
                say(w->arena, w->phrases, way_key(&order[i]), NULL), NULL));
    }
    if (ways > 1)
        return say(w->arena, w->phrases, "press.all", "ways",
                   buffer_string(&text), NULL);
    return seams == 0
               ? ""
               : say(w->arena, w->phrases,
                     seams == 1 ? "press.the-seam" : "press.every", "way",
                     say(w->arena, w->phrases, way_key(&order[0]), NULL), NULL);
}

static const char *sewn_words(const struct joined *joined)
{
    const struct wording *w = &joined->view->booklet->wording;
    return word_then(w, press_words(joined),
                     word_measure(w, joined->view->heap));
}

/* ---- frames ---- */

static struct framed laid_frame(const struct joined *joined, double scale,
                                int columns)
{
    const struct wording *w = &joined->view->booklet->wording;
    return (struct framed){.figure = laid_box(joined, scale),
                           .caption = laid_words(joined),
                           .told =
                               say(w->arena, w->phrases, "caption.lay", NULL),
                           .columns = columns};
}

static struct framed sewn_frame(const struct joined *joined, double scale,
                                int columns)
{
    return (struct framed){
        .figure = sewn_box(joined, scale),
        .caption = sewn_words(joined),
        .told = result_told(joined->view->booklet, joined->view->heap),
        .columns = columns,
        .result = true};
}

static void add_row(const struct joined *joined, struct framed *frames,
                    size_t count, char letter, struct rows *rows)
{
    struct booklet *booklet = joined->view->booklet;
    struct box *row = frames_row(booklet, frames, count, letter);
    name_step_figure(booklet, joined->view->heap, row);
    *LIST_ADD(booklet->wording.arena, &rows->items) = row;
}

/* Both at one scale, side by side, in so many columns each. ensures: false
 * where they would be smaller than asked. */
static bool add_beside(const struct joined *joined, int laid, int sewn,
                       double height, double least, struct rows *rows)
{
    const double scale =
        fmin(scale_in(joined, view_room(joined->view, laid, false), height),
             result_scale(joined, view_room(joined->view, sewn, true), height));
    if (scale < least)
        return false;
    struct framed frames[2] = {laid_frame(joined, scale, laid),
                               sewn_frame(joined, scale, sewn)};
    add_row(joined, frames, 2, 'a', rows);
    return true;
}

/* The parts over the whole measure, the result below them. */
static void add_below(const struct joined *joined, int columns,
                      double laid_high, double sewn_high, struct rows *rows)
{
    const double scale =
        scale_in(joined, view_room(joined->view, columns, false), laid_high);
    struct framed laid = laid_frame(joined, scale, columns);
    add_row(joined, &laid, 1, 'a', rows);
    const int wide = columns > 6 ? 6 : columns;
    const double smaller =
        fmin(scale, result_scale(joined, frame_room(wide, true), sewn_high));
    struct framed sewn = sewn_frame(joined, smaller, wide);
    add_row(joined, &sewn, 1, 'b', rows);
}

/* Is each part large enough to be told from its neighbors: 4 mm of cloth that
 * was cut, 6 mm of what is sewn, 8.5 mm where a turn mark lies on it? */
static bool is_legible(const struct joined *joined, double scale)
{
    const struct sewn_quilt *quilt = joined->view->booklet->quilt;
    for (size_t i = 0; i < joined->exploded.parts.count; i++) {
        const struct heap *part =
            &quilt->heaps.items[joined->exploded.parts.items[i].part.heap];
        const double side =
            fmin(rational_double(part->width), rational_double(part->height)) *
            scale;
        if (side < (joined->parts[i].marked            ? MM(8.5)
                    : part->technique == TECHNIQUE_CUT ? MM(4.0)
                                                       : MM(6.0)))
            return false;
    }
    return true;
}

/* Parts as large as can be, the result drawn smaller beside them. */
static bool add_smaller(const struct joined *joined, double height,
                        struct rows *rows)
{
    const double scale =
        scale_in(joined, view_room(joined->view, 8, false), height);
    if (!is_legible(joined, scale))
        return false;
    struct framed frames[2] = {
        laid_frame(joined, scale, 8),
        sewn_frame(
            joined,
            fmin(scale, result_scale(joined, frame_room(4, true), height)), 4)};
    add_row(joined, frames, 2, 'a', rows);
    return true;
}

/* Points for an inch, as the mock of a scale: 4 mm. */
static double least_scale(const struct booklet *booklet)
{
    return booklet->design->pattern->units == UNIT_CM ? MM(4.0) / 2.54
                                                      : MM(4.0);
}

void join_rows(const struct step_view *view, struct rows *rows)
{
    struct booklet *booklet = view->booklet;
    struct arena *arena = booklet->wording.arena;
    struct joined joined = {view, explode(arena, booklet->quilt, view->step),
                            NULL};
    const size_t count = joined.exploded.parts.count;
    joined.parts = ARENA_ARRAY(arena, struct figure_part, count + 1);
    for (size_t i = 0; i < count; i++) {
        joined.parts[i] = joined.exploded.parts.items[i].part;
        joined.parts[i].marked = shown_turn(booklet, &joined.parts[i]) != 0;
    }
    place_marks(&joined);
    const double least = least_scale(booklet);
    const double size = view->size;
    /* Its borders are often on the same page. */
    const bool is_top = view->step->heap == booklet->quilt->top;
    if (view->columns == 6) {
        if (!add_beside(&joined, 3, 3, MM(56.0) * size, least * 2.5, rows))
            add_below(&joined, 6, MM(60.0) * size, MM(60.0) * size, rows);
        return;
    }
    /* A page of its own shows the quilt over the whole measure. */
    if (is_top && size > 1.2 && count > 2) {
        add_below(&joined, 12, MM(112.0), MM(58.0), rows);
        return;
    }
    if (!add_beside(&joined, 6, 6, MM(66.0) * size, least * 1.7 * size, rows) &&
        !add_smaller(&joined, (is_top ? MM(78.0) : MM(118.0)) * size, rows))
        add_below(&joined, 12, MM(126.0) * size, MM(60.0) * size, rows);
}
