#include "system.h"

void system_init(struct system *system, struct run *run,
                 const struct design *design, size_t variables)
{
    struct arena *arena = run->arena;
    *system = (struct system){.run = run, .design = design};
    system->capacity = variables;
    system->parent = ARENA_ARRAY(arena, variable, variables);
    system->state = ARENA_ARRAY(arena, enum variable_state, variables);
    system->value = ARENA_ARRAY(arena, struct rational, variables);
    system->first_fact = ARENA_ARRAY(arena, long, variables);
    system->from_sum = ARENA_ARRAY(arena, long, variables);
}

variable system_fresh(struct system *system)
{
    const variable v = system->count++;
    system->parent[v] = v;
    system->first_fact[v] = -1;
    system->from_sum[v] = NOT_FROM_SUM;
    return v;
}

variable system_root(struct system *system, variable v)
{
    while (system->parent[v] != v) {
        system->parent[v] = system->parent[system->parent[v]];
        v = system->parent[v];
    }
    return v;
}

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
    *fact = (struct fact){v, value, span, what, false};
}

void system_soft_fact(struct system *system, variable v, struct rational value,
                      struct span span, const char *what)
{
    system_fact(system, v, value, span, what);
    system->facts.items[system->facts.count - 1].soft = true;
}

void system_silence(struct system *system, variable v)
{
    system->state[system_root(system, v)] = VARIABLE_SILENT;
}

struct sum *system_sum(struct system *system, variable total,
                       const struct element *element, const char *dimension)
{
    struct sum *sum = LIST_ADD(system->run->arena, &system->sums);
    sum->total = total;
    sum->element = element;
    sum->dimension = dimension;
    sum->constant = rational_whole(0);
    return sum;
}

void system_term(struct system *system, struct sum *sum, variable v,
                 struct rational factor, const struct element *element)
{
    struct term *term = LIST_ADD(system->run->arena, &sum->terms);
    *term = (struct term){v, factor, element};
}

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

static void report_two_facts(struct system *system, const struct fact *first,
                             const struct fact *second, bool height)
{
    struct run *run = system->run;
    const char *found = local_length(system, second->value);
    const char *wanted = local_length(system, first->value);
    const char *dimension = height ? "high" : "wide";
    struct diagnostic *d =
        diag_report(run, DIAG_SEAM_SUM, second->span,
                    "%s cannot be %s %s: its neighbours make it %s",
                    second->what, found, dimension, wanted);
    diag_label(run, d, "%s", found);
    diag_note(run, d, first->span, "%s fixes it to be %s %s", first->what,
              wanted, dimension);
    diag_mend(run, d, second->span, wanted, "%s instead of %s would fit",
              wanted, found);
}

/* Widths have even numbers, heights odd ones (sizes.c). */
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

static struct view view_sum(struct system *system, const struct sum *sum)
{
    struct view view = {.known = sum->constant};
    view_term(system, &view, sum->total, rational_whole(1));
    for (size_t i = 0; i < sum->terms.count; i++)
        view_term(system, &view, sum->terms.items[i].of,
                  rational_sub(rational_whole(0), sum->terms.items[i].factor));
    return view;
}

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

/* Tries one sum. True where it changed something. */
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

static void take_soft_facts(struct system *system)
{
    for (size_t i = 0; i < system->facts.count; i++) {
        const struct fact *fact = &system->facts.items[i];
        const variable v = system_root(system, fact->of);
        if (!fact->soft || system->state[v] != VARIABLE_OPEN)
            continue;
        system->state[v] = VARIABLE_KNOWN;
        system->value[v] = fact->value;
        system->first_fact[v] = (long)i;
        settle(system);
    }
}

void system_solve(struct system *system)
{
    take_facts(system);
    settle(system);
    take_soft_facts(system);
    for (size_t i = 0; i < system->sums.count; i++) {
        if (system->sums.items[i].done)
            continue;
        report_open_sum(system, &system->sums.items[i]);
        silence_sum(system, &system->sums.items[i]);
        settle(system);
    }
}
