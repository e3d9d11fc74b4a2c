/* What is told of the quilting: threads, then lines, areas and fillers in the
 * order of the source. A line can be named by what stands behind it alone, as
 * lines are drawn in that order. Nothing is looked for on the cloth here. Read
 * next: quilting_items.c. */
#include "quilting_names.h"

#include <string.h>

#include "trade.h"

/* ---- names ---- */

/* Names of a kind, for a message. */
struct name_set {
    const char **names;
    size_t count;
};

/* reports: the thread lacks, once. */
static void report_thread(struct telling_quilting *telling,
                          const struct element *element, enum attribute_id id)
{
    struct arena *arena = telling->resolver->run->arena;
    const size_t count = telling->quilting->threads.count;
    const char **names = ARENA_ARRAY(arena, const char *, count + 1);
    for (size_t i = 0; i < count; i++)
        names[i] = telling->quilting->threads.items[i].id;
    report_unknown_name(telling->resolver, DIAG_UNKNOWN_THREAD, element, id,
                        "thread", names, count);
}

/* A name that lacks was told by the reader. */
int bind_thread(struct telling_quilting *telling, const struct element *element,
                enum attribute_id id)
{
    const char *wanted = text_of(element, id, NULL);
    if (wanted == NULL)
        return NO_ITEM;
    size_t index;
    if (name_table_find(&telling->threads, wanted, &index))
        return (int)index;
    report_thread(telling, element, id);
    return NO_ITEM;
}

/* A line that comes later is there, but not yet drawn. */
static bool comes_later(struct telling_quilting *telling, const char *wanted,
                        struct span span)
{
    const struct element *element = telling->quilting->element;
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        const char *id = text_of(child, ATTR_ID, NULL);
        if (id == NULL || child->kind == ELEMENT_THREAD ||
            child->kind == ELEMENT_AREA || strcmp(id, wanted) != 0)
            continue;
        struct diagnostic *d = diag_report(
            telling->resolver->run, DIAG_UNKNOWN_LINE, span,
            "the line `%s` comes later: lines are drawn in their order",
            wanted);
        diag_note(telling->resolver->run, d, child->name, "it stands here");
        diag_help(telling->resolver->run, d, "put the `%s` before it",
                  element_name(child->kind));
        return true;
    }
    return false;
}

/* Told apart: a line that is nowhere, and one that comes too late. */
int bind_line(struct telling_quilting *telling, const struct element *element,
              const char *wanted, struct span span)
{
    size_t index;
    if (name_table_find(&telling->lines, wanted, &index))
        return (int)index;
    if (comes_later(telling, wanted, span))
        return NO_ITEM;
    struct name_set set = {ARENA_ARRAY(telling->resolver->run->arena,
                                       const char *,
                                       telling->quilting->items.count + 1),
                           0};
    for (size_t i = 0; i < telling->quilting->items.count; i++) {
        const struct told_item *item = &telling->quilting->items.items[i];
        if (item->id != NULL && item->kind != TOLD_AREA)
            set.names[set.count++] = item->id;
    }
    report_unknown(telling->resolver, DIAG_UNKNOWN_LINE, element, wanted, span,
                   "line", set.names, set.count);
    return NO_ITEM;
}

/* reports: a name that stands for something else, too. */
void note_line(struct telling_quilting *telling, const struct told_item *item)
{
    struct resolver *resolver = telling->resolver;
    const struct design *design = resolver->design;
    const struct element *other = NULL;
    size_t index;
    for (int kind = 0; kind < DEFINE_COUNT; kind++)
        if (name_table_find(&design->named[kind], item->id, &index))
            other = design->definitions.items[index]->element;
    if (other == NULL && name_table_find(&resolver->pieces, item->id, &index))
        other = design->pieces.items[index]->element;
    struct name_table *table =
        item->kind == TOLD_AREA ? &telling->areas : &telling->lines;
    if (other == NULL &&
        !name_table_add(resolver->run->arena, table, item->id, item->index) &&
        name_table_find(table, item->id, &index))
        other = telling->quilting->items.items[index].element;
    if (other == NULL)
        return;
    struct diagnostic *d = diag_report(resolver->run, DIAG_DOUBLE_NAME,
                                       value_span(item->element, ATTR_ID),
                                       "the name `%s` is taken", item->id);
    diag_note(resolver->run, d, value_span(other, ATTR_ID), "by the `%s` here",
              element_name(other->kind));
}

