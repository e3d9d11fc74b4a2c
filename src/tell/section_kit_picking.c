/* What is fetched for an order, by shelf. Read next: section_kit_slip.c. */
#include "kit_words.h"

/* The count stands last and strong: it is what hands need. */
static void add_pick(const struct kit_telling *t, struct told_table *table,
                     const struct kits_cloth *cloth, const char *what,
                     size_t count, const char *length)
{
    struct told_row *row = add_row(t->w, table);
    add_ticks(t, row, 1);
    add_words_cell(t->w, row,
                   cloth->shelf[0] == '\0' ? "\u2013" : cloth->shelf);
    add_kit_cloth(t, row, cloth, "");
    add_words_cell(t->w, row, what);
    add_words_cell(t->w, row, length);
    add_words_cell(t->w, row, say_count(t->w->arena, count));
}

/* A bolt whose stretches between flaws are cut is fetched once. */
static bool fetched_before(const struct kits_cloth *cloth, size_t roll)
{
    for (size_t i = 0; i < roll; i++)
        if (cloth->rolls.items[i].bolt == cloth->rolls.items[roll].bolt)
            return true;
    return false;
}

/* Bolts of the shelf one by one, as each is another; new ones together. */
static void add_lengths(const struct kit_telling *t, struct told_table *table,
                        const struct kits_cloth *cloth)
{
    for (size_t i = 0; i < cloth->rolls.count; i++) {
        const struct kits_roll *roll = &cloth->rolls.items[i];
        if (roll->bolt != NULL && !fetched_before(cloth, i))
            add_pick(t, table, cloth, kit_roll_name(t, cloth, roll), 1,
                     kit_length(t, roll->bolt->length));
    }
    if (cloth->bought == 0)
        return;
    const bool bolts = cloth->sold == SELL_BOLT;
    add_pick(t, table, cloth,
             say(t->w->arena, t->w->phrases,
                 bolts ? "kit.pick-bolts" : "kit.pick-length", NULL),
             bolts ? cloth->bought : 1,
             kit_length(t, bolts ? cloth->step : cloth->bought_length));
}

/* As many as are taken of what lies there, and what is bought. */
static void add_pieces(const struct kit_telling *t, struct told_table *table,
                       const struct kits_cloth *cloth)
{
    for (size_t i = 0; i < cloth->pieces.count; i++) {
        const struct kits_pieces *pieces = &cloth->pieces.items[i];
        const size_t all = pieces->needed + pieces->spare;
        const size_t count =
            (all < pieces->shelf ? all : pieces->shelf) + pieces->bought;
        if (count > 0)
            add_pick(t, table, cloth, word_sheets(t->w, pieces->kind, count),
                     count, "");
    }
}

/* In the order of the shelves, so that nobody walks twice. */
struct contents tell_kit_picking(const struct wording *w,
                                 const struct kits *kits)
{
    static const char *const heads[] = {"kit.head-shelf-code",
                                        "materials.cloth", "kit.head-what",
                                        "kit.head-length", "kit.head-count"};
    const struct kit_telling t = {w, kits};
    struct contents contents = {.items = {0}};
    struct told_table table = {.columns = {0}};
    add_title(w, &contents, kit_paper_title(w, KIT_PAPER_PICKING),
              kit_order_lead(w, kits));
    add_column(w, &table, COLUMN_WORDS, "");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        add_column(w, &table,
                   i == 4   ? COLUMN_AMOUNT
                   : i == 3 ? COLUMN_NUMBER
                            : COLUMN_WORDS,
                   say(w->arena, w->phrases, heads[i], NULL));
    /* What lies somewhere is fetched first, the rest is looked for. */
    for (int nowhere = 0; nowhere < 2; nowhere++)
        for (size_t i = 0; i < kits->cloths.count; i++) {
            const struct kits_cloth *cloth =
                &kits->cloths.items[kits->picks[i]];
            if ((cloth->shelf[0] == '\0') != (nowhere == 1))
                continue;
            add_lengths(&t, &table, cloth);
            add_pieces(&t, &table, cloth);
        }
    add_table(w, &contents, PART_PICKS, table);
    add_paragraph(w, &contents, PART_PICKS,
                  say(w->arena, w->phrases, "kit.pick-note", NULL));
    return contents;
}
