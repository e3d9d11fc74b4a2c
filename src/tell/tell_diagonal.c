/* Strips joined by diagonal seams, told. */
#include "buffer.h"
#include "telling.h"

static const char *diagonal_title(const struct wording *w,
                                  const struct heap *heap)
{
    (void)heap;
    return say(w->arena, w->phrases, "title.diagonal", NULL);
}

/* The overlap is a square, so its diagonal is the seam. */
static struct told_action word_diagonal(const struct wording *w,
                                        const struct heap *heap,
                                        const struct action *action)
{
    /* What is trimmed off lies on the side where the strip comes to lie. */
    const bool below = action->seams.items[0].across_y > 0;
    return (struct told_action){
        say(w->arena, w->phrases, "diagonal.lay", "strip",
            part_of_heap(w, heap, action->parts.items[1]), "base",
            part_of_heap(w, heap, action->parts.items[0]), NULL),
        say(w->arena, w->phrases, "diagonal.draw", "line",
            word_line(w, action->line), NULL),
        say(w->arena, w->phrases, "half-square.one", NULL),
        say(w->arena, w->phrases,
            below ? "diagonal.cut-below" : "diagonal.cut-above", "seam",
            word_length_unit(w, w->design->pattern->seam), NULL),
        "",
        say(w->arena, w->phrases, "diagonal.again", "strip",
            part_of_heap(w, heap, action->parts.items[1]), "base",
            part_of_heap(w, heap, action->parts.items[0]), "line",
            word_line(w, action->line), NULL)};
}

const struct telling telling_diagonal = {.title = diagonal_title,
                                         .action = word_diagonal,
                                         .before = laid_caption,
                                         .named = "technique.diagonal"};
