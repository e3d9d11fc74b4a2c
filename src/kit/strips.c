/* Kits whose pieces are cut: the pieces of a cloth of all kits together, laid
 * into strips by the planner of cutting plans, and the strips into layers. */
#include "planner.h"

#include <stdlib.h>

#include "roll.h"

/* ---- what is cut ---- */

/* Longer side first where it may turn, so that sizes are found alike. */
static struct kits_size size_of(const struct kit_piece *piece,
                                struct rational factor)
{
    const struct rational width = rational_mul(piece->width, factor);
    const struct rational height = rational_mul(piece->height, factor);
    const bool turned = piece->turns && rational_compare(width, height) < 0;
    return (struct kits_size){.width = turned ? height : width,
                              .height = turned ? width : height,
                              .turns = piece->turns,
                              .lengthwise = piece->lengthwise,
                              .whole = piece->joined};
}

/* Pieces that measure the same but may lie otherwise are not one size: a
 * print would be turned. */
static struct kits_size *find_size(struct planner *planner,
                                   struct kits_cutting *cutting,
                                   struct kits_size wanted)
{
    for (size_t i = 0; i < cutting->sizes.count; i++) {
        struct kits_size *size = &cutting->sizes.items[i];
        if (rational_equal(size->width, wanted.width) &&
            rational_equal(size->height, wanted.height) &&
            size->turns == wanted.turns &&
            size->lengthwise == wanted.lengthwise &&
            size->whole == wanted.whole)
            return size;
    }
    struct kits_size *size = LIST_ADD(planner->arena, &cutting->sizes);
    *size = wanted;
    return size;
}

/* Labels are those of the booklet, so that its steps hold for a bag. The
 * width is asked for the way in which a piece can lie with the least of it. */
void fill_bag(struct planner *planner, size_t line, size_t content,
              const struct kit_fabric *fabric)
{
    const struct order *order = planner->order;
    struct kits_content *bag =
        &planner->kits->lines[line].contents.items[content];
    struct kits_cloth *cloth = &planner->kits->cloths.items[bag->cloth];
    const struct rational factor =
        length_factor(planner->facts[line]->units, order->units);
    for (size_t i = 0; i < fabric->pieces.count; i++) {
        const struct kit_piece *piece = &fabric->pieces.items[i];
        if (piece->binding && !bag->binding)
            continue;
        struct kits_size *size =
            find_size(planner, &cloth->cutting, size_of(piece, factor));
        const size_t count = piece->count * order->lines.items[line].kits;
        size->count += count;
        *LIST_ADD(planner->arena, &size->takers) =
            (struct kits_taker){.line = line,
                                .content = bag->bag.count,
                                .each = piece->count,
                                .count = count};
        *LIST_ADD(planner->arena, &bag->bag) =
            (struct kits_bag_piece){.label = piece->label,
                                    .width = size->width,
                                    .height = size->height,
                                    .count = piece->count,
                                    .border = piece->border,
                                    .binding = piece->binding,
                                    .joined = piece->joined};
        need_width(planner, bag->cloth, line,
                   size->turns ? size->height : size->width);
    }
    need_width(planner, bag->cloth, line, rational_mul(fabric->needed, factor));
}

/* ---- strips ---- */

/* Adds strips that are cut alike, and what is done to them. A pass goes through
 * all layers: it squares an end and cuts each segment. */
static void add_strip(struct planner *planner, struct kits_cutting *cutting,
                      struct kits_strip strip)
{
    const size_t layers = planner->order->layers;
    size_t cuts = 0;
    strip.settings = 1;
    strip.passes = (strip.repeat + layers - 1) / layers;
    for (size_t i = 0; i < strip.segments.count; i++) {
        bool known = false;
        cuts += strip.segments.items[i].count;
        for (size_t k = 0; k < i; k++)
            known |= rational_equal(strip.segments.items[k].along,
                                    strip.segments.items[i].along);
        strip.settings += !known;
    }
    strip.cross_cuts = cuts == 0 ? 0 : strip.passes * (cuts + 1);
    cutting->passes += strip.passes;
    cutting->cross_cuts += strip.cross_cuts;
    cutting->settings += strip.settings;
    cutting->length = rational_add(
        cutting->length, rational_times(strip.height, (int64_t)strip.repeat));
    *LIST_ADD(planner->arena, &cutting->strips) = strip;
}

