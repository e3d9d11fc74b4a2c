/* The plan judged once more, from what it says alone: nothing here is shared
 * with the planning but numbers and their sums. Whatever does not add up is a
 * fault of the program and ends it before a file is written. */
#include <string.h>

#include "kits.h"

/* No place in a source is to blame, so this is no diagnostic. */
static void must(bool holds, const struct kits_cloth *cloth, const char *what)
{
    if (!holds)
        internal_error("kits: of the cloth `%s`, %s", cloth->name, what);
}

/* Counts are far below what a signed number holds. */
static struct rational times(struct rational value, size_t count)
{
    return rational_times(value, (int64_t)count);
}

/* An unknown value is not nothing. */
static bool is_nothing(struct rational value)
{
    return rational_known(value) && rational_sign(value) == 0;
}

/* ---- each roll ---- */

/* Runs lie one behind the other and end where they say. */
static void prove_runs(const struct kits_cloth *cloth,
                       const struct kits_roll *roll)
{
    struct rational at = roll->from;
    for (size_t i = 0; i < roll->runs.count; i++) {
        const struct kits_run *run = &roll->runs.items[i];
        must(run->cut < cloth->cuts.count && run->count > 0, cloth,
             "a run is of no cut");
        at = rational_add(
            at, times(cloth->cuts.items[run->cut].length, run->count));
        must(rational_equal(at, run->to), cloth, "a running length is off");
    }
    const struct rational used = rational_sub(at, roll->from);
    must(rational_equal(used, roll->used), cloth, "a roll's use is off");
    must(rational_equal(rational_add(used, roll->left), roll->length), cloth,
         "a roll's rest is off");
    must(rational_sign(roll->left) >= 0, cloth, "a roll is overfull");
}

/* What is cut lies on the bolt and on none of its flaws. */
static void prove_place(const struct kits_cloth *cloth,
                        const struct kits_roll *roll)
{
    const struct rational end = rational_add(roll->from, roll->length);
    if (roll->bolt == NULL) {
        if (cloth->sold == SELL_BOLT)
            must(rational_equal(end, cloth->step), cloth,
                 "a bolt that is bought has another length");
        else
            must(rational_equal(end, rational_round_up(end, cloth->step)),
                 cloth, "a bought length is no step of its cloth");
        return;
    }
    must(rational_compare(end, roll->bolt->length) <= 0, cloth,
         "a bolt of the shelf is too short");
    must(!rational_known(roll->bolt->width) ||
             rational_compare(roll->bolt->width, cloth->needed) >= 0,
         cloth, "a bolt of the shelf is too narrow");
    for (size_t i = 0; i < roll->bolt->flaws.count; i++) {
        const struct order_flaw *flaw = &roll->bolt->flaws.items[i];
        must(rational_compare(flaw->to, roll->from) <= 0 ||
                 rational_compare(flaw->from, end) >= 0,
             cloth, "a cut lies on a flaw");
    }
}

/* No two stretches of one bolt lie over each other. */
static void prove_apart(const struct kits_cloth *cloth, size_t index)
{
    const struct kits_roll *roll = &cloth->rolls.items[index];
    for (size_t i = 0; i < index && roll->bolt != NULL; i++) {
        const struct kits_roll *other = &cloth->rolls.items[i];
        if (other->bolt == roll->bolt)
            must(rational_compare(rational_add(other->from, other->length),
                                  roll->from) <= 0 ||
                     rational_compare(rational_add(roll->from, roll->length),
                                      other->from) <= 0,
                 cloth, "a bolt is cut twice");
    }
}

/* ---- each cut ---- */

/* Bound for a line, or KITS_SPARE or KITS_PIECES. */
static size_t cut_for(const struct kits_cloth *cloth, size_t cut, size_t line)
{
    size_t count = 0;
    for (size_t i = 0; i < cloth->rolls.count; i++)
        for (size_t k = 0; k < cloth->rolls.items[i].runs.count; k++) {
            const struct kits_run *run = &cloth->rolls.items[i].runs.items[k];
            if (run->cut == cut && run->line == line)
                count += run->count;
        }
    return count;
}

