/* What is cut: pieces by fabric and size, borders, binding. Sizes are cut
 * sizes, seams and rounding included. An item's width lies along the strip once
 * strips.c has laid it. Pieces have their labels from sewing; what is added
 * here goes on counting. Read next: strips.c. */
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

/* Which units and blocks take the pieces of this heap. Each once, in the order
 * in which they are sewn. */
static void find_takers(struct cutter *cutter, size_t index,
                        struct cut_item *item)
{
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    bool *told = ARENA_ARRAY(cutter->run->arena, bool,
                             cutter->design->definitions.count);
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        bool takes = false;
        for (size_t k = 0; k < heap->inputs.count; k++)
            takes |= heap->inputs.items[k].heap == index;
        const struct definition *owner = heap->piece->owner;
        if (!takes || heap->count == 0 || told[owner->index])
            continue;
        told[owner->index] = true;
        *LIST_ADD(cutter->run->arena, &item->takers) = owner;
    }
}

/* Where no ruler cuts the size, the piece is cut to the next step and trimmed
 * to its unfinished size. */
static void tell_trimming(const struct cutter *cutter, const struct heap *heap,
                          struct cut_item *item)
{
    const struct rational seams = rational_times(cutter->pattern->seam, 2);
    const struct rational width = rational_add(heap->width, seams);
    const struct rational height = rational_add(heap->height, seams);
    item->trimmed = !rational_equal(width, heap->of.cut.width) ||
                    !rational_equal(height, heap->of.cut.height);
    item->trim_width = rational_max(width, height);
    item->trim_height = rational_min(width, height);
}

/* One item for each heap of cut pieces that something needs. */
static void add_pieces(struct cutter *cutter)
{
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique != TECHNIQUE_CUT || heap->count == 0)
            continue;
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
        item->count = heap->count;
        find_takers(cutter, i, item);
        tell_trimming(cutter, heap, item);
    }
}

/* By label, largest first, as the tables print them. A shorter label has the
 * smaller number, so A2 comes before A10. */
static void sort_pieces(struct fabric_plan *plan)
{
    for (size_t i = 1; i < plan->items.count; i++)
        for (size_t k = i; k > 0; k--) {
            struct cut_item *a = &plan->items.items[k - 1],
                            *b = &plan->items.items[k];
            const size_t left = strlen(a->label), right = strlen(b->label);
            if (left < right ||
                (left == right && strcmp(a->label, b->label) <= 0))
                break;
            const struct cut_item swap = *a;
            *a = *b;
            *b = swap;
        }
}

/* Labels of a fabric go on from its last piece. */
static struct cut_item *add_labelled(struct cutter *cutter, int fabric,
                                     enum cut_use use)
{
    struct fabric_plan *plan = plan_of(cutter, fabric);
    struct cut_item *item = LIST_ADD(cutter->run->arena, &plan->items);
    item->use = use;
    item->fabric = fabric;
    item->label = arena_printf(cutter->run->arena, "%s%zu",
                               fabric_letter(cutter->run->arena, fabric),
                               plan->items.count);
    return item;
}

/* Two borders or four from one long strip: what is longer than the cloth is
 * wide is cut from strips joined by diagonal seams; a join takes a strip's
 * width (common practice). */
static void add_joined_border(struct cutter *cutter, int fabric, size_t number,
                              const struct rational *lengths, size_t count,
                              struct rational width)
{
    const struct fabric_plan *plan = plan_of(cutter, fabric);
    struct cut_item *item = add_labelled(cutter, fabric, CUT_BORDER);
    struct rational total = rational_whole(0);
    for (size_t i = 0; i < count; i++) {
        *LIST_ADD(cutter->run->arena, &item->lengths) = lengths[i];
        total = rational_add(total, lengths[i]);
    }
    item->joined = true;
    item->border = number;
    item->width = plan->strip_length;
    item->height = width;
    item->count = strips_needed(total, plan->strip_length, width);
}

/* Two borders of one length, each in one piece: across the cloth, or along the
 * selvage. Sheets have no length to speak of, so there both are alike. */
static void add_plain_border(struct cutter *cutter, int fabric, size_t number,
                             enum border_part part, struct rational along,
                             struct rational across)
{
    struct cut_item *item = add_labelled(cutter, fabric, CUT_BORDER);
    item->border = number;
    item->part = part;
    item->width = along;
    item->height = across;
    item->count = 2;
    item->turns = !cutter->design->fabrics.items[fabric].one_way;
}

static void add_lengthwise_border(struct cutter *cutter, int fabric,
                                  size_t number, enum border_part part,
                                  struct rational length, struct rational width)
{
    add_plain_border(cutter, fabric, number, part, width, length);
    struct fabric_plan *plan = plan_of(cutter, fabric);
    struct cut_item *item = &plan->items.items[plan->items.count - 1];
    item->turns = false;
    item->lengthwise = plan->bolt->sold == SOLD_YARDAGE;
}

/* A one-way print must run up the sides as it runs up the top: the side
 * borders are cut along the length of the cloth, in one piece. */
static void add_one_way_border(struct cutter *cutter, int fabric, size_t number,
                               struct rational side, struct rational end,
                               struct rational width)
{
    const struct rational ends[2] = {end, end};
    add_lengthwise_border(cutter, fabric, number, BORDER_SIDES, side, width);
    if (rational_compare(end, plan_of(cutter, fabric)->strip_length) > 0)
        add_joined_border(cutter, fabric, number, ends, 2, width);
    else
        add_plain_border(cutter, fabric, number, BORDER_ENDS, end, width);
}

static void add_border(struct cutter *cutter, const struct sewn_border *border,
                       size_t number)
{
    const struct pattern *pattern = cutter->pattern;
    const int fabric = border->border->fabric;
    const struct rational side = cut_length(pattern, border->side_length);
    const struct rational end = cut_length(pattern, border->end_length);
    const struct rational width = cut_length(pattern, border->border->width);
    const struct rational all[4] = {side, side, end, end};
    if (cutter->design->fabrics.items[fabric].one_way) {
        add_one_way_border(cutter, fabric, number, side, end, width);
    } else if (border->border->lengthwise) {
        add_lengthwise_border(cutter, fabric, number, BORDER_SIDES, side,
                              width);
        add_lengthwise_border(cutter, fabric, number, BORDER_ENDS, end, width);
    } else if (rational_compare(rational_max(side, end),
                                plan_of(cutter, fabric)->strip_length) > 0) {
        add_joined_border(cutter, fabric, number, all, 4, width);
    } else {
        add_plain_border(cutter, fabric, number, BORDER_SIDES, side, width);
        add_plain_border(cutter, fabric, number, BORDER_ENDS, end, width);
    }
}

static void add_borders(struct cutter *cutter)
{
    const struct sewn_quilt *quilt = cutter->plan->quilt;
    for (size_t i = 0; i < quilt->borders.count; i++)
        add_border(cutter, &quilt->borders.items[i], i + 1);
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
    struct cut_item *item =
        add_labelled(cutter, quilt->binding_fabric, CUT_BINDING);
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
    add_borders(cutter);
    add_binding(cutter);
}
