/* Plans while they are searched: sheets are added and taken away, each with the
 * list of what it makes. */
#include "sheet_trial.h"

#include <string.h>

#include "sheet_plan.h"

/* Each trial has memory of its own: most are thrown away at once. */
struct sheet_trial sheet_trial_begin(void)
{
    return (struct sheet_trial){.memory = arena_create()};
}

/* A trial that was exchanged for a better one ends in its place. */
void sheet_trial_end(struct sheet_trial *trial)
{
    arena_destroy(trial->memory);
    trial->memory = NULL;
}

/* The pattern is copied, as the filler may have made it in other memory. */
void sheet_trial_add(struct sheet_trial *trial, size_t sizes,
                     const struct sheet_pattern *pattern, const size_t *made,
                     size_t repeat, size_t *left)
{
    if (repeat == 0)
        return;
    size_t *copy = ARENA_ARRAY(trial->memory, size_t, sizes);
    memcpy(copy, made, sizes * sizeof *copy);
    *LIST_ADD(trial->memory, &trial->used) = (struct sheet_used){
        sheet_pattern_copy(trial->memory, pattern), copy, repeat};
    trial->count += repeat;
    for (size_t i = 0; i < sizes; i++)
        left[i] -= made[i] * repeat;
}

/* The scarcest size decides. */
size_t sheet_repeats(size_t sizes, const size_t *made, const size_t *left)
{
    size_t repeat = 0;
    bool any = false;
    for (size_t i = 0; i < sizes; i++) {
        if (made[i] == 0)
            continue;
        const size_t here = left[i] / made[i];
        repeat = !any || here < repeat ? here : repeat;
        any = true;
    }
    return repeat;
}

/* Segments go first, then slices of the last segment: a stack that is not full
 * becomes a segment of its own. */
static void clip_strip(struct arena *arena, struct sheet_strip *strip,
                       size_t *room)
{
    const size_t count = strip->cuts.count;
    for (size_t k = 0; k < count; k++) {
        struct sheet_cut *cut = &strip->cuts.items[k];
        const size_t full = room[cut->size] / cut->stack;
        if (full >= cut->beside) {
            room[cut->size] -= cut->beside * cut->stack;
            continue;
        }
        struct sheet_cut last = *cut;
        cut->beside = full;
        room[cut->size] -= full * cut->stack;
        last.beside = room[cut->size] > 0;
        last.stack = room[cut->size];
        room[cut->size] = 0;
        if (last.beside > 0)
            *LIST_ADD(arena, &strip->cuts) = last;
    }
}

/* Sheets of the programme may hold more than is asked, or was left by
 * others. */
struct sheet_pattern sheet_pattern_clip(struct arena *arena, size_t sizes,
                                        const struct sheet_pattern *pattern,
                                        const size_t *left, size_t *made)
{
    struct sheet_pattern copy = sheet_pattern_copy(arena, pattern);
    size_t *room = ARENA_ARRAY(arena, size_t, sizes);
    memcpy(room, left, sizes * sizeof *room);
    for (size_t i = 0; i < copy.strips.count; i++)
        clip_strip(arena, &copy.strips.items[i], room);
    for (size_t i = 0; i < sizes; i++)
        made[i] = left[i] - room[i];
    sheet_pattern_settle(&copy);
    return copy;
}

/* Copies once more: the trial ends before the plan does. */
struct sheet_plan *sheet_trial_plan(struct arena *arena,
                                    const struct sheet_problem *problem,
                                    const struct sheet_trial *trial)
{
    struct sheet_plan *plan = ARENA_NEW(arena, struct sheet_plan);
    for (size_t i = 0; i < trial->used.count; i++) {
        struct sheet_pattern copy =
            sheet_pattern_copy(arena, &trial->used.items[i].pattern);
        copy.repeat = trial->used.items[i].repeat;
        if (copy.repeat > 0)
            *LIST_ADD(arena, &plan->sheets) = copy;
    }
    sheet_plan_settle(problem, plan);
    return plan;
}

/* What a sheet makes is counted anew from its cuts. */
struct sheet_trial sheet_trial_of(const struct sheet_problem *problem,
                                  const struct sheet_plan *plan)
{
    struct sheet_trial trial = sheet_trial_begin();
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet_pattern *pattern = &plan->sheets.items[i];
        size_t *made = ARENA_ARRAY(trial.memory, size_t, problem->count);
        for (size_t k = 0; k < pattern->strips.count; k++) {
            const struct sheet_strip *strip = &pattern->strips.items[k];
            for (size_t c = 0; c < strip->cuts.count; c++) {
                const struct sheet_cut *cut = &strip->cuts.items[c];
                made[cut->size] += cut->beside * cut->stack * strip->repeat;
            }
        }
        *LIST_ADD(trial.memory, &trial.used) = (struct sheet_used){
            sheet_pattern_copy(trial.memory, pattern), made, pattern->repeat};
        trial.count += pattern->repeat;
    }
    return trial;
}

/* Turning changes no area, so the way a piece lies does not matter. */
int64_t sheet_made_area(const struct sheet_problem *problem, const size_t *made)
{
    int64_t area = 0;
    for (size_t i = 0; i < problem->count; i++)
        area += (int64_t)made[i] * problem->sizes[i].width *
                problem->sizes[i].height;
    return area;
}
