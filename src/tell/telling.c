/* The table of tellings, and what they share. Read next: tell_corners.c. */
#include "telling.h"

#define TELLING_ENTRY(kind, row) [kind] = &telling_##row,
static const struct telling *const tellings[TECHNIQUE_COUNT] = {
    TECHNIQUE_LIST(TELLING_ENTRY)};
#undef TELLING_ENTRY

const struct telling *telling_of(const struct heap *heap)
{
    return tellings[heap->technique];
}

const char *told_in_order(const struct wording *w, struct told_action told)
{
    const char *text = word_then(w, told.lay, told.draw);
    text = word_then(w, word_then(w, text, told.sew), told.cut);
    return word_then(w, text, told.trim);
}

const char *part_of_heap(const struct wording *w, const struct heap *heap,
                         size_t input)
{
    return word_part(w, heap->inputs.items[input].heap);
}

const char *print_hint(const struct wording *w, const struct heap *heap,
                       size_t input)
{
    const int fabric =
        heap_fabric(&w->quilt->heaps.items[heap->inputs.items[input].heap]);
    return fabric >= 0 && w->design->fabrics.items[fabric].one_way
               ? say(w->arena, w->phrases, "corner.print", NULL)
               : "";
}

const char *line_word(const struct wording *w, enum line_direction line)
{
    return say(w->arena, w->phrases,
               line == LINE_RISING ? "line.rising" : "line.falling", NULL);
}

const char *other_caption(const struct wording *w, const struct action *action)
{
    return action->parts.count > 2
               ? say(w->arena, w->phrases, "caption.cut-corners", NULL)
               : say(w->arena, w->phrases, "caption.cut-corner", "line",
                     line_word(w, action->line), NULL);
}

const char *laid_caption(const struct wording *w, const struct heap *heap,
                         const struct action *action)
{
    (void)heap;
    return action->parts.count > 2
               ? say(w->arena, w->phrases, "caption.laid-corners", NULL)
               : say(w->arena, w->phrases, "caption.laid", "line",
                     line_word(w, action->line), NULL);
}

/* Cuts are told by their label. */
static const char *cut_title(const struct wording *w, const struct heap *heap)
{
    (void)w;
    return heap->of.cut.label;
}

const struct telling telling_cut = {.title = cut_title};
