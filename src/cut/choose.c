/* Which plan is printed. First the least cloth as it is sold, then the least
 * work within it: the last inch is worth little, a line of cutting much. Exact
 * and trimmed plans compete. What was chosen for a list is kept for the run, as
 * colorways mostly differ in color alone. Read next: roll.c. */
#include <string.h>

#include "cutter.h"

/* In exact fractions: a hair above a step of the shop would cost a whole step
 * more. */
static struct rational bought_for(const struct price *price, int64_t length)
{
    const struct rational cut =
        rational_add(rational_times(price->step, length), price->fixed);
    return sold_length(price->cutter, length_to_buy(price->bolt, cut));
}

/* The most steps of strips that fit what is bought. The way back from
 * bought_for. Rounded down, so that what keeps to it is never sold as more. */
static int64_t budget_of(const struct price *price, struct rational bought)
{
    const struct rational usable = rational_mul(
        bought, rational_sub(rational_whole(1), price->bolt->shrinkage));
    return rational_floor(
        rational_div(rational_sub(usable, price->fixed), price->step));
}

/* Every step counts the same; the weights are a model, not a measurement. */
static size_t total(struct roll_effort effort)
{
    return effort.lines + effort.settings + effort.trims;
}

/* Of a single list roll_work gives few sizes as much as 12. Here many lists are
 * planned while one waits, and few sizes find as simple plans with less: up to
 * six with half of it. */
uint64_t list_work(const struct roll_problem *problem)
{
    enum { FEW = 6, SOME = 12 };
    const uint64_t count = problem->count < FEW ? FEW : problem->count;
    const uint64_t work = roll_work(problem);
    return count < SOME ? work / SOME * count : work;
}

/* Up to six searches make one choice, so that each gets a part of what a single
 * one would be given: about a second a cloth, far less for few sizes. All lists
 * of a source together get about three seconds, each by its number of sizes. */
static uint64_t share_of_work(const struct cutter *cutter,
                              const struct roll_problem *problem)
{
    enum { SOURCE_WORK = 1000000000 };
    const uint64_t own = list_work(problem) / 4;
    const uint64_t all =
        cutter->choices->sizes > 0 ? cutter->choices->sizes : 1;
    const uint64_t share = SOURCE_WORK / all * problem->count;
    return own < share ? own : share;
}

bool planned_simply(const struct cutter *cutter,
                    const struct roll_problem *problem)
{
    return !roll_searches(problem, share_of_work(cutter, problem));
}

/* Either kind of problem, with its shortest plan. */
struct kind {
    struct roll_problem problem;
    uint64_t work; /* for each search; 0: none is made */
    const struct roll_plan *shortest;
};

/* One size in strips of its own is as simple as can be: no search. */
static const struct roll_plan *
simplest_of_kind(struct arena *arena, const struct kind *kind, int64_t budget)
{
    if (kind->work == 0)
        return NULL;
    struct roll_plan *hand = kind->problem.count == 1
                                 ? plan_roll_by_hand(arena, &kind->problem)
                                 : NULL;
    if (hand == NULL || hand->length > budget)
        return simplify_roll(arena, &kind->problem, kind->shortest, budget,
                             kind->work);
    hand->bound = kind->shortest->bound;
    return hand;
}

/* A plan with what it asks for; none where `plan` is NULL. */
struct found {
    const struct roll_plan *plan;
    struct roll_effort effort;
    size_t opened;
};

static struct found find_simplest(struct arena *arena, const struct kind *kind,
                                  int64_t budget)
{
    const struct roll_plan *plan = simplest_of_kind(arena, kind, budget);
    if (plan == NULL)
        plan = kind->shortest;
    if (!roll_plan_holds(&kind->problem, plan))
        internal_error("a plan of strips does not hold its pieces");
    return (struct found){plan, roll_effort(&kind->problem, plan),
                          roll_opened(&kind->problem, plan)};
}

