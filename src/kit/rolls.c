/* Cuts of a cloth, laid on the rolls of the shelf and on bought ones: the
 * planner of lengths (bolts.h) chooses, here its whole numbers become lengths
 * again, and each cut gets the kit that it is for. Read next: ledger.c. */
#include "planner.h"

#include <stdlib.h>
#include <string.h>

/* A length that can be used at one stretch: a bolt of the shelf, or what lies
 * between two of its flaws; or a bought one. */
struct stretch {
    const struct order_bolt *bolt; /* NULL: bought */
    size_t number;                 /* of the bolt in the order, from 1 */
    size_t age; /* rank of the bolt among those of the cloth */
    struct rational from, length;
};

/* Ends are written for the next order, and no length is read that is finer. */
enum { LENGTH_FINEST = 10000 };

/* One cloth on its way. */
struct laying {
    struct planner *planner;
    struct arena *scratch;
    struct kits_cloth *cloth;
    size_t index;
    LIST(struct stretch) stretches; /* as the rolls of the problem */
    int64_t unit;                   /* lengths are in 1/unit */
    int64_t coin;                   /* costs in 1/coin */
    size_t *taker, *taken; /* by cut: which taker is served, and how often */
    size_t bought;         /* rolls that were numbered */
};

/* ---- what there is ---- */

/* By the widest cut of the cloth: a bolt that serves only some of the cuts
 * is no stock, as strips for it would be planned apart. */
static bool is_wide_enough(const struct kits_cloth *cloth,
                           const struct order_bolt *bolt)
{
    return !rational_known(bolt->width) ||
           rational_compare(bolt->width, cloth->needed) >= 0;
}

/* One of no length, as between two flaws that touch, is none. */
static void add_stretch(struct laying *l, struct stretch of,
                        struct rational from, struct rational to)
{
    of.from = from;
    of.length = rational_sub(to, from);
    if (rational_sign(of.length) > 0)
        *LIST_ADD(l->scratch, &l->stretches) = of;
}

/* A flaw parts a bolt in two. The end of one on the shelf was squared when it
 * was cut last. */
static void find_stretches(struct laying *l)
{
    const struct order *order = l->planner->order;
    size_t age = 0; /* older ones stand first in the order */
    for (size_t i = 0; i < order->bolts.count; i++) {
        const struct order_bolt *bolt = &order->bolts.items[i];
        if (!is_stock_of(bolt->of, l->cloth))
            continue;
        if (!is_wide_enough(l->cloth, bolt)) {
            *LIST_ADD(l->planner->arena, &l->cloth->narrow) = bolt;
            continue;
        }
        const struct stretch of = {.bolt = bolt, .number = i + 1, .age = age++};
        struct rational from = rational_whole(0);
        for (size_t k = 0; k < bolt->flaws.count; k++) {
            add_stretch(l, of, from, bolt->flaws.items[k].from);
            from = bolt->flaws.items[k].to;
        }
        add_stretch(l, of, from, bolt->length);
    }
}

/* An upper bound of what is ever bought at once by length. */
static struct rational all_cuts(const struct kits_cloth *cloth)
{
    struct rational sum = rational_whole(0);
    for (size_t i = 0; i < cloth->cuts.count; i++)
        sum = rational_add(sum,
                           rational_times(cloth->cuts.items[i].length,
                                          (int64_t)cloth->cuts.items[i].count));
    return sum;
}

/* A new bolt less what its end loses; or one length of as many steps as all
 * cuts might take. Cloth that is sold as pieces has no length. */
static void add_bought(struct laying *l)
{
    const struct kits_cloth *cloth = l->cloth;
    const struct stretch bought = {.bolt = NULL};
    if (cloth->sold == SELL_BOLT)
        add_stretch(l, bought, l->planner->order->end_loss, cloth->step);
    else if (cloth->sold != SELL_FAT_QUARTER)
        add_stretch(l, bought, rational_whole(0),
                    rational_round_up(all_cuts(cloth), cloth->step));
}

/* ---- in whole numbers ---- */

/* One unit for all lengths of the cloth, and one for its price, so that the
 * planner has whole numbers and its proofs are exact. */
static bool find_units(struct laying *l)
{
    const struct order *order = l->planner->order;
    const struct kits_cloth *cloth = l->cloth;
    int64_t unit = common_denominator(1, order->keep);
    if (cloth->sold != SELL_FAT_QUARTER)
        unit = common_denominator(unit, cloth->step);
    for (size_t i = 0; i < cloth->cuts.count; i++)
        unit = common_denominator(unit, cloth->cuts.items[i].length);
    for (size_t i = 0; i < l->stretches.count; i++)
        unit = common_denominator(unit, l->stretches.items[i].length);
    const struct rational all = rational_times(all_cuts(cloth), unit);
    l->unit = unit;
    l->coin =
        rational_known(cloth->price) ? common_denominator(1, cloth->price) : 1;
    return unit > 0 && unit <= LENGTH_FINEST && l->coin > 0 &&
           rational_known(all) &&
           rational_compare(all, rational_whole(BOLTS_MOST)) < 0;
}

