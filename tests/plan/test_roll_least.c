/* The simplest plans of strips: against every plan there is of small lists, and
 * against what the search finds in larger ones. The lists are invented. */

#include "../../src/plan/roll_plan.h"
#include "../unit.h"

enum { MOST_PATTERNS = 4000, MOST_SIZES = 4, MOST_STRIPS = 16 };

static struct roll_problem random_list(struct arena *arena,
                                       struct unit_random *random, size_t count,
                                       size_t demand, size_t width)
{
    struct roll_problem problem = {.width = (int64_t)width,
                                   .trimmed = unit_below(random, 2) == 1,
                                   .count = count,
                                   .folded = unit_below(random, 2) == 1};
    struct roll_size *sizes = ARENA_ARRAY(arena, struct roll_size, count);
    for (size_t i = 0; i < count; i++)
        sizes[i] = (struct roll_size){1 + (int64_t)unit_below(random, width),
                                      1 + (int64_t)unit_below(random, width),
                                      (size_t)unit_below(random, demand + 1),
                                      unit_below(random, 2) == 1, ""};
    problem.sizes = sizes;
    return problem;
}

static size_t total(struct roll_effort effort)
{
    return effort.lines + effort.settings + effort.trims;
}

/* ---- every plan ---- */

struct every {
    struct arena *arena;
    const struct roll_problem *problem;
    int64_t budget;
    struct roll_strip patterns[MOST_PATTERNS];
    size_t count;
    const struct roll_strip *taken[MOST_STRIPS];
    size_t made[MOST_SIZES];
    /* the simplest, of these with the fewest strips to open where they are
     * folded, and the shortest of these */
    size_t effort, effort_in_lines, opened;
    int64_t length;
    size_t lines; /* that `effort_in_lines` may have */
};

/* Patterns of one height, with the counts of size and way `from` on. */
static void add_patterns(struct every *every, struct roll_strip *strip,
                         int64_t room, size_t from)
{
    const struct roll_problem *problem = every->problem;
    if (from == 2 * problem->count) {
        if (strip->cuts.count == 0)
            return;
        assert_true(every->count < MOST_PATTERNS);
        struct roll_strip *copy = &every->patterns[every->count++];
        *copy = (struct roll_strip){.height = strip->height, .repeat = 1};
        for (size_t k = 0; k < strip->cuts.count; k++)
            *LIST_ADD(every->arena, &copy->cuts) = strip->cuts.items[k];
        return;
    }
    const struct roll_size *size = &problem->sizes[from / 2];
    const bool turned = from % 2 == 1;
    const int64_t along = turned ? size->height : size->width;
    const int64_t across = turned ? size->width : size->height;
    add_patterns(every, strip, room, from + 1);
    if ((turned && (!size->turns || along == across)) ||
        across > strip->height || (across < strip->height && !problem->trimmed))
        return;
    for (size_t n = 1; n <= size->demand && (int64_t)n * along <= room; n++) {
        *LIST_ADD(every->arena, &strip->cuts) =
            (struct roll_cut){from / 2, n, along};
        add_patterns(every, strip, room - (int64_t)n * along, from + 1);
        strip->cuts.count--;
    }
}

static bool better(const struct every *every, size_t effort, size_t opened,
                   int64_t length)
{
    if (effort != every->effort)
        return effort < every->effort;
    return opened != every->opened ? opened < every->opened
                                   : length < every->length;
}

static void weigh(struct every *every, size_t strips)
{
    struct arena *scratch = arena_create();
    struct roll_plan *plan = ARENA_NEW(scratch, struct roll_plan);
    for (size_t i = 0; i < strips; i++) {
        if (i > 0 && every->taken[i] == every->taken[i - 1]) {
            plan->strips.items[plan->strips.count - 1].repeat++;
            continue;
        }
        struct roll_strip *strip = LIST_ADD(scratch, &plan->strips);
        *strip =
            (struct roll_strip){.height = every->taken[i]->height, .repeat = 1};
        for (size_t k = 0; k < every->taken[i]->cuts.count; k++)
            *LIST_ADD(scratch, &strip->cuts) = every->taken[i]->cuts.items[k];
    }
    roll_plan_settle(scratch, every->problem, plan);
    const struct roll_effort effort = roll_effort(every->problem, plan);
    if (plan->length <= every->budget) {
        const size_t opened =
            every->problem->folded ? roll_opened(every->problem, plan) : 0;
        if (better(every, total(effort), opened, plan->length)) {
            every->effort = total(effort);
            every->opened = opened;
            every->length = plan->length;
        }
        if (effort.lines <= every->lines &&
            total(effort) < every->effort_in_lines)
            every->effort_in_lines = total(effort);
    }
    arena_destroy(scratch);
}

/* Strips are taken in the order of their patterns, the same one again and
 * again, as long as each makes something that is wanted. */
