/* Gathers every size that a booklet can print, to be compared with numbers that
 * were written by hand. A size too many only lets a stale number pass; one too
 * few would blame a right one. */
#include "known_sizes.h"

#include <stdlib.h>

/* Sizes that are not known, and noughts, are none. The order of finding is kept
 * with each, as sorting loses it. */
static void add(struct known_sizes *known, struct known_size size)
{
    if (!rational_known(size.width) || !rational_known(size.height) ||
        rational_sign(size.width) <= 0 || rational_sign(size.height) <= 0)
        return;
    size.order = known->items.count;
    *LIST_ADD(known->arena, &known->items) = size;
}

/* What has no name. */
static void add_rectangle(struct known_sizes *known, struct rational width,
                          struct rational height)
{
    add(known, (struct known_size){.width = width, .height = height});
}

/* One number, as of a strip or a seam. */
static void add_length(struct known_sizes *known, struct rational length)
{
    add(known,
        (struct known_size){.width = length, .height = length, .length = true});
}

/* Finished, and with the seams. */
static void add_sewn(struct known_sizes *known, const struct pattern *pattern,
                     struct rational width, struct rational height,
                     const char *owner)
{
    const struct rational seams = rational_times(pattern->seam, 2);
    add(known, (struct known_size){.width = rational_add(width, seams),
                                   .height = rational_add(height, seams),
                                   .owner = owner,
                                   .as = AS_UNFINISHED});
    add(known, (struct known_size){.width = width,
                                   .height = height,
                                   .owner = owner,
                                   .as = AS_FINISHED});
}

/* In all the sizes at which the quilt takes it. */
static void add_taken(struct known_sizes *known, const struct pattern *pattern,
                      const struct taken *taken, const char *owner, bool patch)
{
    for (size_t i = 0; i < taken->sizes.count; i++) {
        const struct taken_size *size = &taken->sizes.items[i];
        add_sewn(known, pattern, size->width, size->height, owner);
        if (patch)
            add(known,
                (struct known_size){.width = cut_length(pattern, size->width),
                                    .height = cut_length(pattern, size->height),
                                    .owner = owner,
                                    .as = AS_CUT});
    }
}

/* What has a name: a reference can stand for its size. */
static void add_named(struct known_sizes *known, const struct design *design,
                      const struct sewn_quilt *quilt)
{
    for (size_t i = 0; i < design->definitions.count; i++)
        add_taken(known, design->pattern,
                  definition_taken(quilt, design->definitions.items[i]),
                  design->definitions.items[i]->id, false);
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->id != NULL)
            add_taken(known, design->pattern, piece_taken(quilt, piece),
                      piece->id, piece->kind == PIECE_PATCH);
    }
}

/* All that is laid and sewn, named or not; the top after each border is a heap,
 * too. */
static void add_quilt(struct known_sizes *known, const struct pattern *pattern,
                      const struct sewn_quilt *quilt)
{
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        add_sewn(known, pattern, heap->width, heap->height, NULL);
        add_length(known, heap->factor); /* a square of its grid */
    }
    for (size_t i = 0; i < quilt->borders.count; i++) {
        const struct sewn_border *border = &quilt->borders.items[i];
        const struct rational width = border->border->width;
        add_sewn(known, pattern, width, border->side_length, NULL);
        add_sewn(known, pattern, width, border->end_length, NULL);
    }
}

/* How high, how much of the length is used, and what is cut from them. */
static void add_strips(struct known_sizes *known, const struct strip *strips,
                       size_t count)
{
    for (size_t i = 0; i < count; i++) {
        add_length(known, strips[i].height);
        add_length(known, strips[i].used);
        for (size_t k = 0; k < strips[i].cuts.count; k++)
            add_rectangle(known, strips[i].cuts.items[k].along,
                          strips[i].cuts.items[k].across);
    }
}

