/* The sample order, planned from its patterns as the program does. */
#ifndef SEAMWRIGHT_TESTS_KIT_ORDER_H
#define SEAMWRIGHT_TESTS_KIT_ORDER_H

#include "../kit/ordered.h"

#include "kit_papers.h"
#include "sample.h"

static const char SAMPLE_ORDER[] = "samples/harbor-market.kits";

/* A pattern of an order, compiled once. */
struct kit_source {
    const char *file;
    const struct kit_facts_list *facts;
};
struct kit_sources {
    LIST(struct kit_source) items;
};

static inline const struct kit_facts_list *
source_facts(struct arena *arena, struct kit_sources *sources, const char *file)
{
    for (size_t i = 0; i < sources->items.count; i++)
        if (strcmp(sources->items.items[i].file, file) == 0)
            return sources->items.items[i].facts;
    const struct sample sample =
        sample_fresh(arena, arena_printf(arena, "samples/%s", file));
    const struct kit_facts_list *facts = kit_facts(arena, sample.plans);
    *LIST_ADD(arena, &sources->items) = (struct kit_source){file, facts};
    return facts;
}

/* An order as text, over patterns of samples/. */
static inline struct kits *kits_of_text(struct arena *arena, const char *text)
{
    const struct ordered ordered = ordered_of(arena, text);
    assert_non_null(ordered.order);
    const size_t count = ordered.order->lines.count;
    const struct kit_facts **facts =
        ARENA_ARRAY(arena, const struct kit_facts *, count);
    struct kit_sources sources = {.items = {0}};
    for (size_t i = 0; i < count; i++) {
        const struct order_line *line = &ordered.order->lines.items[i];
        facts[i] = kit_facts_find(source_facts(arena, &sources, line->file),
                                  line->quilt, line->colorway);
        assert_non_null(facts[i]);
    }
    struct kits *kits = ordered_plan(&ordered, facts);
    assert_non_null(kits);
    return kits;
}

static inline struct kits *sample_kits(struct arena *arena)
{
    const struct file_content file = file_read(arena, SAMPLE_ORDER);
    assert_int_equal(file.fault, FILE_OK);
    return kits_of_text(arena, arena_copy(arena, file.bytes, file.length));
}

#endif
