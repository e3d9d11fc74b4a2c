/* The shortest plan that is found, and a bound: lists fall apart into groups of
 * sizes that share no height of strip, and each group is planned alone. No
 * strip holds sizes of two groups, so lengths and bounds add up, and several
 * small programmes are solved sooner than a large one. */
#include <stdlib.h>

#include "roll_large.h"
#include "roll_plan.h"
#include "roll_search.h"

__extension__ typedef __int128 wide;

/* ---- groups ---- */

/* Sizes that can lie in strips of one height belong together, and with them all
 * that share another height with one of them. It ends, as names only fall. */
static void join_groups(const struct roll_master *master, size_t *group)
{
    bool changed = true;
    while (changed) {
        changed = false;
        for (size_t k = 0; k < master->heights.count; k++) {
            const struct roll_height *height = &master->heights.items[k];
            size_t least = SIZE_MAX;
            for (size_t i = 0; i < height->ways.count; i++)
                if (group[height->ways.items[i].size] < least)
                    least = group[height->ways.items[i].size];
            for (size_t i = 0; i < height->ways.count; i++) {
                changed |= group[height->ways.items[i].size] != least;
                group[height->ways.items[i].size] = least;
            }
        }
    }
}

/* Sizes that are asked for at all. `original` gets their places in the list. */
static struct roll_problem asked_for(struct arena *arena,
                                     const struct roll_problem *problem,
                                     const size_t *group, size_t chosen,
                                     size_t *original)
{
    struct roll_size *sizes =
        ARENA_ARRAY(arena, struct roll_size, problem->count);
    size_t count = 0;
    for (size_t i = 0; i < problem->count; i++) {
        if (problem->sizes[i].demand == 0 ||
            (group != NULL && group[i] != chosen))
            continue;
        original[count] = i;
        sizes[count++] = problem->sizes[i];
    }
    struct roll_problem part = *problem;
    part.sizes = sizes;
    part.count = count;
    return part;
}

/* By size the group, named by one of its members; of sizes that are not asked
 * for SIZE_MAX. */
static size_t *find_groups(struct arena *arena,
                           const struct roll_problem *problem)
{
    size_t *original = ARENA_ARRAY(arena, size_t, problem->count);
    size_t *group = ARENA_ARRAY(arena, size_t, problem->count);
    size_t *part_group = ARENA_ARRAY(arena, size_t, problem->count);
    const struct roll_problem part =
        asked_for(arena, problem, NULL, 0, original);
    struct roll_master master;
    roll_master_init(&master, arena, &part);
    for (size_t i = 0; i < part.count; i++)
        part_group[i] = i;
    join_groups(&master, part_group);
    for (size_t i = 0; i < problem->count; i++)
        group[i] = SIZE_MAX;
    for (size_t i = 0; i < part.count; i++)
        group[original[i]] = original[part_group[i]];
    return group;
}

/* Cloth that all pieces cover, as a length of full width. */
int64_t roll_area_bound(const struct roll_problem *problem)
{
    wide area = 0;
    for (size_t i = 0; i < problem->count; i++)
        area += (wide)problem->sizes[i].width * problem->sizes[i].height *
                (int64_t)problem->sizes[i].demand;
    return (int64_t)((area + problem->width - 1) / problem->width);
}

/* ---- one group ---- */

/* From columns to strips, in the arena of the caller. */
static void add_strips(struct arena *arena, const struct roll_search *search,
                       const size_t *original, struct roll_plan *plan)
{
    for (size_t p = 0; p < search->best.count; p++)
        *LIST_ADD(arena, &plan->strips) =
            roll_search_strip(arena, search, p, original);
}

/* Another plan of the group. */
static void add_plan(struct arena *arena, const struct roll_plan *other,
                     const size_t *original, struct roll_plan *plan)
{
    for (size_t i = 0; i < other->strips.count; i++) {
        struct roll_strip *strip = LIST_ADD(arena, &plan->strips);
        *strip = other->strips.items[i];
        for (size_t k = 0; k < strip->cuts.count; k++)
            strip->cuts.items[k].size = original[strip->cuts.items[k].size];
    }
}

