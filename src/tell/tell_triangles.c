/* Rows of triangles, told. */
#include "telling.h"

/* By its rows. */
static const char *triangles_title(const struct wording *w,
                                   const struct heap *heap)
{
    return say(w->arena, w->phrases, "title.triangles", "rows",
               say_count(w->arena, heap_down(heap)), NULL);
}

/* How slanted edges lie on each other depends on their ends: cut with its seam
 * allowance, a corner of 60 degrees reaches the seam times cot 30 beyond the end
 * of the seam, one of 120 degrees the seam times cot 60. Triangles have the same
 * corners at both ends of an edge; other shapes have one of each. */
static bool has_other_shapes(const struct wording *w, const struct heap *heap)
{
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct heap *part =
            &w->quilt->heaps.items[heap->inputs.items[i].heap];
        const enum patch_shape shape = part->of.cut.shape;
        if (part->technique == TECHNIQUE_CUT &&
            (shape == PATCH_DIAMOND_RIGHT || shape == PATCH_DIAMOND_LEFT ||
             shape == PATCH_HALF_HEXAGON))
            return true;
    }
    return false;
}

/* Rows first; points meet where the rows do. */
static struct told_action word_triangles(const struct wording *w,
                                         const struct heap *heap,
                                         const struct action *action)
{
    const bool rows = action->operation->laid == LAID_ACROSS;
    const char *text =
        rows ? say(w->arena, w->phrases,
                   has_other_shapes(w, heap) ? "triangles.rows-mixed"
                                             : "triangles.rows",
                   "rows", say_count(w->arena, heap_down(heap)), NULL)
             : say(w->arena, w->phrases, "triangles.join", "seam",
                   word_length_unit(w, w->design->pattern->seam), NULL);
    return (struct told_action){"", "", text, "", "", ""};
}

static const char *triangles_laid(const struct wording *w,
                                  const struct heap *heap,
                                  const struct action *action)
{
    (void)heap;
    return say(w->arena, w->phrases,
               action->operation->laid == LAID_ACROSS ? "caption.lay-rows"
                                                      : "caption.rows",
               NULL);
}

const struct telling telling_triangles = {.title = triangles_title,
                                          .action = word_triangles,
                                          .before = triangles_laid,
                                          .named = "technique.triangles"};
