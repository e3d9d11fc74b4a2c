/* May assume room of DIMENSION_SPACE beside the outline. Read next: scale.c. */
#include "dimension.h"

/* From the outline to the line, from there on, half a tick. */
static const double off = MM(2.6), gap = MM(0.6), beyond = MM(1.0),
                    tick = MM(0.9);

void draw_dimension(const struct canvas *canvas, struct box *box, double x,
                    double y, double length, bool down, const char *text)
{
    const struct path_item fine = {.stroke = LINE_FINE, .stroke_color = grey};
    const double dx = down ? 0.0 : length, dy = down ? length : 0.0;
    const double left = down ? off : 0.0, up = down ? 0.0 : off;
    box_stroke(canvas, box, x - left, y - up, x - left + dx, y - up + dy, fine);
    for (int end = 0; end < 2; end++) {
        const double ex = x + end * dx, ey = y + end * dy;
        box_stroke(canvas, box, ex - (down ? gap : 0.0),
                   ey - (down ? 0.0 : gap), ex - left - (down ? beyond : 0.0),
                   ey - up - (down ? 0.0 : beyond), fine);
        box_stroke(canvas, box, ex - left - tick, ey - up + tick,
                   ex - left + tick, ey - up - tick, fine);
    }
    struct text_style style = style_size();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    /* Words that are wider than the line stand above its ends. */
    const double clear =
        off + extent.height + 1.0 + (extent.width > length ? beyond : 0.0);
    box_label(canvas, box, x + dx / 2.0 - (down ? clear : 0.0),
              y + dy / 2.0 - (down ? 0.0 : clear), text, style,
              down ? -90.0 : 0.0, false);
}
