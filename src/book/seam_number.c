/* Numbers of seams, in the order in which the actions sew them: between parts
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
