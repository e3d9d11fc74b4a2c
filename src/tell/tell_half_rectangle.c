/* Half-rectangles, told. */
#include "telling.h"

/* Input 0 is the rectangle of the left triangle, input 1 that of the right one.
 */
static const char *half_rectangle_title(const struct wording *w,
                                        const struct heap *heap)
{
    (void)heap;
    return say(w->arena, w->phrases, "title.half-rectangle", NULL);
}

/* ---- cutting ---- */

/* The ends of the line are corners, or lie beside two on one pair of edges. */
static const char *word_line_ends(const struct wording *w,
                                  const struct heap *heap,
                                  const struct action *action)
{
    const struct half_rectangle_cut *cut = &heap->of.half_rectangle.cut;
    const bool on_short =
        (rational_compare(cut->width, cut->height) <= 0) == cut->on_width;
    const char *key = cut->corners ? "half-rectangle.cut"
                      : on_short   ? "half-rectangle.cut-short"
                                   : "half-rectangle.cut-long";
    return say(w->arena, w->phrases, key, "left", part_of_heap(w, heap, 0),
               "right", part_of_heap(w, heap, 1), "line",
               word_line(w, action->line), "reach",
               word_length_near(w, cut->reach), NULL);
}

/* Cut on the other diagonal they make the mirror image. Of a print one half of
 * each rectangle serves, as the others would stand on their heads. */
static const char *word_cutting(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action)
{
    const char *text =
        word_then(w, word_line_ends(w, heap, action),
                  say(w->arena, w->phrases, "half-rectangle.hand", NULL));
    return heap->yield == 1
               ? word_then(w, text,
                           say(w->arena, w->phrases, "half-rectangle.print",
                               "left", part_of_heap(w, heap, 0), "right",
                               part_of_heap(w, heap, 1), NULL))
               : text;
}

/* ---- laying ---- */

/* How far the ends of the slanted edges lie apart when their seams meet: the
 * middle of each edge, told along the seam from the middle of the unit, twice.
 * Above 0 where the end that lies further to the right is the left triangle's.
 */
static struct rational tip_of(const struct wording *w, const struct heap *heap)
{
    const struct half_rectangle_cut *cut = &heap->of.half_rectangle.cut;
    const struct rational spare = rational_sub(cut->scale, cut->least);
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    const struct rational sides[2] = {heap->width, heap->height};
    const struct rational cuts[2] = {cut->width, cut->height};
    struct rational along[2];
    for (int i = 0; i < 2; i++)
        along[i] = rational_mul(
            sides[i],
            rational_sub(rational_sub(rational_sub(cuts[i], sides[i]), seams),
                         rational_mul(sides[i], spare)));
    return rational_div(rational_sub(along[0], along[1]), cut->diagonal);
}

/* The narrow tip of a triangle lies at the far end of its longer leg, so that
 * it sticks out where the edge has moved towards that end. */
static const char *word_tips(const struct wording *w, const struct heap *heap)
{
    const struct rational tip = tip_of(w, heap);
    const bool left_ahead = rational_sign(tip) > 0;
    const bool wide = rational_compare(heap->width, heap->height) > 0;
    const struct rational out = left_ahead ? tip : rational_times(tip, -1);
    return is_no_length(w, out)
               ? say(w->arena, w->phrases, "half-rectangle.ends", NULL)
               : say(w->arena, w->phrases,
                     left_ahead == wide ? "half-rectangle.narrow-tips"
                                        : "half-rectangle.wide-tips",
                     "tip", word_length_near(w, out), NULL);
}

static const char *word_laying(const struct wording *w, const struct heap *heap)
{
    const char *lay =
        say(w->arena, w->phrases, "half-rectangle.lay", "left",
            part_of_heap(w, heap, 0), "right", part_of_heap(w, heap, 1), NULL);
    return word_then(w, word_then(w, lay, word_tips(w, heap)),
                     say(w->arena, w->phrases, "square.bias", NULL));
}

/* ---- trimming ---- */

/* s - s * short side / long side: see mark_point in the sewing stage, which
 * draws it. */
static struct rational reach_of(const struct wording *w,
                                const struct heap *heap)
{
    const struct rational share =
        rational_div(rational_min(heap->width, heap->height),
                     rational_max(heap->width, heap->height));
    return rational_mul(w->design->pattern->seam,
                        rational_sub(rational_whole(1), share));
}

static const char *word_trimming(const struct wording *w,
                                 const struct heap *heap)
{
    const struct rational seam = w->design->pattern->seam;
    const struct rational seams = rational_times(seam, 2);
    const struct rational reach = reach_of(w, heap);
    return say(w->arena, w->phrases,
               is_no_length(w, reach) ? "half-square.trim"
                                      : "half-rectangle.trim",
               "count", say_count(w->arena, heap->yield), "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               "seam", word_length_unit(w, seam), "reach",
               word_length_near(w, reach), NULL);
}

/* Cut from corner to corner, with both halves in use, it is told in short after
 * the first time. */
static int half_rectangle_method(const struct heap *heap)
{
    return (heap->of.half_rectangle.cut.corners ? 0 : 1) +
           (heap->yield == 1 ? 2 : 0);
}

static const char *word_again(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    if (half_rectangle_method(heap) != 0)
        return "";
    return word_then(w,
                     say(w->arena, w->phrases, "half-rectangle.again", "left",
                         part_of_heap(w, heap, 0), "right",
                         part_of_heap(w, heap, 1), "line",
                         word_line(w, action->line), NULL),
                     word_tips(w, heap));
}

static struct told_action word_half_rectangle(const struct wording *w,
                                              const struct heap *heap,
                                              const struct action *action)
{
    return (struct told_action){
        .lay = word_laying(w, heap),
        .draw = "",
        .sew = say(w->arena, w->phrases, "half-rectangle.sew", "seam",
                   word_length_unit(w, w->design->pattern->seam), NULL),
        .cut = "",
        .trim = word_trimming(w, heap),
        .again = word_again(w, heap, action)};
}

static const char *laid_on(const struct wording *w, const struct heap *heap,
                           const struct action *action)
{
    return say(w->arena, w->phrases, "caption.laid-on", "flap",
               part_of_heap(w, heap, 1), "base", part_of_heap(w, heap, 0),
               "line", line_word(w, action->line), NULL);
}

const struct telling telling_half_rectangle = {.title = half_rectangle_title,
                                               .action = word_half_rectangle,
                                               .parting = word_cutting,
                                               .before = laid_on,
                                               .named =
                                                   "technique.half-rectangle",
                                               .method = half_rectangle_method};