/* Is it simpler than the exact plan? */
static bool simpler(const struct found *trimmed, const struct found *exact)
{
    if (exact->plan == NULL || total(trimmed->effort) != total(exact->effort))
        return exact->plan == NULL ||
               total(trimmed->effort) < total(exact->effort);
    return trimmed->opened < exact->opened;
}

/* The simpler of the two kinds' simplest plans within a budget; the exact one
 * where they are equal. NULL where none is found. That kind is searched first
 * which may be simpler, as the other is needed only where it may be so, too. */
static const struct roll_plan *simplest(struct arena *arena,
                                        const struct kind kinds[2],
                                        int64_t budget,
                                        struct roll_effort *effort)
{
    struct found exact = {0}, trimmed = {0};
    bool fits[2];
    size_t least[2] = {0, 0};
    for (int i = 0; i < 2; i++)
        fits[i] = kinds[i].shortest->length <= budget;
    for (int i = 0; i < 2 && fits[0] && fits[1]; i++)
        least[i] = roll_least_effort(&kinds[i].problem, budget, SIZE_MAX);
    const bool trimmed_first = !fits[0] || least[1] < least[0];
    if (fits[1] && trimmed_first)
        trimmed = find_simplest(arena, &kinds[1], budget);
    struct kind other = kinds[0];
    if (trimmed.plan != NULL && least[0] == total(trimmed.effort))
        other.work /= 2; /* it can be as simple, not simpler */
    if (fits[0] && (trimmed.plan == NULL || least[0] <= total(trimmed.effort)))
        exact = find_simplest(arena, &other, budget);
    if (fits[1] && exact.plan != NULL && least[1] >= total(exact.effort))
        trimmed.plan = NULL;
    else if (fits[1] && !trimmed_first)
        trimmed = find_simplest(arena, &kinds[1], budget);
    const struct found *best =
        trimmed.plan != NULL && simpler(&trimmed, &exact) ? &trimmed : &exact;
    *effort = best->effort;
    return best->plan;
}

/* A plan of the least cloth that can do, as sold: the plan by hand, or one that
 * a short search finds. `kind` gets its kind. NULL where that is not so soon
 * proven. It decides what is bought for `check` and for those who cut, so that
 * the two never differ. */
static const struct roll_plan *least_plan(const struct price *price,
                                          struct arena *arena,
                                          const struct kind kinds[2], int *kind)
{
    const struct roll_problem *any = &kinds[1].problem;
    struct roll_plan *plan = plan_roll_by_hand(arena, &kinds[0].problem);
    *kind = 0;
    if (plan == NULL)
        return NULL;
    int64_t bound = roll_area_bound(any);
    if (kinds[1].work > 0 &&
        plan->length > budget_of(price, bought_for(price, bound)))
        bound = roll_bound(any);
    const int64_t budget = budget_of(price, bought_for(price, bound));
    for (; *kind < 2 && (plan == NULL || plan->length > budget); ++*kind) {
        const struct roll_problem *problem = &kinds[*kind].problem;
        uint64_t work = kinds[*kind].work / 20;
        plan = work == 0 || problem->count > ROLL_MOST_SIZES
                   ? NULL
                   : roll_plan_within(arena, problem, budget, 0, &work);
        if (plan != NULL)
            break;
    }
    if (plan != NULL)
        plan->bound = bound;
    return plan;
}

static const struct roll_plan *shortest_of(struct arena *arena,
                                           const struct kind *kind)
{
    return kind->work > 0 ? plan_roll(arena, &kind->problem, kind->work)
                          : plan_roll_simply(arena, &kind->problem);
}

/* In place of the shortest a plan that is known to be as little cloth as can be
 * sold: the last inch is worth little, and its proof is a long search. */
static const struct roll_plan *short_enough(struct arena *arena,
                                            const struct kind *kind,
                                            const struct roll_plan *plan)
{
    struct roll_plan *shortest = ARENA_NEW(arena, struct roll_plan);
    *shortest = *plan;
    shortest->bound = roll_bound(&kind->problem);
    return shortest;
}

