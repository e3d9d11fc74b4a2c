/* The steps: what each takes, what hands do in figures, what comes of it. Read
 * next: steps_technique.c, steps_join.c, steps_border.c, steps_beside.c,
 * finishing.c. */
#include "steps.h"

#include <math.h>
#include <string.h>

#include "buffer.h"
#include "figure_parts.h"
#include "place.h"
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

double view_room(const struct step_view *view, int columns, bool result)
{
    return frame_room(columns, result) * fmin(view->size, 1.0);
}

/* Pressing first, then what to measure: trimming tells the size itself, so it
 * takes the place of the measure. */
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

/* Cut pieces lead back to the cutting plan and show a swatch; sewn parts lead
 * to their step and show a small picture of the cloth. */
static struct told_entry part_entry(const struct booklet *booklet,
                                    const struct told_part *part)
{
    const struct wording *w = &booklet->wording;
    const struct heap *heap = &booklet->quilt->heaps.items[part->heap];
    const bool cut = heap->technique == TECHNIQUE_CUT;
    return (struct told_entry){
        .picture = cut ? PICTURE_SWATCH : PICTURE_CLOTH,
        .fabric = cut ? heap->of.cut.fabric : 0,
        .heap = part->heap,
        .label =
            cut ? link_to_cutting(w, part->heap) : link_to_step(w, part->heap),
        .words = cut ? cut_words(booklet, heap)
                     : say(w->arena, w->phrases, "part.step", "step",
                           say_count(w->arena, heap->step), NULL),
        .count = say(w->arena, w->phrases, "step.part-count", "count",
                     say_count(w->arena, part->count), NULL)};
}

static struct box *parts_of(const struct step_view *view, double width)
{
    struct booklet *booklet = view->booklet;
    struct told_work work = {.number = view->step->number};
    for (size_t i = 0; i < view->step->parts.items.count; i++)
        *LIST_ADD(booklet->wording.arena, &work.parts) =
            part_entry(booklet, &view->step->parts.items.items[i]);
    return place_entries(booklet, &work, width);
}

/* ---- the designer's words ---- */

/* What the designer says, with counts and sizes of the heap that it is said of.
 */
static const char *said_of(const struct step_view *view, size_t heap,
                           const struct words *words)
{
    const struct wording *w = &view->booklet->wording;
    return word_words(w, view->booklet->plan->colorway, words,
                      &w->quilt->heaps.items[heap]);
}

/* Words that tell a size are told for each size, behind its name. */
static void say_of_sizes(const struct step_view *view,
                         const struct words *words, double width,
                         struct rows *rows)
{
    const struct wording *w = &view->booklet->wording;
    const char *first = said_of(view, view->step->heap, words);
    for (size_t k = 0; k < view->step->sizes.count; k++) {
        const size_t heap = view->step->sizes.items[k].heap;
        const char *text = said_of(view, heap, words);
        if (strcmp(text, first) != 0)
            *LIST_ADD(w->arena, &rows->items) =
                note_box(view->booklet,
                         &(struct told_note){word_part(w, heap), text}, width);
    }
}

/* A mirrored unit does not repeat what was said of the plain one: left and
 * right would be wrong. */
static bool said_of_plain(const struct step_view *view, const struct heap *heap,
                          const struct words *say)
{
    const struct sewn_quilt *quilt = view->booklet->quilt;
    for (size_t i = 0; heap->named_mirror && i < quilt->heaps.count; i++) {
        const struct heap *plain = &quilt->heaps.items[i];
        for (size_t k = 0; plain->step > 0 && !plain->named_mirror &&
                           plain->named == heap->named && k < plain->says.count;
             k++)
            if (plain->says.items[k] == say)
                return true;
    }
    return false;
}

/* Of all heaps of the step, as rows on the way to a unit may have words of
 * their own. Words that the plain telling has already are left out. */
static void add_says(const struct step_view *view, double width,
                     struct rows *rows)
{
    const struct wording *w = &view->booklet->wording;
    for (size_t h = 0; h < view->step->heaps.count; h++) {
        const size_t heap = view->step->heaps.items[h];
        const struct heap *made = &w->quilt->heaps.items[heap];
        for (size_t i = 0; i < made->says.count; i++) {
            if (said_of_plain(view, made, made->says.items[i]))
                continue;
            const char *text = said_of(view, heap, made->says.items[i]);
            if (text[0] != '\0')
                *LIST_ADD(w->arena, &rows->items) = note_box(
                    view->booklet, &(struct told_note){"", text}, width);
            if (heap == view->step->heap)
                say_of_sizes(view, made->says.items[i], width, rows);
        }
    }
}

/* ---- a step ---- */

/* ---- other sizes ---- */

enum { SIZE_PARTS = 3, SIZE_COLUMNS = SIZE_PARTS + 3 };