/* Without a price the length that is bought is what counts. */
static int64_t step_cost(const struct laying *l)
{
    return rational_known(l->cloth->price) ? in_units(l->cloth->price, l->coin)
                                           : in_units(l->cloth->step, l->unit);
}

/* What lies on the shelf costs nothing more. A bolt is bought as often as it
 * is needed; a length once, and as long as it must be. */
static struct bolt_roll roll_of(const struct laying *l,
                                const struct stretch *stretch)
{
    struct bolt_roll roll = {.length = in_units(stretch->length, l->unit),
                             .count = 1,
                             .age = stretch->age};
    if (stretch->bolt != NULL)
        return roll;
    if (l->cloth->sold == SELL_BOLT) {
        roll.count = BOLT_WITHOUT_LIMIT;
        roll.cost = step_cost(l);
        return roll;
    }
    roll.step = in_units(l->cloth->step, l->unit);
    roll.step_cost = step_cost(l);
    return roll;
}

/* ---- what is wrong ---- */

/* Whom a message about this cut is for: half yards and strips for bags have
 * no line of their own. */
static const struct order_line *first_line(const struct laying *l,
                                           const struct kits_cut *cut)
{
    size_t line = cut->takers.items[0].line;
    if (line >= l->planner->order->lines.count)
        line = l->planner->origins.items[l->index].line;
    return &l->planner->order->lines.items[line];
}

/* The kit is named, since its style or its cloth may be what is wrong. */
static void report_long(const struct laying *l, const struct kits_cut *cut)
{
    struct planner *planner = l->planner;
    const struct order_line *line = first_line(l, cut);
    struct rational longest = rational_whole(0);
    for (size_t i = 0; i < l->stretches.count; i++)
        longest = rational_max(longest, l->stretches.items[i].length);
    struct diagnostic *d = diag_report(
        planner->run, DIAG_KIT_LONG, line_span(line, ATTR_QUILT),
        "a kit of `%s` takes %s of %s, longer than every bolt", line->quilt,
        told_length(planner, cut->length), told_cloth(planner, l->cloth));
    diag_note(planner->run, d,
              l->cloth->stated == NULL
                  ? (struct span){0, 0}
                  : cloth_span(l->cloth->stated, ATTR_BOLT_LENGTH),
              "the longest that can be used has %s",
              told_length(planner, longest));
    diag_help(planner->run, d,
              "order longer bolts, or another style for these kits");
}

/* Nothing that could be bought would be a length of this cloth. */
static void report_supply(const struct laying *l)
{
    struct planner *planner = l->planner;
    const struct kits_cut *cut = &l->cloth->cuts.items[0];
    struct diagnostic *d =
        diag_report(planner->run, DIAG_KIT_SUPPLY,
                    l->cloth->stated == NULL
                        ? line_span(first_line(l, cut), ATTR_QUILT)
                        : cloth_span(l->cloth->stated, ATTR_ORDER_SOLD),
                    "kits take %s of %s, which is not sold by length",
                    told_length(planner, all_cuts(l->cloth)),
                    told_cloth(planner, l->cloth));
    diag_note(planner->run, d, (struct span){0, 0},
              "bolts on the shelf do not suffice");
    diag_help(planner->run, d,
              "say how it is sold, or ask for kits in "
              "style=\"fat-quarters\"");
}

/* Ends are written for the next order; a finer one could not be read back. */
static void report_units(const struct laying *l)
{
    struct diagnostic *d = diag_report(
        l->planner->run, DIAG_LIMIT,
        line_span(first_line(l, &l->cloth->cuts.items[0]), ATTR_KITS),
        "lengths of the cloth %s have no common step that is told exactly",
        told_cloth(l->planner, l->cloth));
    diag_help(l->planner->run, d, "write its lengths in parts of one ruler");
}

/* ---- from whole numbers ---- */

/* Serves the takers of a cut in their order, so that kits of a line lie
 * together. */
static void add_runs(struct laying *l, struct kits_roll *roll, size_t cut_index,
                     size_t count, struct rational *at)
{
    const struct kits_cut *cut = &l->cloth->cuts.items[cut_index];
    while (count > 0) {
        const struct kits_taker *taker =
            &cut->takers.items[l->taker[cut_index]];
        const size_t left = taker->count - l->taken[cut_index];
        if (left == 0) {
            l->taker[cut_index]++;
            l->taken[cut_index] = 0;
            continue;
        }
        const size_t now = count < left ? count : left;
        *at = rational_add(*at, rational_times(cut->length, (int64_t)now));
        *LIST_ADD(l->planner->arena, &roll->runs) =
            (struct kits_run){cut_index, taker->line, now, *at};
        l->taken[cut_index] += now;
        count -= now;
    }
}

