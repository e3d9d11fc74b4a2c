/* Orders from a text, and facts made in memory, so that a test says all that it
 * counts on. */
#ifndef SEAMWRIGHT_TESTS_ORDERED_H
#define SEAMWRIGHT_TESTS_ORDERED_H

#include "../unit.h"

#include <stdio.h>
#include <string.h>

#include "kits.h"
#include "render.h"

/* An order that is read and resolved. */
struct ordered {
    struct run *run;
    const struct order *order; /* NULL where there was an error */
};

/* Prints what was reported: a test that fails shows it. */
static inline void ordered_show(const struct ordered *ordered)
{
    diag_print(ordered->run, (struct diag_style){false, false}, stdout);
}

static inline struct ordered ordered_of(struct arena *arena, const char *text)
{
    struct ordered ordered = {.run = NULL};
    const struct source *source =
        source_create(arena, "test.kits", text, strlen(text));
    ordered.run = run_create(arena, source);
    assert_true(is_order(source));
    const struct element *root = read_order(ordered.run);
    assert_non_null(root);
    if (diag_count(ordered.run, DIAG_ERROR) == 0)
        ordered.order = resolve_order(ordered.run, root);
    if (diag_count(ordered.run, DIAG_ERROR) > 0)
        ordered_show(&ordered);
    return ordered;
}

static inline struct kits *ordered_plan(const struct ordered *ordered,
                                        const struct kit_facts *const *facts)
{
    struct kits *kits = plan_kits(ordered->run, ordered->order, facts);
    if (kits == NULL)
        ordered_show(ordered);
    else
        prove_kits(kits);
    return kits;
}

/* A fabric that is sold by length: so many eighths of a yard. */
static inline struct kit_fabric *facts_yardage(struct arena *arena,
                                               struct kit_facts *facts,
                                               const char *code,
                                               int64_t eighths)
{
    struct kit_fabric *fabric = LIST_ADD(arena, &facts->fabrics);
    *fabric =
        (struct kit_fabric){.letter = "A",
                            .role = code,
                            .name = code,
                            .code = code,
                            .color = 0x446688,
                            .sold = SOLD_YARDAGE,
                            .width = rational_whole(42),
                            .needed = rational_whole(40),
                            .price = rational_unknown(),
                            .top = true,
                            .amount = rational_make(eighths * 9, 2),
                            .amount_unbound = rational_make(eighths * 9, 2)};
    *LIST_ADD(arena, &fabric->pieces) =
        (struct kit_piece){.label = "A1",
                           .width = rational_whole(40),
                           .height = rational_whole(2),
                           .count = 1};
    return fabric;
}

/* A fabric that is sold as so many fat quarters. */
static inline void facts_quarters(struct arena *arena, struct kit_facts *facts,
                                  const char *code, size_t count)
{
    struct kit_fabric *fabric = facts_yardage(arena, facts, code, 0);
    fabric->sold = SOLD_FAT_QUARTER;
    fabric->sheets = count;
    fabric->needed = rational_whole(0);
}

static inline struct kit_facts *
facts_new(struct arena *arena, const char *quilt, const char *colorway)
{
    struct kit_facts *facts = ARENA_NEW(arena, struct kit_facts);
    *facts = (struct kit_facts){.pattern_id = quilt,
                                .title = quilt,
                                .quilt = quilt,
                                .quilt_name = quilt,
                                .colorway = colorway,
                                .colorway_name = colorway,
                                .units = UNIT_IN,
                                .width = rational_whole(60),
                                .height = rational_whole(70),
                                .backing_amount = rational_whole(0)};
    return facts;
}

static inline const struct kits_cloth *cloth_named(const struct kits *kits,
                                                   const char *code)
{
    for (size_t i = 0; i < kits->cloths.count; i++)
        if (strcmp(kits->cloths.items[i].code, code) == 0)
            return &kits->cloths.items[i];
    fail_msg("there is no cloth %s", code);
    return NULL;
}

#define assert_rational(value, numerator, denominator) \
    assert_true(                                       \
        rational_equal((value), rational_make((numerator), (denominator))))

#endif
