/* An order's patterns are compiled one after the other, each in memory of its
 * own: only their facts stay. Read next: kept_facts.c, kit.c. */
#include "kitting.h"

#include <string.h>

/* One pattern of an order. */
struct known_pattern {
    const char *file; /* as the order writes it */
    const struct kit_facts_list *facts;
    bool failed; /* that was told */
};

struct kitting {
    struct run *run;
    struct kept_facts *kept;
    LIST(struct known_pattern) patterns;
};

/* From where the program runs. */
static const char *path_of(const struct run *run, const char *file)
{
    return arena_printf(run->arena, "%.*s%s",
                        (int)source_folder_length(run->source),
                        run->source->name, file);
}

/* Its own messages are told where it is checked by itself; here stands the
 * first of them, and how many there are. reports: that. */
static void report_pattern(struct run *run, const struct order_line *line,
                           const struct run *pattern)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(pattern, &sorted);
    const size_t errors = diag_count(pattern, DIAG_ERROR);
    struct diagnostic *d = diag_report(
        run, DIAG_KIT_PATTERN, value_span(line->element, ATTR_PATTERN),
        "the pattern %s has %zu error%s", quoted(run->arena, line->file),
        errors, errors == 1 ? "" : "s");
    for (size_t i = 0; i < count; i++) {
        if (diag_entry(sorted[i]->code)->level != DIAG_ERROR)
            continue;
        const uint32_t at = sorted[i]->span.start;
        const struct place place = source_place(pattern->source, at);
        diag_note(run, d, (struct span){0, 0}, "line %zu, column %zu%s: %s",
                  place.line, place.column,
                  source_of_other(run->arena, pattern->source, at, 0),
                  sorted[i]->message);
        break;
    }
    diag_help(run, d, "`seamwright check` on the pattern tells all of them");
}

/* Pictures are compared and steps counted as for a booklet: a kit is sold
 * with one. */
static const struct kit_facts_list *compile_facts(struct kitting *k,
                                                  const struct order_line *line)
{
    const struct file_content *file = read_line_pattern(k->run, line);
    if (file == NULL)
        return NULL;
    struct arena *arena = arena_create();
    const char *path = path_of(k->run, line->file);
    const struct compiled compiled = compile_source(
        arena, source_create(arena, path, file->bytes, file->length));
    const struct kit_facts_list *facts = NULL;
    if (compiled.plans == NULL) {
        report_pattern(k->run, line, compiled.run);
    } else {
        facts = kit_facts(k->run->arena, compiled.plans);
        if (k->kept != NULL)
            kept_facts_add(k->kept, line->file, compiled.run->source, facts);
    }
    arena_destroy(arena);
    return facts;
}

/* ensures: the facts of its pattern, found once; NULL where it has none. */
static const struct kit_facts_list *facts_of(struct kitting *k,
                                             const struct order_line *line)
{
    for (size_t i = 0; i < k->patterns.count; i++)
        if (strcmp(k->patterns.items[i].file, line->file) == 0)
            return k->patterns.items[i].facts;
    const struct kit_facts_list *facts =
        k->kept == NULL
            ? NULL
            : kept_facts_find(k->kept, line->file, path_of(k->run, line->file));
    if (facts == NULL)
        facts = compile_facts(k, line);
    *LIST_ADD(k->run->arena, &k->patterns) =
        (struct known_pattern){line->file, facts, facts == NULL};
    return facts;
}

/* Which of the two names is wrong decides what is told. */
static bool is_quilt(const struct kit_facts_list *list, const char *name)
{
    for (size_t i = 0; i < list->items.count; i++)
        if (strcmp(list->items.items[i].quilt, name) == 0)
            return true;
    return false;
}

/* reports: a quilt or colorway that is not there, with those that are. */
static void report_name(struct run *run, const struct order_line *line,
                        const struct kit_facts_list *list)
{
    const bool quilt = !is_quilt(list, line->quilt);
    const char **names =
        ARENA_ARRAY(run->arena, const char *, list->items.count);
    const char *all = "";
    size_t count = 0;
    for (size_t i = 0; i < list->items.count; i++) {
        const struct kit_facts *facts = &list->items.items[i];
        const char *name = quilt ? facts->quilt : facts->colorway;
        bool told = false;
        for (size_t k = 0; k < count; k++)
            told |= strcmp(names[k], name) == 0;
        if (told)
            continue;
        all = arena_printf(run->arena, "%s%s%s", all, count == 0 ? "" : ", ",
                           name);
        names[count++] = name;
    }
    const struct span span =
        value_span(line->element, quilt ? ATTR_QUILT : ATTR_COLORWAY);
    struct diagnostic *d =
        diag_report(run, DIAG_KIT_QUILT, span, "the pattern has no %s %s",
                    quilt ? "quilt" : "colorway",
                    quoted(run->arena, quilt ? line->quilt : line->colorway));
    const char *near =
        nearest_name(quilt ? line->quilt : line->colorway, names, count);
    diag_note(run, d, (struct span){0, 0}, "it has: %s", all);
    if (near != NULL)
        diag_mend(run, d, span, near, "did you mean %s=\"%s\"?",
                  quilt ? "quilt" : "colorway", near);
    else
        diag_help(run, d, "take one of those");
}

/* ensures: facts for each line; all are there where no error was reported. */
static const struct kit_facts **find_facts(struct kitting *k,
                                           const struct order *order)
{
    const struct kit_facts **facts = ARENA_ARRAY(
        k->run->arena, const struct kit_facts *, order->lines.count + 1);
    for (size_t i = 0; i < order->lines.count; i++) {
        const struct order_line *line = &order->lines.items[i];
        const struct kit_facts_list *list = facts_of(k, line);
        if (list == NULL)
            continue;
        facts[i] = kit_facts_find(list, line->quilt, line->colorway);
        if (facts[i] == NULL)
            report_name(k->run, line, list);
    }
    return facts;
}

/* Asked after each stage: a later one may count on the one before. */
static bool has_errors(const struct run *run)
{
    return diag_count(run, DIAG_ERROR) > 0;
}

/* Patterns take the longest, so an order with a slip of its own is told that
 * first. */
const struct kits *plan_order(struct run *run, struct kept_facts *kept)
{
    const struct element *root = read_order(run);
    if (root == NULL || has_errors(run))
        return NULL;
    const struct order *order = resolve_order(run, root);
    if (has_errors(run))
        return NULL;
    struct kitting k = {.run = run, .kept = kept};
    const struct kit_facts **facts = find_facts(&k, order);
    if (has_errors(run))
        return NULL;
    const struct kits *kits = plan_kits(run, order, facts);
    if (kits != NULL)
        prove_kits(kits);
    return kits;
}
