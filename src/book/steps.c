/* The steps: what each takes, what hands do in figures, what comes of it. Two
 * that need little room stand side by side, a unit and its mirror image always.
 * Read next: steps_technique.c, steps_join.c, steps_border.c. */
#include "steps.h"

#include <math.h>

#include "buffer.h"
#include "figure_parts.h"
#include "structure.h"
#include "telling.h"
#include "words.h"

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

const char *result_caption(const struct step_view *view,
                           const struct action *action, const char *trim)
{
    const struct wording *w = &view->booklet->wording;
    const char *press = word_press(w, view->heap, action);
    return word_then(w, press,
                     trim[0] != '\0' ? trim : word_measure(w, view->heap));
}

/* ---- parts ---- */

/* The cloth of a cut piece and its size, "2⅜ in square". */
static const char *cut_words(const struct booklet *booklet,
                             const struct heap *heap)
{
    const struct wording *w = &booklet->wording;
    const struct cut_piece *cut = &heap->of.cut;
    const char *cloth = booklet->plan->colorway->bolts[cut->fabric].name;
    const char *size =
        rational_equal(cut->width, cut->height)
            ? say(w->arena, w->phrases, "words.square", "side",
                  word_length(w, cut->width), "unit", word_unit(w), NULL)
            : word_size_unit(w, cut->width, cut->height);
    return cut->border > 0 ? cloth
                           : say(w->arena, w->phrases, "step.part", "cloth",
                                 cloth, "size", size, NULL);
}

static struct part_entry part_entry(struct booklet *booklet,
                                    const struct told_part *part)
{
    const struct wording *w = &booklet->wording;
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct heap *heap = &booklet->quilt->heaps.items[part->heap];
    const struct link link = heap->technique == TECHNIQUE_CUT
                                 ? link_to_cutting(booklet, part->heap)
                                 : link_to_step(booklet, part->heap);
    const bool cut = heap->technique == TECHNIQUE_CUT;
    return (struct part_entry){
        cut ? swatch_box(booklet, heap->of.cut.fabric, PART_HEIGHT)
            : figure_cloth(canvas, booklet->plan->colorway,
                           finished_cloth(w->arena, heap->cloth), MM(12.0),
                           PART_HEIGHT),
        cut ? link.text : word_part(w, part->heap),
        cut ? cut_words(booklet, heap) : "",
        say(w->arena, w->phrases, "step.part-count", "count",
            say_count(w->arena, part->count), NULL),
        link.place,
        link.told};
}

static struct box *parts_of(const struct step_view *view, double width)
{
    struct booklet *booklet = view->booklet;
    const size_t count = view->step->parts.count;
    struct part_entry *entries =
        ARENA_ARRAY(booklet->wording.arena, struct part_entry, count + 1);
    for (size_t i = 0; i < count; i++)
        entries[i] = part_entry(booklet, &view->step->parts.items[i]);
    return parts_line(booklet, entries, count, width);
}

/* ---- the designer's words ---- */

static void add_says(const struct step_view *view, double width,
                     struct rows *rows)
{
    const struct wording *w = &view->booklet->wording;
    for (size_t h = 0; h < view->step->heaps.count; h++) {
        const struct heap *heap =
            &w->quilt->heaps.items[view->step->heaps.items[h]];
        for (size_t i = 0; i < heap->says.count; i++) {
            const char *text = word_words(w, view->booklet->plan->colorway,
                                          heap->says.items[i], heap);
            if (text[0] != '\0')
                *LIST_ADD(w->arena, &rows->items) =
                    note_box(view->booklet, "", text, width);
        }
    }
}

/* ---- a step ---- */

/* Which step tells how a technique is done, for those that come after. */
static size_t told_in(const struct told_steps *steps,
                      const struct booklet *booklet, size_t index)
{
    const struct heap *heap =
        &booklet->quilt->heaps.items[steps->items.items[index].heap];
    if (heap->technique == TECHNIQUE_JOIN ||
        heap->technique == TECHNIQUE_BORDER)
        return 0;
    for (size_t i = 0; i < index; i++) {
        const struct heap *other =
            &booklet->quilt->heaps.items[steps->items.items[i].heap];
        if (told_alike(heap, other))
            return steps->items.items[i].number;
    }
    return steps->items.items[index].number;
}

/* Head, parts and notes, then its rows; all as wide as the view. */
static struct rows step_rows(const struct step_view *view)
{
    struct booklet *booklet = view->booklet;
    const struct wording *w = &booklet->wording;
    struct rows rows = {.items = {0}};
    const double width = columns_wide(view->columns);
    struct box *where = where_it_goes(booklet, view->step->heap, MM(13.0));
    const struct step_head head = {
        view->step->number, view->step->title,
        view->heap->technique == TECHNIQUE_BORDER
            ? say(w->arena, w->phrases, "step.add", "count",
                  say_count(w->arena, view->step->heaps.count), NULL)
            : say(w->arena, w->phrases, "step.make", "count",
                  say_count(w->arena, view->step->count), NULL),
        where};
    struct box *box = step_head(booklet, &head, width);
    box->place = place_step(w->arena, view->step->number);
    *LIST_ADD(w->arena, &rows.items) = box;
    *LIST_ADD(w->arena, &rows.items) =
        parts_of(view, width - (where == NULL ? 0.0 : where->width + 8.0));
    add_says(view, width, &rows);
    rows.heads = rows.items.count;
    if (is_border_step(view))
        border_rows(view, &rows);
    else if (view->heap->technique == TECHNIQUE_JOIN)
        join_rows(view, &rows);
    else
        technique_rows(view, &rows);
    return rows;
}

