/* Roles: the fabrics of a unit or block that each use may cast anew, so that
 * one block is written once for all its cloths. Read next: pieces.c. */
#include "resolver.h"

#include <string.h>

const struct role *design_role(const struct design *design, int fabric)
{
    const size_t first = design->fabrics.count;
    return fabric >= 0 && (size_t)fabric >= first
               ? &design->roles.items[(size_t)fabric - first]
               : NULL;
}

const char *fabric_id(const struct design *design, int fabric)
{
    const struct role *role = design_role(design, fabric);
    return role != NULL ? role->id : design->fabrics.items[fabric].id;
}

char fabric_key(const struct design *design, int fabric)
{
    const struct role *role = design_role(design, fabric);
    return role != NULL ? role->key : design->fabrics.items[fabric].key;
}

size_t fabric_numbers(const struct design *design)
{
    return design->fabrics.count + design->roles.count;
}

bool may_name_fabric(const struct design *design,
                     const struct definition *definition, int fabric)
{
    const struct role *role = design_role(design, fabric);
    return role == NULL || role->owner == definition;
}

int role_named(const struct design *design, const struct definition *definition,
               const char *id)
{
    for (size_t i = 0; definition != NULL && i < definition->role_count; i++)
        if (strcmp(design->roles.items[definition->first_role + i].id, id) == 0)
            return (int)(design->fabrics.count + definition->first_role + i);
    return NO_FABRIC;
}

/* reports: an id or a key that an earlier role of the definition has. A fabric
 * may have either: inside the definition the role hides it. */
static void check_role_twice(struct resolver *resolver,
                             const struct definition *definition,
                             const struct role *role)
{
    const struct design *design = resolver->design;
    struct arena *arena = resolver->run->arena;
    for (size_t i = definition->first_role; i + 1 < design->roles.count; i++) {
        const struct role *other = &design->roles.items[i];
        const bool named = strcmp(other->id, role->id) == 0;
        if (!named && (role->key == '\0' || role->key != other->key))
            continue;
        report_second(
            resolver, role->element, other->element, named ? ATTR_ID : ATTR_KEY,
            named ? arena_printf(arena, "a second role `%s`", role->id)
                  : arena_printf(arena, "the key `%c` stands for two roles",
                                 role->key));
        return;
    }
}

/* Each use has room for all of them, and each name is looked for among all.
 * reports: where they are too many. */
static bool has_roles_enough(struct resolver *resolver,
                             const struct definition *definition,
                             const struct element *element)
{
    const bool all = resolver->design->roles.count >= LIMIT_ALL_ROLES;
    if (!all && definition->role_count < LIMIT_ROLES)
        return false;
    if (!all)
        report_about(resolver, element, DIAG_LIMIT, element->name,
                     "more than %d roles in `%s`", LIMIT_ROLES, definition->id);
    else if (!resolver->roles_told)
        report_about(resolver, element, DIAG_LIMIT, element->name,
                     "more than %d roles in all units and blocks together",
                     LIMIT_ALL_ROLES);
    resolver->roles_told |= all;
    mark_definition(resolver, element);
    return true;
}

void resolve_roles(struct resolver *resolver, struct definition *definition)
{
    struct design *design = resolver->design;
    const struct element *element = definition->element;
    definition->first_role = design->roles.count;
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (child->kind != ELEMENT_ROLE)
            continue;
        if (has_roles_enough(resolver, definition, child))
            return;
        struct role *role = LIST_ADD(resolver->run->arena, &design->roles);
        role->element = child;
        role->owner = definition;
        role->id = text_of(child, ATTR_ID, "?");
        role->key = text_of(child, ATTR_KEY, "")[0];
        role->fabric = bind_fabric(resolver, child, ATTR_FABRIC);
        if (role->fabric == NO_FABRIC)
            mark_definition(resolver, element);
        definition->role_count++;
        check_role_twice(resolver, definition, role);
    }
}

