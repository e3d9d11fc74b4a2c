/* What becomes of all cloth that lies there or is bought, and what is left of
 * it for the next order. Read next: prove.c, which adds it up once more. */
#include "planner.h"

/* Has any part of the bolt been cut? */
static bool is_opened(const struct kits_cloth *cloth,
                      const struct order_bolt *bolt)
{
    for (size_t i = 0; i < cloth->rolls.count; i++)
        if (cloth->rolls.items[i].bolt == bolt)
            return true;
    return false;
}

/* The stretch that begins there, and not another one of the same bolt. */
static bool is_opened_at(const struct kits_cloth *cloth,
                         const struct order_bolt *bolt, struct rational from)
{
    for (size_t i = 0; i < cloth->rolls.count; i++)
        if (cloth->rolls.items[i].bolt == bolt &&
            rational_equal(cloth->rolls.items[i].from, from))
            return true;
    return false;
}

/* Told in the ledger and on the next shelf by one act, so that the two
 * agree. */
static void add_end(struct planner *planner, struct kits_cloth *cloth,
                    const struct order_bolt *bolt, struct rational length,
                    bool whole)
{
    if (rational_sign(length) <= 0)
        return;
    cloth->ledger.left = rational_add(cloth->ledger.left, length);
    *LIST_ADD(planner->arena, &cloth->ends) = (struct kits_end){
        .bolt = bolt,
        .length = length,
        .width = bolt == NULL ? rational_unknown() : bolt->width,
        .whole = whole};
}

/* Once a bolt is opened its flaws are cut out, and what lies between them goes
 * on as bolts of their own. */
static void part_bolt(struct planner *planner, struct kits_cloth *cloth,
                      const struct order_bolt *bolt)
{
    struct rational from = rational_whole(0);
    for (size_t i = 0; i <= bolt->flaws.count; i++) {
        const bool last = i == bolt->flaws.count;
        const struct rational to =
            last ? bolt->length : bolt->flaws.items[i].from;
        if (!is_opened_at(cloth, bolt, from))
            add_end(planner, cloth, bolt, rational_sub(to, from), false);
        if (last)
            return;
        cloth->ledger.flaws = rational_add(
            cloth->ledger.flaws, rational_sub(bolt->flaws.items[i].to, to));
        from = bolt->flaws.items[i].to;
    }
}

/* What is not opened lies there as it did. */
static void fill_shelf(struct planner *planner, struct kits_cloth *cloth)
{
    const struct order *order = planner->order;
    for (size_t i = 0; i < order->bolts.count; i++) {
        const struct order_bolt *bolt = &order->bolts.items[i];
        if (!is_stock_of(bolt->of, cloth))
            continue;
        cloth->ledger.shelf = rational_add(cloth->ledger.shelf, bolt->length);
        if (is_opened(cloth, bolt))
            part_bolt(planner, cloth, bolt);
        else
            add_end(planner, cloth, bolt, bolt->length, true);
    }
}

/* A bought roll comes in whole; its end loss lies before its first cut. What
 * is left is either kept or lost. */
static void fill_rolls(struct planner *planner, struct kits_cloth *cloth)
{
    struct kits_ledger *ledger = &cloth->ledger;
    for (size_t i = 0; i < cloth->rolls.count; i++) {
        const struct kits_roll *roll = &cloth->rolls.items[i];
        if (roll->bolt == NULL) {
            const struct rational whole =
                rational_add(roll->from, roll->length);
            ledger->bought = rational_add(ledger->bought, whole);
            ledger->end_loss = rational_add(ledger->end_loss, roll->from);
        }
        if (roll->kept)
            add_end(planner, cloth, roll->bolt, roll->left, false);
        else
            ledger->lost = rational_add(ledger->lost, roll->left);
    }
}

/* Cuts first, then what they came from: the proof adds both up apart. */
void fill_ledger(struct planner *planner, size_t index)
{
    struct kits_cloth *cloth = &planner->kits->cloths.items[index];
    struct kits_ledger *ledger = &cloth->ledger;
    const struct rational none = rational_whole(0);
    *ledger = (struct kits_ledger){none, none, none, none, none,
                                   none, none, none, none};
    for (size_t i = 0; i < cloth->cuts.count; i++) {
        const struct kits_cut *cut = &cloth->cuts.items[i];
        struct rational *into =
            cut->kind == CUT_TO_PIECES || cut->kind == CUT_TO_SHEETS
                ? &ledger->pieces
                : &ledger->kits;
        *into = rational_add(
            *into,
            rational_times(cut->length, (int64_t)(cut->count - cut->spare)));
        ledger->spare = rational_add(
            ledger->spare, rational_times(cut->length, (int64_t)cut->spare));
    }
    fill_shelf(planner, cloth);
    fill_rolls(planner, cloth);
    cloth->bought_length = ledger->bought;
}
