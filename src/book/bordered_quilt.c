/* The finished top with its borders named from the inside, as they are sewn.
 * Read next: overview.h. */
#include <math.h>

#include "overview.h"

/* Lines of names below the quilt, the inner border's first and farthest left,
 * so that no leader crosses another. */
struct box *bordered_quilt(const struct booklet *booklet,
                           const char *const *names, double width,
                           double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct sewn_quilt *quilt = booklet->quilt;
    const size_t count = quilt->borders.count;
    const double line = MM(4.0), step = MM(6.6);
    const double below = count > 0 ? SPACE_HALF + line * (double)count : 0.0;
    const struct box *top = figure_cloth(canvas, booklet->plan->colorway,
                                         quilt->cloth, width, height - below);
    const double scale = top->height / rational_double(quilt->height);
    const double left = width - top->width;
    struct box *box = box_new(canvas, width, top->height + below);
    box_put(canvas, box, top, left, 0.0);
    double outside = 0.0;
    for (size_t i = count; i-- > 0;) {
        const double wide =
            rational_double(quilt->borders.items[i].border->width) * scale;
        const double x = width - outside - wide - SPACE_HALF -
                         step * (double)(count - 1 - i);
        const double y = top->height + SPACE_HALF + line * ((double)i + 0.5);
        struct text_style style = style_figure();
        style.align = ALIGN_RIGHT;
        const struct point points[3] = {
            {x - 3.0, y}, {x, y}, {x, top->height - outside - wide / 2.0}};
        draw_leader(canvas, box, points, 3);
        box_label(canvas, box, x - 5.0, y - 4.9,
                  box_fitted(canvas, names[i], style, x - 5.0), style, 0.0,
                  false);
        outside += wide;
    }
    return box;
}
