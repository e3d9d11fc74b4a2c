/* There is no matrix and no elimination on purpose: a person adds up one row at
 * a time, and each value that is found can name the sum that gave it. A system
 * that would need two sums at once is reported as open. Read next: report.c. */
#include "solver.h"

/* All variables come from one block; nothing grows later but facts and sums. */
void system_init(struct system *system, struct run *run,
                 const struct design *design, bool *sound, size_t variables)
{
    struct arena *arena = run->arena;
    *system = (struct system){.run = run, .design = design, .sound = sound};
    system->parent = ARENA_ARRAY(arena, variable, variables);
    system->state = ARENA_ARRAY(arena, enum variable_state, variables);
    system->value = ARENA_ARRAY(arena, struct rational, variables);
    system->first_fact = ARENA_ARRAY(arena, long, variables);
    system->from_sum = ARENA_ARRAY(arena, long, variables);
    for (variable v = 0; v < variables; v++) {
        system->parent[v] = v;
        system->first_fact[v] = -1;
        system->from_sum[v] = NOT_FROM_SUM;
    }
}

void system_empty(struct system *system)
{
    system->facts.count = system->sums.count = 0;
}

/* Union and find, with paths halved on the way. */
variable system_root(struct system *system, variable v)
{
    while (system->parent[v] != v) {
        system->parent[v] = system->parent[system->parent[v]];
        v = system->parent[v];
    }
    return v;
}

/* Facts and sums keep the variables they were given; the root is looked up
 * whenever one is used. */
void system_equal(struct system *system, variable a, variable b)
{
    a = system_root(system, a);
    b = system_root(system, b);
    if (a == b)
        return;
    /* The older one stays: definitions come before what is in them. */
    const variable keep = a < b ? a : b;
    const variable drop = a < b ? b : a;
    system->parent[drop] = keep;
    if (system->state[drop] == VARIABLE_SILENT)
        system->state[keep] = VARIABLE_SILENT;
}

void system_fact(struct system *system, variable v, struct rational value,
                 struct span span, const char *what)
{
    struct fact *fact = LIST_ADD(system->run->arena, &system->facts);
    *fact = (struct fact){v, value, span, what, false, false};
}

/* Listed among the others, so that a message can point at it. */
void system_soft_fact(struct system *system, variable v, struct rational value,
                      struct span span, const char *what)
{
    system_fact(system, v, value, span, what);
    system->facts.items[system->facts.count - 1].soft = true;
}

void system_wish(struct system *system, variable v, struct rational value,
                 struct span span, const char *what)
{
    system_soft_fact(system, v, value, span, what);
    system->facts.items[system->facts.count - 1].wish = true;
}

void system_silence(struct system *system, variable v)
{
    system->state[system_root(system, v)] = VARIABLE_SILENT;
}

/* The pointer holds until the next sum is made: the list may move. */
struct sum *system_sum(struct system *system, variable total,
                       const struct element *element, const char *dimension)
{
    struct sum *sum = LIST_ADD(system->run->arena, &system->sums);
    *sum = (struct sum){.total = total,
                        .element = element,
                        .dimension = dimension,
                        .constant = rational_whole(0)};
    return sum;
}

void system_term(struct system *system, struct sum *sum, variable v,
                 struct rational factor, const struct element *element)
{
    struct term *term = LIST_ADD(system->run->arena, &sum->terms);
    *term = (struct term){v, factor, element};
}

/* What a silent variable once had does not count. */
struct rational system_value(struct system *system, variable v)
{
    v = system_root(system, v);
    return system->state[v] == VARIABLE_KNOWN ? system->value[v]
                                              : rational_unknown();
}

bool system_silent(struct system *system, variable v)
{
    return system->state[system_root(system, v)] == VARIABLE_SILENT;
}

/* reports: the second of two written values for what is one length. Wide or
 * high is the dimension of the second one's own variable. */
static void report_two_facts(struct system *system, const struct fact *first,
                             const struct fact *second, bool height)
{
    struct run *run = system->run;
    const char *found = local_length(system, second->value);
    const char *wanted = local_length(system, first->value);
    const char *dimension = height ? "high" : "wide";
    struct diagnostic *d = report_in(
        run, system->sound, owner_of(system->design, second->of), DIAG_SEAM_SUM,
        second->span, "%s cannot be %s %s: %s makes it %s", second->what, found,
        dimension, first->what, wanted);
    diag_label(run, d, "%s", found);
    diag_off(d, rational_sub(second->value, first->value), rational_unknown());
    diag_note(run, d, first->span, "%s fixes it to be %s %s", first->what,
              wanted, dimension);
    note_equal(system, d, second->of);
    diag_mend(run, d, second->span, local_written(system, first->value), "%s instead of %s would fit",
              wanted, found);
}

/* Widths have even numbers, heights odd ones (sizes.c). Taken only now, when
 * all equalities are known: a contradiction shows in whatever order the two
 * were written. */
static void take_facts(struct system *system)
{
    for (size_t i = 0; i < system->facts.count; i++) {
        const struct fact *fact = &system->facts.items[i];
        const variable v = system_root(system, fact->of);
        if (system->state[v] == VARIABLE_SILENT || fact->soft)
            continue;
        if (system->state[v] == VARIABLE_OPEN) {
            system->state[v] = VARIABLE_KNOWN;
            system->value[v] = fact->value;
            system->first_fact[v] = (long)i;
        } else if (!rational_equal(system->value[v], fact->value)) {
            report_two_facts(system,
                             &system->facts.items[system->first_fact[v]], fact,
                             fact->of % 2 == 1);
        }
    }
}

