/* Borders in one step, from the inside out: figures of how to measure, how they
 * are sewn, and what comes of it; a table of all lengths. */
#include <math.h>

#include "exploded.h"
#include "figure_parts.h"
#include "result.h"
#include "steps.h"

/* ---- figures ---- */

/* Points between the top and a strip that is not sewn yet. */
#define STRIP_GAP MM(5.6)
/* Points between a strip and its label. */
#define LABEL_OFF 1.0

/* All figures of the step have one scale, so that a strip is as wide in each.
 */
static struct figure border_figure(const struct step_view *view, double scale)
{
    return (struct figure){.canvas = &view->booklet->flow.canvas,
                           .wording = &view->booklet->wording,
                           .colorway = view->booklet->plan->colorway,
                           .scale = scale,
                           .gap = STRIP_GAP,
                           .shade = SHADE_WORK,
                           .bare = true};
}

/* `gap_x` and `gap_y` count the gaps from the left and from the top. */
static void add_cloth(const struct step_view *view, struct state *state,
                      const struct input *input, int part, int gap_x, int gap_y)
{
    struct arena *arena = view->booklet->wording.arena;
    const struct sewn_quilt *quilt = view->booklet->quilt;
    const struct cloth *cloth = quilt->heaps.items[input->heap].cloth;
    const struct placing at = placing_of(quilt, input);
    for (size_t i = 0; i < cloth->faces.count; i++)
        *LIST_ADD(arena, &state->faces) = (struct shown_face){
            placed_face(arena, cloth->faces.items[i], at), part, gap_x, gap_y};
}

/* The first border: its strips around what it is sewn to. */
static struct state strips_apart(const struct step_view *view,
                                 const struct heap *border)
{
    static const int across[] = {1, 0, 2, 1, 1}, down[] = {1, 1, 1, 0, 2};
    struct state state = {.faces = {0}};
    for (int i = BORDER_CENTER; i <= BORDER_BOTTOM; i++)
        add_cloth(view, &state, &border->inputs.items[i], i, across[i],
                  down[i]);
    return state;
}

/* The numbers stand in the middle of each gap, where the seam will be: sides
 * get 1 and ends 2, or the other way round where ends are sewn first. */
static void number_strips(const struct step_view *view,
                          const struct figure *figure, struct box *box,
                          const struct heap *border)
{
    const struct input *center = &border->inputs.items[BORDER_CENTER];
    const struct heap *top = &view->booklet->quilt->heaps.items[center->heap];
    const double s = figure->scale, half = STRIP_GAP / 2.0;
    const double seam =
        rational_double(view->booklet->design->pattern->seam) * s;
    const double left = rational_double(center->x) * s + STRIP_GAP + seam;
    const double up = rational_double(center->y) * s + STRIP_GAP + seam;
    const double right = left + rational_double(top->width) * s;
    const double low = up + rational_double(top->height) * s;
    const double x = (left + right) / 2.0, y = (up + low) / 2.0;
    const size_t sides = border->of.border->ends_first ? 2 : 1;
    draw_number(figure->canvas, box, left - half, y, sides);
    draw_number(figure->canvas, box, right + half, y, sides);
    draw_number(figure->canvas, box, x, up - half, 3 - sides);
    draw_number(figure->canvas, box, x, low + half, 3 - sides);
}

/* Each strip's label stands in the gap beside it, nearer to it than to the
 * top: the strips are too narrow to hold it. */
static void label_strips(const struct step_view *view,
                         const struct figure *figure, struct box *box,
                         const struct heap *border)
{
    const struct wording *w = &view->booklet->wording;
    const double seam =
        rational_double(view->booklet->design->pattern->seam) * figure->scale;
    const double wide =
        rational_double(border->of.border->width) * figure->scale + 2.0 * seam;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    for (int i = BORDER_LEFT; i <= BORDER_BOTTOM; i++) {
        const char *label = word_part(w, border->inputs.items[i].heap);
        const double high =
            typeset_measure(figure->canvas->typeset, label, style, 0.0).height;
        const double low = wide + LABEL_OFF, far = wide + LABEL_OFF + high;
        if (i == BORDER_LEFT || i == BORDER_RIGHT)
            box_label(figure->canvas, box,
                      i == BORDER_LEFT ? low : box->width - far,
                      box->height * 0.3, label, style, -90.0, false);
        else
            box_label(figure->canvas, box, box->width * 0.3,
                      i == BORDER_TOP ? low : box->height - far, label, style,
                      0.0, false);
    }
}