/* "A4, 6½ in square × 4", or the name of what was sewn. */
static const char *size_part(const struct booklet *booklet,
                             const struct told_part *part)
{
    const struct wording *w = &booklet->wording;
    const struct heap *heap = &booklet->quilt->heaps.items[part->heap];
    const char *name = word_part(w, part->heap);
    const char *what =
        heap->technique == TECHNIQUE_CUT
            ? say(w->arena, w->phrases, "step.part", "cloth", name, "size",
                  word_size_unit(w, heap->of.cut.width, heap->of.cut.height),
                  NULL)
            : name;
    return arena_printf(w->arena, "%s %s", what,
                        say(w->arena, w->phrases, "step.part-count", "count",
                            say_count(w->arena, part->count), NULL));
}

/* Are the others of the step of its own size, in other fabrics? */
static bool are_casts(const struct step_view *view)
{
    const struct told_step *step = view->step;
    for (size_t i = 0; i < step->sizes.count; i++)
        if (!is_other_cast(view->booklet->quilt, step->sizes.items[i].heap))
            return false;
    return step->sizes.count > 0;
}

/* In place of a link: the row is the head of its table. */
static const struct told_text head_row = {NULL, NULL, NULL};

/* The columns of name, count and measure are fixed, and the parts share what is
 * left of the width, so that head and rows line up. */
static void add_size_row(const struct step_view *view, const char *const *cells,
                         size_t parts, const struct told_text *link,
                         struct rows *rows)
{
    const double make = MM(14.0), measures = MM(28.0), name = MM(34.0);
    const double each =
        (columns_wide(view->columns) - make - measures - name) / (double)parts;
    double widths[SIZE_COLUMNS];
    widths[0] = name;
    for (size_t i = 0; i < parts; i++)
        widths[i + 1] = each;
    widths[parts + 1] = make;
    widths[parts + 2] = measures;
    const struct table_row row = {cells, widths, parts + 3, link == &head_row,
                                  NULL};
    *LIST_ADD(view->booklet->wording.arena, &rows->items) = table_row_linked(
        &view->booklet->flow.canvas, &row, link == &head_row ? NULL : link);
}

/* A cast leads to the cutting of the first part that it cuts from cloth of its
 * own; NULL where it cuts none. */
static const struct told_text *link_of_cast(const struct step_view *view,
                                            const struct told_size *size,
                                            const size_t *parts, size_t count,
                                            const char *name)
{
    const struct booklet *booklet = view->booklet;
    for (size_t i = 0; i < count; i++) {
        if (!are_casts(view) || parts[i] >= size->parts.items.count)
            continue;
        const size_t part = size->parts.items.items[parts[i]].heap;
        if (booklet->quilt->heaps.items[part].technique != TECHNIQUE_CUT)
            continue;
        struct told_text *link =
            ARENA_NEW(booklet->wording.arena, struct told_text);
        *link = link_to_cutting(&booklet->wording, part);
        link->text = name;
        return link;
    }
    return NULL;
}

/* Some of the parts of a step, by their numbers in its line of parts; those
 * that all casts share are left out. */
struct part_range {
    size_t from, count;
    const size_t *parts;
};

/* What each of those parts is in place of; name, count and measure stand in the
 * first table alone. */
static void add_size_table(const struct step_view *view,
                           struct part_range range, struct rows *rows)
{
    const struct booklet *booklet = view->booklet;
    const struct wording *w = &booklet->wording;
    const struct told_step *step = view->step;
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const bool first = range.from == 0;
    const char *cells[SIZE_COLUMNS];
    cells[0] = are_casts(view)
                   ? say(w->arena, w->phrases, "step.other-cast", NULL)
                   : say(w->arena, w->phrases, "step.other-size", NULL);
    for (size_t i = 0; i < range.count; i++)
        cells[i + 1] = say(
            w->arena, w->phrases, "step.in-place-of", "part",
            word_part(w, step->parts.items.items[range.parts[i]].heap), NULL);
    cells[range.count + 1] =
        first ? say(w->arena, w->phrases, "step.head-make", NULL) : "";
    cells[range.count + 2] =
        first ? say(w->arena, w->phrases, "step.head-measures", NULL) : "";
    add_size_row(view, cells, range.count, &head_row, rows);
    const struct told_size own = {step->heap, step->count, step->parts};
    const size_t skipped = are_casts(view) ? 0 : 1;
    for (size_t k = skipped; k <= step->sizes.count; k++) {
        const struct told_size *size =
            k == 0 ? &own : &step->sizes.items[k - 1];
        const struct heap *heap = &booklet->quilt->heaps.items[size->heap];
        cells[0] = word_part(w, size->heap);
        for (size_t i = 0; i < range.count; i++)
            cells[i + 1] =
                range.parts[i] < size->parts.items.count
                    ? size_part(booklet,
                                &size->parts.items.items[range.parts[i]])
                    : "";
        cells[range.count + 1] = first ? say_count(w->arena, size->count) : "";
        cells[range.count + 2] =
            first ? word_size_unit(w, rational_add(heap->width, seams),
                                   rational_add(heap->height, seams))
                  : "";
        add_size_row(
            view, cells, range.count,
            link_of_cast(view, size, range.parts, range.count, cells[0]), rows);
    }
}

/* Under the figures, what stands for each of their parts in another size; more
 * parts than a row has room for go on in a table below. */
