/* For tests: a second search for the best way of cutting lengths from rolls,
 * which shares nothing with the planner: cut after cut is put into each roll
 * in turn, and all that comes of it is compared. For a dozen cuts at most. */
#ifndef SEAMWRIGHT_TESTS_BOLTS_SEARCH_H
#define SEAMWRIGHT_TESTS_BOLTS_SEARCH_H

#include <string.h>

#include "bolts.h"

enum { SEARCH_MOST_CUTS = 16, SEARCH_MOST_ROLLS = 64 };

struct bolts_search {
    const struct bolts_problem *problem;
    int64_t cut[SEARCH_MOST_CUTS]; /* longest first, each by itself */
    size_t cuts;
    size_t roll[SEARCH_MOST_ROLLS]; /* each by itself: its kind */
    int64_t used[SEARCH_MOST_ROLLS];
    size_t rolls;
    bool found;
    int64_t best[BOLT_MERITS];
};

/* Merits of what is in the rolls now, added up in the plainest way; kept where
 * they are better than all before. */
static void bolts_search_judge(struct bolts_search *search)
{
    int64_t merit[BOLT_MERITS] = {0};
    for (size_t r = 0; r < search->rolls; r++) {
        const struct bolt_roll *roll = &search->problem->rolls[search->roll[r]];
        int64_t end = roll->length - search->used[r];
        if (search->used[r] == 0)
            continue;
        merit[BOLT_COST] += roll->cost;
        if (roll->step > 0) {
            int64_t steps = 0;
            while (steps * roll->step < search->used[r])
                steps++;
            merit[BOLT_COST] += steps * roll->step_cost;
            end = steps * roll->step - search->used[r];
        }
        if (end < search->problem->keep)
            merit[BOLT_LOST] += end;
        merit[BOLT_OPENED]++;
        merit[BOLT_AGE] += (int64_t)roll->age;
    }
    for (size_t m = 0; search->found && m < BOLT_MERITS; m++) {
        if (merit[m] > search->best[m])
            return;
        if (merit[m] < search->best[m])
            break;
    }
    search->found = true;
    memcpy(search->best, merit, sizeof merit);
}

/* Of rolls that are alike and in which the same length was used, the first
 * stands for all. `from`: the roll of the cut before, where that is as long. */
static void bolts_search_from(struct bolts_search *search, size_t cut,
                              size_t from)
{
    if (cut == search->cuts) {
        bolts_search_judge(search);
        return;
    }
    for (size_t r = from; r < search->rolls; r++) {
        const struct bolt_roll *roll = &search->problem->rolls[search->roll[r]];
        bool seen = search->used[r] + search->cut[cut] > roll->length;
        for (size_t other = from; other < r && !seen; other++)
            seen = search->roll[other] == search->roll[r] &&
                   search->used[other] == search->used[r];
        if (seen)
            continue;
        search->used[r] += search->cut[cut];
        const bool same =
            cut + 1 < search->cuts && search->cut[cut + 1] == search->cut[cut];
        bolts_search_from(search, cut + 1, same ? r : 0);
        search->used[r] -= search->cut[cut];
    }
}

/* ensures: `found` and the merits of the best plan. */
static void bolts_search_all(struct bolts_search *search,
                             const struct bolts_problem *problem)
{
    *search = (struct bolts_search){.problem = problem};
    for (size_t i = 0; i < problem->cut_count; i++)
        for (size_t n = 0; n < problem->cuts[i].count; n++) {
            size_t at = search->cuts++;
            for (; at > 0 && search->cut[at - 1] < problem->cuts[i].length;
                 at--)
                search->cut[at] = search->cut[at - 1];
            search->cut[at] = problem->cuts[i].length;
        }
    for (size_t r = 0; r < problem->roll_count; r++) {
        /* No plan opens more rolls than there are cuts. */
        size_t count = problem->rolls[r].count;
        count = count < search->cuts ? count : search->cuts;
        for (size_t n = 0; n < count; n++)
            search->roll[search->rolls++] = r;
    }
    bolts_search_from(search, 0, 0);
}

#endif
