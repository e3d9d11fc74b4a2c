/* The table of materials: what a shop needs to know. Amounts come from the
 * plan. What is the same of all cloths is told once, below. Read next:
 * section_glance.c. */
#include <string.h>

#include "contents.h"
#include "quilting_words.h"
#include "told_cutting.h"
#include "trade.h"

/* ---- what a cloth is for ---- */

/* Blocks and units are told as one: which, the steps tell. */
static void add_piece_uses(const struct wording *w, struct texts *uses,
                           const struct cut_item *item)
{
    for (size_t i = 0; i < item->takers.count; i++)
        texts_add_once(w, uses,
                       item->takers.items[i]->kind == DEFINE_QUILT
                           ? word_center(w)
                           : say(w->arena, w->phrases, "materials.blocks",
                                 NULL));
    if (item->takers.count == 0 && item->corners_of.count == 0)
        texts_add_once(w, uses, word_center(w));
    for (size_t i = 0; i < item->corners_of.count; i++)
        texts_add_once(
            w, uses,
            say(w->arena, w->phrases, "purpose.border-corners", "number",
                say_count(w->arena, item->corners_of.items[i]), NULL));
}

/* "blocks, border 3 and binding", behind the cloth's role. */
static const char *uses_text(const struct wording *w,
                             const struct fabric_plan *plan)
{
    struct texts uses = {.items = {0}};
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (item->use == CUT_PIECE)
            add_piece_uses(w, &uses, item);
        else if (item->use == CUT_BORDER)
            texts_add_once(w, &uses,
                           say(w->arena, w->phrases, "purpose.border", "number",
                               say_count(w->arena, item->border), NULL));
        else
            texts_add_once(w, &uses,
                           say(w->arena, w->phrases, "purpose.binding", NULL));
    }
    const struct fabric *fabric = &w->design->fabrics.items[plan->fabric];
    return say(w->arena, w->phrases,
               fabric->one_way ? "materials.uses-print" : "materials.uses",
               "fabric", fabric->name, "uses", texts_listed(w, &uses), NULL);
}

/* How far apart lines of quilting may be, where the pattern states it; else the
 * maker of the batting is asked. */
const char *batting_words(const struct wording *w, const struct cutplan *plan)
{
    return rational_known(plan->batting_gap)
               ? say(w->arena, w->phrases, "materials.batting-gap", "gap",
                     word_length_unit(w, plan->batting_gap), NULL)
               : say(w->arena, w->phrases, "materials.batting-maker", NULL);
}

/* ---- notes ---- */

/* Fabric of a width is often up to a twentieth narrower between its selvages
 * (common practice: 40 in of what is sold as 42). */
static bool is_width_taken(const struct wording *w,
                           const struct fabric_plan *plan)
{
    return rational_compare(rational_times(width_needed(w, plan), 20),
                            rational_times(plan->strip_length, 19)) > 0;
}

/* What of the cloth is counted on: its width, and all that is taken off. */
static const char *cloth_note(const struct wording *w, const char *cloths,
                              const struct fabric_plan *plan)
{
    const struct bolt *bolt = plan->bolt;
    const char *text =
        bolt->sold == SOLD_YARDAGE && rational_sign(plan->allowance) == 0
            ? say(w->arena, w->phrases, "materials.yardage-whole", "cloth",
                  cloths, "width", word_bought_length(w, bolt->width), NULL)
        : bolt->sold == SOLD_YARDAGE
            ? say(w->arena, w->phrases, "materials.yardage", "cloth", cloths,
                  "width", word_bought_length(w, bolt->width), "allowance",
                  word_length_unit(w, plan->allowance), NULL)
            : say(w->arena, w->phrases, "materials.sheet", "cloth", cloths,
                  "size",
                  word_sheet_size(w, plan), NULL);
    if (rational_sign(bolt->selvage) > 0)
        text = say(w->arena, w->phrases, "materials.selvage", "cloth", text,
                   "width", word_length_unit(w, bolt->selvage), NULL);
    if (rational_sign(bolt->shrinkage) > 0)
        text =
            say(w->arena, w->phrases, "materials.shrinkage", "cloth", text,
                "percent",
                word_decimal(w, rational_times(bolt->shrinkage, 100), 1), NULL);
    const char *tight = bolt->sold == SOLD_YARDAGE ? tell_tight(w, plan)
                                                   : tell_tight_sheets(w, plan);
    if (tight[0] != '\0' && word_reserved(w, plan)[0] != '\0')
        text =
            bolt->sold == SOLD_YARDAGE
                ? say(w->arena, w->phrases, "materials.narrower", "cloth", text,
                      "width", word_bought_length(w, reserved_width(w, plan)),
                      "amount", word_reserved(w, plan), NULL)
                : say(w->arena, w->phrases, "materials.smaller", "cloth", text,
                      "amount", word_reserved(w, plan), NULL);
    else if (bolt->sold == SOLD_YARDAGE && is_width_taken(w, plan))
        text = say(w->arena, w->phrases, "materials.width", "cloth", text,
                   "width", word_bought_length(w, width_needed(w, plan)), NULL);
    return text;
}

