/* How the rolls of an order are cut, cloth by cloth: a bar to scale and its
 * cuts in their order, each with its running length from the roll's end. Rolls
 * that are cut alike are told once. Read next: section_kit_layers.c. */
#include "kit_cutting.h"

/* ---- rolls alike ---- */

/* Rolls in a row that are told together: new ones that are cut alike, or the
 * stretches of one bolt of the shelf, between its flaws. */
struct together {
    size_t first, count;
};

/* Who takes a cut counts, too: rolls that are cut alike for two lines are
 * told apart. */
static bool same_runs(const struct kits_roll *a, const struct kits_roll *b)
{
    if (a->runs.count != b->runs.count)
        return false;
    for (size_t i = 0; i < a->runs.count; i++) {
        const struct kits_run *one = &a->runs.items[i];
        const struct kits_run *other = &b->runs.items[i];
        if (one->cut != other->cut || one->line != other->line ||
            one->count != other->count)
            return false;
    }
    return rational_equal(a->from, b->from) &&
           rational_equal(a->length, b->length);
}

/* The plan has new rolls that are cut alike beside each other. */
static struct together rolls_together(const struct kits_cloth *cloth,
                                      size_t first)
{
    const struct kits_roll *rolls = cloth->rolls.items;
    struct together together = {first, 1};
    for (size_t i = first + 1; i < cloth->rolls.count; i++) {
        if (rolls[i].bolt != rolls[first].bolt ||
            (rolls[i].bolt == NULL && !same_runs(&rolls[first], &rolls[i])))
            break;
        together.count++;
    }
    return together;
}

/* All of it, with what is not used. */
static struct rational whole_length(const struct kits_roll *roll)
{
    return roll->bolt != NULL ? roll->bolt->length
                              : rational_add(roll->from, roll->length);
}

/* ---- the bar ---- */

/* An end that is cut off at once has no length, and is left out. */
static void add_stretch(const struct kit_telling *t, struct told_roll *bar,
                        enum told_stretch_kind kind, size_t count,
                        struct rational from, struct rational to,
                        const char *label)
{
    if (rational_compare(from, to) < 0)
        *LIST_ADD(t->w->arena, &bar->stretches) =
            (struct told_stretch){kind, count, from, to, label};
}

/* "5 × 81½", or "81½" for one. */
static const char *run_label(const struct kit_telling *t,
                             const struct kits_run *run,
                             const struct kits_cut *cut)
{
    const char *length =
        word_length_in(t->w, cut->length, t->kits->order->units);
    return run->count == 1 ? length
                           : arena_printf(t->w->arena,
                                          "%zu\u00a0\u00d7\u00a0%s", run->count,
                                          length);
}

/* Cuts one behind the other, then what is left. */
static void add_cuts(const struct kit_telling *t, struct told_roll *bar,
                     const struct kits_cloth *cloth,
                     const struct kits_roll *roll)
{
    struct rational at = roll->from;
    for (size_t i = 0; i < roll->runs.count; i++) {
        const struct kits_run *run = &roll->runs.items[i];
        add_stretch(t, bar, STRETCH_CUT, run->count, at, run->to,
                    run_label(t, run, &cloth->cuts.items[run->cut]));
        at = run->to;
    }
    add_stretch(t, bar, roll->kept ? STRETCH_KEPT : STRETCH_LOST, 1, at,
                rational_add(roll->from, roll->length),
                word_length_in(t->w, roll->left, t->kits->order->units));
}

/* ensures: the bar of a roll; of a bolt of the shelf with its flaws. */
static const struct told_roll *told_bar(const struct kit_telling *t,
                                        const struct kits_cloth *cloth,
                                        struct together rolls,
                                        struct rational longest)
{
    struct told_roll *bar = ARENA_NEW(t->w->arena, struct told_roll);
    const struct kits_roll *first = &cloth->rolls.items[rolls.first];
    *bar = (struct told_roll){.color = cloth->color,
                              .length = whole_length(first),
                              .longest = longest,
                              .begin = "0"};
    bar->end = kit_length(t, bar->length);
    if (first->bolt == NULL) {
        add_stretch(t, bar, STRETCH_LOST, 1, rational_whole(0), first->from,
                    "");
        add_cuts(t, bar, cloth, first);
        return bar;
    }
    for (size_t i = 0; i < rolls.count; i++)
        add_cuts(t, bar, cloth, first + i);
    for (size_t i = 0; i < first->bolt->flaws.count; i++)
        add_stretch(t, bar, STRETCH_FLAW, 1, first->bolt->flaws.items[i].from,
                    first->bolt->flaws.items[i].to, "");
    return bar;
}

/* ---- the table ---- */

/* One box for each roll that is cut so, as far as a row has room. */
static size_t boxes_of(size_t rolls)
{
    enum { BOXES_MOST = 12 };
    return rolls > BOXES_MOST ? 1 : rolls;
}

