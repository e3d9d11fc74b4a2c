/* Borders, backing, layers and binding. What comes after the centre, from the
 * inside out: borders, backing, layers, binding. Each part says nothing where
 * the source does not ask for it. Read next: wording.c. */
#include "structure.h"
#include "trade.h"

/* Sides before ends, as they were cut. Measuring the middle keeps a stretched
 * edge from growing into the border (common practice). Lengths are told
 * unfinished, as they are when sewn. */
/* The labels of a border's strips in the cutting tables: "A4" or "A4 and A5".
 */
static const char *border_labels(struct booklet *booklet,
                                 const struct sewn_border *border,
                                 size_t number)
{
    const struct fabric_plan *plan =
        &booklet->plan->fabrics[border->border->fabric];
    const struct wording *w = &booklet->wording;
    LIST(const char *) labels = {0};
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (item->use == CUT_BORDER && item->border == number)
            *LIST_ADD(w->arena, &labels) = item->label;
    }
    return labels.count == 0 ? "" : word_list(w, labels.items, labels.count);
}

static void add_border(struct booklet *booklet,
                       const struct sewn_border *border, size_t number)
{
    const struct wording *w = &booklet->wording;
    const struct rational seams =
        rational_times(booklet->design->pattern->seam, 2);
    const struct rational width = rational_add(border->border->width, seams);
    const struct rational side = rational_add(border->side_length, seams);
    const struct rational end = rational_add(border->end_length, seams);
    flow_heading(
        &booklet->flow,
        booklet->quilt->borders.count == 1
            ? say(w->arena, w->phrases, "border.title", NULL)
            : say(w->arena, w->phrases, "border.title-number", "number",
                  say_count(w->arena, number), NULL));
    flow_place(&booklet->flow, place_border(w->arena, number));
    flow_paragraph(
        &booklet->flow,
        say(w->arena, w->phrases, "border.sew", "labels",
            border_labels(booklet, border, number), "length",
            word_length_unit(w, side), "sides", word_size_unit(w, width, side),
            "ends", word_size_unit(w, width, end), NULL));
}

/* The center's step may show it turned, where the source turns what it is made
 * of. Sides are those of the quilt as it is designed. */
static void add_turn(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct sewn_quilt *quilt = booklet->quilt;
    const struct heap *top = &quilt->heaps.items[quilt->top];
    if (quilt->top_turn == 0 || quilt->borders.count == 0)
        return;
    const bool across = quilt->top_turn % 2 == 1;
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const struct rational width =
        rational_add(across ? top->height : top->width, seams);
    const struct rational height =
        rational_add(across ? top->width : top->height, seams);
    flow_paragraph(&booklet->flow,
                   say(w->arena, w->phrases, "border.turn", "degrees",
                       say_count(w->arena, quilt->top_turn * 90u), "size",
                       word_size_unit(w, width, height), NULL));
}

static void add_borders(struct booklet *booklet)
{
    add_turn(booklet);
    for (size_t i = 0; i < booklet->quilt->borders.count; i++)
        add_border(booklet, &booklet->quilt->borders.items[i], i + 1);
}

/* The seam of a backing is half an inch, whatever the pattern's seam: it is
 * pressed open and carries weight (published practice; cut/cut.c counts it). */
static void add_backing(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct backing_plan *backing = &booklet->plan->backing;
    if (!backing->wanted)
        return;
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "backing.title", NULL));
    const char *size = word_size_unit(w, backing->width, backing->height);
    flow_paragraph(
        &booklet->flow,
        /* One panel needs no seam, so its selvages may stay until it is
         * trimmed. */
        backing->panels == 1
            ? say(w->arena, w->phrases, "backing.one", "length",
                  word_length_unit(w, backing->panel_length), "size", size,
                  NULL)
            : say(w->arena, w->phrases,
                  backing->seams_vertical ? "backing.down" : "backing.across",
                  "count", say_count(w->arena, backing->panels), "length",
                  word_length_unit(w, backing->panel_length), "seam",
                  word_length_unit(w, trade_length(TRADE_BACKING_SEAM,
                                                   w->design->pattern->units)),
                  "size", size, NULL));
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
    flow_paragraph(&booklet->flow,
                   say(w->arena, w->phrases, "layers.baste", "size",
                       word_size_unit(w, plan->batting_width,
                                      plan->batting_height),
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
    const struct cut_item *item =
        &booklet->plan->fabrics[binding->fabric].items.items[binding->item];
    flow_heading(&booklet->flow,
                 say(w->arena, w->phrases, "binding.title", NULL));
    flow_place(&booklet->flow, place_binding());
    flow_paragraph(
        &booklet->flow,
        say(w->arena, w->phrases, "binding.sew", "count",
            say_count(w->arena, binding->strips), "label", item->label,
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
    add_borders(booklet);
    add_backing(booklet);
    add_layers(booklet);
    add_binding(booklet);
}
