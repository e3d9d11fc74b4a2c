/* How near a cloth is to the next smaller amount: which few pieces cause the
 * last step. Strips would have to go until what they take is no more than the
 * step that is sold less; of all sets of strips that do, the one of the fewest
 * pieces is told. Another plan might do with less still, so the number is what
 * certainly suffices. */
#include "cutter.h"

/* A strip, a lengthwise sheet: something that would go whole. */
struct removable {
    struct rational height;
    const struct strip *strip; /* or NULL: */
    const struct sheet *sheet;
    bool last;
    size_t pieces;
};

struct removables {
    LIST(struct removable) list;
};

/* A segment that is sliced counts with all its slices: told are pieces, not
 * cuts. */
static size_t pieces_of(const struct strip_cut *cuts, size_t count)
{
    size_t pieces = 0;
    for (size_t i = 0; i < count; i++)
        pieces += cuts[i].count * cuts[i].stack;
    return pieces;
}

/* Each repeat could go by itself. The last one is often cut only in part, so
 * that it is the cheapest to give up. */
static void add_strip(struct arena *arena, struct removables *all,
                      const struct strip *strip)
{
    for (size_t n = 0; n < strip->repeat; n++) {
        const bool last = n + 1 == strip->repeat && strip->last.count > 0;
        *LIST_ADD(arena, &all->list) = (struct removable){
            strip->height, strip, NULL, last,
            last ? pieces_of(strip->last.items, strip->last.count)
                 : pieces_of(strip->cuts.items, strip->cuts.count)};
    }
}

/* A sheet goes as a whole, so all of its strips count. */
static size_t pieces_on(const struct sheet *sheet)
{
    size_t pieces = 0;
    for (size_t i = 0; i < sheet->strips.count; i++)
        pieces += sheet->strips.items[i].repeat *
                  pieces_of(sheet->strips.items[i].cuts.items,
                            sheet->strips.items[i].cuts.count);
    return pieces;
}

/* All that takes length of the cloth. */
static struct removables removables_of(struct arena *arena,
                                       const struct fabric_plan *plan)
{
    struct removables all = {0};
    for (size_t i = 0; i < plan->strips.count; i++)
        add_strip(arena, &all, &plan->strips.items[i]);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        for (size_t n = 0; sheet->kind == SHEET_LENGTHWISE && n < sheet->repeat;
             n++)
            *LIST_ADD(arena, &all.list) = (struct removable){
                sheet->height, NULL, sheet, false, pieces_on(sheet)};
    }
    return all;
}

/* Pieces of one size are told together, whatever strips they were in: who
 * designs the quilt can change a size, not a strip. */
static void add_cause(struct arena *arena, struct cut_nudge *nudge,
                      const struct strip_cut *cut, size_t times)
{
    size_t at = 0;
    while (at < nudge->causes.count &&
           nudge->causes.items[at].item != cut->item)
        at++;
    if (at == nudge->causes.count)
        LIST_ADD(arena, &nudge->causes)->item = cut->item;
    nudge->causes.items[at].count += cut->count * cut->stack * times;
    nudge->pieces += cut->count * cut->stack * times;
}

/* Strips of a sheet have no other last one, so that all repeats are alike. */
static void add_sheet_causes(struct arena *arena, struct cut_nudge *nudge,
                             const struct sheet *sheet)
{
    for (size_t i = 0; i < sheet->strips.count; i++)
        for (size_t k = 0; k < sheet->strips.items[i].cuts.count; k++)
            add_cause(arena, nudge, &sheet->strips.items[i].cuts.items[k],
                      sheet->strips.items[i].repeat);
}

/* A last strip that is cut in part has a list of its own. */
static void add_causes(struct arena *arena, struct cut_nudge *nudge,
                       const struct removable *gone)
{
    if (gone->sheet != NULL) {
        add_sheet_causes(arena, nudge, gone->sheet);
        return;
    }
    const struct strip_cut *cuts =
        gone->last ? gone->strip->last.items : gone->strip->cuts.items;
    const size_t count =
        gone->last ? gone->strip->last.count : gone->strip->cuts.count;
    for (size_t i = 0; i < count; i++)
        add_cause(arena, nudge, &cuts[i], 1);
}

/* What is to go, in steps that divide it and every height. Where they would be
 * very fine, heights are rounded down to coarser ones, so that what is found
 * surely suffices. */
