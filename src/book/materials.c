/* The table of materials: what a shop needs to know. Amounts come from the
 * plan. What is the same of all cloths is told once, below. Read next:
 * glance.c. */
#include <string.h>

#include "cutting.h"
#include "materials.h"
#include "told_cutting.h"
#include "trade.h"

/* Shares of the table: swatch and cloth, what for, how much. */
static const double CLOTH_SHARE = 0.40, USE_SHARE = 0.38, AMOUNT_SHARE = 0.22;

struct table {
    const struct booklet *booklet;
    struct canvas canvas;
    struct materials *into;
};

static void add_row(struct table *table, struct box *row)
{
    *LIST_ADD(table->canvas.arena, &table->into->rows) = row;
}

static void amount_cell(const struct table *table, struct row *row,
                        const char *text, bool head)
{
    struct text_style style = head ? style_small() : style_bold();
    style.align = ALIGN_RIGHT;
    row_text(&table->canvas, row, table->canvas.width * AMOUNT_SHARE, text,
             style, head);
}

static void add_head(struct table *table)
{
    const struct wording *w = &table->booklet->wording;
    const double width = table->canvas.width;
    struct row row = row_begin(&table->canvas, width);
    row_text(&table->canvas, &row, width * CLOTH_SHARE,
             say(w->arena, w->phrases, "materials.cloth", NULL), style_small(),
             true);
    row_text(&table->canvas, &row, width * USE_SHARE,
             say(w->arena, w->phrases, "materials.use", NULL), style_small(),
             true);
    amount_cell(table, &row,
                say(w->arena, w->phrases, "materials.amount", NULL), true);
    struct box *box = row_end(&table->canvas, &row, true);
    box->keep_with_next = true;
    add_row(table, box);
}

/* ---- what a cloth is for ---- */

/* Each once, though several lengths may be cut for one use. */
static void add_use(const struct wording *w, struct texts *uses,
                    const char *text)
{
    for (size_t i = 0; i < uses->items.count; i++)
        if (strcmp(uses->items.items[i], text) == 0)
            return;
    *LIST_ADD(w->arena, &uses->items) = text;
}

/* Blocks and units are told as one: which, the steps tell. */
static void add_piece_uses(const struct wording *w, struct texts *uses,
                           const struct cut_item *item)
{
    for (size_t i = 0; i < item->takers.count; i++)
        add_use(w, uses,
                say(w->arena, w->phrases,
                    item->takers.items[i]->kind == DEFINE_QUILT
                        ? "purpose.center"
                        : "materials.blocks",
                    NULL));
    if (item->takers.count == 0 && item->corners_of.count == 0)
        add_use(w, uses, say(w->arena, w->phrases, "purpose.center", NULL));
    for (size_t i = 0; i < item->corners_of.count; i++)
        add_use(w, uses,
                say(w->arena, w->phrases, "purpose.border-corners", "number",
                    say_count(w->arena, item->corners_of.items[i]), NULL));
}

/* "blocks, border 3 and binding", behind the cloth's role. */
static const char *uses_text(const struct booklet *booklet,
                             const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    struct texts uses = {.items = {0}};
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (item->use == CUT_PIECE)
            add_piece_uses(w, &uses, item);
        else if (item->use == CUT_BORDER)
            add_use(w, &uses,
                    say(w->arena, w->phrases, "purpose.border", "number",
                        say_count(w->arena, item->border), NULL));
        else
            add_use(w, &uses,
                    say(w->arena, w->phrases, "purpose.binding", NULL));
    }
    const struct fabric *fabric = &booklet->design->fabrics.items[plan->fabric];
    return say(w->arena, w->phrases,
               fabric->one_way ? "materials.uses-print" : "materials.uses",
               "fabric", fabric->name, "uses", texts_listed(w, &uses), NULL);
}

/* ---- rows ---- */

static void add_cloth(struct table *table, int fabric, const char *use,
                      const char *amount)
{
    const double width = table->canvas.width;
    struct row row = row_begin(&table->canvas, width);
    row_cloth(&table->canvas, &row, width * CLOTH_SHARE,
              table->booklet->plan->colorway, fabric, style_bold());
    row_text(&table->canvas, &row, width * USE_SHARE, use, style_body(), false);
    amount_cell(table, &row, amount, false);
    add_row(table, row_end(&table->canvas, &row, false));
}

/* Roles that no piece needs are left out, unless the backing names them.
 * Backing is bought apart from the same cloth in the top: panels need whole
 * widths. */
