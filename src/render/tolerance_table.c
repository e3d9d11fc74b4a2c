/* What error the sewing forgives, as tables. No chance stands without the seam
 * that it holds for. Nothing is meant to be read by programs, which have JSON.
 * Read next: tolerance_json.c. */
#include <math.h>
#include <string.h>

#include "quilting_json.h"
#include "render.h"
#include "text_table.h"
#include "tolerance.h"
#include "trade.h"
#include "wording.h"

/* What all tables of a quilt need. */
struct telling_tolerance {
    struct buffer *out;
    const struct wording *w;
    const struct tolerance_report *report;
};

/* To a thousandth; an eighth needs three places. */
static const char *places(const struct telling_tolerance *t, double length)
{
    return decimal_text(t->out->arena, length, 3);
}

/* A number of the trade, as the pattern writes lengths. */
static const char *exact(const struct telling_tolerance *t,
                         enum trade_fact fact)
{
    return word_length(t->w, trade_length(fact, t->w->design->pattern->units));
}

/* "99", of a hundred; near both ends it is said that it is not all or none. */
static const char *of_hundred(const struct telling_tolerance *t, double chance)
{
    if (chance > 0.995)
        return "> 99";
    if (chance < 0.005)
        return "< 1";
    return arena_printf(t->out->arena, "%d", (int)lround(100 * chance));
}

/* Cells of one outcome for each seam, and over persons. */
static void add_chances(const struct telling_tolerance *t,
                        struct text_table *table,
                        const struct outcomes *outcomes)
{
    for (int c = SEAM_RIGHT; c < SEAM_CASES; c++)
        if (c != SEAM_OWN || t->report->own)
            add_text_cell(table, of_hundred(t, outcomes->of[c].within));
    add_text_cell(table, of_hundred(t, outcomes->persons.within));
}

/* In the order of add_chances. */
static void add_chance_heads(const struct telling_tolerance *t,
                             struct text_table *table)
{
    add_text_cell(table, "right");
    if (t->report->own)
        add_text_cell(table, "yours");
    add_text_cell(table, "narrow");
    add_text_cell(table, "wide");
    add_text_cell(table, "persons");
}

static size_t chance_columns(const struct telling_tolerance *t)
{
    return t->report->own ? 5 : 4;
}

/* "4. Wing" */
static const char *step_name(const struct telling_tolerance *t, size_t heap)
{
    return arena_printf(t->out->arena, "%s. %s", word_step(t->w, heap),
                        word_heap(t->w, heap));
}

/* The cloth beyond a point has no side. */
static const char *side_name(const struct tolerance_row *row)
{
    static const char *const names[] = {"wide", "high", "both"};
    return row->point ? "point" : names[row->side];
}

/* ---- seams ---- */

/* As wide as it is sewn; the pattern's seam is what the cut sizes hold. */
static void print_seam(const struct telling_tolerance *t,
                       struct text_table *table, const char *name,
                       enum seam_case seam, const char *words)
{
    const double width =
        rational_double(t->w->design->pattern->seam) + t->report->offsets[seam];
    add_text_cell(table, name);
    add_text_cell(table, arena_printf(t->out->arena, "sewn %s %s wide",
                                      places(t, width), word_unit(t->w)));
    add_text_cell(table, words);
}

/* What the columns of the other tables stand for. */
static void print_seams(const struct telling_tolerance *t,
                        struct rational strips)
{
    struct arena *arena = t->out->arena;
    const char *thread = exact(t, TRADE_THREAD);
    struct text_table table = text_table_of(arena, 3);
    buffer_printf(t->out, "\nSeams, of %s in the pattern\n",
                  word_length_unit(t->w, t->w->design->pattern->seam));
    print_seam(
        t, &table, "right", SEAM_RIGHT,
        arena_printf(arena, "three test strips of %s measure %s",
                     exact(t, TRADE_TEST_STRIP),
                     word_length(t->w, test_strips(t->w->design->pattern))));
    if (t->report->own)
        print_seam(
            t, &table, "yours", SEAM_OWN,
            arena_printf(arena, "they measure %s", word_length(t->w, strips)));
    print_seam(t, &table, "narrow", SEAM_NARROW,
               arena_printf(arena, "%s less than right, in each seam", thread));
    print_seam(t, &table, "wide", SEAM_WIDE,
               arena_printf(arena, "%s more than right, in each seam", thread));
    add_text_cell(&table, "persons");
    add_text_cell(&table, "differ");
    add_text_cell(
        &table,
        arena_printf(arena, "two of three are within %s of right", thread));
    print_text_table(t->out, &table);
    buffer_printf(
        t->out,
        "  By chance each seam and each cut is off, two of three by less "
        "than %s. The fold\n  of a seam takes %s, pressed open %s.\n",
        thread, exact(t, TRADE_FOLD), exact(t, TRADE_FOLD_OPEN));
}

