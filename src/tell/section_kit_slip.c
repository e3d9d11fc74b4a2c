/* What lies in a kit, told to who opens it. No cost stands here. Read next:
 * section_kit_card.c. */
#include "kit_words.h"

/* The cloth stands in the first of its rows; pieces have its letter in their
 * labels. */
static void add_held(const struct kit_telling *t, struct told_table *table,
                     const struct kit_held *held, bool first)
{
    struct told_row *row = add_row(t->w, table);
    add_ticks(t, row, 1);
    if (held->content != NULL && first)
        add_kit_cloth(t, row, &t->kits->cloths.items[held->content->cloth],
                      held->content->letter);
    else
        add_words_cell(t->w, row, "");
    add_words_cell(t->w, row, held->what);
    add_words_cell(t->w, row, held->size);
    add_words_cell(t->w, row, say_count(t->w->arena, held->count));
}

/* All of one cloth, or all that is none. */
static void add_all(const struct kit_telling *t, struct told_table *table,
                    const struct kit_holding *holding)
{
    for (size_t i = 0; i < holding->items.count; i++)
        add_held(t, table, &holding->items.items[i], i == 0);
}

/* In the order of the letters, then what is no cloth. */
static struct told_table slip_table(const struct kit_telling *t, size_t line)
{
    static const char *const heads[] = {"materials.cloth", "kit.head-what",
                                        "kit.head-size", "kit.head-count"};
    const struct kits_line *of = &t->kits->lines[line];
    struct told_table table = {.columns = {0}};
    add_column(t->w, &table, COLUMN_WORDS, "");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        add_column(t->w, &table, i == 3 ? COLUMN_AMOUNT : COLUMN_WORDS,
                   say(t->w->arena, t->w->phrases, heads[i], NULL));
    for (size_t i = 0; i < of->contents.count; i++) {
        const struct kit_holding held =
            kit_content_held(t, &of->contents.items[i]);
        add_all(t, &table, &held);
    }
    const struct kit_holding things = kit_things_held(t, line);
    add_all(t, &table, &things);
    return table;
}

/* Local rules and the makers come first; nothing is promised. */
static void add_cautions(const struct kit_telling *t, struct contents *contents)
{
    static const char *const keys[] = {"kit.caution-bag", "kit.caution-sharp",
                                       "kit.caution-care", "kit.caution-rules"};
    struct texts texts = {.items = {0}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        texts_add(t->w, &texts,
                  say(t->w->arena, t->w->phrases, keys[i], NULL));
    add_heading(t->w, contents, PART_CAUTIONS,
                say(t->w->arena, t->w->phrases, "cautions.title", NULL));
    add_list(t->w, contents, PART_CAUTIONS, &texts);
}

/* Who opens the bag counts first; what must be bought yet comes behind that,
 * and how to handle it last. */
struct contents tell_kit_slip(const struct wording *w, const struct kits *kits,
                              size_t line)
{
    const struct kit_telling t = {w, kits};
    const struct kits_line *of = &kits->lines[line];
    const struct rational factor =
        length_factor(of->facts->units, kits->order->units);
    struct contents contents = {.items = {0}};
    add_title(w, &contents, of->facts->title,
              say(w->arena, w->phrases, "kit.slip-lead", "quilt",
                  of->facts->quilt_name, "colorway", of->facts->colorway_name,
                  "size",
                  kit_size(&t, rational_mul(of->facts->width, factor),
                           rational_mul(of->facts->height, factor)),
                  NULL));
    add_paragraph(w, &contents, PART_MAIN,
                  say(w->arena, w->phrases, "kit.slip-count", "count",
                      say_count(w->arena, of->asked->kits), "number",
                      say_count(w->arena, of->asked->number), NULL));
    add_table(w, &contents, PART_SLIP, slip_table(&t, line));
    const struct texts parts = kit_told_parts(&t, line);
    add_heading(w, &contents, PART_HELD,
                say(w->arena, w->phrases, "kit.in-and-out", NULL));
    add_list(w, &contents, PART_HELD, &parts);
    const struct texts fibers = kit_fibers(&t, line);
    if (fibers.items.count > 0) {
        add_heading(w, &contents, PART_FACTS,
                    say(w->arena, w->phrases, "kit.fibers", NULL));
        add_list(w, &contents, PART_FACTS, &fibers);
    }
    add_cautions(&t, &contents);
    return contents;
}
