/* Other ways to lay lengthwise pieces than in the least length. What stays
 * beside them is of another shape then, and may serve what did not fit: a long
 * piece and a short one of each pair in a length of their own leave a rest that
 * is twice as wide, two short ones one behind the other leave more beside them.
 * Read next: joint.c. */
#include "cutter.h"

enum {
    MOST_SIZES = 8,   /* of lengthwise pieces; of more none is laid otherwise */
    MOST_LENGTHS = 2, /* of cloth, besides pieces that take the whole width */
    MOST_LAYOUTS = 24, /* each is a list to plan */
    MOST_CHOICES = 512 /* of what lies in the first length */
};

/* A search for layouts. */
struct laying {
    struct arena *arena;
    const struct fabric_plan *plan;
    size_t items[MOST_SIZES]; /* longest first */
    size_t left[MOST_SIZES];  /* of each, not yet laid */
    size_t count;
    struct layout layout; /* as far as it is laid */
    size_t lengths;
    struct layouts *found;
};

/* `i` counts the items that are laid here, not those of the plan. */
static const struct cut_item *item_at(const struct laying *laying, size_t i)
{
    return &laying->plan->items.items[laying->items[i]];
}

/* How many pieces of this length stand one behind the other. */
static size_t behind(struct rational height, const struct cut_item *item)
{
    return (size_t)rational_floor(rational_div(height, item->height));
}

/* Columns of pieces one behind the other, the last one with what is left. */
static void add_columns(struct arena *arena, struct sheet *sheet, size_t item,
                        const struct cut_item *piece, size_t count)
{
    const size_t most = behind(sheet->height, piece);
    const size_t parts[2][2] = {{count / most, most}, {1, count % most}};
    for (int part = 0; part < 2; part++) {
        if (parts[part][0] == 0 || parts[part][1] == 0)
            continue;
        struct strip *strip = LIST_ADD(arena, &sheet->strips);
        strip->repeat = parts[part][0];
        *LIST_ADD(arena, &strip->cuts) = (struct strip_cut){
            item, parts[part][1], 1, piece->height, piece->width};
        settle_strip(strip);
        sheet->used = rational_add(
            sheet->used, rational_times(strip->height, (int64_t)strip->repeat));
    }
}

/* One length of cloth with `counts` of each size. ensures: false where they are
 * wider than the cloth. */
static bool lay_length(const struct laying *laying, const size_t *counts,
                       struct rational height, struct sheet *sheet)
{
    *sheet = (struct sheet){.kind = SHEET_LENGTHWISE,
                            .width = laying->plan->strip_length,
                            .height = height,
                            .down = true,
                            .used = rational_whole(0),
                            .repeat = 1};
    for (size_t i = 0; i < laying->count; i++)
        if (counts[i] > 0)
            add_columns(laying->arena, sheet, laying->items[i],
                        item_at(laying, i), counts[i]);
    return rational_compare(sheet->used, sheet->width) <= 0;
}

/* Equal sheets that follow each other are one sheet that repeats, as in plans,
 * so that layouts can be compared and told alike. */
static void keep_layout(struct laying *laying)
{
    struct layout *kept = LIST_ADD(laying->arena, &laying->found->list);
    for (size_t i = 0; i < laying->layout.sheets.count; i++) {
        const struct sheet *sheet = &laying->layout.sheets.items[i];
        const size_t last = kept->sheets.count;
        if (last > 0 && same_sheets(&kept->sheets.items[last - 1], sheet))
            kept->sheets.items[last - 1].repeat += sheet->repeat;
        else
            *LIST_ADD(laying->arena, &kept->sheets) = *sheet;
    }
}

static void lay_rest(struct laying *laying);

/* A length for these counts, as long as its longest piece or a little longer,
 * so that shorter ones can stand one behind the other; then what is left. */
