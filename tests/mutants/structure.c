/* Mistakes of structure: children dropped and doubled, names misspelt, steps
 * and uses of another name, words of maps, units. */
#include <stdlib.h>
#include <string.h>

#include "mutants.h"

static bool is_drawn(const struct element *element)
{
    return element->kind == ELEMENT_PATCH || element->kind == ELEMENT_USE ||
           element->kind == ELEMENT_HALF_SQUARE ||
           element->kind == ELEMENT_QUARTER_SQUARE ||
           element->kind == ELEMENT_HALF_RECTANGLE ||
           element->kind == ELEMENT_STAR ||
           element->kind == ELEMENT_FLYING_GEESE ||
           element->kind == ELEMENT_SQUARE_IN_SQUARE ||
           element->kind == ELEMENT_CORNER || element->kind == ELEMENT_DIAGONAL;
}

/* Of units and blocks, which have a picture to tell it. */
static void mutate_children(struct sample *sample,
                            const struct element *element)
{
    const struct definition *owner = owner_of(sample, element);
    if (owner == NULL || owner->kind == DEFINE_QUILT)
        return;
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (!is_drawn(child))
            continue;
        const struct span span = element_span(sample->source, child);
        mutant_replace(sample, KIND_DROPPED, RULE_NONE, span, "");
        mutant_replace(sample, KIND_DOUBLED, RULE_NONE,
                       (struct span){span.end, span.end},
                       sample_text(sample, span));
    }
}

/* Without its second letter, and with its first two exchanged. */
static void misspell(struct sample *sample, const struct value *value)
{
    const char *name = value->text;
    if (strlen(name) < 3)
        return;
    mutant_replace(sample, KIND_NAME, RULE_NONE, value->span,
                   arena_printf(sample->arena, "%c%s", name[0], name + 2));
    mutant_replace(
        sample, KIND_NAME, RULE_NONE, value->span,
        arena_printf(sample->arena, "%c%c%s", name[1], name[0], name + 2));
}

static void mutate_names(struct sample *sample, const struct element *element)
{
    static const enum attribute_id names[] = {ATTR_UNIT, ATTR_BLOCK, ATTR_MAKE,
                                              ATTR_FABRIC};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const struct value *value = value_of(element, names[i]);
        if (value != NULL)
            misspell(sample, value);
    }
}

/* Another unit of the same pattern, in a use and in a step. */
static void mutate_uses(struct sample *sample, const struct element *element)
{
    const struct design *design = sample->compiled.design;
    const struct value *unit = value_of(element, ATTR_UNIT);
    const struct value *make = value_of(element, ATTR_MAKE);
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *other = design->definitions.items[i];
        if (other->kind != DEFINE_UNIT)
            continue;
        if (unit != NULL)
            mutant_replace(sample, KIND_USE, RULE_NONE, unit->span, other->id);
        if (make != NULL)
            mutant_replace(sample, KIND_MAKE, RULE_NONE, make->span, other->id);
    }
}

/* The first word of the map that is another one, or an empty one. */
static struct span other_word(const struct sample *sample,
                              const struct element *map, const char *word)
{
    uint32_t at = map->content.start;
    struct span other;
    size_t lines;
    while (next_word(sample->source, map->content, &at, &other, &lines))
        if (strcmp(sample_text(sample, other), word) != 0)
            return other;
    return (struct span){at, at};
}

/* A word too few, twice, or another one too many. */
static void mutate_map(struct sample *sample, const struct element *map)
{
    uint32_t at = map->content.start;
    struct span word;
    size_t lines;
    while (next_word(sample->source, map->content, &at, &word, &lines)) {
        mutant_replace(sample, KIND_MAP, RULE_NONE, word, "");
        mutant_replace(
            sample, KIND_MAP, RULE_NONE, (struct span){word.end, word.end},
            arena_printf(sample->arena, " %s", sample_text(sample, word)));
        const struct span other =
            other_word(sample, map, sample_text(sample, word));
        if (other.end > other.start)
            mutant_replace(
                sample, KIND_MAP, RULE_NONE, (struct span){word.end, word.end},
                arena_printf(sample->arena, " %s", sample_text(sample, other)));
    }
}

/* A run of cells, or of rows, one too long or too short. */
static void mutate_runs(struct sample *sample, const struct element *element)
{
    struct span count;
    for (uint32_t at = element->content.start;
         next_count(sample->source, element->content, &at, &count);)
        for (long by = -1; by <= 1; by += 2)
            mutant_replace(
                sample, KIND_COUNT, RULE_NONE, count,
                arena_printf(sample->arena, "%ld",
                             strtol(sample_text(sample, count), NULL, 10) +
                                 by));
}

void mutate_structure(struct sample *sample, const struct element *element)
{
    const struct value *units = value_of(element, ATTR_UNITS);
    if (units != NULL)
        mutant_replace(sample, KIND_UNITS, RULE_UNITS, units->span,
                       units->choice == 0 ? "cm" : "in");
    if (element->kind == ELEMENT_MAP)
        mutate_map(sample, element);
    if (element->kind == ELEMENT_MAP || element->kind == ELEMENT_PICTURE)
        mutate_runs(sample, element);
    mutate_children(sample, element);
    mutate_names(sample, element);
    mutate_uses(sample, element);
}
