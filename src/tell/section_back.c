/* The back cover: what to buy for each size and colorway, how large the sizes
 * are, what is used, what is inside. Where colorways need different amounts of
 * a part, as cloth is sold in other forms or widths, both are told. */
#include <string.h>

#include "contents.h"
#include "quilting_words.h"
#include "told_cutting.h"
#include "words.h"

/* All plans of the pattern. */
struct market {
    const struct wording *w;
    const struct cutplans *all;
    size_t colorways, quilts;
};

/* Plans stand by quilt, then by colorway. */
static const struct cutplan *plan_of(const struct market *market, size_t quilt,
                                     size_t colorway)
{
    return &market->all->items.items[quilt * market->colorways + colorway];
}

/* ---- head ---- */

/* The width that all cloth has that is sold by its length; unknown where they
 * differ. */
static struct rational common_width(const struct design *design)
{
    struct rational width = {0};
    for (size_t c = 0; c < design->colorways.count; c++)
        for (size_t f = 0; f < design->fabrics.count; f++) {
            const struct bolt *bolt = &design->colorways.items[c].bolts[f];
            if (bolt->sold != SOLD_YARDAGE)
                continue;
            if (rational_known(width) && !rational_equal(width, bolt->width))
                return (struct rational){0};
            width = bolt->width;
        }
    return width;
}

/* What the widest line of all plans takes of the width. */
static struct rational needed_width(const struct market *market)
{
    struct rational most = rational_whole(0);
    for (size_t i = 0; i < market->all->items.count; i++)
        for (size_t f = 0; f < market->w->design->fabrics.count; f++) {
            const struct fabric_plan *plan =
                &market->all->items.items[i].fabrics[f];
            if (plan->bolt != NULL && plan->bolt->sold == SOLD_YARDAGE &&
                plan->items.count > 0)
                most = rational_max(most, width_needed(market->w, plan));
        }
    return most;
}

/* How large the sheets are that are bought by number; "" for none. Those of one
 * kind may differ in size with the width of their cloth. */
static const char *sheets_text(const struct market *market)
{
    const struct wording *w = market->w;
    struct texts texts = {.items = {0}};
    const char *all = "";
    for (size_t i = 0; i < market->all->items.count; i++)
        for (size_t f = 0; f < w->design->fabrics.count; f++) {
            const struct fabric_plan *plan =
                &market->all->items.items[i].fabrics[f];
            if (plan->items.count > 0 && plan->bolt->sold != SOLD_YARDAGE)
                texts_add_once(
                    w, &texts,
                    say(w->arena, w->phrases, "back.sheets", "sheets",
                        word_sheets(w, plan->bolt->sold, 2), "size",
                        word_sheet_size(w, plan), NULL));
        }
    for (size_t i = 0; i < texts.items.count; i++)
        all = word_then(w, all, texts.items.items[i]);
    return all;
}

/* What can be chosen, and how wide the fabric of the amounts is taken to be:
 * who buys narrower fabric must know that before the shop cuts it. */
static const char *lead_text(const struct market *market)
{
    const struct wording *w = market->w;
    const struct rational width = common_width(w->design);
    const char *choice = say(w->arena, w->phrases, "back.choice", "sizes",
                             say_count(w->arena, market->quilts), "colorways",
                             say_count(w->arena, market->colorways), NULL);
    const struct rational needed = needed_width(market);
    if (rational_known(width))
        choice = word_then(
            w, choice,
            say(w->arena, w->phrases,
                rational_sign(needed) > 0 ? "back.width-needed" : "back.width",
                "width", word_bought_length(w, width), "needed",
                word_bought_length(w, needed), NULL));
    return word_then(w, choice, sheets_text(market));
}

/* ---- the table ---- */

/* The first colorway stands for all: which fabrics a quilt has does not depend
 * on its cloth. */
static bool is_used(const struct market *market, size_t fabric)
{
    for (size_t i = 0; i < market->quilts; i++)
        if (plan_of(market, i, 0)->fabrics[fabric].items.count > 0)
            return true;
    return false;
}

/* A backing has a row of its own, whether or not the top has the fabric. */
static bool is_backing(const struct market *market, size_t fabric)
{
    for (size_t i = 0; i < market->quilts; i++)
        if (plan_of(market, i, 0)->backing.wanted &&
            plan_of(market, i, 0)->backing.fabric == (int)fabric)
            return true;
    return false;
}