/* The shortest plans of both kinds. ensures: false where a piece fits in no
 * strip. `least`, of a kind, is enough where it is exact, as such plans are of
 * both kinds and simple; from a trimmed one simpler plans are looked for, so
 * that it is enough where it is the shortest. None is longer than it. */
static bool find_shortest(struct arena *arena, struct kind kinds[2],
                          const struct roll_plan *least, int kind)
{
    const bool enough =
        least != NULL && (kind == 0 || least->length <= least->bound);
    for (int i = 0; i < 2; i++) {
        kinds[i].shortest = enough && kind <= i && kinds[i].work > 0
                                ? short_enough(arena, &kinds[i], least)
                                : shortest_of(arena, &kinds[i]);
        if (kinds[i].shortest == NULL)
            return false;
    }
    if (least != NULL && least->length < kinds[1].shortest->length)
        kinds[1].shortest = short_enough(arena, &kinds[1], least);
    return true;
}

/* What a list is sold for, before its simplest plan is looked for. */
struct draft {
    struct kind kinds[2];
    const struct roll_plan *least; /* of least_plan, of this kind, or NULL */
    int kind;
    const struct roll_plan *plan; /* for which it is; NULL: none fits */
    int64_t bound;                /* of all plans */
    bool proven;                  /* no plan is sold for less */
};

/* The shorter of the two shortest plans says what is bought, but where that is
 * proven without them. The bound is that of trimmed plans, as exact plans are
 * among them: it holds for both. */
static struct draft draft_of(const struct price *price, struct arena *arena,
                             const struct roll_problem *problem, uint64_t work)
{
    struct draft draft = {
        .kinds = {{*problem, work, NULL}, {*problem, work, NULL}}};
    struct kind *kinds = draft.kinds;
    kinds[1].problem.trimmed = true;
    draft.least = least_plan(price, arena, kinds, &draft.kind);
    draft.plan = draft.least;
    draft.proven = draft.least != NULL;
    if (draft.proven) {
        draft.bound = draft.least->bound;
    } else if (find_shortest(arena, kinds, NULL, 0)) {
        draft.plan =
            kinds[kinds[1].shortest->length < kinds[0].shortest->length]
                .shortest;
        draft.bound = kinds[1].shortest->bound;
        draft.proven = rational_equal(bought_for(price, draft.bound),
                                      bought_for(price, draft.plan->length));
    }
    return draft;
}

/* Finds the shortest plans of both kinds, from which simpler ones are looked
 * for. requires: a plan. ensures: as find_shortest. */
static bool settle_draft(struct arena *arena, struct draft *draft)
{
    return draft->least == NULL ||
           find_shortest(arena, draft->kinds, draft->least, draft->kind);
}

/* The simplest plan for what is bought, and for one step more. Of an offer that
 * nobody may take, strips to open are not looked at. */
static void choose_simplest(const struct price *price, struct arena *arena,
                            const struct kind kinds[2], struct rational bought,
                            struct roll_choice *choice)
{
    const struct pattern *pattern = price->cutter->pattern;
    choice->plan =
        simplest(arena, kinds, budget_of(price, bought), &choice->effort);
    const struct rational more =
        rational_add(bought, trade_length(TRADE_SOLD_STEP, pattern->units));
    const int64_t budget = budget_of(price, more);
    /* Exact plans are among those of the other kind. */
    if (choice->effort.lines <= 1 ||
        roll_least_effort(&kinds[1].problem, budget,
                          choice->effort.lines - 1) >= total(choice->effort))
        return;
    struct kind offered[2] = {kinds[0], kinds[1]};
    for (int i = 0; i < 2; i++)
        offered[i].problem.folded = kinds[i].problem.folded && pattern->simple;
    choice->offer = simplest(arena, offered, budget, &choice->offer_effort);
    if (choice->offer_effort.lines >= choice->effort.lines ||
        total(choice->offer_effort) >= total(choice->effort))
        choice->offer = NULL;
    if (choice->offer != NULL && pattern->simple) {
        choice->plan = choice->offer;
        choice->effort = choice->offer_effort;
        choice->offer = NULL;
    }
}