/* A use that repeats becomes as many rolls: each is cut at its own time, for
 * its own kits. */
static void add_roll(struct laying *l, const struct bolt_use *use)
{
    const struct stretch *stretch = &l->stretches.items[use->roll];
    const struct order *order = l->planner->order;
    struct kits_roll *roll = LIST_ADD(l->planner->arena, &l->cloth->rolls);
    roll->bolt = stretch->bolt;
    roll->number = stretch->bolt != NULL ? stretch->number : ++l->bought;
    roll->from = stretch->from;
    roll->length = rational_make(use->taken, l->unit);
    roll->left = rational_make(use->left, l->unit);
    roll->used = rational_sub(roll->length, roll->left);
    roll->kept = rational_sign(roll->left) > 0 &&
                 rational_compare(roll->left, order->keep) >= 0;
    struct rational at = roll->from;
    for (size_t i = 0; i < use->parts.count; i++)
        add_runs(l, roll, use->parts.items[i].cut, use->parts.items[i].count,
                 &at);
}

/* Merits and bounds go with the plan, so that papers can say what is proven. */
static void take_plan(struct laying *l, const struct bolts_plan *plan)
{
    struct kits_cloth *cloth = l->cloth;
    l->taker = ARENA_ARRAY(l->scratch, size_t, cloth->cuts.count);
    l->taken = ARENA_ARRAY(l->scratch, size_t, cloth->cuts.count);
    for (size_t i = 0; i < plan->uses.count; i++)
        for (size_t k = 0; k < plan->uses.items[i].repeat; k++)
            add_roll(l, &plan->uses.items[i]);
    for (int i = 0; i < BOLT_MERITS; i++) {
        cloth->merit[i] = plan->merit[i];
        cloth->bound[i] = plan->bound[i];
        cloth->proven[i] = plan->proven[i];
    }
    cloth->unit = rational_make(1, l->unit);
    cloth->coin = rational_make(1, l->coin);
}

/* As rolls are cut: what is left after long cuts serves short ones, should
 * one be spoilt. */
static int longer_first(const void *a, const void *b)
{
    const struct kits_cut *one = a, *other = b;
    const int length = rational_compare(other->length, one->length);
    return length != 0 ? length
                       : (one->kind > other->kind) - (one->kind < other->kind);
}

/* Cuts and rolls by the same indexes as ours, so that the plan needs no
 * table to come back. */
static struct bolts_problem problem_of(const struct laying *l)
{
    const struct kits_cloth *cloth = l->cloth;
    struct bolt_cut *cuts =
        ARENA_ARRAY(l->scratch, struct bolt_cut, cloth->cuts.count);
    struct bolt_roll *rolls =
        ARENA_ARRAY(l->scratch, struct bolt_roll, l->stretches.count);
    for (size_t i = 0; i < cloth->cuts.count; i++)
        cuts[i] =
            (struct bolt_cut){in_units(cloth->cuts.items[i].length, l->unit),
                              cloth->cuts.items[i].count};
    for (size_t i = 0; i < l->stretches.count; i++)
        rolls[i] = roll_of(l, &l->stretches.items[i]);
    return (struct bolts_problem){cuts, cloth->cuts.count, rolls,
                                  l->stretches.count,
                                  in_units(l->planner->order->keep, l->unit)};
}

/* A cloth of which nothing is cut keeps its rolls; what is too narrow of it
 * is noted all the same. */
static void lay(struct laying *l, uint64_t work)
{
    struct kits_cloth *cloth = l->cloth;
    find_stretches(l);
    if (cloth->cuts.count == 0)
        return;
    qsort(cloth->cuts.items, cloth->cuts.count, sizeof *cloth->cuts.items,
          longer_first);
    add_bought(l);
    if (!find_units(l)) {
        report_units(l);
        return;
    }
    const struct bolts_problem problem = problem_of(l);
    const struct bolts_plan *plan = plan_bolts(l->scratch, &problem, work);
    switch (plan->end) {
    case BOLTS_PLANNED:
        take_plan(l, plan);
        break;
    case BOLTS_TOO_LONG:
        if (cloth->sold == SELL_FAT_QUARTER)
            report_supply(l);
        else
            report_long(l, &cloth->cuts.items[plan->too_long]);
        break;
    case BOLTS_NO_PLAN:
    case BOLTS_NOT_FOUND:
        report_supply(l);
        break;
    }
}

/* The search leaves megabytes behind, so it has memory of its own. */
void plan_rolls(struct planner *planner, size_t index, uint64_t work)
{
    struct laying l = {.planner = planner,
                       .scratch = arena_create(),
                       .cloth = &planner->kits->cloths.items[index],
                       .index = index};
    l.cloth->unit = l.cloth->coin = rational_whole(1);
    lay(&l, work);
    arena_destroy(l.scratch);
}
