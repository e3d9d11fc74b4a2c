/* Steps as portions of pages. Two that need little room stand side by side, a
 * unit and its mirror image always. Read next: portion.c. */
#include <math.h>

#include "steps.h"

/* ---- one step ---- */

/* The space above a row of a step; rows of a table join on. */
static double row_space(const struct rows *rows, size_t row)
{
    const struct box *box = rows->items.items[row];
    return row <= 1                                   ? 0.0
           : box->group != NULL && !box->group_begins ? 0.0
                                                      : SPACE_HALF + 1.0;
}

/* In points, with the space between the rows but none around them. */
static double rows_height(const struct rows *rows)
{
    double height = 0.0;
    for (size_t i = 0; i < rows->items.count; i++)
        height += rows->items.items[i]->height + row_space(rows, i);
    return height;
}

/* A step that fits a page stays whole. */
static struct drawn draw_single(struct booklet *booklet,
                                const struct told_work *told, double size)
{
    struct drawn drawn = {.height = 0.0};
    const size_t named = booklet->named.count;
    const struct step_view view = view_of(booklet, told, 12, size);
    const struct rows rows = step_rows(&view);
    const bool whole = rows_height(&rows) < flow_page_height(&booklet->flow);
    for (size_t i = 0; i < rows.items.count; i++) {
        struct box *box = rows.items.items[i];
        box->keep_with_next =
            i + 1 < rows.items.count && (whole || i < rows.heads);
        drawn_add(booklet->wording.arena, &drawn, box, row_space(&rows, i));
    }
    drawn_take_names(booklet, named, &drawn);
    return drawn;
}

/* ---- two beside each other ---- */

/* requires: rows of a step that shares its line with another, 6 columns wide.
 */
static struct box *stacked(const struct booklet *booklet,
                           const struct rows *rows)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *box = box_new(canvas, columns_wide(6), rows_height(rows));
    double y = 0.0;
    for (size_t i = 0; i < rows->items.count; i++) {
        y += row_space(rows, i);
        box_put(canvas, box, rows->items.items[i], 0.0, y);
        y += rows->items.items[i]->height;
    }
    return box;
}

/* Few frames, or parts that have room in half the measure. */
static bool is_small(const struct step_view *view)
{
    enum { ACTIONS = 2, PARTS = 4 };
    if (view->heap->technique == TECHNIQUE_BORDER ||
        view->heap->says.count > 1 || view->step->sizes.count > 0)
        return false;
    if (view->heap->technique == TECHNIQUE_JOIN)
        return view->step->heaps.count == 1 &&
               view->heap->inputs.count <= PARTS;
    return view->told->told_in != view->step->number &&
           view->heap->actions.count <= ACTIONS;
}

/* A chain line parts a unit from its mirror image. */
static void draw_axis(const struct canvas *canvas, struct box *box)
{
    struct path_item line = outline_narrow();
    line.dash[0] = MM(6.0);
    line.dash[1] = MM(1.2);
    line.dash[2] = MM(1.2);
    line.dash[3] = MM(1.2);
    const double x = columns_wide(6) + GRID_GUTTER / 2.0;
    box_stroke(canvas, box, x, SPACE_HALF, x, box->height, line);
}

/* Do the two go together at all? */
static bool go_together(const struct step_view *left,
                        const struct step_view *right)
{
    return (are_mirrored(left->heap, right->heap) &&
            left->step->sizes.count + right->step->sizes.count == 0 &&
            left->told->told_in != left->step->number) ||
           (is_small(left) && is_small(right));
}

/* In columns; a chain line parts mirror images. */
static struct drawn draw_pair(struct booklet *booklet,
                              const struct told_work *const *told, double size)
{
    struct drawn drawn = {.height = 0.0};
    const struct canvas *canvas = &booklet->flow.canvas;
    const size_t named = booklet->named.count;
    const struct step_view left = view_of(booklet, told[0], 6, size);
    const struct step_view right = view_of(booklet, told[1], 6, size);
    const struct rows first = step_rows(&left), second = step_rows(&right);
    struct box *box = box_new(canvas, canvas->width,
                              fmax(rows_height(&first), rows_height(&second)));
    box_put(canvas, box, stacked(booklet, &first), 0.0, 0.0);
    box_put(canvas, box, stacked(booklet, &second),
            columns_wide(6) + GRID_GUTTER, 0.0);
    box->place = told[0]->place;
    box->also = told[1]->place;
    drawn_add(canvas->arena, &drawn, box, 0.0);
    if (are_mirrored(left.heap, right.heap))
        draw_axis(canvas, box);
    drawn_take_names(booklet, named, &drawn);
    return drawn;
}

/* Beside each other where neither is too high, with no more air under the lower
 * one than is good. */
static bool is_pair(struct booklet *booklet, const struct works *works,
                    size_t index)
{
    if (index + 1 >= works->items.count)
        return false;
    const struct told_work *const *told = &works->items.items[index];
    const struct step_view left = view_of(booklet, told[0], 6, 1.0);
    const struct step_view right = view_of(booklet, told[1], 6, 1.0);
    if (!go_together(&left, &right))
        return false;
    const size_t named = booklet->named.count;
    const struct rows first = step_rows(&left), second = step_rows(&right);
    unname_figures(booklet, named);
    const double high = fmax(rows_height(&first), rows_height(&second));
    const double low = fmin(rows_height(&first), rows_height(&second));
    return high <= flow_page_height(&booklet->flow) * 0.8 &&
           (low >= 0.65 * high || are_mirrored(left.heap, right.heap));
}

/* ---- all of them ---- */

/* A cloth of thousands of patches is drawn once, and so is each of hundreds of
 * steps. */
static struct portion make_portion(struct booklet *booklet,
                                   const struct works *works, size_t index,
                                   bool pair)
{
    enum { FACES_MANY = 2000, STEPS_MANY = 300 };
    const struct told_work *const *told = &works->items.items[index];
    const size_t heap = told[0]->step->heap;
    const struct cloth *cloth = booklet->quilt->heaps.items[heap].cloth;
    struct portion portion = {.space = STEP_GAP};
    portion.one_size =
        cloth->faces.count > FACES_MANY || works->items.count > STEPS_MANY;
    portion.left_page = heap == booklet->quilt->top;
    for (size_t k = 0; k < SIZES; k++)
        if (!portion.one_size || k == USUAL_SIZE)
            portion.drawn[k] =
                pair ? draw_pair(booklet, told, figure_sizes[k])
                     : draw_single(booklet, told[0], figure_sizes[k]);
    return portion;
}

void step_portions(struct booklet *booklet, const struct works *works,
                   size_t count, struct portions *portions)
{
    for (size_t i = 0; i < count; i++) {
        const bool pair = is_pair(booklet, works, i);
        *LIST_ADD(booklet->wording.arena, &portions->items) =
            make_portion(booklet, works, i, pair);
        i += pair ? 1 : 0;
    }
}
