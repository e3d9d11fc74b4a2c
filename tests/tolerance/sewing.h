/* A quilt sewn by chance, cut by cut and seam by seam, as plane geometry: what
 * is cut is drawn anew each time, a corner is turned over its stitch line, rows
 * are eased to one another. It shares with the program's formulas what hands
 * do, and none of their coefficients. */
#ifndef SEAMWRIGHT_TESTS_TOLERANCE_SEWING_H
#define SEAMWRIGHT_TESTS_TOLERANCE_SEWING_H

#include <math.h>

#include "../unit.h"
#include "tolerance.h"

struct dice {
    struct unit_random random;
    bool spare_known; /* normals come in pairs */
    double spare;
};

/* More than 0, at most 1. */
static inline double dice_uniform(struct dice *dice)
{
    return (double)((unit_next(&dice->random) >> 11) + 1) / 9007199254740992.0;
}

/* G. E. P. Box and M. E. Muller, A note on the generation of random normal
 * deviates, 1958 (from memory). */
static inline double dice_normal(struct dice *dice, double spread)
{
    dice->spare_known = !dice->spare_known;
    if (!dice->spare_known)
        return spread * dice->spare;
    const double far = sqrt(-2 * log(dice_uniform(dice)));
    const double angle = 2 * acos(-1) * dice_uniform(dice);
    dice->spare = far * sin(angle);
    return spread * far * cos(angle);
}

struct spot2 {
    double x, y;
};

/* A line by a point and its direction, of length 1. */
struct line2 {
    struct spot2 at, way;
};

static inline struct line2 line_through(struct spot2 a, struct spot2 b)
{
    const double length = hypot(b.x - a.x, b.y - a.y);
    return (struct line2){a, {(b.x - a.x) / length, (b.y - a.y) / length}};
}

/* How far a point lies to the left of the line, as y runs up. */
static inline double left_of(struct line2 line, struct spot2 p)
{
    return line.way.x * (p.y - line.at.y) - line.way.y * (p.x - line.at.x);
}

/* Moved to its left. */
static inline struct line2 line_moved(struct line2 line, double left)
{
    line.at.x -= line.way.y * left;
    line.at.y += line.way.x * left;
    return line;
}

static inline struct spot2 reflected(struct line2 line, struct spot2 p)
{
    const double left = left_of(line, p);
    return (struct spot2){p.x + 2 * left * line.way.y,
                          p.y - 2 * left * line.way.x};
}

static inline struct spot2 crossing(struct line2 a, struct line2 b)
{
    const double turn = a.way.x * b.way.y - a.way.y * b.way.x;
    const double along =
        ((b.at.x - a.at.x) * b.way.y - (b.at.y - a.at.y) * b.way.x) / turn;
    return (struct spot2){a.at.x + along * a.way.x, a.at.y + along * a.way.y};
}

static inline double height_at(struct line2 line, double x)
{
    return line.at.y + (x - line.at.x) * line.way.y / line.way.x;
}

/* ---- hands ---- */

struct cloth2 {
    double side[SIDES];
    double point; /* of a goose: beyond it, less the next seam */
};

struct hands {
    const struct sewn_quilt *quilt;
    double seam; /* of the pattern */
    struct hand hand;
    struct dice dice;
    bool only_sewn; /* nothing is trimmed */
    size_t alike;   /* rows of this heap come from one strip set; or NO_HEAP */
    size_t trimmed; /* a heap that was made larger and is trimmed; or NO_HEAP */
    size_t draws;
};

static inline double stitched(struct hands *hands)
{
    return hands->seam + hands->hand.offset +
           dice_normal(&hands->dice, hands->hand.stitch);
}

static inline double cut_side(struct hands *hands, double stated)
{
    return stated + dice_normal(&hands->dice, hands->hand.cut);
}

