/* What was planned of an order, as tables for a spreadsheet: what is bought,
 * how each roll is cut, what is fetched, what each kit holds, how it is
 * counted, what it costs. A length stands twice, as a decimal and as it is read
 * off a ruler. English, as programs read it. Read next: kits_shelf.c. */
#include <string.h>

#include "csv_cell.h"
#include "render.h"

/* Counts have no separators: programs read them. */
static const char *number(struct arena *arena, size_t value)
{
    return arena_printf(arena, "%zu", value);
}

/* Up to four places, as the finest that a source can tell, without zeros behind
 * them. */
static const char *decimal(struct arena *arena, struct rational value)
{
    char *text = rational_decimal(arena, value, 4);
    size_t length = strlen(text);
    while (length > 0 && text[length - 1] == '0')
        length--;
    while (length > 0 && text[length - 1] == '.')
        length--;
    return arena_copy(arena, text, length);
}

/* Twice: to be added up, and to be measured. */
static void length_cells(struct buffer *out, const struct kits *kits,
                         struct rational length)
{
    csv_cell(out, decimal(out->arena, length));
    csv_cell(out, length_plain(out->arena, length, kits->order->units));
}

/* Empty where a price lacks, never 0. */
static void money_cell(struct buffer *out, const struct kits *kits,
                       struct rational value)
{
    csv_cell(out, money_text(out->arena, kits->order, value));
}

/* Every row has as many cells as the head. */
static void empty_cells(struct buffer *out, size_t count)
{
    for (size_t i = 0; i < count; i++)
        csv_cell(out, "");
}

/* What a cloth is called by, the same in all tables. */
static void cloth_cells(struct buffer *out, const struct kits_cloth *cloth)
{
    csv_cell(out, cloth->code);
    csv_cell(out, cloth->name);
    csv_cell(out,
             arena_printf(out->arena, "#%06lx", (unsigned long)cloth->color));
}

/* ---- what is bought ---- */

/* What is counted has no length. */
static void piece_rows(struct buffer *out, const struct kits *kits,
                       const struct kits_cloth *cloth)
{
    for (size_t i = 0; i < cloth->pieces.count; i++) {
        const struct kits_pieces *pieces = &cloth->pieces.items[i];
        if (pieces->bought == 0)
            continue;
        csv_cell(out, cloth->supplier);
        cloth_cells(out, cloth);
        csv_cell(out, sheet_name(pieces->kind, false));
        csv_cell(out, number(out->arena, pieces->bought));
        empty_cells(out, 2);
        csv_cell(out, rational_known(pieces->price)
                          ? decimal(out->arena, pieces->price)
                          : "");
        money_cell(out, kits,
                   rational_times(pieces->price, (int64_t)pieces->bought));
        csv_end_row(out);
    }
}

/* So many bolts or steps, and what they are together. */
static void length_row(struct buffer *out, const struct kits *kits,
                       const struct kits_cloth *cloth)
{
    csv_cell(out, cloth->supplier);
    cloth_cells(out, cloth);
    csv_cell(out, order_sold_name(cloth->sold));
    csv_cell(out, number(out->arena, cloth->bought));
    length_cells(out, kits, cloth->bought_length);
    csv_cell(out, rational_known(cloth->price)
                      ? decimal(out->arena, cloth->price)
                      : "");
    money_cell(out, kits, rational_times(cloth->price, (int64_t)cloth->bought));
    csv_end_row(out);
}

/* In the order of the lines that need it; a sheet can sort by the supplier's
 * code. */
const char *render_purchase_csv(struct arena *arena, const struct kits *kits)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, "supplier,code,cloth,color,sold by,count,length,"
                      "length on a ruler,price,cost\r\n");
    for (size_t i = 0; i < kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &kits->cloths.items[i];
        if (cloth->bought > 0)
            length_row(&out, kits, cloth);
        piece_rows(&out, kits, cloth);
    }
    /* The sum of exact values, and not of the rounded ones above it. */
    csv_cell(&out, "all");
    empty_cells(&out, 8);
    money_cell(&out, kits, kits->bought_cost);
    csv_end_row(&out);
    return buffer_string(&out);
}

