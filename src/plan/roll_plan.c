/* Plans of strips: their order, their effort, the plan by hand, the proof. */
#include "roll_plan.h"

#include <stdlib.h>

/* Longest first, as they are cut from the left. */
static int compare_cuts(const void *first, const void *second)
{
    const struct roll_cut *a = first, *b = second;
    if (a->along != b->along)
        return a->along > b->along ? -1 : 1;
    return (a->size > b->size) - (a->size < b->size);
}

/* Highest first; like patterns side by side, so that they can be joined. */
static int compare_strips(const void *first, const void *second)
{
    const struct roll_strip *a = first, *b = second;
    if (a->height != b->height)
        return a->height > b->height ? -1 : 1;
    for (size_t i = 0; i < a->cuts.count && i < b->cuts.count; i++) {
        const int cut = compare_cuts(&a->cuts.items[i], &b->cuts.items[i]);
        if (cut != 0)
            return cut;
        if (a->cuts.items[i].count != b->cuts.items[i].count)
            return a->cuts.items[i].count > b->cuts.items[i].count ? -1 : 1;
    }
    return (a->cuts.count > b->cuts.count) - (a->cuts.count < b->cuts.count);
}

/* Grows with the square of the sizes, as the inverse of the basis does. Less
 * than 12 sizes get as much as 12: they are soon done anyway. The limit keeps
 * long lists from making a person wait. */
uint64_t roll_work(const struct roll_problem *problem)
{
    const uint64_t count = problem->count > 12 ? problem->count : 12;
    const uint64_t work = 80000000 / 144 * count * count;
    return work < ROLL_WORK ? work : ROLL_WORK;
}

uint64_t roll_alone_work(const struct roll_problem *problem)
{
    const uint64_t work = 3 * roll_work(problem);
    return work < ROLL_WORK ? work : ROLL_WORK;
}

uint64_t roll_simple_work(const struct roll_problem *problem)
{
    const uint64_t work = 8 * roll_work(problem);
    return work < ROLL_WORK ? work : ROLL_WORK;
}

/* Measured on lists of different sizes. */
bool roll_searches(const struct roll_problem *problem, uint64_t work)
{
    const uint64_t count = problem->count;
    return work / 40000 >= count * (count < 60 ? count : 60);
}

/* What the strips give of each size, less what is asked for (it is met). */
static size_t *count_surplus(struct arena *arena,
                             const struct roll_problem *problem,
                             const struct roll_plan *plan)
{
    size_t *surplus = ARENA_ARRAY(arena, size_t, problem->count + 1);
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip *strip = &plan->strips.items[i];
        for (size_t k = 0; k < strip->cuts.count; k++)
            surplus[strip->cuts.items[k].size] +=
                strip->cuts.items[k].count * strip->repeat;
    }
    for (size_t i = 0; i < problem->count; i++)
        surplus[i] -= problem->sizes[i].demand;
    return surplus;
}

/* Pieces that no repeat of a strip needs are not cut from any of them. What is
 * left of the surplus is less than the repeats of each strip that holds it. */
static void take_out(struct roll_strip *strip, size_t *surplus)
{
    size_t kept = 0;
    for (size_t k = 0; k < strip->cuts.count; k++) {
        struct roll_cut cut = strip->cuts.items[k];
        const size_t over = surplus[cut.size] / strip->repeat;
        const size_t gone = over < cut.count ? over : cut.count;
        surplus[cut.size] -= gone * strip->repeat;
        cut.count -= gone;
        if (cut.count > 0)
            strip->cuts.items[kept++] = cut;
    }
    strip->cuts.count = kept;
}

/* Orders the strips and the cuts in them. Cuts come first, as strips are
 * compared by their cuts. Lists of less than two are left out: an empty one has
 * no memory, and qsort asks for a valid pointer even then (C11, 7.22.5). */
static void sort_strips(struct roll_plan *plan)
{
    for (size_t i = 0; i < plan->strips.count; i++)
        if (plan->strips.items[i].cuts.count > 1)
            qsort(plan->strips.items[i].cuts.items,
                  plan->strips.items[i].cuts.count, sizeof(struct roll_cut),
                  compare_cuts);
    if (plan->strips.count > 1)
        qsort(plan->strips.items, plan->strips.count, sizeof(struct roll_strip),
              compare_strips);
}

/* The length is added up anew, whoever made the plan. */
void roll_plan_settle(struct arena *arena, const struct roll_problem *problem,
                      struct roll_plan *plan)
{
    plan->surplus = count_surplus(arena, problem, plan);
    for (size_t i = 0; i < plan->strips.count; i++)
        take_out(&plan->strips.items[i], plan->surplus);
    sort_strips(plan);
    size_t kept = 0;
    plan->length = 0;
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip strip = plan->strips.items[i];
        /* A strip from which all was taken out is not bought. */
        if (strip.cuts.count == 0)
            continue;
        plan->length += strip.height * (int64_t)strip.repeat;
        if (kept > 0 &&
            compare_strips(&plan->strips.items[kept - 1], &strip) == 0)
            plan->strips.items[kept - 1].repeat += strip.repeat;
        else
            plan->strips.items[kept++] = strip;
    }
    plan->strips.count = kept;
}

/* One way of cutting a size in strips of its own. No strip holds more pieces
 * than are asked for, so that the surplus stays below one strip. ensures: false
 * where not one piece fits across the cloth. */
