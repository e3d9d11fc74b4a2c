/* How hands cut a strip. Cloth comes off the bolt folded selvage to selvage and
 * strips stay folded: a cut from the selvage end goes through two layers and
 * gives two pieces. What does not pair is cut last, from the part at the fold,
 * when that is opened. So no piece lies across the fold, and what is left of
 * the strip stays there in one rectangle. Any strip can be cut so: pairs and
 * single pieces together take no more of its length than side by side. Read
 * next: place.c, which proves it. */
#include "cutter.h"

/* As many pairs as a cut gives, the odd one apart. */
static void fold_cut(struct arena *arena, size_t layers, struct strip_cut cut,
                     struct strip_work *work)
{
    const size_t pairs = layers == 1 ? 0 : cut.count / 2;
    const size_t single = cut.count - 2 * pairs;
    cut.count = pairs;
    if (pairs > 0)
        *LIST_ADD(arena, &work->pairs) = cut;
    work->folded =
        rational_add(work->folded, rational_times(cut.along, (int64_t)pairs));
    cut.count = single;
    if (single > 0)
        *LIST_ADD(arena, &work->singles) = cut;
}

/* Measuring comes before a border is cut: what is cut too short stays so. */
bool keeps_rest(const struct fabric_plan *plan, const struct strip_cut *cut)
{
    const struct cut_item *item = &plan->items.items[cut->item];
    return item->use == CUT_BORDER && !item->joined && !item->lengthwise &&
           cut->stack == 1 && rational_compare(cut->along, cut->across) >= 0;
}

/* A piece that is longer than the folded strip is cut first, from the opened
 * one: then there is nothing left to fold. */
static bool crosses_fold(const struct fabric_plan *plan,
                         const struct strip_cut *cuts, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!keeps_rest(plan, &cuts[i]) &&
            rational_compare(rational_times(cuts[i].along, 2),
                             plan->strip_length) > 0)
            return true;
    return false;
}

/* Longest first, as they were: rulers are set from long to short. Borders stay
 * behind all others, in what is opened. */
struct strip_work fold_strip(struct arena *arena,
                             const struct fabric_plan *plan,
                             const struct strip *strip, bool last)
{
    const bool part = last && strip->last.count > 0;
    const struct strip_cut *cuts = part ? strip->last.items : strip->cuts.items;
    const size_t count = part ? strip->last.count : strip->cuts.count;
    const size_t layers =
        crosses_fold(plan, cuts, count) ? 1 : plan->bolt->layers;
    struct strip_work work = {.folded = rational_whole(0)};
    for (size_t i = 0; i < count; i++)
        if (!keeps_rest(plan, &cuts[i]))
            fold_cut(arena, layers, cuts[i], &work);
    for (size_t i = 0; i < count; i++)
        if (keeps_rest(plan, &cuts[i]))
            fold_cut(arena, 1, cuts[i], &work);
    work.opened =
        rational_sub(plan->strip_length, rational_times(work.folded, 2));
    return work;
}

/* Each strip of lengthwise cloth is one long piece, or alike ones one behind
 * the other, into which it is sliced. */
struct strip_work fold_sheet(struct arena *arena,
                             const struct fabric_plan *plan,
                             const struct sheet *sheet)
{
    struct strip_work work = {.folded = rational_whole(0)};
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        const struct strip_cut *long_cut = &strip->cuts.items[0];
        fold_cut(arena, plan->bolt->layers,
                 (struct strip_cut){long_cut->item, strip->repeat,
                                    long_cut->count, strip->height,
                                    long_cut->along},
                 &work);
    }
    work.opened = rational_sub(sheet->width, rational_times(work.folded, 2));
    return work;
}

static bool has_size(const struct sheet *rest, struct rational width,
                     struct rational height)
{
    return rational_equal(rest->width, width) &&
           rational_equal(rest->height, height);
}

bool is_rest_of(const struct sheet *rest, const struct sheet *sheet)
{
    if (rest->kind != SHEET_REST || sheet->kind != SHEET_LENGTHWISE)
        return false;
    if (!rest->foot)
        return has_size(rest, rational_sub(sheet->width, sheet->used),
                        sheet->height);
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        if (has_size(rest, strip->height,
                     rational_sub(sheet->height, strip->used)))
            return true;
    }
    return false;
}