/* ---- how rolls are cut ---- */

/* By its place in the order, or as the how-manieth new one of its cloth. */
static const char *roll_name(struct arena *arena, const struct kits_roll *roll)
{
    return arena_printf(arena, "%s %zu", roll->bolt == NULL ? "new" : "shelf",
                        roll->number);
}

/* Lines count from 1, as the order tells them. */
static const char *taker_name(struct arena *arena, size_t line,
                              enum kits_cut_kind kind)
{
    if (line == KITS_SPARE)
        return "spare";
    if (line == KITS_PIECES)
        return kind == CUT_TO_SHEETS ? "fat quarters" : "pieces";
    return arena_printf(arena, "line %zu", line + 1);
}

/* The lot beside each cut, as dyes differ. */
static void roll_cells(struct buffer *out, const struct kits_cloth *cloth,
                       const struct kits_roll *roll)
{
    csv_cell(out, cloth->code);
    csv_cell(out, cloth->name);
    csv_cell(out, roll_name(out->arena, roll));
    csv_cell(out, roll->bolt == NULL ? "" : roll->bolt->lot);
}

/* Each run of cuts, then what is left. */
static void roll_rows(struct buffer *out, const struct kits *kits,
                      const struct kits_cloth *cloth,
                      const struct kits_roll *roll)
{
    for (size_t i = 0; i < roll->runs.count; i++) {
        const struct kits_run *run = &roll->runs.items[i];
        const struct kits_cut *cut = &cloth->cuts.items[run->cut];
        roll_cells(out, cloth, roll);
        csv_cell(out, "cut");
        csv_cell(out, number(out->arena, run->count));
        length_cells(out, kits, cut->length);
        csv_cell(out, taker_name(out->arena, run->line, cut->kind));
        length_cells(out, kits, run->to);
        csv_end_row(out);
    }
    if (rational_sign(roll->left) == 0)
        return;
    roll_cells(out, cloth, roll);
    csv_cell(out, roll->kept ? "keep" : "lose");
    csv_cell(out, "1");
    length_cells(out, kits, roll->left);
    csv_cell(out, roll->kept ? "shelf" : "");
    length_cells(out, kits, rational_add(roll->from, roll->length));
    csv_end_row(out);
}

/* Cloth by cloth, as bolts are laid on the table. */
const char *render_bolts_csv(struct arena *arena, const struct kits *kits)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, "code,cloth,bolt,lot,what,count,length,"
                      "length on a ruler,for,to,to on a ruler\r\n");
    for (size_t i = 0; i < kits->cloths.count; i++)
        for (size_t k = 0; k < kits->cloths.items[i].rolls.count; k++)
            roll_rows(&out, kits, &kits->cloths.items[i],
                      &kits->cloths.items[i].rolls.items[k]);
    return buffer_string(&out);
}

/* ---- kits that are cut ---- */

/* "9 of 4 1/2 x 4 1/2, 1 of 4 1/2 x 2". */
static const char *segments_text(struct arena *arena, const struct kits *kits,
                                 const struct kits_cloth *cloth,
                                 const struct kits_strip *strip)
{
    struct buffer out = buffer_in(arena);
    const enum length_unit units = kits->order->units;
    for (size_t i = 0; i < strip->segments.count; i++) {
        const struct kits_segment *segment = &strip->segments.items[i];
        const struct kits_size *size =
            &cloth->cutting.sizes.items[segment->size];
        buffer_printf(&out, "%s%zu of %s x %s", i == 0 ? "" : ", ",
                      segment->count, length_plain(arena, size->width, units),
                      length_plain(arena, size->height, units));
    }
    return strip->segments.count == 0 ? "whole" : buffer_string(&out);
}

