/* One sheet. Values of strips come from a bounded knapsack over the segments
 * that fit their height, values of sheets from a knapsack over strips. */
#include "sheet_fill.h"

#include <string.h>

/* ---- what can be cut ---- */

/* Keeps the heights rising and without doubles. Strips of other heights are
 * never better: they could be cut down to their highest stack. */
static struct sheet_height *height_in(struct sheet_grid *grid,
                                      struct arena *arena, int64_t height)
{
    size_t at = 0;
    while (at < grid->heights.count && grid->heights.items[at].height < height)
        at++;
    if (at < grid->heights.count && grid->heights.items[at].height == height)
        return &grid->heights.items[at];
    LIST_ADD(arena, &grid->heights);
    for (size_t i = grid->heights.count - 1; i > at; i--)
        grid->heights.items[i] = grid->heights.items[i - 1];
    grid->heights.items[at] = (struct sheet_height){.height = height};
    return &grid->heights.items[at];
}

/* ensures: false where the piece is larger than the sheet. */
static bool add_way(struct sheet_grid *grid, struct arena *arena,
                    struct sheet_way way, size_t demand)
{
    if (way.along > grid->length || way.across > grid->room)
        return false;
    *LIST_ADD(arena, &grid->ways) = way;
    /* A stack that is higher than the demand would stand in the strip with
     * nothing above it. */
    const size_t fit = (size_t)(grid->room / way.across);
    for (size_t n = 1; n <= fit && n <= demand; n++) {
        struct sheet_height *height =
            height_in(grid, arena, way.across * (int64_t)n);
        *LIST_ADD(arena, &height->stacks) = (struct sheet_stack){way.size, n};
    }
    return true;
}

/* Adds a grid. The first side of a size lies along the width of the sheet. */
static void add_grid(struct sheet_filler *filler, struct arena *arena,
                     bool down, bool *fits)
{
    const struct sheet_problem *problem = filler->problem;
    struct sheet_grid *grid = &filler->grids[filler->grid_count++];
    grid->down = down;
    grid->length = down ? problem->height : problem->width;
    grid->room = down ? problem->width : problem->height;
    for (size_t i = 0; i < problem->count; i++) {
        const struct roll_size *size = &problem->sizes[i];
        const int64_t along = down ? size->height : size->width;
        const int64_t across = down ? size->width : size->height;
        const bool both = size->turns && along != across;
        struct sheet_way way = {i, along, across, false,
                                both && across <= grid->length ? along
                                                               : INT64_MAX};
        fits[i] |= add_way(grid, arena, way, size->demand);
        way = (struct sheet_way){i, across, along, true,
                                 along <= grid->length ? across : INT64_MAX};
        if (both)
            fits[i] |= add_way(grid, arena, way, size->demand);
    }
}

/* Memory for the tables, once, for the largest that can come. */
static void make_tables(struct sheet_filler *filler, struct arena *arena)
{
    size_t bundles = 0;
    int64_t side = 0;
    for (size_t g = 0; g < filler->grid_count; g++) {
        const struct sheet_grid *grid = &filler->grids[g];
        size_t here = 0;
        for (size_t i = 0; i < grid->ways.count; i++) {
            here += 2; /* a last lower stack */
            for (int64_t n = grid->length / grid->ways.items[i].along; n > 0;
                 n /= 2)
                here++;
        }
        bundles = here > bundles ? here : bundles;
        side = grid->length > side ? grid->length : side;
        side = grid->room > side ? grid->room : side;
    }
    const size_t cells = (size_t)side + 1;
    filler->row = ARENA_ARRAY(arena, int64_t, cells);
    filler->bundles = ARENA_ARRAY(arena, struct sheet_bundle, bundles + 1);
    filler->taken = ARENA_ARRAY(arena, unsigned char, cells *(bundles + 1));
    filler->column = ARENA_ARRAY(arena, int64_t, cells);
    filler->choice = ARENA_ARRAY(arena, size_t, cells);
    filler->left = ARENA_ARRAY(arena, size_t, filler->problem->count + 1);
    filler->turned = ARENA_ARRAY(arena, bool, filler->problem->count + 1);
}

/* Grids that the problem forbids are not made, so nothing asks again which
 * first cuts may run. */
bool sheet_filler_init(struct sheet_filler *filler, struct arena *arena,
                       const struct sheet_problem *problem)
{
    *filler = (struct sheet_filler){.problem = problem};
    bool *fits = ARENA_ARRAY(arena, bool, problem->count + 1);
    if (problem->first != SHEET_CUT_DOWN)
        add_grid(filler, arena, false, fits);
    if (problem->first != SHEET_CUT_ACROSS)
        add_grid(filler, arena, true, fits);
    make_tables(filler, arena);
    for (size_t i = 0; i < problem->count; i++)
        if (!fits[i] && problem->sizes[i].demand > 0)
            return false;
    return true;
}

