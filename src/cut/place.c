/* Where the pieces of a plan lie on their cloth, and the proof of a plan. The
 * proof takes nothing from the planner but the strips themselves: it rebuilds
 * every piece in coordinates, counts, compares, and cuts them apart. Read next:
 * book/cutting.c, which draws the same places. */
#include "cutplan.h"

/* ---- places ---- */

/* A column of equal pieces from the bottom. */
static void add_stack(struct arena *arena, struct placement *placed,
                      const struct strip_cut *cut, struct rational x,
                      bool paired)
{
    struct rational y = rational_whole(0);
    for (size_t k = 0; k < cut->stack; k++) {
        *LIST_ADD(arena, &placed->pieces) = (struct placed_piece){
            cut->item, paired, x, y, cut->along, cut->across, .outline = NULL};
        y = rational_add(y, cut->across);
    }
}

/* From the left, side by side. ensures: where the next one goes. */
static struct rational add_row(struct arena *arena, struct placement *placed,
                               const struct strip_cut *cuts, size_t count,
                               struct rational x)
{
    for (size_t i = 0; i < count; i++)
        for (size_t n = 0; n < cuts[i].count; n++) {
            add_stack(arena, placed, &cuts[i], x, false);
            x = rational_add(x, cuts[i].along);
        }
    return x;
}

/* Pairs from both selvages inwards, single pieces behind those on the left. */
static struct placement place_work(struct arena *arena,
                                   const struct strip_work *work,
                                   struct rational length)
{
    struct placement placed = {0};
    struct rational x = rational_whole(0);
    for (size_t i = 0; i < work->pairs.count; i++) {
        const struct strip_cut *cut = &work->pairs.items[i];
        for (size_t n = 0; n < cut->count; n++) {
            add_stack(arena, &placed, cut, x, true);
            x = rational_add(x, cut->along);
            add_stack(arena, &placed, cut, rational_sub(length, x), true);
        }
    }
    add_row(arena, &placed, work->singles.items, work->singles.count, x);
    return placed;
}

struct placement place_strip(struct arena *arena,
                             const struct fabric_plan *plan,
                             const struct strip *strip, bool last)
{
    const struct strip_work work = fold_strip(arena, plan, strip, last);
    return place_work(arena, &work, plan->strip_length);
}

/* Turns a strip's place into the sheet's: strips that run down have their
 * length along the height. */
static struct placed_piece in_sheet(struct placed_piece piece, bool down,
                                    struct rational offset)
{
    const struct placed_piece in_strip = piece;
    if (!down) {
        piece.y = rational_add(piece.y, offset);
        return piece;
    }
    piece.x = rational_add(in_strip.y, offset);
    piece.y = in_strip.x;
    piece.width = in_strip.height;
    piece.height = in_strip.width;
    return piece;
}

/* Strips follow one another from the first edge without gaps, so that all that
 * is left over stays behind the last one in one piece. */
static struct placement place_rows(struct arena *arena,
                                   const struct sheet *sheet)
{
    struct placement placed = {0};
    struct rational offset = rational_whole(0);
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        for (size_t n = 0; n < strip->repeat; n++) {
            struct placement one = {0};
            add_row(arena, &one, strip->cuts.items, strip->cuts.count,
                    rational_whole(0));
            for (size_t k = 0; k < one.pieces.count; k++)
                *LIST_ADD(arena, &placed.pieces) =
                    in_sheet(one.pieces.items[k], sheet->down, offset);
            offset = rational_add(offset, strip->height);
        }
    }
    return placed;
}

struct placement place_sheet(struct arena *arena,
                             const struct fabric_plan *plan,
                             const struct sheet *sheet)
{
    if (sheet->kind != SHEET_LENGTHWISE)
        return place_rows(arena, sheet);
    const struct strip_work work = fold_sheet(arena, plan, sheet);
    return place_work(arena, &work, sheet->width);
}

/* ---- the proof ---- */

/* A rectangle of cloth, by its edges. */
struct region {
    struct rational left, top, right, bottom;
};

/* Edges are added up once; each piece is compared with many others. */
static struct region region_of(const struct placed_piece *piece)
{
    return (struct region){piece->x, piece->y,
                           rational_add(piece->x, piece->width),
                           rational_add(piece->y, piece->height)};
}