static struct step_view view_of(struct booklet *booklet,
                                const struct told_steps *steps, size_t index,
                                int columns)
{
    const struct told_step *step = &steps->items.items[index];
    return (struct step_view){booklet, step,
                              &booklet->quilt->heaps.items[step->heap], columns,
                              told_in(steps, booklet, index)};
}

/* The space above a row of a step. */
static double row_space(size_t row)
{
    return row == 0 ? SPACE_STEP : row == 1 ? 0.0 : SPACE_HALF + 1.0;
}

static double rows_height(const struct rows *rows)
{
    double height = 0.0;
    for (size_t i = 0; i < rows->items.count; i++)
        height += rows->items.items[i]->height + (i > 0 ? row_space(i) : 0.0);
    return height;
}

/* A step that fits a page stays whole. */
static void add_rows(struct booklet *booklet, const struct rows *rows)
{
    const bool whole = rows_height(rows) < flow_page_height(&booklet->flow);
    for (size_t i = 0; i < rows->items.count; i++) {
        struct box *box = rows->items.items[i];
        box->keep_with_next =
            i + 1 < rows->items.count && (whole || i < rows->heads);
        flow_add(&booklet->flow, box, row_space(i));
    }
}

/* ---- two beside each other ---- */

static struct box *stacked(const struct booklet *booklet,
                           const struct rows *rows)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *box = box_new(canvas, columns_wide(6), rows_height(rows));
    double y = 0.0;
    for (size_t i = 0; i < rows->items.count; i++) {
        y += i > 0 ? row_space(i) : 0.0;
        box_put(canvas, box, rows->items.items[i], 0.0, y);
        y += rows->items.items[i]->height;
    }
    return box;
}

static bool are_mirrored(const struct heap *a, const struct heap *b)
{
    return a->named != NULL && a->named == b->named &&
           a->named_mirror != b->named_mirror &&
           rational_equal(a->factor, b->factor);
}

/* Few frames, or parts that have room in half the measure. */
static bool is_small(const struct step_view *view)
{
    enum { ACTIONS = 2, PARTS = 4 };
    if (view->heap->technique == TECHNIQUE_BORDER || view->heap->says.count > 1)
        return false;
    if (view->heap->technique == TECHNIQUE_JOIN)
        return view->step->heaps.count == 1 &&
               view->heap->inputs.count <= PARTS;
    return view->told_in != view->step->number &&
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

/* ensures: false where the two do not go together. */
static bool add_pair(struct booklet *booklet, const struct told_steps *steps,
                     size_t index)
{
    if (index + 1 >= steps->items.count)
        return false;
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct step_view left = view_of(booklet, steps, index, 6);
    const struct step_view right = view_of(booklet, steps, index + 1, 6);
    const bool mirrored = are_mirrored(left.heap, right.heap) &&
                          left.told_in != left.step->number;
    if (!mirrored && (!is_small(&left) || !is_small(&right)))
        return false;
    const size_t named = booklet->named.count;
    const struct rows first = step_rows(&left), second = step_rows(&right);
    const double high = fmax(rows_height(&first), rows_height(&second));
    const double low = fmin(rows_height(&first), rows_height(&second));
    if (high > flow_page_height(&booklet->flow) * 0.8 ||
        (!mirrored && low < 0.6 * high)) {
        unname_figures(booklet, named);
        return false;
    }
    struct box *note =
        mirrored ? note_box(booklet, "",
                            say(w->arena, w->phrases, "step.mirror", NULL),
                            canvas->width)
                 : NULL;
    struct box *box = box_new(canvas, canvas->width, high);
    box_put(canvas, box, stacked(booklet, &first), 0.0, 0.0);
    box_put(canvas, box, stacked(booklet, &second),
            columns_wide(6) + GRID_GUTTER, 0.0);
    if (mirrored)
        draw_axis(canvas, box);
    box->place = place_step(w->arena, left.step->number);
    box->also = place_step(w->arena, right.step->number);
    box->keep_with_next = note != NULL;
    flow_add(&booklet->flow, box, SPACE_STEP);
    if (note != NULL)
        flow_add(&booklet->flow, note, SPACE_HALF);
    return true;
}

/* ---- the section ---- */

void section_steps(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct told_steps steps = tell_steps(w);
    flow_section(&booklet->flow, say(w->arena, w->phrases, "step.title", NULL),
                 say(w->arena, w->phrases, "step.lead", "seam",
                     word_length_unit(w, w->design->pattern->seam), NULL),
                 true);
    section_legend(booklet);
    for (size_t i = 0; i < steps.items.count; i++) {
        if (add_pair(booklet, &steps, i)) {
            i++;
            continue;
        }
        const struct step_view view = view_of(booklet, &steps, i, 12);
        const struct rows rows = step_rows(&view);
        add_rows(booklet, &rows);
    }
}
