/* Branch and bound for the least cover. At each node the fact with the fewest
 * candidates is brought by one of them after the other; one that was tried is
 * forbidden behind it, so no set is met twice. The bound is a dual one: each
 * fact has a price, and the prices of what a candidate brings add up to at most
 * its weight, so every cover weighs at least the sum of all prices. Weights are
 * pairs in the order of words, an ordered group: sums and differences keep the
 * order, and nothing else is used. Work is counted, never timed. */
#include <string.h>

#include "cover_search.h"

struct search {
    struct cover *cover;
    size_t facts, candidates;
    bool *chosen, *best;        /* by candidate, of what is left */
    size_t *forbidden;          /* by candidate: by so many nodes */
    size_t *brought;            /* by fact: by so many chosen */
    struct cover_weight *slack; /* by candidate: weight less prices */
    size_t *open;               /* by fact: candidates that may bring it */
    size_t *order;              /* facts, those of few candidates first */
    struct cover_weight weight, best_weight;
    bool ended; /* the work was used up */
};

static const struct cover_candidate *candidate_of(const struct search *search,
                                                  size_t candidate)
{
    return &search->cover->problem->candidates.items[candidate];
}

static bool is_open(const struct search *search, size_t candidate)
{
    return search->cover->allowed[candidate] &&
           search->forbidden[candidate] == 0 && !search->chosen[candidate];
}

static bool is_needed(const struct search *search, size_t fact)
{
    return search->cover->needed[fact] && search->brought[fact] == 0;
}

static void choose(struct search *search, size_t candidate, bool in)
{
    const struct cover_candidate *one = candidate_of(search, candidate);
    search->chosen[candidate] = in;
    search->weight.first += in ? one->weight.first : -one->weight.first;
    search->weight.second += in ? one->weight.second : -one->weight.second;
    for (size_t i = 0; i < one->facts.count; i++) {
        size_t *brought = &search->brought[one->facts.items[i]];
        *brought = in ? *brought + 1 : *brought - 1;
    }
}

static void keep_best(struct search *search)
{
    search->best_weight = search->weight;
    memcpy(search->best, search->chosen, search->candidates * sizeof(bool));
}

/* ---- a first cover ---- */

static size_t facts_needed(struct search *search, size_t candidate)
{
    const struct cover_candidate *one = candidate_of(search, candidate);
    size_t count = 0;
    for (size_t i = 0; i < one->facts.count; i++)
        count += is_needed(search, one->facts.items[i]);
    search->cover->work += one->facts.count;
    return count;
}

/* Weighs a less for each fact than b? */
static bool is_cheaper(struct cover_weight a, size_t a_facts,
                       struct cover_weight b, size_t b_facts)
{
    const struct cover_weight one = {a.first * (int64_t)b_facts,
                                     a.second * (int64_t)b_facts};
    const struct cover_weight other = {b.first * (int64_t)a_facts,
                                       b.second * (int64_t)a_facts};
    return cover_compare(one, other) < 0;
}

/* The least for each new fact, again and again. */
static void choose_greedily(struct search *search)
{
    for (;;) {
        size_t best = search->candidates, most = 0;
        for (size_t c = 0; c < search->candidates; c++) {
            const size_t facts =
                is_open(search, c) ? facts_needed(search, c) : 0;
            if (facts > 0 &&
                (most == 0 ||
                 is_cheaper(candidate_of(search, c)->weight, facts,
                            candidate_of(search, best)->weight, most))) {
                best = c;
                most = facts;
            }
        }
        if (most == 0)
            break;
        choose(search, best, true);
    }
    keep_best(search);
    for (size_t c = 0; c < search->candidates; c++)
        if (search->chosen[c])
            choose(search, c, false);
}

/* ---- the bound ---- */

static size_t count_open(struct search *search, size_t fact)
{
    size_t count = 0;
    for (size_t i = 0; i < search->cover->bringing[fact].count; i++)
        count += is_open(search, search->cover->bringing[fact].items[i]);
    search->cover->work += search->cover->bringing[fact].count;
    return count;
}

/* By insertion: few facts are left. ensures: how many. */
static size_t order_facts(struct search *search)
{
    size_t count = 0;
    for (size_t f = 0; f < search->facts; f++) {
        if (!is_needed(search, f))
            continue;
        search->open[f] = count_open(search, f);
        size_t at = count++;
        for (; at > 0 && search->open[search->order[at - 1]] > search->open[f];
             at--)
            search->order[at] = search->order[at - 1];
        search->order[at] = f;
    }
    return count;
}

