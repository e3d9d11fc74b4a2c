/* Borders in one step, from the inside out: how to measure, how they are sewn,
 * what comes of it, and a table of all lengths. Read next: section_finishing.c.
 */
#include "sewing.h"

/* Plain strips are told in one common step. Borders with pieces at the corners,
 * or around a top that its step shows turned, need figures of their own. */
bool is_border_step(const struct sewing *sewing)
{
    return border_is_plain(sewing->heap);
}

/* ---- frames ---- */

static void add_frame(const struct sewing *sewing, enum drawing_kind drawing,
                      size_t heap, const char *caption, const char *told)
{
    *LIST_ADD(sewing->w->arena, &sewing->work->frames) =
        (struct told_figure){.drawing = drawing,
                             .heap = heap,
                             .caption = caption,
                             .told = told,
                             .result = drawing == DRAWING_BORDERED};
}

/* Measure, sew, result. The first two show the innermost border, the last the
 * outermost. */
static void add_frames(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const size_t first = sewing->step->heaps.items[0];
    const struct heap *last = sewing->heap;
    const bool ends_first = w->quilt->heaps.items[first].of.border->ends_first;
    const struct action *end = &last->actions.items[last->actions.count - 1];
    add_frame(sewing, DRAWING_BORDER_MEASURED, first,
              say(w->arena, w->phrases,
                  ends_first ? "border.measure-across" : "border.measure-down",
                  NULL),
              say(w->arena, w->phrases, "border.measure-told", NULL));
    add_frame(
        sewing, DRAWING_BORDER_APART, first,
        say(w->arena, w->phrases,
            ends_first ? "border.sew-ends-first" : "border.sew-sides-first",
            NULL),
        say(w->arena, w->phrases, "caption.lay", NULL));
    add_frame(sewing, DRAWING_BORDERED, sewing->step->heap,
              word_then(w,
                        sewing->step->heaps.count > 1
                            ? say(w->arena, w->phrases, "border.each", NULL)
                            : "",
                        word_press(w, sewing->plan->colorway, last, end)),
              result_told(sewing));
}

/* ---- table ---- */

/* A strip's label and the length that it should have. */
static const char *strip_text(const struct wording *w,
                              const struct heap *border, int input)
{
    const struct heap *strip =
        &w->quilt->heaps.items[border->inputs.items[input].heap];
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const bool sides = input == BORDER_LEFT;
    const bool turned = border->inputs.items[input].turn % 2 == 1;
    const struct rational length =
        rational_add(sides != turned ? strip->height : strip->width, seams);
    return say(w->arena, w->phrases, "border.strips", "label",
               strip->of.cut.label, "length", word_length_unit(w, length),
               NULL);
}

/* All lengths with their seams, as they are when cut and sewn. */
static void add_lengths(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const char *const heads[] = {
        say(w->arena, w->phrases, "border.head-number", NULL),
        say(w->arena, w->phrases, "border.head-cloth", NULL),
        say(w->arena, w->phrases, "border.head-width", NULL),
        say(w->arena, w->phrases, "border.head-sides", NULL),
        say(w->arena, w->phrases, "border.head-ends", NULL),
        say(w->arena, w->phrases, "border.head-top", NULL)};
    struct told_table *table = LIST_ADD(w->arena, &sewing->work->tables);
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        add_column(w, table, COLUMN_WORDS, heads[i]);
    for (size_t i = 0; i < sewing->step->heaps.count; i++) {
        const struct heap *border =
            &w->quilt->heaps.items[sewing->step->heaps.items[i]];
        struct told_row *row = add_row(w, table);
        add_words_cell(w, row, say_count(w->arena, border->of.border->number));
        add_words_cell(
            w, row,
            sewing->plan->colorway->bolts[border->of.border->fabric].name);
        add_words_cell(
            w, row,
            word_length_unit(w, rational_add(border->of.border->width, seams)));
        add_words_cell(w, row, strip_text(w, border, BORDER_LEFT));
        add_words_cell(w, row, strip_text(w, border, BORDER_TOP));
        add_words_cell(w, row,
                       word_size_unit(w, rational_add(border->width, seams),
                                      rational_add(border->height, seams)));
    }
}

/* ---- the step ---- */

/* Strips that are longer than the fabric is wide lie loose in their stack. */
static const char *join_first(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const struct cutplan *plan = sewing->plan;
    struct texts labels = {.items = {0}};
    for (size_t f = 0; f < w->design->fabrics.count; f++)
        for (size_t i = 0; i < plan->fabrics[f].items.count; i++) {
            const struct cut_item *item = &plan->fabrics[f].items.items[i];
            if (item->use == CUT_BORDER && item->lengths.count > 0)
                texts_add(w, &labels, label_of_item(w, item));
        }
    return labels.items.count == 0
               ? ""
               : say(w->arena, w->phrases, "border.join-first", "labels",
                     texts_listed(w, &labels), NULL);
}

/* What was joined is whole until it is measured; else the note says what to do
 * where the top does not measure what it should. */
void add_border_frames(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const char *join = join_first(sewing);
    *LIST_ADD(w->arena, &sewing->work->ahead) =
        (struct told_note){"", join[0] != '\0' ? join
                                               : say(w->arena, w->phrases,
                                                     "border.otherwise", NULL)};
    add_frames(sewing);
    add_lengths(sewing);
}
