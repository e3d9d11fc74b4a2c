/* Mistakes of cloth: a fabric named instead of another, or two exchanged. */
#include <string.h>

#include "mutants.h"

/* An attribute that says what a part is sewn of, or which cloth plays a role.
 */
struct naming {
    const struct element *element;
    const struct value *value;
};

typedef LIST(struct naming) naming_list;

static enum rule fabric_rule(const struct element *element)
{
    if (element->kind == ELEMENT_BACKING)
        return RULE_LAYERS;
    if (element->kind == ELEMENT_CLOTH &&
        value_of(element, ATTR_YARDS) == NULL &&
        value_of(element, ATTR_FAT_QUARTERS) == NULL)
        return RULE_CLOTH;
    return RULE_NONE;
}

static void add_naming(struct sample *sample, naming_list *list,
                       const struct element *element, enum attribute_id id)
{
    const struct value *value = value_of(element, id);
    if (value != NULL)
        *LIST_ADD(sample->arena, list) = (struct naming){element, value};
}

static void collect_namings(struct sample *sample, naming_list *list,
                            const struct element *element)
{
    /* It names where lines run: no cloth (plans.c). */
    if (element->kind == ELEMENT_QUILTING)
        return;
    add_naming(sample, list, element, ATTR_FABRIC);
    add_naming(sample, list, element, ATTR_LEFT);
    add_naming(sample, list, element, ATTR_RIGHT);
    add_naming(sample, list, element, ATTR_GOOSE);
    add_naming(sample, list, element, ATTR_SKY);
    add_naming(sample, list, element, ATTR_CENTER);
    add_naming(sample, list, element, ATTR_CORNER_FABRIC);
    add_naming(sample, list, element, ATTR_ENDS);
    add_naming(sample, list, element, ATTR_STAR_POINTS);
    add_naming(sample, list, element, ATTR_SECOND);
    add_naming(sample, list, element, ATTR_SIDES);
    add_naming(sample, list, element, ATTR_TOP);
    add_naming(sample, list, element, ATTR_BOTTOM);
    if (element->kind == ELEMENT_FABRIC)
        add_naming(sample, list, element, ATTR_KEY);
    for (size_t i = 0; i < element->children.count; i++)
        collect_namings(sample, list, element->children.items[i]);
}

/* What is exchanged between two things that are stated once is so too. */
static void swap_namings(struct sample *sample, const naming_list *list)
{
    for (size_t i = 0; i < list->count; i++) {
        for (size_t k = i + 1; k < list->count; k++) {
            const struct naming a = list->items[i], b = list->items[k];
            const enum rule a_rule = fabric_rule(a.element);
            const enum rule b_rule = fabric_rule(b.element);
            if (strcmp(a.value->text, b.value->text) != 0)
                mutant_swap(sample, KIND_SWAP,
                            a_rule == b_rule ? a_rule : RULE_NONE,
                            a.value->span, b.value->span);
        }
    }
}

static void change_namings(struct sample *sample, const naming_list *list)
{
    const struct design *design = sample->compiled.design;
    for (size_t i = 0; i < list->count; i++) {
        const struct naming one = list->items[i];
        if (one.element->kind == ELEMENT_ROLE)
            continue; /* casts.c */
        /* A cloth that changes its role alone leaves another role bare, which
         * is told whatever else is stated. */
        const enum rule rule = one.element->kind == ELEMENT_CLOTH
                                   ? RULE_NONE
                                   : fabric_rule(one.element);
        for (size_t k = 0; k < design->fabrics.count; k++)
            if (strcmp(design->fabrics.items[k].id, one.value->text) != 0)
                mutant_replace(sample, KIND_FABRIC, rule, one.value->span,
                               design->fabrics.items[k].id);
    }
}

/* Within one definition, one colorway, or the list of fabrics and its keys. */
void mutate_fabrics(struct sample *sample, const struct element *element)
{
    const bool scope =
        element->kind == ELEMENT_UNIT || element->kind == ELEMENT_BLOCK ||
        element->kind == ELEMENT_QUILT || element->kind == ELEMENT_COLORWAY ||
        element->kind == ELEMENT_FABRICS;
    if (!scope)
        return;
    naming_list list = {0};
    collect_namings(sample, &list, element);
    swap_namings(sample, &list);
    if (element->kind != ELEMENT_FABRICS)
        change_namings(sample, &list);
}
