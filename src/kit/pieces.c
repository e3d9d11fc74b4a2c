/* What is counted and not measured: fat quarters, which are cut from half
 * yards, and precuts, which are bought as pieces. */
#include "planner.h"

#include <math.h>

#include "sheets.h"
#include "trade.h"

/* ---- how many fat quarters hold the pieces of a fabric ---- */

/* A hundredth of what one list alone is worth: an order asks for hundreds. */
enum { QUARTERS_WORK = SHEET_WORK / 100 };

/* A strip that is joined with others is no piece of a fat quarter. ensures: 0
 * where one cannot lie on it, or numbers grow too large. */
static size_t plan_quarters(struct arena *arena,
                            const struct kit_fabric *fabric,
                            enum length_unit units, bool binding)
{
    const size_t count = fabric->pieces.count;
    struct roll_size *sizes = ARENA_ARRAY(arena, struct roll_size, count);
    struct rational width = rational_div(fabric->width, rational_whole(2));
    const struct rational height = trade_length(TRADE_FAT_QUARTER, units);
    int64_t unit = common_denominator(1, width);
    unit = common_denominator(unit, height);
    for (size_t i = 0; i < count; i++) {
        unit = common_denominator(unit, fabric->pieces.items[i].width);
        unit = common_denominator(unit, fabric->pieces.items[i].height);
    }
    if (unit == 0)
        return 0;
    size_t used = 0;
    for (size_t i = 0; i < count; i++) {
        const struct kit_piece *piece = &fabric->pieces.items[i];
        if (piece->binding && !binding)
            continue;
        if (piece->joined)
            return 0;
        sizes[used++] = (struct roll_size){
            in_units(piece->width, unit), in_units(piece->height, unit),
            piece->count, piece->turns, piece->label};
    }
    const struct sheet_problem problem = {.width = in_units(width, unit),
                                          .height = in_units(height, unit),
                                          .sizes = sizes,
                                          .count = used,
                                          .first = SHEET_CUT_EITHER};
    const struct sheet_plan *plan = plan_sheets(arena, &problem, QUARTERS_WORK);
    return plan == NULL ? 0 : plan->count;
}

/* Many lines may be of one quilt and colorway. */
size_t quarters_of(struct planner *planner, const struct kit_fabric *fabric,
                   enum length_unit units, bool binding)
{
    for (size_t i = 0; i < planner->quarters.count; i++)
        if (planner->quarters.items[i].fabric == fabric &&
            planner->quarters.items[i].binding == binding)
            return planner->quarters.items[i].count;
    struct arena *scratch = arena_create();
    const size_t count = plan_quarters(scratch, fabric, units, binding);
    arena_destroy(scratch);
    *LIST_ADD(planner->arena, &planner->quarters) =
        (struct quarters){fabric, binding, count};
    return count;
}

/* ---- where they come from ---- */

/* All that lies there of that cloth and kind, told in one element or in
 * several. */
static size_t on_shelf(const struct planner *planner,
                       const struct kits_cloth *cloth, enum sold_as kind)
{
    size_t count = 0;
    for (size_t i = 0; i < planner->order->pieces.count; i++) {
        const struct order_pieces *pieces = &planner->order->pieces.items[i];
        if (pieces->kind == kind && is_stock_of(pieces->of, cloth))
            count += pieces->count;
    }
    return count;
}

/* Half the width of usual cloth, so that wider cloth gives more of them: 42
 * gives two, 63 three, 108 five (derived). */
static size_t quarters_across(const struct planner *planner,
                              const struct kits_cloth *cloth)
{
    const struct rational width =
        rational_div(trade_length(TRADE_CLOTH_WIDTH, planner->order->units),
                     rational_whole(2));
    const int64_t across = rational_floor(rational_div(cloth->width, width));
    return across < 1 ? 0 : (size_t)across;
}

/* Fat quarters of a cloth that an order sells by length are cut from it; all
 * else is bought as it is. */
