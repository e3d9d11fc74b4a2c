/* A list of pieces: read and, where it can be read, planned with little work. A
 * plan holds its pieces and is no shorter than its bound. */
#include <string.h>

#include "fuzz.h"
#include "piece_list.h"

enum { MOST_BYTES = 600, WORK = 200000 };

static void plan_list(struct arena *arena, const struct piece_list *list)
{
    const struct roll_problem *problem = &list->problem;
    if (list->sheet_height > 0) {
        const struct sheet_problem sheets = {.width = problem->width,
                                             .height = list->sheet_height,
                                             .sizes = problem->sizes,
                                             .count = problem->count,
                                             .first = list->first_cut};
        const struct sheet_plan *plan = plan_sheets(arena, &sheets, WORK);
        MUST(plan == NULL || sheet_plan_holds(&sheets, plan));
        return;
    }
    if (list->leftover_count > 0) {
        const struct leftover_plan *plan = plan_with_leftovers(
            arena, problem, list->leftovers, list->leftover_count, WORK, NULL);
        MUST(plan == NULL || leftover_plan_holds(problem, list->leftovers,
                                                 list->leftover_count, plan));
        return;
    }
    const struct roll_plan *plan = plan_roll(arena, problem, WORK);
    const struct roll_plan *by_hand = plan_roll_by_hand(arena, problem);
    MUST((plan == NULL) == (by_hand == NULL));
    if (plan == NULL)
        return;
    MUST(roll_plan_holds(problem, plan) && roll_plan_holds(problem, by_hand));
    MUST(plan->bound <= plan->length && plan->bound <= by_hand->length);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (length > MOST_BYTES)
        return 0;
    struct arena *arena = arena_create();
    const char *text = arena_copy(arena, (const char *)bytes, length);
    for (int turns = 0; turns <= 1; turns++) {
        struct piece_list list = read_piece_list(arena, text, turns == 1);
        if (list.problem_text != NULL)
            continue;
        list.problem.trimmed = turns == 1;
        plan_list(arena, &list);
    }
    arena_destroy(arena);
    return 0;
}