static inline double folded(const struct hands *hands,
                            const struct sewn_seam *seam)
{
    return seam->seam.x == 0 && seam->seam.y == 0 ? hands->hand.fold_open
                                                  : hands->hand.fold;
}

static struct cloth2 sew_cloth(struct hands *hands, size_t heap);

static inline struct cloth2 laid_cloth(struct hands *hands,
                                       const struct input *input)
{
    struct cloth2 cloth = sew_cloth(hands, input->heap);
    if (input->turn % 2 == 1) {
        const double across = cloth.side[ACROSS];
        cloth.side[ACROSS] = cloth.side[DOWN];
        cloth.side[DOWN] = across;
    }
    return cloth;
}

static inline struct cloth2 trimmed_cloth(struct hands *hands,
                                          struct cloth2 cloth, double across,
                                          double down)
{
    const double to[SIDES] = {across, down};
    for (int s = ACROSS; s < SIDES && !hands->only_sewn; s++)
        cloth.side[s] = fmin(cloth.side[s], cut_side(hands, to[s]));
    return cloth;
}

/* ---- what hands do ---- */

/* Two squares on each other, their corner at 0, 0; the line runs from corner to
 * corner of the one on top, the stitches a seam from it on the side of that
 * corner. Opened, the corner of the upper one comes to lie across the stitches;
 * the fold takes some of the way. The unit is a square with that diagonal. */
static inline struct cloth2 sew_half(struct hands *hands,
                                     const struct heap *heap)
{
    laid_cloth(hands, &heap->inputs.items[0]);
    const struct cloth2 top = laid_cloth(hands, &heap->inputs.items[1]);
    const struct line2 drawn = line_through((struct spot2){top.side[ACROSS], 0},
                                            (struct spot2){0, top.side[DOWN]});
    const struct line2 sewn = line_moved(drawn, stitched(hands));
    const struct spot2 corner = reflected(sewn, (struct spot2){0, 0});
    const double diagonal =
        hypot(corner.x, corner.y) -
        folded(hands, &heap->actions.items[0].seams.items[0]);
    const double side = diagonal / sqrt(2);
    return trimmed_cloth(hands, (struct cloth2){.side = {side, side}},
                         rational_double(heap->width) + 2 * hands->seam,
                         rational_double(heap->height) + 2 * hands->seam);
}

/* A square flipped over the top left corner at 0, 0, y down: its outer edges
 * after that, and the stitches. The fold draws it back across the stitches. */
struct flap2 {
    struct line2 left, top, sewn;
    struct spot2 corner, low, high; /* of its edges */
};

static inline struct flap2 flip(struct hands *hands, double wide, double high,
                                double fold)
{
    const struct spot2 a = {0, high}, b = {wide, 0};
    const double off =
        hands->hand.line + dice_normal(&hands->dice, hands->hand.stitch);
    struct flap2 flap;
    struct line2 line = line_through(a, b);
    /* Towards 0, 0, which lies to the left where y runs down and the line goes
     * up to the right: its distance there is below nothing. */
    line =
        line_moved(line, left_of(line, (struct spot2){0, 0}) > 0 ? off : -off);
    flap.sewn = line;
    const double back = fold / sqrt(2);
    const struct line2 bottom = {{0, high}, {1, 0}},
                       right = {{wide, 0}, {0, 1}};
    struct spot2 corner = reflected(line, (struct spot2){wide, high});
    struct spot2 low = crossing(line, bottom), up = crossing(line, right);
    flap.corner = (struct spot2){corner.x + back, corner.y + back};
    flap.low = (struct spot2){low.x + back, low.y + back};
    flap.high = (struct spot2){up.x + back, up.y + back};
    flap.left = line_through(flap.corner, flap.low);
    flap.top = line_through(flap.corner, flap.high);
    return flap;
}

/* How far the mean of an edge lies outside of the base's. */
static inline double flap_out(const struct flap2 *flap, int side)
{
    return side == ACROSS ? -(flap->corner.x + flap->low.x) / 2
                          : -(flap->corner.y + flap->high.y) / 2;
}

