/* Eight-pointed stars, told. The actions come in the order of the sewing stage:
 * pairs, triangles, halves, squares, the long seam, squares. */
#include "telling.h"

/* Inputs of each kind: the first diamond and the second, a square, a triangle.
 */
enum { FIRST, SECOND, SQUARE = 8, TRIANGLE = 12 };
enum { PAIRS, TRIANGLES, HALVES, FIRST_SQUARES, LONG_SEAM, LAST_SQUARES };

static const char *star_title(const struct wording *w, const struct heap *heap)
{
    (void)heap;
    return say(w->arena, w->phrases, "title.star", NULL);
}

/* What a sentence may name; most name few. */
static const char *star_says(const struct wording *w, const struct heap *heap,
                             const char *key)
{
    const struct rational seam = w->design->pattern->seam;
    const struct rational side =
        rational_add(heap->width, rational_times(seam, 2));
    return say(w->arena, w->phrases, key, "first", part_of_heap(w, heap, FIRST),
               "second", part_of_heap(w, heap, SECOND), "squares",
               part_of_heap(w, heap, SQUARE), "triangles",
               part_of_heap(w, heap, TRIANGLE), "seam",
               word_length_unit(w, seam), "growth",
               word_length_near(w, heap->of.star.cut.growth), "size",
               word_size_unit(w, side, side), NULL);
}

/* Where the strip is what the star asks for, or no ruler shows what it is more,
 * nothing is said of it. */
static const char *star_growth(const struct wording *w, const struct heap *heap)
{
    return is_no_length(w, heap->of.star.cut.growth)
               ? ""
               : star_says(w, heap, "star.deeper");
}

/* Two fabrics alternate, one comes in pairs of like ones. */
static struct told_action word_pairs(const struct wording *w,
                                     const struct heap *heap)
{
    const bool alike = heap->of.star.points == heap->of.star.second;
    const char *sew =
        star_says(w, heap, alike ? "star.pairs" : "star.pairs-two");
    return (struct told_action){
        .lay = "",
        .draw = "",
        .sew = word_then(w, sew, star_growth(w, heap)),
        .cut = "",
        .trim = "",
        .again = star_says(w, heap, alike ? "star.again" : "star.again-two")};
}

/* Laid and sewn in one figure, so that one text tells it. */
static struct told_action word_star(const struct wording *w,
                                    const struct heap *heap,
                                    const struct action *action)
{
    static const char *const keys[] = {[TRIANGLES] = "star.triangles",
                                       [HALVES] = "star.halves",
                                       [FIRST_SQUARES] = "star.squares",
                                       [LONG_SEAM] = "star.long-seam",
                                       [LAST_SQUARES] = "star.last-squares"};
    const size_t number = (size_t)(action - heap->actions.items);
    if (number == PAIRS)
        return word_pairs(w, heap);
    return (struct told_action){
        .lay = "",
        .draw = "",
        .sew = star_says(w, heap, keys[number]),
        .cut = "",
        .trim = number == LAST_SQUARES ? star_says(w, heap, "star.trim") : "",
        .again = ""};
}

/* What is cut and marked before the first seam. */
static const char *star_parting(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action)
{
    return action == &heap->actions.items[PAIRS]
               ? star_says(w, heap, "star.dots")
               : "";
}

static const char *star_laid(const struct wording *w, const struct heap *heap,
                             const struct action *action)
{
    (void)heap;
    (void)action;
    return say(w->arena, w->phrases, "caption.laid-dots", NULL);
}

/* Where seams are wider than all others, that is told again. */
static int star_method(const struct heap *heap)
{
    return rational_sign(heap->of.star.cut.excess) > 0 ? 1 : 0;
}

const struct telling telling_star = {.title = star_title,
                                     .action = word_star,
                                     .parting = star_parting,
                                     .before = star_laid,
                                     .named = "technique.star",
                                     .method = star_method};
