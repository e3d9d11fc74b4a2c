/* Mistakes of roles and casts, and of sashing. */
#include <string.h>

#include "mutants.h"

/* A fabric that a use gives to a role, and the use. */
struct given {
    const struct element *use;
    const struct cast_text *text;
};

typedef LIST(struct given) given_list;

/* ---- names ---- */

static bool same_span(struct span a, struct span b)
{
    return a.start == b.start && a.end == b.end;
}

/* Another fabric, or another role of the definition around. */
static void change_fabric(struct sample *sample, enum kind kind,
                          const struct definition *around, struct span span)
{
    const struct design *design = sample->compiled.design;
    const char *now = sample_text(sample, span);
    for (size_t i = 0; i < fabric_numbers(design); i++)
        if (may_name_fabric(design, around, (int)i) &&
            strcmp(fabric_id(design, (int)i), now) != 0)
            mutant_replace(sample, kind, RULE_NONE, span,
                           fabric_id(design, (int)i));
}

static void misspell(struct sample *sample, struct span span)
{
    const char *name = sample_text(sample, span);
    if (strlen(name) > 2)
        mutant_replace(sample, KIND_ROLE_NAME, RULE_NONE, span,
                       arena_printf(sample->arena, "%c%s", name[0], name + 2));
}

static void change_role(struct sample *sample, const struct definition *target,
                        struct span span)
{
    const struct design *design = sample->compiled.design;
    for (size_t i = 0; target != NULL && i < target->role_count; i++)
        mutant_replace(sample, KIND_ROLE_OTHER, RULE_NONE, span,
                       design->roles.items[target->first_role + i].id);
}

static const struct definition *target_of(const struct sample *sample,
                                          const struct element *use)
{
    const struct design *design = sample->compiled.design;
    for (size_t i = 0; i < design->pieces.count; i++)
        if (design->pieces.items[i]->element == use)
            return design->pieces.items[i]->target;
    return NULL;
}

/* ---- casts ---- */

/* Without one of the fabrics; without the attribute where it is the only one.
 */
static void leave_out(struct sample *sample, const struct value *with, size_t i)
{
    const struct cast_text *one = &with->casts.items[i];
    struct span span = {one->role_span.start, one->fabric_span.end};
    if (with->casts.count == 1)
        span = (struct span){with->name.start - 1, with->span.end + 1};
    mutant_replace(sample, KIND_CAST_DROPPED, RULE_NONE, span, "");
}

static void mutate_with(struct sample *sample, const struct element *use)
{
    const struct value *with = value_of(use, ATTR_WITH);
    for (size_t i = 0; with != NULL && i < with->casts.count; i++) {
        const struct cast_text *one = &with->casts.items[i];
        change_fabric(sample, KIND_CAST_FABRIC, owner_of(sample, use),
                      one->fabric_span);
        misspell(sample, one->role_span);
        misspell(sample, one->fabric_span);
        change_role(sample, target_of(sample, use), one->role_span);
        leave_out(sample, with, i);
    }
}

static void collect_given(struct sample *sample, given_list *list,
                          const struct element *element)
{
    const struct value *with = value_of(element, ATTR_WITH);
    for (size_t i = 0; with != NULL && i < with->casts.count; i++)
        *LIST_ADD(sample->arena, list) =
            (struct given){element, &with->casts.items[i]};
    for (size_t i = 0; i < element->children.count; i++)
        collect_given(sample, list, element->children.items[i]);
}

/* Two fabrics of the casts of a definition; and all that two uses say. */
static void exchange_casts(struct sample *sample, const struct element *top)
{
    given_list list = {0};
    collect_given(sample, &list, top);
    for (size_t i = 0; i < list.count; i++)
        for (size_t k = i + 1; k < list.count; k++) {
            const struct given a = list.items[i], b = list.items[k];
            if (strcmp(a.text->fabric, b.text->fabric) != 0)
                mutant_swap(sample, KIND_CAST_SWAP, RULE_NONE,
                            a.text->fabric_span, b.text->fabric_span);
            const struct span whole = value_of(a.use, ATTR_WITH)->span;
            const struct span other = value_of(b.use, ATTR_WITH)->span;
            if (!same_span(whole, other) &&
                target_of(sample, a.use) == target_of(sample, b.use))
                mutant_swap(sample, KIND_CAST_SWAP, RULE_NONE, whole, other);
        }
}

/* ---- roles ---- */

static void mutate_role(struct sample *sample, const struct element *role)
{
    const struct design *design = sample->compiled.design;
    const struct value *key = value_of(role, ATTR_KEY);
    change_fabric(sample, KIND_ROLE_DEFAULT, NULL,
                  value_of(role, ATTR_FABRIC)->span);
    for (size_t i = 0; key != NULL && i < design->roles.count; i++)
        if (design->roles.items[i].key != '\0' &&
            design->roles.items[i].key != key->text[0])
            mutant_replace(
                sample, KIND_ROLE_KEY, RULE_NONE, key->span,
                arena_printf(sample->arena, "%c", design->roles.items[i].key));
    if (key != NULL)
        mutant_replace(sample, KIND_ROLE_KEY, RULE_NONE, key->span, "z");
}

/* What a piece, a corner or sashing of a definition with roles is sewn of. */
static void mutate_sewn(struct sample *sample, const struct element *element)
{
    static const enum attribute_id names[] = {
        ATTR_FABRIC, ATTR_LEFT,          ATTR_RIGHT, ATTR_GOOSE, ATTR_SKY,
        ATTR_CENTER, ATTR_CORNER_FABRIC, ATTR_TOP,   ATTR_BOTTOM};
    const struct definition *owner = owner_of(sample, element);
    if (owner == NULL || owner->role_count == 0)
        return;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const struct value *value = value_of(element, names[i]);
        if (value != NULL)
            change_fabric(sample, KIND_ROLE_PIECE, owner, value->span);
    }
}

/* ---- sashing ---- */

static void mutate_sashing(struct sample *sample, const struct element *sashing)
{
    const struct value *outer = value_of(sashing, ATTR_OUTER);
    const uint32_t behind = sashing->name.end;
    const struct span added = {behind, behind};
    if (outer == NULL)
        mutant_replace(sample, KIND_OUTER, RULE_NONE, added, " outer=\"yes\"");
    else
        mutant_replace(
            sample, KIND_OUTER, RULE_NONE,
            (struct span){outer->name.start - 1, outer->span.end + 1}, "");
    mutant_replace(sample, KIND_SASHING_DROPPED, RULE_NONE,
                   element_span(sample->source, sashing), "");
    for (size_t i = 0; i < sashing->children.count; i++)
        if (sashing->children.items[i]->kind == ELEMENT_CORNERSTONE)
            mutant_replace(
                sample, KIND_STONE_DROPPED, RULE_NONE,
                element_span(sample->source, sashing->children.items[i]), "");
}

void mutate_casts(struct sample *sample, const struct element *element)
{
    if (element->kind == ELEMENT_UNIT || element->kind == ELEMENT_BLOCK ||
        element->kind == ELEMENT_QUILT)
        exchange_casts(sample, element);
    if (element->kind == ELEMENT_SASHING)
        mutate_sashing(sample, element);
    if (element->kind == ELEMENT_ROLE)
        mutate_role(sample, element);
    else
        mutate_sewn(sample, element);
    mutate_with(sample, element);
}
