/* What is cut: pieces by fabric and size, borders, binding. Sizes are cut
 * sizes, seams and rounding included. An item's width lies along the strip once
 * strips.c has laid it. Pieces have their labels from sewing; what is added
 * here goes on counting. Read next: strips.c. */
#include <stdlib.h>
#include <string.h>

#include "cutter.h"

/* Derived: n pieces have n - 1 joins. 0 where no number of strips would do. */
size_t strips_needed(struct rational length, struct rational strip_length,
                     struct rational loss)
{
    /* n * strip - (n - 1) * loss >= length */
    const struct rational each = rational_sub(strip_length, loss);
    const struct rational needed =
        rational_div(rational_sub(length, loss), each);
    if (!rational_known(needed) || rational_sign(each) <= 0)
        return 0;
    const int64_t strips = rational_ceil(needed);
    return strips < 1 ? 1 : (size_t)strips;
}

/* By fabric index; measure_bolt has set every one. */
static struct fabric_plan *plan_of(struct cutter *cutter, int fabric)
{
    return &cutter->plan->fabrics[fabric];
}

/* Which heaps take which: `heaps` has the takers of heap i from `first[i]` up
 * to `first[i + 1]`, in their order, each once for each input. */
struct takers {
    size_t *first, *heaps;
    size_t *told; /* by definition: the heap that told it last, + 1 */
};

/* Counted, then filled in: one walk over all inputs each. */
static struct takers find_all_takers(const struct cutter *cutter)
{
    struct arena *arena = cutter->run->arena;
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    const size_t count = quilt->heaps.count;
    struct takers takers = {
        .first = ARENA_ARRAY(arena, size_t, count + 2),
        .told = ARENA_ARRAY(arena, size_t, cutter->design->definitions.count)};
    /* Two places further, as filling in moves each one on by its takers. */
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < quilt->heaps.items[i].inputs.count; k++)
            takers.first[quilt->heaps.items[i].inputs.items[k].heap + 2]++;
    for (size_t i = 2; i < count + 2; i++)
        takers.first[i] += takers.first[i - 1];
    takers.heaps = ARENA_ARRAY(arena, size_t, takers.first[count + 1] + 1);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < quilt->heaps.items[i].inputs.count; k++) {
            const size_t heap = quilt->heaps.items[i].inputs.items[k].heap;
            takers.heaps[takers.first[heap + 1]++] = i;
        }
    return takers;
}

/* How often all of this heap take one input. */
static size_t batches_of(const struct heap *heap)
{
    return (heap->count + heap->yield - 1) / heap->yield;
}

/* The unit, block or quilt that hands know the heap as: what is all of a block
 * that wraps it is that block. */
static const struct definition *maker_of(const struct heap *heap)
{
    const struct definition *owner = heap->piece->owner;
    for (size_t i = 0; i < heap->names.count; i++)
        if (heap->names.items[i].definition == owner && !heap_is(heap, owner))
            return heap->named;
    return owner;
}

/* Blocks that are one patch, told as takers of it. ensures: how many of the
 * pieces they are. */
static size_t add_whole_blocks(struct cutter *cutter, size_t index,
                               struct cut_item *item)
{
    const struct heap *heap = &cutter->plan->quilt->heaps.items[index];
    size_t count = 0;
    for (size_t i = 0; i < heap->names.count; i++) {
        const struct heap_name *name = &heap->names.items[i];
        if (name->count == 0 || name->definition->kind != DEFINE_BLOCK)
            continue;
        count += name->count;
        *LIST_ADD(cutter->run->arena, &item->takers) = name->definition;
    }
    return count;
}

/* Lies it at the corners of the border? Then that is told, each border once.
 * ensures: true where it does. */
static bool add_corners_of(const struct cutter *cutter, const struct heap *heap,
                           size_t index, struct cut_item *item)
{
    bool there = false;
    for (size_t i = BORDER_CORNER;
         heap->technique == TECHNIQUE_BORDER && i < heap->inputs.count; i++)
        there |= heap->inputs.items[i].heap == index;
    if (!there)
        return false;
    const size_t number = heap->of.border->number;
    const size_t told = item->corners_of.count;
    if (told == 0 || item->corners_of.items[told - 1] != number)
        *LIST_ADD(cutter->run->arena, &item->corners_of) = number;
    return true;
}

/* Which units and blocks take the pieces of this heap. Each once, in the order
 * in which they are sewn. The center is not told where it only takes blocks
 * that are one of them. */
