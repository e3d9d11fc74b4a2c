/* Backing, layers and binding: what comes after the top. Each part says nothing
 * where the source does not ask for it. Read next: wording.c. */
#include "structure.h"
#include "trade.h"

static const char *backing_seam(const struct wording *w)
{
    return word_length_unit(
        w, trade_length(TRADE_BACKING_SEAM, w->design->pattern->units));
}

/* Panels that were cut with the pieces have labels. */
static const char *together_text(const struct wording *w,
                                 const struct backing_plan *backing)
{
    const char *const *labels = backing->labels;
    const char *both =
        labels[0] == NULL   ? labels[1]
        : labels[1] == NULL ? labels[0]
                            : arena_printf(w->arena, "%s, %s", labels[0],
                                           labels[1]);
    const char *size = word_size_unit(w, backing->width, backing->height);
    if (backing->panels == 1)
        return say(w->arena, w->phrases, "backing.together-one", "label", both,
                   "size", size, NULL);
    return say(w->arena, w->phrases,
               backing->seams_vertical ? "backing.together-down"
                                       : "backing.together-across",
               "count", say_count(w->arena, backing->panels), "labels", both,
               "seam", backing_seam(w), "size", size, NULL);
}

/* The seam of a backing is half an inch, whatever the pattern's seam: it is
 * pressed open and carries weight (published practice; cut/cut.c counts it). */
static const char *panels_text(const struct wording *w,
                               const struct backing_plan *backing)
{
    const char *size = word_size_unit(w, backing->width, backing->height);
    const char *length = word_length_unit(w, backing->panel_length);
    if (backing->together)
        return together_text(w, backing);
    /* One panel needs no seam, so its selvages may stay until it is trimmed. */
    if (backing->panels == 1)
        return say(w->arena, w->phrases, "backing.one", "length", length,
                   "size", size, NULL);
    return say(w->arena, w->phrases,
               backing->seams_vertical ? "backing.down" : "backing.across",
               "count", say_count(w->arena, backing->panels), "length", length,
               "seam", backing_seam(w), "size", size, NULL);
}

static void add_backing(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct backing_plan *backing = &booklet->plan->backing;
    if (!backing->wanted)
        return;
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "backing.title", NULL));
    const char *text = panels_text(w, backing);
    if (backing->one_way)
        text = word_then(w, text,
                         say(w->arena, w->phrases, "backing.print", "count",
                             say_count(w->arena, backing->panels), NULL));
    flow_paragraph(&booklet->flow, text);
}

/* The batting's maker knows how far apart lines may be; so words defer to that.
 */
static void add_layers(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct cutplan *plan = booklet->plan;
    if (!plan->batting_wanted)
        return;
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "layers.title", NULL));
    flow_paragraph(
        &booklet->flow,
        say(w->arena, w->phrases, "layers.baste", "size",
            word_size_unit(w, plan->batting_width, plan->batting_height),
            NULL));
    flow_paragraph(&booklet->flow,
                   rational_known(plan->batting_gap)
                       ? say(w->arena, w->phrases, "layers.quilt-gap", "gap",
                             word_length_unit(w, plan->batting_gap), NULL)
                       : say(w->arena, w->phrases, "layers.quilt", NULL));
}

/* Double-fold binding with mitred corners, the usual way (common practice). */
static void add_binding(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct binding_plan *binding = &booklet->plan->binding;
    if (!binding->wanted)
        return;
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "binding.title", NULL));
    flow_place(&booklet->flow, place_binding());
    flow_paragraph(
        &booklet->flow,
        say(w->arena, w->phrases, "binding.sew", "count",
            say_count(w->arena, binding->strips), "label", binding->labels,
            "edge",
            word_length_unit(w, rational_sub(binding->length, binding->tail)),
            "length", word_length_unit(w, binding->length), "seam",
            word_length_unit(w, booklet->design->pattern->seam), NULL));
}

/* Follows the steps without a page of its own. */
void section_finishing(struct booklet *booklet)
{
    flow_section(&booklet->flow,
                 say(booklet->wording.arena, booklet->wording.phrases,
                     "finishing.title", NULL),
                 false);
    add_backing(booklet);
    add_layers(booklet);
    add_binding(booklet);
}
