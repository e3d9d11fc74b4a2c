/* Steps from heaps: those that are sewn on the way to another belong to its
 * step. May assume heaps that are numbered. */
#include "told_step.h"

#include "telling.h"

/* A place in which a heap of the step takes something from outside of it. */
struct taking {
    size_t taker, part;
    size_t number; /* of the part, in the order of the step's parts */
};

struct places {
    LIST(struct taking) items;
};

/* In the order of sewing. `like` are those of the same step in another size or
 * other fabrics, which tell what counts as one part; NULL for the first. Parts
 * of a step are few, so that a walk is quick enough. */
static struct places places_of(const struct wording *w, size_t whole,
                               const struct places *like)
{
    struct places places = {.items = {0}};
    size_t numbers = 0;
    for (size_t h = 0; h <= whole; h++) {
        const struct heap *heap = &w->quilt->heaps.items[h];
        if (heap_whole(w->quilt, h) != whole)
            continue;
        for (size_t i = 0; i < heap->inputs.count; i++) {
            const size_t part = heap->inputs.items[i].heap;
            if (heap_whole(w->quilt, part) == whole)
                continue;
            const size_t at = places.items.count;
            size_t same = 0;
            while (same < at && places.items.items[same].part != part)
                same++;
            *LIST_ADD(w->arena, &places.items) =
                (struct taking){h, part,
                                like != NULL && at < like->items.count
                                    ? like->items.items[at].number
                                : same < at ? places.items.items[same].number
                                            : numbers++};
        }
    }
    return places;
}

/* How many of a part all heaps of the step take, for the whole quilt: a sewer
 * lays out all of it. */
static size_t taken_of_part(const struct wording *w,
                            const struct places *places, size_t number)
{
    size_t count = 0;
    for (size_t i = 0, end; i < places->items.count; i = end) {
        const size_t taker = places->items.items[i].taker;
        const struct heap *heap = &w->quilt->heaps.items[taker];
        size_t in_one = 0;
        for (end = i; end < places->items.count &&
                      places->items.items[end].taker == taker;
             end++)
            in_one += places->items.items[end].number == number;
        count += (in_one * heap->count + heap->yield - 1) / heap->yield;
    }
    return count;
}

/* What is brought to the step that ends in `whole`. */
static struct told_parts parts_of(const struct wording *w,
                                  const struct places *places)
{
    struct told_parts parts = {.items = {0}};
    for (size_t i = 0; i < places->items.count; i++) {
        const struct taking *place = &places->items.items[i];
        if (place->number == parts.items.count)
            *LIST_ADD(w->arena, &parts.items) = (struct told_part){
                place->part, taken_of_part(w, places, place->number), false};
    }
    return parts;
}

/* A part that all casts of a step take is laid out once, for all of them. */
static void share_parts(const struct wording *w, struct told_step *step)
{
    const struct heap *heaps = w->quilt->heaps.items;
    for (size_t i = 0; i < step->parts.items.count; i++) {
        struct told_part *part = &step->parts.items.items[i];
        size_t count = part->count;
        part->shared = step->sizes.count > 0;
        for (size_t k = 0; k < step->sizes.count; k++) {
            const struct told_size *size = &step->sizes.items[k];
            part->shared &=
                size->parts.items.count == step->parts.items.count &&
                rational_equal(heaps[size->heap].factor,
                               heaps[step->heap].factor) &&
                size->parts.items.items[i].heap == part->heap;
            if (part->shared)
                count += size->parts.items.items[i].count;
        }
        part->count = part->shared ? count : part->count;
    }
}

/* Borders that are sewn in one step have one title. */
static const char *step_title(const struct wording *w, size_t index)
{
    const struct heap *heaps = w->quilt->heaps.items;
    for (size_t i = 0; i < index; i++)
        if (heaps[i].technique == TECHNIQUE_BORDER && heaps[i].within == index)
            return say(w->arena, w->phrases, "border.title-all", NULL);
    return word_heap(w, index);
}

/* What makes one step: a heap, all on the way to it, and its other sizes and
 * casts. */
static struct told_step tell_step(const struct wording *w, size_t index)
{
    const struct sewn_quilt *quilt = w->quilt;
    const struct heap *heap = &quilt->heaps.items[index];
    const struct places places = places_of(w, index, NULL);
    struct told_step step = {.number = heap->step,
                             .heap = index,
                             .title = step_title(w, index),
                             .count = heap->count,
                             .parts = parts_of(w, &places)};
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *other = &quilt->heaps.items[i];
        if (other->technique != TECHNIQUE_CUT &&
            heap_whole(w->quilt, i) == index)
            *LIST_ADD(w->arena, &step.heaps) = i;
        if (i == index || other->like != index || other->count == 0)
            continue;
        const struct places others = places_of(w, i, &places);
        *LIST_ADD(w->arena, &step.sizes) =
            (struct told_size){i, other->count, parts_of(w, &others)};
    }
    share_parts(w, &step);
    if (step.sizes.count > 0 && heap->named != NULL)
        step.title = told_mirrored(w, heap)
                         ? say(w->arena, w->phrases, "part.mirrored", "name",
                               heap->named->name, NULL)
                         : heap->named->name;
    return step;
}

/* A heap is told where it is not made within the step of another one and is not
 * a further size of one; cut pieces have step 0. ensures: steps in the order of
 * sewing. */
struct told_steps tell_steps(const struct wording *w)
{
    struct told_steps steps = {.items = {0}};
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        if (heap->step > 0 && heap->within == i && heap->like == i)
            *LIST_ADD(w->arena, &steps.items) = tell_step(w, i);
    }
    return steps;
}

/* Squares sewn across corners are one move of the hands, whether the unit is a
 * goose, a square in a square or has a name of its own; unless a second way is
 * told of it, which would be lost. */
static bool flip_alike(const struct heap *a, const struct heap *b)
{
    if (a->actions.count == 0 || b->actions.count == 0)
        return false;
    const struct action *first = &a->actions.items[0];
    return first->operation->at_corner &&
           first->operation == b->actions.items[0].operation &&
           (telling_of(a)->other == NULL || first->other.faces.count == 0);
}

/* May a later step point back to an earlier one instead of showing all moves
 * again? The moves depend on technique and method alone, not on size or cloth.
 */
bool told_alike(const struct heap *a, const struct heap *b)
{
    const struct telling *telling = telling_of(a);
    return flip_alike(a, b) ||
           (a->technique == b->technique &&
            (telling->method == NULL ||
             telling->method(a) == telling->method(b)));
}

/* Corners and diagonals are one seam to a figure and need no number; only what
 * joins parts is counted. */
size_t seams_in(const struct heap *heap, const struct action *action)
{
    size_t count = 0;
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *one = &heap->actions.items[i];
        if (one == action)
            break;
        if (one->operation->laid != LAID_TOGETHER)
            count += one->seams.count;
    }
    return count;
}

bool are_mirrored(const struct heap *a, const struct heap *b)
{
    return a->named != NULL && a->named == b->named &&
           a->named_mirror != b->named_mirror &&
           rational_equal(a->factor, b->factor);
}
