/* The packet for one tester: what is asked, three test strips, the least to
 * sew, checkpoints, claims to tick, cloth and time, and the sign-off. Its looks
 * are the booklet's. Read next: place_table.c. */
#include <math.h>
#include <string.h>

#include "claims.h"
#include "least.h"
#include "place.h"
#include "section.h"
#include "structure.h"
#include "tolerance.h"
#include "trade.h"

/* A box to tick, and room for what is written by hand. */
#define TICK MM(3.6)
#define HAND_HEIGHT MM(8.0)

/* ---- tables for writing in ---- */

static struct told_table table_with(const struct booklet *booklet,
                                    const char *const *heads, size_t count)
{
    struct told_table table = {.columns = {0}};
    for (size_t i = 0; i < count; i++)
        *LIST_ADD(booklet->wording.arena, &table.columns) =
            (struct told_column){COLUMN_WORDS, heads[i]};
    return table;
}

/* Cells that are not told stay empty, for the hand. */
static void add_cells(const struct booklet *booklet, struct told_table *table,
                      const char *const *texts, size_t count)
{
    struct arena *arena = booklet->wording.arena;
    struct told_row *row = LIST_ADD(arena, &table->rows);
    for (size_t i = 0; i < table->columns.count; i++) {
        struct told_cell *cell = LIST_ADD(arena, &row->cells);
        cell->text.text = i < count ? texts[i] : "";
    }
}

/* The head stays with the first row, and stands again above what goes on over a
 * page: boxes without the words over them would ask nothing. */
static void flow_rows(struct booklet *booklet, const struct boxes *rows)
{
    for (size_t i = 0; i < rows->items.count; i++) {
        rows->items.items[i]->keep_with_next = i == 0;
        if (i > 1)
            rows->items.items[i]->again = rows->items.items[0];
        flow_add(&booklet->flow, rows->items.items[i],
                 i == 0 ? SPACE_HALF : 0.0);
    }
}

/* As the tables of the booklet, with lines below each row: what is measured is
 * written on them. */
static void flow_table(struct booklet *booklet, const struct told_table *table,
                       const double *widths)
{
    const struct boxes rows = plain_rows(&booklet->flow.canvas, table, widths);
    flow_rows(booklet, &rows);
}

/* Stays with what it is about. */
static void flow_text(struct booklet *booklet, const char *text)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *box = box_text(canvas, text, style_body(), columns_wide(10));
    box->keep_with_next = true;
    flow_add(&booklet->flow, box, SPACE_HALF);
}

/* A line to write on, behind what is asked. */
static void flow_field(struct booklet *booklet, const char *asked)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct box *text =
        box_text(canvas, asked, style_body(), columns_wide(5));
    const double height = fmax(HAND_HEIGHT, text->height + MM(3.0));
    struct box *box = box_new(canvas, columns_wide(12), height);
    const double foot = height - MM(1.5);
    box_put(canvas, box, text, 0.0, foot - text->height + MM(1.0));
    struct path_item line = outline_narrow();
    line.stroke = LINE_FINE;
    box_stroke(canvas, box, columns_wide(5) + GRID_GUTTER, foot,
               columns_wide(12), foot, line);
    flow_add(&booklet->flow, box, 0.0);
}

/* ---- before the first cut ---- */

static void section_asked(struct booklet *booklet, struct testers testers)
{
    const struct wording *w = &booklet->wording;
    flow_section(
        &booklet->flow, say(w->arena, w->phrases, "proof.title", NULL),
        say(w->arena, w->phrases, "proof.lead", "title", booklet->design->title,
            "quilt", booklet->quilt->definition->name, "size",
            word_size_unit(w, booklet->quilt->width, booklet->quilt->height),
            NULL),
        false);
    flow_text(booklet, say(w->arena, w->phrases, "proof.question", NULL));
    flow_text(booklet, say(w->arena, w->phrases, "proof.share", "tester",
                           say_count(w->arena, testers.tester), "testers",
                           say_count(w->arena, testers.count), NULL));
    flow_field(booklet, say(w->arena, w->phrases, "proof.name", NULL));
    flow_field(booklet, say(w->arena, w->phrases, "proof.skill", NULL));
    flow_field(booklet, say(w->arena, w->phrases, "proof.begun", NULL));
}

/* The cautions of page 2 stand here, too: a packet is worked from. A list has
 * no labels on a page, so they stand before their texts. */
static void section_cautions(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct contents glance = tell_glance(w, booklet->plan);
    const struct content *cautions =
        content_of(&glance, PART_CAUTIONS, CONTENT_LIST);
    const struct content *heading =
        content_of(&glance, PART_CAUTIONS, CONTENT_HEADING);
    if (cautions == NULL || heading == NULL)
        return;
    struct told_list list = {.items = {0}};
    for (size_t i = 0; i < cautions->as.list.items.count; i++) {
        const struct told_point *point = &cautions->as.list.items.items[i];
        struct told_point *one = LIST_ADD(w->arena, &list.items);
        one->label = "";
        one->text =
            arena_printf(w->arena, "%s%s%s", point->label,
                         point->label[0] == '\0' ? "" : " ", point->text);
    }
    flow_heading(&booklet->flow, heading->as.heading.title);
    flow_add(&booklet->flow,
             place_list(&booklet->flow.canvas, &list, columns_wide(10)),
             SPACE_HALF);
}

