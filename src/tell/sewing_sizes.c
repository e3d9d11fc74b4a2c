/* What stands for each part of a step in its other sizes and casts, as tables.
 * Read next: section_finishing.c. */
#include "sewing.h"

enum { SIZE_PARTS = 3 };

/* "A4: 4 of 6½ × 6½ in", as a count behind a size is read as one more length; or
 * the name of what was sewn. */
static const char *size_part(const struct wording *w,
                             const struct told_part *part)
{
    const struct heap *heap = &w->quilt->heaps.items[part->heap];
    const char *name = word_part(w, part->heap);
    const char *count = say_count(w->arena, part->count);
    if (heap->technique == TECHNIQUE_CUT)
        return say(w->arena, w->phrases, "step.size-part", "label", name,
                   "count", count, "size",
                   word_cut_size(w, heap->of.cut.fabric, heap->of.cut.width,
                                 heap->of.cut.height),
                   NULL);
    return arena_printf(
        w->arena, "%s %s", name,
        say(w->arena, w->phrases, "step.part-count", "count", count, NULL));
}

/* Are the others of the step of its own size, in other fabrics? */
bool are_casts(const struct sewing *sewing)
{
    const struct told_step *step = sewing->step;
    for (size_t i = 0; i < step->sizes.count; i++)
        if (!is_other_cast(sewing->w->quilt, step->sizes.items[i].heap))
            return false;
    return step->sizes.count > 0;
}

/* Some of the parts of a step, by their numbers in its line of parts. */
struct part_range {
    size_t from, count;
    const size_t *parts;
};

/* A cast leads to the cutting of the first part that it cuts from cloth of its
 * own; other sizes lead nowhere. */
static struct told_text name_of_size(const struct sewing *sewing,
                                     const struct told_size *size,
                                     struct part_range range)
{
    const struct wording *w = sewing->w;
    const char *name = word_part(w, size->heap);
    for (size_t i = 0; are_casts(sewing) && i < range.count; i++) {
        if (range.parts[i] >= size->parts.items.count ||
            sewing->step->parts.items.items[range.parts[i]].shared)
            continue;
        const size_t part = size->parts.items.items[range.parts[i]].heap;
        if (w->quilt->heaps.items[part].technique != TECHNIQUE_CUT)
            continue;
        struct told_text link = link_to_cutting(w, part);
        link.text = name;
        return link;
    }
    return (struct told_text){name, NULL, NULL};
}

/* Name, count and measure stand in the first table alone. */
static void add_heads(const struct sewing *sewing, struct told_table *table,
                      struct part_range range)
{
    const struct wording *w = sewing->w;
    const struct told_part *parts = sewing->step->parts.items.items;
    const bool first = range.from == 0;
    add_column(w, table, COLUMN_WORDS,
               are_casts(sewing)
                   ? say(w->arena, w->phrases, "step.other-cast", NULL)
                   : say(w->arena, w->phrases, "step.other-size", NULL));
    for (size_t i = 0; i < range.count; i++) {
        const struct told_part *part = &parts[range.parts[i]];
        const char *name = word_part(w, part->heap);
        add_column(w, table, COLUMN_WORDS,
                   part->shared ? name
                                : say(w->arena, w->phrases, "step.in-place-of",
                                      "part", name, NULL));
    }
    add_column(w, table, COLUMN_WORDS,
               first ? say(w->arena, w->phrases, "step.head-make", NULL) : "");
    add_column(w, table, COLUMN_WORDS,
               first ? say(w->arena, w->phrases, "step.head-measures", NULL)
                     : "");
}

static void add_size(const struct sewing *sewing, struct told_table *table,
                     const struct told_size *size, struct part_range range)
{
    const struct wording *w = sewing->w;
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const struct heap *heap = &w->quilt->heaps.items[size->heap];
    const bool first = range.from == 0;
    struct told_row *row = add_row(w, table);
    add_words_cell(w, row, "")->text = name_of_size(sewing, size, range);
    for (size_t i = 0; i < range.count; i++)
        add_words_cell(
            w, row,
            range.parts[i] < size->parts.items.count
                ? size_part(w, &size->parts.items.items[range.parts[i]])
                : "");
    add_words_cell(w, row, first ? say_count(w->arena, size->count) : "");
    add_words_cell(w, row,
                   first ? word_size_unit(w, rational_add(heap->width, seams),
                                          rational_add(heap->height, seams))
                         : "");
}

/* The step's own size. The line of parts has those that all casts share once, with
 * the count of all; here each kind has its own. */
static struct told_size own_size(const struct sewing *sewing)
{
    const struct told_step *step = sewing->step;
    struct told_size own = {step->heap, step->count, {.items = {0}}};
    for (size_t i = 0; i < step->parts.items.count; i++) {
        struct told_part part = step->parts.items.items[i];
        for (size_t k = 0; part.shared && k < step->sizes.count; k++)
            part.count -= step->sizes.items[k].parts.items.items[i].count;
        *LIST_ADD(sewing->w->arena, &own.parts.items) = part;
    }
    return own;
}

/* What each of those parts is in place of. The step's own cast is one of them.
 */
static void add_size_table(const struct sewing *sewing, struct part_range range)
{
    const struct told_step *step = sewing->step;
    const struct told_size own = own_size(sewing);
    struct told_table table = {.rows = {0}};
    add_heads(sewing, &table, range);
    for (size_t k = are_casts(sewing) ? 0 : 1; k <= step->sizes.count; k++)
        add_size(sewing, &table, k == 0 ? &own : &step->sizes.items[k - 1],
                 range);
    *LIST_ADD(sewing->w->arena, &sewing->work->tables) = table;
}

/* More parts than a row has room for go on in a table below; there, what all casts
 * share stands in the line of parts alone. */
void add_sizes(const struct sewing *sewing)
{
    const size_t all = sewing->step->parts.items.count;
    size_t *parts = ARENA_ARRAY(sewing->w->arena, size_t, all + 1);
    size_t count = 0;
    for (size_t i = 0; i < all; i++)
        if (all <= SIZE_PARTS || !sewing->step->parts.items.items[i].shared)
            parts[count++] = i;
    for (size_t i = 0; sewing->step->sizes.count > 0 && i < count;
         i += SIZE_PARTS)
        add_size_table(
            sewing,
            (struct part_range){
                i, count - i < SIZE_PARTS ? count - i : SIZE_PARTS, parts + i});
}