/* ---- one strip ---- */

/* 1, 2, 4, ... segments and the rest: every count up to the bound is a sum of
 * some of them (Martello and Toth, 1990). Where the demand is no limit, one
 * bundle does. A last stack that the demand makes lower has its own. */
static size_t bundle_way(const struct sheet_grid *grid, int64_t height,
                         const struct sheet_way *way, int64_t worth,
                         size_t most, struct sheet_bundle *bundles)
{
    size_t count = 0;
    size_t stack = (size_t)(height / way->across);
    stack = stack < most ? stack : most;
    if (worth <= 0 || stack == 0)
        return 0;
    const size_t fit = (size_t)(grid->length / way->along);
    const int64_t each = worth * (int64_t)stack;
    size_t left = most / stack;
    if (left >= fit) {
        bundles[count++] =
            (struct sheet_bundle){way, 1, stack, way->along, each, true};
        return count;
    }
    for (size_t part = 1; left > 0; part *= 2) {
        const size_t n = part < left ? part : left;
        bundles[count++] = (struct sheet_bundle){
            way, n, stack, way->along * (int64_t)n, each * (int64_t)n, false};
        left -= n;
    }
    const size_t rest = most % stack;
    if (rest > 0)
        bundles[count++] = (struct sheet_bundle){
            way, 1, rest, way->along, worth * (int64_t)rest, false};
    return count;
}

/* Both ways of a size share its limit, which a knapsack does not see. Where
 * few pieces are left, one way gets them all. */
static bool waits(const struct sheet_filler *filler,
                  const struct sheet_grid *grid, int64_t height,
                  const struct sheet_way *way, size_t most)
{
    if (!filler->one_way || way->rival > height ||
        way->turned == filler->turned[way->size])
        return false;
    const int64_t area = way->along * way->across;
    return (int64_t)most <= grid->length * height / area;
}

/* Sizes without worth are left out: they would only fill room that a later
 * strip can use. */
static size_t make_bundles(const struct sheet_filler *filler,
                           const struct sheet_grid *grid, int64_t height,
                           const int64_t *worth, const size_t *most)
{
    size_t count = 0;
    for (size_t i = 0; i < grid->ways.count; i++) {
        const struct sheet_way *way = &grid->ways.items[i];
        if (worth[way->size] > 0 &&
            !waits(filler, grid, height, way, most[way->size]))
            count += bundle_way(grid, height, way, worth[way->size],
                                most[way->size], filler->bundles + count);
    }
    return count;
}

/* One bundle more: rising for any number of it, falling for one, as far as
 * `from`. Of the last bundle only the whole length matters. */
static void add_bundle(int64_t *row, int64_t length, int64_t from,
                       const struct sheet_bundle *bundle, bool last)
{
    const int64_t along = bundle->along, worth = bundle->worth;
    const int64_t least = from > along ? from : along;
    if (bundle->any) {
        const int64_t first = last ? along + length % along : along;
        for (int64_t w = first; w <= length; w += last ? along : 1)
            if (row[w - along] + worth > row[w])
                row[w] = row[w - along] + worth;
        return;
    }
    for (int64_t w = length; w >= least; w--)
        if (row[w - along] + worth > row[w])
            row[w] = row[w - along] + worth;
}

/* The same; `taken` marks where it is used. */
static void mark_bundle(int64_t *row, int64_t length, int64_t from,
                        const struct sheet_bundle *bundle, unsigned char *taken)
{
    const int64_t along = bundle->along, worth = bundle->worth;
    const int64_t step = bundle->any ? 1 : -1;
    const int64_t last = bundle->any || from < along ? along : from;
    for (int64_t w = bundle->any ? along : length; w >= last && w <= length;
         w += step) {
        const int64_t with = row[w - along] + worth;
        if (with <= row[w])
            continue;
        row[w] = with;
        taken[w] = 1;
    }
}

/* All bundles. The strip is read back from its whole length, so of each bundle
 * only what those behind it can leave is needed. `taken`, unless NULL, has a
 * row for each. */
static void add_bundles(struct sheet_filler *filler, int64_t length,
                        size_t count, unsigned char *taken)
{
    const size_t cells = (size_t)length + 1;
    int64_t from = length;
    memset(filler->row, 0, cells * sizeof *filler->row);
    for (size_t b = 1; b < count; b++)
        from -= filler->bundles[b].any ? length : filler->bundles[b].along;
    for (size_t b = 0; b < count; b++) {
        if (taken == NULL)
            add_bundle(filler->row, length, from, &filler->bundles[b],
                       b + 1 == count);
        else
            mark_bundle(filler->row, length, from, &filler->bundles[b],
                        taken + b * cells);
        if (b + 1 < count)
            from += filler->bundles[b + 1].any ? length
                                               : filler->bundles[b + 1].along;
    }
}

