/* The least cover. What no choice is left about is settled first: a fact that
 * comes with another one, a candidate that another one replaces, a candidate
 * that alone brings a fact (the three classical reductions; they keep at least
 * one least cover). The search has the rest. Read next: cover_search.c. */
#include "cover_search.h"

int cover_compare(struct cover_weight a, struct cover_weight b)
{
    if (a.first != b.first)
        return a.first < b.first ? -1 : 1;
    return a.second < b.second ? -1 : a.second > b.second ? 1 : 0;
}

struct cover_weight cover_add(struct cover_weight a, struct cover_weight b)
{
    return (struct cover_weight){a.first + b.first, a.second + b.second};
}

static const struct cover_candidate *candidate_at(const struct cover *cover,
                                                  size_t candidate)
{
    return &cover->problem->candidates.items[candidate];
}

static struct cover cover_of(struct arena *arena,
                             const struct cover_problem *problem)
{
    const size_t count = problem->candidates.count;
    struct cover cover = {.arena = arena, .problem = problem};
    cover.needed = ARENA_ARRAY(arena, bool, problem->facts + 1);
    cover.allowed = ARENA_ARRAY(arena, bool, count + 1);
    cover.chosen = ARENA_ARRAY(arena, bool, count + 1);
    cover.bringing =
        arena_alloc(arena, sizeof *cover.bringing * (problem->facts + 1));
    for (size_t f = 0; f < problem->facts; f++)
        cover.needed[f] = true;
    for (size_t c = 0; c < count; c++) {
        const struct cover_candidate *one = candidate_at(&cover, c);
        cover.allowed[c] = true;
        for (size_t i = 0; i < one->facts.count; i++)
            *LIST_ADD(arena, &cover.bringing[one->facts.items[i]]) = c;
    }
    return cover;
}

/* ---- reductions ---- */

static void take(struct cover *cover, size_t candidate)
{
    const struct cover_candidate *one = candidate_at(cover, candidate);
    cover->allowed[candidate] = false;
    cover->chosen[candidate] = true;
    cover->weight = cover_add(cover->weight, one->weight);
    for (size_t i = 0; i < one->facts.count; i++)
        cover->needed[one->facts.items[i]] = false;
}

/* The only candidate that is left for a fact, or none: `count` tells. */
static size_t only_one(const struct cover *cover, size_t fact, size_t *count)
{
    size_t found = 0;
    *count = 0;
    for (size_t i = 0; i < cover->bringing[fact].count; i++)
        if (cover->allowed[cover->bringing[fact].items[i]]) {
            found = cover->bringing[fact].items[i];
            ++*count;
        }
    return found;
}

static bool take_only_ones(struct cover *cover)
{
    bool changed = false;
    for (size_t f = 0; f < cover->problem->facts; f++) {
        size_t count;
        if (!cover->needed[f])
            continue;
        const size_t one = only_one(cover, f, &count);
        if (count == 1) {
            take(cover, one);
            changed = true;
        }
    }
    return changed;
}

/* Marks what a list holds, for `inside`. */
static void mark(bool *marks, const size_t *items, size_t count, bool value)
{
    for (size_t i = 0; i < count; i++)
        marks[items[i]] = value;
}

/* Is each open candidate of `fact` among the marked ones? */
static bool fact_inside(struct cover *cover, size_t fact, const bool *marks)
{
    for (size_t i = 0; i < cover->bringing[fact].count; i++) {
        const size_t c = cover->bringing[fact].items[i];
        cover->work++;
        if (cover->allowed[c] && !marks[c])
            return false;
    }
    return true;
}

/* A fact comes along with one whose candidates all bring it, too. Of facts that
 * come together the first stays. */
static bool drop_facts(struct cover *cover)
{
    bool changed = false;
    bool *marks =
        ARENA_ARRAY(cover->arena, bool, cover->problem->candidates.count + 1);
    for (size_t f = 0; f < cover->problem->facts; f++) {
        if (!cover->needed[f])
            continue;
        mark(marks, cover->bringing[f].items, cover->bringing[f].count, true);
        for (size_t g = 0; g < cover->problem->facts && cover->needed[f]; g++)
            if (g != f && cover->needed[g] && fact_inside(cover, g, marks)) {
                cover->needed[f] = false;
                changed = true;
            }
        mark(marks, cover->bringing[f].items, cover->bringing[f].count, false);
    }
    return changed;
}