/* ---- sizes ---- */

/* "3/64 smaller": what a thread in each seam does, to the nearest thread. */
static const char *slope_words(const struct telling_tolerance *t,
                               const struct tolerance_row *row)
{
    const struct rational thread =
        trade_length(TRADE_THREAD, t->w->design->pattern->units);
    const struct rational takes = rational_times(thread, lround(-row->slope));
    return rational_sign(takes) == 0 ? "nothing"
                                     : arena_printf(t->out->arena, "%s less",
                                                    word_length(t->w, takes));
}

/* The shop's fraction of a bound, which came from one. */
static const char *bound_words(const struct telling_tolerance *t, double bound)
{
    return word_length(t->w, rational_make(lround(bound * 3200), 3200));
}

/* A row of the table of sizes: exact ones, what is expected of them, chances.
 */
static void add_size(const struct telling_tolerance *t,
                     struct text_table *table, const struct tolerance_row *row)
{
    struct arena *arena = t->out->arena;
    add_text_cell(table, step_name(t, row->heap));
    add_text_cell(table, side_name(row));
    const struct heap *heap = &t->w->quilt->heaps.items[row->heap];
    const struct rational seams =
        rational_times(t->w->design->pattern->seam, 2);
    add_text_cell(table, row->point
                             ? "0"
                             : word_length(t->w, rational_add(row->side == DOWN
                                                                  ? heap->height
                                                                  : heap->width,
                                                              seams)));
    add_text_cell(table, places(t, row->outcomes.of[SEAM_RIGHT].mean));
    if (t->report->own)
        add_text_cell(table, places(t, row->outcomes.of[SEAM_OWN].mean));
    add_text_cell(table, places(t, row->outcomes.of[SEAM_RIGHT].spread));
    add_text_cell(table, bound_words(t, row->bound));
    add_chances(t, table, &row->outcomes);
    add_text_cell(table, row->trimmed
                             ? arena_printf(arena, "%s; too small to trim: %s",
                                            slope_words(t, row),
                                            of_hundred(t, row->too_small))
                             : slope_words(t, row));
}

/* One or two rows for a step: wide and high, or both. */
static void print_sizes(const struct telling_tolerance *t)
{
    buffer_text(t->out,
                "\nSizes to expect, unfinished, with the right seam; of "
                "100, how many are within the bound\n");
    struct text_table table = text_table_of(
        t->out->arena, (t->report->own ? 8 : 7) + chance_columns(t));
    add_text_cell(&table, "step");
    add_text_cell(&table, "side");
    add_text_cell(&table, "size");
    add_text_cell(&table, "expected");
    if (t->report->own)
        add_text_cell(&table, "yours");
    add_text_cell(&table, "spread");
    add_text_cell(&table, "bound");
    add_chance_heads(t, &table);
    add_text_cell(&table,
                  arena_printf(t->out->arena, "%s wide in each seam makes it",
                               exact(t, TRADE_THREAD)));
    for (size_t i = 0; i < t->report->rows.count; i++)
        add_size(t, &table, &t->report->rows.items[i]);
    print_text_table(t->out, &table);
}

/* ---- shares ---- */

/* A line for each size; what is less than a twentieth is left out. */
static void print_shares(const struct telling_tolerance *t)
{
    struct arena *arena = t->out->arena;
    struct text_table table = text_table_of(arena, 4);
    for (size_t i = 0; i < t->report->rows.count; i++) {
        const struct tolerance_row *row = &t->report->rows.items[i];
        if (row->point)
            continue;
        struct buffer line = buffer_in(arena);
        for (size_t k = 0; k < t->report->shares.count; k++) {
            const struct tolerance_share *share = &t->report->shares.items[k];
            if (share->row != i)
                continue;
            buffer_printf(&line, "%s%s %d %%", line.length == 0 ? "" : ", ",
                          share->heap == NO_HEAP
                              ? "cutting"
                              : arena_printf(arena, "step %s",
                                             word_step(t->w, share->heap)),
                          (int)lround(100 * share->share));
        }
        add_text_cell(&table, step_name(t, row->heap));
        add_text_cell(&table, side_name(row));
        add_text_cell(&table, buffer_string(&line));
        add_text_cell(&table, arena_printf(arena, "own seam %d %%",
                                           (int)lround(100 * row->own_seam)));
    }
    buffer_text(t->out,
                "\nWhere the spread comes from, of its square: with the right "
                "seam; and how much over persons is their own seam\n");
    print_text_table(t->out, &table);
}

/* ---- trimming, other ways ---- */