/* The pale top, and the ruler's way through its middle. */
static struct box *measured_top(const struct step_view *view,
                                const struct heap *border, double scale)
{
    struct state state = {.faces = {0}};
    const struct figure figure = border_figure(view, scale);
    add_cloth(view, &state, &border->inputs.items[BORDER_CENTER], WHOLE, 0, 0);
    struct box *box = figure_state(&figure, &state);
    const double w = box->width, h = box->height;
    const bool level = border->of.border->ends_first;
    const struct point from = {level ? 0.0 : w / 2.0, level ? h / 2.0 : 0.0};
    const struct point to = {level ? w : w / 2.0, level ? h / 2.0 : h};
    const struct path_item line = {
        .stroke = LINE_BROAD, .stroke_color = action_red, .role = ROLE_MARK};
    box_stroke(figure.canvas, box, from.x, from.y, to.x, to.y,
               casing(LINE_BROAD));
    box_stroke(figure.canvas, box, from.x, from.y, to.x, to.y, line);
    /* Its ends are strokes: arrows press. */
    for (int end = 0; end < 2; end++) {
        const struct point p = end == 0 ? from : to;
        const double across = level ? 0.0 : 5.0, down = level ? 5.0 : 0.0;
        box_stroke(figure.canvas, box, p.x - across, p.y - down, p.x + across,
                   p.y + down, casing(LINE_BROAD));
        box_stroke(figure.canvas, box, p.x - across, p.y - down, p.x + across,
                   p.y + down, line);
    }
    return box;
}

/* No part is marked as turned: how strips lie is plain from where they lie. */
static struct box *apart_box(const struct step_view *view,
                             const struct heap *border, double scale)
{
    struct arena *arena = view->booklet->wording.arena;
    struct figure figure = border_figure(view, scale);
    struct figure_part *parts =
        ARENA_ARRAY(arena, struct figure_part, BORDER_CORNER);
    for (int i = 0; i < BORDER_CORNER; i++)
        parts[i] = (struct figure_part){border->inputs.items[i].heap,
                                        border->inputs.items[i].turn,
                                        false,
                                        {{0, 0}, {0, 0}}};
    figure.parts = parts;
    figure.part_count = BORDER_CORNER;
    const struct state state = strips_apart(view, border);
    struct box *box = figure_state(&figure, &state);
    number_strips(view, &figure, box, border);
    label_strips(view, &figure, box, border);
    return box;
}

/* Measure, sew, result. The first two show the innermost border, the last the
 * outermost, so the scale is that of the whole quilt with a unit to spare. */
static void add_frames(const struct step_view *view, struct rows *rows)
{
    struct booklet *booklet = view->booklet;
    const struct told_figure *told = view->told->frames.items;
    const struct heap *first = &booklet->quilt->heaps.items[told[0].heap];
    const struct heap *last = view->heap;
    const struct figure_size scaled = {rational_double(last->width) + 1.0,
                                       rational_double(last->height) + 1.0};
    const struct figure_size fixed = {2.0 * STRIP_GAP, 2.0 * STRIP_GAP};
    const double scale = step_scale(booklet, scaled, fixed, frame_room(4, true),
                                    MM(54.0) * view->size);
    struct figure done = border_figure(view, scale);
    done.shade = SHADE_DONE;
    const struct action *end = &last->actions.items[last->actions.count - 1];
    struct box *cloth = figure_state(&done, &end->after);
    const struct framed frames[3] = {
        framed_as(&told[0], measured_top(view, first, scale), 4),
        framed_as(&told[1], apart_box(view, first, scale), 4),
        framed_as(&told[2], measured_cloth(booklet, last, cloth), 4)};
    struct box *row = frames_row(booklet, frames, 3, 'a');
    name_step_figure(booklet, last, row);
    *LIST_ADD(booklet->wording.arena, &rows->items) = row;
}

/* The columns of the table are not wider together than the 12 of the grid. */
size_t border_rows(const struct step_view *view, struct rows *rows)
{
    static const double widths[] = {MM(16.0), MM(40.0), MM(28.0),
                                    MM(32.0), MM(34.0), MM(32.0)};
    const struct told_work *told = view->told;
    for (size_t i = 0; i < told->ahead.count; i++)
        add_note(view, &told->ahead.items[i], rows);
    add_frames(view, rows);
    add_table_rows(view, &told->tables.items[0], widths, rows);
    return 1;
}