static bool is_cut_from_length(const struct kits_cloth *cloth,
                               enum sold_as kind)
{
    return kind == SOLD_FAT_QUARTER && cloth->stated != NULL &&
           cloth->sold != SELL_FAT_QUARTER;
}

/* reports: a cloth that is narrower than one of them. */
static void cut_pieces(struct planner *planner, size_t index,
                       struct kits_pieces *pieces, size_t wanted)
{
    const struct order *order = planner->order;
    const struct kits_cloth *cloth = &planner->kits->cloths.items[index];
    const struct rational height =
        trade_length(TRADE_FAT_QUARTER, order->units);
    pieces->each = quarters_across(planner, cloth);
    pieces->length = rational_add(height, order->over);
    if (pieces->each == 0) {
        const struct order_line *line =
            &order->lines.items[pieces->takers.items[0].line];
        struct diagnostic *d = diag_report(
            planner->run, DIAG_KIT_NARROW, line_span(line, ATTR_COLORWAY),
            "the cloth %s is %s wide: no fat quarter comes out of it",
            told_cloth(planner, cloth), told_length(planner, cloth->width));
        diag_help(planner->run, d,
                  "buy it as fat quarters: "
                  "sold=\"fat-quarter\"");
        return;
    }
    pieces->lengths = (wanted + pieces->each - 1) / pieces->each;
    pieces->cut = pieces->lengths * pieces->each;
    if (pieces->lengths > 0)
        add_cut(
            planner, index, CUT_TO_SHEETS, height,
            (struct kits_taker){.line = KITS_PIECES, .count = pieces->lengths});
}

/* Spare ones are counted over all lines together. The shelf serves first;
 * what half yards give beyond the need goes back to it. */
void plan_pieces(struct planner *planner, size_t index)
{
    struct kits_cloth *cloth = &planner->kits->cloths.items[index];
    for (size_t i = 0; i < cloth->pieces.count; i++) {
        struct kits_pieces *pieces = &cloth->pieces.items[i];
        pieces->spare = (size_t)rational_ceil(
            rational_times(planner->order->spare, (int64_t)pieces->needed));
        if (pieces->spare > 0)
            *LIST_ADD(planner->arena, &pieces->takers) =
                (struct kits_taker){.line = KITS_SPARE, .count = pieces->spare};
        pieces->shelf = on_shelf(planner, cloth, pieces->kind);
        const size_t all = pieces->needed + pieces->spare;
        const size_t wanted = all > pieces->shelf ? all - pieces->shelf : 0;
        if (is_cut_from_length(cloth, pieces->kind))
            cut_pieces(planner, index, pieces, wanted);
        else
            pieces->bought = wanted;
        pieces->left = pieces->shelf + pieces->cut + pieces->bought - all;
        if (cloth->sold == SELL_FAT_QUARTER &&
            pieces->kind == SOLD_FAT_QUARTER && cloth->stated != NULL &&
            rational_known(cloth->stated->price))
            pieces->price = cloth->stated->price;
    }
}

/* After all cuts of a length met, so that spare is rounded up once: ten
 * lines of two kits would else have ten spare cuts at five percent. */
void add_spare(struct planner *planner, size_t index)
{
    struct kits_cloth *cloth = &planner->kits->cloths.items[index];
    for (size_t i = 0; i < cloth->cuts.count; i++) {
        struct kits_cut *cut = &cloth->cuts.items[i];
        if (cut->kind == CUT_TO_SHEETS)
            continue; /* spare fat quarters were counted */
        cut->spare = (size_t)rational_ceil(
            rational_times(planner->order->spare, (int64_t)cut->count));
        cut->count += cut->spare;
        if (cut->spare > 0)
            *LIST_ADD(planner->arena, &cut->takers) =
                (struct kits_taker){.line = KITS_SPARE, .count = cut->spare};
    }
}
