/* What an order finds on the shelf, and the sheets that its labels are printed
 * on. */
#include "ordering.h"

#include <stdlib.h>
#include <string.h>

/* ---- bolts ---- */

/* From the end that is cut from. */
static int by_place(const void *a, const void *b)
{
    const struct order_flaw *one = a, *other = b;
    return rational_compare(one->from, other->from);
}

/* reports: a flaw that ends before it begins, or lies beyond the bolt. */
static void add_flaw(struct run *run, const struct order *order,
                     struct order_bolt *bolt, const struct element *element)
{
    const struct order_flaw flaw = {
        .element = element,
        .from = order_length(element, ATTR_FLAW_FROM, rational_whole(0)),
        .to = order_length(element, ATTR_FLAW_TO, rational_whole(0))};
    if (element->faulty)
        return;
    struct diagnostic *d;
    if (rational_compare(flaw.from, flaw.to) >= 0) {
        d = diag_report(run, DIAG_FLAW, value_span(element, ATTR_FLAW_TO),
                        "the flaw ends at %s, where it begins or before",
                        length_plain(run->arena, flaw.to, order->units));
        diag_help(run, d, "`from` is nearer to the end that is cut from");
    } else if (rational_compare(flaw.to, bolt->length) > 0) {
        d = diag_report(run, DIAG_FLAW, value_span(element, ATTR_FLAW_TO),
                        "the flaw ends at %s, but the bolt has only %s",
                        length_plain(run->arena, flaw.to, order->units),
                        length_plain(run->arena, bolt->length, order->units));
        diag_note(run, d, value_span(bolt->element, ATTR_LENGTH),
                  "the length of the bolt");
        diag_help(run, d, "both count from the end that is cut from");
    } else {
        *LIST_ADD(run->arena, &bolt->flaws) = flaw;
    }
}

/* In the order in which they lie. reports: one that begins in another. */
static void sort_flaws(struct run *run, struct order_bolt *bolt)
{
    if (bolt->flaws.count > 1)
        qsort(bolt->flaws.items, bolt->flaws.count, sizeof *bolt->flaws.items,
              by_place);
    for (size_t i = 1; i < bolt->flaws.count; i++) {
        const struct order_flaw *before = &bolt->flaws.items[i - 1];
        const struct order_flaw *flaw = &bolt->flaws.items[i];
        if (rational_compare(before->to, flaw->from) <= 0)
            continue;
        struct diagnostic *d = diag_report(
            run, DIAG_FLAW, value_span(flaw->element, ATTR_FLAW_FROM),
            "the flaw begins in another one");
        diag_note(run, d, value_span(before->element, ATTR_FLAW_TO),
                  "the other one ends here");
        diag_help(run, d, "tell both as one flaw");
    }
}

/* A bolt with a flaw that cannot lie so is kept: the error ends the run
 * anyway, and its cloth is known. */
static void add_bolt(struct run *run, struct order *order,
                     const struct element *element)
{
    struct order_bolt bolt = {
        .element = element,
        .of = text_of(element, ATTR_STOCK_OF, ""),
        .length = order_length(element, ATTR_LENGTH, rational_whole(0)),
        .width = order_length(element, ATTR_WIDTH, rational_unknown()),
        .lot = text_of(element, ATTR_LOT, "")};
    for (size_t i = 0; i < element->children.count; i++)
        add_flaw(run, order, &bolt, element->children.items[i]);
    sort_flaws(run, &bolt);
    *LIST_ADD(run->arena, &order->bolts) = bolt;
}

/* Fat quarters have an element of their own, as every shop has them. */
void resolve_shelf(struct run *run, struct order *order,
                   const struct element *element)
{
    if (element->kind == ELEMENT_BOLT) {
        add_bolt(run, order, element);
        return;
    }
    /* The choices of kind= are those of sold= from the fat eighth on. */
    *LIST_ADD(run->arena, &order->pieces) = (struct order_pieces){
        .element = element,
        .of = text_of(element, ATTR_STOCK_OF, ""),
        .kind = element->kind == ELEMENT_FAT_QUARTERS
                    ? SOLD_FAT_QUARTER
                    : (enum sold_as)(SOLD_FAT_EIGHTH +
                                     order_choice(element, ATTR_KIND, 0)),
        .count = order_whole(element, ATTR_COUNT, 0)};
}

/* ---- labels ---- */

