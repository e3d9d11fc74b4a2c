/* How the end of the cloth is squared up, as far as what is bought lasts: what
 * is told to be cut off is never more than what is there. Read next:
 * amounts.c. */
#include "cutter.h"

/* Cuts across the cloth, of which each takes a strip or a length off it. */
static size_t cuts_across(const struct fabric_plan *plan)
{
    size_t cuts = 0;
    for (size_t i = 0; i < plan->strips.count; i++)
        cuts += plan->strips.items[i].repeat;
    for (size_t i = 0; i < plan->sheets.count; i++)
        if (plan->sheets.items[i].kind == SHEET_LENGTHWISE)
            cuts += plan->sheets.items[i].repeat;
    return cuts;
}

/* Half of the usual allowance comes off at first, as the shop may have cut
 * crookedly; then a step of the ruler, as folded cloth shifts a little with
 * each strip. */
struct squaring usual_squaring(enum length_unit units)
{
    return (struct squaring){
        .first = rational_div(trade_length(TRADE_SQUARING, units),
                              rational_whole(2)),
        .again = trade_length(TRADE_CUTTING_STEP, units),
        .every = 4 /* common practice */};
}

struct squaring squaring_of(const struct fabric_plan *plan,
                            enum length_unit units)
{
    struct squaring squaring = usual_squaring(units);
    const struct rational step = squaring.again;
    const struct rational length = rational_mul(
        plan->bought, rational_sub(rational_whole(1), plan->bolt->shrinkage));
    const int64_t steps = rational_floor(
        rational_div(rational_sub(length, plan->cut_height), step));
    squaring.there = rational_times(step, steps);
    squaring.first = rational_min(squaring.first, squaring.there);
    const size_t most = (size_t)rational_floor(
        rational_div(rational_sub(squaring.there, squaring.first), step));
    const size_t cuts = cuts_across(plan);
    const size_t between = cuts > 0 ? cuts - 1 : 0;
    if (between / squaring.every > most)
        squaring.every = between / (most + 1) + 1;
    squaring.times = between / squaring.every;
    return squaring;
}

struct rational squaring_takes(const struct squaring *squaring)
{
    return rational_add(
        squaring->first,
        rational_times(squaring->again, (int64_t)squaring->times));
}
