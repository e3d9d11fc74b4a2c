/* Pieces with slanted edges, cut from whole strips along a ruler's line. Those
 * of one cloth and height share their strips, which are filled from the left:
 * what ends a row lies at an end of the strip, where its upright edge is that
 * of the strip; every other piece lies turned so that its edge runs along the
 * one before it. Which piece comes next is a plain choice, by one of two rules;
 * the one that takes fewer strips is kept. What is placed is exact. Read next:
 * items.c. */
#include <string.h>

#include "cutter.h"

/* How far a strip is taken at its upper and its lower edge. */
struct frontier {
    struct rational top, bottom;
};

/* Ends of a shape's level edges, in its strip. */
struct ends {
    struct rational top_left, top_right, bottom_left, bottom_right;
};

/* The least or the greatest x of the corners on one edge. */
static struct rational end_on(struct outline outline, struct rational y,
                              bool greatest)
{
    struct rational end = rational_unknown();
    for (size_t i = 0; i < outline.count; i++) {
        const struct vertex v = outline.points[i];
        if (!rational_equal(v.y, y))
            continue;
        if (!rational_known(end))
            end = v.x;
        else
            end = greatest ? rational_max(end, v.x) : rational_min(end, v.x);
    }
    return end;
}

/* The height of its strip, as cut. */
static struct rational high(const struct strip_shape *strip)
{
    struct rational height = rational_whole(0);
    for (size_t i = 0; i < strip->as_cut.count; i++)
        height = rational_max(height, strip->as_cut.points[i].y);
    return height;
}

/* As cut, or turned by half. */
static struct ends ends_of(const struct strip_shape *strip, bool turned)
{
    const struct rational height = high(strip), zero = rational_whole(0);
    const struct ends e = {end_on(strip->as_cut, zero, false),
                           end_on(strip->as_cut, zero, true),
                           end_on(strip->as_cut, height, false),
                           end_on(strip->as_cut, height, true)};
    const struct rational wide = rational_max(e.top_right, e.bottom_right);
    return turned ? (struct ends){rational_sub(wide, e.bottom_right),
                                  rational_sub(wide, e.bottom_left),
                                  rational_sub(wide, e.top_right),
                                  rational_sub(wide, e.top_left)}
                  : e;
}

/* Slanted edges are parallel where both level ones are alike. At 45 degrees
 * they are then 1 / sqrt 2 of those apart, at 60 sqrt 3 / 2. */
struct shape_measures measure_shape(const struct strip_shape *strip)
{
    const struct ends e = ends_of(strip, false);
    const struct rational above = rational_sub(e.top_right, e.top_left);
    const struct rational below = rational_sub(e.bottom_right, e.bottom_left);
    const struct rational root = rational_root(strip->degrees == 45 ? 2 : 3);
    return (struct shape_measures){
        .longer = rational_max(above, below),
        .shorter = rational_min(above, below),
        .longer_above = rational_compare(above, below) > 0,
        .apart = rational_equal(above, below)
                     ? rational_div(rational_mul(above, root),
                                    rational_whole(2))
                     : rational_unknown(),
        .upright = rational_equal(e.top_left, e.bottom_left) ||
                   rational_equal(e.top_right, e.bottom_right)};
}

bool same_measures(const struct shape_measures *a,
                   const struct shape_measures *b)
{
    return rational_equal(a->longer, b->longer) &&
           rational_equal(a->shorter, b->shorter) &&
           rational_known(a->apart) == rational_known(b->apart) &&
           a->upright == b->upright;
}

/* Where a shape comes to lie behind the frontier, and how far that is. */
struct fit {
    bool turned;
    struct rational x;
    struct frontier after;
};

/* As near to what lies before as both level edges allow. */
static struct fit fit_turned(struct frontier before,
                             const struct strip_shape *strip, bool turned)
{
    const struct ends e = ends_of(strip, turned);
    const struct rational x =
        rational_max(rational_sub(before.top, e.top_left),
                     rational_sub(before.bottom, e.bottom_left));
    return (struct fit){
        turned,
        x,
        {rational_add(x, e.top_right), rational_add(x, e.bottom_right)}};
}

/* How much of the strip is taken then. */
static struct rational reach_of(const struct fit *fit)
{
    return rational_max(fit->after.top, fit->after.bottom);
}

/* What is taken of both level edges. Of pieces of one strip all are trapezoids,
 * so this is twice their area over the height of the strip. */
static struct rational taken(struct frontier frontier)
{
    return rational_add(frontier.top, frontier.bottom);
}

/* The way that takes less of both edges. */
static struct fit fit_shape(struct frontier before,
                            const struct strip_shape *strip)
{
    const struct fit as_is = fit_turned(before, strip, false);
    const struct fit turned = fit_turned(before, strip, true);
    return rational_compare(taken(turned.after), taken(as_is.after)) < 0 ? turned
                                                                         : as_is;
}

/* The cloth that is lost between what lies before and the shape, as `taken`
 * counts it: none where their edges run along each other. */
