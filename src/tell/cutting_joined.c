/* What is told of a cloth's plan beside its lines, where strips are joined or
 * cut before the top is measured, or where another plan may be wanted. Read
 * next: section_materials.c. */
#include <string.h>

#include "contents.h"
#include "told_cutting.h"
#include "trade.h"

/* Nobody should look for a better plan that was never searched for. */
const char *tell_simply(const struct wording *w, const struct fabric_plan *plan)
{
    return plan->simply == 0
               ? ""
               : say(w->arena, w->phrases, "cutting.simply", "count",
                     say_count(w->arena, plan->simply), NULL);
}

/* Of a border: how many lengths come from the long strip, and by which seams.
 */
static const char *joined_key(const struct cut_item *item)
{
    const bool two = item->lengths.count == 2;
    const bool alike = item->labels[0] == item->labels[1];
    if (item->straight)
        return two     ? "cutting.join-two-straight"
               : alike ? "cutting.join-alike-straight"
                       : "cutting.join-four-straight";
    return two     ? "cutting.join-two"
           : alike ? "cutting.join-alike"
                   : "cutting.join-four";
}

/* Of the strips at one side of the border. */
static size_t side_taker(const struct sewn_quilt *quilt,
                         const struct cut_item *item, int side)
{
    const size_t border = quilt->borders.items[item->border - 1].heap;
    const size_t taken = quilt->heaps.items[border].inputs.items[side].heap;
    return quilt->heaps.items[taken].technique == TECHNIQUE_JOIN ? taken
                                                                 : border;
}

size_t strip_taker(const struct sewn_quilt *quilt, const struct cut_item *item)
{
    return side_taker(quilt, item,
                      item->part == BORDER_ENDS ? BORDER_TOP : BORDER_LEFT);
}

const char *measuring_step(const struct wording *w, const struct cut_item *item)
{
    const size_t heap = strip_taker(w->quilt, item);
    return say_count(w->arena, w->quilt->heaps.items[heap].step);
}

/* Of a long strip that gives sides and ends. Those of borders that are mitred as
 * one are joined in a step each, and each of them measures its own. */
static const char *measuring_steps(const struct wording *w,
                                   const struct cut_item *item)
{
    const char *step = measuring_step(w, item);
    const size_t ends = side_taker(w->quilt, item, BORDER_TOP);
    const char *last =
        say_count(w->arena, w->quilt->heaps.items[ends].step);
    return item->lengths.count == 2 || strcmp(step, last) == 0
               ? say(w->arena, w->phrases, "cutting.in-step", "step", step,
                     NULL)
               : say(w->arena, w->phrases, "cutting.in-steps", "first", step,
                     "last", last, NULL);
}

/* What is cut from strips that are joined first. */
const char *tell_joined(const struct wording *w, const struct cutplan *plan,
                        const struct cut_item *item)
{
    const size_t count = item->lengths.count;
    const char *first = word_length_unit(w, item->lengths.items[0]);
    const char *number = say_count(w->arena, item->count);
    return (item->use == CUT_BINDING
                ? say(w->arena, w->phrases, "cutting.join-binding", "label",
                      plan->binding.labels, "count",
                      say_count(w->arena, plan->binding.strips), "first", first,
                      NULL)
                : say(w->arena, w->phrases, joined_key(item), "label",
                      item->label, "count", number, "first", first,
                      "first-label", item->labels[0], "second",
                      word_length_unit(w, item->lengths.items[count - 1]),
                      "second-label", item->labels[1], "seam",
                      word_length_unit(w, w->design->pattern->seam), "purpose",
                      word_purpose(w, item), "step", measuring_steps(w, item),
                      NULL));
}

/* A strip of a border along the selvage. Across it, other pieces lie behind
 * such a strip, at marks that a longer one would move. */
static bool is_cut_early(const struct cut_item *item)
{
    return item->use == CUT_BORDER && item->lengthwise;
}

/* Such strips are cut while the top is not measured yet, so the plan has them
 * longer. One sentence for each step that measures. */
const char *tell_late(const struct wording *w, const struct fabric_plan *plan)
{
    const char *spare = word_length_unit(
        w, trade_length(TRADE_BORDER_SPARE, w->design->pattern->units));
    const char *text = "", *told = "";
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *first = &plan->items.items[i];
        if (!is_cut_early(first) || strcmp(told, measuring_step(w, first)) == 0)
            continue;
        struct texts labels = {.items = {0}};
        told = measuring_step(w, first);
        for (size_t k = i; k < plan->items.count; k++)
            if (is_cut_early(&plan->items.items[k]) &&
                strcmp(told, measuring_step(w, &plan->items.items[k])) == 0)
                texts_add(w, &labels, plan->items.items[k].label);
        text = word_then(w, text,
                         say(w->arena, w->phrases, "cutting.border-late",
                             "labels", texts_listed(w, &labels), "step", told,
                             "spare", spare, NULL));
    }
    return text;
}

/* Simpler cutting for a little more cloth, all told. It has no drawing: two
 * drawings of one cloth could be mixed up at the mat. */
const char *tell_offer(const struct wording *w, const struct fabric_plan *plan)
{
    if (plan->offer.strips.count == 0)
        return "";
    const char *text = tell_strip_list(w, plan, plan->offer.strips.items,
                                       plan->offer.strips.count);
    /* Told at the head already, for narrower fabric. */
    if (tell_reserved(w, plan)[0] != '\0' &&
        rational_equal(plan->offer.bought, plan->reserved_bought) &&
        strcmp(text, tell_strip_list(w, plan, plan->reserved_strips.items,
                                     plan->reserved_strips.count)) == 0)
        return "";
    return say(w->arena, w->phrases, "cutting.offer", "more",
               word_yardage(w, plan->offer.bought), "amount",
               word_yardage(w, plan->bought), "lines",
               say_count(w->arena, plan->offer.effort.lines), "before",
               say_count(w->arena, plan->effort.lines), "strips", text, NULL);
}
