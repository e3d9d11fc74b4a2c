/* Half-squares, told. */
#include "telling.h"

static const char *half_square_title(const struct wording *w,
                                     const struct heap *heap)
{
    return say(w->arena, w->phrases, "title.half-square", "base",
               part_of_heap(w, heap, 0), "flap", part_of_heap(w, heap, 1),
               NULL);
}

/* What is drawn on the upper square before the sewing; four at a time go by the
 * edges. */
static const char *word_drawing(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action)
{
    switch (heap->of.half_square.method) {
    case METHOD_FOUR:
        return "";
    case METHOD_EIGHT:
        return say(w->arena, w->phrases, "half-square.draw-both", NULL);
    case METHOD_ONE:
    case METHOD_TWO:
        break;
    }
    return word_then(w, say(w->arena, w->phrases, "half-square.draw", NULL),
                     word_line(w, action->line));
}

/* A one-way print tells apart what is made at a time, so that fewer of them
 * serve; the words say which. */
static const char *sewing_key(const struct half_square *half, bool all_serve)
{
    switch (half->method) {
    case METHOD_ONE:
        return "half-square.one";
    case METHOD_FOUR:
        return all_serve ? "half-square.four" : "half-square.four-print";
    case METHOD_EIGHT:
        return all_serve ? "half-square.eight" : "half-square.eight-print";
    case METHOD_TWO:
        break;
    }
    return all_serve ? "half-square.two" : "half-square.two-print";
}

/* Says how much trimming takes off at least, to two places. */
static const char *word_sewing(const struct wording *w, const struct heap *heap)
{
    const struct half_square *half = &heap->of.half_square;
    static const size_t most[] = {[METHOD_ONE] = 1,
                                  [METHOD_TWO] = 2,
                                  [METHOD_FOUR] = 4,
                                  [METHOD_EIGHT] = 8};
    const char *key = sewing_key(half, heap->yield == most[half->method]);
    const struct pattern *pattern = w->design->pattern;
    const char *seam = word_length_unit(w, pattern->seam);
    if (half->method == METHOD_ONE)
        return say(w->arena, w->phrases, key, "seam", seam, NULL);
    const struct rational seams = rational_times(pattern->seam, 2);
    return say(w->arena, w->phrases, key, "seam", seam, "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               "slack",
               arena_printf(w->arena, "%s %s", word_decimal(w, half->slack, 2),
                            word_unit(w)),
               NULL);
}

/* Flipped over a diagonal, an upright print comes to lie sideways; over an edge
 * it does not. */
static const char *word_half_square(const struct wording *w,
                                    const struct heap *heap,
                                    const struct action *action)
{
    const char *lay =
        say(w->arena, w->phrases, "half-square.lay", "flap",
            part_of_heap(w, heap, 1), "base", part_of_heap(w, heap, 0), NULL);
    if (heap->of.half_square.method != METHOD_FOUR)
        lay = word_then(w, lay, print_hint(w, heap, 1));
    lay = word_then(w, lay, word_drawing(w, heap, action));
    return word_then(w, lay, word_sewing(w, heap));
}

static const char *laid_on(const struct wording *w, const struct heap *heap,
                           const struct action *action)
{
    const char *flap = part_of_heap(w, heap, 1);
    const char *base = part_of_heap(w, heap, 0);
    const enum half_square_method method = heap->of.half_square.method;
    if (method == METHOD_FOUR || method == METHOD_EIGHT)
        return say(w->arena, w->phrases,
                   method == METHOD_FOUR ? "caption.laid-edges"
                                         : "caption.laid-both",
                   "flap", flap, "base", base, NULL);
    return say(w->arena, w->phrases, "caption.laid-on", "flap", flap, "base",
               base, "line", line_word(w, action->line), NULL);
}

const struct telling telling_half_square = {
    .title = half_square_title, .action = word_half_square, .before = laid_on};
