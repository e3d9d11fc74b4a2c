/* Squares in squares, told. */
#include "telling.h"

static const char *square_title(const struct wording *w,
                                const struct heap *heap)
{
    return say(w->arena, w->phrases, "title.square-in-square", "center",
               part_of_heap(w, heap, 0), "corners", part_of_heap(w, heap, 1),
               NULL);
}

/* Two squares on opposite corners, whose lines run one way. */
static const char *word_squares(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action)
{
    const size_t *parts = action->parts.items;
    const char *places[2];
    for (size_t i = 0; i < 2; i++)
        places[i] = word_place(w, heap->inputs.items[parts[i + 1]].at);
    const char *lay =
        say(w->arena, w->phrases, "square.lay", "corners",
            part_of_heap(w, heap, parts[1]), "center", part_of_heap(w, heap, 0),
            "places", word_list(w, places, 2), NULL);
    const char *draw = word_then(
        w, say(w->arena, w->phrases, "corner.draw", "squares", "2", NULL),
        word_line(w, action->line));
    const char *sew = say(w->arena, w->phrases, "corner.sew", "seam",
                          word_length_unit(w, w->design->pattern->seam), NULL);
    lay = word_then(w, lay, print_hint(w, heap, parts[1]));
    return word_then(w, word_then(w, lay, draw), sew);
}

static bool one_way(const struct wording *w, const struct heap *heap,
                    size_t input)
{
    return print_hint(w, heap, input)[0] != '\0';
}

/* The first pair, and how its triangles come from squares. */
static const char *word_first_pair(const struct wording *w,
                                   const struct heap *heap)
{
    const char *cut =
        say(w->arena, w->phrases,
            one_way(w, heap, 1) ? "square.cut-print" : "square.cut", "corners",
            part_of_heap(w, heap, 1), NULL);
    const char *sew = say(w->arena, w->phrases, "square.first", "center",
                          part_of_heap(w, heap, 0), "seam",
                          word_length_unit(w, w->design->pattern->seam), NULL);
    const char *text =
        word_then(w, cut, say(w->arena, w->phrases, "square.bias", NULL));
    if (one_way(w, heap, 0))
        sew =
            word_then(w, sew, say(w->arena, w->phrases, "square.print", NULL));
    return word_then(w, text, sew);
}

static const char *decimal_unit(const struct wording *w, struct rational value)
{
    return arena_printf(w->arena, "%s %s", word_decimal(w, value, 2),
                        word_unit(w));
}

static const char *word_last_pair(const struct wording *w,
                                  const struct heap *heap)
{
    const struct square_in_square *square = &heap->of.square_in_square;
    const struct rational side =
        rational_add(heap->width, rational_times(w->design->pattern->seam, 2));
    return say(w->arena, w->phrases, "square.last", "size",
               word_size_unit(w, side, side), "slack",
               decimal_unit(w, square->slack), "reach",
               decimal_unit(w, square->reach), NULL);
}

static const char *word_square(const struct wording *w, const struct heap *heap,
                               const struct action *action)
{
    if (heap->of.square_in_square.method == SQUARE_CORNERS)
        return word_squares(w, heap, action);
    return action == &heap->actions.items[0] ? word_first_pair(w, heap)
                                             : word_last_pair(w, heap);
}

static const char *square_laid(const struct wording *w, const struct heap *heap,
                               const struct action *action)
{
    return heap->of.square_in_square.method == SQUARE_CORNERS
               ? laid_caption(w, heap, action)
               : say(w->arena, w->phrases, "caption.laid-triangles", NULL);
}

const struct telling telling_square_in_square = {.title = square_title,
                                                 .action = word_square,
                                                 .before = square_laid,
                                                 .outward = "press.outward"};
