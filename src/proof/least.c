/* The least to sew of a quilt: its facts, its trials, and the cover of fewest
 * seams, then of least cloth. Read next: facts.c. */
#include "facts.h"

/* Far more than any sample takes; it bounds the time of what is hostile. */
enum { MOST_WORK = 20000000 };

/* Areas as whole numbers: of the square of which all of them are multiples.
 * Where that would be too fine, of a thousandth of the unit, rounded up. */
static int64_t finest(const struct least *least)
{
    enum { FINE = 1000000 };
    int64_t common = 1;
    for (size_t i = 0; i < least->trials.count; i++) {
        const struct rational cloth = least->trials.items[i].cloth;
        if (!rational_is_fraction(cloth))
            return FINE;
        const int64_t divisor = whole_common_divisor(common, cloth.den);
        if (cloth.den / divisor > FINE / common)
            return FINE;
        common *= cloth.den / divisor;
    }
    return common;
}

/* Weights stay below the limit of the solver; what would not is too heavy to be
 * chosen beside anything else, and equal ones are told apart by seams. */
static int64_t weight_of(struct rational cloth, int64_t fine)
{
    const int64_t most = INT64_C(1) << 40;
    const struct rational weight = rational_times(cloth, fine);
    if (!rational_known(weight))
        return most - 1;
    const int64_t whole = rational_ceil(weight);
    return whole < most ? whole : most - 1;
}

static struct cover_problem problem_of(struct arena *arena,
                                       const struct least *least)
{
    struct cover_problem problem = {.facts = least->facts.count,
                                    .most_work = MOST_WORK};
    const int64_t fine = finest(least);
    for (size_t i = 0; i < least->trials.count; i++) {
        const struct trial *trial = &least->trials.items[i];
        struct cover_candidate *one = LIST_ADD(arena, &problem.candidates);
        one->facts.items = trial->facts.items;
        one->facts.count = trial->facts.count;
        one->weight = (struct cover_weight){(int64_t)trial->seams,
                                            weight_of(trial->cloth, fine)};
    }
    return problem;
}

/* Each trial is made by itself, as its seams were counted. */
static void add_cuts(const struct wording *w, struct least *least)
{
    const size_t count = w->quilt->heaps.count;
    size_t *all = ARENA_ARRAY(w->arena, size_t, count);
    least->cloth = rational_whole(0);
    for (size_t i = 0; i < least->plan.chosen.count; i++) {
        size_t *made = ARENA_ARRAY(w->arena, size_t, count);
        struct rational cloth;
        least->seams += make_trial(
            w, &least->trials.items[least->plan.chosen.items[i]], made, &cloth);
        least->cloth = rational_add(least->cloth, cloth);
        for (size_t k = 0; k < count; k++)
            all[k] += made[k];
    }
    for (size_t k = 0; k < count; k++)
        if (all[k] > 0 && w->quilt->heaps.items[k].technique == TECHNIQUE_CUT)
            *LIST_ADD(w->arena, &least->cuts) = (struct least_cut){k, all[k]};
}

struct least least_to_sew(const struct wording *w)
{
    struct least least = {.cloth = rational_whole(0)};
    struct facts facts = {.w = w};
    find_trials(&facts, &least);
    least.facts.items = facts.items.items;
    least.facts.count = facts.items.count;
    const struct cover_problem problem = problem_of(w->arena, &least);
    least.plan = plan_cover(w->arena, &problem);
    least.all_seams = make_quilt(w, &least.all_cloth);
    add_cuts(w, &least);
    return least;
}

size_t least_percent(const struct least *least)
{
    return least->all_seams == 0
               ? 0
               : (least->seams * 100 + least->all_seams - 1) / least->all_seams;
}
