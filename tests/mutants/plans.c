/* Mistakes in the words of quilting: a name misspelt, another fabric, an element
 * left out or doubled. Nothing else in a source tells how it is quilted, so that
 * another word that fits the top is another plan; it is caught where there is no
 * such seam, shape or point, where the batting lies open, and where symmetry
 * that is stated is lost. */
#include <string.h>

#include "mutants.h"

/* Names of places, fabrics, lines and threads; a list begins with its first. */
static const enum attribute_id words[] = {
    ATTR_OF,     ATTR_FABRIC,     ATTR_INTO,     ATTR_BETWEEN,
    ATTR_AROUND, ATTR_WITH_PLACE, ATTR_TOUCHING, ATTR_INSIDE,
    ATTR_ALONG,  ATTR_THREAD,     ATTR_BELOW,    ATTR_MATCH,
    ATTR_BLEND};
enum { WORDS = sizeof words / sizeof words[0] };

static const enum attribute_id fabrics[] = {ATTR_FABRIC, ATTR_INTO,
                                            ATTR_BETWEEN, ATTR_MATCH,
                                            ATTR_BLEND};
enum { FABRICS = sizeof fabrics / sizeof fabrics[0] };

static struct span first_word(const struct sample *sample,
                              const struct value *value)
{
    struct span word = value->span;
    const char *blank =
        memchr(sample->source->bytes + word.start, ' ', word.end - word.start);
    if (blank != NULL)
        word.end = (uint32_t)(blank - sample->source->bytes);
    return word;
}

/* With its second letter twice, or without it: no name of a sample. */
static void misspell(struct sample *sample, const struct value *value)
{
    const struct span word = first_word(sample, value);
    const char *name = sample_text(sample, word);
    if (strlen(name) < 3)
        return;
    mutant_replace(
        sample, KIND_PLAN_NAME, RULE_NONE, word,
        arena_printf(sample->arena, "%c%c%s", name[0], name[1], name + 1));
    mutant_replace(sample, KIND_PLAN_NAME, RULE_NONE, word,
                   arena_printf(sample->arena, "%c%s", name[0], name + 2));
}

static void change_fabric(struct sample *sample, const struct value *value)
{
    const struct design *design = sample->compiled.design;
    const struct span word = first_word(sample, value);
    for (size_t i = 0; i < design->fabrics.count; i++)
        if (strcmp(design->fabrics.items[i].id, sample_text(sample, word)) != 0)
            mutant_replace(sample, KIND_PLAN_FABRIC, RULE_PLAN, word,
                           design->fabrics.items[i].id);
}

/* A thread that is left out is missed by whoever asks for it; one that stands
 * twice is told. */
static void change_element(struct sample *sample, const struct element *element)
{
    const struct span span = element_span(sample->source, element);
    const bool thread = element->kind == ELEMENT_THREAD;
    mutant_replace(sample, KIND_PLAN_DROPPED, thread ? RULE_NONE : RULE_PLAN,
                   span, "");
    mutant_replace(sample, KIND_PLAN_DOUBLED, thread ? RULE_NONE : RULE_PLAN,
                   (struct span){span.end, span.end},
                   sample_text(sample, span));
}

static void mutate_word(struct sample *sample, const struct element *element)
{
    for (size_t i = 0; i < WORDS; i++) {
        const struct value *value = value_of(element, words[i]);
        if (value != NULL)
            misspell(sample, value);
    }
    for (size_t i = 0; i < FABRICS; i++) {
        const struct value *value = value_of(element, fabrics[i]);
        if (value != NULL)
            change_fabric(sample, value);
    }
    change_element(sample, element);
    for (size_t i = 0; i < element->children.count; i++)
        mutate_word(sample, element->children.items[i]);
}

void mutate_plans(struct sample *sample, const struct element *element)
{
    if (element->kind != ELEMENT_QUILTING)
        return;
    for (size_t i = 0; i < element->children.count; i++)
        mutate_word(sample, element->children.items[i]);
}
