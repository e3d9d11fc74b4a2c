/* Frames of what is joined: the parts apart, with their turns and the numbers
 * of their seams, and the result with its pressing. Read next: exploded.c. */
#include "buffer.h"
#include "exploded.h"
#include "sewing.h"
#include "telling.h"

struct joined {
    const struct sewing *sewing;
    const struct exploded *exploded;
};

/* ---- words ---- */

/* Both 0 for open, so open seams are alike too. */
static bool same_way(const struct exploded_seam *a,
                     const struct exploded_seam *b)
{
    return a->x == b->x && a->y == b->y;
}

/* Do seams of one number lie there twice, turned against each other? */
static bool turns_against(struct arena *arena, const struct exploded *e)
{
    const struct exploded_seam **first =
        ARENA_ARRAY(arena, const struct exploded_seam *, e->seams.count + 1);
    for (size_t i = 0; i < e->seams.count; i++) {
        const struct exploded_seam *seam = &e->seams.items[i];
        if (first[seam->number] == NULL)
            first[seam->number] = seam;
        else if (!same_way(first[seam->number], seam))
            return true;
    }
    return false;
}

/* What to do with parts that lie apart: to turn the marked ones first, as a
 * part that was sewn turned wrongly is found only when the block is done. */
static const char *laid_words(const struct joined *joined)
{
    const struct wording *w = joined->sewing->w;
    const struct exploded *e = joined->exploded;
    const struct heap *heap = joined->sewing->heap;
    if (heap->piece->kind == PIECE_BORDER)
        return told_in_order(
            w, telling_of(heap)->action(w, heap, &heap->actions.items[0]));
    bool turned = false;
    for (size_t i = 0; i < e->parts.count; i++)
        turned |= shown_turn(w->quilt, &e->parts.items[i]) != 0;
    const char *text =
        turned ? say(w->arena, w->phrases, "step.turned", NULL) : "";
    if (turns_against(w->arena, e))
        text =
            word_then(w, text, say(w->arena, w->phrases, "step.alike", NULL));
    return word_then(
        w, text,
        say(w->arena, w->phrases,
            e->seams.count > 1 ? "step.seams-in-order" : "step.one-seam",
            NULL));
}

/* Of a grid, rows go to and fro. */
static const char *many_ways(const struct joined *joined)
{
    const struct wording *w = joined->sewing->w;
    const struct heap *heap = joined->sewing->heap;
    if (joined->sewing->step->heaps.count > 1 || heap->actions.count != 2)
        return say(w->arena, w->phrases, "step.press-arrows", NULL);
    const struct colorway *colorway = joined->sewing->plan->colorway;
    return word_then(w, word_press(w, colorway, heap, &heap->actions.items[0]),
                     word_press(w, colorway, heap, &heap->actions.items[1]));
}

/* requires: a seam along one axis; a join has no others. */
static const char *way_key(const struct exploded_seam *seam)
{
    return seam->x > 0   ? "press.way-right"
           : seam->x < 0 ? "press.way-left"
           : seam->y > 0 ? "press.way-down"
           : seam->y < 0 ? "press.way-up"
                         : "press.way-open";
}

/* "1\u20132, 5": the seams that are pressed as the one at `first` is, in runs.
 * ensures: false where there are too many to be told. */
static bool seams_alike(struct arena *arena, const struct exploded_seam *order,
                        size_t seams, size_t first, const char **told)
{
    enum { RUNS = 5 };
    struct buffer text = buffer_in(arena);
    size_t runs = 0;
    for (size_t from = first, to; from < seams; from = to) {
        to = from + 1;
        if (!same_way(&order[first], &order[from]))
            continue;
        while (to < seams && same_way(&order[first], &order[to]))
            to++;
        buffer_printf(&text, "%s%zu", runs++ > 0 ? ", " : "", from + 1);
        if (to > from + 1) /* no line ends behind the dash */
            buffer_printf(&text, "\u2013\u2060%zu", to);
    }
    *told = buffer_string(&text);
    return runs <= RUNS;
}