static void find_takers(struct cutter *cutter, struct takers *takers,
                        size_t index, struct cut_item *item)
{
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    const size_t from = takers->first[index], to = takers->first[index + 1];
    const size_t blocks = add_whole_blocks(cutter, index, item);
    size_t center = 0;
    for (size_t i = from; i < to; i++) {
        const struct heap *heap = &quilt->heaps.items[takers->heaps[i]];
        if (heap->piece->owner == quilt->definition)
            center += batches_of(heap);
    }
    if (center <= blocks)
        takers->told[quilt->definition->index] = index + 1;
    for (size_t i = from; i < to; i++) {
        const struct heap *heap = &quilt->heaps.items[takers->heaps[i]];
        const struct definition *owner = maker_of(heap);
        if (add_corners_of(cutter, heap, index, item))
            continue;
        if (batches_of(heap) == 0 || takers->told[owner->index] == index + 1)
            continue;
        takers->told[owner->index] = index + 1;
        *LIST_ADD(cutter->run->arena, &item->takers) = owner;
    }
}

/* Where no ruler cuts the size, the piece is cut to the next step and trimmed
 * to its unfinished size. */
static void tell_trimming(const struct cutter *cutter, const struct heap *heap,
                          struct cut_item *item)
{
    const struct rational seams = rational_times(cutter->pattern->seam, 2);
    if (heap->of.cut.shape != PATCH_WHOLE ||
        !rational_is_fraction(heap->width) ||
        !rational_is_fraction(heap->height))
        return; /* trimmed when what it is part of is squared up */
    const struct rational width = rational_add(heap->width, seams);
    const struct rational height = rational_add(heap->height, seams);
    item->trimmed = !rational_equal(width, heap->of.cut.width) ||
                    !rational_equal(height, heap->of.cut.height);
    item->trim_width = rational_max(width, height);
    item->trim_height = rational_min(width, height);
}

/* Shapes go into the strips of their height; who takes one, takes of them. */
static void add_angled(struct cutter *cutter, struct takers *takers,
                       size_t index)
{
    struct cut_item found = {0};
    struct cut_item *item =
        add_shape(cutter, &cutter->plan->quilt->heaps.items[index]);
    find_takers(cutter, takers, index, &found);
    for (size_t i = 0; i < found.takers.count; i++) {
        bool there = false;
        for (size_t k = 0; k < item->takers.count; k++)
            there |= item->takers.items[k] == found.takers.items[i];
        if (!there)
            *LIST_ADD(cutter->run->arena, &item->takers) =
                found.takers.items[i];
    }
}

/* One item for each heap of cut pieces that something needs. */
static void add_pieces(struct cutter *cutter)
{
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    struct takers takers = find_all_takers(cutter);
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique != TECHNIQUE_CUT || heap->count == 0 ||
            heap->of.cut.border > 0)
            continue;
        if (patch_is_angled(heap->of.cut.shape)) {
            add_angled(cutter, &takers, i);
            continue;
        }
        struct fabric_plan *plan = plan_of(cutter, heap->of.cut.fabric);
        struct cut_item *item = LIST_ADD(cutter->run->arena, &plan->items);
        item->use = CUT_PIECE;
        item->label = heap->of.cut.label;
        item->fabric = heap->of.cut.fabric;
        /* The longer side first, unless the print keeps the piece upright. */
        item->turns =
            !cutter->design->fabrics.items[heap->of.cut.fabric].one_way;
        item->width =
            item->turns ? rational_max(heap->of.cut.width, heap->of.cut.height)
                        : heap->of.cut.width;
        item->height =
            item->turns ? rational_min(heap->of.cut.width, heap->of.cut.height)
                        : heap->of.cut.height;
        item->count = batches_of(heap);
        find_takers(cutter, &takers, i, item);
        tell_trimming(cutter, heap, item);
    }
}

/* A shorter label has the smaller number, so A2 comes before A10. */
static int compare_labels(const void *first, const void *second)
{
    const char *a = ((const struct cut_item *)first)->label;
    const char *b = ((const struct cut_item *)second)->label;
    const size_t left = strlen(a), right = strlen(b);
    return left != right ? (left < right ? -1 : 1) : strcmp(a, b);
}

/* By label, largest first, as the tables print them. */
static void sort_pieces(struct fabric_plan *plan)
{
    if (plan->items.count > 1)
        qsort(plan->items.items, plan->items.count, sizeof *plan->items.items,
              compare_labels);
}

static struct cut_item *add_item(struct cutter *cutter, int fabric,
                                 enum cut_use use, const char *label)
{
    struct cut_item *item =
        LIST_ADD(cutter->run->arena, &plan_of(cutter, fabric)->items);
    item->use = use;
    item->fabric = fabric;
    item->label = label;
    return item;
}

/* What is cut for one border: the lengths of its sides and ends, as cut. */
struct border_cut {
    const struct border *border;
    const char *labels[2]; /* one label where sides and ends are alike */
    struct rational lengths[2];
    struct rational width;
};