/* What a sum looks like now: its known part, and its single open variable. */
struct view {
    struct rational known;  /* total - terms + constant, over what is known */
    variable open;          /* the first open variable */
    struct rational factor; /* of it, in the same sense */
    size_t open_count;      /* distinct open variables */
    bool silent;
};

/* The total counts with 1 and the terms with their factors below 0, so that the
 * whole must come to nothing. */
static void view_term(struct system *system, struct view *view, variable v,
                      struct rational factor)
{
    v = system_root(system, v);
    if (system->state[v] == VARIABLE_SILENT) {
        view->silent = true;
    } else if (system->state[v] == VARIABLE_KNOWN) {
        view->known =
            rational_add(view->known, rational_mul(factor, system->value[v]));
    } else if (view->open_count == 0 || view->open != v) {
        view->open_count++;
        view->open = v;
        view->factor = factor;
    } else {
        view->factor = rational_add(view->factor, factor);
    }
}

/* Made anew at each try: classes fill up from all sides. */
static struct view view_sum(struct system *system, const struct sum *sum)
{
    struct view view = {.known = sum->constant};
    view_term(system, &view, sum->total, rational_whole(1));
    for (size_t i = 0; i < sum->terms.count; i++)
        view_term(system, &view, sum->terms.items[i].of,
                  rational_sub(rational_whole(0), sum->terms.items[i].factor));
    return view;
}

/* Open parts of a sum that was reported cannot be known from it any more. */
static void silence_sum(struct system *system, struct sum *sum)
{
    sum->done = true;
    variable v = system_root(system, sum->total);
    if (system->state[v] == VARIABLE_OPEN)
        system->state[v] = VARIABLE_SILENT;
    for (size_t i = 0; i < sum->terms.count; i++) {
        v = system_root(system, sum->terms.items[i].of);
        if (system->state[v] == VARIABLE_OPEN)
            system->state[v] = VARIABLE_SILENT;
    }
}

/* Tries one sum. True where it changed something. reports: a full sum that does
 * not come out, and values of which a part would pass 1,024 bits. */
static bool try_sum(struct system *system, size_t index)
{
    struct sum *sum = &system->sums.items[index];
    const struct view view = view_sum(system, sum);
    if (view.silent) {
        silence_sum(system, sum);
        return true;
    }
    if (view.open_count == 0) {
        sum->done = true;
        if (!rational_known(view.known))
            report_fine_sum(system, sum);
        else if (rational_sign(view.known) != 0)
            report_sum(
                system, sum,
                rational_sub(system_value(system, sum->total), view.known));
        return true;
    }
    /* A factor of 0: the open part cancels out, and any value would do. */
    if (view.open_count > 1 || rational_sign(view.factor) == 0)
        return false;
    const struct rational value =
        rational_sub(rational_whole(0), rational_div(view.known, view.factor));
    sum->done = true;
    system->state[view.open] = VARIABLE_KNOWN;
    system->value[view.open] = value;
    system->from_sum[view.open] = (long)index;
    if (!rational_known(value)) {
        report_fine_sum(system, sum);
        system->state[view.open] = VARIABLE_SILENT;
    }
    return true;
}

/* Rounds until nothing changes. Each change makes a sum done, so there are at
 * most as many rounds as sums. */
static void settle(struct system *system)
{
    bool changed = true;
    while (changed) {
        changed = false;
        for (size_t i = 0; i < system->sums.count; i++)
            if (!system->sums.items[i].done && try_sum(system, i))
                changed = true;
    }
}

/* In which round it is taken. A block with a grid has no other size than the one
 * that its use states. */
static size_t round_of(const struct system *system, const struct fact *fact)
{
    if (fact->wish)
        return 2;
    return piece_of(system->design, fact->of)->kind == PIECE_USE ? 0 : 1;
}

/* One at a time and settled after each: a statement must not contradict what an
 * earlier one has just fixed. It is then checked like any other (statements.c).
 * Those of uses come first: a statement about what holds them is told by them;
 * wishes come last. */
static void take_soft_facts(struct system *system)
{
    for (size_t i = 0; i < 3 * system->facts.count; i++) {
        const struct fact *fact = &system->facts.items[i % system->facts.count];
        const variable v = system_root(system, fact->of);
        if (!fact->soft || system->state[v] != VARIABLE_OPEN ||
            round_of(system, fact) != i / system->facts.count)
            continue;
        system->state[v] = VARIABLE_KNOWN;
        system->value[v] = fact->value;
        system->first_fact[v] = (long)(i % system->facts.count);
        settle(system);
    }
}

/* Hard facts, what follows from them, and statements. */
void system_settle(struct system *system)
{
    take_facts(system);
    settle(system);
    take_soft_facts(system);
}

/* Last what stays open. Each open sum is silenced as soon as it is told: the
 * rest may then follow, or be silent. */
void system_solve(struct system *system)
{
    system_settle(system);
    for (size_t i = 0; i < system->sums.count; i++) {
        if (system->sums.items[i].done)
            continue;
        report_open_sum(system, &system->sums.items[i]);
        silence_sum(system, &system->sums.items[i]);
        settle(system);
    }
}
