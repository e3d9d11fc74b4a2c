/* Money, exact up to the line of a document, and weights. Sums that grow beyond
 * exact numbers are told and not guessed. */
#include "planner.h"

#include "trade.h"

/* ---- printing ---- */

/* Digits are 0, 2 or 3. */
static int64_t power_of_ten(int digits)
{
    int64_t power = 1;
    for (int i = 0; i < digits; i++)
        power *= 10;
    return power;
}

/* Half up, also where it is below 0: -0.5 becomes 0. */
struct rational money_rounded(const struct order *order, struct rational value)
{
    const int64_t parts = power_of_ten(order->digits);
    const struct rational moved =
        rational_add(rational_times(value, parts), rational_make(1, 2));
    return rational_known(moved) ? rational_make(rational_floor(moved), parts)
                                 : rational_unknown();
}

/* rational_decimal cuts, and what is rounded has no more digits. */
char *money_text(struct arena *arena, const struct order *order,
                 struct rational value)
{
    const struct rational rounded = money_rounded(order, value);
    if (!rational_known(rounded))
        return arena_copy(arena, "", 0);
    return rational_decimal(arena, rounded, order->digits);
}

/* ---- sums ---- */

/* To the nearest millionth, half up. */
static struct rational in_millionths(struct rational value)
{
    enum { PARTS = 1000000 };
    const struct rational moved =
        rational_add(rational_times(value, PARTS), rational_make(1, 2));
    return rational_known(moved) ? rational_make(rational_floor(moved), PARTS)
                                 : rational_unknown();
}

/* Bolts of many odd lengths have prices by length whose common fraction no
 * 64 bits hold. A millionth is far below what is printed. */
struct rational money_sum(struct rational a, struct rational b)
{
    const struct rational sum = rational_add(a, b);
    return rational_known(sum)
               ? sum
               : rational_add(in_millionths(a), in_millionths(b));
}

/* ---- what is bought ---- */

/* Bolts are counted, lengths measured in their steps. */
static size_t steps_bought(const struct kits_cloth *cloth)
{
    if (rational_sign(cloth->bought_length) == 0)
        return 0;
    return (size_t)rational_ceil(
        rational_div(cloth->bought_length, cloth->step));
}

/* What is not bought costs nothing, even where it has no price. */
void price_cloth(struct planner *planner, size_t index)
{
    struct kits_cloth *cloth = &planner->kits->cloths.items[index];
    struct rational cost = rational_whole(0);
    cloth->bought = steps_bought(cloth);
    if (cloth->bought > 0)
        cost = rational_times(cloth->price, (int64_t)cloth->bought);
    for (size_t i = 0; i < cloth->pieces.count; i++) {
        const struct kits_pieces *pieces = &cloth->pieces.items[i];
        if (pieces->bought > 0)
            cost = money_sum(
                cost, rational_times(pieces->price, (int64_t)pieces->bought));
    }
    cloth->cost = cost;
}

/* ---- what a kit costs ---- */

/* The kind is there: the content was counted into it. */
static const struct kits_pieces *pieces_of(const struct kits_cloth *cloth,
                                           enum sold_as kind)
{
    size_t i = 0;
    while (cloth->pieces.items[i].kind != kind)
        i++;
    return &cloth->pieces.items[i];
}

/* Of one piece as it is cut. */
static struct rational area_of(const struct kits_size *size)
{
    return rational_mul(size->width, size->height);
}

/* The strips of all kits, shared out by the area of the pieces, up to the next
 * hundredth of the unit: a share is no length that anybody measures. */
static struct rational bag_length(const struct kits_cloth *cloth,
                                  const struct kits_content *content)
{
    struct rational all = rational_whole(0), own = all;
    for (size_t i = 0; i < cloth->cutting.sizes.count; i++) {
        const struct kits_size *size = &cloth->cutting.sizes.items[i];
        all = rational_add(all,
                           rational_times(area_of(size), (int64_t)size->count));
    }
    for (size_t i = 0; i < content->bag.count; i++) {
        const struct kits_bag_piece *piece = &content->bag.items[i];
        own = rational_add(
            own, rational_times(rational_mul(piece->width, piece->height),
                                (int64_t)piece->count));
    }
    const struct rational share =
        rational_mul(cloth->cutting.length, rational_div(own, all));
    return rational_known(share)
               ? rational_round_up(share, rational_make(1, 100))
               : share;
}

/* Length of cloth that one kit takes, its `over` with it. */
static struct rational used_of(const struct order *order,
                               const struct kits_cloth *cloth,
                               const struct kits_content *content)
{
    if (rational_sign(content->length) > 0)
        return rational_add(content->length, order->over);
    if (content->bag.count > 0)
        return bag_length(cloth, content);
    if (content->pieces > 0) {
        const struct kits_pieces *pieces = pieces_of(cloth, content->kind);
        return pieces->each == 0
                   ? rational_whole(0)
                   : rational_div(rational_times(pieces->length,
                                                 (int64_t)content->pieces),
                                  rational_whole((int64_t)pieces->each));
    }
    struct rational sum = rational_whole(0);
    for (size_t i = 0; i < content->strips.count; i++)
        sum = rational_add(
            sum, rational_times(content->strips.items[i].height,
                                (int64_t)content->strips.items[i].count));
    return sum;
}

/* Pieces that are bought as such have a price each. */
static struct rational cost_of(const struct kits_cloth *cloth,
                               const struct kits_content *content)
{
    if (content->pieces > 0) {
        const struct kits_pieces *pieces = pieces_of(cloth, content->kind);
        if (pieces->each == 0)
            return rational_times(pieces->price, (int64_t)content->pieces);
    }
    return rational_mul(content->used, cloth->per_length);
}

