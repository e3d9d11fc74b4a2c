/* Borders, told. Measuring the middle keeps a stretched edge from growing into
 * the border (common practice). Lengths are told unfinished, as they are when
 * sewn. */
#include "telling.h"

/* A quilt with one border needs no number; of several the innermost is 1. */
static const char *border_title(const struct wording *w,
                                const struct heap *heap)
{
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
    const struct rational both = rational_times(heap->of.border->width, 2);
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

/* A border is sewn in two or three actions: with plain strips a pair and a
 * pair, with blocks at the corners the sides, the corners onto the ends, then
 * the rows. Only the first action tells how pieces are turned. */
static struct told_action word_border(const struct wording *w,
                                      const struct heap *heap,
                                      const struct action *action)
{
    const size_t number = (size_t)(action - heap->actions.items);
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

/* One caption fits all borders: the strips lie beside the quilt, and nothing is
 * laid on top. */
static const char *laid_apart(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    (void)heap, (void)action;
    return say(w->arena, w->phrases, "caption.lay", NULL);
}

const struct telling telling_border = {
    .title = border_title, .action = word_border, .before = laid_apart};
