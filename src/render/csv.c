/* Comma-separated tables (RFC 4180). Numbers in plain ASCII with the pattern's
 * unit, one row a fact, no totals: a spreadsheet adds them up. May assume a
 * selection that names what there is. Read next: json.c. */
#include <math.h>
#include <string.h>

#include "buffer.h"
#include "csv_cell.h"
#include "render.h"
#include "trade.h"
#include "wording.h"

/* NULL stands for all. Pages, tables and data all ask here, so that they hold
 * the same booklets. */
bool selected(const struct selection *selection, const struct cutplan *plan)
{
    return (selection->quilt == NULL ||
            strcmp(selection->quilt, plan->quilt->definition->id) == 0) &&
           (selection->colorway == NULL ||
            strcmp(selection->colorway, plan->colorway->id) == 0);
}

/* Plain text, without typographic signs, in English: programs read it. One for
 * a table; each plan sets its quilt. */
static struct wording wording_for(struct arena *arena,
                                  const struct cutplans *plans)
{
    return (struct wording){arena, plans->sewn->sized->design, NULL, false,
                            phrases_load(arena, "en")};
}

/* One row of materials.csv. A price that is not known stays empty, never 0. The
 * order of the cells is that of the head; both change together. */
static void material_row(struct buffer *out, const struct wording *w,
                         const struct cutplan *plan, const struct bolt *bolt,
                         const char *use, const char *amount, const char *unit)
{
    const struct fabric *fabric = &w->design->fabrics.items[bolt->fabric];
    csv_cell(out, plan->quilt->definition->id);
    csv_cell(out, plan->colorway->id);
    csv_cell(out, fabric_letter(out->arena, bolt->fabric));
    csv_cell(out, fabric->name);
    csv_cell(out, bolt->name);
    csv_cell(out, bolt->code);
    csv_cell(out, use);
    csv_cell(out, word_length(w, bolt->width));
    csv_cell(out, amount);
    csv_cell(out, unit);
    csv_cell(out, rational_known(bolt->price)
                  ? rational_decimal(out->arena, bolt->price, 2)
                  : "");
    csv_end_row(out);
}

/* Bought length becomes yards or metres. */
static void yardage_row(struct buffer *out, const struct wording *w,
                        const struct cutplan *plan, const struct bolt *bolt,
                        const char *use, struct rational bought)
{
    const enum length_unit units = w->design->pattern->units;
    const enum length_unit shop = trade_shop_unit(units);
    const struct rational amount =
        rational_mul(bought, length_factor(units, shop));
    material_row(out, w, plan, bolt, use,
                 length_plain(out->arena, amount, shop),
                 length_unit_name(shop));
}

static void fabric_row(struct buffer *out, const struct wording *w,
                       const struct cutplan *plan,
                       const struct fabric_plan *fabric)
{
    if (fabric->bolt->sold != SOLD_YARDAGE)
        material_row(out, w, plan, fabric->bolt, "top",
                     arena_printf(out->arena, "%zu", fabric->bought_sheets),
                     sheet_name(fabric->bolt->sold, false));
    else
        yardage_row(out, w, plan, fabric->bolt, "top", fabric->bought);
}

/* A thread by its spools, where the length of one is told, else by length. */
static void thread_rows(struct buffer *out, const struct wording *w,
                        const struct cutplan *plan)
{
    const struct quilting_plan *quilting = plan->quilting;
    const size_t threads = quilting->told->threads.count;
    const size_t colorway =
        (size_t)(plan->colorway - w->design->colorways.items);
    const enum length_unit units = w->design->pattern->units;
    const enum length_unit shop = trade_shop_unit(units);
    for (size_t i = 0; i < threads; i++) {
        const struct thread_dress *dress =
            &quilting->dresses[colorway * threads + i];
        const double length = quilting->amounts[i].bought *
                              rational_double(length_factor(units, shop));
        if (length == 0)
            continue; /* nothing is stitched with it */
        csv_cell(out, plan->quilt->definition->id);
        csv_cell(out, plan->colorway->id);
        csv_cell(out, "");
        csv_cell(out, quilting->told->threads.items[i].id);
        csv_cell(out, dress->name);
        csv_cell(out, "");
        csv_cell(out, "thread");
        csv_cell(out, "");
        csv_cell(out, arena_printf(out->arena, "%zu",
                               dress->spools > 0 ? dress->spools
                                                 : (size_t)ceil(length)));
        csv_cell(out, dress->spools > 0 ? "spool" : length_unit_name(shop));
        csv_cell(out, "");
        csv_end_row(out);
    }
}

/* A row for each cloth that pieces need, and one for backing that is bought
 * apart. Columns are named in the manual; new ones go to the end. */
const char *render_materials_csv(struct arena *arena,
                                 const struct cutplans *plans,
                                 const struct selection *selection)
{
    struct buffer out = buffer_in(arena);
    buffer_text(
        &out, "quilt,colorway,letter,fabric,cloth,code,use,cloth width,amount,"
              "unit,price\r\n");
    struct wording w = wording_for(arena, plans);
    for (size_t i = 0; i < plans->items.count; i++) {
        const struct cutplan *plan = &plans->items.items[i];
        if (!selected(selection, plan))
            continue;
        w.quilt = plan->quilt;
        for (size_t f = 0; f < w.design->fabrics.count; f++)
            if (plan->fabrics[f].items.count > 0)
                fabric_row(&out, &w, plan, &plan->fabrics[f]);
        if (plan->backing.wanted && !plan->backing.together)
            yardage_row(&out, &w, plan, plan->backing.bolt, "backing",
                        plan->backing.bought);
        if (plan->quilting != NULL)
            thread_rows(&out, &w, plan);
    }
    return buffer_string(&out);
}

