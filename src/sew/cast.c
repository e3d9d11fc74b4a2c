/* Roles on the way to cloth: which fabric plays each, in the unit or block at
 * work. Outside of it nobody knows roles. Read next: heaps.c. */
#include <string.h>

#include "sewer.h"

/* In which fabrics play the roles of `definition`; `given` tells them as the
 * definition around names them, or is NULL for the defaults. */
static const struct cast *make_cast(struct sewer *sewer,
                                    const struct definition *definition,
                                    const int *given)
{
    const struct design *design = sewer->sized->design;
    struct cast *cast = ARENA_NEW(sewer->run->arena, struct cast);
    int *fabrics = ARENA_ARRAY(sewer->run->arena, int, definition->role_count);
    for (size_t i = 0; i < definition->role_count; i++)
        fabrics[i] =
            given == NULL
                ? design->roles.items[definition->first_role + i].fabric
                : cast_fabric(sewer, given[i]);
    cast->definition = definition;
    cast->fabrics = fabrics;
    return cast;
}

const struct cast *enter_use(struct sewer *sewer, const struct piece *use)
{
    const struct cast *around = sewer->cast;
    sewer->cast =
        use->cast == NULL ? NULL : make_cast(sewer, use->target, use->cast);
    return around;
}

const struct cast *enter_definition(struct sewer *sewer,
                                    const struct definition *definition)
{
    const struct cast *around = sewer->cast;
    sewer->cast =
        definition->role_count == 0 ? NULL : make_cast(sewer, definition, NULL);
    return around;
}

int fabric_in(const struct design *design, const struct cast *cast, int fabric)
{
    const struct role *role = design_role(design, fabric);
    if (role == NULL)
        return fabric;
    if (cast == NULL || cast->definition != role->owner)
        internal_error("the role `%s` of `%s` is not cast", role->id,
                       role->owner->id);
    return cast->fabrics[(size_t)fabric - design->fabrics.count -
                         role->owner->first_role];
}

int cast_fabric(const struct sewer *sewer, int fabric)
{
    return fabric_in(sewer->sized->design, sewer->cast, fabric);
}

int fabric_of(const struct sewer *sewer, const struct piece *piece, size_t i)
{
    return cast_fabric(sewer, piece->fabrics.items[i].fabric);
}

bool same_cast(const struct cast *a, const struct cast *b)
{
    if (a == NULL || b == NULL)
        return a == b;
    return a->definition == b->definition &&
           memcmp(a->fabrics, b->fabrics,
                  a->definition->role_count * sizeof *a->fabrics) == 0;
}

const struct heap *cast_twin(const struct sewer *sewer, const struct heap *heap)
{
    if (heap->cast == NULL)
        return heap;
    for (const struct memo *memo = sewer->memos[heap->piece->index];
         memo != NULL; memo = memo->next) {
        const struct heap *twin = heap_at(sewer, memo->ref.heap);
        if (memo->mirror == heap->mirror && memo->ref.turn == 0 &&
            twin->piece == heap->piece && twin->technique == heap->technique)
            return twin;
    }
    return heap;
}