/* Strips from one long strip: what is longer than the cloth is wide is cut from
 * strips joined by diagonal seams, each of which takes a strip's width, or by
 * straight ones, each of which takes two seams (common practice). `first` is
 * the first of the lengths that are joined. */
static void add_joined_border(struct cutter *cutter,
                              const struct border_cut *cut, size_t first)
{
    const struct border *border = cut->border;
    const struct fabric_plan *plan = plan_of(cutter, border->fabric);
    const bool alike = cut->labels[0] == cut->labels[1];
    struct cut_item *item = add_item(
        cutter, border->fabric, CUT_BORDER,
        first == 1 || alike ? cut->labels[1]
                            : arena_printf(cutter->run->arena, "%s, %s",
                                           cut->labels[0], cut->labels[1]));
    struct rational total = rational_whole(0);
    for (size_t i = 2 * first; i < 4; i++) {
        *LIST_ADD(cutter->run->arena, &item->lengths) = cut->lengths[i / 2];
        total = rational_add(total, cut->lengths[i / 2]);
    }
    item->labels[0] = cut->labels[first];
    item->labels[1] = cut->labels[1];
    item->joined = true;
    item->straight = border->straight_joins;
    item->border = border->number;
    item->width = plan->strip_length;
    item->height = cut->width;
    const struct rational seam =
        item->straight ? rational_times(cutter->pattern->seam, 2) : cut->width;
    item->count = strips_needed(total, plan->strip_length, seam);
    item->joined_spare = rational_sub(
        rational_sub(rational_times(plan->strip_length, (int64_t)item->count),
                     rational_times(seam, (int64_t)item->count - 1)),
        total);
    if (rational_compare(plan->strip_length, plan->reserve) > 0)
        item->reserved_count = strips_needed(
            total, rational_sub(plan->strip_length, plan->reserve), seam);
}

/* Two strips of one length, each in one piece: across the cloth, or along the
 * selvage. Sheets have no length to speak of, so there both are alike. */
static struct cut_item *add_plain_border(struct cutter *cutter,
                                         const struct border_cut *cut,
                                         enum border_part part)
{
    const struct border *border = cut->border;
    const size_t ends = part == BORDER_ENDS;
    struct cut_item *item =
        add_item(cutter, border->fabric, CUT_BORDER, cut->labels[ends]);
    item->border = border->number;
    item->part = part;
    item->width = cut->lengths[ends];
    item->height = cut->width;
    item->count = part == BORDER_ALL ? 4 : 2;
    item->turns = !cutter->design->fabrics.items[border->fabric].one_way;
    return item;
}

/* Such a strip comes off the cloth before the top is measured, so it is cut
 * longer: what is too short stays so. */
static void add_lengthwise_border(struct cutter *cutter,
                                  const struct border_cut *cut,
                                  enum border_part part)
{
    struct cut_item *item = add_plain_border(cutter, cut, part);
    item->height = item->width;
    item->width = cut->width;
    item->turns = false;
    item->lengthwise =
        plan_of(cutter, item->fabric)->bolt->sold == SOLD_YARDAGE;
    if (item->lengthwise)
        item->height =
            rational_add(item->height, trade_length(TRADE_BORDER_SPARE,
                                                    cutter->pattern->units));
}

/* A one-way print must run up the sides as it runs up the top: the side
 * borders are cut along the length of the cloth, in one piece. */
static void add_one_way_border(struct cutter *cutter,
                               const struct border_cut *cut)
{
    add_lengthwise_border(cutter, cut, BORDER_SIDES);
    if (rational_compare(cut->lengths[1],
                         plan_of(cutter, cut->border->fabric)->strip_length) >
        0)
        add_joined_border(cutter, cut, 1);
    else
        add_plain_border(cutter, cut, BORDER_ENDS);
}

/* Sides and ends that are one heap are four of a kind. */
static void add_border(struct cutter *cutter, const struct sewn_border *sewn)
{
    const struct pattern *pattern = cutter->pattern;
    const struct border *border = sewn->border;
    const struct heap *heaps = cutter->plan->quilt->heaps.items;
    const struct border_cut cut = {
        border,
        {heaps[sewn->side].of.cut.label, heaps[sewn->end].of.cut.label},
        {cut_length(pattern, sewn->side_length),
         cut_length(pattern, sewn->end_length)},
        cut_length(pattern, border->width)};
    const bool alike = sewn->side == sewn->end;
    /* Mitred strips run round the quilt, and their print turns with them. */
    if (cutter->design->fabrics.items[border->fabric].one_way &&
        !border->mitred) {
        add_one_way_border(cutter, &cut);
    } else if (border->lengthwise) {
        add_lengthwise_border(cutter, &cut, alike ? BORDER_ALL : BORDER_SIDES);
        if (!alike)
            add_lengthwise_border(cutter, &cut, BORDER_ENDS);
    } else if (rational_compare(rational_max(cut.lengths[0], cut.lengths[1]),
                                plan_of(cutter, border->fabric)->strip_length) >
               0) {
        add_joined_border(cutter, &cut, 0);
    } else {
        add_plain_border(cutter, &cut, alike ? BORDER_ALL : BORDER_SIDES);
        if (!alike)
            add_plain_border(cutter, &cut, BORDER_ENDS);
    }
}