/* Before the first cut, as a seam that is off can still be set right then; what
 * is measured goes with the claims in any case. */
static void section_strips(struct booklet *booklet, const struct claims *claims)
{
    const struct wording *w = &booklet->wording;
    const struct pattern *pattern = booklet->design->pattern;
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "proof.strips", NULL));
    flow_text(
        booklet,
        say(w->arena, w->phrases, "proof.strips-how", "strip",
            word_length_unit(w, trade_length(TRADE_TEST_STRIP, pattern->units)),
            "sewn", word_length_unit(w, test_strips(pattern)), "seam",
            word_length_unit(w, pattern->seam), NULL));
    for (size_t i = 0; i < claims->items.count; i++)
        if (claims->items.items[i].kind == CLAIM_STRIPS)
            flow_field(booklet,
                       say(w->arena, w->phrases, "proof.strips-measure",
                           "claim",
                           say_count(w->arena, claims->items.items[i].number),
                           "unit", word_unit(w), NULL));
}

/* Its own cutting list, as nobody who tries a block cuts into the yardage. */
static void add_scraps(struct booklet *booklet, const struct least *least)
{
    const struct wording *w = &booklet->wording;
    const struct scrap_lines lines = word_scraps(w, least);
    struct told_list list = {.items = {0}};
    for (size_t i = 0; i < lines.items.count; i++) {
        struct told_point *point = LIST_ADD(w->arena, &list.items);
        point->label = "";
        point->text = lines.items.items[i];
    }
    flow_text(booklet,
              arena_printf(w->arena, "%s:",
                           say(w->arena, w->phrases, "least.scraps", NULL)));
    flow_add(&booklet->flow,
             place_list(&booklet->flow.canvas, &list, columns_wide(10)),
             SPACE_HALF);
}

/* For whom the whole quilt is too much: the same list as on the terminal. A
 * quilt of one piece of cloth has nothing to sew. */
static void section_least(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct least least = least_to_sew(w);
    struct told_list list = {.items = {0}};
    if (least.plan.chosen.count == 0)
        return;
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "proof.least", NULL));
    flow_text(booklet, say(w->arena, w->phrases, "proof.least-share", "percent",
                           say_count(w->arena, least_percent(&least)), "things",
                           say_count(w->arena, least.facts.count), NULL));
    for (size_t i = 0; i < least.plan.chosen.count; i++) {
        struct told_point *point = LIST_ADD(w->arena, &list.items);
        point->label = "";
        point->text =
            word_trial(w, &least.trials.items[least.plan.chosen.items[i]]);
    }
    flow_add(&booklet->flow,
             place_list(&booklet->flow.canvas, &list, columns_wide(10)),
             SPACE_HALF);
    add_scraps(booklet, &least);
}

/* ---- while sewing ---- */

/* Claims, too: each has its number, and goes to every tester. */
static void section_checkpoints(struct booklet *booklet,
                                const struct claims *claims)
{
    const struct wording *w = &booklet->wording;
    const char *const heads[] = {"",
                                 say(w->arena, w->phrases, "proof.step", NULL),
                                 say(w->arena, w->phrases, "proof.told", NULL),
                                 say(w->arena, w->phrases, "proof.measured",
                                     "unit", word_unit(w), NULL)};
    const double widths[] = {MM(11.0), columns_wide(5), columns_wide(3),
                             MM(45.0)};
    struct told_table table = table_with(booklet, heads, 4);
    for (size_t i = 0; i < claims->items.count; i++) {
        const struct claim *claim = &claims->items.items[i];
        const char *const texts[] = {say_count(w->arena, claim->number),
                                     claim->section, claim->text};
        if (claim->kind == CLAIM_SIZE)
            add_cells(booklet, &table, texts, 3);
    }
    if (table.rows.count == 0)
        return;
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "proof.checkpoints", NULL));
    flow_text(booklet,
              say(w->arena, w->phrases, "proof.checkpoints-how", NULL));
    flow_table(booklet, &table, widths);
}

/* Whether the amounts are right is what testers are asked first; what is left
 * over tells by how much. Hours are for the cover of the next printing. */