/* How many cuts of that length the bags of a line hold. */
static size_t held_by(const struct kits *kits, size_t line, size_t cloth,
                      const struct kits_cut *cut)
{
    size_t count = 0;
    const struct kits_line *of = &kits->lines[line];
    for (size_t i = 0; i < of->contents.count; i++) {
        const struct kits_content *content = &of->contents.items[i];
        if (content->cloth != cloth)
            continue;
        if (cut->kind == CUT_AS_YARDAGE)
            count += rational_equal(content->length, cut->told);
        for (size_t k = 0;
             cut->kind == CUT_AS_STRIP && k < content->strips.count; k++)
            if (rational_equal(content->strips.items[k].height, cut->told))
                count += content->strips.items[k].count;
    }
    return count * of->asked->kits;
}

/* Of a length for bags: each line gets what its kits hold. Spare: as the order
 * says, of all lines together. */
static void prove_cut(const struct kits *kits, size_t index, size_t number)
{
    const struct kits_cloth *cloth = &kits->cloths.items[index];
    const struct kits_cut *cut = &cloth->cuts.items[number];
    size_t asked = 0, lines = kits->order->lines.count;
    const bool for_bags =
        cut->kind == CUT_AS_YARDAGE || cut->kind == CUT_AS_STRIP;
    for (size_t i = 0; for_bags && i < cut->takers.count; i++) {
        const size_t line = cut->takers.items[i].line;
        bool first = line < lines;
        for (size_t k = 0; k < i; k++)
            first &= cut->takers.items[k].line != line;
        if (!first)
            continue;
        const size_t held = held_by(kits, line, index, cut);
        asked += held;
        must(cut_for(cloth, number, line) == held, cloth,
             "kits get another number of cuts");
    }
    if (!for_bags)
        asked = cut_for(cloth, number, KITS_PIECES);
    const struct rational spare = times(kits->order->spare, asked);
    const size_t wanted =
        cut->kind == CUT_TO_SHEETS ? 0 : (size_t)rational_ceil(spare);
    must(cut->spare == wanted, cloth, "the spare cuts are off");
    must(cut_for(cloth, number, KITS_SPARE) == wanted, cloth,
         "the spare cuts are not cut");
    must(cut->count == asked + wanted, cloth, "the number of cuts is off");
    const bool over = cut->kind == CUT_AS_YARDAGE || cut->kind == CUT_TO_SHEETS;
    must(rational_equal(cut->length,
                        over ? rational_add(cut->told, kits->order->over)
                             : cut->told),
         cloth, "a cut has another length than it is told");
}

/* Each content that is a length has a cut: those of all cuts were counted by
 * lines that take them. */
static void prove_taken(const struct kits *kits, size_t line)
{
    const struct kits_line *of = &kits->lines[line];
    for (size_t i = 0; i < of->contents.count; i++) {
        const struct kits_content *content = &of->contents.items[i];
        const struct kits_cloth *cloth = &kits->cloths.items[content->cloth];
        bool taken = rational_sign(content->length) == 0;
        for (size_t k = 0; k < cloth->cuts.count && !taken; k++)
            taken =
                cloth->cuts.items[k].kind == CUT_AS_YARDAGE &&
                rational_equal(cloth->cuts.items[k].told, content->length) &&
                cut_for(cloth, k, line) > 0;
        must(taken, cloth, "a length of a kit is cut nowhere");
    }
}

/* ---- pieces ---- */

/* Counted anew from what kits hold, what lies there, and what is cut into
 * half yards. */
static void prove_pieces(const struct kits *kits, size_t index,
                         const struct kits_pieces *pieces)
{
    const struct kits_cloth *cloth = &kits->cloths.items[index];
    size_t needed = 0, shelf = 0, lengths = 0;
    for (size_t i = 0; i < kits->order->lines.count; i++)
        for (size_t k = 0; k < kits->lines[i].contents.count; k++) {
            const struct kits_content *content =
                &kits->lines[i].contents.items[k];
            if (content->cloth == index && content->pieces > 0 &&
                content->kind == pieces->kind)
                needed += content->pieces * kits->lines[i].asked->kits;
        }
    const char *code = cloth->code[0] != '\0' ? cloth->code : cloth->name;
    for (size_t i = 0; i < kits->order->pieces.count; i++)
        if (kits->order->pieces.items[i].kind == pieces->kind &&
            strcmp(kits->order->pieces.items[i].of, code) == 0)
            shelf += kits->order->pieces.items[i].count;
    for (size_t i = 0; i < cloth->cuts.count; i++)
        if (cloth->cuts.items[i].kind == CUT_TO_SHEETS)
            lengths += cut_for(cloth, i, KITS_PIECES);
    must(pieces->needed == needed, cloth, "the pieces of kits are off");
    must(pieces->shelf == shelf, cloth, "the pieces of the shelf are off");
    must(pieces->kind != SOLD_FAT_QUARTER || pieces->lengths == lengths, cloth,
         "half yards are cut that nobody asked for");
    must(pieces->cut == pieces->lengths * pieces->each, cloth,
         "half yards give another number of fat quarters");
    must(pieces->shelf + pieces->cut + pieces->bought ==
             pieces->needed + pieces->spare + pieces->left,
         cloth, "the ledger of its pieces is off");
    must(pieces->spare ==
             (size_t)rational_ceil(times(kits->order->spare, pieces->needed)),
         cloth, "the spare pieces are off");
}

