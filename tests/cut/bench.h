/* A list of pieces of one cloth, planned without a pattern around it. */
#ifndef SEAMWRIGHT_TESTS_CUT_BENCH_H
#define SEAMWRIGHT_TESTS_CUT_BENCH_H

#include "../resolve/small.h"
#include "cutter.h"

struct bench {
    struct arena *arena;
    struct pattern pattern;
    struct fabric fabric;
    struct design design;
    struct bolt bolt;
    struct cutplan plan;
    struct sewn_quilt quilt;
    struct definition definition;
    struct choices choices;
    struct cutter cutter;
    struct fabric_plan cloth;
};

/* Yardage of this usable width, in inches; no allowance beyond the strips. */
static inline void bench_start(struct bench *bench, struct arena *arena,
                               struct rational width)
{
    *bench = (struct bench){.arena = arena};
    bench->pattern = (struct pattern){.units = UNIT_IN,
                                      .seam = {1, 4},
                                      .cutting_step = {1, 8},
                                      .allowance = {0, 1}};
    bench->fabric.id = "night";
    bench->design.pattern = &bench->pattern;
    bench->design.fabrics.items = &bench->fabric;
    bench->design.fabrics.count = 1;
    bench->bolt.width = width;
    bench->plan.quilt = &bench->quilt;
    bench->quilt.definition = &bench->definition;
    bench->cutter =
        (struct cutter){.run = run_create(arena, source_create(arena, "cut.xml",
                                                               "", 0)),
                        .design = &bench->design,
                        .pattern = &bench->pattern,
                        .plan = &bench->plan,
                        .choices = &bench->choices};
    bench->cloth.bolt = &bench->bolt;
    bench->cloth.strip_length = width;
    bench->cloth.sheet_height = rational_whole(0);
    bench->cloth.allowance = rational_whole(0);
    bench->cloth.least_bought = bench->cloth.apart_bought = rational_unknown();
    bench->bolt.shrinkage = rational_whole(0);
    bench->bolt.reserve = bench->cloth.reserve = rational_whole(0);
    bench->bolt.layers = 4;
    bench->cloth.reserved_bought = rational_unknown();
    bench->bolt.selvage = rational_whole(0);
    bench->bolt.allowance = rational_unknown();
}

/* Sheets instead: `width` along the strip, `height` to stack strips in. */
static inline void bench_sheets(struct bench *bench, int64_t height)
{
    bench->bolt.sold = SOLD_FAT_QUARTER;
    bench->cloth.sheet_height = rational_whole(height);
}

/* Pieces of a cut size in eighths of an inch. */
static inline void bench_add(struct bench *bench, int64_t width, int64_t height,
                             size_t count)
{
    struct cut_item *item = LIST_ADD(bench->arena, &bench->cloth.items);
    item->label = "A1";
    item->width = rational_make(width, 8);
    item->height = rational_make(height, 8);
    item->count = count;
    item->turns = !bench->fabric.one_way;
}

static inline void bench_plan(struct bench *bench)
{
    assert_true(plan_fabric(&bench->cutter, &bench->cloth));
    assert_true(cutplan_holds(&bench->cloth));
    plan_amounts(&bench->cutter, &bench->cloth);
}

static inline size_t bench_strips(const struct bench *bench)
{
    size_t strips = 0;
    for (size_t i = 0; i < bench->cloth.strips.count; i++)
        strips += bench->cloth.strips.items[i].repeat;
    return strips;
}

#endif