/* ---- threads ---- */

/* The reader takes any number of names; two are meant everywhere. */
bool bind_two_fabrics(struct resolver *resolver, const struct element *element,
                      enum attribute_id id, int fabrics[2])
{
    fabrics[0] = fabrics[1] = NO_FABRIC;
    const struct value *value = value_of(element, id);
    if (value == NULL)
        return false;
    if (value->names.count != 2) {
        diag_report(resolver->run, DIAG_VALUE, value->span,
                    "%s=%s is not two fabrics", attribute_name(id),
                    quoted(resolver->run->arena, value->text));
        return false;
    }
    for (size_t i = 0; i < 2; i++)
        fabrics[i] =
            bind_fabric_text(resolver, element, value->names.items[i].text,
                             value->names.items[i].span);
    return true;
}

/* reports: no color, or two. */
static void read_color_of(struct telling_quilting *telling,
                          struct quilting_thread *thread)
{
    static const enum attribute_id ways[] = {ATTR_MATCH, ATTR_BLEND,
                                             ATTR_COLOR};
    const struct element *element = thread->element;
    size_t told = 0;
    for (size_t i = 0; i < 3; i++) {
        if (written_value(element, ways[i]) == NULL)
            continue;
        told++;
        thread->color = (enum thread_color)i;
    }
    if (told != 1 && !element->faulty)
        report_about(telling->resolver, element, DIAG_MISSING_ATTRIBUTE,
                     element->name,
                     "`thread` needs one of `match`, `blend` and `color`%s",
                     told == 0 ? "" : ", not two");
    const struct value *color = value_of(element, ATTR_COLOR);
    thread->fabrics[0] = thread->fabrics[1] = NO_FABRIC;
    if (thread->color == THREAD_MATCHES)
        thread->fabrics[0] = thread->fabrics[1] =
            bind_fabric(telling->resolver, element, ATTR_MATCH);
    else if (thread->color == THREAD_BLENDS)
        bind_two_fabrics(telling->resolver, element, ATTR_BLEND,
                         thread->fabrics);
    if (color != NULL) {
        thread->red = color_part(color->text, 1);
        thread->green = color_part(color->text, 3);
        thread->blue = color_part(color->text, 5);
    }
}

/* The bobbin is bound when all threads are known. */
static void add_thread(struct telling_quilting *telling,
                       const struct element *element)
{
    struct resolver *resolver = telling->resolver;
    struct quilting *quilting = telling->quilting;
    const size_t index = quilting->threads.count;
    struct quilting_thread *thread =
        LIST_ADD(resolver->run->arena, &quilting->threads);
    thread->element = element;
    thread->id = text_of(element, ATTR_ID, "?");
    thread->below = index;
    read_color_of(telling, thread);
    size_t first;
    if (thread->id[0] != '?' &&
        !name_table_add(resolver->run->arena, &telling->threads, thread->id,
                        index) &&
        name_table_find(&telling->threads, thread->id, &first))
        report_second(resolver, element, quilting->threads.items[first].element,
                      ATTR_ID,
                      arena_printf(resolver->run->arena, "a second thread `%s`",
                                   thread->id));
}

/* A bobbin may have a thread that is told later. */
static void bind_bobbins(struct telling_quilting *telling)
{
    for (size_t i = 0; i < telling->quilting->threads.count; i++) {
        struct quilting_thread *thread = &telling->quilting->threads.items[i];
        const int below = bind_thread(telling, thread->element, ATTR_BELOW);
        if (below != NO_ITEM)
            thread->below = (size_t)below;
    }
}

/* ---- all of one quilt ---- */

/* What is written, or what the trade has for it. */
static struct rational length_told(const struct telling_quilting *telling,
                                   enum attribute_id id, enum trade_fact fact)
{
    const struct value *value = value_of(telling->quilting->element, id);
    return value != NULL
               ? value->number
               : trade_length(fact, telling->resolver->design->pattern->units);
}

/* Threads first, wherever they stand: lines name them. Then all else, in the
 * order of the source. */
