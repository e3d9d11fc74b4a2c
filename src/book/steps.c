/* A step on the page: its head, the rows of its figures, its tables. Read next:
 * steps_technique.c, steps_join.c, steps_border.c, steps_beside.c,
 * finishing.c. */
#include "steps.h"

#include <math.h>

#include "place.h"

/* ---- shared by all kinds of steps ---- */

/* Scales that figures have, in mm to the inch; under the last one, each is a
 * fifth smaller than the one before. */
double step_scale(const struct booklet *booklet, struct figure_size scaled,
                  struct figure_size fixed, double width, double height)
{
    static const double scales[] = {16, 14, 12, 10, 8, 7, 6, 5, 4};
    enum { SCALES = sizeof scales / sizeof scales[0] };
    const double inch =
        booklet->design->pattern->units == UNIT_CM ? 1.0 / 2.54 : 1.0;
    const double most = fmin((width - fixed.width) / scaled.width,
                             (height - fixed.height) / scaled.height);
    for (size_t i = 0; i < SCALES; i++)
        if (MM(scales[i]) * inch <= most)
            return MM(scales[i]) * inch;
    double scale = MM(scales[SCALES - 1]) * inch;
    while (scale > most && scale > 0.001)
        scale *= 0.94;
    return scale;
}

double view_room(const struct step_view *view, int columns, bool result)
{
    return frame_room(columns, result) * fmin(view->size, 1.0);
}

/* ---- a step ---- */

/* The columns of name, count and measure are fixed, and the parts share what is
 * left of the width, so that head and rows line up. */
static void add_sizes(const struct step_view *view,
                      const struct told_table *table, struct rows *rows)
{
    enum { FIXED = 3 };
    struct arena *arena = view->booklet->wording.arena;
    const size_t parts = table->columns.count - FIXED;
    const double make = MM(14.0), measures = MM(28.0), name = MM(34.0);
    const double each =
        (columns_wide(view->columns) - make - measures - name) / (double)parts;
    double *widths = ARENA_ARRAY(arena, double, table->columns.count);
    widths[0] = name;
    for (size_t i = 0; i < parts; i++)
        widths[i + 1] = each;
    widths[parts + 1] = make;
    widths[parts + 2] = measures;
    add_table_rows(view, table, widths, rows);
}

void add_table_rows(const struct step_view *view,
                    const struct told_table *table, const double *widths,
                    struct rows *rows)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct boxes boxes = plain_rows(canvas, table, widths);
    for (size_t i = 0; i < boxes.items.count; i++)
        *LIST_ADD(canvas->arena, &rows->items) = boxes.items.items[i];
}

void add_note(const struct step_view *view, const struct told_note *note,
              struct rows *rows)
{
    *LIST_ADD(view->booklet->wording.arena, &rows->items) =
        note_box(view->booklet, note, columns_wide(view->columns));
}

/* Head, parts and notes, with the place where the step's work goes. */
static void add_heads(const struct step_view *view, struct rows *rows)
{
    struct booklet *booklet = view->booklet;
    const struct told_work *told = view->told;
    const double width = columns_wide(view->columns);
    struct box *where = where_it_goes(booklet, view->step->heap, MM(13.0));
    const struct step_head head = {told->number, told->title, told->made,
                                   where};
    struct box *box = step_head(booklet, &head, width);
    box->place = told->place;
    *LIST_ADD(booklet->wording.arena, &rows->items) = box;
    *LIST_ADD(booklet->wording.arena, &rows->items) = place_entries(
        booklet, told, width - (where == NULL ? 0.0 : where->width + 8.0));
    for (size_t i = 0; i < told->before.count; i++)
        add_note(view, &told->before.items[i], rows);
    rows->heads = rows->items.count;
}

/* By how its first frame is drawn; the tables of borders have looks of their
 * own. */
struct rows step_rows(const struct step_view *view)
{
    struct rows rows = {.items = {0}};
    const enum drawing_kind drawing = view->told->frames.items[0].drawing;
    const bool border = drawing == DRAWING_BORDER_MEASURED;
    size_t tables = 0;
    add_heads(view, &rows);
    if (border)
        tables = border_rows(view, &rows);
    else if (drawing == DRAWING_APART)
        join_rows(view, &rows);
    else
        technique_rows(view, &rows);
    for (; tables < view->told->tables.count; tables++)
        add_sizes(view, &view->told->tables.items[tables], &rows);
    return rows;
}

struct step_view view_of(struct booklet *booklet, const struct told_work *told,
                         int columns, double size)
{
    return (struct step_view){
        booklet,    told,
        told->step, &booklet->quilt->heaps.items[told->step->heap],
        columns,    size};
}

/* The legend stands before the first step, and what comes after the top goes on
 * where the steps end. A preview shows one step, so that it stays short
 * whatever the quilt. */
void section_sewing(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    struct portions portions = {.items = {0}};
    const struct contents contents = tell_sewing(w, booklet->plan);
    const struct told_heading *heading = heading_of(&contents, PART_MAIN);
    flow_section(&booklet->flow, heading->title, heading->lead, false);
    flow_add(
        &booklet->flow,
        legend_box(booklet,
                   &content_of(&contents, PART_LEGEND, CONTENT_LIST)->as.list),
        SPACE_HALF);
    struct works works = {.items = {0}};
    for (size_t i = 0; i < contents.items.count; i++)
        if (contents.items.items[i].kind == CONTENT_WORK)
            *LIST_ADD(w->arena, &works.items) =
                &contents.items.items[i].as.work;
    const bool one = booklet->preview && works.items.count > 1;
    step_portions(booklet, &works, one ? 1 : works.items.count, &portions);
    if (!booklet->preview)
        finishing_portions(booklet, PART_LAYERS, &portions);
    if (!booklet->preview && booklet->plan->quilting != NULL)
        section_quilting(booklet, &portions);
    if (!booklet->preview)
        finishing_portions(booklet, PART_BINDING, &portions);
    place_portions(booklet, &portions);
}