/* The budget stands in for a bound: the search ends as soon as a plan keeps to
 * it. Here many different plans are wanted, not the shortest one again. */
struct roll_plan *roll_plan_within(struct arena *arena,
                                   const struct roll_problem *problem,
                                   int64_t budget, uint64_t seed,
                                   uint64_t *work)
{
    struct arena *scratch = arena_create();
    struct roll_search search;
    roll_search_init(&search, scratch, problem);
    search.random ^= seed;
    search.bound = budget; /* where it ends */
    roll_search_branch(&search, *work);
    *work = search.master.work;
    struct roll_plan *plan = NULL;
    if (search.best_length <= budget) {
        size_t *original = ARENA_ARRAY(scratch, size_t, problem->count);
        for (size_t i = 0; i < problem->count; i++)
            original[i] = i;
        plan = ARENA_NEW(arena, struct roll_plan);
        add_strips(arena, &search, original, plan);
        roll_plan_settle(arena, problem, plan);
    }
    arena_destroy(scratch);
    return plan;
}

/* The bound of one group, by the linear programme alone. */
static int64_t group_bound(const struct roll_problem *problem)
{
    struct arena *scratch = arena_create();
    struct roll_master master;
    roll_master_init(&master, scratch, problem);
    size_t *demand = ARENA_ARRAY(scratch, size_t, problem->count);
    for (size_t i = 0; i < problem->count; i++)
        demand[i] = problem->sizes[i].demand;
    roll_master_solve(&master, demand);
    const int64_t bound = master.bound;
    arena_destroy(scratch);
    return bound;
}

/* By groups, as plan_roll does it: bounds of groups are rounded up apart. */
int64_t roll_bound(const struct roll_problem *problem)
{
    if (problem->count > ROLL_MOST_SIZES)
        return roll_area_bound(problem);
    struct arena *scratch = arena_create();
    const size_t *group = find_groups(scratch, problem);
    size_t *original = ARENA_ARRAY(scratch, size_t, problem->count);
    int64_t bound = 0;
    for (size_t i = 0; i < problem->count; i++)
        if (group[i] == i) {
            const struct roll_problem part =
                asked_for(scratch, problem, group, i, original);
            bound += group_bound(&part);
        }
    arena_destroy(scratch);
    return bound;
}

/* A first dive, some renewals of it, then the tree, then renewals again. Where
 * plan and bound meet, all that follows is left out. The tree leaves a tenth,
 * as a part of the best plan that is laid anew often helps once more. */
static void search_once(struct roll_search *search, uint64_t work)
{
    roll_master_solve(&search->master, search->demand);
    search->bound = search->master.bound;
    roll_search_dive(search);
    roll_search_renew(search, work / 300);
    if (search->best_length > search->bound && search->master.work < work)
        roll_search_branch(search, work / 10 * 9);
    roll_search_renew(search, work);
}

/* Searches one after another, and the best of them, with the best bound of all.
 */
struct searches {
    struct arena *arena;
    const struct roll_problem *problem;
    uint64_t work; /* of each */
    struct roll_search *best;
    uint64_t done;
};

static bool is_proved(const struct searches *searches)
{
    const struct roll_search *best = searches->best;
    return best != NULL && best->best_length <= best->bound;
}

/* Each has chances of its own: where one goes astray, another mostly does not
 * (restarts; Gomes, Selman and Kautz, 1998, from memory). Where plan and bound
 * meet, as they mostly do in the first, the others are left out. */
static void search_anew(struct searches *searches, uint64_t seed, bool warm)
{
    if (is_proved(searches))
        return;
    struct roll_search *search = ARENA_NEW(searches->arena, struct roll_search);
    struct roll_search *before = searches->best;
    roll_search_init(search, searches->arena, searches->problem);
    search->random ^= seed * 0x5DEECE66Du;
    search->warm = warm;
    search_once(search, searches->work);
    searches->done += search->master.work;
    if (before == NULL || search->best_length < before->best_length)
        searches->best = search;
    int64_t bound = search->bound;
    if (before != NULL && before->bound > bound)
        bound = before->bound;
    searches->best->bound = bound;
}