/* In fractions: pieces that touch must not seem to overlap by rounding. */
static bool at_most(struct rational a, struct rational b)
{
    return rational_compare(a, b) <= 0;
}

/* Edges may touch. */
static bool apart(const struct region *a, const struct region *b)
{
    return at_most(a->right, b->left) || at_most(b->right, a->left) ||
           at_most(a->bottom, b->top) || at_most(b->bottom, a->top);
}

/* No piece overlaps another or the edge of its cloth. All pairs are compared: a
 * proof should be plain before it is fast. */
static bool all_apart(const struct region *pieces, size_t count,
                      struct rational width, struct rational height)
{
    for (size_t i = 0; i < count; i++) {
        if (rational_sign(pieces[i].left) < 0 ||
            rational_sign(pieces[i].top) < 0 ||
            !at_most(pieces[i].right, width) ||
            !at_most(pieces[i].bottom, height))
            return false;
        for (size_t k = 0; k < i; k++)
            if (!apart(&pieces[i], &pieces[k]))
                return false;
    }
    return true;
}

/* How many pieces lie on the near side of a cut; 0 where it meets a piece. */
static size_t near_side(const struct region *pieces, size_t count, bool upright,
                        struct rational cut)
{
    size_t near = 0;
    for (size_t i = 0; i < count; i++) {
        const struct rational from = upright ? pieces[i].left : pieces[i].top;
        const struct rational to = upright ? pieces[i].right : pieces[i].bottom;
        if (at_most(to, cut))
            near++;
        else if (!at_most(cut, from))
            return 0;
    }
    return near;
}

/* Moves the pieces on the near side of a cut to the front. */
static void part_at(struct region *pieces, size_t count, bool upright,
                    struct rational cut)
{
    size_t near = 0;
    for (size_t i = 0; i < count; i++) {
        const struct region piece = pieces[i];
        if (!at_most(upright ? piece.right : piece.bottom, cut))
            continue;
        pieces[i] = pieces[near];
        pieces[near++] = piece;
    }
}

/* Can the pieces be cut apart by cuts that go from edge to edge of what is
 * left? Any such cut will do first: it never spoils another one. Cuts at the
 * far edge of some piece are all that need be tried. That is what a ruler and a
 * rotary cutter can do; research calls it a guillotine pattern (Gilmore and
 * Gomory, 1965). */
static bool cut_apart(struct region *pieces, size_t count)
{
    while (count > 1) {
        size_t near = 0;
        for (size_t i = 0; i < 2 * count && near == 0; i++) {
            const bool upright = i % 2 == 1;
            const struct rational cut =
                upright ? pieces[i / 2].right : pieces[i / 2].bottom;
            near = near_side(pieces, count, upright, cut);
            near = near == count ? 0 : near;
            if (near > 0)
                part_at(pieces, count, upright, cut);
        }
        if (near == 0)
            return false;
        /* The smaller side by a call, so that calls are few inside each other;
         * the larger one goes on here. */
        const bool near_smaller = near <= count / 2;
        struct region *far = pieces + near;
        const size_t left = count - near;
        if (!cut_apart(near_smaller ? pieces : far, near_smaller ? near : left))
            return false;
        pieces = near_smaller ? far : pieces;
        count = near_smaller ? left : near;
    }
    return true;
}

/* Its own size, and turned only where that is allowed. */
static bool lies_well(const struct fabric_plan *plan,
                      const struct placed_piece *piece)
{
    if (piece->item >= plan->items.count)
        return false;
    const struct cut_item *item = &plan->items.items[piece->item];
    const bool as_is = rational_equal(piece->width, item->width) &&
                       rational_equal(piece->height, item->height);
    const bool turned = rational_equal(piece->width, item->height) &&
                        rational_equal(piece->height, item->width);
    return as_is || (item->turns && turned);
}

/* Does the piece that was cut with this one lie under it, on the other side of
 * the fold, and neither of them across it? */
static bool has_partner(const struct placement *placed, size_t index,
                        struct rational width)
{
    const struct placed_piece *piece = &placed->pieces.items[index];
    const struct rational far =
        rational_sub(width, rational_add(piece->x, piece->width));
    if (rational_compare(rational_times(piece->x, 2), width) < 0 &&
        rational_compare(rational_times(far, 2), width) < 0)
        return false;
    for (size_t i = 0; i < placed->pieces.count; i++) {
        const struct placed_piece *other = &placed->pieces.items[i];
        if (i != index && other->paired && other->item == piece->item &&
            rational_equal(other->x, far) &&
            rational_equal(other->y, piece->y) &&
            rational_equal(other->width, piece->width))
            return true;
    }
    return false;
}

