/* Sheets and rests, one layer, each strip with its letter; and how cloth is
 * folded before any of it is cut. Read next: cutting.c. */
#include <math.h>

#include "cutting_cloth.h"
#include "told_cutting.h"
#include "figure_parts.h"

/* ---- sheets and rests ---- */

/* A strip of a sheet as if it ran across; one that runs down is that on its
 * side. */
static struct lying strip_lying(const struct lying *lying,
                                const struct sheet *sheet,
                                struct rational offset)
{
    struct lying turned = *lying;
    turned.on_side = lying->on_side != sheet->down;
    const double shift = rational_double(offset) * lying->scale;
    turned.x += turned.on_side ? shift : 0.0;
    turned.y += turned.on_side ? 0.0 : shift;
    return turned;
}

/* Its pieces and what it leaves, or the lines that cut them apart. */
static void draw_sheet_cells(const struct lying *turned,
                             const struct strip *strip, struct rational length,
                             bool lines)
{
    struct rational x = rational_whole(0);
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct strip_cut *cut = &strip->cuts.items[i];
        for (size_t n = 0; n < cut->count; n++) {
            struct placed_piece piece = {.item = cut->item,
                                         .x = x,
                                         .y = rational_whole(0),
                                         .width = cut->along,
                                         .height = cut->across};
            for (size_t k = 0; k < cut->stack; k++) {
                if (lines)
                    cut_piece(turned, &piece, strip->height, length);
                else if (k + 1 < cut->stack)
                    draw_piece(turned, &piece);
                else
                    draw_segment(turned, &piece, strip->height);
                piece.y = rational_add(piece.y, cut->across);
            }
            x = rational_add(x, cut->along);
        }
    }
    const struct rational left = rational_sub(length, x);
    if (!lines)
        draw_leftover(
            turned, frame_at(turned, x, rational_whole(0), left, strip->height),
            left, strip->height);
}

/* The cut that takes the strip off, and its letter. */
static void draw_strip_cut(const struct lying *turned,
                           const struct strip *strip, struct rational length,
                           const char *letter)
{
    const struct frame all = frame_at(turned, rational_whole(0),
                                      rational_whole(0), length, strip->height);
    struct text_style style = style_bold();
    style.align = turned->on_side ? ALIGN_CENTER : ALIGN_LEFT;
    if (turned->on_side) {
        red_line(turned, all.x + all.width, all.y, all.x + all.width,
                 all.y + all.height);
        box_label(canvas_of(turned), turned->box, all.x + all.width / 2.0,
                  all.y - 12.0, letter, style, 0.0, false);
    } else {
        red_line(turned, all.x, all.y + all.height, all.x + all.width,
                 all.y + all.height);
        box_label(canvas_of(turned), turned->box, all.x - 11.0,
                  all.y + all.height / 2.0 - 6.0, letter, style, 0.0, false);
    }
}

/* Strips follow one another; like ones share their letter. First all cloth,
 * then all cuts. ensures: where the last one ends. */
static struct rational draw_sheet_strips(const struct lying *lying,
                                         const struct sheet *sheet)
{
    struct arena *arena = canvas_of(lying)->arena;
    const struct rational length = sheet->down ? sheet->height : sheet->width;
    struct rational offset = rational_whole(0);
    for (int lines = 0; lines < 2; lines++) {
        offset = rational_whole(0);
        for (size_t i = 0; i < sheet->strips.count; i++)
            for (size_t n = 0; n < sheet->strips.items[i].repeat; n++) {
                const struct strip *strip = &sheet->strips.items[i];
                const struct lying turned = strip_lying(lying, sheet, offset);
                draw_sheet_cells(&turned, strip, length, lines == 1);
                if (lines == 1)
                    draw_strip_cut(&turned, strip, length,
                                   strip_letter(arena, i));
                offset = rational_add(offset, strip->height);
            }
    }
    return offset;
}

/* Cloth behind the strips that would be drawn far beyond them is broken off: a
 * torn edge says that it goes on. */
static void draw_torn(const struct lying *lying, double width, double y)
{
    enum { TEETH = 12 };
    const struct canvas *canvas = canvas_of(lying);
    struct point points[2 * TEETH + 3];
    size_t n = 0;
    for (int i = 0; i <= 2 * TEETH; i++)
        points[n++] = (struct point){lying->x + width * i / (2.0 * TEETH),
                                     y + (i % 2 == 0 ? 0.0 : -4.0)};
    points[n++] = (struct point){lying->x + width + 1.0, y + 6.0};
    points[n++] = (struct point){lying->x - 1.0, y + 6.0};
    box_polygon(canvas, lying->box, points, n,
                (struct path_item){.filled = true, .fill = white});
    for (size_t i = 0; i + 1 < n - 2; i++)
        box_stroke(canvas, lying->box, points[i].x, points[i].y,
                   points[i + 1].x, points[i + 1].y, outline_narrow());
}