/* The worth of the best strip of a height. */
static int64_t strip_worth(struct sheet_filler *filler,
                           const struct sheet_grid *grid, int64_t height,
                           const int64_t *worth, const size_t *most)
{
    const size_t cells = (size_t)grid->length + 1;
    const size_t count = make_bundles(filler, grid, height, worth, most);
    add_bundles(filler, grid->length, count, NULL);
    filler->work += count * cells + 100;
    return filler->row[grid->length];
}

/* Puts a bundle into a strip. Where both ways of a size lie in it, each was
 * limited alone: a real sheet gets no more than is left. The sheet of a bound
 * is taken as it was valued, or the programme would ask for it forever. */
static void put_cut(struct sheet_filler *filler, struct arena *arena,
                    struct sheet_strip *strip,
                    const struct sheet_bundle *bundle, size_t *left)
{
    const size_t size = bundle->way->size;
    size_t beside = bundle->beside, stack = bundle->stack;
    if (filler->one_way) {
        stack = stack < left[size] ? stack : left[size];
        if (stack == 0)
            return;
        if (beside > left[size] / stack)
            beside = left[size] / stack;
        left[size] -= beside * stack;
    }
    for (size_t i = 0; i < strip->cuts.count; i++) {
        struct sheet_cut *cut = &strip->cuts.items[i];
        if (cut->size == size && cut->stack == stack &&
            cut->along == bundle->way->along) {
            cut->beside += beside;
            return;
        }
    }
    *LIST_ADD(arena, &strip->cuts) = (struct sheet_cut){
        size, beside, stack, bundle->way->along, bundle->way->across};
}

/* The best strip itself; `left` is counted down by what it makes. Its height
 * becomes that of its highest stack. */
static struct sheet_strip best_strip(struct sheet_filler *filler,
                                     const struct sheet_grid *grid,
                                     struct arena *arena, int64_t height,
                                     const int64_t *worth, size_t *left)
{
    struct sheet_strip strip = {.repeat = 1};
    const size_t cells = (size_t)grid->length + 1;
    const size_t count = make_bundles(filler, grid, height, worth, left);
    memset(filler->taken, 0, cells * count);
    add_bundles(filler, grid->length, count, filler->taken);
    filler->work += 2 * count * cells + 100;
    size_t w = (size_t)grid->length;
    for (size_t b = count; b-- > 0;) {
        const struct sheet_bundle *bundle = &filler->bundles[b];
        while (filler->taken[b * cells + w]) {
            put_cut(filler, arena, &strip, bundle, left);
            w -= (size_t)bundle->along;
            if (!bundle->any)
                break;
        }
    }
    for (size_t i = 0; i < strip.cuts.count; i++) {
        const struct sheet_cut *cut = &strip.cuts.items[i];
        const int64_t high = cut->across * (int64_t)cut->stack;
        strip.height = high > strip.height ? high : strip.height;
    }
    return strip;
}

/* ---- one sheet ---- */

/* Can the strip get its height from something that is wanted? */
static bool height_useful(const struct sheet_height *height,
                          const int64_t *worth, const size_t *most)
{
    for (size_t i = 0; i < height->stacks.count; i++) {
        const struct sheet_stack *stack = &height->stacks.items[i];
        if (worth[stack->size] > 0 && most[stack->size] >= stack->pieces)
            return true;
    }
    return false;
}

/* Values of all strips up to `room`, and the best sum of them. A strip that is
 * worth no more than a lower one is left out.
 * ensures: the best sum; `choice` tells the strips. */
static int64_t stack_strips(struct sheet_filler *filler,
                            const struct sheet_grid *grid, int64_t room,
                            const int64_t *worth, const size_t *most)
{
    int64_t last = 0;
    int64_t *column = filler->column;
    memset(column, 0, ((size_t)room + 1) * sizeof *column);
    memset(filler->choice, 0, ((size_t)room + 1) * sizeof *filler->choice);
    for (size_t k = 0; k < grid->heights.count; k++) {
        const struct sheet_height *height = &grid->heights.items[k];
        if (height->height > room)
            break;
        if (!height_useful(height, worth, most))
            continue;
        const int64_t value =
            strip_worth(filler, grid, height->height, worth, most);
        /* The lower one leaves more room for others. */
        if (value <= last)
            continue;
        last = value;
        for (int64_t y = height->height; y <= room; y++) {
            const int64_t with = column[y - height->height] + value;
            if (with <= column[y])
                continue;
            column[y] = with;
            filler->choice[y] = k + 1;
        }
        filler->work += (size_t)(room - height->height);
    }
    return column[room];
}