/* The highest price that all open candidates of a fact can bear; it is taken
 * from their slack. requires: one of them at least. */
static struct cover_weight price_of(struct search *search, size_t fact)
{
    struct cover_weight least = {0, 0};
    bool found = false;
    for (size_t i = 0; i < search->cover->bringing[fact].count; i++) {
        const size_t c = search->cover->bringing[fact].items[i];
        if (is_open(search, c) &&
            (!found || cover_compare(search->slack[c], least) < 0)) {
            least = search->slack[c];
            found = true;
        }
    }
    for (size_t i = 0; i < search->cover->bringing[fact].count; i++) {
        const size_t c = search->cover->bringing[fact].items[i];
        search->slack[c].first -= least.first;
        search->slack[c].second -= least.second;
    }
    search->cover->work += 2 * search->cover->bringing[fact].count;
    return least;
}

/* requires: ordered facts, each with an open candidate. */
static struct cover_weight bound_of(struct search *search, size_t count)
{
    struct cover_weight sum = search->weight;
    for (size_t c = 0; c < search->candidates; c++)
        search->slack[c] = candidate_of(search, c)->weight;
    search->cover->work += search->candidates;
    for (size_t i = 0; i < count; i++)
        sum = cover_add(sum, price_of(search, search->order[i]));
    return sum;
}

/* ---- branches ---- */

/* The lightest candidate of the fact that is open; `candidates` for none. */
static size_t lightest(const struct search *search, size_t fact)
{
    size_t best = search->candidates;
    for (size_t i = 0; i < search->cover->bringing[fact].count; i++) {
        const size_t c = search->cover->bringing[fact].items[i];
        if (is_open(search, c) &&
            (best == search->candidates ||
             cover_compare(candidate_of(search, c)->weight,
                           candidate_of(search, best)->weight) < 0))
            best = c;
    }
    return best;
}

static void branch(struct search *search);

/* Tries all candidates of the fact, and allows them again. */
static void branch_on(struct search *search, size_t fact)
{
    LIST(size_t) tried = {0};
    for (size_t c = lightest(search, fact);
         c < search->candidates && !search->ended; c = lightest(search, fact)) {
        choose(search, c, true);
        branch(search);
        choose(search, c, false);
        search->forbidden[c]++;
        *LIST_ADD(search->cover->arena, &tried) = c;
    }
    for (size_t i = 0; i < tried.count; i++)
        search->forbidden[tried.items[i]]--;
}

/* As deep as there are facts at most. */
static void branch(struct search *search)
{
    if (cover_work_left(search->cover) == 0) {
        search->ended = true;
        return;
    }
    const size_t count = order_facts(search);
    if (count == 0) {
        if (cover_compare(search->weight, search->best_weight) < 0)
            keep_best(search);
        return;
    }
    const size_t fact = search->order[0];
    if (search->open[fact] > 0 &&
        cover_compare(bound_of(search, count), search->best_weight) < 0)
        branch_on(search, fact);
}

static struct search search_of(struct cover *cover)
{
    const size_t facts = cover->problem->facts;
    const size_t candidates = cover->problem->candidates.count;
    struct arena *arena = cover->arena;
    return (struct search){
        .cover = cover,
        .facts = facts,
        .candidates = candidates,
        .chosen = ARENA_ARRAY(arena, bool, candidates + 1),
        .best = ARENA_ARRAY(arena, bool, candidates + 1),
        .forbidden = ARENA_ARRAY(arena, size_t, candidates + 1),
        .brought = ARENA_ARRAY(arena, size_t, facts + 1),
        .slack = ARENA_ARRAY(arena, struct cover_weight, candidates + 1),
        .open = ARENA_ARRAY(arena, size_t, facts + 1),
        .order = ARENA_ARRAY(arena, size_t, facts + 1)};
}

struct cover_weight search_cover(struct cover *cover)
{
    struct search search = search_of(cover);
    choose_greedily(&search);
    const struct cover_weight root = bound_of(&search, order_facts(&search));
    branch(&search);
    const struct cover_weight before = cover->weight;
    for (size_t c = 0; c < search.candidates; c++)
        cover->chosen[c] |= search.best[c];
    cover->weight = cover_add(before, search.best_weight);
    return cover_add(before, search.ended ? root : search.best_weight);
}