/* "A, B, C: 42 in wide": cloths of which the same is told stand together. */
static const char *cloth_notes(const struct wording *w,
                               const struct cutplan *plan)
{
    const size_t count = w->design->fabrics.count;
    const char *notes = "";
    bool *told = ARENA_ARRAY(w->arena, bool, count);
    for (size_t i = 0; i < count; i++) {
        const struct fabric_plan *cloth = &plan->fabrics[i];
        if (told[i] || cloth->items.count == 0)
            continue;
        struct texts letters = {.items = {0}};
        const char *note = cloth_note(w, "", cloth);
        for (size_t k = i; k < count; k++)
            if (plan->fabrics[k].items.count > 0 &&
                strcmp(note, cloth_note(w, "", &plan->fabrics[k])) == 0) {
                told[k] = true;
                texts_add(w, &letters, fabric_letter(w->arena, (int)k));
            }
        notes = word_then(
            w, notes,
            arena_printf(w->arena, "%s.",
                         cloth_note(w, texts_listed(w, &letters), cloth)));
    }
    return notes;
}

/* ---- the table ---- */

static void add_cloth_row(const struct wording *w, struct told_table *table,
                          const struct cutplan *plan, int fabric,
                          const char *use, const char *amount)
{
    struct told_row *row = add_row(w, table);
    add_cloth_cell(w, row, plan->colorway, fabric);
    add_words_cell(w, row, use);
    add_words_cell(w, row, amount);
}

/* Roles that no piece needs are left out, unless the backing names them.
 * Backing is bought apart from the same cloth in the top: panels need whole
 * widths. */
static void add_cloths(const struct wording *w, struct told_table *table,
                       const struct cutplan *plan)
{
    for (size_t i = 0; i < w->design->fabrics.count; i++)
        if (plan->fabrics[i].items.count > 0)
            add_cloth_row(w, table, plan, plan->fabrics[i].fabric,
                          uses_text(w, &plan->fabrics[i]),
                          word_amount(w, &plan->fabrics[i]));
    if (plan->backing.wanted)
        add_cloth_row(
            w, table, plan, plan->backing.fabric,
            say(w->arena, w->phrases, "materials.backing", "size",
                word_bought_size(w, plan->backing.width, plan->backing.height),
                NULL),
            word_backing_amount(w, &plan->backing));
}

/* Batting has no cloth of a colorway: its size is that of the quilt with what
 * hangs over, and its maker says how close it must be quilted. */
static void add_batting(const struct wording *w, struct told_table *table,
                        const struct cutplan *plan)
{
    if (!plan->batting_wanted)
        return;
    struct told_row *row = add_row(w, table);
    add_words_cell(w, row,
                   say(w->arena, w->phrases, "materials.batting", NULL));
    add_words_cell(w, row, batting_words(w, plan));
    add_words_cell(
        w, row,
        word_bought_size(w, plan->batting_width, plan->batting_height));
}

/* Threads of the quilting, as much of each as is bought; what no stitch takes is
 * left out. */
static void add_threads(const struct wording *w, struct told_table *table,
                        const struct cutplan *plan)
{
    const struct quilting_plan *quilting = plan->quilting;
    const size_t colorway =
        (size_t)(plan->colorway - w->design->colorways.items);
    const size_t count = quilting == NULL ? 0 : quilting->told->threads.count;
    for (size_t i = 0; i < count; i++) {
        if (quilting->amounts[i].bought == 0.0)
            continue;
        struct told_row *row = add_row(w, table);
        add_words_cell(w, row,
                       say(w->arena, w->phrases, "materials.thread", "thread",
                           quilting->told->threads.items[i].id, NULL));
        add_words_cell(
            w, row,
            say(w->arena, w->phrases, "materials.thread-use", "color",
                word_thread_color(w, quilting, colorway, i), NULL));
        add_words_cell(w, row,
                       word_thread_length(w, quilting->amounts[i].bought));
    }
}

/* Widths, how amounts were reckoned, and what the letters are. */
static const char *notes_text(const struct wording *w,
                              const struct cutplan *plan)
{
    const char *basis =
        say(w->arena, w->phrases, "materials.bases", "step",
            word_sold_step(w), NULL);
    const char *labels = say(w->arena, w->phrases, "words.labels", NULL);
    return word_then(w, cloth_notes(w, plan), word_then(w, basis, labels));
}

/* The cloths, then batting and threads. */
void add_materials(const struct wording *w, struct contents *contents,
                   const struct cutplan *plan)
{
    struct told_table table = {.rows = {0}};
    add_column(w, &table, COLUMN_CLOTH,
               say(w->arena, w->phrases, "materials.cloth", NULL));
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "materials.use", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "materials.amount", NULL));
    add_cloths(w, &table, plan);
    add_batting(w, &table, plan);
    add_threads(w, &table, plan);
    add_heading(w, contents, PART_MATERIALS,
                say(w->arena, w->phrases, "materials.title", NULL));
    add_table(w, contents, PART_MATERIALS, table);
    add_paragraph(w, contents, PART_MATERIALS, notes_text(w, plan));
}
