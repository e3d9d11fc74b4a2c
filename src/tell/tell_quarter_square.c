/* Quarter-squares, told. */
#include "telling.h"

/* Input 0 lies below and input 1 on top: half-squares, or one of them plain. */
static const char *quarter_square_title(const struct wording *w,
                                        const struct heap *heap)
{
    (void)heap;
    return say(w->arena, w->phrases, "title.quarter-square", NULL);
}

/* Two of one heap, one turned against the other: each fabric meets the other
 * one. */
static bool are_alike(const struct heap *heap)
{
    const struct input *inputs = heap->inputs.items;
    return inputs[0].heap == inputs[1].heap &&
           (inputs[0].turn + 2) % 4 == inputs[1].turn;
}

/* Sides are counted clockwise from the top; any number may be given, so that
 * callers can count on from a side. */
static const char *fabric_name(const struct wording *w,
                               const struct quarter_square *quarter,
                               unsigned side)
{
    return w->design->fabrics.items[quarter->fabrics[side % 4]].name;
}

/* The half below is hidden, so the words tell how it lies: turned over the
 * line, the next side clockwise lies on side `base`, the one beyond on the one
 * before. A plain square lies any way, and has no seam to match. */
static const char *word_laying(const struct wording *w, const struct heap *heap)
{
    const struct quarter_square *quarter = &heap->of.quarter_square;
    const char *flap = part_of_heap(w, heap, 1);
    const char *base = part_of_heap(w, heap, 0);
    const unsigned at = (unsigned)quarter->base;
    if (quarter->has_plain)
        return say(w->arena, w->phrases, "quarter-square.lay-plain", "flap",
                   flap, "base", base, NULL);
    const char *lay =
        are_alike(heap)
            ? say(w->arena, w->phrases, "quarter-square.lay-alike", "base",
                  base, NULL)
            : say(w->arena, w->phrases, "quarter-square.lay", "flap", flap,
                  "base", base, "upper", fabric_name(w, quarter, at + 1),
                  "lower", fabric_name(w, quarter, at), "next-upper",
                  fabric_name(w, quarter, at + 2), "next-lower",
                  fabric_name(w, quarter, at + 3), NULL);
    return word_then(
        w, lay,
        say(w->arena, w->phrases,
            quarter->nested ? "quarter-square.nest" : "quarter-square.match",
            NULL));
}

/* The second of a pair is the mirror image of the first; prints tell even those
 * apart that are their own. */
static const char *two_key(const struct wording *w, const struct heap *heap)
{
    if (heap->yield == 2)
        return "quarter-square.two";
    for (size_t i = 0; i < 4; i++) {
        const int fabric = heap->of.quarter_square.fabrics[i];
        if (w->design->fabrics.items[fabric].one_way)
            return "quarter-square.two-print";
    }
    return "quarter-square.two-mirror";
}

/* The trimmed size is the finished one and a seam at each of two edges. */
static const char *word_trim(const struct wording *w, const struct heap *heap)
{
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    return say(w->arena, w->phrases, "quarter-square.trim", "count",
               say_count(w->arena, heap->yield), "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               NULL);
}

/* One at a time is sewn on the line, and the waste is cut off on the side that
 * the seam tells; two at a time are sewn on both sides of it, cut apart on the
 * line, and trimmed. */
static struct told_action word_quarter_square(const struct wording *w,
                                              const struct heap *heap,
                                              const struct action *action)
{
    const bool one = heap->of.quarter_square.method == METHOD_ONE;
    const char *seam = word_length_unit(w, w->design->pattern->seam);
    return (struct told_action){
        word_laying(w, heap),
        say(w->arena, w->phrases, "quarter-square.draw", "line",
            word_line(w, action->line), NULL),
        say(w->arena, w->phrases, one ? "half-square.one" : "half-square.two",
            "seam", seam, NULL),
        say(w->arena, w->phrases,
            !one                                  ? two_key(w, heap)
            : action->seams.items[0].across_x > 0 ? "quarter-square.one-right"
                                                  : "quarter-square.one-left",
            "seam", seam, NULL),
        one ? "" : word_trim(w, heap),
        ""};
}

/* How the seams of the two meet is told in the words; here only what lies on
 * what, and which way the drawn line runs. */
static const char *laid_on(const struct wording *w, const struct heap *heap,
                           const struct action *action)
{
    return say(w->arena, w->phrases, "caption.laid-on", "flap",
               part_of_heap(w, heap, 1), "base", part_of_heap(w, heap, 0),
               "line", line_word(w, action->line), NULL);
}

static int quarter_square_method(const struct heap *heap)
{
    return (int)heap->of.quarter_square.method;
}

const struct telling telling_quarter_square = {.title = quarter_square_title,
                                               .action = word_quarter_square,
                                               .before = laid_on,
                                               .named =
                                                   "technique.quarter-square",
                                               .method = quarter_square_method};
