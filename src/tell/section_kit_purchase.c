/* What is bought for an order, and why less would not do. For the owner alone:
 * prices stand here. Read next: section_kit_costs.c. */
#include <stdlib.h>
#include <string.h>

#include "kit_words.h"
#include "trade.h"

/* ---- what is bought ---- */

/* Something that is bought: cloth by its length, or pieces of it. */
struct bought {
    const struct kits_cloth *cloth;
    const struct kits_pieces *pieces; /* NULL: by length */
    size_t place;                     /* in the order of the cloths */
};
struct bought_list {
    LIST(struct bought) items;
};

/* By supplier code; cloths without one last, each in the order of the lines. */
static int compare_bought(const void *first, const void *second)
{
    const struct bought *a = first, *b = second;
    const char *code = a->cloth->supplier, *other = b->cloth->supplier;
    if ((code[0] == '\0') != (other[0] == '\0'))
        return code[0] == '\0' ? 1 : -1;
    const int order = strcmp(code, other);
    return order != 0            ? order
           : a->place < b->place ? -1
                                 : a->place > b->place;
}

/* A cloth may be bought by length and as pieces: two rows. */
static struct bought_list all_bought(const struct kit_telling *t)
{
    struct bought_list list = {.items = {0}};
    for (size_t i = 0; i < t->kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &t->kits->cloths.items[i];
        if (cloth->bought > 0)
            *LIST_ADD(t->w->arena, &list.items) =
                (struct bought){cloth, NULL, list.items.count};
        for (size_t k = 0; k < cloth->pieces.count; k++)
            if (cloth->pieces.items[k].bought > 0)
                *LIST_ADD(t->w->arena, &list.items) =
                    (struct bought){cloth, &cloth->pieces.items[k],
                                    list.items.count};
    }
    if (list.items.count > 0)
        qsort(list.items.items, list.items.count, sizeof *list.items.items,
              compare_bought);
    return list;
}

/* ---- how it is sold ---- */

/* "5 bolts of 540 in"; lengths as a shop cuts them. */
static const char *amount_text(const struct kit_telling *t,
                               const struct bought *bought)
{
    struct arena *arena = t->w->arena;
    if (bought->pieces != NULL)
        return arena_printf(arena, "%zu\u00a0%s", bought->pieces->bought,
                            word_sheets(t->w, bought->pieces->kind,
                                        bought->pieces->bought));
    return bought->cloth->sold == SELL_BOLT
               ? say(arena, t->w->phrases, "kit.bolts", "count",
                     say_count(arena, bought->cloth->bought), "length",
                     kit_yardage(t, bought->cloth->step), NULL)
               : kit_yardage(t, bought->cloth->bought_length);
}

/* Prices of a step may be finer than what is paid for all of them. */
static const char *price_text(const struct kit_telling *t,
                              const struct bought *bought)
{
    static const char *const keys[] = {
        [SELL_BOLT] = "kit.per-bolt",
        [SELL_YARD] = "kit.per-yard",
        [SELL_HALF_YARD] = "kit.per-half-yard",
        [SELL_QUARTER_YARD] = "kit.per-quarter-yard",
        [SELL_METER] = "kit.per-meter",
        [SELL_TENTH_METER] = "kit.per-tenth-meter",
        [SELL_FAT_QUARTER] = "kit.per-piece",
        [SELL_PIECE] = "kit.per-piece"};
    const struct rational price = bought->pieces != NULL
                                      ? bought->pieces->price
                                      : bought->cloth->price;
    if (!rational_known(price))
        return "\u2013";
    const bool exact =
        rational_equal(money_rounded(t->kits->order, price), price);
    return say(t->w->arena, t->w->phrases,
               bought->pieces != NULL ? "kit.per-piece"
                                      : keys[bought->cloth->sold],
               "price",
               exact ? kit_money(t, price) : word_decimal(t->w, price, 4),
               NULL);
}

/* Unknown without a price. */
static struct rational cost_of(const struct bought *bought)
{
    return bought->pieces != NULL
               ? rational_times(bought->pieces->price,
                                (int64_t)bought->pieces->bought)
               : rational_times(bought->cloth->price,
                                (int64_t)bought->cloth->bought);
}

/* A dash stands where the order states nothing. */
static void add_bought(const struct kit_telling *t, struct told_table *table,
                       const struct bought *bought)
{
    struct told_row *row = add_row(t->w, table);
    add_ticks(t, row, 1);
    add_words_cell(t->w, row,
                   bought->cloth->supplier[0] == '\0'
                       ? "\u2013"
                       : bought->cloth->supplier);
    add_kit_cloth(t, row, bought->cloth, "");
    add_words_cell(t->w, row, amount_text(t, bought));
    add_words_cell(t->w, row, price_text(t, bought));
    const struct rational cost = cost_of(bought);
    add_words_cell(t->w, row,
                   rational_known(cost) ? kit_money(t, cost) : "\u2013");
}

/* The sum is of exact values, and says so below. */
static void add_purchase(const struct kit_telling *t, struct contents *contents)
{
    const struct wording *w = t->w;
    const struct bought_list list = all_bought(t);
    struct told_table table = {.columns = {0}};
    add_column(w, &table, COLUMN_WORDS, "");
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "kit.head-supplier", NULL));
    add_column(w, &table, COLUMN_CLOTH,
               say(w->arena, w->phrases, "materials.cloth", NULL));
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "materials.amount", NULL));
    add_column(w, &table, COLUMN_NUMBER,
               say(w->arena, w->phrases, "kit.head-price", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "kit.head-cost", NULL));
    for (size_t i = 0; i < list.items.count; i++)
        add_bought(t, &table, &list.items.items[i]);
    struct told_row *row = add_row(w, &table);
    add_words_cell(w, row, "");
    add_wide_cell(t, row, say(w->arena, w->phrases, "kit.all-cloth", NULL), 4);
    add_words_cell(w, row, kit_money(t, t->kits->bought_cost));
    add_table(w, contents, PART_PURCHASE, table);
    add_paragraph(w, contents, PART_PURCHASE,
                  say(w->arena, w->phrases, "kit.rounding", NULL));
}

