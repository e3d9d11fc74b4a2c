/* Trials and facts in words, in the language of the wording. */
#include "least.h"
#include "telling.h"

static const struct heap *heap_of(const struct wording *w, size_t heap)
{
    return &w->quilt->heaps.items[heap];
}

static const char *number(const struct wording *w, size_t value)
{
    return say_count(w->arena, value);
}

/* ---- trials ---- */

/* The cells of a window row by row, each as it is called. */
static const char *word_cells(const struct wording *w,
                              const struct trial *trial)
{
    const struct heap *join = heap_of(w, trial->heap);
    const char *names[4] = {NULL};
    size_t count = 0;
    for (size_t r = 0; r < trial->down; r++)
        for (size_t c = 0; c < trial->across; c++)
            names[count++] =
                word_part(w, join->inputs
                                 .items[(trial->row + r) * heap_across(join) +
                                        trial->column + c]
                                 .heap);
    return word_list(w, names, count);
}

/* Where they lie is told from the first place in which they are beside each
 * other, so that they are found in the figure of the whole. */
static const char *word_neighbors(const struct wording *w,
                                  const struct trial *trial)
{
    const char *cells = word_cells(w, trial);
    const char *join = word_part(w, trial->heap);
    const char *row = number(w, trial->row + 1);
    const char *below = number(w, trial->row + 2);
    const char *column = number(w, trial->column + 1);
    const char *next = number(w, trial->column + 2);
    if (trial->down == 1)
        return say(w->arena, w->phrases, "least.side", "cells", cells, "join",
                   join, "row", row, "column", column, "next", next, NULL);
    if (trial->across == 1)
        return say(w->arena, w->phrases, "least.stacked", "cells", cells,
                   "join", join, "row", row, "below", below, "column", column,
                   NULL);
    return say(w->arena, w->phrases, "least.four", "cells", cells, "join", join,
               "row", row, "below", below, "column", column, "next", next,
               NULL);
}

/* Told by the two whose seam it is, and from which of the first's parts on. */
static const char *word_cutout(const struct wording *w,
                               const struct trial *trial)
{
    const struct heap *join = heap_of(w, trial->heap);
    const bool level = trial->down == 2;
    const size_t first = trial->row * heap_across(join) + trial->column;
    const size_t second = first + (level ? heap_across(join) : 1);
    size_t count = trial->cells.count;
    const char **names = ARENA_ARRAY(w->arena, const char *, count + 1);
    for (size_t i = 0; i < count; i++)
        names[i] = word_part(w, trial->cells.items[i]);
    if (trial->has_scrap)
        names[count++] =
            say(w->arena, w->phrases, "least.scrap", "size",
                word_size_unit(w, trial->scrap_width, trial->scrap_height),
                NULL);
    return say(w->arena, w->phrases,
               level ? "least.cutout-level" : "least.cutout-upright", "count",
               number(w, count), "cells", word_list(w, names, count), "first",
               word_part(w, join->inputs.items[first].heap), "second",
               word_part(w, join->inputs.items[second].heap), "join",
               word_part(w, trial->heap), "place", number(w, trial->place + 1),
               NULL);
}

const char *word_trial(const struct wording *w, const struct trial *trial)
{
    const struct heap *heap = heap_of(w, trial->heap);
    const struct rational side = trial->kind == TRIAL_BORDER
                                     ? corner_length(w, heap)
                                     : rational_whole(0);
    switch (trial->kind) {
    case TRIAL_HEAP:
        return say(w->arena, w->phrases, "least.heap", "name",
                   word_part(w, trial->heap), NULL);
    case TRIAL_NEIGHBORS:
        return word_neighbors(w, trial);
    case TRIAL_CUTOUT:
        return word_cutout(w, trial);
    case TRIAL_BORDER:
        break;
    }
    return say(w->arena, w->phrases, "least.border", "number",
               number(w, heap->of.border->number), "size",
               word_length_unit(w, side), NULL);
}

/* ---- facts ---- */

static const char *title_of(const struct wording *w, size_t heap)
{
    return telling_of(heap_of(w, heap))->title(w, heap_of(w, heap));
}

/* A title alone would not tell two methods apart, so the first part that is
 * made by it stands behind. */
static const char *word_technique(const struct wording *w,
                                  const struct sew_fact *fact)
{
    const struct heap *heap = heap_of(w, fact->heap);
    if (heap->technique == TECHNIQUE_BORDER)
        return say(w->arena, w->phrases, "fact.border", "number",
                   number(w, heap->of.border->number), NULL);
    return say(w->arena, w->phrases, "fact.technique", "title",
               title_of(w, fact->heap), "part", word_part(w, fact->heap), NULL);
}