/* What lies behind the last strip, and the outline; `high` is how far down the
 * page is drawn. */
static void draw_sheet_rest(const struct lying *lying,
                            const struct sheet *sheet, struct rational used,
                            double wide, double high, bool torn)
{
    const struct rational zero = rational_whole(0);
    const struct rational left =
        rational_sub(sheet->down ? sheet->width : sheet->height, used);
    struct frame at = sheet->down
                          ? frame_at(lying, used, zero, left, sheet->height)
                          : frame_at(lying, zero, used, sheet->width, left);
    if (torn)
        at.height = lying->y + high - at.y;
    draw_leftover(lying, at, sheet->down ? left : sheet->width,
                  sheet->down ? sheet->height : left);
    draw_outline(lying, wide, high);
    if (torn)
        draw_torn(lying, wide, lying->y + high);
}

struct box *draw_sheet(const struct cloth_view *view, const struct sheet *sheet)
{
    enum { KEPT = 40 };
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const bool on_side = sheet->kind == SHEET_REST &&
                         rational_compare(sheet->height, sheet->width) > 0;
    /* Letters stand above strips that run down the page. */
    const bool above = on_side != sheet->down;
    const double left =
        (above ? 0.0 : LETTERS) + (one_way(view) && !on_side ? ARROW : 0.0);
    const double top =
        (above ? LETTERS : 2.0) + (one_way(view) && on_side ? ARROW : 0.0);
    const double across =
        rational_double(on_side ? sheet->height : sheet->width);
    const double down = rational_double(on_side ? sheet->width : sheet->height);
    /* Small rests at the scale of folded strips. */
    const double scale =
        fmin(fmin((view->width - left) / across,
                  flow_page_height(&view->booklet->flow) * 0.5 / down),
             2.0 * flow_column(&view->booklet->flow).width /
                 rational_double(view->plan->bolt->width));
    const double used = rational_double(sheet->used) * scale;
    const bool torn = !above && down * scale > used + KEPT + 10.0;
    const double high = torn ? used + KEPT : down * scale;
    const struct lying lying = {
        view,  box_new(canvas, view->width, high + top + 4.0),
        left,  top,
        scale, on_side};
    draw_sheet_rest(&lying, sheet, sheet->used, across * scale, high, torn);
    draw_sheet_strips(&lying, sheet);
    draw_outline(&lying, across * scale, torn ? used : high);
    draw_way(&lying, high);
    return lying.box;
}

/* ---- how cloth is folded ---- */

/* Not to scale: no cloth of the pattern, but how any lies. */
struct box *draw_fold(struct booklet *booklet)
{
    enum { WIDTH = 92, HEIGHT = 46, SIDE = 13, CUT = 10 };
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    struct box *box = box_new(canvas, WIDTH + 2.0 * SIDE + 8.0, HEIGHT + 12.0);
    const double x = SIDE, y = 8.0;
    struct path_item cloth = outline_narrow();
    cloth.filled = true;
    cloth.fill = mixed(pale, grey, 0.5);
    box_rectangle(canvas, box, x + FOLD, y - FOLD, WIDTH, HEIGHT, cloth);
    cloth.fill = pale;
    cloth.stroke = outline_wide().stroke;
    box_rectangle(canvas, box, x, y, WIDTH, HEIGHT, cloth);
    struct path_item fold = outline_wide();
    fold.stroke *= 2.0;
    box_stroke(canvas, box, x + WIDTH, y, x + WIDTH, y + HEIGHT, fold);
    const struct path_item cut = {
        .stroke = LINE_MIDDLE, .stroke_color = action_red, .role = ROLE_MARK};
    box_stroke(canvas, box, x - 1.0, y + CUT + 8.0, x + WIDTH + 8.0,
               y + CUT + 8.0, cut);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    box_label(canvas, box, x + WIDTH / 2.0, y + 3.0,
              say(w->arena, w->phrases, "cutting.one-strip", NULL), style, 0.0,
              false);
    box_label(canvas, box, 1.0, y + HEIGHT / 2.0 + 4.0,
              say(w->arena, w->phrases, "cutting.selvage", NULL), style, -90.0,
              false);
    box_label(canvas, box, x + WIDTH + FOLD + 2.0, y + HEIGHT / 2.0 + 6.0,
              say(w->arena, w->phrases, "cutting.fold", NULL), style, -90.0,
              false);
    return box;
}
