/* Plans of sheets and of leftovers: which is taken, kept for the run as those
 * of strips are. Read next: rests.c. */
#include "cutter.h"

/* As for strips: small lists are to be planned while one waits. */
static uint64_t sheet_work(const struct sheet_problem *problem)
{
    return problem->count <= 12 ? SHEET_WORK / 20 : SHEET_WORK / 2;
}

/* The simpler plan has as many sheets, or fewer, so the bound of the first
 * holds for it, and there is none with fewer than the bound. That there is no
 * plan is kept as well, so that nobody looks for it twice. */
const struct sheet_plan *choose_sheets(struct cutter *cutter,
                                       const struct sheet_problem *problem)
{
    struct arena *arena = cutter->run->arena;
    for (size_t i = 0; i < cutter->choices->sheets.count; i++) {
        const struct made_sheets *made = &cutter->choices->sheets.items[i];
        if (made->problem->width == problem->width &&
            made->problem->height == problem->height &&
            made->problem->count == problem->count &&
            same_sizes(made->problem->sizes, problem->sizes, problem->count))
            return made->plan;
    }
    struct sheet_problem *kept = ARENA_NEW(arena, struct sheet_problem);
    *kept = *problem;
    const struct sheet_plan *plan =
        plan_sheets(arena, problem, sheet_work(problem));
    const bool enough =
        plan != NULL && cutter->amounts_only && plan->count == plan->bound;
    if (plan != NULL && !enough) {
        const size_t bound = plan->bound;
        struct sheet_plan *simple =
            simplify_sheets(arena, problem, plan, SHEET_SIMPLE_WORK / 4);
        if (simple != NULL) {
            simple->bound = bound;
            plan = simple;
        }
    }
    if (plan != NULL && !sheet_plan_holds(problem, plan))
        internal_error("a plan of sheets does not hold its pieces");
    *LIST_ADD(arena, &cutter->choices->sheets) =
        (struct made_sheets){kept, plan};
    return plan;
}