/* The top as it is stands first, to compare with. */
static void print_trims(const struct telling_tolerance *t)
{
    const struct tolerance_row *top =
        &t->report->rows.items[t->report->top_row];
    buffer_printf(t->out,
                  "\nWhere trimming pays: made %s larger, then trimmed; of 100 "
                  "tops, how many are within %s\n",
                  exact(t, TRADE_CUTTING_STEP), bound_words(t, top->bound));
    if (t->report->trims.count == 0) {
        buffer_text(t->out,
                    "  nowhere: no unit or block makes the top surer\n");
        return;
    }
    struct text_table table =
        text_table_of(t->out->arena, 1 + chance_columns(t));
    add_text_cell(&table, "trimmed");
    add_chance_heads(t, &table);
    add_text_cell(&table, "nothing more");
    add_chances(t, &table, &top->outcomes);
    for (size_t i = 0; i < t->report->trims.count; i++) {
        add_text_cell(&table, step_name(t, t->report->trims.items[i].heap));
        add_chances(t, &table, &t->report->trims.items[i].top);
    }
    print_text_table(t->out, &table);
    if (t->report->trims_left)
        buffer_text(t->out, "  The first steps were tried, not all.\n");
}

/* A method is called as the source would call it. */
static const char *way_name(const struct telling_tolerance *t,
                            const struct tolerance_way *way)
{
    return way->larger ? arena_printf(t->out->arena, "%s larger, trimmed",
                                      exact(t, TRADE_CUTTING_STEP))
           : way->method == NULL
               ? "as it is"
               : arena_printf(t->out->arena, "method %s", way->method);
}

/* A unit's own way stands first; the others tell what cloth they take beyond
 * it, or save. */
static void print_ways(const struct telling_tolerance *t)
{
    struct arena *arena = t->out->arena;
    if (t->report->ways.count == 0)
        return;
    buffer_printf(t->out,
                  "\nOther ways to the same unit; of 100, how many are within "
                  "%s\n",
                  bound_words(t, t->report->trimmed_bound));
    struct text_table table = text_table_of(arena, 5 + chance_columns(t));
    add_text_cell(&table, "unit");
    add_text_cell(&table, "way");
    add_text_cell(&table, "expected");
    add_text_cell(&table, "spread");
    add_chance_heads(t, &table);
    add_text_cell(&table, "cloth");
    for (size_t i = 0; i < t->report->ways.count; i++) {
        const struct tolerance_way *way = &t->report->ways.items[i];
        const size_t count = t->w->quilt->heaps.items[way->heap].count;
        add_text_cell(&table, step_name(t, way->heap));
        add_text_cell(&table, way_name(t, way));
        add_text_cell(&table, places(t, way->outcomes.of[SEAM_RIGHT].mean));
        add_text_cell(&table, places(t, way->outcomes.of[SEAM_RIGHT].spread));
        add_chances(t, &table, &way->outcomes);
        add_text_cell(
            &table,
            way->method == NULL && !way->larger
                ? "as planned"
                : arena_printf(
                      arena, "%s%s sq %s each, %s for all",
                      way->cloth < 0 ? "" : "+",
                      decimal_text(arena, way->cloth, 2), word_unit(t->w),
                      decimal_text(arena, way->cloth * (double)count, 0)));
    }
    print_text_table(t->out, &table);
}

/* ---- all of it ---- */

/* Seams before chances: each column is told before it is used. */
static void print_quilt(const struct telling_tolerance *t,
                        struct rational strips)
{
    buffer_printf(t->out, "%s%s, %s: how much error the sewing forgives\n",
                  t->out->length == 0 ? "" : "\n", t->w->design->title,
                  t->w->quilt->definition->name);
    print_seams(t, strips);
    print_sizes(t);
    print_shares(t);
    print_trims(t);
    print_ways(t);
    buffer_printf(t->out,
                  "\nBias edges that hands sew along: %zu. They stretch; that, "
                  "pressing, shrinkage and\ngross mistakes are not in these "
                  "numbers.\n",
                  t->report->bias_edges);
}

/* Cloth and thread do not matter, so that colorways are told as one. */
const char *render_tolerance(struct arena *arena, const struct sewn *sewn,
                             const struct selection *selection,
                             struct rational strips)
{
    struct buffer out = buffer_in(arena);
    const struct design *design = sewn->sized->design;
    struct wording w = {arena, design, NULL, false, phrases_load(arena, "en")};
    for (size_t i = 0; i < sewn->quilts.count; i++) {
        w.quilt = &sewn->quilts.items[i];
        if (selection->quilt != NULL &&
            strcmp(selection->quilt, w.quilt->definition->id) != 0)
            continue;
        const struct telling_tolerance t = {
            &out, &w,
            report_tolerance(arena, design->pattern, w.quilt, strips)};
        print_quilt(&t, strips);
    }
    return buffer_string(&out);
}