static bool own_strip(const struct roll_problem *problem,
                      const struct roll_size *size, bool turned,
                      struct roll_strip *strip, size_t *fit)
{
    const int64_t along = turned ? size->height : size->width;
    strip->height = turned ? size->width : size->height;
    *fit = (size_t)(problem->width / along);
    if (*fit == 0)
        return false;
    *fit = *fit < size->demand ? *fit : size->demand;
    strip->repeat = (size->demand + *fit - 1) / *fit;
    return true;
}

/* ceil(n / floor(W / w)) strips for each size, the better way round: what a
 * person does without a plan, and the floor that no plan may fall below. */
struct roll_plan *plan_roll_by_hand(struct arena *arena,
                                    const struct roll_problem *problem)
{
    struct roll_plan *plan = ARENA_NEW(arena, struct roll_plan);
    for (size_t i = 0; i < problem->count; i++) {
        const struct roll_size *size = &problem->sizes[i];
        struct roll_strip best = {0};
        size_t best_fit = 0;
        bool best_turned = false;
        for (int turned = 0; turned < (size->turns ? 2 : 1); turned++) {
            struct roll_strip strip = {0};
            size_t fit;
            if (size->demand == 0 ||
                !own_strip(problem, size, turned == 1, &strip, &fit))
                continue;
            if (best_fit == 0 || strip.height * (int64_t)strip.repeat <
                                     best.height * (int64_t)best.repeat) {
                best = strip;
                best_fit = fit;
                best_turned = turned == 1;
            }
        }
        if (size->demand > 0 && best_fit == 0)
            return NULL;
        if (best_fit == 0)
            continue;
        *LIST_ADD(arena, &best.cuts) = (struct roll_cut){
            i, best_fit, best_turned ? size->height : size->width};
        *LIST_ADD(arena, &plan->strips) = best;
    }
    roll_plan_settle(arena, problem, plan);
    return plan;
}

/* A plan keeps only the side along the strip, as the other one follows. The way
 * that was asked for comes first: a square needs no turning. */
int64_t roll_across(const struct roll_size *size, int64_t along, int64_t strip)
{
    const bool as_is = along == size->width && size->height <= strip;
    return as_is ? size->height : size->width;
}

/* requires: a settled plan. Like heights and like sides stand together there,
 * so that each change of neighbor is one setting of the ruler; in another order
 * some would be counted twice. */
size_t roll_opened(const struct roll_problem *problem,
                   const struct roll_plan *plan)
{
    size_t opened = 0;
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip *strip = &plan->strips.items[i];
        bool odd = false, whole = false;
        for (size_t k = 0; k < strip->cuts.count; k++) {
            odd |= strip->cuts.items[k].count % 2 == 1;
            whole |= strip->cuts.items[k].along == problem->width;
        }
        opened += odd && !whole ? strip->repeat : 0;
    }
    return opened;
}

struct roll_effort roll_effort(const struct roll_problem *problem,
                               const struct roll_plan *plan)
{
    struct roll_effort effort = {.lines = plan->strips.count};
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip *strip = &plan->strips.items[i];
        effort.settings +=
            i == 0 || strip->height != plan->strips.items[i - 1].height;
        for (size_t k = 0; k < strip->cuts.count; k++) {
            const struct roll_cut *cut = &strip->cuts.items[k];
            effort.settings +=
                k == 0 || cut->along != strip->cuts.items[k - 1].along;
            effort.trims += roll_across(&problem->sizes[cut->size], cut->along,
                                        strip->height) < strip->height;
        }
    }
    return effort;
}

/* Is the cut a way in which the size may lie in a strip of this height? An
 * exact plan has to fill the height: a lower piece would ask for the trim that
 * such a plan promises to spare. */
static bool cut_holds(const struct roll_problem *problem,
                      const struct roll_cut *cut, int64_t height)
{
    if (cut->size >= problem->count)
        return false;
    const struct roll_size *size = &problem->sizes[cut->size];
    const bool as_is =
        cut->along == size->width &&
        (problem->trimmed ? size->height <= height : size->height == height);
    const bool turned =
        size->turns && cut->along == size->height &&
        (problem->trimmed ? size->width <= height : size->width == height);
    return as_is || turned;
}

/* Shares nothing with the search but the list: pieces, widths and the length
 * are added up anew. A surplus that is told has to agree; a bound above the
 * length would prove something false. */
bool roll_plan_holds(const struct roll_problem *problem,
                     const struct roll_plan *plan)
{
    struct arena *scratch = arena_create();
    size_t *made = ARENA_ARRAY(scratch, size_t, problem->count + 1);
    int64_t length = 0;
    bool holds = true;
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip *strip = &plan->strips.items[i];
        int64_t used = 0;
        for (size_t k = 0; holds && k < strip->cuts.count; k++) {
            const struct roll_cut *cut = &strip->cuts.items[k];
            holds = cut_holds(problem, cut, strip->height);
            used += cut->along * (int64_t)cut->count;
            if (holds)
                made[cut->size] += cut->count * strip->repeat;
        }
        holds = holds && used <= problem->width;
        length += strip->height * (int64_t)strip->repeat;
    }
    for (size_t i = 0; i < problem->count; i++)
        holds = holds && made[i] >= problem->sizes[i].demand &&
                (plan->surplus == NULL ||
                 made[i] - problem->sizes[i].demand == plan->surplus[i]);
    arena_destroy(scratch);
    return holds && length == plan->length && plan->bound <= plan->length;
}