static size_t steps_to_go(const struct removables *all, struct rational over)
{
    /* A byte for each strip and step, so many strips get coarser steps. */
    enum { MOST_CELLS = 1 << 26, MOST_STEPS_TO_GO = 4096 };
    const int64_t cells = MOST_CELLS / ((int64_t)all->list.count + 1);
    const int64_t most =
        cells < MOST_STEPS_TO_GO ? cells + 1 : MOST_STEPS_TO_GO;
    struct rational step = over;
    for (size_t i = 0; i < all->list.count; i++)
        step = common_step(step, all->list.items[i].height);
    const struct rational steps = rational_div(over, step);
    const bool few = rational_is_fraction(steps) && steps.num <= most;
    return (size_t)(few ? steps.num : most);
}

/* A table over what is to go: the fewest pieces whose strips are at least that
 * high. It is a 0-1 knapsack that is to be filled at least so high, at the
 * least weight (Martello and Toth, 1990). Heights are walked from the top, so
 * that each strip goes at most once; `taken` is kept for all of them, as the
 * set is read back from it. */
static void fewest_pieces(struct arena *arena, struct cut_nudge *nudge,
                          const struct removables *all, struct rational over)
{
    const size_t count = all->list.count, steps = steps_to_go(all, over);
    const struct rational step =
        rational_div(over, rational_whole((int64_t)steps));
    size_t *fewest = ARENA_ARRAY(arena, size_t, steps + 1);
    unsigned char *taken =
        ARENA_ARRAY(arena, unsigned char, (count + 1) * (steps + 1));
    for (size_t h = 1; h <= steps; h++)
        fewest[h] = SIZE_MAX;
    for (size_t i = 0; i < count; i++) {
        const struct removable *one = &all->list.items[i];
        const size_t height =
            (size_t)rational_floor(rational_div(one->height, step));
        for (size_t h = steps; h > 0 && height > 0; h--) {
            const size_t before = h > height ? h - height : 0;
            if (fewest[before] == SIZE_MAX ||
                fewest[before] + one->pieces >= fewest[h])
                continue;
            fewest[h] = fewest[before] + one->pieces;
            taken[i * (steps + 1) + h] = 1;
        }
    }
    nudge->possible = fewest[steps] != SIZE_MAX;
    size_t h = nudge->possible ? steps : 0;
    for (size_t i = count; i-- > 0 && h > 0;) {
        if (taken[i * (steps + 1) + h] == 0)
            continue;
        const struct removable *one = &all->list.items[i];
        const size_t height =
            (size_t)rational_floor(rational_div(one->height, step));
        add_causes(arena, nudge, one);
        h = h > height ? h - height : 0;
    }
}

/* The sheet with the fewest pieces. The only sheet cannot go: some cloth has to
 * be bought. */
static void fewest_on_a_sheet(struct arena *arena, struct cut_nudge *nudge,
                              const struct fabric_plan *plan)
{
    const struct sheet *least = NULL;
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (least == NULL ||
            pieces_on(&plan->sheets.items[i]) < pieces_on(least))
            least = &plan->sheets.items[i];
    nudge->possible = plan->bought_sheets > 1;
    if (nudge->possible)
        add_sheet_causes(arena, nudge, least);
}

/* What is needed holds the shrinkage, what is cut does not. So it is taken off
 * again before strips are weighed against it; else too many of them would have
 * to go. */
struct cut_nudge nudge_of(struct arena *arena, const struct pattern *pattern,
                          const struct fabric_plan *plan)
{
    struct cut_nudge nudge = {.less = rational_whole(0),
                              .over = rational_whole(0)};
    if (plan->bolt->sold != SOLD_YARDAGE) {
        fewest_on_a_sheet(arena, &nudge, plan);
        return nudge;
    }
    nudge.less = rational_sub(plan->bought,
                              trade_length(TRADE_SOLD_STEP, pattern->units));
    const struct rational over = rational_sub(plan->needed, nudge.less);
    nudge.over = rational_round_up(over, pattern->cutting_step);
    if (rational_sign(nudge.less) <= 0)
        return nudge;
    const struct rational to_go = rational_mul(
        over, rational_sub(rational_whole(1), plan->bolt->shrinkage));
    const struct removables all = removables_of(arena, plan);
    fewest_pieces(arena, &nudge, &all, to_go);
    return nudge;
}
