/* Settings on point, told. */
#include "telling.h"

/* Counted as quilters count them. */
static const char *on_point_title(const struct wording *w,
                                  const struct heap *heap)
{
    const struct on_point *of = heap->piece->on_point;
    return say(w->arena, w->phrases, "title.on-point", "across",
               say_count(w->arena, of->across), "down",
               say_count(w->arena, of->down), NULL);
}

static const struct heap *part_heap(const struct wording *w,
                                    const struct heap *heap, size_t input)
{
    return &w->quilt->heaps.items[heap->inputs.items[input].heap];
}

/* An input that is a triangle of this shape, or the number of inputs. */
static size_t triangle_of(const struct wording *w, const struct heap *heap,
                          enum patch_shape shape)
{
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct heap *part = part_heap(w, heap, i);
        if (part->technique == TECHNIQUE_CUT && part->of.cut.shape == shape)
            return i;
    }
    return heap->inputs.count;
}

/* The input that is cut as a strip, or as the square of its width, which lies
 * where strips meet; or the number of inputs. */
static size_t sash_of(const struct wording *w, const struct heap *heap,
                      const struct cut_piece *strip)
{
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct heap *part = part_heap(w, heap, i);
        const struct cut_piece *cut = &part->of.cut;
        if (part->technique != TECHNIQUE_CUT || cut->shape != PATCH_WHOLE)
            continue;
        const bool square = rational_equal(cut->width, cut->height);
        if (strip == NULL
                ? !square
                : square && rational_equal(cut->width,
                                           rational_compare(strip->width,
                                                            strip->height) < 0
                                               ? strip->width
                                               : strip->height))
            return i;
    }
    return heap->inputs.count;
}

/* Strips and cornerstones are too small for labels in the figure. */
static const char *word_sashes(const struct wording *w, const struct heap *heap)
{
    const size_t strip = sash_of(w, heap, NULL);
    if (!heap->piece->on_point->sashed || strip == heap->inputs.count)
        return "";
    const size_t stone = sash_of(w, heap, &part_heap(w, heap, strip)->of.cut);
    return stone == heap->inputs.count
               ? ""
               : say(w->arena, w->phrases, "on-point.sashes", "sashes",
                     part_of_heap(w, heap, strip), "stones",
                     part_of_heap(w, heap, stone), NULL);
}

/* How the triangles at the ends of the rows come from squares, and the rows. */
static struct told_action word_rows(const struct wording *w,
                                    const struct heap *heap)
{
    const size_t side = triangle_of(w, heap, PATCH_QUARTERED);
    const char *cut =
        side < heap->inputs.count
            ? say(w->arena, w->phrases, "on-point.sides", "sides",
                  part_of_heap(w, heap, side), "count",
                  say_count(w->arena, part_heap(w, heap, side)->count), NULL)
            : "";
    const char *lay = say(w->arena, w->phrases, "on-point.lay", "rows",
                          say_count(w->arena, heap_down(heap)), NULL);
    const char *laid = word_then(w, lay, word_sashes(w, heap));
    const char *sew = say(w->arena, w->phrases, "on-point.rows", NULL);
    return (struct told_action){
        "", "", word_then(w, word_then(w, cut, laid), sew), "", "", ""};
}

/* Corners last: their long edges lie on the middle of a row or of its end. What
 * is trimmed is trimmed so that the points keep a seam's width. */
static struct told_action word_corners(const struct wording *w,
                                       const struct heap *heap)
{
    const struct pattern *pattern = w->design->pattern;
    const size_t corner = triangle_of(w, heap, PATCH_HALVED);
    const struct rational excess = heap->of.join.excess;
    const char *trim =
        say(w->arena, w->phrases,
            heap->piece->on_point->sashed ? "on-point.trim-stones"
            : rational_sign(excess) > 0   ? "on-point.trim-float"
                                          : "on-point.trim",
            "outside", word_length_unit(w, rational_add(excess, pattern->seam)),
            "float", word_length_unit(w, excess), NULL);
    return (struct told_action){"",
                                "",
                                say(w->arena, w->phrases, "on-point.corners",
                                    "corners", part_of_heap(w, heap, corner),
                                    NULL),
                                "",
                                word_then(w, trim, word_measure(w, heap)),
                                ""};
}

/* Rows, then the seams between them, then the corners. */
static struct told_action word_on_point(const struct wording *w,
                                        const struct heap *heap,
                                        const struct action *action)
{
    if (action->operation->laid == LAID_ACROSS)
        return word_rows(w, heap);
    if (action->operation->laid == LAID_TOGETHER)
        return word_corners(w, heap);
    return (struct told_action){
        "", "", say(w->arena, w->phrases, "on-point.join", NULL), "", "", ""};
}

static const char *on_point_laid(const struct wording *w,
                                 const struct heap *heap,
                                 const struct action *action)
{
    (void)heap;
    return say(w->arena, w->phrases,
               action->operation->laid == LAID_ACROSS ? "caption.lay-rows"
               : action->operation->laid == LAID_DOWN ? "caption.rows"
                                                      : "caption.corners-apart",
               NULL);
}

const struct telling telling_on_point = {.title = on_point_title,
                                         .action = word_on_point,
                                         .before = on_point_laid,
                                         .outward = "press.outward",
                                         .named = "technique.on-point"};