static void lay_counts(struct laying *laying, const size_t *counts)
{
    struct rational longest = rational_whole(0);
    for (size_t i = 0; i < laying->count; i++)
        if (counts[i] > 0)
            longest = rational_max(longest, item_at(laying, i)->height);
    const struct rational most = rational_mul(longest, rational_make(5, 4));
    for (size_t i = 0; i <= laying->count; i++) {
        struct rational height = longest;
        if (i < laying->count)
            height = rational_times(item_at(laying, i)->height, 2);
        if (i < laying->count &&
            (counts[i] < 2 || rational_compare(height, longest) <= 0 ||
             rational_compare(height, most) > 0))
            continue;
        struct sheet sheet;
        if (!lay_length(laying, counts, height, &sheet))
            continue;
        *LIST_ADD(laying->arena, &laying->layout.sheets) = sheet;
        laying->lengths++;
        for (size_t k = 0; k < laying->count; k++)
            laying->left[k] -= counts[k];
        lay_rest(laying);
        for (size_t k = 0; k < laying->count; k++)
            laying->left[k] += counts[k];
        laying->lengths--;
        laying->layout.sheets.count--;
    }
}

/* The next choice of counts: a number with a digit for each size. */
static bool next_counts(const struct laying *laying, size_t *counts)
{
    for (size_t i = laying->count; i-- > 0;) {
        if (counts[i] > 0) {
            counts[i]--;
            return true;
        }
        counts[i] = laying->left[i];
    }
    return false;
}

/* All that is left in one length, or what holds the longest that is left and
 * some of the others. */
static void lay_rest(struct laying *laying)
{
    size_t first = 0;
    while (first < laying->count && laying->left[first] == 0)
        first++;
    if (first == laying->count) {
        keep_layout(laying);
        return;
    }
    size_t counts[MOST_SIZES], choices = 0;
    for (size_t i = 0; i < laying->count; i++)
        counts[i] = laying->left[i];
    const bool last = laying->lengths + 1 == MOST_LENGTHS;
    do {
        if (counts[first] > 0)
            lay_counts(laying, counts);
    } while (!last && ++choices < MOST_CHOICES &&
             laying->found->list.count < MOST_LAYOUTS &&
             next_counts(laying, counts));
}

/* Longest first; false where there are too many sizes. Pieces that leave no
 * room for any other beside them are laid at once. */
static bool gather(struct laying *laying)
{
    const struct fabric_plan *plan = laying->plan;
    struct rational least = plan->strip_length;
    for (size_t i = 0; i < plan->items.count; i++)
        if (plan->items.items[i].lengthwise &&
            rational_compare(plan->items.items[i].width, least) < 0)
            least = plan->items.items[i].width;
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (!item->lengthwise)
            continue;
        if (laying->count == MOST_SIZES)
            return false;
        size_t at = laying->count++;
        for (; at > 0 && rational_compare(item_at(laying, at - 1)->height,
                                          item->height) < 0;
             at--) {
            laying->items[at] = laying->items[at - 1];
            laying->left[at] = laying->left[at - 1];
        }
        laying->items[at] = i;
        laying->left[at] = item->count;
    }
    for (size_t i = 0; i < laying->count; i++) {
        const struct cut_item *item = item_at(laying, i);
        if (rational_compare(rational_add(item->width, least),
                             plan->strip_length) <= 0)
            continue;
        size_t counts[MOST_SIZES] = {0};
        struct sheet sheet;
        counts[i] = 1;
        if (!lay_length(laying, counts, item->height, &sheet))
            return false;
        sheet.repeat = laying->left[i];
        *LIST_ADD(laying->arena, &laying->layout.sheets) = sheet;
        laying->left[i] = 0;
    }
    return laying->count > 0;
}

/* ensures: none where no piece lies lengthwise, or where there are too many
 * sizes of them. */
struct layouts other_layouts(struct arena *arena,
                             const struct fabric_plan *plan)
{
    struct layouts found = {0};
    struct laying laying = {.arena = arena, .plan = plan, .found = &found};
    if (gather(&laying))
        lay_rest(&laying);
    return found;
}
