/* The least cover: worked ones, random ones against every subset, and searches
 * that are cut short. */
#include "../unit.h"
#include "cover.h"

enum { WORK = 10000000, MOST = 12 };

/* A problem from rows of facts as bits; no row has more than 16. */
struct row {
    unsigned facts;
    int64_t first, second;
};

static struct cover_problem problem_of(struct arena *arena, size_t facts,
                                       const struct row *rows, size_t count)
{
    struct cover_problem problem = {.facts = facts, .most_work = WORK};
    for (size_t i = 0; i < count; i++) {
        struct cover_candidate *one = LIST_ADD(arena, &problem.candidates);
        one->weight = (struct cover_weight){rows[i].first, rows[i].second};
        for (size_t f = 0; f < facts; f++)
            if ((rows[i].facts >> f & 1) != 0)
                *LIST_ADD(arena, &one->facts) = f;
    }
    return problem;
}

/* By every subset. ensures: false where none brings all. */
static bool least_of_all(size_t facts, const struct row *rows, size_t count,
                         struct cover_weight *least)
{
    bool found = false;
    for (unsigned set = 0; set < 1U << count; set++) {
        unsigned brought = 0;
        struct cover_weight weight = {0, 0};
        for (size_t i = 0; i < count; i++)
            if ((set >> i & 1) != 0) {
                brought |= rows[i].facts;
                weight.first += rows[i].first;
                weight.second += rows[i].second;
            }
        if (brought != (1U << facts) - 1 ||
            (found && cover_compare(weight, *least) >= 0))
            continue;
        *least = weight;
        found = true;
    }
    return found;
}

/* The plan's own weight, added up; all facts must be there. */
static void assert_holds(const struct cover_plan *plan, size_t facts,
                         const struct row *rows)
{
    unsigned brought = 0;
    struct cover_weight weight = {0, 0};
    for (size_t i = 0; i < plan->chosen.count; i++) {
        const struct row *row = &rows[plan->chosen.items[i]];
        brought |= row->facts;
        weight.first += row->first;
        weight.second += row->second;
    }
    assert_int_equal(brought, (1U << facts) - 1);
    assert_int_equal(cover_compare(weight, plan->weight), 0);
    assert_true(cover_compare(plan->bound, plan->weight) <= 0);
}

static void test_worked(void **state)
{
    /* Taking the candidate with most facts first would cost 8 + 3 + 3. */
    static const struct row rows[] = {
        {0x0F, 8, 0}, {0x13, 3, 1}, {0x2C, 3, 1}, {0x10, 3, 0}, {0x20, 3, 0}};
    const struct cover_problem problem = problem_of(*state, 6, rows, 5);
    const struct cover_plan plan = plan_cover(*state, &problem);
    assert_true(plan.possible);
    assert_true(plan.least);
    assert_int_equal(plan.chosen.count, 2);
    assert_int_equal(plan.chosen.items[0], 1);
    assert_int_equal(plan.chosen.items[1], 2);
    assert_int_equal(plan.weight.first, 6);
    assert_int_equal(plan.weight.second, 2);
}

/* Equal in the first number, so the second decides. */
static void test_second_number(void **state)
{
    static const struct row rows[] = {{3, 2, 9}, {1, 1, 4}, {2, 1, 4}};
    const struct cover_problem problem = problem_of(*state, 2, rows, 3);
    const struct cover_plan plan = plan_cover(*state, &problem);
    assert_int_equal(plan.weight.first, 2);
    assert_int_equal(plan.weight.second, 8);
    assert_int_equal(plan.chosen.count, 2);
}

static void test_impossible_and_empty(void **state)
{
    static const struct row rows[] = {{1, 1, 1}, {4, 1, 1}};
    struct cover_problem problem = problem_of(*state, 3, rows, 2);
    const struct cover_plan plan = plan_cover(*state, &problem);
    assert_false(plan.possible);
    assert_int_equal(plan.chosen.count, 0);
    problem = problem_of(*state, 0, rows, 0);
    const struct cover_plan none = plan_cover(*state, &problem);
    assert_true(none.possible && none.least);
    assert_int_equal(none.chosen.count, 0);
}

static void test_random_against_all_subsets(void **state)
{
    struct unit_random random = {20261};
    size_t possible = 0, searched = 0;
    for (int run = 0; run < 600; run++) {
        struct arena *arena = arena_create();
        const size_t facts = 1 + (size_t)unit_below(&random, 13);
        const size_t count = 1 + (size_t)unit_below(&random, MOST);
        struct row rows[MOST];
        for (size_t i = 0; i < count; i++) {
            const unsigned all = (1U << facts) - 1;
            rows[i].facts = (unsigned)unit_next(&random) & all;
            if (run % 2 == 0)
                rows[i].facts &= (unsigned)unit_next(&random) & all;
            rows[i].first = unit_below(&random, 6);
            rows[i].second = unit_below(&random, 50);
        }
        const struct cover_problem problem =
            problem_of(arena, facts, rows, count);
        const struct cover_plan plan = plan_cover(arena, &problem);
        struct cover_weight least;
        const bool found = least_of_all(facts, rows, count, &least);
        assert_int_equal(plan.possible, found);
        if (found) {
            possible++;
            searched += plan.facts_left > 0;
            assert_true(plan.least);
            assert_holds(&plan, facts, rows);
            assert_int_equal(cover_compare(plan.weight, least), 0);
        }
        arena_destroy(arena);
    }
    assert_true(possible > 200);
    assert_true(searched > 10);
    (void)state;
}

/* Facts are the points of a plane of 31, candidates its lines of 6: nothing to
 * reduce, and no bound of prices closes it at once. */
static struct cover_problem plane(struct arena *arena)
{
    static const size_t lines[] = {1, 5, 11, 24, 25, 27};
    struct cover_problem problem = {.facts = 31, .most_work = WORK};
    for (size_t i = 0; i < 31; i++) {
        struct cover_candidate *one = LIST_ADD(arena, &problem.candidates);
        one->weight = (struct cover_weight){1, 0};
        for (size_t k = 0; k < 6; k++)
            *LIST_ADD(arena, &one->facts) = (lines[k] + i) % 31;
    }
    return problem;
}

static void test_cut_short(void **state)
{
    struct cover_problem problem = plane(*state);
    const struct cover_plan whole = plan_cover(*state, &problem);
    assert_true(whole.least);
    problem.most_work = 9000;
    const struct cover_plan brief = plan_cover(*state, &problem);
    assert_true(brief.possible);
    assert_false(brief.least);
    assert_true(cover_compare(brief.bound, whole.weight) <= 0);
    assert_true(cover_compare(brief.weight, whole.weight) >= 0);
    assert_true(brief.work < 2 * problem.most_work);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_worked),
        cmocka_unit_test(test_second_number),
        cmocka_unit_test(test_impossible_and_empty),
        cmocka_unit_test(test_random_against_all_subsets),
        cmocka_unit_test(test_cut_short),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
