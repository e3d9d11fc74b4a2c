/* Flying geese, told. */
#include "telling.h"

/* Input 0 is the goose and input 1 the sky, in both methods. */
static const char *geese_title(const struct wording *w, const struct heap *heap)
{
    (void)heap;
    return say(w->arena, w->phrases, "title.flying-geese", NULL);
}

/* The distance from the drawn line at which both seams are sewn. */
static const char *seam_text(const struct wording *w)
{
    return word_length_unit(w, w->design->pattern->seam);
}

/* One square of sky, sewn across a corner and flipped. */
static struct told_action word_one(const struct wording *w,
                                   const struct heap *heap,
                                   const struct action *action)
{
    const size_t square = action->parts.items[1];
    const char *lay =
        say(w->arena, w->phrases, "geese.lay", "sky",
            part_of_heap(w, heap, square), "goose", part_of_heap(w, heap, 0),
            "place", word_place(w, heap->inputs.items[square].at), NULL);
    return (struct told_action){
        word_then(w, lay, print_hint(w, heap, square)),
        say(w->arena, w->phrases, "corner.draw", "squares", "1", "line",
            word_line(w, action->line), NULL),
        say(w->arena, w->phrases, "corner.sew", "squares", "1", NULL),
        say(w->arena, w->phrases, "corner.trim", "squares", "1", "seam",
            seam_text(w), NULL),
        "",
        word_then(w,
                  say(w->arena, w->phrases, "geese.again", "sky",
                      part_of_heap(w, heap, square), "goose",
                      part_of_heap(w, heap, 0), "place",
                      word_place(w, heap->inputs.items[square].at), "line",
                      word_line(w, action->line), NULL),
                  print_hint(w, heap, square))};
}

/* The second cut gives what the step makes. */
static const char *word_trim(const struct wording *w, const struct heap *heap)
{
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    return say(w->arena, w->phrases, "geese.trim", "count",
               say_count(w->arena, heap->yield), "seam", seam_text(w), "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               NULL);
}

/* Four geese of one large and four small squares. The first action lays two
 * small squares and yields two halves; the second lays one on each of them, and
 * only then there is something to trim. With a print of one direction less than
 * four can be used, so that the last cut is told otherwise. */
static struct told_action word_four(const struct wording *w,
                                    const struct heap *heap,
                                    const struct action *action)
{
    const bool first = action == &heap->actions.items[0];
    const char *lay =
        say(w->arena, w->phrases,
            first ? "geese.halves-lay" : "geese.apart-lay", "sky",
            part_of_heap(w, heap, 1), "goose", part_of_heap(w, heap, 0), NULL);
    return (struct told_action){
        word_then(w, lay, print_hint(w, heap, 1)),
        say(w->arena, w->phrases,
            first ? "geese.halves-draw" : "geese.apart-draw", "line",
            word_line(w, action->line), NULL),
        say(w->arena, w->phrases, "half-square.two", "seam", seam_text(w),
            NULL),
        say(w->arena, w->phrases,
            first              ? "geese.halves"
            : heap->yield == 4 ? "geese.four"
                               : "geese.four-print",
            NULL),
        first ? "" : word_trim(w, heap),
        ""};
}

/* The method is chosen for the heap, so that all its actions are told alike. */
static struct told_action word_geese(const struct wording *w,
                                     const struct heap *heap,
                                     const struct action *action)
{
    return heap->of.flying_geese.method == GEESE_FOUR
               ? word_four(w, heap, action)
               : word_one(w, heap, action);
}

/* The line shows where the flap lies; names would only repeat the words beside
 * the figure. */
static const char *geese_laid(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    (void)heap;
    return say(w->arena, w->phrases, "caption.laid", "line",
               line_word(w, action->line), NULL);
}

static int flying_geese_method(const struct heap *heap)
{
    return (int)heap->of.flying_geese.method;
}

const struct telling telling_flying_geese = {.title = geese_title,
                                             .action = word_geese,
                                             .before = geese_laid,
                                             .outward = "press.sky",
                                             .named = "technique.flying-geese",
                                             .method = flying_geese_method};
