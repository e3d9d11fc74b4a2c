/* For tests and benches: what orders ask of one cloth, made up from a seed:
 * 2 to 6 lengths in eighths of an inch, up to some hundred cuts, some bolts on
 * the shelf, and whole bolts or any number of half yards to be bought. */
#ifndef SEAMWRIGHT_TESTS_BOLTS_CLOTHS_H
#define SEAMWRIGHT_TESTS_BOLTS_CLOTHS_H

#include "bolts.h"

enum { CLOTH_MOST = 8 };

struct bolts_cloth {
    struct bolt_cut cuts[CLOTH_MOST];
    struct bolt_roll rolls[CLOTH_MOST];
    struct bolts_problem problem;
    uint64_t random;
};

/* A number from `least` to `most` (a linear congruential generator; Knuth,
 * volume 2). */
static int64_t cloth_chance(struct bolts_cloth *cloth, int64_t least,
                            int64_t most)
{
    cloth->random = cloth->random * 6364136223846793005u + 1442695040888963407u;
    return least +
           (int64_t)((cloth->random >> 33) % (uint64_t)(most - least + 1));
}

/* Lengths of cuts are quarters and eighths of a yard, with half an inch over,
 * or any multiple of an eighth of an inch. */
static void cloth_make(struct bolts_cloth *cloth, uint64_t seed)
{
    *cloth = (struct bolts_cloth){.random = seed * 0x9E3779B97F4A7C15u + 1};
    struct bolts_problem *problem = &cloth->problem;
    problem->cuts = cloth->cuts;
    problem->rolls = cloth->rolls;
    problem->keep = 144;
    problem->cut_count = (size_t)cloth_chance(cloth, 2, 6);
    const int64_t most = cloth_chance(cloth, 4, 80);
    for (size_t i = 0; i < problem->cut_count; i++)
        cloth->cuts[i] = (struct bolt_cut){
            cloth_chance(cloth, 0, 2) > 0 ? cloth_chance(cloth, 2, 24) * 36 + 4
                                          : cloth_chance(cloth, 48, 900),
            (size_t)cloth_chance(cloth, 1, most)};
    size_t rolls = 0;
    for (int64_t n = cloth_chance(cloth, 0, 5); n > 0; n--) {
        cloth->rolls[rolls] = (struct bolt_roll){
            .length = cloth_chance(cloth, 144, 3600), .count = 1, .age = rolls};
        rolls++;
    }
    if (cloth_chance(cloth, 0, 2) > 0)
        cloth->rolls[rolls++] = (struct bolt_roll){
            .length = 4304, .count = BOLT_WITHOUT_LIMIT, .cost = 9300};
    else
        cloth->rolls[rolls++] = (struct bolt_roll){.length = 4320,
                                                   .count = BOLT_WITHOUT_LIMIT,
                                                   .step = 144,
                                                   .step_cost = 310};
    problem->roll_count = rolls;
}

#endif
