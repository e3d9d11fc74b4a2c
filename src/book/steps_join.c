/* Frames of what is joined: the parts apart, with their turns and the numbers
 * of their seams, and the result with its pressing. Read next: figure.c. */
#include <math.h>

#include "figure_parts.h"
#include "steps.h"

/* Between the edges of parts that lie apart: a seam's number has room. */
#define PART_GAP MM(5.5)

struct joined {
    const struct step_view *view;
    const struct exploded *exploded;
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
                           .part_count = joined->exploded->parts.count,
                           .scale = scale,
                           .gap = (PART_GAP + seams) / GAP_PARTS,
                           .shade = SHADE_WORK};
}

/* What scales with the cloth, and what does not. */
static double scale_in(const struct joined *joined, double width, double height)
{
    struct figure unit = laid_figure(joined, 1.0);
    unit.gap -= PART_GAP / GAP_PARTS;
    const struct figure_size bare = figure_size(&unit, &joined->exploded->laid);
    const struct figure_size gaps = {
        joined->exploded->gaps_x * PART_GAP / GAP_PARTS,
        joined->exploded->gaps_y * PART_GAP / GAP_PARTS};
    return step_scale(joined->view->booklet, bare, gaps, width, height);
}

/* The scale at which the sewn unit fits, with room for its measures. */
static double result_scale(const struct joined *joined, double width,
                           double height)
{
    struct figure unit = laid_figure(joined, 1.0);
    const struct figure_size margins = {RESULT_MARGIN, RESULT_MARGIN};
    return step_scale(joined->view->booklet,
                      figure_size(&unit, &joined->exploded->sewn), margins,
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
    const struct state *laid = &joined->exploded->laid;
    double *most = ARENA_ARRAY(joined->view->booklet->wording.arena, double,
                               joined->exploded->parts.count + 1);
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

/* Under this side a ring would hide most of a part, and what shows its turn is
 * often in its middle: a small ring then stands in its upper right corner, past
 * the middles of its sides, where numbers of seams are. */
#define SMALL_PART MM(12.5)

static void mark_small(const struct joined *joined, const struct figure *figure,
                       struct box *box, struct point middle, size_t part,
                       unsigned turn)
{
    const struct heap *heap =
        &joined->view->booklet->quilt->heaps
             .items[joined->exploded->parts.items[part].heap];
    const bool sideways = joined->exploded->parts.items[part].turn % 2 == 1;
    const double across =
        rational_double(sideways ? heap->height : heap->width) * figure->scale;
    const double down =
        rational_double(sideways ? heap->width : heap->height) * figure->scale;
    draw_turned(figure->canvas, box, middle.x + 0.3 * across,
                middle.y - 0.4 * down, TURN_SMALL, turn);
}

/* Of fewer patches a ring leaves enough to be seen. */
enum { BLOCK_FACES = 12 };

static bool is_small(const struct joined *joined, double scale, size_t part)
{
    const struct heap *heap =
        &joined->view->booklet->quilt->heaps
             .items[joined->exploded->parts.items[part].heap];
    return heap->cloth->faces.count > BLOCK_FACES &&
           rational_double(rational_min(heap->width, heap->height)) * scale <
               SMALL_PART;
}

static void mark_turns(const struct joined *joined, const struct figure *figure,
                       struct box *box, struct extent origin)
{
    const struct exploded *e = joined->exploded;
    for (size_t i = 0; i < e->parts.count; i++) {
        const struct exploded_part *part = &e->parts.items[i];
        const unsigned turn = shown_turn(joined->view->booklet->quilt, part);
        if (turn == 0)
            continue;
        const bool small = is_small(joined, figure->scale, i);
        const struct point p =
            in_box(figure, origin, small ? part->middle : joined->parts[i].mark,
                   part->gap_x, part->gap_y);
        if (small)
            mark_small(joined, figure, box, p, i, turn);
        else
            draw_turned(figure->canvas, box, p.x, p.y, TURN_RING, turn);
    }
}

/* A single seam needs no number. */
static void number_seams(const struct joined *joined,
                         const struct figure *figure, struct box *box,
                         struct extent origin)
{
    const struct exploded *e = joined->exploded;
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
    const struct extent origin = state_extent(&figure, &joined->exploded->laid);
    struct box *box = figure_state(&figure, &joined->exploded->laid);
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
    figure.bare = true;
    return measured_cloth(joined->view->booklet, joined->view->heap,
                          figure_state(&figure, &joined->exploded->sewn));
}

/* ---- frames ---- */

/* The first of the two. */
static struct framed laid_frame(const struct joined *joined, double scale,
                                int columns)
{
    return framed_as(&joined->view->told->frames.items[0],
                     laid_box(joined, scale), columns);
}

static struct framed sewn_frame(const struct joined *joined, double scale,
                                int columns)
{
    return framed_as(&joined->view->told->frames.items[1],
                     sewn_box(joined, scale), columns);
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
    /* A long row is as small as the way across makes it. */
    const struct heap *made = joined->view->heap;
    const bool is_long =
        rational_compare(made->width, rational_times(made->height, 5)) > 0;
    const int wide = is_long || columns < 6 ? columns : 6;
    const double smaller =
        fmin(scale, result_scale(joined, frame_room(wide, true), sewn_high));
    struct framed sewn = sewn_frame(joined, smaller, wide);
    add_row(joined, &sewn, 1, 'b', rows);
}

/* Is each part large enough to be told from its neighbors: 4 mm of cloth that
 * was cut, 6 mm of what is sewn, 8.5 mm where a turn mark lies on it, and 10 mm
 * where the turn is seen in one of many patches? */
static bool is_legible(const struct joined *joined, double scale)
{
    const struct sewn_quilt *quilt = joined->view->booklet->quilt;
    for (size_t i = 0; i < joined->exploded->parts.count; i++) {
        const struct heap *part =
            &quilt->heaps.items[joined->exploded->parts.items[i].heap];
        const double side =
            fmin(rational_double(part->width), rational_double(part->height)) *
            scale;
        const bool is_fine = part->cloth->faces.count > BLOCK_FACES;
        if (side < (joined->parts[i].marked && is_fine ? MM(10.0)
                    : joined->parts[i].marked          ? MM(8.5)
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
    struct joined joined = {view, view->told->frames.items[0].exploded, NULL};
    const size_t count = joined.exploded->parts.count;
    joined.parts = ARENA_ARRAY(arena, struct figure_part, count + 1);
    for (size_t i = 0; i < count; i++) {
        const struct exploded_part *part = &joined.exploded->parts.items[i];
        joined.parts[i] = (struct figure_part){
            part->heap, part->turn, shown_turn(booklet->quilt, part) != 0,
            part->middle};
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
        !(is_top && add_smaller(&joined, MM(78.0) * size, rows)) &&
        !add_smaller(&joined, MM(118.0) * size, rows))
        add_below(&joined, 12, MM(126.0) * size, MM(60.0) * size, rows);
}
