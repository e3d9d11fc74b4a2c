/* How a kit is checked before it is closed: what is counted, and what a scale
 * can tell. Read next: section_kit_slip.c. */
#include "kit_words.h"

/* A weight stands only where the scale would show that one piece lacks; else it
 * would only look as if it had been checked. */
static const char *check_text(const struct kit_telling *t,
                              const struct kits_content *content)
{
    if (!content->weight_tells)
        return say(t->w->arena, t->w->phrases, "kit.count-only", NULL);
    return say(t->w->arena, t->w->phrases, "kit.weigh", "grams",
               word_decimal(t->w, content->grams, 1), "error",
               word_decimal(t->w, content->grams_error, 1), NULL);
}

/* The check stands beside the first row of a cloth, as all of it is weighed
 * together. */
static void add_counted(const struct kit_telling *t, struct told_table *table,
                        const struct kit_held *held, bool first)
{
    struct told_row *row = add_row(t->w, table);
    const struct kits_content *content = held->content;
    add_ticks(t, row, 1);
    if (content != NULL && first)
        add_kit_cloth(t, row, &t->kits->cloths.items[content->cloth],
                      content->letter);
    else
        add_words_cell(t->w, row, "");
    add_words_cell(t->w, row, held->what);
    add_words_cell(t->w, row, held->size);
    add_words_cell(t->w, row, say_count(t->w->arena, held->count));
    add_words_cell(t->w, row,
                   content != NULL && first ? check_text(t, content) : "");
}

/* Rows of one cloth follow each other without another between. */
static void add_holding(const struct kit_telling *t, struct told_table *table,
                        const struct kit_holding *holding)
{
    for (size_t i = 0; i < holding->items.count; i++)
        add_counted(t, table, &holding->items.items[i], i == 0);
}

/* All pieces of a bag, where it has several sizes: the sum is counted last. */
static void add_sum(const struct kit_telling *t, struct told_table *table,
                    const struct kits_content *content)
{
    if (content->bag.count + content->strips.count < 2)
        return;
    struct told_row *row = add_row(t->w, table);
    add_ticks(t, row, 1);
    add_words_cell(t->w, row, "");
    add_wide_cell(t, row,
                  say(t->w->arena, t->w->phrases, "kit.all-of", "letter",
                      content->letter, NULL),
                  2);
    add_words_cell(t->w, row,
                   say_count(t->w->arena, kit_pieces_of(content)));
    add_words_cell(t->w, row, "");
}

/* A table for each kind of kit, as they are packed one after the other. */
static void add_line(const struct kit_telling *t, struct contents *contents,
                     size_t line)
{
    static const char *const heads[] = {"materials.cloth", "kit.head-what",
                                        "kit.head-size", "kit.head-count",
                                        "kit.head-check"};
    const struct kits_line *of = &t->kits->lines[line];
    struct told_table table = {.columns = {0}};
    add_column(t->w, &table, COLUMN_WORDS, "");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        add_column(t->w, &table, i == 3 ? COLUMN_AMOUNT : COLUMN_WORDS,
                   say(t->w->arena, t->w->phrases, heads[i], NULL));
    for (size_t i = 0; i < of->contents.count; i++) {
        const struct kits_content *content = &of->contents.items[i];
        const struct kit_holding held = kit_content_held(t, content);
        add_holding(t, &table, &held);
        add_sum(t, &table, content);
    }
    const struct kit_holding things = kit_things_held(t, line);
    add_holding(t, &table, &things);
    add_heading(t->w, contents, PART_COUNT,
                say(t->w->arena, t->w->phrases, "kit.count-line", "name",
                    kit_line_name(t, line), "count",
                    say_count(t->w->arena, of->asked->kits), NULL));
    add_table(t->w, contents, PART_COUNT, table);
}

/* One sheet serves all kits of an order. */
struct contents tell_kit_count(const struct wording *w, const struct kits *kits)
{
    const struct kit_telling t = {w, kits};
    struct contents contents = {.items = {0}};
    add_title(w, &contents, kit_paper_title(w, KIT_PAPER_COUNT), kit_order_lead(w, kits));
    add_paragraph(w, &contents, PART_MAIN,
                  say(w->arena, w->phrases, "kit.count-note", NULL));
    for (size_t i = 0; i < kits->order->lines.count; i++)
        add_line(&t, &contents, i);
    return contents;
}