static void section_used(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const char *const heads[] = {
        say(w->arena, w->phrases, "materials.cloth", NULL),
        say(w->arena, w->phrases, "materials.amount", NULL),
        say(w->arena, w->phrases, "proof.bought", NULL),
        say(w->arena, w->phrases, "proof.left", NULL)};
    const double widths[] = {columns_wide(4), columns_wide(3), columns_wide(2),
                             columns_wide(2)};
    struct told_table table = table_with(booklet, heads, 4);
    for (size_t f = 0; f < booklet->design->fabrics.count; f++) {
        const struct fabric_plan *plan = &booklet->plan->fabrics[f];
        if (plan->items.count == 0)
            continue;
        const char *const texts[] = {
            arena_printf(w->arena, "%s  %s", fabric_letter(w->arena, (int)f),
                         plan->bolt->name),
            word_amount(w, plan)};
        add_cells(booklet, &table, texts, 2);
    }
    flow_heading(&booklet->flow, say(w->arena, w->phrases, "proof.used", NULL));
    flow_table(booklet, &table, widths);
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "proof.hours", NULL));
    flow_field(booklet, say(w->arena, w->phrases, "proof.hours-cut", NULL));
    flow_field(booklet, say(w->arena, w->phrases, "proof.hours-sew", NULL));
    flow_field(booklet, say(w->arena, w->phrases, "proof.hours-finish", NULL));
}

/* ---- claims ---- */

/* Right, wrong, unclear: three boxes at the left of their columns. */
static void draw_ticks(struct booklet *booklet, struct box *row,
                       const double *widths)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct path_item line = outline_narrow();
    line.stroke = LINE_FINE;
    double x = widths[0] + widths[1];
    for (int i = 0; i < 3; i++) {
        box_rectangle(canvas, row, x, (row->height - TICK) / 2.0, TICK, TICK,
                      line);
        x += widths[2 + i];
    }
}

/* One table for each section of the booklet, so that a tester finds the claim
 * beside the page. What only people tell has no sections. */
static void section_claims(struct booklet *booklet, const struct claims *claims,
                           struct testers testers, enum claim_kind kind)
{
    const struct wording *w = &booklet->wording;
    const char *const heads[] = {
        "",
        say(w->arena, w->phrases, "proof.claim", NULL),
        say(w->arena, w->phrases, "proof.right", NULL),
        say(w->arena, w->phrases, "proof.wrong", NULL),
        say(w->arena, w->phrases, "proof.unclear", NULL),
        say(w->arena, w->phrases, "proof.measure", NULL)};
    const double widths[] = {MM(11.0), MM(98.0), MM(14.0),
                             MM(15.0), MM(15.0), MM(29.0)};
    const char *section = NULL;
    for (size_t i = 0; i < claims->items.count;) {
        struct told_table table = table_with(booklet, heads, 6);
        section = NULL;
        for (; i < claims->items.count; i++) {
            const struct claim *claim = &claims->items.items[i];
            if (claim->kind != kind ||
                !claim_is_for(claim, testers.count, testers.tester))
                continue;
            if (section != NULL && strcmp(section, claim->section) != 0)
                break;
            section = claim->section;
            const char *const texts[] = {say_count(w->arena, claim->number),
                                         claim->text};
            add_cells(booklet, &table, texts, 2);
        }
        if (section == NULL)
            break;
        const struct boxes rows =
            plain_rows(&booklet->flow.canvas, &table, widths);
        for (size_t r = 1; r < rows.items.count; r++)
            draw_ticks(booklet, rows.items.items[r], widths);
        if (kind == CLAIM_SHOWN)
            flow_heading(&booklet->flow, section);
        flow_rows(booklet, &rows);
    }
}

/* ---- the end ---- */

static void section_sign(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const char *printing = word_printing(w);
    flow_heading(&booklet->flow, say(w->arena, w->phrases, "proof.sign", NULL));
    flow_text(booklet, printing[0] == '\0'
                           ? say(w->arena, w->phrases, "proof.sign-any", NULL)
                           : say(w->arena, w->phrases, "proof.sign-printing",
                                 "printing", printing, NULL));
    flow_field(booklet, say(w->arena, w->phrases, "proof.sign-result", NULL));
    flow_field(booklet, say(w->arena, w->phrases, "proof.sign-name", NULL));
}

/* In the order of the work: what is asked, what is done before the first cut,
 * what is noted on the way, and the claims, to be read beside the booklet. */
void section_proof(struct booklet *booklet, struct testers testers)
{
    const struct wording *w = &booklet->wording;
    const struct claims claims = claims_of(w, booklet->plan);
    section_asked(booklet, testers);
    section_cautions(booklet);
    section_strips(booklet, &claims);
    section_least(booklet);
    section_checkpoints(booklet, &claims);
    section_used(booklet);
    flow_section(&booklet->flow, say(w->arena, w->phrases, "claim.shown", NULL),
                 say(w->arena, w->phrases, "claim.shown-lead", NULL), true);
    section_claims(booklet, &claims, testers, CLAIM_SHOWN);
    flow_section(&booklet->flow, say(w->arena, w->phrases, "claim.asked", NULL),
                 say(w->arena, w->phrases, "claim.asked-lead", NULL), true);
    section_claims(booklet, &claims, testers, CLAIM_ASKED);
    section_sign(booklet);
}
