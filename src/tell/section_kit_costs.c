/* What kits cost and what they leave, line by line. For the owner alone. Read
 * next: section_kit_cutting.c. */
#include "kit_words.h"

/* "–" where a price lacks: the sum below says so in words. */
static const char *money_or_dash(const struct kit_telling *t,
                                 struct rational value)
{
    return rational_known(value) ? kit_money(t, value) : "\u2013";
}

/* A margin needs a price and a cost. */
static const char *percent_or_dash(const struct kit_telling *t,
                                   struct rational part)
{
    return rational_known(part) ? kit_percent(t, part) : "\u2013";
}

/* Costs are those of one kit; only the last row is of all of them. */
static void add_line(const struct kit_telling *t, struct told_table *table,
                     size_t index)
{
    const struct kits_line *line = &t->kits->lines[index];
    struct told_row *row = add_row(t->w, table);
    add_words_cell(t->w, row, say_count(t->w->arena, line->asked->number));
    add_words_cell(t->w, row, kit_line_name(t, index));
    add_words_cell(t->w, row, say_count(t->w->arena, line->asked->kits));
    add_words_cell(t->w, row, money_or_dash(t, line->cloth_cost));
    add_words_cell(t->w, row, money_or_dash(t, line->extras_cost));
    add_words_cell(t->w, row, money_or_dash(t, line->cost));
    add_words_cell(t->w, row, money_or_dash(t, line->asked->price));
    add_words_cell(t->w, row, percent_or_dash(t, line->margin));
}

/* Sums of exact values, of all kits of all lines. */
static void add_all(const struct kit_telling *t, struct told_table *table)
{
    const struct kits *kits = t->kits;
    struct told_row *row = add_row(t->w, table);
    add_words_cell(t->w, row, "");
    add_words_cell(t->w, row,
                   say(t->w->arena, t->w->phrases, "kit.all-kits", NULL));
    add_words_cell(t->w, row, say_count(t->w->arena, kits->kit_count));
    add_words_cell(t->w, row, "");
    add_words_cell(t->w, row, "");
    add_words_cell(t->w, row, money_or_dash(t, kits->kits_cost));
    add_words_cell(t->w, row, money_or_dash(t, kits->kits_price));
    add_words_cell(
        t->w, row,
        percent_or_dash(
            t, rational_div(rational_sub(kits->kits_price, kits->kits_cost),
                            kits->kits_price)));
}

/* What was bought and is in no kit yet. */
static void add_unused(const struct kit_telling *t, struct contents *contents)
{
    const struct kits *kits = t->kits;
    const struct wording *w = t->w;
    if (!rational_known(kits->bought_cost) || !rational_known(kits->kits_cost))
        add_paragraph(w, contents, PART_COSTS,
                      say(w->arena, w->phrases, "kit.price-lacks", NULL));
    else
        add_paragraph(w, contents, PART_COSTS,
                      say(w->arena, w->phrases, "kit.cost-sums", "bought",
                          kit_money(t, kits->bought_cost), "kits",
                          kit_money(t, kits->kits_cost), NULL));
}

/* The cost is the strong column: what is sold below it is seen at once. */
struct contents tell_kit_costs(const struct wording *w, const struct kits *kits)
{
    static const char *const heads[] = {
        "kit.head-number", "kit.head-kit",    "kit.head-count",
        "kit.head-cloth",  "kit.head-extras", "kit.head-cost",
        "kit.head-price",  "kit.head-margin"};
    const struct kit_telling t = {w, kits};
    struct contents contents = {.items = {0}};
    struct told_table table = {.columns = {0}};
    add_title(w, &contents, kit_paper_title(w, KIT_PAPER_COSTS), kit_order_lead(w, kits));
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        add_column(w, &table,
                   i < 2    ? COLUMN_WORDS
                   : i == 5 ? COLUMN_AMOUNT
                            : COLUMN_NUMBER,
                   say(w->arena, w->phrases, heads[i], NULL));
    for (size_t i = 0; i < kits->order->lines.count; i++)
        add_line(&t, &table, i);
    add_all(&t, &table);
    add_table(w, &contents, PART_COSTS, table);
    add_unused(&t, &contents);
    add_paragraph(w, &contents, PART_COSTS,
                  say(w->arena, w->phrases, "kit.rounding", NULL));
    return contents;
}
