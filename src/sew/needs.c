/* What an assembly takes of each unit, block and piece with an id. Read next:
 * press.c. */
#include "needs.h"
#include "buffer.h"

/* ensures: the first assembly of the definition, or NULL where the compiler
 * orders the steps itself. */
const struct assembly *assembly_of(const struct design *design,
                                   const struct definition *definition)
{
    for (size_t i = 0; i < design->assemblies.count; i++)
        if (design->assemblies.items[i].of == definition)
            return &design->assemblies.items[i];
    return NULL;
}

/* Also by heap: two sizes of one block are two needs. */
static struct need *find_need(struct needs *needs,
                              const struct definition *make,
                              const struct piece *piece, size_t heap)
{
    for (size_t i = 0; i < needs->items.count; i++) {
        struct need *need = &needs->items.items[i];
        if (need->make == make && need->piece == piece && need->heap == heap)
            return need;
    }
    return NULL;
}

/* Called once for each place where it stands, so counting is adding. */
static void add_need(struct needs *needs, const struct need *like)
{
    struct need *need = find_need(needs, like->make, like->piece, like->heap);
    if (need == NULL) {
        need = LIST_ADD(needs->sewer->run->arena, &needs->items);
        *need = *like;
    }
    need->count++;
    for (size_t i = 0; i < need->uses.count; i++) {
        if (need->uses.items[i].use == like->first_use) {
            need->uses.items[i].count++;
            return;
        }
    }
    *LIST_ADD(needs->sewer->run->arena, &need->uses) =
        (struct use_count){like->first_use, 1};
}

const char *count_sum(struct needs *needs, const struct need *need)
{
    struct buffer text = buffer_in(needs->sewer->run->arena);
    enum { MOST = 12 };
    for (size_t i = 0; i < need->uses.count && i < MOST; i++)
        buffer_printf(&text, "%s%ld", i == 0 ? "" : " + ",
                      need->uses.items[i].count);
    if (need->uses.count > MOST)
        buffer_text(&text, " + ...");
    buffer_printf(&text, " = %ld", need->count);
    return buffer_string(&text);
}

/* Two heaps that differ only in what the rules press: to the hand that sews
 * them they are one. */
static bool looks_the_same(struct sewer *sewer, const struct piece *root,
                           struct ref a, struct ref b)
{
    enum { MANY_FACES = 400 };
    const struct heap *one = heap_at(sewer, a.heap);
    const struct heap *other = heap_at(sewer, b.heap);
    const struct design *design = sewer->sized->design;
    for (size_t i = 0; i < design->pieces.count; i++)
        if (design->pieces.items[i]->owner == root->owner &&
            design->pieces.items[i]->press.side != PRESS_RULE)
            return false;
    if (one->cloth == NULL || other->cloth == NULL ||
        one->cloth->faces.count > MANY_FACES ||
        one->cloth->faces.count != other->cloth->faces.count)
        return false;
    struct arena *scratch = arena_create();
    const bool same =
        same_cloth(scratch,
                   cloth_oriented(scratch, one->cloth,
                                  (struct orientation){a.turn, false}),
                   cloth_oriented(scratch, other->cloth,
                                  (struct orientation){b.turn, false}));
    arena_destroy(scratch);
    return same;
}

/* Whether mirrored ones are heaps of their own, only their steps tell. */
static bool has_mirrored_step(const struct needs *needs,
                              const struct need *need)
{
    for (size_t i = 0; i < needs->assembly->steps.count; i++) {
        const struct assembly_step *step = &needs->assembly->steps.items[i];
        if (step->make == need->make && step->piece == need->piece &&
            step->mirror)
            return true;
    }
    return false;
}

/* Counts one more of what `like` names, as `root` makes it. */
static void need_one(struct needs *needs, struct need like,
                     const struct piece *root, struct rational factor)
{
    struct sewer *sewer = needs->sewer;
    if (needs->by_name) {
        like.heap = like.mirror;
        like.chiral = has_mirrored_step(needs, &like);
        add_need(needs, &like);
        return;
    }
    const struct ref own = build_heap(sewer, root, factor, like.mirror);
    const struct ref other = build_heap(sewer, root, factor, !like.mirror);
    like.heap = own.heap;
    like.chiral =
        own.heap != other.heap && !looks_the_same(sewer, root, own, other);
    add_need(needs, &like);
}

void collect_needs(struct needs *needs, const struct piece *piece,
                   struct rational factor, bool mirror)
{
    struct sewer *sewer = needs->sewer;
    if (piece->id != NULL)
        need_one(
            needs,
            (struct need){.piece = piece, .mirror = mirror, .first_use = piece},
            piece, factor);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        collect_needs(needs, cell->piece, factor,
                      mirror != cell->orientation.mirror);
    }
    if (piece->target == NULL)
        return;
    const bool inner_mirror = mirror != piece->orientation.mirror;
    const struct rational inner = use_scale(sewer->sized, piece, factor);
    need_one(needs,
             (struct need){.make = piece->target,
                           .mirror = inner_mirror,
                           .first_use = piece},
             piece->target->root, inner);
    /* What is inside is that assembly's affair. */
    if (assembly_of(sewer->sized->design, piece->target) == NULL)
        collect_needs(needs, piece->target->root, inner, inner_mirror);
}
