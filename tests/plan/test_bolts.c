/* Lengths from rolls: the worked plans, small orders against a second search,
 * and all ends of planning. */
#include "../unit.h"
#include "bolts_search.h"

enum { MOST_KINDS = 6 };

struct order {
    struct bolt_cut cuts[MOST_KINDS];
    struct bolt_roll rolls[MOST_KINDS];
    struct bolts_problem problem;
    uint64_t random;
};

/* A number from `least` to `most` (a linear congruential generator; Knuth,
 * volume 2). */
static int64_t chance(struct order *order, int64_t least, int64_t most)
{
    order->random =
        order->random * 6364136223846793005u + 1442695040888963407u;
    return least + (int64_t)((order->random >> 33) %
                             (uint64_t)(most - least + 1));
}

static void add_cut(struct order *order, int64_t length, size_t count)
{
    order->cuts[order->problem.cut_count++] =
        (struct bolt_cut){length, count};
}

static void add_roll(struct order *order, struct bolt_roll roll)
{
    order->rolls[order->problem.roll_count++] = roll;
}

/* A few cuts, at most 7 in all, from a shelf, whole bolts and rolls sold by
 * steps, so that a search through all plans ends. */
static struct order random_order(uint64_t seed)
{
    struct order order = {.random = seed * 0x9E3779B97F4A7C15u + 1};
    const int64_t fine = chance(&order, 1, 3);
    size_t cuts = 0;
    order.problem.keep = chance(&order, 0, 3) == 0 ? 0 : chance(&order, 1, 30);
    for (int64_t n = chance(&order, 1, 4); n > 0; n--) {
        const size_t count = (size_t)chance(&order, 1, 3);
        if (cuts + count > 7)
            break;
        add_cut(&order, chance(&order, 5, 40) * fine, count);
        cuts += count;
    }
    size_t age = 0;
    for (int64_t n = chance(&order, 1, 4); n > 0; n--)
        switch (chance(&order, 0, 5)) {
        case 0:
            add_roll(&order, (struct bolt_roll){.length = chance(&order, 60, 120),
                                                .count = BOLT_WITHOUT_LIMIT,
                                                .cost = chance(&order, 1, 9)});
            break;
        case 1: {
            const int64_t step = chance(&order, 6, 20);
            add_roll(&order,
                     (struct bolt_roll){.length = step * chance(&order, 4, 9),
                                        .count = (size_t)chance(&order, 1, 3),
                                        .cost = chance(&order, 0, 1),
                                        .step = step,
                                        .step_cost = chance(&order, 1, 4)});
            break;
        }
        default:
            add_roll(&order, (struct bolt_roll){.length = chance(&order, 20, 120),
                                                .count = (size_t)chance(&order, 1, 2),
                                                .age = age++});
        }
    return order;
}

/* Equal to the second search in every merit, and proven. */
static void check_order(struct order *order, uint64_t seed, uint64_t work)
{
    struct arena *arena = arena_create();
    struct bolts_search search;
    order->problem.cuts = order->cuts;
    order->problem.rolls = order->rolls;
    bolts_search_all(&search, &order->problem);
    const struct bolts_plan *plan = plan_bolts(arena, &order->problem, work);
    if (!search.found) {
        if (plan->end != BOLTS_NO_PLAN && plan->end != BOLTS_TOO_LONG)
            fail_msg("order %llu: end %d", (unsigned long long)seed,
                     (int)plan->end);
    } else {
        if (!bolts_hold(&order->problem, plan))
            fail_msg("order %llu does not hold", (unsigned long long)seed);
        for (size_t m = 0; m < BOLT_MERITS; m++)
            if (plan->merit[m] != search.best[m] || !plan->proven[m])
                fail_msg("order %llu, merit %zu: %lld, best %lld, bound %lld",
                         (unsigned long long)seed, m,
                         (long long)plan->merit[m], (long long)search.best[m],
                         (long long)plan->bound[m]);
    }
    arena_destroy(arena);
}

static void test_small_orders(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 1000; seed++) {
        struct order order = random_order(seed);
        check_order(&order, seed, BOLTS_WORK);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_small_orders),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
