/* Rows of triangles, told. */
#include "telling.h"

/* By its rows. */
static const char *triangles_title(const struct wording *w,
                                   const struct heap *heap)
{
    return say(w->arena, w->phrases, "title.triangles", "rows",
               say_count(w->arena, heap_down(heap)), NULL);
}

/* Rows first; points meet where the rows do. */
static struct told_action word_triangles(const struct wording *w,
                                         const struct heap *heap,
                                         const struct action *action)
{
    const bool rows = action->operation->laid == LAID_ACROSS;
    const char *text =
        rows ? say(w->arena, w->phrases, "triangles.rows", "rows",
                   say_count(w->arena, heap_down(heap)), NULL)
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
