/* From the cutting plan of a quilt to what one kit of it needs. Everything is
 * copied, since the pattern's memory goes when its facts are known. Read next:
 * plan.c. */
#include <math.h>
#include <string.h>

#include "kit_facts.h"
#include "trade.h"

/* What is gathered of one quilt in one colorway. */
struct gathering {
    struct arena *arena;
    const struct cutplan *plan;
    const struct design *design;
    struct kit_facts *facts;
};

/* Texts lie in the arena of the pattern, which goes. */
static const char *kept(const struct gathering *g, const char *text)
{
    return text == NULL ? "" : arena_copy(g->arena, text, strlen(text));
}

/* Colors come from six digits, so that rounding gives them back. */
static long color_of(double red, double green, double blue)
{
    return lround(red * 255) << 16 | lround(green * 255) << 8 |
           lround(blue * 255);
}

/* Nothing but binding is cut from it. */
static bool for_binding_alone(const struct fabric_plan *plan,
                              const struct strip *strip)
{
    for (size_t i = 0; i < strip->cuts.count; i++)
        if (plan->items.items[strip->cuts.items[i].item].use != CUT_BINDING)
            return false;
    for (size_t i = 0; i < strip->last.count; i++)
        if (plan->items.items[strip->last.items[i].item].use != CUT_BINDING)
            return false;
    return strip->cuts.count + strip->last.count > 0;
}

/* Strips across the cloth, and lengths that are cut along it; what is cut from
 * the rests of those takes no more cloth. */
static void gather_strips(const struct gathering *g,
                          const struct fabric_plan *plan,
                          struct kit_fabric *fabric)
{
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (plan->sheets.items[i].kind == SHEET_LENGTHWISE)
            *LIST_ADD(g->arena, &fabric->strips) =
                (struct kit_strips){.height = plan->sheets.items[i].height,
                                    .count = plan->sheets.items[i].repeat};
    for (size_t i = 0; i < plan->strips.count; i++)
        *LIST_ADD(g->arena, &fabric->strips) = (struct kit_strips){
            .height = plan->strips.items[i].height,
            .count = plan->strips.items[i].repeat,
            .binding = for_binding_alone(plan, &plan->strips.items[i])};
}

/* As the cutting page lists them, with the labels that go on the bags. */
static void gather_pieces(const struct gathering *g,
                          const struct fabric_plan *plan,
                          struct kit_fabric *fabric)
{
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        fabric->top |= item->use == CUT_PIECE || item->use == CUT_BORDER;
        *LIST_ADD(g->arena, &fabric->pieces) =
            (struct kit_piece){.label = kept(g, item->label),
                               .width = item->width,
                               .height = item->height,
                               .count = item->count,
                               .turns = item->turns,
                               .lengthwise = item->lengthwise,
                               .joined = item->joined,
                               .binding = item->use == CUT_BINDING,
                               .border = item->use == CUT_BORDER,
                               .trimmed = item->trimmed};
    }
}

/* How much of the width the widest strip takes. Whole strips are joined, so
 * that their lengths count on all of it. */
static struct rational width_taken(const struct fabric_plan *plan)
{
    struct rational spare = plan->strip_length;
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct rational left = strip_spare(plan, &plan->strips.items[i]);
        spare = rational_min(spare,
                             rational_known(left) ? left : rational_whole(0));
    }
    for (size_t i = 0; i < plan->sheets.count; i++) {
        if (plan->sheets.items[i].kind != SHEET_LENGTHWISE)
            continue;
        const struct rational left = width_spare(
            &plan->sheets.items[i], plan->sheets.items, plan->sheets.count);
        spare = rational_min(spare,
                             rational_known(left) ? left : rational_whole(0));
    }
    return rational_sub(plan->strip_length, spare);
}

/* The same plan without the strips that are cut for binding alone: so the
 * booklet's cutting still holds for what is in the bag. Rounded up as the
 * amount itself is. */
static struct rational amount_unbound(const struct gathering *g,
                                      const struct fabric_plan *plan,
                                      const struct kit_fabric *fabric)
{
    struct rational bound = rational_whole(0);
    for (size_t i = 0; i < fabric->strips.count; i++)
        if (fabric->strips.items[i].binding)
            bound = rational_add(
                bound, rational_times(fabric->strips.items[i].height,
                                      (int64_t)fabric->strips.items[i].count));
    if (!fabric->top && rational_equal(bound, plan->cut_height))
        return rational_whole(0);
    if (rational_sign(bound) == 0)
        return plan->bought;
    const struct rational cut =
        rational_add(rational_sub(plan->cut_height, bound), plan->allowance);
    const struct rational needed = rational_div(
        cut, rational_sub(rational_whole(1), plan->bolt->shrinkage));
    return rational_round_up(
        needed, trade_length(TRADE_SOLD_STEP, g->design->pattern->units));
}

/* What the colorway says of the cloth. The width is that between the
 * selvages, for a fat quarter, too. */
static void gather_bolt(const struct gathering *g, const struct bolt *bolt,
                        struct kit_fabric *fabric)
{
    fabric->letter = fabric_letter(g->arena, bolt->fabric);
    fabric->role = kept(g, g->design->fabrics.items[bolt->fabric].name);
    fabric->name = kept(g, bolt->name);
    fabric->code = kept(g, bolt->code);
    fabric->color = color_of(bolt->red, bolt->green, bolt->blue);
    fabric->sold = bolt->sold;
    fabric->width = bolt->width;
    fabric->price = bolt->price;
}