/* What is cut from one cloth, and how much of it is bought. */
static void add_cloth(struct known_sizes *known, const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        add_rectangle(known, item->width, item->height);
        for (size_t k = 0; k < item->lengths.count; k++)
            add_rectangle(known, item->height, item->lengths.items[k]);
    }
    add_strips(known, plan->strips.items, plan->strips.count);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        add_rectangle(known, sheet->width, sheet->height);
        add_strips(known, sheet->strips.items, sheet->strips.count);
    }
    if (plan->items.count == 0)
        return;
    add_length(known, plan->strip_length);
    add_length(known, plan->cut_height);
    add_length(known, plan->needed);
    add_length(known, plan->bought);
    add_length(known, plan->allowance);
    add_length(known, plan->reserve);
    add_rectangle(known, plan->bolt->width, plan->sheet_height);
    add_length(known, plan->bolt->width);
    add_length(known, plan->bolt->selvage);
}

/* What lies behind the top and around it. */
static void add_finishing(struct known_sizes *known, const struct cutplan *plan)
{
    const struct backing_plan *backing = &plan->backing;
    add_rectangle(known, backing->width, backing->height);
    add_length(known, backing->panel_length);
    add_length(known, backing->bought);
    add_rectangle(known, plan->batting_width, plan->batting_height);
    add_length(known, plan->batting_gap);
    add_length(known, plan->binding.width);
    /* Folded in half, as it is sewn on. */
    add_length(known, rational_div(plan->binding.width, rational_whole(2)));
    add_length(known, plan->binding.length);
    add_length(known, plan->binding.tail);
    /* How far they reach beyond the top, stated or not. */
    add_length(known,
               rational_div(rational_sub(backing->width, plan->quilt->width),
                            rational_whole(2)));
    add_length(known, rational_div(
                          rational_sub(plan->batting_width, plan->quilt->width),
                          rational_whole(2)));
}

/* What holds for the whole pattern. */
static void add_pattern(struct known_sizes *known,
                        const struct pattern *pattern)
{
    add_length(known, pattern->seam);
    add_length(known, rational_times(pattern->seam, 2));
    add_length(known, pattern->cutting_step);
    add_length(known, pattern->allowance);
}

/* Either way round is one size. The larger side is compared first, then the
 * smaller: so no size has to be turned before. */
static int compare_sizes(const struct known_size *a, const struct known_size *b)
{
    const int large = rational_compare(rational_max(a->width, a->height),
                                       rational_max(b->width, b->height));
    return large != 0 ? large
                      : rational_compare(rational_min(a->width, a->height),
                                         rational_min(b->width, b->height));
}

/* Equal sizes stay in the order in which they were found. */
static int compare_for_sort(const void *first, const void *second)
{
    const struct known_size *a = first, *b = second;
    const int size = compare_sizes(a, b);
    return size != 0 ? size : a->order < b->order ? -1 : 1;
}

/* Of equal ones the first that was found stays. That is one with a name where
 * there is such a one, as names are gathered before all else. */
static void drop_doubles(struct known_sizes *known)
{
    if (known->items.count == 0)
        return;
    qsort(known->items.items, known->items.count, sizeof *known->items.items,
          compare_for_sort);
    size_t kept = 1;
    for (size_t i = 1; i < known->items.count; i++)
        if (compare_sizes(&known->items.items[i],
                          &known->items.items[kept - 1]) != 0)
            known->items.items[kept++] = known->items.items[i];
    known->items.count = kept;
}

/* Of all quilts and colorways: a text does not say which booklet it is meant
 * for. Names come first, so that they stay where sizes are dropped. */
struct known_sizes find_known_sizes(struct arena *arena,
                                    const struct cutplans *plans)
{
    struct known_sizes known = {.arena = arena};
    const struct sewn *sewn = plans->sewn;
    const struct design *design = sewn->sized->design;
    for (size_t i = 0; i < sewn->quilts.count; i++)
        add_named(&known, design, &sewn->quilts.items[i]);
    for (size_t i = 0; i < sewn->quilts.count; i++)
        add_quilt(&known, design->pattern, &sewn->quilts.items[i]);
    for (size_t i = 0; i < plans->items.count; i++) {
        for (size_t k = 0; k < design->fabrics.count; k++)
            add_cloth(&known, &plans->items.items[i].fabrics[k]);
        add_finishing(&known, &plans->items.items[i]);
    }
    add_pattern(&known, design->pattern);
    drop_doubles(&known);
    return known;
}