/* ---- a reserve on each strip ---- */

/* Is it as long as the cloth is wide, but for less than the reserve, whichever
 * way it may lie? Then it has a strip for itself. */
static bool takes_all(const struct roll_size *size, int64_t width)
{
    return size->width > width && (!size->turns || size->height > width);
}

/* Its side along the strip then: it is turned where it fits no other way. */
static int64_t along_all(const struct roll_size *size, int64_t width)
{
    return size->width <= width ? size->width : size->height;
}

/* The same pieces on cloth that is narrower by the reserve. Those that take all
 * of it are told as if they fitted. */
static struct roll_problem reserved_problem(struct arena *arena,
                                            const struct roll_problem *problem,
                                            int64_t reserve)
{
    struct roll_problem reserved = *problem;
    struct roll_size *sizes =
        ARENA_ARRAY(arena, struct roll_size, problem->count + 1);
    reserved.width = problem->width - reserve;
    for (size_t i = 0; i < problem->count; i++) {
        sizes[i] = problem->sizes[i];
        if (takes_all(&sizes[i], reserved.width)) {
            sizes[i].height = sizes[i].width + sizes[i].height -
                              along_all(&sizes[i], problem->width);
            sizes[i].width = reserved.width;
            sizes[i].turns = false;
        }
    }
    reserved.sizes = sizes;
    return reserved;
}

/* The same plan for the pieces as they are. */
static const struct roll_plan *
plan_unreserved(struct arena *arena, const struct roll_problem *problem,
                int64_t reserve, const struct roll_plan *plan)
{
    struct roll_plan *real = ARENA_NEW(arena, struct roll_plan);
    *real = *plan;
    real->strips.items =
        ARENA_ARRAY(arena, struct roll_strip, plan->strips.count + 1);
    for (size_t i = 0; i < plan->strips.count; i++) {
        struct roll_strip *strip = &real->strips.items[i];
        *strip = plan->strips.items[i];
        const size_t first = strip->cuts.items[0].size;
        if (!takes_all(&problem->sizes[first], problem->width - reserve))
            continue;
        struct roll_cut *cut = ARENA_NEW(arena, struct roll_cut);
        *cut = strip->cuts.items[0];
        cut->along = along_all(&problem->sizes[first], problem->width);
        strip->cuts.items = cut;
    }
    if (!roll_plan_holds(problem, real))
        internal_error("a plan with a reserve does not hold its pieces");
    return real;
}

/* Does every strip leave it, but those of one piece that takes all? */
static bool keeps_reserve(const struct roll_problem *problem, int64_t reserve,
                          const struct roll_plan *plan)
{
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct roll_strip *strip = &plan->strips.items[i];
        int64_t used = 0;
        for (size_t k = 0; k < strip->cuts.count; k++)
            used += strip->cuts.items[k].along *
                    (int64_t)strip->cuts.items[k].count;
        if (used > problem->width - reserve &&
            !takes_all(&problem->sizes[strip->cuts.items[0].size],
                       problem->width - reserve))
            return false;
    }
    return true;
}

/* Takes a plan with the reserve, where it is no more cloth as sold, or tells
 * what it would be. ensures: true where it is taken. */
