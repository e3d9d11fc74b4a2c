/* Borders, backing, layers and binding. What comes after the centre, from the
 * inside out: borders, backing, layers, binding. Each part says nothing where
 * the source does not ask for it. Read next: wording.c. */
#include "section.h"

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
    const char *text = "";
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        if (item->use == CUT_BORDER && item->border == number)
            text = text[0] == '\0'
                       ? item->label
                       : arena_printf(booklet->wording.arena, "%s and %s", text,
                                      item->label);
    }
    return text;
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
            ? "Border"
            : arena_printf(w->arena, "Border %zu, from the inside", number));
    flow_paragraph(
        &booklet->flow,
        arena_printf(
            w->arena,
            "Use the strips %s. Measure the quilt top through its middle: it "
            "should be %s %s long. Sew the two side borders, %s, to the left "
            "and right. Press towards the border. Then sew the top and bottom "
            "borders, %s, across them. Press towards the border. If your top "
            "measures otherwise, cut the borders to your measure.",
            border_labels(booklet, border, number), word_length(w, side),
            word_unit(w), word_size_unit(w, width, side),
            word_size_unit(w, width, end)));
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
                   arena_printf(w->arena,
                                "Turn the quilt center by %u degrees "
                                "clockwise first. It then lies %s unfinished.",
                                quilt->top_turn * 90,
                                word_size_unit(w, width, height)));
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
    flow_heading(&booklet->flow, "Backing");
    const char *size = word_size_unit(w, backing->width, backing->height);
    flow_paragraph(
        &booklet->flow,
        /* One panel needs no seam, so its selvages may stay until it is
         * trimmed. */
        backing->panels == 1
            ? arena_printf(
                  w->arena, "Cut one panel %s %s long and trim it to %s.",
                  word_length(w, backing->panel_length), word_unit(w), size)
            : arena_printf(w->arena,
                           "Cut %zu panels, each %s %s long. Cut off the "
                           "selvages. Sew the panels side "
                           "by side with seams of %s, so that the seams run "
                           "%s. Press the seams open. "
                           "Trim to %s.",
                           backing->panels,
                           word_length(w, backing->panel_length), word_unit(w),
                           booklet->design->pattern->units == UNIT_CM
                               ? "1.25 cm"
                               : "½ in",
                           backing->seams_vertical ? "from top to bottom"
                                                   : "from side to side",
                           size));
}

/* The batting's maker knows how far apart lines may be; so words defer to that.
 */
static void add_layers(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct cutplan *plan = booklet->plan;
    if (!plan->batting_wanted)
        return;
    flow_heading(&booklet->flow, "Layers");
    flow_paragraph(&booklet->flow,
                   arena_printf(w->arena,
                                "Cut the batting %s. Lay the backing wrong "
                                "side up, the batting on it and "
                                "the quilt top on both, right side up. Smooth "
                                "and baste the layers.",
                                word_size_unit(w, plan->batting_width,
                                               plan->batting_height)));
    flow_paragraph(&booklet->flow,
                   rational_known(plan->batting_gap)
                       ? arena_printf(w->arena,
                                      "Quilt as you like, with lines at most "
                                      "%s %s apart, or as the "
                                      "maker of the batting says. Trim the "
                                      "layers even with the top.",
                                      word_length(w, plan->batting_gap),
                                      word_unit(w))
                       : "Quilt as you like, with lines as close as the maker "
                         "of the batting asks. "
                         "Trim the layers even with the top.");
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
    flow_heading(&booklet->flow, "Binding");
    flow_paragraph(
        &booklet->flow,
        arena_printf(
            w->arena,
            "Join the %zu strips %s end to end with diagonal seams and press "
            "the seams open. "
            "The edge of the quilt is %s %s round; %s %s of binding allow for "
            "corners and "
            "closing. Fold the strip in half along its length, wrong sides "
            "together, and "
            "press. Sew it to the edge of the right side with a seam of %s %s "
            "and fold a "
            "mitre at each corner. Turn the fold to the back and sew it down. "
            "Sew a label to the back: your name, the place and the year.",
            binding->strips, item->label,
            word_length(w, rational_sub(binding->length, binding->tail)),
            word_unit(w), word_length(w, binding->length), word_unit(w),
            word_length(w, booklet->design->pattern->seam), word_unit(w)));
}

/* Follows the steps without a page of its own. */
void section_finishing(struct booklet *booklet)
{
    flow_section(&booklet->flow, "Finishing", false);
    add_borders(booklet);
    add_backing(booklet);
    add_layers(booklet);
    add_binding(booklet);
}