static void take_strips(struct every *every, size_t from, size_t strips,
                        int64_t length)
{
    const struct roll_problem *problem = every->problem;
    bool wanted = false;
    for (size_t i = 0; i < problem->count; i++)
        wanted |= every->made[i] < problem->sizes[i].demand;
    if (!wanted) {
        weigh(every, strips);
        return;
    }
    for (size_t p = from; strips < MOST_STRIPS && p < every->count; p++) {
        const struct roll_strip *pattern = &every->patterns[p];
        bool useful = false;
        for (size_t k = 0; k < pattern->cuts.count; k++) {
            const struct roll_cut *cut = &pattern->cuts.items[k];
            useful |= every->made[cut->size] < problem->sizes[cut->size].demand;
        }
        if (!useful || length + pattern->height > every->budget)
            continue;
        for (size_t k = 0; k < pattern->cuts.count; k++)
            every->made[pattern->cuts.items[k].size] +=
                pattern->cuts.items[k].count;
        every->taken[strips] = pattern;
        take_strips(every, p, strips + 1, length + pattern->height);
        for (size_t k = 0; k < pattern->cuts.count; k++)
            every->made[pattern->cuts.items[k].size] -=
                pattern->cuts.items[k].count;
    }
}

static void try_every_plan(struct every *every)
{
    int64_t last = 0;
    every->effort = every->effort_in_lines = SIZE_MAX;
    every->length = INT64_MAX;
    for (int64_t height = 1; height <= every->problem->width; height++) {
        bool used = false;
        for (size_t i = 0; i < every->problem->count; i++) {
            const struct roll_size *size = &every->problem->sizes[i];
            used |=
                size->demand > 0 && (size->height == height ||
                                     (size->turns && size->width == height));
        }
        struct roll_strip strip = {.height = height, .repeat = 1};
        if (used && height != last)
            add_patterns(every, &strip, every->problem->width, 0);
        last = height;
    }
    take_strips(every, 0, 0, 0);
}

static void test_no_plan_is_simpler_than_the_bound(void **state)
{
    struct unit_random random = {11};
    size_t met = 0, best_told = 0, opened = 0, lists = 0;
    (void)state;
    for (int n = 0; n < 2000; n++) {
        struct arena *arena = arena_create();
        const struct roll_problem problem = random_list(
            arena, &random, 1 + (size_t)unit_below(&random, 3), 3, 7);
        const struct roll_plan *hand = plan_roll_by_hand(arena, &problem);
        if (hand != NULL && hand->length > 0) {
            struct every *every = ARENA_NEW(arena, struct every);
            every->arena = arena;
            every->problem = &problem;
            every->budget = hand->length + (int64_t)unit_below(&random, 3) - 1;
            every->lines = 1 + (size_t)unit_below(&random, 2);
            try_every_plan(every);
            size_t effort;
            bool best;
            const struct roll_plan *plan =
                roll_least_plan(arena, &problem, every->budget, &effort, &best);
            lists++;
            assert_true(effort <= every->effort);
            assert_true(
                roll_least_effort(&problem, every->budget, every->lines) <=
                every->effort_in_lines);
            met += effort == every->effort;
            if (plan != NULL) {
                assert_true(roll_plan_holds(&problem, plan));
                assert_true(plan->length <= every->budget);
                assert_int_equal(total(roll_effort(&problem, plan)), effort);
                assert_int_equal(effort, every->effort);
            }
            if (best) {
                assert_non_null(plan);
                assert_int_equal(plan->length, every->length);
                if (problem.folded)
                    assert_int_equal(roll_opened(&problem, plan),
                                     every->opened);
                opened += problem.folded && every->opened > 0;
                best_told++;
            }
        }
        arena_destroy(arena);
    }
    /* A bound that is never met would prove nothing. */
    assert_true(lists > 1500);
    assert_true(met * 4 > lists * 3);
    assert_true(best_told * 2 > lists);
    assert_true(opened > 200);
}

static void test_a_strip_for_two_sizes_beats_one_for_each(void **state)
{
    /* 16 pieces 36 x 20 and 20 squares of 23: four strips of 23 hold 4 and 5 of
     * them, in 92 of the 100 that there are. */
    static const struct roll_size sizes[] = {{36, 20, 16, true, ""},
                                             {23, 23, 20, true, ""}};
    const struct roll_problem problem = {336, true, sizes, 2, false};
    struct roll_plan *hand = plan_roll_by_hand(*state, &problem);
    assert_int_equal(total(roll_effort(&problem, hand)), 6);
    const struct roll_plan *plan =
        simplify_roll(*state, &problem, hand, 100, 400000);
    assert_int_equal(plan->length, 92);
    assert_int_equal(total(roll_effort(&problem, plan)), 5);
    assert_int_equal(roll_least_effort(&problem, 100, SIZE_MAX), 5);
    /* With exact strips there is no way but one for each. */
    const struct roll_problem exact = {336, false, sizes, 2, false};
    assert_int_equal(roll_least_effort(&exact, 100, SIZE_MAX), 6);
    assert_int_equal(roll_least_effort(&exact, 100, 1), SIZE_MAX);
}

static void test_too_many_sizes_tell_nothing(void **state)
{
    struct roll_size sizes[30];
    for (size_t i = 0; i < 30; i++)
        sizes[i] =
            (struct roll_size){(int64_t)i + 5, (int64_t)i + 9, 3, true, ""};
    const struct roll_problem problem = {400, true, sizes, 30, false};
    size_t effort = 1;
    bool best = true;
    assert_null(roll_least_plan(*state, &problem, 4000, &effort, &best));
    assert_int_equal(effort, 0);
    assert_false(best);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_plan_is_simpler_than_the_bound),
        cmocka_unit_test(test_a_strip_for_two_sizes_beats_one_for_each),
        cmocka_unit_test(test_too_many_sizes_tell_nothing),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