/* ---- kits that are cut ---- */

/* A bag's pieces of that size, in all kits. */
static size_t bagged(const struct kits *kits, size_t cloth,
                     const struct kits_size *size)
{
    size_t count = 0;
    for (size_t i = 0; i < kits->order->lines.count; i++)
        for (size_t k = 0; k < kits->lines[i].contents.count; k++) {
            const struct kits_content *content =
                &kits->lines[i].contents.items[k];
            for (size_t p = 0;
                 content->cloth == cloth && p < content->bag.count; p++) {
                const struct kits_bag_piece *piece = &content->bag.items[p];
                if (rational_equal(piece->width, size->width) &&
                    rational_equal(piece->height, size->height))
                    count += piece->count * kits->lines[i].asked->kits;
            }
        }
    return count;
}

/* How many sizes measure the same: they differ only in how they may lie. */
static size_t counted_alike(const struct kits_cutting *cutting,
                            const struct kits_size *size)
{
    size_t count = 0;
    for (size_t i = 0; i < cutting->sizes.count; i++)
        if (rational_equal(cutting->sizes.items[i].width, size->width) &&
            rational_equal(cutting->sizes.items[i].height, size->height))
            count += cutting->sizes.items[i].count;
    return count;
}

/* Each piece is as high as its strip, or lies the other way where it may. */
static void prove_strip(const struct kits_cloth *cloth,
                        const struct kits_strip *strip, size_t *made)
{
    struct rational along = rational_whole(0);
    for (size_t i = 0; i < strip->segments.count; i++) {
        const struct kits_segment *segment = &strip->segments.items[i];
        const struct kits_size *size =
            &cloth->cutting.sizes.items[segment->size];
        const bool as_is = rational_equal(segment->along, size->width) &&
                           rational_equal(strip->height, size->height);
        const bool turned = size->turns &&
                            rational_equal(segment->along, size->height) &&
                            rational_equal(strip->height, size->width);
        must(as_is || turned, cloth, "a piece does not lie in its strip");
        along = rational_add(along, times(segment->along, segment->count));
        made[segment->size] += segment->count * strip->repeat;
    }
    must(rational_compare(along, cloth->width) <= 0, cloth,
         "a strip is longer than its cloth is wide");
}

/* What the strips hold against what the bags hold; whole strips go into a
 * bag as they are. All strips must come from rolls. */
static void prove_cutting(const struct kits *kits, size_t index,
                          struct arena *scratch)
{
    const struct kits_cloth *cloth = &kits->cloths.items[index];
    const struct kits_cutting *cutting = &cloth->cutting;
    size_t *made = ARENA_ARRAY(scratch, size_t, cutting->sizes.count + 1);
    struct rational length = rational_whole(0);
    for (size_t i = 0; i < cutting->strips.count; i++) {
        const struct kits_strip *strip = &cutting->strips.items[i];
        prove_strip(cloth, strip, made);
        length = rational_add(length, times(strip->height, strip->repeat));
        for (size_t k = 0;
             strip->segments.count == 0 && k < cutting->sizes.count; k++)
            if (cutting->sizes.items[k].whole &&
                rational_equal(cutting->sizes.items[k].height, strip->height) &&
                cutting->sizes.items[k].count == strip->repeat &&
                made[k] == 0) {
                made[k] = strip->repeat;
                break;
            }
    }
    struct rational cut = rational_whole(0);
    for (size_t i = 0; i < cloth->cuts.count; i++)
        if (cloth->cuts.items[i].kind == CUT_TO_PIECES)
            cut = rational_add(cut, times(cloth->cuts.items[i].length,
                                          cut_for(cloth, i, KITS_PIECES)));
    must(rational_equal(cut, length), cloth, "strips are not all cut");
    for (size_t i = 0; i < cutting->sizes.count; i++) {
        const struct kits_size *size = &cutting->sizes.items[i];
        must(made[i] == size->count + size->surplus, cloth,
             "strips give another number of pieces");
        must(bagged(kits, index, size) == counted_alike(cutting, size), cloth,
             "bags hold another number of pieces");
    }
}