/* As a ruler measures it: with the seam allowances. */
static const char *word_measured(const struct wording *w,
                                 const struct sew_fact *fact)
{
    const struct heap *heap = heap_of(w, fact->heap);
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    return say(w->arena, w->phrases, "fact.size", "part",
               word_part(w, fact->heap), "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               NULL);
}

static const char *degrees_of(const struct wording *w, unsigned turn)
{
    return number(w, turn * (size_t)90);
}

/* Clockwise from how the unit lay when it was made. */
static const char *word_turn(const struct wording *w,
                             const struct sew_fact *fact)
{
    const char *part = word_part(w, fact->heap);
    const char *parent = word_part(w, fact->parent);
    return fact->turn == 0 ? say(w->arena, w->phrases, "fact.upright", "part",
                                 part, "parent", parent, NULL)
                           : say(w->arena, w->phrases, "fact.turned", "part",
                                 part, "parent", parent, "degrees",
                                 degrees_of(w, fact->turn), NULL);
}

/* The part is the first in which such a seam is pressed so; seams of a join are
 * told by how they run, as rows and columns are pressed apart. */
static const char *word_press_way(const struct wording *w,
                                  const struct sew_fact *fact)
{
    static const char *const keys[] = {
        [PRESS_RULE] = "fact.way-rule",
        [PRESS_OPEN] = "press.way-open",
        [PRESS_LEFT] = "press.way-left",
        [PRESS_RIGHT] = "press.way-right",
        [PRESS_UP] = "press.way-up",
        [PRESS_DOWN] = "press.way-down",
        [PRESS_TOWARD_CORNER] = "fact.way-corner",
        [PRESS_TOWARD_BORDER] = "fact.way-border",
        [PRESS_SOLVE] = "fact.way-rule",
        [PRESS_TOWARD_FABRIC] = "fact.way-fabric"};
    const char *way = say(w->arena, w->phrases, keys[fact->side], NULL);
    const char *part = word_part(w, fact->heap);
    switch (fact->operation->laid) {
    case LAID_ACROSS:
        return say(w->arena, w->phrases, "fact.press-across", "part", part,
                   "way", way, NULL);
    case LAID_DOWN:
        return say(w->arena, w->phrases, "fact.press-down", "part", part, "way",
                   way, NULL);
    case LAID_TOGETHER:
        break;
    }
    return say(w->arena, w->phrases, "fact.press", "part", part, "way", way,
               NULL);
}

/* No part: the same kind of meeting is the same skill, wherever it is. */
static const char *word_meeting(const struct wording *w,
                                const struct sew_fact *fact)
{
    static const char *const keys[] = {[MEET_NESTED] = "fact.nested",
                                       [MEET_OPEN] = "fact.open",
                                       [MEET_SAME_SIDE] = "fact.same",
                                       [MEET_EIGHT] = "fact.eight",
                                       [MEET_SET_IN] = "fact.set-in"};
    return say(w->arena, w->phrases, keys[fact->meeting], NULL);
}

/* Fabrics have a name in the pattern; colorways do not matter here. */
static const char *word_print(const struct wording *w,
                              const struct sew_fact *fact)
{
    return say(w->arena, w->phrases,
               fact->slanted ? "fact.print-slanted" : "fact.print", "fabric",
               w->design->fabrics.items[fact->fabric].name, "degrees",
               degrees_of(w, fact->turn), NULL);
}

const char *word_fact(const struct wording *w, const struct sew_fact *fact)
{
    switch (fact->kind) {
    case FACT_TECHNIQUE:
        return word_technique(w, fact);
    case FACT_LINE:
        return say(w->arena, w->phrases, "fact.line", "title",
                   title_of(w, fact->heap), "line", word_line(w, fact->line),
                   NULL);
    case FACT_CORNER:
        return say(w->arena, w->phrases, "fact.corner", "title",
                   title_of(w, fact->heap), "place", word_place(w, fact->at),
                   NULL);
    case FACT_SIZE:
        return word_measured(w, fact);
    case FACT_MIRROR:
        return word_part(w, fact->heap);
    case FACT_TURN:
        return word_turn(w, fact);
    case FACT_PRESS:
        return word_press_way(w, fact);
    case FACT_MEETING:
        return word_meeting(w, fact);
    case FACT_PRINT:
    case FACT_KINDS:
        break;
    }
    return word_print(w, fact);
}

const char *word_fact_kind(const struct wording *w, enum sew_fact_kind kind)
{
    static const char *const keys[] = {[FACT_TECHNIQUE] = "fact.kind-technique",
                                       [FACT_LINE] = "fact.kind-line",
                                       [FACT_CORNER] = "fact.kind-corner",
                                       [FACT_SIZE] = "fact.kind-size",
                                       [FACT_MIRROR] = "fact.kind-mirror",
                                       [FACT_TURN] = "fact.kind-turn",
                                       [FACT_PRESS] = "fact.kind-press",
                                       [FACT_MEETING] = "fact.kind-meeting",
                                       [FACT_PRINT] = "fact.kind-print"};
    return say(w->arena, w->phrases, keys[kind], NULL);
}
