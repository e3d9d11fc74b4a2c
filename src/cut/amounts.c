/* Amounts of cloth that the source states, against those of the plan. Exact
 * comparison: what is stated is what a shop is asked for. */
#include "cutter.h"

/* The list with another amount for this quilt. */
static const char *list_text(struct cutter *cutter,
                             const struct stated_amounts *stated,
                             size_t quilt_number, const char *amount)
{
    const char *text = "";
    for (size_t i = 0; i < stated->count; i++)
        text = arena_printf(
            cutter->run->arena, "%s%s%s", text, i == 0 ? "" : ", ",
            i == quilt_number
                ? amount
                : length_plain(cutter->run->arena, stated->items[i], UNIT_YD));
    return text;
}

/* Nothing but the amount tells of many a size, so it cannot be decided which of
 * them is wrong: a question, and no mend. */
static struct diagnostic *report_amount(struct cutter *cutter,
                                        const struct stated_amounts *stated,
                                        enum attribute_id id,
                                        size_t quilt_number, const char *found,
                                        const char *wanted, const char *right)
{
    struct diagnostic *d =
        diag_report(cutter->run, DIAG_YARDAGE, stated->span,
                    "`%s` takes %s of this cloth, not %s",
                    cutter->plan->quilt->definition->id, found, wanted);
    diag_help(
        cutter->run, d, "are the sizes and cloths right? then %s=\"%s\" holds",
        attribute_name(id), list_text(cutter, stated, quilt_number, right));
    return d;
}

/* Is this what the cloth is counted in? Fat quarters are sheets, too, so a
 * number of sheets may mean them. */
static bool counts(enum sold_as sold, enum attribute_id id)
{
    if (id == ATTR_YARDS)
        return sold == SOLD_YARDAGE;
    return id == ATTR_FAT_QUARTERS ? sold == SOLD_FAT_QUARTER
                                   : sold != SOLD_YARDAGE;
}

/* "in fat quarters", "as yardage". */
static const char *sold_text(struct arena *arena, enum sold_as sold)
{
    return sold == SOLD_YARDAGE
               ? "as yardage"
               : arena_printf(arena, "in %s", sheet_name(sold, true));
}

/* What the attribute states of this cloth. */
static const struct stated_amounts *amounts_of(const struct bolt *bolt,
                                               enum attribute_id id)
{
    return id == ATTR_YARDS          ? &bolt->yards
           : id == ATTR_FAT_QUARTERS ? &bolt->fat_quarters
                                     : &bolt->sheets;
}

/* ensures: a list with an amount for each quilt, or NULL. reports: an amount in
 * what this cloth is not sold in, and lists of another length. */
static const struct stated_amounts *stated_list(struct cutter *cutter,
                                                const struct fabric_plan *plan,
                                                enum attribute_id id,
                                                size_t quilt_count)
{
    const struct stated_amounts *stated = amounts_of(plan->bolt, id);
    const enum sold_as sold = plan->bolt->sold;
    if (stated->items == NULL)
        return NULL;
    if (!counts(sold, id)) {
        struct diagnostic *d =
            diag_report(cutter->run, DIAG_YARDAGE, stated->name,
                        "this cloth is sold %s, not %s",
                        sold_text(cutter->run->arena, sold),
                        id == ATTR_YARDS          ? "as yardage"
                        : id == ATTR_FAT_QUARTERS ? "in fat quarters"
                                                  : "by number");
        diag_help(cutter->run, d, "state it with %s=\"...\"",
                  attribute_name(sold == SOLD_YARDAGE       ? ATTR_YARDS
                                 : sold == SOLD_FAT_QUARTER ? ATTR_FAT_QUARTERS
                                                            : ATTR_SHEETS));
        return NULL;
    }
    if (stated->count == quilt_count)
        return stated;
    struct diagnostic *d = diag_report(cutter->run, DIAG_YARDAGE, stated->span,
                                       "there are %zu amounts for %zu quilts",
                                       stated->count, quilt_count);
    diag_help(cutter->run, d,
              "write one amount for each quilt in their order, with commas");
    return NULL;
}

/* One that the cloth is not counted in is told without a plan. */
bool asks_amount(const struct fabric_plan *plan)
{
    static const enum attribute_id ids[] = {ATTR_YARDS, ATTR_FAT_QUARTERS,
                                            ATTR_SHEETS};
    for (size_t i = 0; i < sizeof ids / sizeof *ids; i++)
        if (amounts_of(plan->bolt, ids[i])->items != NULL &&
            counts(plan->bolt->sold, ids[i]))
            return true;
    return false;
}

/* A cloth that only backs the quilt is stated by its backing. */
static struct rational yards_of(const struct cutter *cutter,
                                const struct fabric_plan *plan)
{
    const struct backing_plan *backing = &cutter->plan->backing;
    const bool backs = plan->items.count == 0 && backing->wanted &&
                       backing->fabric == plan->fabric;
    return rational_div(backs ? backing->bought : plan->bought,
                        length_factor(UNIT_YD, cutter->pattern->units));
}

/* An amount that is too large is reported as well: it would be paid for, and
 * the booklet would tell another one. */
static void check_yards(struct cutter *cutter, const struct fabric_plan *plan,
                        const struct stated_amounts *stated,
                        size_t quilt_number)
{
    struct arena *arena = cutter->run->arena;
    const struct rational found = yards_of(cutter, plan);
    const struct rational told = stated->items[quilt_number];
    if (rational_equal(told, found))
        return;
    const char *right = length_plain(arena, found, UNIT_YD);
    struct diagnostic *d =
        report_amount(cutter, stated, ATTR_YARDS, quilt_number,
                      arena_printf(arena, "%s yd", right),
                      length_plain(arena, told, UNIT_YD), right);
    diag_off(d, rational_sub(found, told), rational_unknown());
}

/* A fraction in the source equals no number of sheets, so it needs no rule of
 * its own. */
static void check_sheets(struct cutter *cutter, const struct fabric_plan *plan,
                         const struct stated_amounts *stated,
                         enum attribute_id id, size_t quilt_number)
{
    struct arena *arena = cutter->run->arena;
    const size_t found = plan->bought_sheets;
    const struct rational told = stated->items[quilt_number];
    if (rational_equal(told, rational_whole((int64_t)found)))
        return;
    const char *right = arena_printf(arena, "%zu", found);
    struct diagnostic *d =
        report_amount(cutter, stated, id, quilt_number,
                      arena_printf(arena, "%zu %s", found,
                                   sheet_name(plan->bolt->sold, found != 1)),
                      length_plain(arena, told, UNIT_IN), right);
    diag_off(d, rational_sub(rational_whole((int64_t)found), told),
             rational_unknown());
}

/* Amounts are stated in the order of the quilts. */
void check_amounts(struct cutter *cutter, size_t fabric, size_t quilt_number,
                   size_t quilt_count)
{
    static const enum attribute_id ids[] = {ATTR_YARDS, ATTR_FAT_QUARTERS,
                                            ATTR_SHEETS};
    const struct fabric_plan *plan = &cutter->plan->fabrics[fabric];
    /* A role without cloth was reported; there is nothing to compare. */
    if (plan->bolt->element == NULL)
        return;
    for (size_t k = 0; k < sizeof ids / sizeof *ids; k++) {
        const struct stated_amounts *stated =
            stated_list(cutter, plan, ids[k], quilt_count);
        if (stated == NULL)
            continue;
        if (ids[k] == ATTR_YARDS)
            check_yards(cutter, plan, stated, quilt_number);
        else
            check_sheets(cutter, plan, stated, ids[k], quilt_number);
    }
}
