/* Cloth as it is sold: what a bolt, a fat quarter or another piece measures,
 * in what steps it is bought, and what shrinkage and squaring up take. Read
 * next: strips.c. */
#include "cutter.h"

/* Up, always. */
struct rational sold_length(const struct cutter *cutter, struct rational length)
{
    return rational_round_up(
        length, trade_length(TRADE_SOLD_STEP, cutter->pattern->units));
}

/* What stays after the wash must be enough: 90 at 5 % takes 90 / 0.95
 * (published for bedding, common practice). */
struct rational length_to_buy(const struct bolt *bolt, struct rational length)
{
    return rational_div(length,
                        rational_sub(rational_whole(1), bolt->shrinkage));
}

struct rational more_to_buy(const struct fabric_plan *plan,
                            struct rational length, enum length_unit units)
{
    const struct rational needed = length_to_buy(
        plan->bolt,
        rational_add(rational_add(plan->cut_height, length), plan->allowance));
    const struct rational sold =
        rational_round_up(needed, trade_length(TRADE_SOLD_STEP, units));
    return rational_max(rational_sub(sold, plan->bought), rational_whole(0));
}

const char *sheet_name(enum sold_as sold, bool several)
{
    switch (sold) {
    case SOLD_YARDAGE:
        break;
    case SOLD_FAT_QUARTER:
        return several ? "fat quarters" : "fat quarter";
    case SOLD_FAT_EIGHTH:
        return several ? "fat eighths" : "fat eighth";
    case SOLD_TEN_INCH:
        return several ? "ten-inch squares" : "ten-inch square";
    case SOLD_FIVE_INCH:
        return several ? "five-inch squares" : "five-inch square";
    case SOLD_STRIP:
        return several ? "strips" : "strip";
    }
    return NULL;
}

/* ensures: width and height as sold. */
static void measure_sheet(const struct cutter *cutter, struct fabric_plan *plan)
{
    const enum length_unit units = cutter->pattern->units;
    const struct rational half =
        rational_div(plan->bolt->width, rational_whole(2));
    switch (plan->bolt->sold) {
    case SOLD_YARDAGE:
        return;
    case SOLD_FAT_QUARTER:
        plan->strip_length = half;
        plan->sheet_height = trade_length(TRADE_FAT_QUARTER, units);
        break;
    case SOLD_FAT_EIGHTH:
        plan->strip_length = half;
        plan->sheet_height = trade_length(TRADE_FAT_EIGHTH, units);
        break;
    case SOLD_TEN_INCH:
        plan->strip_length = plan->sheet_height =
            trade_length(TRADE_TEN_INCH, units);
        break;
    case SOLD_FIVE_INCH:
        plan->strip_length = plan->sheet_height =
            trade_length(TRADE_FIVE_INCH, units);
        break;
    case SOLD_STRIP:
        plan->sheet_height = trade_length(TRADE_STRIP, units);
        break;
    }
}

/* The length of a sheet shrinks as its width does, down to the cutting step.
 * Squaring up takes from a sheet only where its cloth says so: what it measures
 * is mostly meant as usable. */
void measure_bolt(struct cutter *cutter, struct fabric_plan *plan, int fabric)
{
    const struct pattern *pattern = cutter->pattern;
    plan->fabric = fabric;
    plan->bolt = &cutter->plan->colorway->bolts[fabric];
    plan->strip_length = plan->bolt->width;
    plan->sheet_height = rational_whole(0);
    plan->least_bought = plan->reserved_bought = plan->apart_bought =
        rational_unknown();
    plan->reserve = plan->bolt->reserve;
    plan->allowance = rational_known(plan->bolt->allowance)
                          ? plan->bolt->allowance
                          : pattern->allowance;
    if (plan->bolt->sold == SOLD_YARDAGE)
        return;
    measure_sheet(cutter, plan);
    plan->allowance = rational_whole(0);
    if (rational_sign(plan->bolt->shrinkage) > 0)
        plan->sheet_height = rational_times(
            pattern->cutting_step,
            rational_floor(
                rational_div(rational_mul(plan->sheet_height,
                                          rational_sub(rational_whole(1),
                                                       plan->bolt->shrinkage)),
                             pattern->cutting_step)));
    if (plan->bolt->sold == SOLD_TEN_INCH || plan->bolt->sold == SOLD_FIVE_INCH)
        plan->strip_length = plan->sheet_height;
    if (!rational_known(plan->bolt->allowance))
        return;
    plan->allowance = plan->bolt->allowance;
    plan->strip_length = rational_sub(plan->strip_length, plan->allowance);
    plan->sheet_height = rational_sub(plan->sheet_height, plan->allowance);
}