void use_role(struct resolver *resolver, int role)
{
    struct design *design = resolver->design;
    design->roles.items[(size_t)role - design->fabrics.count].used = true;
}

/* A misspelt name may be that of the role. */
void check_roles_used(struct resolver *resolver)
{
    const struct design *design = resolver->design;
    const bool sound = diag_count(resolver->run, DIAG_ERROR) == 0;
    for (size_t i = 0; sound && i < design->roles.count; i++) {
        const struct role *role = &design->roles.items[i];
        if (!role->used)
            diag_report(resolver->run, DIAG_NOT_USED,
                        value_span(role->element, ATTR_ID),
                        "no piece of `%s` is of the role `%s`", role->owner->id,
                        role->id);
    }
}

/* reports: a role that the unit or block has not, or that it has none. */
static void report_unknown_role(struct resolver *resolver,
                                const struct piece *use,
                                const struct cast_text *text)
{
    const struct design *design = resolver->design;
    const struct definition *target = use->target;
    struct arena *scratch = arena_create();
    const char **names =
        ARENA_ARRAY(scratch, const char *, target->role_count + 1);
    for (size_t i = 0; i < target->role_count; i++)
        names[i] = design->roles.items[target->first_role + i].id;
    if (target->role_count == 0) {
        struct diagnostic *d = report_about(
            resolver, use->element, DIAG_UNKNOWN_ROLE, text->role_span,
            "`%s` has no role `%s`: it has none", target->id, text->role);
        diag_note(resolver->run, d, value_span(target->element, ATTR_ID),
                  "a role is told in it: <role id=\"%s\" fabric=\"...\"/>",
                  text->role);
    } else {
        report_unknown(resolver, DIAG_UNKNOWN_ROLE, use->element, text->role,
                       text->role_span, "role", names, target->role_count);
    }
    arena_destroy(scratch);
}

/* reports: a role that is cast twice in one place. */
static void report_cast_twice(struct resolver *resolver,
                              const struct piece *use,
                              const struct value *value, size_t at)
{
    const struct cast_text *second = &value->casts.items[at];
    struct diagnostic *d = report_about(
        resolver, use->element, DIAG_DOUBLE_NAME, second->role_span,
        "the role `%s` is cast twice", second->role);
    for (size_t i = 0; i < at; i++)
        if (strcmp(value->casts.items[i].role, second->role) == 0)
            diag_note(resolver->run, d, value->casts.items[i].role_span,
                      "the first time");
}

/* What is not cast keeps its default. */
void bind_casts(struct resolver *resolver, struct piece *use)
{
    const struct definition *target = use->target;
    const struct design *design = resolver->design;
    const size_t count = target->role_count;
    const size_t fabrics = design->fabrics.count;
    const struct value *value = value_of(use->element, ATTR_WITH);
    int *cast = ARENA_ARRAY(resolver->run->arena, int, count + 1);
    bool *told = ARENA_ARRAY(resolver->run->arena, bool, count + 1);
    for (size_t i = 0; i < count; i++)
        cast[i] = design->roles.items[target->first_role + i].fabric;
    for (size_t i = 0; value != NULL && i < value->casts.count; i++) {
        const struct cast_text *text = &value->casts.items[i];
        const int role = role_named(design, target, text->role);
        if (role == NO_FABRIC) {
            report_unknown_role(resolver, use, text);
            continue;
        }
        const size_t at = (size_t)role - fabrics - target->first_role;
        if (told[at])
            report_cast_twice(resolver, use, value, i);
        told[at] = true;
        cast[at] = bind_fabric_text(resolver, use->element, text->fabric,
                                    text->fabric_span);
    }
    for (size_t i = 0; i < count; i++)
        if (cast[i] == NO_FABRIC)
            mark_definition(resolver, use->element);
    use->cast = count == 0 ? NULL : cast;
}
