/* Mutants as texts: edits applied to a sample, doubles dropped. */
#include <string.h>

#include "mutants.h"

const char *sample_text(const struct sample *sample, struct span span)
{
    return arena_copy(sample->arena, sample->source->bytes + span.start,
                      span.end - span.start);
}

/* Two sources that differ in blanks alone are one mistake. */
char *without_blanks(struct arena *arena, const char *text, size_t length)
{
    char *bare = arena_copy(arena, text, length);
    size_t kept = 0;
    for (size_t i = 0; i < length; i++)
        if (strchr(" \t\r\n", text[i]) == NULL)
            bare[kept++] = text[i];
    bare[kept] = '\0';
    return bare;
}

/* FNV-1a, 64 bits (Fowler, Noll, Vo). */
static uint64_t hash_of(const char *text)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (; *text != '\0'; text++)
        hash = (hash ^ (unsigned char)*text) * UINT64_C(1099511628211);
    return hash;
}

void sample_fingerprint(struct sample *sample)
{
    sample->bare = without_blanks(sample->arena, sample->source->bytes,
                                  sample->source->length);
    sample->hash = hash_of(sample->bare);
}

static bool is_double(const struct sample *sample, const struct mutant *mutant)
{
    if (mutant->hash == sample->hash && strcmp(mutant->bare, sample->bare) == 0)
        return true;
    for (size_t i = 0; i < sample->mutants.count; i++) {
        const struct mutant *other = &sample->mutants.items[i];
        if (other->hash == mutant->hash &&
            strcmp(other->bare, mutant->bare) == 0)
            return true;
    }
    return false;
}

static size_t line_ends(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++)
        count += text[i] == '\n';
    return count;
}

/* The sample's text with the edits, and the lines that they lie on. */
static void apply(const struct sample *sample, const struct edit *edits,
                  size_t count, struct mutant *mutant)
{
    const struct source *source = sample->source;
    size_t room = source->length + 1;
    for (size_t i = 0; i < count; i++)
        room += strlen(edits[i].text);
    char *text = arena_alloc(sample->arena, room);
    size_t from = 0, to = 0;
    for (size_t i = 0; i < count; i++) {
        const size_t before = edits[i].span.start - from;
        const size_t length = strlen(edits[i].text);
        memcpy(text + to, source->bytes + from, before);
        to += before;
        memcpy(text + to, edits[i].text, length);
        mutant->places[i] = (uint32_t)to;
        mutant->lines[i].first = 1 + line_ends(text, to);
        mutant->lines[i].last = 1 + line_ends(text, to + length);
        /* What went has no line: it is missed between its neighbors. */
        if (length == 0) {
            size_t left = to, behind = edits[i].span.end;
            while (left > 0 && strchr(" \t\r\n", text[left - 1]) != NULL)
                left--;
            while (behind < source->length &&
                   strchr(" \t\r\n", source->bytes[behind]) != NULL)
                behind++;
            mutant->lines[i].first = 1 + line_ends(text, left);
            mutant->lines[i].last += line_ends(
                source->bytes + edits[i].span.end, behind - edits[i].span.end);
        }
        to += length;
        from = edits[i].span.end;
    }
    memcpy(text + to, source->bytes + from, source->length - from);
    mutant->text = text;
    mutant->length = to + source->length - from;
}

static void describe(struct sample *sample, struct mutant *mutant)
{
    const struct edit *edits = mutant->changes;
    mutant->line = source_line(sample->source, edits[0].span.start);
    mutant->from = sample_text(sample, edits[0].span);
    mutant->to = edits[0].text;
    for (size_t i = 1; i < mutant->edits; i++) {
        mutant->from = arena_printf(sample->arena, "%s ... %s", mutant->from,
                                    sample_text(sample, edits[i].span));
        mutant->to =
            arena_printf(sample->arena, "%s ... %s", mutant->to, edits[i].text);
    }
}

void mutant_add(struct sample *sample, enum kind kind, enum rule rule,
                const struct edit *edits, size_t count)
{
    struct mutant mutant = {.kind = kind, .rule = rule, .edits = count};
    memcpy(mutant.changes, edits, count * sizeof *edits);
    apply(sample, edits, count, &mutant);
    mutant.bare = without_blanks(sample->arena, mutant.text, mutant.length);
    mutant.hash = hash_of(mutant.bare);
    if (is_double(sample, &mutant)) {
        sample->doubles++;
        return;
    }
    describe(sample, &mutant);
    *LIST_ADD(sample->arena, &sample->mutants) = mutant;
}
/* The edits of both in the order of their places. */
struct mutant mutant_pair(struct sample *sample, const struct mutant *a,
                          const struct mutant *b)
{
    struct mutant pair = {.kind = a->kind, .pair = {a, b}};
    for (size_t i = 0, k = 0; i < a->edits || k < b->edits; pair.edits++) {
        const bool first =
            k == b->edits || (i < a->edits && a->changes[i].span.start <
                                                  b->changes[k].span.start);
        pair.mistakes[pair.edits] = !first;
        pair.changes[pair.edits] = first ? a->changes[i++] : b->changes[k++];
    }
    apply(sample, pair.changes, pair.edits, &pair);
    describe(sample, &pair);
    return pair;
}

void mutant_replace(struct sample *sample, enum kind kind, enum rule rule,
                    struct span span, const char *text)
{
    const struct edit edit = {span, text};
    mutant_add(sample, kind, rule, &edit, 1);
}

void mutant_swap(struct sample *sample, enum kind kind, enum rule rule,
                 struct span a, struct span b)
{
    const bool in_order = a.start < b.start;
    const struct edit edits[2] = {
        {in_order ? a : b, sample_text(sample, in_order ? b : a)},
        {in_order ? b : a, sample_text(sample, in_order ? a : b)}};
    mutant_add(sample, kind, rule, edits, 2);
}

const struct definition *owner_of(const struct sample *sample,
                                  const struct element *element)
{
    const struct design *design = sample->compiled.design;
    for (; element != NULL; element = element->parent)
        for (size_t i = 0; i < design->definitions.count; i++)
            if (design->definitions.items[i]->element == element)
                return design->definitions.items[i];
    return NULL;
}

enum rule setting_rule(const struct sample *sample,
                       const struct element *element)
{
    const struct definition *owner = owner_of(sample, element);
    return owner != NULL && owner->kind == DEFINE_QUILT ? RULE_SETTING
                                                        : RULE_NONE;
}

enum rule row_rule(const struct sample *sample, const struct element *element)
{
    const struct definition *owner = owner_of(sample, element);
    return owner != NULL && owner->picture == NULL ? RULE_SETTING : RULE_NONE;
}

static void mutate(struct sample *sample, const struct element *element)
{
    mutate_attributes(sample, element);
    mutate_lengths(sample, element);
    mutate_fabrics(sample, element);
    mutate_order(sample, element);
    mutate_cells(sample, element);
    mutate_casts(sample, element);
    mutate_structure(sample, element);
    mutate_plans(sample, element);
    for (size_t i = 0; i < element->children.count; i++)
        mutate(sample, element->children.items[i]);
}

void make_mutants(struct sample *sample)
{
    mutate(sample, sample->compiled.pattern->root);
}
