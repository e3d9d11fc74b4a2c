/* Squares sewn across corners and flipped, told. */
#include "telling.h"

static const char *corner_title(const struct wording *w,
                                const struct heap *heap)
{
    return say(w->arena, w->phrases, "title.corners", "count",
               say_count(w->arena, heap->inputs.count - 1), NULL);
}

/* As the reader sees the unit, right side up, on the page. */
const char *word_place(const struct wording *w, enum corner_place at)
{
    static const char *const keys[] = {[TOP_LEFT] = "place.top-left",
                                       [TOP_RIGHT] = "place.top-right",
                                       [BOTTOM_RIGHT] = "place.bottom-right",
                                       [BOTTOM_LEFT] = "place.bottom-left"};
    return say(w->arena, w->phrases, keys[at], NULL);
}

/* "square A3 on the top-left and bottom-right corners": those of the action's
 * corners that get the same square as the one at `first`. */
static const char *square_on(const struct wording *w, const struct heap *heap,
                             const struct action *action, size_t first)
{
    const size_t *parts = action->parts.items;
    const size_t like = heap->inputs.items[parts[first]].heap;
    LIST(const char *) places = {0};
    for (size_t i = first; i < action->parts.count; i++)
        if (heap->inputs.items[parts[i]].heap == like)
            *LIST_ADD(w->arena, &places) =
                word_place(w, heap->inputs.items[parts[i]].at);
    return say(w->arena, w->phrases, "corner.square", "square",
               part_of_heap(w, heap, parts[first]), "corners",
               say_count(w->arena, places.count), "places",
               word_list(w, places.items, places.count), NULL);
}

/* What is laid on in one action, without saying the same square twice: input 0
 * is the base, so that the flaps begin with 1. Equal inputs share a heap. */
static const char *squares_on(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    LIST(const char *) squares = {0};
    for (size_t i = 1; i < action->parts.count; i++) {
        bool told = false;
        for (size_t k = 1; k < i; k++)
            told |= heap->inputs.items[action->parts.items[k]].heap ==
                    heap->inputs.items[action->parts.items[i]].heap;
        if (!told)
            *LIST_ADD(w->arena, &squares) = square_on(w, heap, action, i);
    }
    return word_list(w, squares.items, squares.count);
}

/* Whether all corners of the action have lines of one direction. */
static bool same_lines(const struct heap *heap, const struct action *action)
{
    for (size_t i = 1; i < action->parts.count; i++)
        if (corner_line(heap->inputs.items[action->parts.items[i]].at) !=
            action->line)
            return false;
    return true;
}

/* The first squares on a bare base. The hint about a print follows, as it must
 * be read before the line is drawn; it asks the first of the squares. */
static const char *word_laying(const struct wording *w, const struct heap *heap,
                               const struct action *action)
{
    return word_then(w,
                     say(w->arena, w->phrases, "corner.lay", "squares",
                         squares_on(w, heap, action), "base",
                         part_of_heap(w, heap, 0), NULL),
                     print_hint(w, heap, action->parts.items[1]));
}

/* Further squares on a base that has some already: shorter, as the moves are
 * known. The line is named only where all squares have the same. */
static const char *word_again(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    const char *text =
        same_lines(heap, action)
            ? say(w->arena, w->phrases, "corner.again", "squares",
                  squares_on(w, heap, action), "base", part_of_heap(w, heap, 0),
                  "line", word_line(w, action->line), NULL)
            : say(w->arena, w->phrases, "corner.again-across", "squares",
                  squares_on(w, heap, action), "base", part_of_heap(w, heap, 0),
                  NULL);
    return word_then(w, text, print_hint(w, heap, action->parts.items[1]));
}

/* Right sides together, wrong side up: so the drawn line is the one that is
 * seen, and its direction is told as it lies. */
static struct told_action drawn_way(const struct wording *w,
                                    const struct heap *heap,
                                    const struct action *action)
{
    const char *count = say_count(w->arena, action->parts.count - 1);
    const char *seam = word_length_unit(w, w->design->pattern->seam);
    const char *draw =
        same_lines(heap, action)
            ? say(w->arena, w->phrases, "corner.draw", "squares", count, "line",
                  word_line(w, action->line), NULL)
            : say(w->arena, w->phrases, "corner.draw-across", NULL);
    return (struct told_action){
        word_laying(w, heap, action),
        draw,
        say(w->arena, w->phrases, "corner.sew", "squares", count, NULL),
        say(w->arena, w->phrases, "corner.trim", "squares", count, "seam", seam,
            NULL),
        "",
        word_again(w, heap, action)};
}

/* The diagonal is not drawn, but its direction is told all the same. */
static struct told_action cut_way(const struct wording *w,
                                  const struct heap *heap,
                                  const struct action *action)
{
    const char *count = say_count(w->arena, action->parts.count - 1);
    const char *seam = word_length_unit(w, w->design->pattern->seam);
    const char *cut =
        same_lines(heap, action)
            ? say(w->arena, w->phrases, "corner.cut", "squares", count, "seam",
                  seam, "line", word_line(w, action->line), NULL)
            : say(w->arena, w->phrases, "corner.cut-across", "seam", seam,
                  NULL);
    return (struct told_action){word_laying(w, heap, action),
                                cut,
                                say(w->arena, w->phrases, "corner.cut-sew",
                                    "squares", count, "seam", seam, NULL),
                                "",
                                "",
                                word_again(w, heap, action)};
}

/* The first flap decides: squares of two methods are never sewn in one action.
 */
static enum corner_method method_of(const struct heap *heap,
                                    const struct action *action)
{
    return heap->inputs.items[action->parts.items[1]].method;
}

/* Two ways to one seam: a line that is drawn and sewn on, or a corner that is
 * cut off first. */
static struct told_action word_corner(const struct wording *w,
                                      const struct heap *heap,
                                      const struct action *action)
{
    return method_of(heap, action) == CORNER_CUT_FIRST
               ? cut_way(w, heap, action)
               : drawn_way(w, heap, action);
}

/* The squares lie as before. */
static struct told_action other_way(const struct wording *w,
                                    const struct heap *heap,
                                    const struct action *action)
{
    struct told_action told = cut_way(w, heap, action);
    told.lay = "";
    return told;
}

/* The figure follows the method too, so its caption may not speak of a line
 * where none is drawn. */
static const char *laid_on_corner(const struct wording *w,
                                  const struct heap *heap,
                                  const struct action *action)
{
    return method_of(heap, action) == CORNER_CUT_FIRST
               ? other_caption(w, action)
               : laid_caption(w, heap, action);
}

/* The corners of a heap have methods of their own; the first is told. */
static int corners_method(const struct heap *heap)
{
    return (int)heap->inputs.items[1].method;
}

const struct telling telling_corners = {.title = corner_title,
                                        .action = word_corner,
                                        .other = other_way,
                                        .before = laid_on_corner,
                                        .named = "technique.corners",
                                        .method = corners_method};