static void add_sizes(const struct step_view *view, struct rows *rows)
{
    const size_t all = view->step->parts.items.count;
    size_t *parts = ARENA_ARRAY(view->booklet->wording.arena, size_t, all + 1);
    size_t count = 0;
    for (size_t i = 0; i < all; i++)
        if (!view->step->parts.items.items[i].shared)
            parts[count++] = i;
    for (size_t i = 0; view->step->sizes.count > 0 && i < count;
         i += SIZE_PARTS)
        add_size_table(
            view,
            (struct part_range){
                i, count - i < SIZE_PARTS ? count - i : SIZE_PARTS, parts + i},
            rows);
}

/* ---- a step, continued ---- */

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

bool are_mirrored(const struct heap *a, const struct heap *b)
{
    return a->named != NULL && a->named == b->named &&
           a->named_mirror != b->named_mirror &&
           rational_equal(a->factor, b->factor);
}

/* The later of two mirror images tells of the earlier. */
static void add_mirror_note(const struct step_view *view, struct rows *rows)
{
    const struct wording *w = &view->booklet->wording;
    for (size_t i = 0; i < view->step->heap; i++) {
        const struct heap *other = &w->quilt->heaps.items[i];
        if (other->step > 0 && other->within == i &&
            are_mirrored(view->heap, other))
            *LIST_ADD(w->arena, &rows->items) = note_box(
                view->booklet,
                &(struct told_note){
                    "", say(w->arena, w->phrases, "step.mirror-of", "number",
                            say_count(w->arena, other->step), NULL)},
                columns_wide(view->columns));
    }
}

/* "16, 2 of each kind" where all are of one size. */
static const char *casts_in_all(const struct wording *w,
                                const struct told_step *step)
{
    size_t total = step->count;
    bool equal = true;
    for (size_t i = 0; i < step->sizes.count; i++) {
        total += step->sizes.items[i].count;
        equal &= step->sizes.items[i].count == step->count;
    }
    const char *kinds = say_count(w->arena, step->sizes.count + 1);
    return equal ? say(w->arena, w->phrases, "step.casts-each", "total",
                       say_count(w->arena, total), "count",
                       say_count(w->arena, step->count), "kinds", kinds, NULL)
                 : say(w->arena, w->phrases, "step.casts", "total",
                       say_count(w->arena, total), "kinds", kinds, NULL);
}

/* "80", or "80 + 4" where other sizes are made in the same step. */
static const char *made_in_all(const struct step_view *view)
{
    const struct wording *w = &view->booklet->wording;
    const struct told_step *step = view->step;
    if (are_casts(view))
        return casts_in_all(w, step);
    struct buffer text = buffer_in(w->arena);
    buffer_printf(&text, "%s", say_count(w->arena, step->count));
    for (size_t i = 0; i < step->sizes.count; i++)
        buffer_printf(&text, "\u00a0+\u00a0%s",
                      say_count(w->arena, step->sizes.items[i].count));
    return buffer_string(&text);
}

struct rows step_rows(const struct step_view *view)
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
            : say(w->arena, w->phrases, "step.make", "count", made_in_all(view),
                  NULL),
        where};
    struct box *box = step_head(booklet, &head, width);
    box->place = place_step(w->arena, view->step->number);
    *LIST_ADD(w->arena, &rows.items) = box;
    *LIST_ADD(w->arena, &rows.items) =
        parts_of(view, width - (where == NULL ? 0.0 : where->width + 8.0));
    add_says(view, width, &rows);
    add_mirror_note(view, &rows);
    rows.heads = rows.items.count;
    if (is_border_step(view))
        border_rows(view, &rows);
    else if (view->heap->technique == TECHNIQUE_JOIN)
        join_rows(view, &rows);
    else
        technique_rows(view, &rows);
    add_sizes(view, &rows);
    return rows;
}

struct step_view view_of(struct booklet *booklet,
                         const struct told_steps *steps, size_t index,
                         int columns, double size)
{
    const struct told_step *step = &steps->items.items[index];
    return (struct step_view){
        booklet, step, &booklet->quilt->heaps.items[step->heap],
        columns, size, told_in(steps, booklet, index)};
}

/* The legend stands before the first step, and what comes after the top goes on
 * where the steps end. A preview shows one step, so that it stays short
 * whatever the quilt. */
void section_sewing(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct told_steps steps = tell_steps(w);
    struct portions portions = {.items = {0}};
    const struct contents contents = tell_sewing(w);
    const struct told_heading *heading = heading_of(&contents, PART_MAIN);
    flow_section(&booklet->flow, heading->title, heading->lead, false);
    flow_add(
        &booklet->flow,
        legend_box(booklet,
                   &content_of(&contents, PART_LEGEND, CONTENT_LIST)->as.list),
        SPACE_HALF);
    const bool one = booklet->preview && steps.items.count > 1;
    step_portions(booklet, &steps, one ? 1 : steps.items.count, &portions);
    if (!booklet->preview)
        finishing_portions(booklet, &portions);
    place_portions(booklet, &portions);
}
