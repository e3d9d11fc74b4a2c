/* Steps from heaps: those that are sewn on the way to another belong to its
 * step. May assume heaps that are numbered. */
#include "told_step.h"

#include "telling.h"

/* Parts of a step are few, so that a walk is quick enough. */
static bool has_part(const struct told_parts *parts, size_t heap)
{
    for (size_t i = 0; i < parts->items.count; i++)
        if (parts->items.items[i].heap == heap)
            return true;
    return false;
}

/* How many of a part all heaps on the way to `whole` take, for the whole quilt:
 * a sewer lays out all of it. */
static size_t taken_by(const struct wording *w, size_t whole, size_t part)
{
    size_t count = 0;
    for (size_t h = 0; h <= whole; h++) {
        const struct heap *taker = &w->quilt->heaps.items[h];
        size_t in_one = 0;
        if (heap_whole(w->quilt, h) != whole)
            continue;
        for (size_t k = 0; k < taker->inputs.count; k++)
            in_one += taker->inputs.items[k].heap == part;
        count += (in_one * taker->count + taker->yield - 1) / taker->yield;
    }
    return count;
}

/* What is brought to the step that ends in `whole`. */
static struct told_parts parts_of(const struct wording *w, size_t whole)
{
    struct told_parts parts = {.items = {0}};
    for (size_t h = 0; h <= whole; h++) {
        const struct heap *heap = &w->quilt->heaps.items[h];
        if (heap_whole(w->quilt, h) != whole)
            continue;
        for (size_t i = 0; i < heap->inputs.count; i++) {
            const size_t part = heap->inputs.items[i].heap;
            if (heap_whole(w->quilt, part) != whole && !has_part(&parts, part))
                *LIST_ADD(w->arena, &parts.items) =
                    (struct told_part){part, taken_by(w, whole, part)};
        }
    }
    return parts;
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

/* What makes one step: a heap, all on the way to it, and its other sizes. */
static struct told_step tell_step(const struct wording *w, size_t index)
{
    const struct sewn_quilt *quilt = w->quilt;
    const struct heap *heap = &quilt->heaps.items[index];
    struct told_step step = {.number = heap->step,
                             .heap = index,
                             .title = step_title(w, index),
                             .count = heap->count,
                             .parts = parts_of(w, index)};
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *other = &quilt->heaps.items[i];
        if (other->technique != TECHNIQUE_CUT &&
            heap_whole(w->quilt, i) == index)
            *LIST_ADD(w->arena, &step.heaps) = i;
        if (i != index && other->like == index && other->count > 0)
            *LIST_ADD(w->arena, &step.sizes) =
                (struct told_size){i, other->count, parts_of(w, i)};
    }
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

/* May a later step point back to an earlier one instead of showing all moves
 * again? The moves depend on technique and method alone, not on size or cloth.
 */
bool told_alike(const struct heap *a, const struct heap *b)
{
    const struct telling *telling = telling_of(a);
    return a->technique == b->technique &&
           (telling->method == NULL ||
            telling->method(a) == telling->method(b));
}
