/* A plan is judged from the problem alone: nothing of how it was found is used
 * here. */
#include "bolts.h"

/* Adds what the rolls of one use come to. False where it is no use of a roll,
 * or overfull. */
static bool add_use(const struct bolts_problem *problem,
                    const struct bolt_use *use, size_t *made, size_t *opened,
                    int64_t *merit)
{
    if (use->roll >= problem->roll_count || use->repeat == 0 ||
        use->parts.count == 0)
        return false;
    const struct bolt_roll *roll = &problem->rolls[use->roll];
    const int64_t repeat = (int64_t)use->repeat;
    int64_t sum = 0;
    for (size_t p = 0; p < use->parts.count; p++) {
        const struct bolt_part *part = &use->parts.items[p];
        if (part->cut >= problem->cut_count || part->count == 0)
            return false;
        made[part->cut] += part->count * use->repeat;
        sum += problem->cuts[part->cut].length * (int64_t)part->count;
    }
    /* A roll that is sold by steps is taken in whole ones, any other as it is.
     */
    const bool whole = roll->step == 0 ? use->taken == roll->length
                                       : use->taken % roll->step == 0;
    if (!whole || use->taken > roll->length || sum > use->taken ||
        use->left != use->taken - sum)
        return false;
    opened[use->roll] += use->repeat;
    merit[BOLT_COST] += roll->cost * repeat;
    if (roll->step > 0)
        merit[BOLT_COST] += use->taken / roll->step * roll->step_cost * repeat;
    merit[BOLT_LOST] += use->left < problem->keep ? use->left * repeat : 0;
    merit[BOLT_OPENED] += repeat;
    merit[BOLT_AGE] += (int64_t)roll->age * repeat;
    return true;
}

/* Merits, bounds and proofs fit each other. */
static bool merits_hold(const struct bolts_plan *plan, const int64_t *merit)
{
    bool before = true;
    for (size_t m = 0; m < BOLT_MERITS; m++) {
        if (plan->merit[m] != merit[m] || plan->bound[m] > merit[m])
            return false;
        before = before && plan->bound[m] == merit[m];
        if (plan->proven[m] != before)
            return false;
    }
    return true;
}

/* Each count is added up anew from the uses, then compared with what the
 * problem asks for and has. */
bool bolts_hold(const struct bolts_problem *problem,
                const struct bolts_plan *plan)
{
    struct arena *scratch = arena_create();
    size_t *made = ARENA_ARRAY(scratch, size_t, problem->cut_count + 1);
    size_t *opened = ARENA_ARRAY(scratch, size_t, problem->roll_count + 1);
    int64_t merit[BOLT_MERITS] = {0};
    bool holds = plan->end == BOLTS_PLANNED;
    for (size_t u = 0; holds && u < plan->uses.count; u++)
        holds = add_use(problem, &plan->uses.items[u], made, opened, merit);
    for (size_t i = 0; holds && i < problem->cut_count; i++)
        holds = made[i] == problem->cuts[i].count;
    for (size_t r = 0; holds && r < problem->roll_count; r++)
        holds = problem->rolls[r].count == BOLT_WITHOUT_LIMIT ||
                opened[r] <= problem->rolls[r].count;
    holds = holds && merits_hold(plan, merit);
    arena_destroy(scratch);
    return holds;
}
