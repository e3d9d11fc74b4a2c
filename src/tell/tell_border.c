/* Borders, told. Measuring the middle keeps a stretched edge from growing into
 * the border (common practice). Lengths are told unfinished, as they are when
 * sewn. */
#include "telling.h"
#include "trade.h"

/* "1 and 2": the borders that are sewn in the heap, where they are several. */
static const char *numbers_of(const struct wording *w, const struct heap *heap)
{
    LIST(const char *) numbers = {0};
    for (size_t i = 0; i < w->quilt->borders.count; i++)
        if (&w->quilt->heaps.items[w->quilt->borders.items[i].heap] == heap)
            *LIST_ADD(w->arena, &numbers) =
                say_count(w->arena, w->quilt->borders.items[i].border->number);
    return numbers.count < 2 ? NULL
                             : word_list(w, numbers.items, numbers.count);
}

/* A quilt with one border needs no number; of several the innermost is 1. */
static const char *border_title(const struct wording *w,
                                const struct heap *heap)
{
    const char *numbers = numbers_of(w, heap);
    if (numbers != NULL)
        return say(w->arena, w->phrases, "border.title-matched", "numbers",
                   numbers, NULL);
    return w->quilt->borders.count == 1
               ? say(w->arena, w->phrases, "border.title", NULL)
               : say(w->arena, w->phrases, "border.title-number", "number",
                     say_count(w->arena, heap->of.border->number), NULL);
}

/* A pair of strips, and what the top should measure along them. */
static const char *pair_text(const struct wording *w, const struct heap *heap,
                             size_t input)
{
    const struct heap *strip =
        &w->quilt->heaps.items[heap->inputs.items[input].heap];
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const bool sides = input == BORDER_LEFT;
    const bool turned = heap->inputs.items[input].turn % 2 == 1;
    const struct rational length =
        rational_add(sides != turned ? strip->height : strip->width, seams);
    const struct rational width = rational_add(heap->of.border->width, seams);
    return say(w->arena, w->phrases, sides ? "border.sides" : "border.ends",
               "label", part_of_heap(w, heap, input), "length",
               word_length_unit(w, length), "size",
               word_size_unit(w, width, length), NULL);
}

/* The center's step may show it turned, where the source turns what it is made
 * of. Sides are those of the quilt as it is designed. */
static const char *turn_text(const struct wording *w, const struct heap *heap)
{
    const unsigned turn = heap->inputs.items[BORDER_CENTER].turn;
    if (turn == 0)
        return "";
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const struct rational both =
        rational_times(heap->inputs.items[BORDER_CENTER].x, 2);
    return say(
        w->arena, w->phrases, "border.turn", "degrees",
        say_count(w->arena, turn * 90u), "size",
        word_size_unit(w, rational_add(rational_sub(heap->width, both), seams),
                       rational_add(rational_sub(heap->height, both), seams)),
        NULL);
}

/* What lies at the corners, each once. */
static const char *corner_parts(const struct wording *w,
                                const struct heap *heap)
{
    LIST(const char *) names = {0};
    for (size_t i = BORDER_CORNER; i < heap->inputs.count; i++) {
        bool told = false;
        for (size_t k = BORDER_CORNER; k < i; k++)
            told |= heap->inputs.items[k].heap == heap->inputs.items[i].heap;
        if (!told)
            *LIST_ADD(w->arena, &names) = part_of_heap(w, heap, i);
    }
    return word_list(w, names.items, names.count);
}

/* ---- mitred corners ---- */

/* What the top should measure before it has its mitred border, and what to do
 * where it does not. */
static const char *mitre_measure(const struct wording *w,
                                 const struct heap *border, bool sides)
{
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const struct rational both =
        rational_times(border->inputs.items[BORDER_CENTER].x, 2);
    const struct rational length = rational_add(
        rational_sub(sides ? border->height : border->width, both), seams);
    return say(w->arena, w->phrases,
               sides ? "border.mitre-down" : "border.mitre-across", "length",
               word_length_unit(w, length), NULL);
}

/* The strips are cut before they are joined, so there the top is measured. */
const char *set_measured(const struct wording *w, const struct heap *set)
{
    const struct heap *heaps = w->quilt->heaps.items;
    for (size_t i = 0; i < w->quilt->heaps.count; i++)
        for (int input = BORDER_LEFT;
             heaps[i].technique == TECHNIQUE_BORDER && input <= BORDER_TOP;
             input++)
            if (&heaps[heaps[i].inputs.items[input].heap] == set)
                return mitre_measure(w, &heaps[i], input == BORDER_LEFT);
    return "";
}

