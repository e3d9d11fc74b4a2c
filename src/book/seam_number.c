/* Numbers of rows that lie aslant; and of seams, in the order in which the
 * actions sew them: between parts
 * that lie apart, or beside a cloth that is whole already. Where a seam is
 * comes from its pressing mark, which lies on its middle. */
#include <math.h>

#include "figure_parts.h"

/* A circle, wider where the number needs it; white, so that it is read on any
 * ground. Its corners are too many to be seen at this size. */
void draw_number(const struct canvas *canvas, struct box *box, double x,
                 double y, size_t number)
{
    enum { CORNERS = 24 };
    const char *text = arena_printf(canvas->arena, "%zu", number);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    const double radius = SEAM_NUMBER / 2.0;
    const double wide = fmax(radius, extent.width / 2.0 + 2.0);
    struct point points[CORNERS];
    for (int i = 0; i < CORNERS; i++) {
        const double turn = 2.0 * acos(-1.0) * i / CORNERS;
        points[i] =
            (struct point){x + wide * cos(turn), y + radius * sin(turn)};
    }
    struct path_item ring = outline_wide();
    ring.role = ROLE_DRAWING;
    ring.filled = true;
    ring.fill = white;
    box_polygon(canvas, box, points, CORNERS, ring);
    box_label(canvas, box, x, y - extent.height / 2.0, text, style, 0.0, false);
}

/* In the gap that a seam will close. In a row the parts lie across, and the
 * rows of a grid below each other; in a column they lie down. */
void number_gaps(const struct figure *figure, struct box *box,
                 const struct action *action, size_t first)
{
    const struct extent origin = state_extent(figure, &action->before);
    const bool row = action->operation->laid == LAID_ACROSS;
    size_t place = 0;
    int line = 0;
    for (size_t i = 0; i < action->after.presses.count; i++) {
        const struct press_mark *mark = &action->after.presses.items[i];
        if (row && mark->gap_y != line)
            place = 0; /* the next row begins */
        line = mark->gap_y;
        struct point at = shown_point(figure, mark->at, 0, 0);
        const double between = ((double)place + 0.5) * figure->gap;
        at.x += row ? between : 0.0;
        at.y += row ? line * figure->gap : between;
        draw_number(figure->canvas, box, at.x - origin.left, at.y - origin.top,
                    first + i);
        place++;
    }
}

/* Beside the left end of each seam of a column. */
void number_ends(const struct figure *figure, struct box *box,
                 const struct action *action, size_t first)
{
    const struct extent origin = state_extent(figure, &action->after);
    for (size_t i = 0; i < action->after.presses.count; i++) {
        const struct point at =
            shown_point(figure, action->after.presses.items[i].at, 0, 0);
        draw_number(figure->canvas, box, -SEAM_NUMBER / 2.0 - 2.0,
                    at.y - origin.top, first + i);
    }
}

/* ---- numbers of rows ---- */

/* Words about pressing and the order of sewing count the rows, and a row that
 * lies aslant has no side of the page that it begins at: so its number stands
 * before its upper left end, outside of the cloth, where no label of a part and
 * no number of a seam is. */

/* What a part covers, in the box of its state, and how near it comes to the
 * upper left: the least sum of both coordinates. */
struct row_end {
    struct extent extent;
    double nearest;
};

static struct row_end row_end(const struct figure *figure,
                              const struct state *state, int part)
{
    const struct extent origin = state_extent(figure, state);
    struct row_end end = {{HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL}, HUGE_VAL};
    struct extent *extent = &end.extent;
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *shown = &state->faces.items[i];
        for (size_t k = 0; shown->part == part && k < shown->face.count; k++) {
            struct point at = shown_point(figure, shown->face.points[k],
                                          shown->gap_x, shown->gap_y);
            at.x -= origin.left;
            at.y -= origin.top;
            extent->left = fmin(extent->left, at.x);
            extent->right = fmax(extent->right, at.x);
            extent->top = fmin(extent->top, at.y);
            extent->bottom = fmax(extent->bottom, at.y);
            end.nearest = fmin(end.nearest, at.x + at.y);
        }
    }
    return end;
}

