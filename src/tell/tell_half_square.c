/* Half-squares, told. */
#include "telling.h"

/* Input 0 lies below and input 1 on top; the sewing stage has chosen which
 * cloth that is. */
static const char *half_square_title(const struct wording *w,
                                     const struct heap *heap)
{
    (void)heap;
    return say(w->arena, w->phrases, "title.half-square", NULL);
}

/* Both numbers of what is trimmed are unfinished. */
static const char *word_trim(const struct wording *w, const struct heap *heap)
{
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    return say(w->arena, w->phrases, "half-square.trim", "count",
               say_count(w->arena, heap->yield), "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               NULL);
}

/* What is drawn on the upper square before the sewing; four at a time go by the
 * edges. */
static const char *word_drawing(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action)
{
    const char *flap = part_of_heap(w, heap, 1);
    switch (heap->of.half_square.method) {
    case METHOD_FOUR:
        return "";
    case METHOD_EIGHT:
        return say(w->arena, w->phrases, "half-square.draw-both", "flap", flap,
                   NULL);
    case METHOD_ONE:
    case METHOD_TWO:
        break;
    }
    return say(w->arena, w->phrases, "half-square.draw", "flap", flap, "line",
               word_line(w, action->line), NULL);
}

/* The sentences of a method: seam, cut, and the cut where a one-way print tells
 * apart what is made at a time, so that fewer of them serve. */
struct method_keys {
    size_t most;
    const char *sew, *cut, *print;
};
static const struct method_keys keys_of[] = {
    [METHOD_ONE] = {1, "half-square.one", "half-square.one-cut", NULL},
    [METHOD_TWO] = {2, "half-square.two", "half-square.two-cut",
                    "half-square.two-print"},
    [METHOD_FOUR] = {4, "half-square.four", "half-square.four-cut",
                     "half-square.four-print"},
    [METHOD_EIGHT] = {8, "half-square.eight", "half-square.eight-cut",
                      "half-square.eight-print"}};

/* Flipped over a diagonal, an upright print comes to lie sideways; over an edge
 * it does not. */
static struct told_action word_half_square(const struct wording *w,
                                           const struct heap *heap,
                                           const struct action *action)
{
    const struct half_square *half = &heap->of.half_square;
    const enum half_square_method method = half->method;
    const struct method_keys *keys = &keys_of[method];
    const char *seam = word_length_unit(w, w->design->pattern->seam);
    const char *lay =
        say(w->arena, w->phrases, "half-square.lay", "flap",
            part_of_heap(w, heap, 1), "base", part_of_heap(w, heap, 0), NULL);
    if (method != METHOD_FOUR)
        lay = word_then(w, lay, print_hint(w, heap, 1));
    return (struct told_action){
        lay,
        word_drawing(w, heap, action),
        say(w->arena, w->phrases, keys->sew, "seam", seam, NULL),
        say(w->arena, w->phrases,
            heap->yield < keys->most                  ? keys->print
            : method == METHOD_ONE && half->flap_left ? "half-square.one-left"
                                                      : keys->cut,
            "seam", seam, NULL),
        method == METHOD_ONE ? "" : word_trim(w, heap),
        method == METHOD_FOUR || method == METHOD_EIGHT
            ? ""
            : say(w->arena, w->phrases, "half-square.again", "flap",
                  part_of_heap(w, heap, 1), "base", part_of_heap(w, heap, 0),
                  "line", word_line(w, action->line), NULL)};
}

/* Four at a time are sewn round the edges and eight along both diagonals, so
 * only the other methods have one line that can be named. */
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

static int half_square_method(const struct heap *heap)
{
    return (int)heap->of.half_square.method;
}

const struct telling telling_half_square = {.title = half_square_title,
                                            .action = word_half_square,
                                            .before = laid_on,
                                            .named = "technique.half-square",
                                            .method = half_square_method};