/* What is bought of a fabric for the top, or as backing; "" for none. */
static const char *amount_of(const struct market *market, size_t quilt,
                             size_t colorway, size_t fabric, bool backing)
{
    const struct wording *w = market->w;
    const struct cutplan *plan = plan_of(market, quilt, colorway);
    if (!backing)
        return plan->fabrics[fabric].items.count == 0
                   ? ""
                   : word_amount(w, &plan->fabrics[fabric]);
    return plan->backing.wanted && plan->backing.fabric == (int)fabric
               ? word_backing_amount(w, &plan->backing)
               : "";
}

/* The amount of the first colorway for one quilt, and those that differ. */
static void add_amounts(const struct market *market, struct told_row *row,
                        size_t quilt, size_t fabric, bool backing)
{
    const struct wording *w = market->w;
    const char *first = amount_of(market, quilt, 0, fabric, backing);
    struct told_cell *cell = add_words_cell(w, row, first);
    for (size_t i = 1; i < market->colorways; i++) {
        const char *amount = amount_of(market, quilt, i, fabric, backing);
        if (strcmp(amount, first) != 0)
            *LIST_ADD(w->arena, &cell->others) =
                say(w->arena, w->phrases, "back.other", "colorway",
                    w->design->colorways.items[i].name, "amount", amount, NULL);
    }
}

/* A cloth for each colorway, an amount for each size. */
static void add_fabric(const struct market *market, struct told_table *table,
                       size_t fabric, bool backing)
{
    const struct wording *w = market->w;
    struct told_row *row = add_row(w, table);
    add_words_cell(w, row,
                   backing ? say(w->arena, w->phrases, "back.backing", NULL)
                           : w->design->fabrics.items[fabric].name);
    for (size_t i = 0; i < market->colorways; i++)
        add_cloth_cell(w, row, &w->design->colorways.items[i], (int)fabric);
    for (size_t i = 0; i < market->quilts; i++)
        add_amounts(market, row, i, fabric, backing);
}

/* Batting has no color: its words take the place of all cloths. */
static void add_batting(const struct market *market, struct told_table *table,
                        const char *words)
{
    const struct wording *w = market->w;
    bool wanted = false;
    for (size_t i = 0; i < market->quilts; i++)
        wanted |= plan_of(market, i, 0)->batting_wanted;
    if (!wanted)
        return;
    struct told_row *row = add_row(w, table);
    add_words_cell(w, row,
                   say(w->arena, w->phrases, "materials.batting", NULL));
    add_words_cell(w, row, words)->more = market->colorways - 1;
    for (size_t i = 0; i < market->quilts; i++) {
        const struct cutplan *plan = plan_of(market, i, 0);
        add_words_cell(
            w, row,
            plan->batting_wanted
                ? word_bought_size(w, plan->batting_width, plan->batting_height)
                : "");
    }
}

/* ---- threads of the quilting ---- */

/* The number of a thread of this name in the quilting of a quilt; how many it
 * has, where it has none of that name. */
static size_t thread_of(const struct quilting_plan *quilting, const char *id)
{
    size_t i = 0;
    while (i < quilting->told->threads.count &&
           strcmp(quilting->told->threads.items[i].id, id) != 0)
        i++;
    return i;
}

/* How much of a thread is bought; "" where the quilt takes none of it. */
static const char *thread_amount(const struct market *market, size_t quilt,
                                 size_t colorway, const char *id)
{
    const struct quilting_plan *quilting =
        plan_of(market, quilt, colorway)->quilting;
    const size_t i = quilting == NULL ? 0 : thread_of(quilting, id);
    return quilting == NULL || i == quilting->told->threads.count ||
                   quilting->amounts[i].bought == 0.0
               ? ""
               : word_thread_length(market->w, quilting->amounts[i].bought);
}

/* Its color in each colorway and its length for each size. `quilt` is one that
 * has the thread. */
static void add_thread(const struct market *market, struct told_table *table,
                       size_t quilt, size_t thread)
{
    const struct wording *w = market->w;
    const char *id = plan_of(market, quilt, 0)
                         ->quilting->told->threads.items[thread]
                         .id;
    struct told_row *row = add_row(w, table);
    add_words_cell(w, row,
                   say(w->arena, w->phrases, "materials.thread", "thread", id,
                       NULL));
    for (size_t c = 0; c < market->colorways; c++)
        add_words_cell(
            w, row,
            word_thread_color(w, plan_of(market, quilt, c)->quilting, c,
                              thread));
    for (size_t q = 0; q < market->quilts; q++)
        add_words_cell(w, row, thread_amount(market, q, 0, id));
}

/* Each thread once, though several quilts stitch with it. Colorways differ in
 * its color alone, as all take the same lines. */
