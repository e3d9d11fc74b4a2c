/* Squares in squares, told. */
#include "telling.h"

/* Input 0 is the center; the first of the corners stands for them in the title.
 */
static const char *square_title(const struct wording *w,
                                const struct heap *heap)
{
    (void)heap;
    return say(w->arena, w->phrases, "title.square-in-square", NULL);
}

/* Two squares on opposite corners, whose lines run one way. */
static struct told_action word_squares(const struct wording *w,
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
    return (struct told_action){
        word_then(w, lay, print_hint(w, heap, parts[1])),
        say(w->arena, w->phrases, "corner.draw", "squares", "2", "line",
            word_line(w, action->line), NULL),
        say(w->arena, w->phrases, "corner.sew", "squares", "2", NULL),
        say(w->arena, w->phrases, "corner.trim", "squares", "2", "seam",
            word_length_unit(w, w->design->pattern->seam), NULL),
        "",
        say(w->arena, w->phrases, "square.again", "corners",
            part_of_heap(w, heap, parts[1]), "center", part_of_heap(w, heap, 0),
            "places", word_list(w, places, 2), "line",
            word_line(w, action->line), NULL)};
}

/* Whether the cloth of an input has a direction: an empty hint says that it has
 * none. */
static bool one_way(const struct wording *w, const struct heap *heap,
                    size_t input)
{
    return print_hint(w, heap, input)[0] != '\0';
}

/* The first pair, and how its triangles come from squares. */
static struct told_action word_first_pair(const struct wording *w,
                                          const struct heap *heap)
{
    const char *cut =
        say(w->arena, w->phrases,
            one_way(w, heap, 1) ? "square.cut-print" : "square.cut", "corners",
            part_of_heap(w, heap, 1), NULL);
    const char *sew = say(w->arena, w->phrases, "square.first", "center",
                          part_of_heap(w, heap, 0), "seam",
                          word_length_unit(w, w->design->pattern->seam), NULL);
    if (one_way(w, heap, 0))
        sew =
            word_then(w, sew, say(w->arena, w->phrases, "square.print", NULL));
    return (struct told_action){
        word_then(w, cut, say(w->arena, w->phrases, "square.bias", NULL)),
        "",
        sew,
        "",
        "",
        ""};
}

/* How far the points lie is told to the ruler's sixteenth, or the millimetre,
 * below: so much is there at least, and the size is reached by a little more. */
static struct told_action word_last_pair(const struct wording *w,
                                         const struct heap *heap)
{
    const struct pattern *pattern = w->design->pattern;
    const long marks = pattern->units == UNIT_CM ? 10 : 16;
    const struct rational exact = heap->of.square_in_square.reach;
    const struct rational reach = rational_div(
        rational_whole(rational_floor(rational_times(exact, marks))),
        rational_whole(marks));
    const struct rational side =
        rational_add(heap->width, rational_times(pattern->seam, 2));
    return (struct told_action){"",
                                "",
                                say(w->arena, w->phrases, "square.last", NULL),
                                "",
                                say(w->arena, w->phrases,
                                    rational_equal(reach, exact)
                                        ? "square.trim"
                                        : "square.trim-above",
                                    "size",
                                    word_size_unit(w, side, side), "reach",
                                    word_length_unit(w, reach), NULL),
                                ""};
}

/* Either squares are sewn across the corners, as at any unit with corners, or
 * triangles are sewn to the center, a pair and then the other pair. */
static struct told_action word_square(const struct wording *w,
                                      const struct heap *heap,
                                      const struct action *action)
{
    if (heap->of.square_in_square.method == SQUARE_CORNERS)
        return word_squares(w, heap, action);
    return action == &heap->actions.items[0] ? word_first_pair(w, heap)
                                             : word_last_pair(w, heap);
}

/* Triangles lie at an edge, so that no drawn line can be named. */
static const char *square_laid(const struct wording *w, const struct heap *heap,
                               const struct action *action)
{
    return heap->of.square_in_square.method == SQUARE_CORNERS
               ? laid_caption(w, heap, action)
               : say(w->arena, w->phrases, "caption.laid-triangles", NULL);
}

static int square_in_square_method(const struct heap *heap)
{
    return (int)heap->of.square_in_square.method;
}

const struct telling telling_square_in_square = {
    .title = square_title,
    .action = word_square,
    .before = square_laid,
    .outward = "press.outward",
    .named = "technique.square-in-square",
    .method = square_in_square_method};
