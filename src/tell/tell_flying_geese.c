/* Flying geese, told. */
#include "telling.h"

static const char *geese_title(const struct wording *w, const struct heap *heap)
{
    return say(w->arena, w->phrases, "title.flying-geese", "goose",
               part_of_heap(w, heap, 0), "sky", part_of_heap(w, heap, 1), NULL);
}

/* One square of sky, sewn across a corner and flipped. */
static const char *word_one(const struct wording *w, const struct heap *heap,
                            const struct action *action)
{
    const size_t square = action->parts.items[1];
    const char *lay =
        say(w->arena, w->phrases, "geese.lay", "sky",
            part_of_heap(w, heap, square), "goose", part_of_heap(w, heap, 0),
            "place", word_place(w, heap->inputs.items[square].at), NULL);
    const char *draw = word_then(
        w, say(w->arena, w->phrases, "corner.draw", "squares", "1", NULL),
        word_line(w, action->line));
    const char *sew = say(w->arena, w->phrases, "corner.sew", "seam",
                          word_length_unit(w, w->design->pattern->seam), NULL);
    lay = word_then(w, lay, print_hint(w, heap, square));
    return word_then(w, word_then(w, lay, draw), sew);
}

static const char *word_slack(const struct wording *w, struct rational slack)
{
    return arena_printf(w->arena, "%s %s", word_decimal(w, slack, 2),
                        word_unit(w));
}

/* The second cut gives what the step makes. */
static const char *word_apart(const struct wording *w, const struct heap *heap)
{
    const struct flying_geese *geese = &heap->of.flying_geese;
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    return say(w->arena, w->phrases,
               heap->yield == 4 ? "geese.four" : "geese.four-print", "seam",
               word_length_unit(w, w->design->pattern->seam), "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               "long", word_slack(w, geese->long_slack), "short",
               word_slack(w, geese->short_slack), NULL);
}

static const char *word_four(const struct wording *w, const struct heap *heap,
                             const struct action *action)
{
    const bool first = action == &heap->actions.items[0];
    const char *lay =
        say(w->arena, w->phrases,
            first ? "geese.halves-lay" : "geese.apart-lay", "sky",
            part_of_heap(w, heap, 1), "goose", part_of_heap(w, heap, 0), NULL);
    lay = word_then(w, lay, print_hint(w, heap, 1));
    const char *draw =
        word_then(w,
                  say(w->arena, w->phrases,
                      first ? "geese.halves-draw" : "geese.apart-draw", NULL),
                  word_line(w, action->line));
    const char *sew =
        first ? say(w->arena, w->phrases, "geese.halves", "seam",
                    word_length_unit(w, w->design->pattern->seam), NULL)
              : word_apart(w, heap);
    return word_then(w, word_then(w, lay, draw), sew);
}

static const char *word_geese(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    return heap->of.flying_geese.method == GEESE_FOUR
               ? word_four(w, heap, action)
               : word_one(w, heap, action);
}

static const char *geese_laid(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    (void)heap;
    return say(w->arena, w->phrases, "caption.laid", "line",
               line_word(w, action->line), NULL);
}

const struct telling telling_flying_geese = {.title = geese_title,
                                             .action = word_geese,
                                             .before = geese_laid,
                                             .outward = "press.sky"};
