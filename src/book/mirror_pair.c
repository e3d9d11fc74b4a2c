/* A unit and its mirror image side by side, so that the two heaps are not mixed
 * up: both as they are sewn, at one scale, each with its name. Stands in the
 * later of the two steps. Lengths are points. */
#include "mirror_pair.h"

#include <math.h>

/* Room for each of the two; a unit of length is never larger than in steps. */
static const double most_wide = 132.0, most_high = 44.0, most_scale = 24.0;

/* The heap that is the mirror image of a named one, of the same size. A unit of
 * several sizes has one for each, so the factor must agree. */
static const struct heap *partner_of(const struct booklet *booklet,
                                     const struct heap *heap)
{
    const struct sewn_quilt *quilt = booklet->quilt;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *other = &quilt->heaps.items[i];
        if (heap->named != NULL && other->named == heap->named &&
            other->named_mirror != heap->named_mirror && other->step > 0 &&
            rational_compare(other->factor, heap->factor) == 0)
            return other;
    }
    return NULL;
}

/* The cloth as one thing: nothing marked, nothing apart. */
static struct state whole_state(struct arena *arena, const struct cloth *cloth)
{
    struct state state = {0};
    for (size_t i = 0; i < cloth->faces.count; i++)
        *LIST_ADD(arena, &state.faces) =
            (struct shown_face){cloth->faces.items[i], WHOLE, 0, 0};
    return state;
}

/* Both get the smaller of their scales: they must differ by nothing but the
 * mirror. */
static double fitting(const struct figure_size size)
{
    return fmin(most_scale,
                fmin(most_wide / size.width, most_high / size.height));
}

/* A name wraps, as units may have long ones. */
static struct box *named_figure(const struct figure *figure,
                                const struct state *state, const char *name)
{
    const struct canvas *canvas = figure->canvas;
    struct text_style style = style_small();
    style.align = ALIGN_CENTER;
    style.color = ink;
    const struct box *drawn = figure_state(figure, state);
    const struct box *text = box_text(canvas, name, style, most_wide);
    struct box *box =
        box_new(canvas, most_wide, drawn->height + 6.0 + text->height);
    box_tag(canvas, box, "Figure", name);
    box_put(canvas, box, drawn, (most_wide - drawn->width) / 2.0, 2.0);
    box_tag_end(canvas, box, "Figure");
    box_put(canvas, box, text, 0.0, drawn->height + 6.0);
    return box;
}

/* The earlier of the two stands on the left, as its heap lies there already. */
struct box *mirror_pair(const struct booklet *booklet, const struct heap *heap)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct heap *other = partner_of(booklet, heap);
    if (other == NULL || other->step > heap->step)
        return NULL;
    const struct heap *const both[2] = {other, heap};
    struct state states[2];
    struct figure figure = {.canvas = canvas,
                            .wording = w,
                            .colorway = booklet->plan->colorway,
                            .scale = 1.0};
    for (int i = 0; i < 2; i++)
        states[i] = whole_state(canvas->arena, both[i]->cloth);
    figure.scale = fmin(fitting(figure_size(&figure, &states[0])),
                        fitting(figure_size(&figure, &states[1])));
    struct box *parts[3];
    parts[0] = box_text(canvas, say(w->arena, w->phrases, "step.mirror", NULL),
                        style_body(), canvas->width - 2.0 * most_wide - 40.0);
    for (int i = 0; i < 2; i++)
        parts[i + 1] = named_figure(
            &figure, &states[i],
            word_heap(w, (size_t)(both[i] - booklet->quilt->heaps.items)));
    return box_row(canvas, parts, 3, 20.0);
}
