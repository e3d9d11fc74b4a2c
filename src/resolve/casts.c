/* In how many casts each unit and block is sewn. What uses others in other
 * casts multiplies: eight roles that are exchanged on each of many levels make
 * 40,320. Counted before anything is sewn. Read next: roles.c. */
#include "buffer.h"
#include "resolver.h"

/* Of one definition, each once. */
struct cast_set {
    LIST(const int *) items;
    struct name_table known; /* told as text */
};

struct counting {
    const struct design *design;
    struct arena *scratch;
    struct cast_set *sets; /* of each definition */
    size_t total;
    const struct definition **order; /* who uses before what is used */
    size_t left;                     /* so many places before it are free */
    bool *seen;
};

/* Each is put before all that it uses. */
static void put_in_order(struct counting *counting,
                         const struct definition *definition)
{
    if (counting->seen[definition->index])
        return;
    counting->seen[definition->index] = true;
    for (size_t i = 0; i < definition->uses.count; i++)
        if (definition->uses.items[i]->target != NULL)
            put_in_order(counting, definition->uses.items[i]->target);
    counting->order[--counting->left] = definition;
}

static void add_cast(struct counting *counting,
                     const struct definition *definition, const int *cast)
{
    struct cast_set *set = &counting->sets[definition->index];
    struct buffer text = buffer_in(counting->scratch);
    for (size_t i = 0; i < definition->role_count; i++)
        buffer_printf(&text, "%d ", cast[i]);
    if (!name_table_add(counting->scratch, &set->known, buffer_string(&text),
                        set->items.count))
        return;
    *LIST_ADD(counting->scratch, &set->items) = cast;
    counting->total += definition->role_count > 0 ? 1 : 0;
}

/* In its defaults it is drawn beside its picture. */
static void add_default(struct counting *counting,
                        const struct definition *definition)
{
    const struct role *roles =
        &counting->design->roles.items[definition->first_role];
    int *cast = ARENA_ARRAY(counting->scratch, int, definition->role_count + 1);
    for (size_t i = 0; i < definition->role_count; i++)
        cast[i] = roles[i].fabric;
    add_cast(counting, definition, cast);
}

/* What the use hands on, where the definition around it is in the cast. */
static void add_use(struct counting *counting, const struct piece *use,
                    const struct definition *around, const int *cast)
{
    const size_t fabrics = counting->design->fabrics.count;
    const struct definition *target = use->target;
    int *given = ARENA_ARRAY(counting->scratch, int, target->role_count + 1);
    for (size_t i = 0; i < target->role_count; i++)
        given[i] =
            use->cast[i] < (int)fabrics
                ? use->cast[i]
                : cast[(size_t)use->cast[i] - fabrics - around->first_role];
    add_cast(counting, target, given);
}

static void hand_on(struct counting *counting,
                    const struct definition *definition)
{
    const struct cast_set *set = &counting->sets[definition->index];
    for (size_t i = 0; i < definition->uses.count; i++) {
        const struct piece *use = definition->uses.items[i];
        for (size_t k = 0; use->cast != NULL && k < set->items.count &&
                           counting->total <= LIMIT_CASTS;
             k++)
            add_use(counting, use, definition, set->items.items[k]);
    }
}

/* reports: where there are the most. */
static void report_casts(struct resolver *resolver,
                         const struct counting *counting)
{
    const struct design *design = counting->design;
    const struct definition *most = design->definitions.items[0];
    for (size_t i = 0; i < design->definitions.count; i++)
        if (counting->sets[i].items.count >
            counting->sets[most->index].items.count)
            most = design->definitions.items[i];
    report_about(resolver, most->element, DIAG_LIMIT,
                 value_span(most->element, ATTR_ID),
                 "units and blocks are sewn in more than %d casts together; "
                 "most are of `%s`",
                 LIMIT_CASTS, most->id);
}

void check_casts(struct resolver *resolver)
{
    const struct design *design = resolver->design;
    const size_t count = design->definitions.count;
    if (design->roles.count == 0 || diag_count(resolver->run, DIAG_ERROR) > 0)
        return;
    struct arena *scratch = arena_create();
    struct counting counting = {
        .design = design,
        .scratch = scratch,
        .sets = ARENA_ARRAY(scratch, struct cast_set, count),
        .order = ARENA_ARRAY(scratch, const struct definition *, count),
        .left = count,
        .seen = ARENA_ARRAY(scratch, bool, count)};
    for (size_t i = 0; i < count; i++) {
        put_in_order(&counting, design->definitions.items[i]);
        add_default(&counting, design->definitions.items[i]);
    }
    for (size_t i = 0; i < count && counting.total <= LIMIT_CASTS; i++)
        hand_on(&counting, counting.order[i]);
    resolver->design->casts = counting.total;
    if (counting.total > LIMIT_CASTS)
        report_casts(resolver, &counting);
    arena_destroy(scratch);
}
