/* Which definition uses which: none inside itself, none too deep inside others.
 * A walk in depth that keeps its own stack, as a source can hold a hundred
 * thousand definitions in one chain; behind it the longest chain is short, and
 * walks over uses may recurse. */
#include "resolver.h"

#include "buffer.h"

/* Of the walk: OPEN while its uses are followed. A use of what is open closes a
 * circle. */
enum mark { UNSEEN, OPEN, DONE };

/* One definition of the walk. */
struct visit {
    enum mark mark;
    size_t next;              /* the use that is followed next */
    size_t depth;             /* of pieces down to the deepest use */
    const struct piece *deep; /* the use that makes the depth */
};

struct walk {
    struct resolver *resolver;
    struct visit *visits;           /* by definition */
    LIST(struct definition *) open; /* from the outermost */
    bool told;                      /* a chain or a circle was reported */
};

static void collect_uses(struct resolver *resolver)
{
    const struct design *design = resolver->design;
    for (size_t i = 0; i < design->pieces.count; i++) {
        struct piece *piece = design->pieces.items[i];
        /* The owner is const for its pieces, not for the design. */
        struct definition *owner =
            design->definitions.items[piece->owner->index];
        if (piece->target != NULL)
            *LIST_ADD(resolver->run->arena, &owner->uses) = piece;
    }
}

static struct span use_span(const struct piece *use)
{
    return value_span(use->element, use->target->kind == DEFINE_UNIT
                                        ? ATTR_UNIT
                                        : ATTR_BLOCK);
}

/* reports: a circle, and cuts it at the use that closes it. */
static void cut_circle(struct walk *walk, struct piece *use)
{
    struct run *run = walk->resolver->run;
    const struct definition *target = use->target;
    struct diagnostic *d =
        report_about(walk->resolver, use->element, DIAG_CYCLE, use_span(use),
                     "`%s` is used inside itself", target->id);
    diag_note(run, d, value_span(target->element, ATTR_ID), "`%s` begins here",
              target->id);
    use->target = NULL; /* so that no later stage walks in a circle */
    walk->told = true;
}

/* "`a` uses `b`, `b` uses `c`, ..., `y` uses `z`": the ends of a chain. */
static const char *chain_text(const struct walk *walk, const struct piece *use)
{
    enum { SHOWN = 3 };
    struct buffer text = buffer_in(walk->resolver->run->arena);
    for (size_t i = 0; use != NULL; i++) {
        const struct piece *next = walk->visits[use->target->index].deep;
        if (i < SHOWN || next == NULL)
            buffer_printf(&text, "%s`%s` uses `%s`", i == 0 ? "" : ", ",
                          use->owner->id, use->target->id);
        else if (i == SHOWN)
            buffer_text(&text, ", ...");
        use = next;
    }
    return buffer_string(&text);
}

/* How deep the use lies in its definition: 1 where it is all of it. */
static size_t depth_of_use(const struct piece *use)
{
    size_t depth = 0;
    for (const struct element *at = use->element; at != use->owner->element;
         at = at->parent)
        depth++;
    return depth;
}

/* reports: the first chain that is too long; others are mostly its rest. Cuts
 * it, so that no later stage walks deeper. */
static void cut_chain(struct walk *walk, struct piece *use)
{
    struct run *run = walk->resolver->run;
    if (!walk->told) {
        struct diagnostic *d = report_about(
            walk->resolver, use->element, DIAG_LIMIT, use_span(use),
            "pieces lie more than %d deep inside each other", LIMIT_NEST);
        diag_note(run, d, (struct span){0, 0}, "%s", chain_text(walk, use));
    }
    mark_definition(walk->resolver, use->element);
    use->target = NULL;
    walk->told = true;
}

/* The innermost definition is done: the use that led to it is as deep as it,
 * and one more. */
static void leave(struct walk *walk)
{
    struct resolver *resolver = walk->resolver;
    const struct definition *done = walk->open.items[--walk->open.count];
    walk->visits[done->index].mark = DONE;
    *LIST_ADD(resolver->run->arena, &resolver->design->inner_first) = done;
}

/* What is known of a use whose target is done. */
static void count_use(struct walk *walk, struct piece *use)
{
    struct visit *owner = &walk->visits[use->owner->index];
    const size_t depth =
        walk->visits[use->target->index].depth + depth_of_use(use);
    if (depth > LIMIT_NEST) {
        cut_chain(walk, use);
    } else if (depth > owner->depth) {
        owner->depth = depth;
        owner->deep = use;
    }
}

static void enter(struct walk *walk, struct definition *definition)
{
    walk->visits[definition->index].mark = OPEN;
    *LIST_ADD(walk->resolver->run->arena, &walk->open) = definition;
}

/* Follows every use below, each definition once. */
static void visit(struct walk *walk, struct definition *start)
{
    if (walk->visits[start->index].mark == DONE)
        return;
    enter(walk, start);
    while (walk->open.count > 0) {
        struct definition *at = walk->open.items[walk->open.count - 1];
        struct visit *here = &walk->visits[at->index];
        if (here->next == at->uses.count) {
            leave(walk);
            continue;
        }
        struct piece *use = at->uses.items[here->next];
        /* A piece only holds its target const. */
        struct definition *target =
            walk->resolver->design->definitions.items[use->target->index];
        const enum mark mark = walk->visits[target->index].mark;
        target->used |= mark != OPEN;
        if (mark == UNSEEN) {
            enter(walk, target);
            continue; /* and back to this use when it is done */
        }
        here->next++;
        if (mark == OPEN)
            cut_circle(walk, use);
        else
            count_use(walk, use);
    }
}

/* Starts from the quilts, so that `used` tells what some quilt needs. reports:
 * circles, a chain that is too long, what no quilt uses. */
void check_uses(struct resolver *resolver)
{
    struct design *design = resolver->design;
    struct walk walk = {.resolver = resolver};
    walk.visits = ARENA_ARRAY(resolver->run->arena, struct visit,
                              design->definitions.count + 1);
    collect_uses(resolver);
    for (size_t i = 0; i < design->definitions.count; i++)
        if (design->definitions.items[i]->kind == DEFINE_QUILT)
            visit(&walk, design->definitions.items[i]);
    /* Asked once, as each report in between would sort all anew. */
    const bool sound = diag_count(resolver->run, DIAG_ERROR) == 0;
    for (size_t i = 0; i < design->definitions.count; i++) {
        struct definition *definition = design->definitions.items[i];
        if (walk.visits[i].mark == DONE)
            continue;
        /* A misspelt use was told as that; of a shared file a pattern takes
         * what it needs. */
        if (!definition->used && sound && !walk.told &&
            source_together(resolver->run->source,
                            design->pattern->root->tag.start,
                            definition->element->tag.start))
            diag_report(resolver->run, DIAG_NOT_USED,
                        value_span(definition->element, ATTR_ID),
                        "the %s `%s` is never used",
                        element_name(definition->element->kind),
                        definition->id);
        visit(&walk, definition);
    }
}
