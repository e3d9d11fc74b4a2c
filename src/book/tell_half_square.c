/* Half-squares, told. */
#include "telling.h"

static const char *half_square_title(const struct wording *w,
                                     const struct heap *heap)
{
    return say(w->arena, w->phrases, "title.half-square", "base",
               part_of_heap(w, heap, 0), "flap", part_of_heap(w, heap, 1),
               NULL);
}

/* Method two gives two for each pair, and says how much trimming takes off at
 * least, to two places. */
static const char *word_half_square(const struct wording *w,
                                    const struct heap *heap,
                                    const struct action *action)
{
    const char *base = part_of_heap(w, heap, 0);
    const char *flap = part_of_heap(w, heap, 1);
    const struct pattern *pattern = w->design->pattern;
    const char *seam = word_length_unit(w, pattern->seam);
    const char *lay = word_then(w,
                                say(w->arena, w->phrases, "half-square.lay",
                                    "flap", flap, "base", base, NULL),
                                print_hint(w, heap, 1));
    const char *draw =
        word_then(w, say(w->arena, w->phrases, "half-square.draw", NULL),
                  word_line(w, action->line));
    lay = word_then(w, lay, draw);
    if (heap->of.half_square.method == METHOD_ONE)
        return word_then(
            w, lay,
            say(w->arena, w->phrases, "half-square.one", "seam", seam, NULL));
    const struct rational seams = rational_times(pattern->seam, 2);
    const char *sew =
        say(w->arena, w->phrases,
            heap->yield == 2 ? "half-square.two" : "half-square.two-print",
            "seam", seam, "size",
            word_size_unit(w, rational_add(heap->width, seams),
                           rational_add(heap->height, seams)),
            "slack",
            arena_printf(w->arena, "%s %s",
                         word_decimal(w, heap->of.half_square.slack, 2),
                         word_unit(w)),
            NULL);
    return word_then(w, lay, sew);
}

static const char *laid_on(const struct wording *w, const struct heap *heap,
                           const struct action *action)
{
    return say(w->arena, w->phrases, "caption.laid-on", "flap",
               part_of_heap(w, heap, 1), "base", part_of_heap(w, heap, 0),
               "line", line_word(w, action->line), NULL);
}

const struct telling telling_half_square = {
    .title = half_square_title, .action = word_half_square, .before = laid_on};