bool is_whole_strip(const struct fabric_plan *plan, const struct strip *strip)
{
    return strip->cuts.count == 1 &&
           plan->items.items[strip->cuts.items[0].item].joined;
}

bool is_left_whole(const struct fabric_plan *plan, const struct strip *strip)
{
    const struct strip_cut *first = &strip->cuts.items[0];
    return is_whole_strip(plan, strip) ||
           (strip->cuts.count == 1 && strip->last.count == 0 &&
            keeps_rest(plan, first) &&
            rational_equal(first->across, strip->height));
}

struct rational strip_spare(const struct fabric_plan *plan,
                            const struct strip *strip)
{
    return is_whole_strip(plan, strip)
               ? rational_unknown()
               : rational_sub(plan->strip_length, strip->used);
}

/* What the longest of its strips leaves of their length. */
static struct rational along_spare(const struct sheet *sheet)
{
    const struct rational length = sheet->down ? sheet->height : sheet->width;
    struct rational used = rational_whole(0);
    for (size_t i = 0; i < sheet->strips.count; i++)
        used = rational_max(used, sheet->strips.items[i].used);
    return rational_sub(length, used);
}

struct rational sheet_width_spare(const struct sheet *sheet)
{
    return sheet->down ? rational_sub(sheet->width, sheet->used)
                       : along_spare(sheet);
}

struct rational sheet_height_spare(const struct sheet *sheet)
{
    return sheet->down ? along_spare(sheet)
                       : rational_sub(sheet->height, sheet->used);
}

struct rational width_spare(const struct sheet *lengthwise,
                            const struct sheet *sheets, size_t count)
{
    struct rational spare = sheet_width_spare(lengthwise);
    for (size_t i = 0; i < lengthwise->strips.count; i++)
        if (rational_equal(lengthwise->strips.items[i].height,
                           lengthwise->width))
            return rational_unknown();
    for (size_t i = 0; i < count; i++)
        if (!sheets[i].foot && is_rest_of(&sheets[i], lengthwise))
            spare = rational_min(spare, sheet_width_spare(&sheets[i]));
    return spare;
}

/* Rounded up: an incomplete stack is cut, too. */
static size_t stacks(size_t pieces, size_t layers)
{
    return (pieces + layers - 1) / layers;
}

/* Cuts of a list of segments; slices and trims go through one segment each. */
static size_t cuts_of(const struct strip_cut *cuts, size_t count)
{
    size_t sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += cuts[i].count;
    return sum;
}

/* Strips come off the folded cloth one by one; like ones are then stacked as
 * high as the layers allow. The first cut of a stack squares up its ends. */
static size_t line_cuts(struct arena *arena, const struct fabric_plan *plan,
                        const struct strip *strip)
{
    if (is_whole_strip(plan, strip))
        return strip->repeat;
    const size_t layers = plan->bolt->layers;
    const size_t folded = layers == 4 ? 2 : 1;
    size_t cuts = strip->repeat;
    for (int last = 0; last < 2; last++) {
        const size_t own = strip->last.count > 0 ? 1 : 0;
        const size_t strips = last == 1 ? own : strip->repeat - own;
        const struct strip_work work =
            fold_strip(arena, plan, strip, last == 1);
        if (strips == 0)
            continue;
        cuts += stacks(strips, folded) *
                (1 + cuts_of(work.pairs.items, work.pairs.count));
        cuts += stacks(strips, layers) *
                cuts_of(work.singles.items, work.singles.count);
    }
    return cuts;
}

/* A sheet's strips are one layer each; like sheets are stacked. */
static size_t sheet_cuts(const struct fabric_plan *plan,
                         const struct sheet *sheet)
{
    size_t cuts = 0;
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        cuts +=
            strip->repeat * (1 + cuts_of(strip->cuts.items, strip->cuts.count));
    }
    return cuts * stacks(sheet->repeat, plan->bolt->layers);
}

size_t hand_cuts(const struct fabric_plan *plan)
{
    struct arena *scratch = arena_create();
    size_t cuts = 0;
    for (size_t i = 0; i < plan->strips.count; i++)
        cuts += line_cuts(scratch, plan, &plan->strips.items[i]);
    for (size_t i = 0; i < plan->sheets.count; i++)
        cuts += sheet_cuts(plan, &plan->sheets.items[i]);
    arena_destroy(scratch);
    return cuts;
}
