/* Strips of kits that are cut: stacked in layers, squared at an end, cut
 * across. The counts are those of the plan. Read next: section_kit_count.c. */
#include "kit_cutting.h"

/* A size once; which way it lies in the strip tells the segment. */
static const char *segment_text(const struct kit_telling *t,
                                const struct kits_strip *strip,
                                const struct kits_segment *segment)
{
    return say(t->w->arena, t->w->phrases, "kit.segment", "count",
               say_count(t->w->arena, segment->count), "along",
               kit_length(t, segment->along), "size",
               kit_size(t, segment->along, strip->height), NULL);
}

/* In the order along the strip. */
static const char *segments_text(const struct kit_telling *t,
                                 const struct kits_strip *strip)
{
    struct texts texts = {.items = {0}};
    if (strip->segments.count == 0)
        return say(t->w->arena, t->w->phrases, "kit.strip-whole", NULL);
    for (size_t i = 0; i < strip->segments.count; i++)
        texts_add(t->w, &texts,
                  segment_text(t, strip, &strip->segments.items[i]));
    return texts_listed(t->w, &texts);
}

/* One row for all strips that are cut alike. */
static void add_strip(const struct kit_telling *t, struct told_table *table,
                      const struct kits_strip *strip)
{
    struct arena *arena = t->w->arena;
    struct told_row *row = add_row(t->w, table);
    add_ticks(t, row, 1);
    add_words_cell(t->w, row,
                   arena_printf(arena, "%zu\u00a0\u00d7\u00a0%s",
                                strip->repeat, kit_length(t, strip->height)));
    add_words_cell(t->w, row, segments_text(t, strip));
    add_words_cell(t->w, row, say_count(arena, strip->passes));
    add_words_cell(t->w, row, say_count(arena, strip->cross_cuts));
    add_words_cell(t->w, row, say_count(arena, strip->settings));
}

/* Sums of the plan, and what its strips are at least. */
static const char *sums_text(const struct kit_telling *t,
                             const struct kits_cutting *cutting)
{
    struct arena *arena = t->w->arena;
    return say(arena, t->w->phrases, "kit.layers", "layers",
               say_count(arena, t->kits->order->layers), "passes",
               say_count(arena, cutting->passes), "cuts",
               say_count(arena, cutting->cross_cuts), "settings",
               say_count(arena, cutting->settings), "length",
               kit_length(t, cutting->length), "bound",
               kit_length(t, cutting->bound), NULL);
}

/* Below the rolls from which the strips come. */
void add_kit_layers(const struct kit_telling *t, struct contents *contents,
                    const struct kits_cloth *cloth)
{
    static const char *const heads[] = {"kit.head-strips", "kit.head-across",
                                        "kit.head-passes", "kit.head-cuts",
                                        "kit.head-settings"};
    const struct kits_cutting *cutting = &cloth->cutting;
    struct told_table table = {.columns = {0}};
    if (cutting->strips.count == 0)
        return;
    add_column(t->w, &table, COLUMN_WORDS, "");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        add_column(t->w, &table, i < 2 ? COLUMN_WORDS : COLUMN_NUMBER,
                   say(t->w->arena, t->w->phrases, heads[i], NULL));
    for (size_t i = 0; i < cutting->strips.count; i++)
        add_strip(t, &table, &cutting->strips.items[i]);
    add_paragraph(t->w, contents, PART_LAYERS_CUT, sums_text(t, cutting));
    add_table(t->w, contents, PART_LAYERS_CUT, table);
}
