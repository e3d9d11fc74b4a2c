/* What it takes to sew a trial: from the top down, as the quilt itself is
 * counted. A batch is made as a whole, so two half-squares that come as a pair
 * are two seams even where one is needed. */
#include "facts.h"

/* Of the cloth that is cut for it. */
static struct rational area_of(const struct heap *heap)
{
    return rational_mul(heap->of.cut.width, heap->of.cut.height);
}

/* Triangles are counted one by one, and cut from a square with others. */
size_t pieces_to_cut(const struct heap *heap, size_t count)
{
    return (count + heap->yield - 1) / heap->yield;
}

/* All that hands sew on one of it. */
static size_t seams_of(const struct heap *heap)
{
    size_t count = 0;
    for (size_t i = 0; i < heap->actions.count; i++)
        count += heap->actions.items[i].seams.count;
    return count;
}

/* Goes down from what `made` holds. */
static size_t make_down(const struct wording *w, size_t *made,
                        struct rational *cloth)
{
    size_t seams = 0;
    *cloth = rational_whole(0);
    for (size_t i = w->quilt->heaps.count; i-- > 0;) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        if (made[i] == 0)
            continue;
        if (heap->technique == TECHNIQUE_CUT) {
            *cloth = rational_add(
                *cloth,
                rational_times(area_of(heap),
                               (int64_t)pieces_to_cut(heap, made[i])));
            continue;
        }
        const size_t batches = pieces_to_cut(heap, made[i]);
        made[i] = batches * heap->yield;
        seams += made[i] * seams_of(heap);
        for (size_t k = 0; k < heap->inputs.count; k++)
            made[heap->inputs.items[k].heap] += batches;
    }
    return seams;
}

/* Several where mitred borders are sewn as one. */
struct strips border_strips(const struct wording *w, const struct heap *border)
{
    struct strips strips = {.items = {0}};
    for (size_t i = 0; i < w->quilt->borders.count; i++) {
        const struct sewn_border *sewn = &w->quilt->borders.items[i];
        if (&w->quilt->heaps.items[sewn->heap] == border)
            *LIST_ADD(w->arena, &strips.items) =
                &w->quilt->heaps.items[sewn->end];
    }
    return strips;
}

struct rational strip_width(const struct heap *strip)
{
    return rational_min(strip->of.cut.width, strip->of.cut.height);
}

/* As wide as the strips are when they are joined. */
static struct rational band_width(const struct wording *w,
                                  const struct heap *border)
{
    const struct strips strips = border_strips(w, border);
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    struct rational width = seams;
    for (size_t i = 0; i < strips.items.count; i++)
        width = rational_add(
            width, rational_sub(strip_width(strips.items.items[i]), seams));
    return width;
}

struct rational corner_length(const struct wording *w, const struct heap *heap)
{
    return rational_times(band_width(w, heap), 3);
}

/* The second strip reaches over the first one; mitred, each reaches as far. */
struct strip_lengths corner_lengths(const struct wording *w,
                                    const struct heap *heap)
{
    const struct border *border = heap->of.border;
    const struct rational side = corner_length(w, heap);
    const struct rational over = rational_add(
        side, rational_sub(band_width(w, heap),
                           rational_times(w->design->pattern->seam, 2)));
    return (struct strip_lengths){border->mitred ? over : side,
                                  border->blocks ? side : over};
}

/* A square and two strips, or sets of them. */
static struct rational corner_cloth(const struct wording *w,
                                    const struct heap *border)
{
    const struct rational side = corner_length(w, border);
    const struct strip_lengths lengths = corner_lengths(w, border);
    const struct strips strips = border_strips(w, border);
    struct rational cloth = rational_mul(side, side);
    for (size_t i = 0; i < strips.items.count; i++)
        cloth = rational_add(
            cloth, rational_mul(strip_width(strips.items.items[i]),
                                rational_add(lengths.first, lengths.second)));
    return cloth;
}

/* Strips to the square, a corner piece or the corner itself, and what joins the
 * strips of several borders first. */
static size_t corner_seams(const struct wording *w, const struct heap *border)
{
    const size_t strips = border_strips(w, border).items.count;
    return 2 * strips +
           (border->of.border->blocks || border->of.border->mitred ? 1 : 0);
}

size_t make_trial(const struct wording *w, const struct trial *trial,
                  size_t *made, struct rational *cloth)
{
    const struct heap *heap = &w->quilt->heaps.items[trial->heap];
    struct rational besides = rational_whole(0);
    size_t seams = 0;
    switch (trial->kind) {
    case TRIAL_HEAP:
        made[trial->heap]++;
        break;
    case TRIAL_NEIGHBORS:
        for (size_t r = 0; r < trial->down; r++)
            for (size_t c = 0; c < trial->across; c++)
                made[heap->inputs
                         .items[(trial->row + r) * heap_across(heap) +
                                trial->column + c]
                         .heap]++;
        seams = trial->down * (trial->across - 1) + trial->down - 1;
        break;
    case TRIAL_CUTOUT: /* one seam fewer than cells, as any sewn whole has */
        for (size_t i = 0; i < trial->cells.count; i++)
            made[trial->cells.items[i]]++;
        seams = trial->cells.count - (trial->has_scrap ? 0 : 1);
        if (trial->has_scrap)
            besides = rational_mul(trial->scrap_width, trial->scrap_height);
        break;
    case TRIAL_BORDER:
        seams = corner_seams(w, heap);
        besides = corner_cloth(w, heap);
        if (heap->of.border->blocks)
            made[heap->inputs.items[BORDER_CORNER + trial->corner].heap]++;
        break;
    }
    seams += make_down(w, made, cloth);
    *cloth = rational_add(*cloth, besides);
    return seams;
}

size_t make_quilt(const struct wording *w, struct rational *cloth)
{
    struct arena *scratch = arena_create();
    size_t *made = ARENA_ARRAY(scratch, size_t, w->quilt->heaps.count);
    made[w->quilt->whole] = 1;
    const size_t seams = make_down(w, made, cloth);
    arena_destroy(scratch);
    return seams;
}