/* In the order in which they were planned: whole ones, then the highest. */
static void strip_row(struct buffer *out, const struct kits *kits,
                      const struct kits_cloth *cloth,
                      const struct kits_strip *strip)
{
    csv_cell(out, cloth->code);
    csv_cell(out, cloth->name);
    csv_cell(out, number(out->arena, strip->repeat));
    length_cells(out, kits, strip->height);
    csv_cell(out, segments_text(out->arena, kits, cloth, strip));
    csv_cell(out, number(out->arena, kits->order->layers));
    csv_cell(out, number(out->arena, strip->passes));
    csv_cell(out, number(out->arena, strip->cross_cuts));
    csv_cell(out, number(out->arena, strip->settings));
    csv_end_row(out);
}

/* Only a head where no kit is cut. */
const char *render_strips_csv(struct arena *arena, const struct kits *kits)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, "code,cloth,strips,height,height on a ruler,pieces,"
                      "layers,passes,cross cuts,settings\r\n");
    for (size_t i = 0; i < kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &kits->cloths.items[i];
        for (size_t k = 0; k < cloth->cutting.strips.count; k++)
            strip_row(&out, kits, cloth, &cloth->cutting.strips.items[k]);
    }
    return buffer_string(&out);
}

/* ---- what is fetched ---- */

/* The shelf first: that is where hands go. */
static void pick_cells(struct buffer *out, const struct kits_cloth *cloth,
                       const char *what, size_t count)
{
    csv_cell(out, cloth->shelf);
    cloth_cells(out, cloth);
    csv_cell(out, what);
    csv_cell(out, number(out->arena, count));
}

/* A bolt whose stretches between flaws are cut is fetched once. */
static bool fetched_before(const struct kits_cloth *cloth, size_t roll)
{
    for (size_t i = 0; i < roll; i++)
        if (cloth->rolls.items[i].bolt == cloth->rolls.items[roll].bolt)
            return true;
    return false;
}

/* Bolts that lie there, then what is new, then what is counted. */
static void pick_rows(struct buffer *out, const struct kits *kits,
                      const struct kits_cloth *cloth)
{
    for (size_t i = 0; i < cloth->rolls.count; i++) {
        const struct kits_roll *roll = &cloth->rolls.items[i];
        if (roll->bolt == NULL || fetched_before(cloth, i))
            continue;
        pick_cells(out, cloth, roll_name(out->arena, roll), 1);
        length_cells(out, kits, roll->bolt->length);
        csv_cell(out, roll->bolt->lot);
        csv_end_row(out);
    }
    if (cloth->bought > 0) {
        pick_cells(out, cloth, "new",
                   cloth->sold == SELL_BOLT ? cloth->bought : 1);
        length_cells(out, kits,
                     cloth->sold == SELL_BOLT ? cloth->step
                                              : cloth->bought_length);
        csv_cell(out, "");
        csv_end_row(out);
    }
    for (size_t i = 0; i < cloth->pieces.count; i++) {
        const struct kits_pieces *pieces = &cloth->pieces.items[i];
        const size_t all = pieces->needed + pieces->spare;
        const size_t lying = all < pieces->shelf ? all : pieces->shelf;
        const size_t count = lying + pieces->bought;
        if (count == 0)
            continue;
        pick_cells(out, cloth, sheet_name(pieces->kind, false), count);
        empty_cells(out, 3);
        csv_end_row(out);
    }
}

/* By shelf, code and name; what has no shelf comes first. */
const char *render_picking_csv(struct arena *arena, const struct kits *kits)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, "shelf,code,cloth,color,what,count,length,"
                      "length on a ruler,lot\r\n");
    for (size_t i = 0; i < kits->cloths.count; i++)
        pick_rows(&out, kits, &kits->cloths.items[kits->picks[i]]);
    return buffer_string(&out);
}

/* ---- what a kit holds ---- */

/* Every table of kits begins so, and can be joined to the others. */
static void line_cells(struct buffer *out, const struct kits_line *line)
{
    csv_cell(out, number(out->arena, line->asked->number));
    csv_cell(out, line->facts->title);
    csv_cell(out, line->facts->quilt);
    csv_cell(out, line->facts->colorway);
    csv_cell(out, number(out->arena, line->asked->kits));
}