static void resolve_one(struct resolver *resolver,
                        struct definition *definition,
                        const struct element *element)
{
    struct quilting *quilting =
        ARENA_NEW(resolver->run->arena, struct quilting);
    struct telling_quilting telling = {.resolver = resolver,
                                       .quilting = quilting};
    quilting->element = element;
    quilting->quilt = definition;
    quilting->foot = length_told(&telling, ATTR_FOOT, TRADE_FOOT);
    quilting->start = length_told(&telling, ATTR_START, TRADE_START);
    quilting->bobbin = length_told(&telling, ATTR_BOBBIN, TRADE_BOBBIN);
    quilting->ruler = length_of(element, ATTR_QUILTING_RULER);
    quilting->travel = (enum travel_way)choice_of(element, ATTR_TRAVEL, 0);
    quilting->center_out = choice_of(element, ATTR_ORDER, 0) == 1;
    const struct value *symmetry = value_of(element, ATTR_SYMMETRY);
    quilting->symmetry = symmetry == NULL ? 0 : symmetry->choices;
    quilting->starts = stated_of(element, ATTR_STARTS);
    resolver->within = definition;
    for (size_t i = 0; i < element->children.count; i++)
        if (element->children.items[i]->kind == ELEMENT_THREAD)
            add_thread(&telling, element->children.items[i]);
    bind_bobbins(&telling);
    for (size_t i = 0; i < element->children.count; i++)
        if (element->children.items[i]->kind != ELEMENT_THREAD)
            read_item(&telling, element->children.items[i], NO_ITEM);
    resolver->within = NULL;
    if (quilting->threads.count + quilting->items.count > LIMIT_QUILTING) {
        diag_report(resolver->run, DIAG_LIMIT, element->name,
                    "more than %d elements in `quilting`", LIMIT_QUILTING);
        quilting->items.count = 0;
    }
    definition->quilting = quilting;
}

/* ---- spools ---- */

/* Of any quilt; NULL has none. */
static bool has_thread(const struct quilting *quilting, const char *id)
{
    for (size_t i = 0; quilting != NULL && i < quilting->threads.count; i++)
        if (strcmp(quilting->threads.items[i].id, id) == 0)
            return true;
    return false;
}

/* reports: a thread that no quilt has; a second spool of one. */
static void check_spool(struct resolver *resolver,
                        const struct colorway *colorway, size_t index)
{
    const struct spool *spool = &colorway->spools.items[index];
    if (value_of(spool->element, ATTR_THREAD) == NULL)
        return;
    const struct design *design = resolver->design;
    bool found = false;
    struct name_set set = {NULL, 0};
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct quilting *quilting =
            design->definitions.items[i]->quilting;
        found |= has_thread(quilting, spool->thread);
        if (quilting != NULL)
            set.count += quilting->threads.count;
    }
    for (size_t i = 0; found && i < index; i++)
        if (strcmp(colorway->spools.items[i].thread, spool->thread) == 0) {
            report_second(resolver, spool->element,
                          colorway->spools.items[i].element, ATTR_THREAD,
                          arena_printf(resolver->run->arena,
                                       "a second spool for the thread `%s`",
                                       spool->thread));
            return;
        }
    if (found)
        return;
    set.names = ARENA_ARRAY(resolver->run->arena, const char *, set.count + 1);
    set.count = 0;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct quilting *quilting =
            design->definitions.items[i]->quilting;
        for (size_t k = 0; quilting != NULL && k < quilting->threads.count; k++)
            set.names[set.count++] = quilting->threads.items[k].id;
    }
    report_unknown_name(resolver, DIAG_UNKNOWN_THREAD, spool->element,
                        ATTR_THREAD, "thread", set.names, set.count);
}

/* Quilts first, as spools name their threads. */
void resolve_quilting(struct resolver *resolver)
{
    struct design *design = resolver->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        struct definition *definition = design->definitions.items[i];
        const struct element *element = definition->element;
        for (size_t k = 0; k < element->children.count; k++)
            if (element->children.items[k]->kind == ELEMENT_QUILTING &&
                definition->quilting == NULL)
                resolve_one(resolver, definition, element->children.items[k]);
    }
    for (size_t i = 0; i < design->colorways.count; i++)
        for (size_t k = 0; k < design->colorways.items[i].spools.count; k++)
            check_spool(resolver, &design->colorways.items[i], k);
}
