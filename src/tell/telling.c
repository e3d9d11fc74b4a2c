/* The table of tellings, and what they share. Read next: tell_corners.c. */
#include "telling.h"

#define TELLING_ENTRY(kind, row) [kind] = &telling_##row,
static const struct telling *const tellings[TECHNIQUE_COUNT] = {
    TECHNIQUE_LIST(TELLING_ENTRY)};
#undef TELLING_ENTRY

/* The list of techniques fills the table, so that a technique without words
 * does not link. */
const struct telling *telling_of(const struct heap *heap)
{
    return tellings[heap->technique];
}

const struct telling *telling_of_technique(enum technique technique)
{
    return tellings[technique];
}

const char *told_parting(const struct wording *w, const struct heap *heap,
                         const struct action *action)
{
    const struct telling *telling = telling_of(heap);
    return telling->parting == NULL ? "" : telling->parting(w, heap, action);
}

/* One paragraph, in the order of the work. Parts that are empty leave neither a
 * blank nor a full stop behind. Which sides face each other the figures show,
 * and the head of their section says it once. */
const char *told_in_order(const struct wording *w, struct told_action told)
{
    const char *text = told.lay;
    if (text[0] != '\0')
        text =
            word_then(w, text, say(w->arena, w->phrases, "action.faces", NULL));
    text = word_then(w, text, told.draw);
    text = word_then(w, word_then(w, text, told.sew), told.cut);
    return word_then(w, text, told.trim);
}

/* As the list of parts names it, so that the reader finds the word again. */
const char *part_of_heap(const struct wording *w, const struct heap *heap,
                         size_t input)
{
    return word_part(w, heap->inputs.items[input].heap);
}

/* Only cloth with a direction asks for care; an empty string stands for the
 * rest, also for sewn units, which have no fabric of their own. */
const char *print_hint(const struct wording *w, const struct heap *heap,
                       size_t input)
{
    const int fabric =
        heap_fabric(&w->quilt->heaps.items[heap->inputs.items[input].heap]);
    return fabric >= 0 && w->design->fabrics.items[fabric].one_way
               ? say(w->arena, w->phrases, "corner.print", NULL)
               : "";
}

/* A word for captions; sentences take word_line, which can add a sign. */
const char *line_word(const struct wording *w, enum line_direction line)
{
    return say(w->arena, w->phrases,
               line == LINE_RISING ? "line.rising" : "line.falling", NULL);
}

/* More than two parts are a base and several squares, whose lines may run
 * either way. */
const char *other_caption(const struct wording *w, const struct action *action)
{
    return action->parts.count > 2
               ? say(w->arena, w->phrases, "caption.cut-corners", NULL)
               : say(w->arena, w->phrases, "caption.cut-corner", "line",
                     line_word(w, action->line), NULL);
}

/* The heap is not needed, but captions of all techniques have one form. */
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
