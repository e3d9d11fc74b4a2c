/* The pass: what is told of the quilting becomes lines, areas, paths and
 * amounts, in the order of the source. May assume quilts that were sewn without
 * errors. A quilt that nothing is told of costs nothing. Read next: walk.c,
 * then quilter.h. */
#include "quilter.h"

/* As data, lists and names of figures tell it. */
const char *quilting_stage_name(enum quilting_stage stage)
{
    static const char *const names[QUILTING_STAGES] = {"ditch", "lines",
                                                       "echoes", "fillers"};
    return names[stage];
}

/* As data and lists tell it. */
const char *line_found_name(enum line_found found)
{
    static const char *const names[FOUND_WAYS] = {"seam",  "foot", "points",
                                                  "ruler", "free", "mark"};
    return names[found];
}

/* Where nothing is stitched, nothing is marked. */
double quilting_unmarked(const struct quilting_plan *plan)
{
    return plan->length > 0 ? 1 - plan->by_found[FOUND_MARK] / plan->length : 1;
}

/* Quilts are few. */
const struct quilting_plan *quilting_of(const struct quilted *quilted,
                                        const struct sewn_quilt *quilt)
{
    for (size_t i = 0; i < quilted->plans.count; i++)
        if (quilted->plans.items[i].quilt == quilt)
            return quilted->plans.items[i].told == NULL
                       ? NULL
                       : &quilted->plans.items[i];
    return NULL;
}

bool quilting_failed(const struct quilted *quilted)
{
    return quilted->failed;
}

/* Lines of the whole top, in the order of the source. */
static void draw_lines(struct quilter *quilter)
{
    for (size_t i = 0; i < quilter->told->items.count && !quilter->failed;
         i++) {
        const struct told_item *item = &quilter->told->items.items[i];
        if (item->area != NO_ITEM)
            continue;
        switch (item->kind) {
        case TOLD_DITCH:
            draw_ditch(quilter, item);
            break;
        case TOLD_EXTEND:
            draw_extended(quilter, item);
            break;
        case TOLD_ECHO:
            draw_echoes(quilter, item, QUILTING_NONE);
            break;
        case TOLD_CONNECT:
            draw_connected(quilter, item);
            break;
        case TOLD_AREA:
        case TOLD_FILL:
            break;
        }
    }
}

/* Where one step failed, the next would only echo it. */
static void plan_one(struct quilter *quilter)
{
    struct fault fault = {0};
    quilter->ground = ground_of(quilter->arena, quilter->plan->quilt->cloth);
    quilter->seams = join_seams(quilter->arena, quilter->ground);
    if (say_fault(quilter, NULL, quilter->seams.fault))
        return;
    quilter->top_symmetries =
        top_symmetries(quilter->arena, quilter->ground, &fault);
    if (say_fault(quilter, NULL, fault))
        return;
    find_places(quilter);
    draw_lines(quilter);
    if (!quilter->failed)
        fill_areas(quilter);
    if (quilter->failed)
        return;
    find_ways(quilter);
    check_gap(quilter);
    check_symmetry(quilter);
    plan_paths(quilter);
    count_thread(quilter);
    /* What to look at is told of a plan that holds. */
    if (!quilter->failed) {
        check_lines(quilter);
        check_density(quilter);
    }
    check_statements(quilter);
}

/* In a short trial of a mend nothing is planned; one that goes the whole way
 * does not set `trial`. */
const struct quilted *plan_quilting(struct run *run, const struct sewn *sewn)
{
    struct quilted *quilted = ARENA_NEW(run->arena, struct quilted);
    quilted->sewn = sewn;
    LIST_RESERVE(run->arena, &quilted->plans, sewn->quilts.count);
    for (size_t i = 0; i < sewn->quilts.count; i++) {
        struct quilting_plan *plan = LIST_ADD(run->arena, &quilted->plans);
        const struct sewn_quilt *quilt = &sewn->quilts.items[i];
        plan->quilt = quilt;
        plan->told = quilt->definition->quilting;
        if (plan->told == NULL || run->trial)
            continue;
        struct quilter quilter = {.run = run,
                                  .arena = run->arena,
                                  .sized = sewn->sized,
                                  .told = plan->told,
                                  .plan = plan};
        plan_one(&quilter);
        quilted->failed |= quilter.failed;
    }
    return quilted;
}