/* From units back to lengths. */
static void take_plan(struct planner *planner, struct kits_cutting *cutting,
                      const struct roll_plan *plan, const size_t *sizes,
                      int64_t unit)
{
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip *laid = &plan->strips.items[i];
        struct kits_strip strip = {.height = rational_make(laid->height, unit),
                                   .repeat = laid->repeat};
        for (size_t k = 0; k < laid->cuts.count; k++) {
            const struct roll_cut *cut = &laid->cuts.items[k];
            *LIST_ADD(planner->arena, &strip.segments) = (struct kits_segment){
                sizes[cut->size], cut->count, rational_make(cut->along, unit)};
            cutting->sizes.items[sizes[cut->size]].surplus +=
                cut->count * laid->repeat;
        }
        add_strip(planner, cutting, strip);
    }
}

/* Of the width and all sizes together. */
static int64_t unit_of(const struct kits_cutting *cutting)
{
    int64_t unit = common_denominator(1, cutting->width);
    for (size_t i = 0; i < cutting->sizes.count; i++) {
        unit = common_denominator(unit, cutting->sizes.items[i].width);
        unit = common_denominator(unit, cutting->sizes.items[i].height);
    }
    return unit;
}

/* The width of each piece was asked for before; what is left is a width that
 * no common unit reaches. */
static void report_no_strips(struct planner *planner,
                             const struct kits_cloth *cloth)
{
    const struct kits_size *size = &cloth->cutting.sizes.items[0];
    const struct order_line *line =
        &planner->order->lines.items[size->takers.items[0].line];
    struct diagnostic *d = diag_report(
        planner->run, DIAG_KIT_NARROW, line_span(line, ATTR_COLORWAY),
        "pieces of %s cannot be laid across its %s", told_cloth(planner, cloth),
        told_length(planner, cloth->width));
    diag_help(planner->run, d, "state the true width of the cloth");
}

/* Everything that is no whole strip. Surplus is counted from what the strips
 * hold. */
static void plan_segments(struct planner *planner, struct kits_cloth *cloth,
                          uint64_t work)
{
    struct kits_cutting *cutting = &cloth->cutting;
    const size_t count = cutting->sizes.count;
    const int64_t unit = unit_of(cutting);
    struct arena *scratch = arena_create();
    struct roll_size *sizes = ARENA_ARRAY(scratch, struct roll_size, count);
    size_t *numbers = ARENA_ARRAY(scratch, size_t, count);
    size_t used = 0;
    for (size_t i = 0; i < count; i++) {
        const struct kits_size *size = &cutting->sizes.items[i];
        if (size->whole)
            continue;
        numbers[used] = i;
        sizes[used++] = (struct roll_size){in_units(size->width, unit),
                                           in_units(size->height, unit),
                                           size->count, size->turns, ""};
    }
    const struct roll_problem problem = {
        .width = in_units(cutting->width, unit), .sizes = sizes, .count = used};
    const uint64_t most = roll_work(&problem);
    const struct roll_plan *plan =
        used == 0 || unit == 0
            ? NULL
            : plan_roll(scratch, &problem, work < most ? work : most);
    if (plan != NULL) {
        cutting->bound =
            rational_add(cutting->bound, rational_make(plan->bound, unit));
        take_plan(planner, cutting, plan, numbers, unit);
    } else if (used > 0) {
        report_no_strips(planner, cloth);
    }
    arena_destroy(scratch);
}

/* Whole strips go into the bag as they are. */
static void plan_whole(struct planner *planner, struct kits_cutting *cutting)
{
    for (size_t i = 0; i < cutting->sizes.count; i++) {
        struct kits_size *size = &cutting->sizes.items[i];
        if (!size->whole)
            continue;
        add_strip(
            planner, cutting,
            (struct kits_strip){.height = size->height, .repeat = size->count});
        cutting->bound = rational_add(
            cutting->bound, rational_times(size->height, (int64_t)size->count));
        size->surplus = size->count;
    }
}

/* Surplus is what strips hold beyond what was asked: the last strip of a
 * pattern is cut in part. Each strip is then a cut from a roll. */
void plan_strips(struct planner *planner, size_t index, uint64_t work)
{
    struct kits_cloth *cloth = &planner->kits->cloths.items[index];
    struct kits_cutting *cutting = &cloth->cutting;
    cutting->width = cloth->width;
    cutting->length = cutting->bound = rational_whole(0);
    if (cutting->sizes.count == 0)
        return;
    plan_whole(planner, cutting);
    plan_segments(planner, cloth, work);
    for (size_t i = 0; i < cutting->sizes.count; i++)
        cutting->sizes.items[i].surplus -= cutting->sizes.items[i].count;
    for (size_t i = 0; i < cutting->strips.count; i++)
        add_cut(planner, index, CUT_TO_PIECES, cutting->strips.items[i].height,
                (struct kits_taker){.line = KITS_PIECES,
                                    .count = cutting->strips.items[i].repeat});
}
