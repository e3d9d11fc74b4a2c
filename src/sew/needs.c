/* The second walk over what an assembly is `of`: what it takes of each unit,
 * block and piece with an id, and where. May assume that names are bound, and
 * builds heaps in a list of its own. Read next: steps.c. */
#include "needs.h"

#include "buffer.h"

/* Also by heap: two sizes of one block are two needs. ensures: its number, from
 * 1; 0 where there is none. */
static size_t find_need(const struct needs *needs, const struct need *like,
                        const struct piece *root)
{
    size_t number = needs->first[root->index];
    while (number > 0) {
        const struct need *need = &needs->items.items[number - 1];
        if (need->make == like->make && need->piece == like->piece &&
            need->heap == like->heap)
            break;
        number = need->next;
    }
    return number;
}

/* One more place of the use. */
static void count_use(struct needs *needs, size_t number,
                      const struct piece *use)
{
    struct need *need = &needs->items.items[number - 1];
    struct last_count *last = &needs->last[use->index];
    size_t place = last->need == number ? last->place - 1
                   : last->need == 0    ? need->uses.count
                                        : 0;
    while (place < need->uses.count && need->uses.items[place].use != use)
        place++;
    if (place == need->uses.count)
        *LIST_ADD(needs->sewer->run->arena, &need->uses) =
            (struct use_count){use, 0};
    need->uses.items[place].count++;
    need->count++;
    *last = (struct last_count){number, place + 1};
}

const bool *find_pressed(struct arena *arena, const struct design *design)
{
    bool *pressed = ARENA_ARRAY(arena, bool, design->definitions.count + 1);
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        pressed[piece->owner->index] |= piece->press.side != PRESS_RULE;
    }
    return pressed;
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
static bool looks_the_same(const struct needs *needs, const struct piece *root,
                           struct ref a, struct ref b)
{
    enum { MANY_FACES = 400 };
    const struct heap *one = heap_at(needs->sewer, a.heap);
    const struct heap *other = heap_at(needs->sewer, b.heap);
    if (needs->pressed[root->owner->index])
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
    struct ref own = {0}, other = {0};
    if (needs->by_name) {
        like.heap = like.mirror;
    } else {
        own = build_heap(sewer, root, factor, like.mirror);
        other = build_heap(sewer, root, factor, !like.mirror);
        like.heap = own.heap;
    }
    size_t number = find_need(needs, &like, root);
    if (number == 0) {
        like.chiral = needs->by_name
                          ? has_mirrored_step(needs, &like)
                          : own.heap != other.heap &&
                                !looks_the_same(needs, root, own, other);
        like.next = needs->first[root->index];
        *LIST_ADD(sewer->run->arena, &needs->items) = like;
        number = needs->first[root->index] = needs->items.count;
    }
    count_use(needs, number, like.first_use);
}

/* Walks the plan as it is, cell by cell: a grid of 30 uses is 30. What has an
 * assembly of its own is counted, but not entered: that assembly checks it. */
static void collect(struct needs *needs, const struct piece *piece,
                    struct rational factor, bool mirror)
{
    struct sewer *sewer = needs->sewer;
    /* Pressed to and fro they are several heaps, and still one thing. */
    if (piece->id != NULL)
        need_one(needs,
                 (struct need){.piece = piece->first,
                               .mirror = mirror,
                               .first_use = piece->first},
                 piece->first, factor);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        collect(needs, cell->piece, factor, mirror != cell->orientation.mirror);
    }
    if (piece->target == NULL)
        return;
    const bool inner_mirror = mirror != piece->orientation.mirror;
    const struct rational inner = use_scale(sewer->sized, piece, factor);
    const struct cast *around = enter_use(sewer, piece);
    need_one(needs,
             (struct need){.make = piece->target,
                           .mirror = inner_mirror,
                           .first_use = piece},
             piece->target->root, inner);
    /* What is inside is that assembly's affair. */
    if (piece->target->assembly == NULL)
        collect(needs, piece->target->root, inner, inner_mirror);
    sewer->cast = around;
}

void collect_needs(struct needs *needs, struct rational factor)
{
    collect(needs, needs->assembly->of->whole, factor, false);
}