/* ---- why not less ---- */

/* A cost in units of the plan: money, or a length where no price is known. */
static const char *merit_text(const struct kit_telling *t,
                              const struct kits_cloth *cloth, int64_t merit)
{
    return rational_known(cloth->per_length) || rational_known(cloth->price)
               ? kit_money(t, rational_times(cloth->coin, merit))
               : kit_length(t, rational_times(cloth->coin, merit));
}

/* What the plan claims, and no more. */
static const char *proof_text(const struct kit_telling *t,
                              const struct kits_cloth *cloth)
{
    if (cloth->bought == 0)
        return say(t->w->arena, t->w->phrases, "kit.shelf-does", NULL);
    if (cloth->proven[BOLT_COST])
        return say(t->w->arena, t->w->phrases, "kit.proved-cost", NULL);
    return say(t->w->arena, t->w->phrases, "kit.bound-cost", "bound",
               merit_text(t, cloth, cloth->bound[BOLT_COST]), NULL);
}

/* The ledger of the cloth, but for what is lost: the sheet of the bolts
 * tells that. */
static void add_reason(const struct kit_telling *t, struct told_table *table,
                       const struct kits_cloth *cloth)
{
    const struct kits_ledger *ledger = &cloth->ledger;
    struct told_row *row = add_row(t->w, table);
    add_kit_cloth(t, row, cloth, "");
    const struct rational sums[] = {rational_add(ledger->kits, ledger->pieces),
                                    ledger->spare, ledger->shelf,
                                    ledger->bought, ledger->left};
    for (size_t i = 0; i < sizeof sums / sizeof sums[0]; i++)
        add_words_cell(
            t->w, row,
            word_length_in(t->w, sums[i], t->kits->order->units));
    add_words_cell(t->w, row, proof_text(t, cloth));
}

/* Pieces are counted, so their ledger is one sentence. */
static void add_counted(const struct kit_telling *t, struct texts *texts,
                        const struct kits_cloth *cloth,
                        const struct kits_pieces *pieces)
{
    struct arena *arena = t->w->arena;
    const char *text = say(
        arena, t->w->phrases, "kit.counted", "cloth",
        kit_cloth_name(t, cloth), "pieces",
        word_sheets(t->w, pieces->kind, 2), "needed",
        say_count(arena, pieces->needed), "spare",
        say_count(arena, pieces->spare), "shelf",
        say_count(arena, pieces->shelf), "bought",
        say_count(arena, pieces->bought), "left",
        say_count(arena, pieces->left), NULL);
    if (pieces->lengths > 0)
        text = word_then(
            t->w, text,
            say(arena, t->w->phrases, "kit.counted-cut", "cut",
                say_count(arena, pieces->cut), "lengths",
                say_count(arena, pieces->lengths), "length",
                kit_length(t, pieces->length), "each",
                say_count(arena, pieces->each), NULL));
    texts_add(t->w, texts, text);
}

/* Below the list that is sent away: this part stays in the shop. */
static void add_reasons(const struct kit_telling *t, struct contents *contents)
{
    static const char *const heads[] = {"kit.head-kits",  "kit.head-spare",
                                        "kit.head-shelf", "kit.head-bought",
                                        "kit.head-left",  "kit.head-proof"};
    const struct wording *w = t->w;
    struct told_table table = {.columns = {0}};
    struct texts counted = {.items = {0}};
    add_column(w, &table, COLUMN_CLOTH,
               say(w->arena, w->phrases, "materials.cloth", NULL));
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        add_column(w, &table, i < 5 ? COLUMN_NUMBER : COLUMN_WORDS,
                   say(w->arena, w->phrases, heads[i], NULL));
    for (size_t i = 0; i < t->kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &t->kits->cloths.items[i];
        if (cloth->cuts.count > 0)
            add_reason(t, &table, cloth);
        for (size_t k = 0; k < cloth->pieces.count; k++)
            add_counted(t, &counted, cloth, &cloth->pieces.items[k]);
    }
    add_heading(w, contents, PART_REASONS,
                say(w->arena, w->phrases, "kit.reasons", NULL));
    add_paragraph(w, contents, PART_REASONS,
                  say(w->arena, w->phrases,
                      t->kits->order->units == UNIT_CM ? "kit.reasons-cm"
                                                       : "kit.reasons-in",
                      NULL));
    if (table.rows.count > 0)
        add_table(w, contents, PART_REASONS, table);
    if (counted.items.count > 0)
        add_list(w, contents, PART_REASONS, &counted);
}

/* What to buy first, why afterwards. */
struct contents tell_kit_purchase(const struct wording *w,
                                  const struct kits *kits)
{
    const struct kit_telling t = {w, kits};
    struct contents contents = {.items = {0}};
    add_title(w, &contents, kit_paper_title(w, KIT_PAPER_PURCHASE),
              kit_order_lead(w, kits));
    add_purchase(&t, &contents);
    add_reasons(&t, &contents);
    return contents;
}
