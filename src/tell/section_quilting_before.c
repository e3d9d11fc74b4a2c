/* What is said of quilting before the first stitch: how small the top gets,
 * what stays open, what to take care of. Read next: quilting_words.c. */
#include <math.h>

#include "quilting_words.h"

bool quilting_has_lines(const struct quilting_plan *plan)
{
    for (size_t i = 0; i < plan->rows.count; i++)
        if (plan->rows.items[i].found != FOUND_FREE)
            return true;
    return false;
}

/* ---- size and gap ---- */

/* Measured on eleven quilts and samples, 0.6 to 3.6 % (Quilting Shrinkage,
 * alongcamequilting.com; How to make a quilt finish at a certain size,
 * anythingbutboring.com, January 2020). No exact size is changed for it; these
 * are told to the nearest half. */
static const char *smaller_text(const struct teller *t)
{
    const struct wording *w = t->w;
    const double across = rational_double(w->quilt->width);
    const double down = rational_double(w->quilt->height);
    return say(w->arena, w->phrases, "quilting.smaller", "small",
               word_size_unit(w, rational_make(llround(across * 1.92), 2),
                              rational_make(llround(down * 1.92), 2)),
               "large",
               word_size_unit(w, rational_make(llround(across * 1.98), 2),
                              rational_make(llround(down * 1.98), 2)),
               NULL);
}

/* The widest spacing of what is filled by eye: its lines are as close as hands
 * make them, so that what they leave is no figure of the plan. Unknown: nothing
 * is filled so. */
static struct rational widest_by_eye(const struct teller *t,
                                     enum told_fill with)
{
    struct rational widest = rational_unknown();
    for (size_t i = 0; i < t->plan->kinds.count; i++) {
        const struct quilted_kind *kind = &t->plan->kinds.items[i];
        if (kind->texture_count == 0 || kind->fill == NULL ||
            kind->fill->of.fill.with != with)
            continue;
        const struct rational spacing = kind->fill->of.fill.spacing;
        widest =
            rational_known(widest) ? rational_max(widest, spacing) : spacing;
    }
    return widest;
}

/* What of it the quilt has, each by its name. */
static const char *by_eye_text(const struct teller *t, const char *text)
{
    const struct wording *w = t->w;
    const struct rational swirls = widest_by_eye(t, TOLD_SWIRLS);
    const struct rational pebbles = widest_by_eye(t, TOLD_PEBBLES);
    if (!rational_known(swirls) && !rational_known(pebbles))
        return text;
    const bool both = rational_known(swirls) && rational_known(pebbles);
    const struct rational widest = both ? rational_max(swirls, pebbles)
                                   : rational_known(swirls) ? swirls
                                                            : pebbles;
    const char *key = both                     ? "quilting.gap-eye"
                      : rational_known(swirls) ? "quilting.gap-swirls"
                                               : "quilting.gap-pebbles";
    return word_then(w, text,
                     say(w->arena, w->phrases, key, "spacing",
                         word_length_unit(w, widest), NULL));
}

/* It is known to 1/64 in, and told to the nearest eighth or millimetre. */
static const char *gap_text(const struct teller *t)
{
    const struct wording *w = t->w;
    const struct quilted_gap *gap = &t->plan->gap;
    if (!t->plan->gap_known)
        return "";
    /* Where all is filled by eye, lines leave no place that could be told. */
    const double across = (gap->least + gap->most) / 2.0;
    const char *text =
        gap->least <= 0
            ? ""
            : say(w->arena, w->phrases, "quilting.gap", "gap",
                  word_measured(w, across), "left", word_measured(w, gap->left),
                  "top", word_measured(w, gap->top), NULL);
    text = by_eye_text(t, text);
    return word_then(
        w, text,
        rational_known(t->cut->batting_gap)
            ? say(w->arena, w->phrases, "quilting.gap-allowed", "gap",
                  word_length_unit(w, t->cut->batting_gap), NULL)
            : say(w->arena, w->phrases, "quilting.gap-label", NULL));
}

/* How large it gets is asked before anything is stitched. */
void quilting_add_facts(const struct teller *t)
{
    const struct wording *w = t->w;
    add_heading(w, t->contents, PART_FACTS,
                say(w->arena, w->phrases, "quilting.facts", NULL));
    add_paragraph(w, t->contents, PART_FACTS,
                  word_then(w, smaller_text(t), gap_text(t)));
}

/* ---- cautions ---- */

/* In our words, after many: needles (Sewing Machine Needle Tips, docslib.org),
 * rulers (5 Safety Tips, quiltedjoy.com, February 2022), ink that heat sets
 * (fabricbias.com, February 2006) or cold brings back
 * (sewberkeley.wordpress.com, July 2014), chalk (cutitstraight.blogspot.com,
 * September 2012), breaks (generations-quilt-patterns.com). Makers know their
 * wares, so they come last and above all. Where all is stitched by eye there is
 * no ruler and no mark. */
void quilting_add_cautions(const struct teller *t)
{
    const struct wording *w = t->w;
    struct texts list = {.items = {0}};
    add_heading(w, t->contents, PART_CAUTIONS,
                say(w->arena, w->phrases, "quilting.cautions", NULL));
    texts_add(w, &list,
              say(w->arena, w->phrases, "quilting.caution-needle", NULL));
    if (quilting_has_lines(t->plan)) {
        texts_add(w, &list,
                  say(w->arena, w->phrases, "quilting.caution-ruler", NULL));
        texts_add(w, &list,
                  say(w->arena, w->phrases, "quilting.caution-ink", NULL));
        texts_add(w, &list,
                  say(w->arena, w->phrases, "quilting.caution-iron", NULL));
    }
    texts_add(w, &list,
              say(w->arena, w->phrases, "quilting.caution-rest", NULL));
    texts_add(w, &list,
              say(w->arena, w->phrases, "quilting.caution-makers", NULL));
    add_list(w, t->contents, PART_CAUTIONS, &list);
}