/* Squares over corners: of each, the edges that it covers lie further out. */
static inline struct cloth2 sew_flaps(struct hands *hands,
                                      const struct heap *heap)
{
    struct cloth2 cloth = laid_cloth(hands, &heap->inputs.items[0]);
    const double wide = cloth.side[ACROSS];
    struct flap2 flaps[4];
    for (size_t i = 1; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct cloth2 square = laid_cloth(hands, input);
        const double finished =
            rational_double(hands->quilt->heaps.items[input->heap].width);
        flaps[i - 1] = flip(hands, square.side[ACROSS], square.side[DOWN],
                            hands->hand.fold);
        cloth.side[ACROSS] += flap_out(&flaps[i - 1], ACROSS) * finished /
                              rational_double(heap->height);
        cloth.side[DOWN] += flap_out(&flaps[i - 1], DOWN) * finished /
                            rational_double(heap->width);
    }
    if (heap->technique != TECHNIQUE_FLYING_GEESE)
        return cloth;
    /* The right one lies as the left one in a mirror. The point is where the
     * stitches cross; the edge above it is that of both. */
    struct line2 other = flaps[1].sewn;
    other.at.x = wide - other.at.x;
    other.way.x = -other.way.x;
    const struct spot2 point = crossing(flaps[0].sewn, other);
    const double edge = (height_at(flaps[0].top, point.x) +
                         height_at(flaps[1].top, wide - point.x)) /
                        2;
    cloth.point = point.y - edge - stitched(hands);
    return cloth;
}

/* The seam takes its width from both. */
static inline double seam_loss(struct hands *hands,
                               const struct sewn_seam *seam)
{
    return 2 * stitched(hands) + folded(hands, seam);
}

static inline const struct sewn_seam *seam_to(const struct heap *heap,
                                              enum laid laid, size_t next)
{
    for (size_t a = 0; a < heap->actions.count; a++) {
        const struct action *action = &heap->actions.items[a];
        for (size_t i = 0; i < action->seams.count; i++)
            if (action->operation->laid == laid &&
                action->seams.items[i].next == next)
                return &action->seams.items[i];
    }
    return NULL;
}

/* A row: widths add up, heights are eased. */
static inline struct cloth2 sew_row(struct hands *hands,
                                    const struct heap *heap, size_t row)
{
    struct cloth2 cloth = {.point = 0};
    const size_t across = heap->of.join.across;
    double area = 0;
    for (size_t i = row * across; i < (row + 1) * across; i++) {
        const struct cloth2 part = laid_cloth(hands, &heap->inputs.items[i]);
        const struct sewn_seam *seam = seam_to(heap, LAID_ACROSS, i);
        const struct input *input = &heap->inputs.items[i];
        const struct heap *made = &hands->quilt->heaps.items[input->heap];
        const double wide =
            rational_double(input->turn % 2 == 0 ? made->width : made->height);
        cloth.side[ACROSS] += part.side[ACROSS];
        if (seam != NULL)
            cloth.side[ACROSS] -= seam_loss(hands, seam);
        cloth.side[DOWN] += wide * part.side[DOWN];
        area += wide;
    }
    cloth.side[DOWN] /= area;
    return cloth;
}

/* The first and the last of three come from one strip set, where that is
 * asked. */
