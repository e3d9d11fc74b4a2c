/* The strip above pictures of cover and back: no decoration from elsewhere, but
 * what the reader will sew first. Read next: cover_picture.c. */
#include <math.h>

#include "cover_picture.h"
#include "overview.h"
#include "told_step.h"

/* The first thing that is sewn and is not the quilt itself, finished; NULL
 * where there is none. */
static const struct cloth *first_unit(const struct booklet *booklet)
{
    const struct sewn_quilt *quilt = booklet->quilt;
    const struct told_steps steps = tell_steps(&booklet->wording);
    for (size_t i = 0; i < steps.items.count; i++) {
        const size_t index = steps.items.items[i].heap;
        const struct heap *heap = &quilt->heaps.items[index];
        if (index != quilt->top && heap->technique != TECHNIQUE_BORDER)
            return finished_cloth(booklet->wording.arena, heap->cloth);
    }
    return NULL;
}

/* A square of each cloth, for a quilt without units. */
static struct box *squares(const struct booklet *booklet, double width,
                           double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const size_t fabrics = booklet->design->fabrics.count;
    const size_t count = (size_t)fmax(1.0, round(width / height));
    const double side = width / (double)count;
    struct box *box = box_new(canvas, width, side);
    for (size_t i = 0; i < count && fabrics > 0; i++) {
        struct path_item fill =
            face_fill(canvas, booklet->plan->colorway, (int)(i % fabrics),
                      false, SHADE_DONE);
        fill.stroke_color = fill.fill;
        box_rectangle(canvas, box, (double)i * side, 0.0, side, side, fill);
    }
    return box;
}

/* One that is higher than wide lies on its side, as a row of it would be a
 * fence. */
struct box *ornament(const struct booklet *booklet, double width, double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct cloth *cloth = first_unit(booklet);
    if (cloth == NULL)
        return squares(booklet, width, height);
    const double across = rational_double(cloth->width);
    const double down = rational_double(cloth->height);
    const bool lies = down > 1.3 * across;
    const double shape = lies ? down / across : across / down;
    const double count = fmax(round(width / (height * shape)), 1.0);
    /* One that is far wider than high would be a wall. */
    const double tall = fmin(width / count / shape, 1.6 * height);
    const double scale = tall / (lies ? across : down);
    struct box *unit = box_new(canvas, tall * shape, tall);
    draw_cloth(booklet, unit, cloth, lies ? 1 : 0, 0.0, 0.0, scale);
    /* Without the line around it: the units are one strip. */
    unit->items.count--;
    for (size_t i = 0; i < unit->items.count; i++)
        unit->items.items[i].as.path.stroke_color =
            unit->items.items[i].as.path.fill;
    struct box *box = box_new(canvas, width, unit->height);
    const double left = (width - unit->width * count) / 2.0;
    for (double i = 0.0; i < count; i += 1.0)
        box_put(canvas, box, unit, left + i * unit->width, 0.0);
    return box;
}