static void add_threads(const struct market *market, struct told_table *table)
{
    struct texts told = {.items = {0}};
    for (size_t q = 0; q < market->quilts; q++) {
        const struct quilting_plan *quilting = plan_of(market, q, 0)->quilting;
        for (size_t i = 0;
             quilting != NULL && i < quilting->told->threads.count; i++) {
            const char *id = quilting->told->threads.items[i].id;
            const size_t before = told.items.count;
            if (quilting->amounts[i].bought == 0.0)
                continue;
            texts_add_once(market->w, &told, id);
            if (told.items.count > before)
                add_thread(market, table, q, i);
        }
    }
}

/* Cloth of the tops first, then backings, then batting and threads. */
static struct told_table table_of(const struct market *market,
                                  const char *batting)
{
    struct told_table table = {.rows = {0}};
    const struct wording *w = market->w;
    const size_t fabrics = w->design->fabrics.count;
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "back.part", NULL));
    for (size_t i = 0; i < market->colorways; i++)
        add_column(w, &table, COLUMN_CLOTH, w->design->colorways.items[i].name);
    for (size_t i = 0; i < market->quilts; i++)
        add_column(w, &table, COLUMN_AMOUNT,
                   plan_of(market, i, 0)->quilt->definition->name);
    for (size_t f = 0; f < fabrics; f++)
        if (is_used(market, f))
            add_fabric(market, &table, f, false);
    for (size_t f = 0; f < fabrics; f++)
        if (is_backing(market, f))
            add_fabric(market, &table, f, true);
    add_batting(market, &table, batting);
    add_threads(market, &table);
    return table;
}

/* ---- below the table ---- */

static void add_sizes(const struct market *market, struct contents *contents,
                      const struct colorway *colorway)
{
    const struct wording *w = market->w;
    add_heading(w, contents, PART_SIZES,
                say(w->arena, w->phrases, "back.sizes", "count",
                    say_count(w->arena, market->quilts), NULL));
    for (size_t i = 0; i < market->quilts; i++) {
        const struct sewn_quilt *quilt = &market->all->sewn->quilts.items[i];
        const char *text =
            say(w->arena, w->phrases, "glance.size", "name",
                quilt->definition->name, "size",
                word_size_unit(w, quilt->width, quilt->height), NULL);
        add_figure(w, contents, PART_SIZES,
                   (struct told_figure){.drawing = DRAWING_QUILT,
                                        .quilt = quilt,
                                        .colorway = colorway,
                                        .caption = text,
                                        .told = text});
    }
}

/* A quilt of plain patches has no technique to name; then the tools stand
 * alone. */
static void add_lists(const struct wording *w, struct contents *contents)
{
    const struct texts used = techniques_used(w), tools = tools_needed(w);
    if (used.items.count > 0) {
        add_heading(w, contents, PART_TECHNIQUES,
                    say(w->arena, w->phrases, "back.techniques", NULL));
        add_list(w, contents, PART_TECHNIQUES, &used);
    }
    add_heading(w, contents, PART_TOOLS,
                say(w->arena, w->phrases, "glance.tools", NULL));
    add_list(w, contents, PART_TOOLS, &tools);
    add_heading(w, contents, PART_SECTIONS,
                say(w->arena, w->phrases, "back.contents", NULL));
    add_sections(w, contents);
}

/* What the booklet is, for who sees its back first. */
static void add_imprint(const struct wording *w, struct contents *contents,
                        const struct cutplan *plan)
{
    const char *summary =
        word_words(w, plan->colorway, w->design->summary, NULL);
    add_heading(w, contents, PART_IMPRINT, w->design->title);
    if (summary[0] != '\0')
        add_paragraph(w, contents, PART_IMPRINT, summary);
    if (w->design->skill[0] != '\0')
        add_paragraph(w, contents, PART_IMPRINT, skill_text(w));
    add_paragraph(w, contents, PART_PRICE,
                  say(w->arena, w->phrases, "back.price", NULL));
}

/* The shopping page stands last, so that it can be read with the booklet closed
 * and does not move when steps are added. */
struct contents tell_back(const struct wording *w, const struct cutplan *plan)
{
    struct contents contents = {.items = {0}};
    const struct market market = {w, plan->all, w->design->colorways.count,
                                  plan->all->sewn->quilts.count};
    add_title(w, &contents, say(w->arena, w->phrases, "back.title", NULL),
              lead_text(&market));
    add_table(w, &contents, PART_MATERIALS,
              table_of(&market, batting_words(w, plan)));
    add_sizes(&market, &contents, plan->colorway);
    add_lists(w, &contents);
    add_imprint(w, &contents, plan);
    return contents;
}