/* ---- the ledger ---- */

/* What the shelf had, less flaws that were cut out, and what was bought: all of
 * it went somewhere. */
static void prove_ledger(const struct kits *kits,
                         const struct kits_cloth *cloth)
{
    const struct kits_ledger *l = &cloth->ledger;
    struct rational in = rational_whole(0), out = in, ends = in;
    const char *code = cloth->code[0] != '\0' ? cloth->code : cloth->name;
    for (size_t i = 0; i < kits->order->bolts.count; i++)
        if (strcmp(kits->order->bolts.items[i].of, code) == 0)
            in = rational_add(in, kits->order->bolts.items[i].length);
    must(rational_equal(in, l->shelf), cloth, "the shelf of its ledger is off");
    size_t bought = 0;
    for (size_t i = 0; i < cloth->rolls.count; i++) {
        const struct kits_roll *roll = &cloth->rolls.items[i];
        out = rational_add(out, roll->used);
        if (roll->bolt != NULL)
            continue;
        bought++;
        in = rational_add(in, rational_add(roll->from, roll->length));
        out = rational_add(out, roll->from);
    }
    for (size_t i = 0; i < cloth->ends.count; i++)
        ends = rational_add(ends, cloth->ends.items[i].length);
    must(rational_equal(ends, l->left), cloth, "what is left is off");
    out =
        rational_add(rational_add(out, ends), rational_add(l->lost, l->flaws));
    must(rational_equal(in, out), cloth, "its ledger does not come out");
    const struct rational told =
        rational_add(rational_add(rational_add(l->kits, l->pieces),
                                  rational_add(l->spare, l->end_loss)),
                     rational_add(rational_add(l->flaws, l->lost), l->left));
    must(rational_equal(rational_add(l->shelf, l->bought), told), cloth,
         "its ledger is told with another sum");
    if (cloth->sold == SELL_BOLT)
        must(cloth->bought == bought, cloth, "bolts are bought or not");
}

/* ---- money ---- */

/* The sums that papers print, from the values that they print beside them. */
static void prove_money(const struct kits *kits)
{
    struct rational bought = rational_whole(0), cost = bought;
    for (size_t i = 0; i < kits->cloths.count; i++)
        bought = money_sum(bought, kits->cloths.items[i].cost);
    for (size_t i = 0; i < kits->order->lines.count; i++) {
        const struct kits_line *line = &kits->lines[i];
        struct rational kit = line->extras_cost;
        for (size_t k = 0; k < line->contents.count; k++)
            kit = money_sum(kit, line->contents.items[k].cost);
        if (rational_known(kit) && !rational_equal(kit, line->cost))
            internal_error("kits: the cost of line %zu is off", i + 1);
        cost = money_sum(cost, times(kit, line->asked->kits));
    }
    if (rational_known(bought) != rational_known(kits->bought_cost) ||
        (rational_known(bought) &&
         !is_nothing(rational_sub(bought, kits->bought_cost))))
        internal_error("kits: what is bought costs another sum");
    if (rational_known(cost) && !rational_equal(cost, kits->kits_cost))
        internal_error("kits: all kits cost another sum");
}

/* Each cloth by itself, then what goes across cloths. */
void prove_kits(const struct kits *kits)
{
    struct arena *scratch = arena_create();
    for (size_t i = 0; i < kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &kits->cloths.items[i];
        for (size_t k = 0; k < cloth->rolls.count; k++) {
            prove_runs(cloth, &cloth->rolls.items[k]);
            prove_place(cloth, &cloth->rolls.items[k]);
            prove_apart(cloth, k);
        }
        for (size_t k = 0; k < cloth->cuts.count; k++)
            prove_cut(kits, i, k);
        for (size_t k = 0; k < cloth->pieces.count; k++)
            prove_pieces(kits, i, &cloth->pieces.items[k]);
        prove_cutting(kits, i, scratch);
        prove_ledger(kits, cloth);
    }
    for (size_t i = 0; i < kits->order->lines.count; i++)
        prove_taken(kits, i);
    prove_money(kits);
    arena_destroy(scratch);
}