static bool keep_reserve(const struct price *price, struct arena *arena,
                         const struct roll_problem *problem, int64_t reserve,
                         struct rational bought, struct roll_choice *choice)
{
    if (reserve <= 0 || reserve >= problem->width)
        return false;
    const struct roll_problem narrow =
        reserved_problem(arena, problem, reserve);
    struct draft draft =
        draft_of(price, arena, &narrow,
                 choice->simply ? 0 : share_of_work(price->cutter, problem));
    if (draft.plan == NULL)
        return false;
    if (rational_compare(bought_for(price, draft.plan->length), bought) > 0) {
        choice->reserved = draft.plan->length;
        return false;
    }
    if (!settle_draft(arena, &draft))
        return false;
    struct roll_choice kept = {.bound = choice->bound,
                               .simply = choice->simply};
    if (price->cutter->pattern->simple)
        kept.plan = simplest(arena, draft.kinds, budget_of(price, bought),
                             &kept.effort);
    else
        choose_simplest(price, arena, draft.kinds, bought, &kept);
    struct roll_problem real = *problem;
    real.trimmed = true;
    kept.plan = plan_unreserved(arena, &real, reserve, kept.plan);
    if (kept.offer != NULL)
        kept.offer = plan_unreserved(arena, &real, reserve, kept.offer);
    *choice = kept;
    return true;
}

/* For those whose fabric is narrower: the simplest plan for what they buy. */
static const struct roll_plan *plan_reserved(const struct price *price,
                                             struct arena *arena,
                                             const struct roll_problem *problem,
                                             int64_t reserve)
{
    const struct roll_problem narrow =
        reserved_problem(arena, problem, reserve);
    struct draft draft =
        draft_of(price, arena, &narrow, share_of_work(price->cutter, problem));
    if (draft.plan == NULL || !settle_draft(arena, &draft))
        return NULL;
    struct roll_effort effort;
    for (int i = 0; i < 2; i++)
        draft.kinds[i].work /= 4;
    const int64_t budget =
        budget_of(price, bought_for(price, draft.plan->length));
    struct roll_problem real = *problem;
    real.trimmed = true;
    return plan_unreserved(arena, &real, reserve,
                           simplest(arena, draft.kinds, budget, &effort));
}

/* ensures: a choice whose plan is NULL where a piece fits in no strip. Simpler
 * plans are looked for within what is bought; first with the reserve, as those
 * without it would be thrown away. What is bought for a quilt that is to be cut
 * simply is known only when they are found. */
static struct roll_choice choose(const struct price *price, struct arena *arena,
                                 const struct roll_problem *problem,
                                 int64_t reserve, struct draft *draft)
{
    const bool simple = price->cutter->pattern->simple;
    struct roll_choice choice = {.bound = draft->bound,
                                 .simply = draft->kinds[0].work == 0};
    if (draft->plan == NULL)
        return choice;
    const struct rational bought = bought_for(price, draft->plan->length);
    if ((!simple &&
         keep_reserve(price, arena, problem, reserve, bought, &choice)) ||
        !settle_draft(arena, draft))
        return choice;
    choose_simplest(price, arena, draft->kinds, bought, &choice);
    if (keeps_reserve(problem, reserve, choice.plan))
        choice.reserved = 0;
    else if (simple)
        keep_reserve(price, arena, problem, reserve,
                     bought_for(price, choice.plan->length), &choice);
    if (choice.reserved > 0 && !choice.simply && !price->cutter->amounts_only)
        choice.reserved_plan = plan_reserved(price, arena, problem, reserve);
    return choice;
}

bool same_sizes(const struct roll_size *a, const struct roll_size *b,
                size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (a[i].width != b[i].width || a[i].height != b[i].height ||
            a[i].demand != b[i].demand || a[i].turns != b[i].turns)
            return false;
    return true;
}

/* What was made from the same, or what is to be made. All that turns steps into
 * an amount is compared beside the sizes, and whether strips are cut folded:
 * the same list may be sold otherwise where its cloth shrinks or has more cut
 * from it. */