/* Ticked once for each roll that is cut so. */
static void add_run(const struct kit_telling *t, struct told_table *table,
                    const struct kits_cloth *cloth, const struct kits_run *run,
                    size_t rolls)
{
    const struct kits_cut *cut = &cloth->cuts.items[run->cut];
    struct told_row *row = add_row(t->w, table);
    add_ticks(t, row, boxes_of(rolls));
    add_words_cell(t->w, row,
                   arena_printf(t->w->arena, "%zu\u00a0\u00d7\u00a0%s",
                                run->count, kit_length(t, cut->length)));
    add_words_cell(t->w, row, kit_taker(t, run->line, cut->kind));
    add_words_cell(t->w, row, kit_length(t, run->to));
}

/* An end that comes out to nothing needs no row. Where it goes stands where
 * else the taker does. */
static void add_left(const struct kit_telling *t, struct told_table *table,
                     const struct kits_cloth *cloth,
                     const struct kits_roll *roll)
{
    struct arena *arena = t->w->arena;
    if (rational_sign(roll->left) == 0)
        return;
    const char *where =
        !roll->kept ? say(arena, t->w->phrases, "kit.end-lost", NULL)
        : cloth->shelf[0] == '\0'
            ? say(arena, t->w->phrases, "kit.end-kept", NULL)
            : say(arena, t->w->phrases, "kit.end-kept-at", "shelf",
                  cloth->shelf, NULL);
    struct told_row *row = add_row(t->w, table);
    add_ticks(t, row, 1);
    add_words_cell(t->w, row,
                   say(arena, t->w->phrases, "kit.end", "length",
                       kit_length(t, roll->left), NULL));
    add_words_cell(t->w, row, where);
    add_words_cell(t->w, row,
                   kit_length(t, rational_add(roll->from, roll->length)));
}

/* In the order of cutting; stretches of one bolt follow each other, as their
 * running lengths do. */
static struct told_table cuts_table(const struct kit_telling *t,
                                    const struct kits_cloth *cloth,
                                    struct together rolls)
{
    static const char *const heads[] = {"kit.head-cut", "kit.head-for",
                                        "kit.head-to"};
    struct told_table table = {.columns = {0}};
    add_column(t->w, &table, COLUMN_WORDS, "");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        add_column(t->w, &table, i == 2 ? COLUMN_AMOUNT : COLUMN_WORDS,
                   say(t->w->arena, t->w->phrases, heads[i], NULL));
    const struct kits_roll *first = &cloth->rolls.items[rolls.first];
    const bool alike = first->bolt == NULL;
    for (size_t k = 0; k < (alike ? 1 : rolls.count); k++) {
        for (size_t i = 0; i < first[k].runs.count; i++)
            add_run(t, &table, cloth, &first[k].runs.items[i],
                    alike ? rolls.count : 1);
        add_left(t, &table, cloth, &first[k]);
    }
    return table;
}

/* ---- a cloth ---- */

/* "New bolt 3", or "New bolts 3 to 39, each cut like this". */
static const char *caption_of(const struct kit_telling *t,
                              const struct kits_cloth *cloth,
                              struct together rolls)
{
    const struct kits_roll *first = &cloth->rolls.items[rolls.first];
    const char *length = kit_length(t, whole_length(first));
    if (first->bolt != NULL || rolls.count == 1)
        return say(t->w->arena, t->w->phrases, "kit.roll", "roll",
                   kit_roll_name(t, cloth, first), "length", length, NULL);
    return say(t->w->arena, t->w->phrases, "kit.rolls-alike", "first",
               say_count(t->w->arena, first->number), "last",
               say_count(t->w->arena, first[rolls.count - 1].number), "count",
               say_count(t->w->arena, rolls.count), "length", length, NULL);
}

/* What is claimed of the ends: that less cannot be lost, or how much must be.
 */
static const char *merits_text(const struct kit_telling *t,
                               const struct kits_cloth *cloth)
{
    struct arena *arena = t->w->arena;
    const char *lost = kit_length(
        t, rational_times(cloth->unit, cloth->merit[BOLT_LOST]));
    const char *bound = kit_length(
        t, rational_times(cloth->unit, cloth->bound[BOLT_LOST]));
    const char *first =
        cloth->proven[BOLT_LOST]
            ? say(arena, t->w->phrases, "kit.lost-proved", "lost", lost, NULL)
            : say(arena, t->w->phrases, "kit.lost-bound", "lost", lost, "bound",
                  bound, NULL);
    const char *opened =
        say_count(arena, (size_t)cloth->merit[BOLT_OPENED]);
    /* A merit that is met can be unproven, where one before it is. */
    if (cloth->merit[BOLT_OPENED] <= cloth->bound[BOLT_OPENED] &&
        !cloth->proven[BOLT_OPENED])
        return word_then(
            t->w, first,
            say(arena, t->w->phrases, "kit.opened", "opened", opened, NULL));
    return word_then(
        t->w, first,
        cloth->proven[BOLT_OPENED]
            ? say(arena, t->w->phrases, "kit.opened-proved", "opened", opened,
                  NULL)
            : say(arena, t->w->phrases, "kit.opened-bound", "opened", opened,
                  "bound",
                  say_count(arena, (size_t)cloth->bound[BOLT_OPENED]), NULL));
}