/* Outside the first part of a row: beside or above the long edge of a triangle,
 * else before the upper left edge of what stands on its point. */
static struct point before_row(struct row_end end)
{
    const struct extent first = end.extent;
    const double width = first.right - first.left;
    const double height = first.bottom - first.top;
    const double x = (first.left + first.right) / 2.0;
    const double y = (first.top + first.bottom) / 2.0;
    const double away = ROW_NUMBER / 2.0;
    if (width < 0.7 * height)
        return (struct point){first.left - away, y};
    if (height < 0.7 * width)
        return (struct point){x, first.top - away};
    const double back = (x + y - end.nearest) / 2.0 + away * 0.7;
    return (struct point){x - back, y - back};
}

/* Beside a row, in its middle. */
static void put_beside(const struct figure *figure, struct box *box,
                       struct row_end end, double x, const char *text,
                       enum text_face face)
{
    if (text[0] == '\0')
        return;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    style.face = face;
    const double height =
        typeset_measure(figure->canvas->typeset, text, style, 0.0).height;
    box_label(figure->canvas, box, x,
              (end.extent.top + end.extent.bottom - height) / 2.0, text, style,
              0.0, false);
}

/* The label of a piece at the end of a row that is too narrow to bear it. */
static const char *outer_label(const struct figure *figure, struct row_end end,
                               const struct heap *heap, size_t input)
{
    enum { NARROW = 24 };
    const struct heap *piece =
        &figure->wording->quilt->heaps.items[heap->inputs.items[input].heap];
    return piece->technique == TECHNIQUE_CUT &&
                   end.extent.right - end.extent.left < NARROW
               ? piece->of.cut.label
               : "";
}

struct box *number_level_rows(const struct figure *figure,
                              const struct box *box, const struct state *state,
                              const struct heap *heap)
{
    const struct canvas *canvas = figure->canvas;
    const double room = 2.2 * ROW_NUMBER;
    struct box *numbered =
        box_new(canvas, box->width + 2.0 * room, box->height);
    box_put(canvas, numbered, box, room, 0.0);
    for (size_t row = 0; row < heap_down(heap); row++) {
        const size_t first = heap_row_begin(heap, row);
        const size_t last = heap_row_end(heap, row) - 1;
        const struct row_end left = row_end(figure, state, (int)first);
        const struct row_end right = row_end(figure, state, (int)last);
        put_beside(figure, numbered, left, room * 0.22,
                   arena_printf(canvas->arena, "%zu", row + 1), FACE_REGULAR);
        put_beside(figure, numbered, left, room * 0.7,
                   outer_label(figure, left, heap, first), FACE_BOLD);
        put_beside(figure, numbered, right, numbered->width - room * 0.7,
                   outer_label(figure, right, heap, last), FACE_BOLD);
    }
    return numbered;
}

struct box *number_rows(const struct figure *figure, const struct box *box,
                        const struct state *state, const struct heap *heap)
{
    const struct canvas *canvas = figure->canvas;
    struct box *numbered = box_new(canvas, box->width + 2.0 * ROW_NUMBER,
                                   box->height + ROW_NUMBER);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    box_put(canvas, numbered, box, ROW_NUMBER, ROW_NUMBER);
    for (size_t row = 0; row < heap_down(heap); row++) {
        const char *text = arena_printf(canvas->arena, "%zu", row + 1);
        const struct point at =
            before_row(row_end(figure, state, (int)heap_row_begin(heap, row)));
        const struct text_extent extent =
            typeset_measure(canvas->typeset, text, style, 0.0);
        box_label(canvas, numbered, at.x + ROW_NUMBER,
                  at.y + ROW_NUMBER - extent.height / 2.0, text, style, 0.0,
                  false);
    }
    return numbered;
}