/* Was the seam told with one before it? */
static bool told_before(const struct exploded_seam *order, size_t seam)
{
    for (size_t i = 0; i < seam; i++)
        if (same_way(&order[i], &order[seam]))
            return true;
    return false;
}

/* Seams by their number. ensures: how many there are. */
static size_t seams_by_number(const struct exploded *e,
                              struct exploded_seam *order)
{
    size_t seams = 0;
    for (size_t i = 0; i < e->seams.count; i++) {
        order[e->seams.items[i].number - 1] = e->seams.items[i];
        if (e->seams.items[i].number > seams)
            seams = e->seams.items[i].number;
    }
    return seams;
}

/* "Press all seams right." Open seams have sentences of their own, as German
 * writes their verb as one word. */
static const char *one_way_words(const struct wording *w,
                                 const struct exploded_seam *seam, size_t seams)
{
    const bool open = seam->x == 0 && seam->y == 0;
    if (open)
        return say(w->arena, w->phrases,
                   seams == 1 ? "press.the-seam-open" : "press.every-open",
                   NULL);
    return say(w->arena, w->phrases,
               seams == 1 ? "press.the-seam" : "press.every", "way",
               say(w->arena, w->phrases, way_key(seam), NULL), NULL);
}

/* "Press seams 1\u20132, 5\u20136 right; 3\u20134 left." Where there are too
 * many ways to be told, the arrows say it. */
static const char *press_words(const struct joined *joined)
{
    const struct wording *w = joined->sewing->w;
    const struct exploded *e = joined->exploded;
    if (turns_against(w->arena, e))
        return say(w->arena, w->phrases, "step.press-arrows", NULL);
    struct exploded_seam *order =
        ARENA_ARRAY(w->arena, struct exploded_seam, e->seams.count + 1);
    const size_t seams = seams_by_number(e, order);
    struct buffer text = buffer_in(w->arena);
    size_t ways = 0;
    for (size_t i = 0; i < seams; i++) {
        if (told_before(order, i))
            continue;
        const char *numbers;
        if (!seams_alike(w->arena, order, seams, i, &numbers))
            return many_ways(joined);
        buffer_printf(
            &text, "%s%s", ways++ > 0 ? "; " : "",
            say(w->arena, w->phrases, "press.group", "seams", numbers, "way",
                say(w->arena, w->phrases, way_key(&order[i]), NULL), NULL));
    }
    if (ways > 1)
        return say(w->arena, w->phrases, "press.all", "ways",
                   buffer_string(&text), NULL);
    return seams == 0 ? "" : one_way_words(w, &order[0], seams);
}

/* How seams are pressed, and the size by which a sewer sees that all is well.
 */
static const char *sewn_words(const struct joined *joined)
{
    const struct wording *w = joined->sewing->w;
    return word_then(w, press_words(joined),
                     word_measure(w, joined->sewing->heap));
}

/* ---- frames ---- */

void add_join_frames(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    struct exploded *exploded = ARENA_NEW(w->arena, struct exploded);
    *exploded = explode(w->arena, w->quilt, sewing->step);
    const struct joined joined = {sewing, exploded};
    *LIST_ADD(w->arena, &sewing->work->frames) = (struct told_figure){
        .drawing = DRAWING_APART,
        .heap = sewing->step->heap,
        .exploded = exploded,
        .caption = word_then(w, laid_words(&joined), checkpoint(sewing)),
        .told = say(w->arena, w->phrases, "caption.lay", NULL)};
    *LIST_ADD(w->arena, &sewing->work->frames) =
        (struct told_figure){.drawing = DRAWING_JOINED,
                             .heap = sewing->step->heap,
                             .exploded = exploded,
                             .caption = sewn_words(&joined),
                             .told = result_told(sewing),
                             .result = true};
}