/* Adds `times` for each strip that holds an item. The last one of a line may
 * hold none. */
static void count_strip(const struct strip *strip, size_t times, size_t *strips)
{
    const size_t part = strip->last.count > 0 ? 1 : 0;
    for (size_t k = 0; k < strip->cuts.count; k++)
        strips[strip->cuts.items[k].item] += times * (strip->repeat - part);
    for (size_t k = 0; k < strip->last.count; k++)
        strips[strip->last.items[k].item] += times;
}

/* By item: in how many strips it lies, across the cloth or in a sheet. All at
 * once, as a cloth may have thousands of sizes. */
static const size_t *strips_of(struct arena *arena,
                               const struct fabric_plan *plan)
{
    size_t *strips = ARENA_ARRAY(arena, size_t, plan->items.count);
    for (size_t i = 0; i < plan->strips.count; i++)
        count_strip(&plan->strips.items[i], 1, strips);
    for (size_t i = 0; i < plan->sheets.count; i++)
        for (size_t k = 0; k < plan->sheets.items[i].strips.count; k++)
            count_strip(&plan->sheets.items[i].strips.items[k],
                        plan->sheets.items[i].repeat, strips);
    return strips;
}

/* The longer side first, unless a print keeps the piece upright. */
static void cutting_row(struct buffer *out, const struct wording *w,
                        const struct cutplan *plan,
                        const struct fabric_plan *fabric, size_t index,
                        size_t strips)
{
    const struct cut_item *item = &fabric->items.items[index];
    csv_cell(out, plan->quilt->definition->id);
    csv_cell(out, plan->colorway->id);
    csv_cell(out, item->label);
    /* The role, as cloth differs by colorway and stands in materials.csv. */
    csv_cell(out, w->design->fabrics.items[item->fabric].name);
    csv_cell(out, word_length(w, item->width));
    csv_cell(out, word_length(w, item->height));
    csv_cell(out, arena_printf(out->arena, "%zu", item->count));
    csv_cell(out, arena_printf(out->arena, "%zu", strips));
    csv_cell(out, word_purpose(w, item));
    csv_end_row(out);
}

/* The whole strips that hold a shape. */
static size_t strips_with(const struct cut_item *item, size_t number)
{
    size_t strips = 0;
    for (size_t i = 0; i < item->shaped_strips.count; i++) {
        const struct shaped_strip *strip = &item->shaped_strips.items[i];
        bool holds = false;
        for (size_t k = 0; k < strip->pieces.count; k++)
            holds |= strip->pieces.items[k] == number;
        strips += holds ? strip->repeat : 0;
    }
    return strips;
}

/* How far a shape reaches along its strip, in steps of a ruler. */
static struct rational shape_width(const struct strip_shape *strip,
                                   struct rational step)
{
    struct rational width = rational_whole(0);
    for (size_t i = 0; i < strip->as_cut.count; i++)
        width = rational_max(width, strip->as_cut.points[i].x);
    return rational_round_up(width, step);
}

/* A row for each shape that is cut from the strips of one item, in the size
 * that holds it. */
static void shape_rows(struct buffer *out, const struct wording *w,
                       const struct cutplan *plan,
                       const struct fabric_plan *fabric, size_t index)
{
    const struct cut_item *item = &fabric->items.items[index];
    for (size_t i = 0; i < item->shaped.count; i++) {
        const struct shaped_piece *piece = &item->shaped.items[i];
        struct cut_item one = *item;
        struct fabric_plan alone = {.fabric = fabric->fabric};
        one.label = piece->label;
        one.width = shape_width(piece->strip, w->design->pattern->cutting_step);
        one.count = piece->count;
        alone.items.items = &one;
        cutting_row(out, w, plan, &alone, 0, strips_with(item, i));
    }
}

/* A row for each cut size. Strips that hold several sizes count for each of
 * them, so that column must not be added up. */
const char *render_cutting_csv(struct arena *arena,
                               const struct cutplans *plans,
                               const struct selection *selection)
{
    struct buffer out = buffer_in(arena);
    struct wording w = wording_for(arena, plans);
    /* A head row; names are English, whatever the booklet speaks. */
    buffer_text(&out, "quilt,colorway,label,fabric,cut width,cut height,pieces,"
                      "from strips,for\r\n");
    for (size_t i = 0; i < plans->items.count; i++) {
        const struct cutplan *plan = &plans->items.items[i];
        if (!selected(selection, plan))
            continue;
        w.quilt = plan->quilt;
        for (size_t f = 0; f < w.design->fabrics.count; f++) {
            const struct fabric_plan *fabric = &plan->fabrics[f];
            const size_t *strips = strips_of(arena, fabric);
            for (size_t k = 0; k < fabric->items.count; k++)
                if (fabric->items.items[k].shaped.count > 0)
                    shape_rows(&out, &w, plan, fabric, k);
                else
                    cutting_row(&out, &w, plan, fabric, k, strips[k]);
        }
    }
    return buffer_string(&out);
}