/* One thing in the bag. `width`, `length`: unknown where it has none. */
struct held {
    const char *what, *label;
    size_t count;
    struct rational width, length;
};

/* As a ruler has it; nothing for what has no size. */
static void size_cells(struct buffer *out, const struct kits *kits,
                       struct rational length)
{
    csv_cell(out, rational_known(length)
                      ? length_plain(out->arena, length, kits->order->units)
                      : "");
}

/* What, by which label, how many, how large. */
static void held_cells(struct buffer *out, const struct kits *kits,
                       const struct held *held)
{
    csv_cell(out, held->what);
    csv_cell(out, held->label);
    csv_cell(out, number(out->arena, held->count));
    size_cells(out, kits, held->width);
    size_cells(out, kits, held->length);
}

typedef LIST(struct held) held_list;

/* All that a content is, in one form for slips and counts. */
static held_list all_held(struct arena *arena, const struct kits *kits,
                          const struct kits_content *content)
{
    const struct rational width = kits->cloths.items[content->cloth].width;
    held_list list = {.items = NULL};
    if (rational_sign(content->length) > 0)
        *LIST_ADD(arena, &list) = (struct held){
            content->part == PART_OF_BACKING ? "backing" : "length", "", 1,
            width, content->length};
    for (size_t i = 0; i < content->strips.count; i++)
        *LIST_ADD(arena, &list) =
            (struct held){"strip", "", content->strips.items[i].count, width,
                          content->strips.items[i].height};
    if (content->pieces > 0)
        *LIST_ADD(arena, &list) =
            (struct held){sheet_name(content->kind, false), "", content->pieces,
                          rational_unknown(), rational_unknown()};
    for (size_t i = 0; i < content->bag.count; i++) {
        const struct kits_bag_piece *piece = &content->bag.items[i];
        *LIST_ADD(arena, &list) =
            (struct held){piece->joined ? "strip" : "piece", piece->label,
                          piece->count, piece->width, piece->height};
    }
    return list;
}

/* Fiber in its maker's words: what must be told where, local rules say. */
static void slip_row(struct buffer *out, const struct kits *kits,
                     const struct kits_line *line,
                     const struct kits_content *content,
                     const struct held *held)
{
    line_cells(out, line);
    csv_cell(out, content->letter);
    csv_cell(out, content->role);
    cloth_cells(out, &kits->cloths.items[content->cloth]);
    held_cells(out, kits, held);
    csv_cell(out, kits->cloths.items[content->cloth].fiber);
    csv_end_row(out);
}

/* What is no cloth. */
static void thing_row(struct buffer *out, const struct kits *kits,
                      const struct kits_line *line, const char *name,
                      struct held held)
{
    line_cells(out, line);
    csv_cell(out, "");
    csv_cell(out, name);
    empty_cells(out, 3);
    held_cells(out, kits, &held);
    csv_cell(out, "");
    csv_end_row(out);
}

/* Batting and thread by what the pattern needs, then what the order adds. */
static void thing_rows(struct buffer *out, const struct kits *kits,
                       const struct kits_line *line)
{
    const struct kit_facts *facts = line->facts;
    const struct rational none = rational_unknown();
    const struct rational factor =
        length_factor(facts->units, kits->order->units);
    if (facts->batting && line->asked->batting)
        thing_row(out, kits, line, "batting",
                  (struct held){"batting", "", 1,
                                rational_mul(facts->batting_width, factor),
                                rational_mul(facts->batting_height, factor)});
    for (size_t i = 0; line->asked->thread && i < facts->threads.count; i++) {
        const struct kit_thread *thread = &facts->threads.items[i];
        const char *name = thread->name[0] != '\0' ? thread->name : thread->id;
        thing_row(out, kits, line, name,
                  (struct held){"thread", "",
                                thread->spools > 0 ? thread->spools : 1, none,
                                none});
    }
    for (size_t i = 0; i < line->asked->extras.count; i++) {
        const struct order_extra *extra = &line->asked->extras.items[i];
        thing_row(out, kits, line, extra->name,
                  (struct held){"extra", "", extra->count, none, none});
    }
}