static void add_cloths(struct table *table)
{
    const struct booklet *booklet = table->booklet;
    const struct wording *w = &booklet->wording;
    const struct cutplan *plan = booklet->plan;
    for (size_t i = 0; i < booklet->design->fabrics.count; i++)
        if (plan->fabrics[i].items.count > 0)
            add_cloth(table, plan->fabrics[i].fabric,
                      uses_text(booklet, &plan->fabrics[i]),
                      word_amount(w, &plan->fabrics[i]));
    if (plan->backing.wanted)
        add_cloth(
            table, plan->backing.fabric,
            say(w->arena, w->phrases, "materials.backing", "size",
                word_size_unit(w, plan->backing.width, plan->backing.height),
                NULL),
            word_backing_amount(w, &plan->backing));
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

static void add_batting(struct table *table)
{
    const struct cutplan *plan = table->booklet->plan;
    const struct wording *w = &table->booklet->wording;
    const double width = table->canvas.width;
    if (!plan->batting_wanted)
        return;
    struct row row = row_begin(&table->canvas, width);
    row_text(&table->canvas, &row, width * CLOTH_SHARE,
             say(w->arena, w->phrases, "materials.batting", NULL), style_bold(),
             false);
    row_text(&table->canvas, &row, width * USE_SHARE, batting_words(w, plan),
             style_body(), false);
    amount_cell(table, &row,
                word_size_unit(w, plan->batting_width, plan->batting_height),
                false);
    add_row(table, row_end(&table->canvas, &row, false));
}

/* ---- notes ---- */

/* Fabric of a width is often up to a twentieth narrower between its selvages
 * (common practice: 40 in of what is sold as 42). */
static bool is_width_taken(const struct fabric_plan *plan)
{
    return rational_compare(rational_times(width_needed(plan), 20),
                            rational_times(plan->strip_length, 19)) > 0;
}

/* What of the cloth is counted on: its width, and all that is taken off. */
static const char *cloth_note(const struct booklet *booklet, const char *cloths,
                              const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    const struct bolt *bolt = plan->bolt;
    const char *text =
        bolt->sold == SOLD_YARDAGE && rational_sign(plan->allowance) == 0
            ? say(w->arena, w->phrases, "materials.yardage-whole", "cloth",
                  cloths, "width", word_length_unit(w, bolt->width), NULL)
        : bolt->sold == SOLD_YARDAGE
            ? say(w->arena, w->phrases, "materials.yardage", "cloth", cloths,
                  "width", word_length_unit(w, bolt->width), "allowance",
                  word_length_unit(w, plan->allowance), NULL)
            : say(w->arena, w->phrases, "materials.sheet", "cloth", cloths,
                  "size",
                  word_size_unit(w, plan->strip_length, plan->sheet_height),
                  NULL);
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
        text = say(w->arena, w->phrases,
                   bolt->sold == SOLD_YARDAGE ? "materials.narrower"
                                              : "materials.smaller",
                   "cloth", text, "amount", word_reserved(w, plan), NULL);
    else if (bolt->sold == SOLD_YARDAGE && is_width_taken(plan))
        text = say(w->arena, w->phrases, "materials.width", "cloth", text,
                   "width", word_length_unit(w, width_needed(plan)), NULL);
    const struct rational more = more_for_borders(booklet, plan);
    if (rational_sign(more) > 0)
        text = say(w->arena, w->phrases, "materials.borders", "cloth", text,
                   "more", word_yardage(w, more), NULL);
    return text;
}

/* "A, B, C: 42 in wide": cloths of which the same is told stand together. */
static const char *cloth_notes(const struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const size_t count = booklet->design->fabrics.count;
    const char *notes = "";
    bool *told = ARENA_ARRAY(w->arena, bool, count);
    for (size_t i = 0; i < count; i++) {
        const struct fabric_plan *plan = &booklet->plan->fabrics[i];
        if (told[i] || plan->items.count == 0)
            continue;
        struct texts letters = {.items = {0}};
        const char *note = cloth_note(booklet, "", plan);
        for (size_t k = i; k < count; k++)
            if (booklet->plan->fabrics[k].items.count > 0 &&
                strcmp(note, cloth_note(booklet, "",
                                        &booklet->plan->fabrics[k])) == 0) {
                told[k] = true;
                *LIST_ADD(w->arena, &letters.items) =
                    fabric_letter(w->arena, (int)k);
            }
        notes = word_then(
            w, notes,
            arena_printf(w->arena, "%s.",
                         cloth_note(booklet, texts_listed(w, &letters), plan)));
    }
    return notes;
}

/* Widths, how amounts were reckoned, and what the letters are. */
static struct box *notes_box(const struct table *table)
{
    const struct booklet *booklet = table->booklet;
    const struct wording *w = &booklet->wording;
    const char *basis =
        say(w->arena, w->phrases, "materials.bases", "step",
            word_yardage(w, trade_length(TRADE_SOLD_STEP,
                                         booklet->design->pattern->units)),
            NULL);
    const char *labels = say(w->arena, w->phrases, "words.labels", NULL);
    struct text_style style = style_small();
    style.color = ink;
    return box_text(
        &table->canvas,
        word_then(w, cloth_notes(booklet), word_then(w, basis, labels)), style,
        table->canvas.width);
}

/* `width` in points. ensures: the head, the cloths, then the batting; notes
 * apart. */
struct materials materials_of(const struct booklet *booklet, double width)
{
    struct materials materials = {.rows = {0}};
    struct table table = {booklet, booklet->flow.canvas, &materials};
    table.canvas.width = width;
    add_head(&table);
    add_cloths(&table);
    add_batting(&table);
    materials.notes = notes_box(&table);
    return materials;
}