/* ISO 216 and ANSI Y14.1 (letter), in the unit. */
static struct rational sheet_side(bool a4, bool width, enum length_unit units)
{
    const struct rational inches = rational_make(width ? 17 : 22, 2);
    const struct rational millimeters = rational_whole(width ? 210 : 297);
    return a4 ? rational_mul(millimeters, length_factor(UNIT_MM, units))
              : rational_mul(inches, length_factor(UNIT_IN, units));
}

/* Upright, as labels are printed. */
struct rational order_sheet_width(const struct order *order)
{
    return sheet_side(order->labels->a4, true, order->units);
}

/* Upright, too. */
struct rational order_sheet_height(const struct order *order)
{
    return sheet_side(order->labels->a4, false, order->units);
}

/* One way of a sheet: so many labels, the first so far from the edge. reports:
 * labels that lie over each other or beyond the paper. */
static bool fits_sheet(struct run *run, const struct order *order,
                       const struct order_labels *labels, bool across)
{
    const struct element *element = labels->element;
    const size_t count = across ? labels->columns : labels->rows;
    const struct rational size = across ? labels->width : labels->height;
    const struct rational pitch = across ? labels->across : labels->down;
    const struct rational paper =
        across ? order_sheet_width(order) : order_sheet_height(order);
    struct diagnostic *d;
    if (count > 1 && rational_compare(pitch, size) < 0) {
        d = diag_report(
            run, DIAG_LABELS,
            value_span(element, across ? ATTR_LABEL_ACROSS : ATTR_LABEL_DOWN),
            "labels %s apart, but %s %s: they lie over each other",
            length_plain(run->arena, pitch, order->units),
            length_plain(run->arena, size, order->units),
            across ? "wide" : "high");
        diag_help(run, d, "it counts from one left or top edge to the next");
        return false;
    }
    const struct rational end =
        rational_add(rational_add(across ? labels->left : labels->top, size),
                     rational_times(pitch, (int64_t)count - 1));
    if (rational_compare(end, paper) <= 0)
        return true;
    d = diag_report(run, DIAG_LABELS,
                    value_span(element, across ? ATTR_COLUMNS : ATTR_ROWS),
                    "%zu %s of labels end at %s, but the paper is %s %s", count,
                    across ? "columns" : "rows",
                    length_plain(run->arena, end, order->units),
                    length_plain(run->arena, paper, order->units),
                    across ? "wide" : "high");
    diag_help(run, d,
              "measure a sheet: edges, one label, and from one to the "
              "next");
    return false;
}

/* reports: a start behind the last label. */
static bool starts_on_sheet(struct run *run, const struct order_labels *labels)
{
    const size_t count = labels->columns * labels->rows;
    if (labels->start <= count)
        return true;
    struct diagnostic *d = diag_report(
        run, DIAG_LABELS, value_span(labels->element, ATTR_LABEL_START),
        "label %zu of a sheet of %zu", labels->start, count);
    diag_help(run, d, "the first free one, counted row by row");
    return false;
}

/* The paper of labels is that of the order, else what its units are printed
 * on. */
void resolve_labels(struct run *run, struct order *order,
                    const struct element *element)
{
    if (element->faulty || order->labels != NULL)
        return;
    const struct rational none = rational_whole(0);
    struct order_labels *labels = ARENA_NEW(run->arena, struct order_labels);
    const int paper = order_choice(element, ATTR_PAPER, order->paper);
    *labels = (struct order_labels){
        .element = element,
        .a4 = paper < 0 ? order->units == UNIT_CM : paper == 1,
        .columns = order_whole(element, ATTR_COLUMNS, 1),
        .rows = order_whole(element, ATTR_ROWS, 1),
        .width = order_length(element, ATTR_WIDTH, none),
        .height = order_length(element, ATTR_HEIGHT, none),
        .left = order_length(element, ATTR_LABEL_LEFT, none),
        .top = order_length(element, ATTR_LABEL_TOP, none),
        .across = order_length(element, ATTR_LABEL_ACROSS, none),
        .down = order_length(element, ATTR_LABEL_DOWN, none),
        .start = order_whole(element, ATTR_LABEL_START, 1),
        .offset_x = order_length(element, ATTR_OFFSET_X, none),
        .offset_y = order_length(element, ATTR_OFFSET_Y, none)};
    order->labels = labels;
    const bool across = fits_sheet(run, order, labels, true);
    const bool down = fits_sheet(run, order, labels, false);
    if (!across || !down || !starts_on_sheet(run, labels))
        order->labels = NULL;
}