/* How far a strip reaches beyond the top: the border's width and its share of
 * the room. */
static const char *reach_text(const struct wording *w, const struct heap *heap)
{
    const struct rational half =
        rational_mul(trade_length(TRADE_MITRE_ROOM, w->design->pattern->units),
                     rational_make(1, 2));
    return word_length_unit(
        w, rational_add(heap->inputs.items[BORDER_CENTER].x, half));
}

/* Which edge of strips that were joined lies on the top: that of the border
 * which comes first from the inside. */
static const char *inner_edge(const struct wording *w, const struct heap *heap,
                              size_t input)
{
    const struct heap *set =
        &w->quilt->heaps.items[heap->inputs.items[input].heap];
    const struct heap *inner = NULL;
    for (size_t i = 0; i < set->inputs.count; i++) {
        const struct heap *strip =
            &w->quilt->heaps.items[set->inputs.items[i].heap];
        if (strip->technique == TECHNIQUE_CUT && strip->of.cut.border > 0 &&
            (inner == NULL || strip->of.cut.border < inner->of.cut.border))
            inner = strip;
    }
    return inner == NULL ? ""
                         : say(w->arena, w->phrases, "border.mitre-inner",
                               "label", inner->of.cut.label, NULL);
}

/* Sides, then top and bottom, as far as the corners of the top. */
static struct told_action word_strips(const struct wording *w,
                                      const struct heap *heap, bool sides)
{
    const size_t input = sides ? BORDER_LEFT : BORDER_TOP;
    const bool joined =
        w->quilt->heaps.items[heap->inputs.items[input].heap].technique ==
        TECHNIQUE_JOIN;
    const char *measure = joined ? "" : mitre_measure(w, heap, sides);
    const char *text = say(w->arena, w->phrases,
                           sides ? "border.mitre-sides" : "border.mitre-ends",
                           "label", part_of_heap(w, heap, input), "seam",
                           word_length_unit(w, w->design->pattern->seam),
                           "over", reach_text(w, heap), NULL);
    if (joined)
        measure = inner_edge(w, heap, input);
    return (struct told_action){sides ? turn_text(w, heap) : "",
                                "",
                                word_then(w, measure, text),
                                "",
                                "",
                                ""};
}

/* Three actions: the sides, the ends, the corners. */
static struct told_action word_mitred(const struct wording *w,
                                      const struct heap *heap, size_t number)
{
    if (number < 2)
        return word_strips(w, heap, number == 0);
    const char *fold = say(w->arena, w->phrases, "border.mitre-fold", NULL);
    if (numbers_of(w, heap) != NULL)
        fold = word_then(w, fold,
                         say(w->arena, w->phrases, "border.mitre-pin", NULL));
    return (struct told_action){
        fold,
        say(w->arena, w->phrases, "border.mitre-draw", NULL),
        say(w->arena, w->phrases, "border.mitre-sew", NULL),
        say(w->arena, w->phrases, "border.mitre-trim", "seam",
            word_length_unit(w, w->design->pattern->seam), NULL),
        "",
        ""};
}

/* ---- all borders ---- */

/* A border is sewn in two or three actions: with plain strips a pair and a
 * pair, with blocks at the corners the sides, the corners onto the ends, then
 * the rows. Only the first action tells how pieces are turned. */
static struct told_action word_border(const struct wording *w,
                                      const struct heap *heap,
                                      const struct action *action)
{
    const size_t number = (size_t)(action - heap->actions.items);
    if (heap->of.border->mitred)
        return word_mitred(w, heap, number);
    const bool across = action->operation->laid == LAID_ACROSS;
    const char *text =
        heap->of.border->blocks && number == 1
            ? say(w->arena, w->phrases, "border.corners", "corners",
                  corner_parts(w, heap), "label",
                  part_of_heap(w, heap, BORDER_TOP), NULL)
        : heap->of.border->blocks && number == 2
            ? say(w->arena, w->phrases, "border.rows", NULL)
            : pair_text(w, heap, across ? BORDER_LEFT : BORDER_TOP);
    return (struct told_action){
        number == 0 ? turn_text(w, heap) : "", "", text, "", "", ""};
}

/* The strips lie beside the quilt, and nothing is laid on top, unless corners
 * are mitred. */
static const char *laid_apart(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    if (!heap->of.border->mitred)
        return say(w->arena, w->phrases, "caption.lay", NULL);
    return say(w->arena, w->phrases,
               action - heap->actions.items < 2 ? "border.mitre-told"
                                                : "border.mitre-told-fold",
               NULL);
}

const struct telling telling_border = {
    .title = border_title, .action = word_border, .before = laid_apart};