static struct rational lost_by(struct frontier before, const struct fit *fit,
                               const struct strip_shape *strip)
{
    return rational_sub(rational_sub(taken(fit->after), taken(before)),
                        rational_times(strip->advance, 2));
}

/* ---- filling strips ---- */

/* Has it an upright edge, which lies at an end of the strip? */
static bool ends_rows(const struct shaped_piece *piece)
{
    return piece->shape == PATCH_END_LEFT || piece->shape == PATCH_END_RIGHT;
}

/* Which of those that fit comes next: the one of which most are left; or the
 * one that loses least cloth, and of those the one of which most are left. Left
 * ends of rows lie in pairs then, and right ones, where no triangles are left
 * to lie between them. */
enum fill_rule { FILL_MOST_LEFT, FILL_LEAST_LOST, FILL_RULES };

/* A strip while it is filled. */
struct shape_filling {
    struct arena *arena;
    const struct cut_item *item;
    enum fill_rule rule;
    struct rational length;
    size_t *left; /* of each shape: pieces that lie nowhere yet */
    struct frontier frontier;
    struct shaped_strip strip;
};

/* Does the shape come before the best one so far, by the rule? */
static bool comes_first(const struct shape_filling *filling, size_t shape,
                        const struct fit *fit, size_t best,
                        const struct fit *best_fit)
{
    const struct shaped_piece *pieces = filling->item->shaped.items;
    const int less =
        filling->rule == FILL_MOST_LEFT
            ? 0
            : rational_compare(
                  lost_by(filling->frontier, fit, pieces[shape].strip),
                  lost_by(filling->frontier, best_fit, pieces[best].strip));
    return less != 0 ? less < 0 : filling->left[shape] > filling->left[best];
}

/* The next shape that fits, of row ends or of all others. ensures: false where
 * none does. */
static bool place_next(struct shape_filling *filling, bool ends)
{
    const size_t count = filling->item->shaped.count;
    struct fit best_fit = {0};
    size_t best = count;
    for (size_t i = 0; i < count; i++) {
        const struct shaped_piece *piece = &filling->item->shaped.items[i];
        if (filling->left[i] == 0 || ends_rows(piece) != ends)
            continue;
        const struct fit fit = fit_shape(filling->frontier, piece->strip);
        if (rational_compare(reach_of(&fit), filling->length) > 0 ||
            (best < count && !comes_first(filling, i, &fit, best, &best_fit)))
            continue;
        best = i;
        best_fit = fit;
    }
    if (best == count)
        return false;
    filling->left[best]--;
    filling->frontier = best_fit.after;
    *LIST_ADD(filling->arena, &filling->strip.pieces) = best;
    return true;
}

/* A row's end at either end of the strip, where any are left. */
static void fill_strip(struct shape_filling *filling)
{
    const struct rational zero = rational_whole(0);
    filling->frontier = (struct frontier){zero, zero};
    filling->strip = (struct shaped_strip){.repeat = 1};
    place_next(filling, true);
    while (place_next(filling, false))
        ;
    while (place_next(filling, true))
        ;
}

/* The same shapes in the same order: one drawing serves for both. */
static bool same_pieces(const struct shaped_strip *a,
                        const struct shaped_strip *b)
{
    return a->pieces.count == b->pieces.count &&
           memcmp(a->pieces.items, b->pieces.items,
                  a->pieces.count * sizeof *a->pieces.items) == 0;
}

/* Strips that were filled, those that are alike once; how many in all. */
struct filled {
    LIST(struct shaped_strip) strips;
    size_t count;
};

/* Strips that are filled alike are one, and counted. */
static void keep_strip(struct shape_filling *filling, struct filled *filled)
{
    filled->count++;
    for (size_t i = 0; i < filled->strips.count; i++)
        if (same_pieces(&filled->strips.items[i], &filling->strip)) {
            filled->strips.items[i].repeat++;
            return;
        }
    *LIST_ADD(filling->arena, &filled->strips) = filling->strip;
}

/* All pieces of the item, by one rule. ensures: no strips where a shape is
 * longer than the strip. */
static struct filled fill_by(struct arena *arena, const struct cut_item *item,
                             struct rational length, enum fill_rule rule)
{
    struct filled filled = {.count = 0};
    struct shape_filling filling = {
        .arena = arena,
        .item = item,
        .rule = rule,
        .length = length,
        .left = ARENA_ARRAY(arena, size_t, item->shaped.count)};
    size_t pieces = 0;
    for (size_t i = 0; i < item->shaped.count; i++) {
        filling.left[i] = item->shaped.items[i].count;
        pieces += item->shaped.items[i].count;
    }
    while (pieces > 0) {
        fill_strip(&filling);
        if (filling.strip.pieces.count == 0)
            return (struct filled){.count = 0};
        pieces -= filling.strip.pieces.count;
        keep_strip(&filling, &filled);
    }
    return filled;
}

/* By the rule that takes fewer strips; of those that take as many, the one with
 * fewer that are cut otherwise. ensures: false where a shape is longer than the
 * strip. */