static inline struct cloth2 sew_rows(struct hands *hands,
                                     const struct heap *heap)
{
    struct cloth2 cloth = {.point = 0};
    const size_t across = heap->of.join.across, down = heap->of.join.down;
    double first = 0, high = 0;
    for (size_t row = 0; row < down; row++) {
        struct cloth2 one = sew_row(hands, heap, row);
        const struct sewn_seam *seam = seam_to(heap, LAID_DOWN, row * across);
        const struct input *input = &heap->inputs.items[row * across];
        const struct heap *made = &hands->quilt->heaps.items[input->heap];
        const double share =
            rational_double(input->turn % 2 == 0 ? made->height : made->width);
        if (row == 0)
            first = one.side[ACROSS];
        else if (heap == &hands->quilt->heaps.items[hands->quilt->whole] &&
                 hands->alike != NO_HEAP && row + 1 == down)
            one.side[ACROSS] = first;
        cloth.side[ACROSS] += share * one.side[ACROSS];
        high += share;
        cloth.side[DOWN] += one.side[DOWN];
        if (seam != NULL)
            cloth.side[DOWN] -= seam_loss(hands, seam);
    }
    cloth.side[ACROSS] /= high;
    return cloth;
}

/* Strips as long as the side that is measured. */
static inline struct cloth2 sew_border(struct hands *hands,
                                       const struct heap *heap)
{
    struct cloth2 cloth = laid_cloth(hands, &heap->inputs.items[BORDER_CENTER]);
    for (size_t i = BORDER_LEFT; i <= BORDER_BOTTOM; i++) {
        const int side = i <= BORDER_RIGHT ? ACROSS : DOWN;
        cloth.side[side] +=
            laid_cloth(hands, &heap->inputs.items[i]).side[side];
        cloth.side[side] -=
            seam_loss(hands, &heap->actions.items[0].seams.items[0]);
    }
    return cloth;
}

/* From tip to tip of what stands on its corner: both edges, less a seam and half
 * a fold at either end of each, as they lie at 45 degrees. */
static inline double sew_tips(struct hands *hands, const struct heap *heap,
                              size_t input)
{
    const struct cloth2 part = laid_cloth(hands, &heap->inputs.items[input]);
    double tips = 0;
    for (int side = ACROSS; side < SIDES; side++) {
        tips += part.side[side];
        for (int end = 0; end < 2; end++)
            tips -= seam_loss(hands, &heap->actions.items[0].seams.items[0]) / 2;
    }
    return tips * sqrt(0.5);
}

/* Blocks of the first level line, without sashing: each is the first of its row
 * but a triangle; then the edge is trimmed a seam outside the outer tips. */
static inline struct cloth2 sew_on_point(struct hands *hands,
                                         const struct heap *heap)
{
    struct cloth2 cloth = {.side = {2 * hands->seam, 2 * hands->seam}};
    for (size_t row = 0; row < heap->piece->on_point->across; row++) {
        size_t first = heap->of.join.first[row];
        first += heap->piece->cells.items[first].piece->shape != PATCH_WHOLE;
        cloth.side[ACROSS] += sew_tips(hands, heap, first);
    }
    return cloth;
}

static inline struct cloth2 sew_cloth(struct hands *hands, size_t index)
{
    const struct heap *heap = &hands->quilt->heaps.items[index];
    const double across = rational_double(heap->width) + 2 * hands->seam;
    const double down = rational_double(heap->height) + 2 * hands->seam;
    struct cloth2 cloth = {.point = 0};
    if (heap->technique == TECHNIQUE_CUT)
        cloth = (struct cloth2){
            .side = {cut_side(hands, across), cut_side(hands, down)}};
    else if (heap->technique == TECHNIQUE_HALF_SQUARE)
        cloth = sew_half(hands, heap);
    else if (heap->technique == TECHNIQUE_BORDER)
        cloth = sew_border(hands, heap);
    else if (heap->technique == TECHNIQUE_JOIN)
        cloth = sew_rows(hands, heap);
    else if (heap->technique == TECHNIQUE_ON_POINT)
        cloth = sew_on_point(hands, heap);
    else
        cloth = sew_flaps(hands, heap);
    if (index == hands->trimmed) {
        cloth.side[ACROSS] += 0.5;
        cloth.side[DOWN] += 0.5;
        cloth = trimmed_cloth(hands, cloth, across, down);
    }
    return cloth;
}

#endif