/* One kit of each line: all kits of a line are alike. */
const char *render_slips_csv(struct arena *arena, const struct kits *kits)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, "line,pattern,quilt,colorway,kits,letter,fabric,code,"
                      "cloth,color,what,label,count,width,length,fiber\r\n");
    for (size_t i = 0; i < kits->order->lines.count; i++) {
        const struct kits_line *line = &kits->lines[i];
        for (size_t k = 0; k < line->contents.count; k++) {
            const struct kits_content *content = &line->contents.items[k];
            const held_list held = all_held(arena, kits, content);
            for (size_t h = 0; h < held.count; h++)
                slip_row(&out, kits, line, content, &held.items[h]);
        }
        thing_rows(&out, kits, line);
    }
    return buffer_string(&out);
}

/* ---- how a kit is counted ---- */

/* A weight stands only where the scale can tell that one piece lacks. */
static void count_row(struct buffer *out, const struct kits *kits,
                      const struct kits_line *line,
                      const struct kits_content *content)
{
    const held_list held = all_held(out->arena, kits, content);
    size_t count = 0;
    for (size_t i = 0; i < held.count; i++)
        count += held.items[i].count;
    line_cells(out, line);
    csv_cell(out, content->letter);
    csv_cell(out, kits->cloths.items[content->cloth].name);
    csv_cell(out, number(out->arena, count));
    csv_cell(out, content->weight_tells
                      ? rational_decimal(out->arena, content->grams, 1)
                      : "");
    csv_cell(out, content->weight_tells
                      ? rational_decimal(out->arena, content->grams_error, 1)
                      : "");
    csv_cell(out, content->weight_tells ? "weigh" : "count");
    csv_end_row(out);
}

/* A row for each bag of cloth, which a scale or an eye takes at once. */
const char *render_count_csv(struct arena *arena, const struct kits *kits)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, "line,pattern,quilt,colorway,kits,letter,cloth,pieces,"
                      "grams,grams off,check\r\n");
    for (size_t i = 0; i < kits->order->lines.count; i++)
        for (size_t k = 0; k < kits->lines[i].contents.count; k++)
            count_row(&out, kits, &kits->lines[i],
                      &kits->lines[i].contents.items[k]);
    return buffer_string(&out);
}

/* ---- what kits cost ---- */

/* One digit behind the point, rounded as money is. */
static const char *percent(struct arena *arena, struct rational part)
{
    if (!rational_known(part))
        return "";
    const struct order tenths = {.digits = 1};
    return money_text(arena, &tenths, rational_times(part, 100));
}

/* For the shop alone: no slip has a cost. */
const char *render_costs_csv(struct arena *arena, const struct kits *kits)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, "line,pattern,quilt,colorway,kits,cloth,extras,cost,"
                      "price,margin %\r\n");
    for (size_t i = 0; i < kits->order->lines.count; i++) {
        const struct kits_line *line = &kits->lines[i];
        line_cells(&out, line);
        money_cell(&out, kits, line->cloth_cost);
        money_cell(&out, kits, line->extras_cost);
        money_cell(&out, kits, line->cost);
        money_cell(&out, kits, line->asked->price);
        csv_cell(&out, percent(arena, line->margin));
        csv_end_row(&out);
    }
    csv_cell(&out, "all");
    empty_cells(&out, 3);
    csv_cell(&out, number(arena, kits->kit_count));
    empty_cells(&out, 2);
    money_cell(&out, kits, kits->kits_cost);
    money_cell(&out, kits, kits->kits_price);
    csv_cell(&out, percent(arena, rational_div(rational_sub(kits->kits_price,
                                                            kits->kits_cost),
                                               kits->kits_price)));
    csv_end_row(&out);
    return buffer_string(&out);
}