static bool fill_item(struct arena *arena, struct cut_item *item,
                      struct rational length)
{
    struct filled best = fill_by(arena, item, length, 0);
    for (enum fill_rule rule = 1; rule < FILL_RULES && best.count > 0; rule++) {
        const struct filled next = fill_by(arena, item, length, rule);
        if (next.count < best.count ||
            (next.count == best.count &&
             next.strips.count <= best.strips.count))
            best = next;
    }
    item->count = best.count;
    for (size_t i = 0; i < best.strips.count; i++)
        *LIST_ADD(arena, &item->shaped_strips) = best.strips.items[i];
    return best.count > 0;
}

/* ---- items ---- */

/* The item of that height and ruler's line; a new one where there is none. Its
 * height is that of its strip. */
static struct cut_item *item_for(struct cutter *cutter,
                                 struct fabric_plan *plan, int fabric,
                                 const struct cut_piece *cut)
{
    for (size_t i = 0; i < plan->items.count; i++) {
        struct cut_item *item = &plan->items.items[i];
        if (item->shaped.count > 0 &&
            rational_equal(item->height, cut->height) &&
            item->shaped.items[0].strip->degrees == cut->strip->degrees)
            return item;
    }
    struct cut_item *item = LIST_ADD(cutter->run->arena, &plan->items);
    *item = (struct cut_item){.use = CUT_PIECE,
                              .fabric = fabric,
                              .joined = true,
                              .width = plan->strip_length,
                              .height = cut->height};
    return item;
}

/* Shapes of one height lie in one item, whatever else they are. */
struct cut_item *add_shape(struct cutter *cutter, const struct heap *heap)
{
    struct arena *arena = cutter->run->arena;
    const struct cut_piece *cut = &heap->of.cut;
    struct cut_item *item =
        item_for(cutter, &cutter->plan->fabrics[cut->fabric], cut->fabric, cut);
    *LIST_ADD(arena, &item->shaped) =
        (struct shaped_piece){.label = cut->label,
                              .shape = cut->shape,
                              .strip = cut->strip,
                              .height = heap->height,
                              .count = heap->count};
    item->label = item->shaped.count == 1
                      ? cut->label
                      : arena_printf(arena, "%s, %s", item->label, cut->label);
    return item;
}

/* A shape that no strip holds is told as a piece that is too wide. */
static void widen(struct cut_item *item)
{
    for (size_t i = 0; i < item->shaped.count; i++) {
        const struct strip_shape *strip = item->shaped.items[i].strip;
        item->width =
            rational_max(item->width, rational_add(strip->advance, strip->run));
    }
    item->count = 1;
    item->joined = false;
}

/* Each cloth by itself; its strips are as long as the cloth is wide. */
void fill_shapes(struct cutter *cutter)
{
    for (size_t f = 0; f < cutter->design->fabrics.count; f++) {
        struct fabric_plan *plan = &cutter->plan->fabrics[f];
        for (size_t i = 0; i < plan->items.count; i++) {
            struct cut_item *item = &plan->items.items[i];
            if (item->shaped.count > 0 &&
                !fill_item(cutter->run->arena, item, plan->strip_length))
                widen(item);
        }
    }
}

/* ---- places ---- */

/* The corners of a shape where it was fitted, turned by half or not. */
static const struct cut_outline *outline_at(struct arena *arena,
                                            const struct strip_shape *strip,
                                            const struct fit *fit)
{
    const struct rational height = high(strip);
    struct rational wide = rational_whole(0);
    for (size_t i = 0; i < strip->as_cut.count; i++)
        wide = rational_max(wide, strip->as_cut.points[i].x);
    struct rational *at =
        ARENA_ARRAY(arena, struct rational, 2 * strip->as_cut.count);
    for (size_t i = 0; i < strip->as_cut.count; i++) {
        const struct vertex v = strip->as_cut.points[i];
        at[2 * i] =
            rational_add(fit->x, fit->turned ? rational_sub(wide, v.x) : v.x);
        at[2 * i + 1] = fit->turned ? rational_sub(height, v.y) : v.y;
    }
    struct cut_outline *outline = ARENA_NEW(arena, struct cut_outline);
    *outline = (struct cut_outline){at, strip->as_cut.count};
    return outline;
}

/* The same choices as while the strip was filled, so the same places. */
struct placement place_shapes(struct arena *arena, const struct cut_item *item,
                              const struct shaped_strip *strip)
{
    struct placement placed = {0};
    struct frontier frontier = {rational_whole(0), rational_whole(0)};
    for (size_t i = 0; i < strip->pieces.count; i++) {
        const size_t number = strip->pieces.items[i];
        const struct strip_shape *shape = item->shaped.items[number].strip;
        const struct fit fit = fit_shape(frontier, shape);
        *LIST_ADD(arena, &placed.pieces) =
            (struct placed_piece){.item = number,
                                  .x = fit.x,
                                  .y = rational_whole(0),
                                  .width = rational_sub(reach_of(&fit), fit.x),
                                  .height = high(shape),
                                  .outline = outline_at(arena, shape, &fit)};
        frontier = fit.after;
    }
    return placed;
}