/* A fabric from which something is cut. */
static void gather_fabric(const struct gathering *g,
                          const struct fabric_plan *plan)
{
    struct kit_fabric *fabric = LIST_ADD(g->arena, &g->facts->fabrics);
    gather_bolt(g, plan->bolt, fabric);
    gather_pieces(g, plan, fabric);
    fabric->amount = fabric->amount_unbound = fabric->needed =
        rational_whole(0);
    fabric->sheets = plan->bought_sheets;
    if (plan->bolt->sold != SOLD_YARDAGE)
        return;
    gather_strips(g, plan, fabric);
    fabric->amount = plan->bought;
    fabric->amount_unbound = amount_unbound(g, plan, fabric);
    fabric->needed = width_taken(plan);
}

/* The place of a fabric among those that are used; one that only the backing
 * needs comes last. */
static size_t place_of(const struct gathering *g, const struct bolt *bolt)
{
    size_t place = 0;
    for (int i = 0; i < bolt->fabric; i++)
        place += g->plan->fabrics[i].items.count > 0;
    if (g->plan->fabrics[bolt->fabric].items.count > 0)
        return place;
    struct kit_fabric *fabric = LIST_ADD(g->arena, &g->facts->fabrics);
    gather_bolt(g, bolt, fabric);
    fabric->amount = fabric->amount_unbound = fabric->needed =
        rational_whole(0);
    return g->facts->fabrics.count - 1;
}

/* Backing, batting, binding. */
static void gather_finishing(const struct gathering *g)
{
    const struct cutplan *plan = g->plan;
    struct kit_facts *facts = g->facts;
    facts->batting = plan->batting_wanted;
    facts->batting_width = plan->batting_width;
    facts->batting_height = plan->batting_height;
    facts->binding = plan->binding.wanted;
    if (plan->binding.wanted)
        facts->binding_fabric =
            place_of(g, &plan->colorway->bolts[plan->binding.fabric]);
    facts->backing = plan->backing.wanted;
    facts->backing_amount = rational_whole(0);
    if (!plan->backing.wanted)
        return;
    facts->backing_fabric = place_of(g, plan->backing.bolt);
    if (!plan->backing.together)
        facts->backing_amount = plan->backing.bought;
}

/* A thread that nothing is stitched with is not bought. Lengths of quilting are
 * no exact numbers; they are rounded up here, once. */
static void gather_threads(const struct gathering *g)
{
    const struct quilting_plan *quilting = g->plan->quilting;
    if (quilting == NULL || quilting->told == NULL)
        return;
    const size_t threads = quilting->told->threads.count;
    const size_t colorway =
        (size_t)(g->plan->colorway - g->design->colorways.items);
    const enum length_unit units = g->design->pattern->units;
    const double factor =
        rational_double(length_factor(units, trade_shop_unit(units)));
    for (size_t i = 0; i < threads; i++) {
        const struct thread_dress *dress =
            &quilting->dresses[colorway * threads + i];
        const double length = quilting->amounts[i].bought * factor;
        if (length > 0)
            *LIST_ADD(g->arena, &g->facts->threads) = (struct kit_thread){
                .id = kept(g, quilting->told->threads.items[i].id),
                .name = kept(g, dress->name),
                .spools = dress->spools,
                .length = (int64_t)ceil(length)};
    }
}

/* The order of fabrics is that of the booklet, so that letters rise. */
static void gather(const struct gathering *g)
{
    const struct cutplan *plan = g->plan;
    const struct definition *quilt = plan->quilt->definition;
    *g->facts =
        (struct kit_facts){.pattern_id = kept(g, g->design->id),
                           .title = kept(g, g->design->title),
                           .quilt = kept(g, quilt->id),
                           .quilt_name = kept(g, quilt->name),
                           .colorway = kept(g, plan->colorway->id),
                           .colorway_name = kept(g, plan->colorway->name),
                           .units = g->design->pattern->units,
                           .width = plan->quilt->width,
                           .height = plan->quilt->height};
    for (size_t i = 0; i < g->design->fabrics.count; i++)
        if (plan->fabrics[i].items.count > 0)
            gather_fabric(g, &plan->fabrics[i]);
    gather_finishing(g);
    gather_threads(g);
    for (size_t i = 0; i < g->design->fabrics.count; i++) {
        const struct bolt *bolt = &plan->colorway->bolts[i];
        *LIST_ADD(g->arena, &g->facts->colors) =
            color_of(bolt->red, bolt->green, bolt->blue);
    }
}

/* Colorways of one quilt share its picture. */
static const struct kit_picture *picture_of(struct arena *arena,
                                            struct kit_facts_list *list,
                                            const struct sewn_quilt *quilt)
{
    for (size_t i = 0; i < list->pictures.count; i++)
        if (strcmp(list->pictures.items[i]->quilt, quilt->definition->id) == 0)
            return list->pictures.items[i];
    struct kit_picture *picture = kit_picture(arena, quilt);
    *LIST_ADD(arena, &list->pictures) = picture;
    return picture;
}

/* Quilts in their order, in each the colorways, as the plans stand. */
struct kit_facts_list *kit_facts(struct arena *arena,
                                 const struct cutplans *plans)
{
    struct kit_facts_list *list = ARENA_NEW(arena, struct kit_facts_list);
    for (size_t i = 0; i < plans->items.count; i++) {
        const struct gathering g = {arena, &plans->items.items[i],
                                    plans->sewn->sized->design,
                                    LIST_ADD(arena, &list->items)};
        gather(&g);
        g.facts->picture = picture_of(arena, list, g.plan->quilt);
    }
    return list;
}

/* Few quilts and colorways: a walk is enough. */
const struct kit_facts *kit_facts_find(const struct kit_facts_list *list,
                                       const char *quilt, const char *colorway)
{
    for (size_t i = 0; i < list->items.count; i++)
        if (strcmp(list->items.items[i].quilt, quilt) == 0 &&
            strcmp(list->items.items[i].colorway, colorway) == 0)
            return &list->items.items[i];
    return NULL;
}
