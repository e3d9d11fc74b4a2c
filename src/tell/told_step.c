/* Steps from heaps: those that are sewn on the way to another belong to its
 * step. May assume heaps that are numbered. */
#include "told_step.h"

/* What a heap of the step takes; counts are of the whole quilt, as a sewer lays
 * out all of it. */
static void add_parts(const struct wording *w, struct told_step *step,
                      const struct heap *heap)
{
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const size_t part = heap->inputs.items[i].heap;
        bool known = w->quilt->heaps.items[part].step == step->number;
        for (size_t k = 0; k < step->parts.count; k++)
            known |= step->parts.items[k].heap == part;
        if (known)
            continue;
        size_t count = 0;
        for (size_t h = 0; h < step->heaps.count; h++) {
            const struct heap *taker =
                &w->quilt->heaps.items[step->heaps.items[h]];
            size_t in_one = 0;
            for (size_t k = 0; k < taker->inputs.count; k++)
                in_one += taker->inputs.items[k].heap == part;
            count += (in_one * taker->count + taker->yield - 1) / taker->yield;
        }
        *LIST_ADD(w->arena, &step->parts) = (struct told_part){part, count};
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

struct told_steps tell_steps(const struct wording *w)
{
    struct told_steps steps = {.items = {0}};
    const struct sewn_quilt *quilt = w->quilt;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->step == 0 || heap->within != i)
            continue;
        struct told_step *step = LIST_ADD(w->arena, &steps.items);
        *step = (struct told_step){.number = heap->step,
                                   .heap = i,
                                   .title = step_title(w, i),
                                   .count = heap->count};
        for (size_t k = 0; k <= i; k++)
            if (quilt->heaps.items[k].step == heap->step)
                *LIST_ADD(w->arena, &step->heaps) = k;
        for (size_t k = 0; k < step->heaps.count; k++)
            add_parts(w, step, &quilt->heaps.items[step->heaps.items[k]]);
    }
    return steps;
}

/* The corners of a heap have methods of their own; the first is told. */
static int method_of(const struct heap *heap)
{
    switch (heap->technique) {
    case TECHNIQUE_CORNERS:
        return (int)heap->inputs.items[1].method;
    case TECHNIQUE_HALF_SQUARE:
        return (int)heap->of.half_square.method;
    case TECHNIQUE_FLYING_GEESE:
        return (int)heap->of.flying_geese.method;
    case TECHNIQUE_SQUARE_IN_SQUARE:
        return (int)heap->of.square_in_square.method;
    case TECHNIQUE_QUARTER_SQUARE:
        return (int)heap->of.quarter_square.method;
    case TECHNIQUE_CUT:
    case TECHNIQUE_DIAGONAL:
    case TECHNIQUE_JOIN:
    case TECHNIQUE_BORDER:
        break;
    }
    return 0;
}

bool told_alike(const struct heap *a, const struct heap *b)
{
    return a->technique == b->technique && method_of(a) == method_of(b);
}