/* What a strip makes, added to `made`. */
static void count_strip(const struct sheet_strip *strip, size_t *made)
{
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct sheet_cut *cut = &strip->cuts.items[i];
        made[cut->size] += cut->beside * cut->stack * strip->repeat;
    }
}

/* The strips of the last table, each with the full `most` of every size. */
static void read_strips(struct sheet_filler *filler,
                        const struct sheet_grid *grid, struct arena *arena,
                        const int64_t *worth, const size_t *most, size_t *made,
                        struct sheet_pattern *pattern)
{
    pattern->down = grid->down;
    int64_t y = grid->room;
    while (filler->choice[y] > 0) {
        const int64_t height =
            grid->heights.items[filler->choice[y] - 1].height;
        memcpy(filler->left, most,
               filler->problem->count * sizeof *filler->left);
        const struct sheet_strip strip =
            best_strip(filler, grid, arena, height, worth, filler->left);
        count_strip(&strip, made);
        *LIST_ADD(arena, &pattern->strips) = strip;
        y -= height;
    }
}

/* Strips do not know of each other here, so together they may use more of a
 * size than is asked. That makes the value an upper bound, and cheap. */
int64_t sheet_fill_bound(struct sheet_filler *filler, struct arena *arena,
                         const int64_t *worth, const size_t *most, size_t *made,
                         struct sheet_pattern *pattern)
{
    int64_t best = 0;
    filler->one_way = false;
    for (size_t g = 0; g < filler->grid_count; g++) {
        const struct sheet_grid *grid = &filler->grids[g];
        const int64_t value =
            stack_strips(filler, grid, grid->room, worth, most);
        if (value <= best)
            continue;
        best = value;
        if (made == NULL)
            continue;
        memset(made, 0, filler->problem->count * sizeof *made);
        *pattern = (struct sheet_pattern){.repeat = 1};
        read_strips(filler, grid, arena, worth, most, made, pattern);
    }
    return best;
}

/* Takes strips of the last table as long as each is worth what the table says
 * although those before it have used up some pieces.
 * ensures: the room that is still free. */
static int64_t take_strips(struct sheet_filler *filler,
                           const struct sheet_grid *grid, struct arena *arena,
                           int64_t room, const int64_t *worth,
                           struct sheet_pattern *pattern)
{
    /* The first strip is always worth it: nothing was used before it, and so
     * each call takes one at least. */
    int64_t y = room;
    bool first = true;
    while (filler->choice[y] > 0) {
        const size_t k = filler->choice[y] - 1;
        const int64_t height = grid->heights.items[k].height;
        const int64_t said = filler->column[y] - filler->column[y - height];
        if (!first &&
            strip_worth(filler, grid, height, worth, filler->left) < said)
            break;
        first = false;
        const struct sheet_strip strip =
            best_strip(filler, grid, arena, height, worth, filler->left);
        room -= strip.height;
        *LIST_ADD(arena, &pattern->strips) = strip;
        y -= height;
    }
    return room;
}

/* With one first cut: strips are taken and the rest is planned again, until
 * nothing more fits. */
static int64_t fill_grid(struct sheet_filler *filler,
                         const struct sheet_grid *grid, struct arena *arena,
                         const int64_t *worth, const size_t *left,
                         struct sheet_pattern *pattern)
{
    const size_t count = filler->problem->count;
    *pattern = (struct sheet_pattern){.down = grid->down, .repeat = 1};
    memcpy(filler->left, left, count * sizeof *left);
    int64_t room = grid->room;
    while (stack_strips(filler, grid, room, worth, filler->left) > 0)
        room = take_strips(filler, grid, arena, room, worth, pattern);
    int64_t value = 0;
    for (size_t i = 0; i < count; i++)
        value += worth[i] * (int64_t)(left[i] - filler->left[i]);
    return value;
}

/* Both first cuts are tried where both may be; of equal ones the first, so
 * that a plan does not change its cuts without gain. */
int64_t sheet_fill(struct sheet_filler *filler, struct arena *arena,
                   const int64_t *worth, const size_t *left, size_t *made,
                   struct sheet_pattern *pattern)
{
    int64_t best = -1;
    filler->one_way = true;
    for (size_t g = 0; g < filler->grid_count; g++) {
        struct sheet_pattern trial;
        const int64_t value =
            fill_grid(filler, &filler->grids[g], arena, worth, left, &trial);
        if (value <= best)
            continue;
        best = value;
        *pattern = trial;
        for (size_t i = 0; i < filler->problem->count; i++)
            made[i] = left[i] - filler->left[i];
    }
    return best;
}