/* The margin is unknown where a cost or the price is. */
static void price_line(struct planner *planner, struct kits_line *line)
{
    line->cloth_cost = line->extras_cost = rational_whole(0);
    for (size_t i = 0; i < line->contents.count; i++) {
        struct kits_content *content = &line->contents.items[i];
        const struct kits_cloth *cloth =
            &planner->kits->cloths.items[content->cloth];
        content->used = used_of(planner->order, cloth, content);
        content->cost = cost_of(cloth, content);
        line->cloth_cost = money_sum(line->cloth_cost, content->cost);
    }
    for (size_t i = 0; i < line->asked->extras.count; i++) {
        const struct order_extra *extra = &line->asked->extras.items[i];
        line->extras_cost =
            rational_add(line->extras_cost,
                         rational_times(extra->cost, (int64_t)extra->count));
    }
    line->cost = money_sum(line->cloth_cost, line->extras_cost);
    line->margin = rational_div(rational_sub(line->asked->price, line->cost),
                                line->asked->price);
}

/* Does a price lack of what was added up? Then a sum that is unknown is no
 * overflow. */
static bool lacks_price(const struct kits *kits)
{
    for (size_t i = 0; i < kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &kits->cloths.items[i];
        if (cloth->cuts.count > 0 && !rational_known(cloth->price))
            return true;
        for (size_t k = 0; k < cloth->pieces.count; k++)
            if (cloth->pieces.items[k].each == 0 &&
                !rational_known(cloth->pieces.items[k].price))
                return true;
    }
    return false;
}

/* Exact values are added, and rounded by who prints them: forty kits of
 * 24.79 are not forty times that. */
void price_lines(struct planner *planner)
{
    struct kits *kits = planner->kits;
    kits->bought_cost = kits->kits_cost = kits->kits_price = rational_whole(0);
    for (size_t i = 0; i < kits->cloths.count; i++)
        kits->bought_cost =
            money_sum(kits->bought_cost, kits->cloths.items[i].cost);
    for (size_t i = 0; i < planner->order->lines.count; i++) {
        struct kits_line *line = &kits->lines[i];
        const int64_t count = (int64_t)line->asked->kits;
        price_line(planner, line);
        kits->kits_cost =
            money_sum(kits->kits_cost, rational_times(line->cost, count));
        kits->kits_price = money_sum(kits->kits_price,
                                     rational_times(line->asked->price, count));
    }
    if ((rational_known(kits->bought_cost) &&
         rational_known(kits->kits_cost)) ||
        lacks_price(kits))
        return;
    struct diagnostic *d = diag_report(
        planner->run, DIAG_LIMIT,
        planner->order->root == NULL ? (struct span){0, 0}
                                     : planner->order->root->name,
        "the money of this order adds up to no number that is told exactly");
    diag_help(planner->run, d, "split it into several orders");
}

/* ---- weights ---- */

/* So much cloth of so much length and its whole width. */
static struct rational area_held(const struct planner *planner,
                                 const struct kits_cloth *cloth,
                                 const struct kits_content *content)
{
    if (content->bag.count > 0) {
        struct rational area = rational_whole(0);
        for (size_t i = 0; i < content->bag.count; i++) {
            const struct kits_bag_piece *piece = &content->bag.items[i];
            area = rational_add(
                area, rational_times(rational_mul(piece->width, piece->height),
                                     (int64_t)piece->count));
        }
        return area;
    }
    if (content->pieces == 0)
        return rational_mul(content->used, cloth->width);
    if (content->kind != SOLD_FAT_QUARTER)
        return rational_unknown();
    const enum length_unit units = planner->order->units;
    const struct rational half =
        rational_div(trade_length(TRADE_CLOTH_WIDTH, units), rational_whole(2));
    return rational_times(
        rational_mul(half, trade_length(TRADE_FAT_QUARTER, units)),
        (int64_t)content->pieces);
}

/* What is counted in a bag: a length is one piece. */
static size_t pieces_held(const struct kits_content *content)
{
    size_t count = content->pieces;
    for (size_t i = 0; i < content->bag.count; i++)
        count += content->bag.items[i].count;
    for (size_t i = 0; i < content->strips.count; i++)
        count += content->strips.items[i].count;
    return count == 0 ? 1 : count;
}

/* Without a weight that the shop has measured, nothing is told: what labels
 * say is off by too much. */
static void weigh(struct planner *planner, struct kits_content *content)
{
    const struct kits_cloth *cloth =
        &planner->kits->cloths.items[content->cloth];
    if (cloth->stated == NULL || !rational_known(cloth->stated->grams))
        return;
    const struct rational meter = length_factor(planner->order->units, UNIT_M);
    content->grams =
        rational_mul(rational_mul(area_held(planner, cloth, content),
                                  rational_mul(meter, meter)),
                     cloth->stated->grams);
    const struct rational error = cloth->stated->grams_error;
    content->grams_error = rational_mul(content->grams, error);
    /* One of n is seen where n e is less than a half. */
    content->weight_tells =
        rational_known(content->grams_error) &&
        rational_compare(rational_times(error, (int64_t)pieces_held(content)),
                         rational_make(1, 2)) < 0;
}

/* After prices, since what a length weighs asks for what is used of it. */
void weigh_lines(struct planner *planner)
{
    for (size_t i = 0; i < planner->order->lines.count; i++) {
        struct kits_line *line = &planner->kits->lines[i];
        for (size_t k = 0; k < line->contents.count; k++)
            weigh(planner, &line->contents.items[k]);
    }
}