static struct made_choice *made_choice_of(const struct price *price,
                                          const struct roll_problem *problem,
                                          int64_t reserve)
{
    struct choices *choices = price->cutter->choices;
    struct arena *arena = price->cutter->run->arena;
    const struct rational shrinkage = price->bolt->shrinkage;
    for (size_t i = 0; i < choices->rolls.count; i++) {
        struct made_choice *made = &choices->rolls.items[i];
        if (made->problem->width == problem->width &&
            made->problem->folded == problem->folded &&
            made->problem->count == problem->count &&
            rational_equal(made->fixed, price->fixed) &&
            rational_equal(made->step, price->step) &&
            rational_equal(made->shrinkage, shrinkage) &&
            made->reserve == reserve &&
            same_sizes(made->problem->sizes, problem->sizes, problem->count))
            return made;
    }
    struct made_choice *made = LIST_ADD(arena, &choices->rolls);
    struct roll_problem *kept = ARENA_NEW(arena, struct roll_problem);
    *kept = *problem;
    *made = (struct made_choice){.problem = kept,
                                 .fixed = price->fixed,
                                 .step = price->step,
                                 .shrinkage = shrinkage,
                                 .reserve = reserve};
    return made;
}

struct roll_choice choose_roll(struct cutter *cutter,
                               const struct fabric_plan *plan,
                               const struct roll_problem *problem,
                               struct rational fixed, struct rational step,
                               bool amount)
{
    struct arena *arena = cutter->run->arena;
    const struct price price = {cutter, plan->bolt, fixed, step};
    const int64_t reserve = rational_ceil(rational_div(plan->reserve, step));
    struct made_choice *made = made_choice_of(&price, problem, reserve);
    if (made->draft == NULL) {
        const uint64_t work = share_of_work(cutter, problem);
        made->draft = ARENA_NEW(arena, struct draft);
        *made->draft = draft_of(&price, arena, problem,
                                planned_simply(cutter, problem) ? 0 : work);
    }
    if (amount && made->draft->proven)
        return (struct roll_choice){.plan = made->draft->plan,
                                    .bound = made->draft->bound};
    if (!made->settled)
        made->choice = choose(&price, arena, problem, reserve, made->draft);
    made->settled = true;
    return made->choice;
}

static bool same_kinds(const struct leftover *a, const struct leftover *b,
                       size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (a[i].width != b[i].width || a[i].height != b[i].height ||
            a[i].count != b[i].count)
            return false;
    return true;
}

/* The longest roll for which no more is bought than for the shortest. */
static int64_t as_sold(const void *asker, int64_t bound)
{
    const struct price *price = asker;
    return budget_of(price, bought_for(price, bound));
}

const struct leftover_plan *choose_leftovers(struct cutter *cutter,
                                             const struct roll_problem *problem,
                                             const struct leftover *kinds,
                                             size_t count, uint64_t work,
                                             const struct price *price)
{
    struct arena *arena = cutter->run->arena;
    for (size_t i = 0; i < cutter->choices->leftovers.count; i++) {
        const struct made_leftovers *made =
            &cutter->choices->leftovers.items[i];
        if (made->problem->width == problem->width &&
            made->problem->trimmed == problem->trimmed &&
            made->problem->folded == problem->folded &&
            made->problem->count == problem->count && made->count == count &&
            made->work == work && same_kinds(made->kinds, kinds, count) &&
            same_sizes(made->problem->sizes, problem->sizes, problem->count))
            return made->plan;
    }
    struct roll_problem *kept = ARENA_NEW(arena, struct roll_problem);
    *kept = *problem;
    const struct leftover_goal goal = {as_sold, price};
    const struct leftover_plan *plan = plan_with_leftovers(
        arena, problem, kinds, count, work, price == NULL ? NULL : &goal);
    if (plan != NULL && !leftover_plan_holds(problem, kinds, count, plan))
        internal_error("a plan of leftovers does not hold its pieces");
    if (plan == NULL || !plan->soon)
        *LIST_ADD(arena, &cutter->choices->leftovers) =
            (struct made_leftovers){kept, kinds, count, work, plan};
    return plan;
}