/* Are all needed facts of a candidate among the marked ones? */
static bool candidate_inside(struct cover *cover, size_t candidate,
                             const bool *marks)
{
    const struct cover_candidate *one = candidate_at(cover, candidate);
    for (size_t i = 0; i < one->facts.count; i++) {
        cover->work++;
        if (cover->needed[one->facts.items[i]] && !marks[one->facts.items[i]])
            return false;
    }
    return true;
}

/* A candidate goes where one that weighs no more brings what it brings. Of two
 * that are equal in both the second goes, as it is asked second. */
static bool drop_candidates(struct cover *cover)
{
    const size_t count = cover->problem->candidates.count;
    bool changed = false;
    bool *marks = ARENA_ARRAY(cover->arena, bool, cover->problem->facts + 1);
    for (size_t c = 0; c < count; c++) {
        const struct cover_candidate *one = candidate_at(cover, c);
        if (!cover->allowed[c])
            continue;
        mark(marks, one->facts.items, one->facts.count, true);
        for (size_t d = 0; d < count; d++)
            if (d != c && cover->allowed[d] &&
                cover_compare(one->weight, candidate_at(cover, d)->weight) <=
                    0 &&
                candidate_inside(cover, d, marks)) {
                cover->allowed[d] = false;
                changed = true;
            }
        mark(marks, one->facts.items, one->facts.count, false);
    }
    return changed;
}

/* Each round leaves less, so it ends. */
static void reduce(struct cover *cover)
{
    bool changed = true;
    while (changed) {
        changed = take_only_ones(cover);
        changed |= drop_facts(cover);
        changed |= drop_candidates(cover);
    }
}

/* ---- the plan ---- */

static bool is_possible(const struct cover *cover)
{
    for (size_t f = 0; f < cover->problem->facts; f++)
        if (cover->bringing[f].count == 0)
            return false;
    return true;
}

static void count_left(const struct cover *cover, struct cover_plan *plan)
{
    for (size_t f = 0; f < cover->problem->facts; f++)
        plan->facts_left += cover->needed[f];
    for (size_t c = 0; c < cover->problem->candidates.count; c++)
        plan->candidates_left += cover->allowed[c];
}

/* Is each fact of the candidate brought by another chosen one? */
static bool is_spare(const struct cover *cover, const size_t *bringing,
                     size_t candidate)
{
    const struct cover_candidate *one = candidate_at(cover, candidate);
    for (size_t i = 0; i < one->facts.count; i++)
        if (bringing[one->facts.items[i]] < 2)
            return false;
    return true;
}

/* Leaves out what the others bring: heaviest first would save most, but a least
 * cover has only those that weigh nothing. */
static void leave_out_spare(struct cover *cover)
{
    size_t *bringing =
        ARENA_ARRAY(cover->arena, size_t, cover->problem->facts + 1);
    for (size_t f = 0; f < cover->problem->facts; f++)
        for (size_t i = 0; i < cover->bringing[f].count; i++)
            bringing[f] += cover->chosen[cover->bringing[f].items[i]];
    for (size_t c = cover->problem->candidates.count; c-- > 0;) {
        const struct cover_candidate *one = candidate_at(cover, c);
        if (!cover->chosen[c] || !is_spare(cover, bringing, c))
            continue;
        cover->chosen[c] = false;
        cover->weight.first -= one->weight.first;
        cover->weight.second -= one->weight.second;
        for (size_t i = 0; i < one->facts.count; i++)
            bringing[one->facts.items[i]]--;
    }
}

struct cover_plan plan_cover(struct arena *arena,
                             const struct cover_problem *problem)
{
    struct cover cover = cover_of(arena, problem);
    struct cover_plan plan = {.possible = is_possible(&cover)};
    if (!plan.possible)
        return plan;
    reduce(&cover);
    count_left(&cover, &plan);
    plan.bound = search_cover(&cover);
    leave_out_spare(&cover);
    for (size_t c = 0; c < problem->candidates.count; c++)
        if (cover.chosen[c])
            *LIST_ADD(arena, &plan.chosen) = c;
    plan.weight = cover.weight;
    plan.least = cover_compare(plan.bound, plan.weight) == 0;
    plan.work = cover.work;
    return plan;
}