/* It is as wide as the page, so that the bars of a cloth have one scale. */
static struct rational longest_of(const struct kits_cloth *cloth)
{
    struct rational longest = rational_whole(0);
    for (size_t i = 0; i < cloth->rolls.count; i++)
        longest = rational_max(longest, whole_length(&cloth->rolls.items[i]));
    return longest;
}

/* A bar, and below it its cuts: the bar's words are its caption. */
static void add_rolls(const struct kit_telling *t, struct contents *contents,
                      const struct kits_cloth *cloth)
{
    const struct rational longest = longest_of(cloth);
    for (size_t i = 0; i < cloth->rolls.count;) {
        const struct together rolls = rolls_together(cloth, i);
        const char *caption = caption_of(t, cloth, rolls);
        add_figure(t->w, contents, PART_ROLLS,
                   (struct told_figure){
                       .drawing = DRAWING_ROLL,
                       .roll = told_bar(t, cloth, rolls, longest),
                       .caption = caption,
                       .told = say(t->w->arena, t->w->phrases, "kit.roll-told",
                                   "roll", caption, NULL)});
        add_table(t->w, contents, PART_ROLLS, cuts_table(t, cloth, rolls));
        i += rolls.count;
    }
}

/* No letter: in each quilt the cloth has another. */
void add_kit_heading(const struct kit_telling *t, struct contents *contents,
                     const struct kits_cloth *cloth, enum content_part part)
{
    const char *name = kit_cloth_name(t, cloth);
    add_heading(t->w, contents, part,
                cloth->shelf[0] == '\0'
                    ? name
                    : say(t->w->arena, t->w->phrases, "kit.at-shelf", "cloth",
                          name, "shelf", cloth->shelf, NULL));
    contents->items.items[contents->items.count - 1].as.heading.swatch =
        (struct told_swatch){true, cloth->color, ""};
}

/* Rules of the work, and how to read the bars. */
static void add_rules(const struct kit_telling *t, struct contents *contents)
{
    const struct order *order = t->kits->order;
    const struct wording *w = t->w;
    struct texts texts = {.items = {0}};
    texts_add(w, &texts, say(w->arena, w->phrases, "kit.how-to-cut", NULL));
    if (rational_sign(order->over) > 0)
        texts_add(w, &texts,
                  say(w->arena, w->phrases, "kit.over", "over",
                      kit_length(t, order->over), NULL));
    if (rational_sign(order->end_loss) > 0)
        texts_add(w, &texts,
                  say(w->arena, w->phrases, "kit.end-loss", "loss",
                      kit_length(t, order->end_loss), NULL));
    texts_add(w, &texts,
              say(w->arena, w->phrases, "kit.keep", "keep",
                  kit_length(t, order->keep), NULL));
    texts_add(w, &texts,
              say(w->arena, w->phrases, "kit.caution", "head",
                  say(w->arena, w->phrases, "cautions.cutter-head", NULL),
                  "text", say(w->arena, w->phrases, "cautions.cutter", NULL),
                  NULL));
    texts_add(w, &texts,
              say(w->arena, w->phrases, "kit.caution", "head",
                  say(w->arena, w->phrases, "cautions.makers-head", NULL),
                  "text", say(w->arena, w->phrases, "cautions.makers", NULL),
                  NULL));
    add_list(w, contents, PART_CAUTIONS, &texts);
}

/* Cloths that are only bought as pieces are not cut. */
struct contents tell_kit_cutting(const struct wording *w,
                                 const struct kits *kits)
{
    const struct kit_telling t = {w, kits};
    struct contents contents = {.items = {0}};
    add_title(w, &contents, kit_paper_title(w, KIT_PAPER_CUTTING),
              kit_order_lead(w, kits));
    add_rules(&t, &contents);
    for (size_t i = 0; i < kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &kits->cloths.items[i];
        if (cloth->rolls.count == 0)
            continue;
        add_kit_heading(&t, &contents, cloth, PART_ROLLS);
        add_paragraph(w, &contents, PART_ROLLS, merits_text(&t, cloth));
        add_rolls(&t, &contents, cloth);
        add_kit_layers(&t, &contents, cloth);
    }
    return contents;
}