/* Proves one rectangle of cloth, and counts its pieces `repeat` times. */
static bool cloth_holds(const struct fabric_plan *plan,
                        const struct placement *placed, struct rational width,
                        struct rational height, size_t repeat, size_t *made)
{
    struct arena *scratch = arena_create();
    struct region *regions =
        ARENA_ARRAY(scratch, struct region, placed->pieces.count + 1);
    bool holds = true;
    for (size_t i = 0; holds && i < placed->pieces.count; i++) {
        const struct placed_piece *piece = &placed->pieces.items[i];
        holds = lies_well(plan, piece) &&
                (!piece->paired || has_partner(placed, i, width));
        regions[i] = region_of(piece);
        if (holds)
            made[piece->item] += repeat;
    }
    holds = holds && all_apart(regions, placed->pieces.count, width, height) &&
            cut_apart(regions, placed->pieces.count);
    arena_destroy(scratch);
    return holds;
}

/* Strips across the cloth: all but the last, then the last. */
static bool strips_hold(struct arena *arena, const struct fabric_plan *plan,
                        size_t *made)
{
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[i];
        const size_t alike = strip->repeat - (strip->last.count > 0 ? 1 : 0);
        const struct placement full = place_strip(arena, plan, strip, false);
        const struct placement last = place_strip(arena, plan, strip, true);
        if (strip->repeat == 0 ||
            !cloth_holds(plan, &full, plan->strip_length, strip->height, alike,
                         made) ||
            (strip->last.count > 0 &&
             !cloth_holds(plan, &last, plan->strip_length, strip->height, 1,
                          made)))
            return false;
    }
    return true;
}

/* How many rectangles of that size a lengthwise sheet leaves: one beside its
 * pieces, or feet at the ends of shorter ones. */
static size_t rests_in(const struct sheet *sheet, const struct sheet *rest)
{
    if (!rest->foot)
        return at_most(rest->width, rational_sub(sheet->width, sheet->used)) &&
                       at_most(rest->height, sheet->height)
                   ? sheet->repeat
                   : 0;
    size_t feet = 0;
    for (size_t i = 0; i < sheet->strips.count; i++) {
        const struct strip *strip = &sheet->strips.items[i];
        if (at_most(rest->width, strip->height) &&
            at_most(rest->height, rational_sub(sheet->height, strip->used)))
            feet += strip->repeat * sheet->repeat;
    }
    return feet;
}

/* Rests are what lengthwise cloth leaves: there is one for each, and none is
 * larger. */
static bool rests_hold(const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *rest = &plan->sheets.items[i];
        if (rest->kind != SHEET_REST)
            continue;
        size_t wanted = 0, found = 0;
        for (size_t k = 0; k < plan->sheets.count; k++) {
            const struct sheet *other = &plan->sheets.items[k];
            if (other->kind == SHEET_REST && other->foot == rest->foot &&
                at_most(rest->width, other->width) &&
                at_most(rest->height, other->height))
                wanted += other->repeat;
            if (other->kind == SHEET_LENGTHWISE)
                found += rests_in(other, rest);
        }
        if (wanted > found)
            return false;
    }
    return true;
}

/* The sum of what is cut must be what is asked: no piece less, none more. */
bool cutplan_holds(const struct fabric_plan *plan)
{
    struct arena *arena = arena_create();
    size_t *made = ARENA_ARRAY(arena, size_t, plan->items.count + 1);
    bool holds = strips_hold(arena, plan, made) && rests_hold(plan);
    for (size_t i = 0; holds && i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        const struct placement placed = place_sheet(arena, plan, sheet);
        holds = sheet->repeat > 0 &&
                cloth_holds(plan, &placed, sheet->width, sheet->height,
                            sheet->repeat, made);
    }
    for (size_t i = 0; holds && i < plan->items.count; i++)
        holds = made[i] == plan->items.items[i].count;
    arena_destroy(arena);
    return holds;
}