/* The best one goes on, with all patterns that it knows. */
static void search_on(struct searches *searches)
{
    struct roll_search *best = searches->best;
    const uint64_t before = best->master.work;
    best->warm = true;
    roll_search_renew(best, before + searches->work);
    searches->done += best->master.work - before;
}

/* Three searches of a third of the work. Of a list alone the second is warm and
 * the third goes on with the better one: that meets the shortest plans that are
 * known of 20 sizes and more. Fewer sizes get both, which takes less than a
 * second. gives: the work that was done. */
static uint64_t plan_group(struct arena *arena,
                           const struct roll_problem *problem, bool alone,
                           const size_t *original, uint64_t work,
                           struct roll_plan *plan)
{
    enum { SEARCHES = 3, FEW_SIZES = 20 };
    struct arena *scratch = arena_create();
    struct searches searches = {
        .arena = scratch, .problem = problem, .work = work / SEARCHES};
    search_anew(&searches, 0, false);
    if (alone) {
        search_anew(&searches, 1, true);
        search_on(&searches);
    }
    for (uint64_t i = 1; i < SEARCHES; i++)
        if (!alone || problem->count < FEW_SIZES)
            search_anew(&searches, i, false);
    const struct roll_search *best = searches.best;
    const struct roll_plan *hand = plan_roll_by_hand(arena, problem);
    /* Never worse than a person would do it. */
    if (hand->length < best->best_length)
        add_plan(arena, hand, original, plan);
    else
        add_strips(arena, best, original, plan);
    plan->bound += best->bound;
    arena_destroy(scratch);
    /* What few sizes get beyond their share is no loss of other groups. */
    return alone && searches.done > work ? work : searches.done;
}

/* A group of many sizes; alone or not, it is planned in parts. */
static uint64_t plan_large_group(struct arena *arena,
                                 const struct roll_problem *problem, bool alone,
                                 const size_t *original, uint64_t work,
                                 struct roll_plan *plan)
{
    (void)alone;
    const struct roll_plan *large = plan_large_roll(arena, problem, &work);
    const struct roll_plan *hand = plan_roll_by_hand(arena, problem);
    add_plan(arena, hand->length < large->length ? hand : large, original,
             plan);
    plan->bound += large->bound;
    return work;
}

/* Small groups are soon done; what they leave of their work goes to the
 * others. */
static struct roll_plan *plan_groups(struct arena *arena,
                                     const struct roll_problem *problem,
                                     bool alone, uint64_t work)
{
    if (plan_roll_by_hand(arena, problem) == NULL)
        return NULL;
    struct roll_plan *plan = ARENA_NEW(arena, struct roll_plan);
    struct arena *scratch = arena_create();
    const size_t *group = find_groups(scratch, problem);
    size_t *original = ARENA_ARRAY(scratch, size_t, problem->count);
    size_t sizes = 0;
    for (size_t i = 0; i < problem->count; i++)
        sizes += problem->sizes[i].demand > 0;
    for (size_t i = 0; i < problem->count; i++) {
        if (group[i] != i)
            continue;
        const struct roll_problem part =
            asked_for(scratch, problem, group, i, original);
        const uint64_t share = work / sizes * part.count;
        const uint64_t done =
            (part.count > ROLL_MOST_SIZES ? plan_large_group : plan_group)(
                arena, &part, alone, original, share, plan);
        work -= done < work ? done : work;
        sizes -= part.count;
    }
    arena_destroy(scratch);
    roll_plan_settle(arena, problem, plan);
    return plan;
}

struct roll_plan *plan_roll(struct arena *arena,
                            const struct roll_problem *problem, uint64_t work)
{
    return plan_groups(arena, problem, false, work);
}

struct roll_plan *plan_roll_alone(struct arena *arena,
                                  const struct roll_problem *problem,
                                  uint64_t work)
{
    return plan_groups(arena, problem, true, work);
}