static void add_borders(struct cutter *cutter)
{
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    for (size_t i = 0; i < quilt->borders.count; i++)
        add_border(cutter, &quilt->borders.items[i]);
}

/* The number behind those of all pieces, border strips and panels of the
 * fabric. */
static const char *next_label(struct cutter *cutter, int fabric)
{
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    size_t number = 1;
    for (size_t i = 0; i < quilt->heaps.count; i++)
        number += quilt->heaps.items[i].count > 0 &&
                  heap_fabric(&quilt->heaps.items[i]) == fabric;
    const struct fabric_plan *plan = plan_of(cutter, fabric);
    for (size_t i = 0; i < plan->items.count; i++)
        number += plan->items.items[i].use == CUT_BACKING;
    return arena_printf(cutter->run->arena, "%s%zu",
                        fabric_letter(cutter->run->arena, fabric), number);
}

static const char *add_panels(struct cutter *cutter, struct rational width,
                              size_t count)
{
    const struct backing_plan *backing = &cutter->plan->backing;
    if (count == 0)
        return NULL;
    const char *label = next_label(cutter, backing->fabric);
    struct cut_item *item =
        add_item(cutter, backing->fabric, CUT_BACKING, label);
    item->width = width;
    item->height = backing->panel_length;
    item->count = count;
    item->lengthwise = true;
    return label;
}

/* Panels of backing that are bought with the top: along the cloth, whole widths
 * of it but for the last one. */
static void add_backing(struct cutter *cutter)
{
    struct backing_plan *backing = &cutter->plan->backing;
    if (!backing->wanted || !backing->together)
        return;
    const bool alike =
        rational_equal(backing->last_width, backing->bolt->width);
    const size_t wide = backing->panels - (alike ? 0 : 1);
    backing->labels[0] = add_panels(cutter, backing->bolt->width, wide);
    backing->labels[1] =
        add_panels(cutter, backing->last_width, backing->panels - wide);
    backing->bought = rational_whole(0);
}

/* Straight-grain binding, joined by diagonal seams: n strips of cloth give n *
 * width - (n - 1) * strip (derived), and a tail is needed. Double-fold, so the
 * strip's width is stated as cut. */
static void add_binding(struct cutter *cutter)
{
    const struct definition *quilt = cutter->plan->quilt->definition;
    struct binding_plan *binding = &cutter->plan->binding;
    if (quilt->binding == NULL || quilt->binding_fabric == NO_FABRIC)
        return;
    const struct fabric_plan *plan = plan_of(cutter, quilt->binding_fabric);
    const enum length_unit units = cutter->pattern->units;
    binding->wanted = true;
    binding->fabric = quilt->binding_fabric;
    binding->width = rational_known(quilt->binding_width)
                         ? quilt->binding_width
                         : trade_length(TRADE_BINDING, units);
    binding->tail = trade_length(TRADE_BINDING_TAIL, units);
    const struct rational perimeter = rational_times(
        rational_add(cutter->plan->quilt->width, cutter->plan->quilt->height),
        2);
    binding->length = rational_add(perimeter, binding->tail);
    binding->strips =
        strips_needed(binding->length, plan->strip_length, binding->width);
    struct cut_item *item = add_item(cutter, quilt->binding_fabric, CUT_BINDING,
                                     next_label(cutter, quilt->binding_fabric));
    item->joined = true;
    item->width = plan->strip_length;
    item->height = binding->width;
    item->count = binding->strips;
    *LIST_ADD(cutter->run->arena, &item->lengths) = binding->length;
    binding->item = plan_of(cutter, quilt->binding_fabric)->items.count - 1;
}

/* Pieces are sorted before borders and binding get the next numbers. */
void gather_items(struct cutter *cutter)
{
    add_pieces(cutter);
    for (size_t i = 0; i < cutter->design->fabrics.count; i++)
        sort_pieces(&cutter->plan->fabrics[i]);
    fill_shapes(cutter);
    add_borders(cutter);
    add_backing(cutter);
    add_binding(cutter);
}
