/* Strips and sheets as they lie on the mat, to scale: folded as they are cut,
 * opened where they are opened. Pale cloth, and red for what hands do. Every
 * piece is drawn where the plan places it (cut/place.c); what is left over is
 * hatched and measured. Doubles are enough for drawing; every number that is
 * printed comes from the plan. Read next: cutting.c. */
#include <math.h>

#include "cutting.h"
#include "cutting_words.h"
#include "figure_parts.h"

/* A rectangle on the page. */
struct frame {
    double x, y, width, height;
};

/* Cloth on the page: where it lies, points for one unit of length, and whether
 * the cloth's length runs from left to right. */
struct lying {
    const struct cloth_view *view;
    struct box *box;
    double x, y, scale;
    bool on_side;
};

static const struct color red = {0.74, 0.08, 0.08};

/* Room for what stands beside and below cloth. */
enum { FOLD = 4, POSITIONS = 12, LETTERS = 14, ARROW = 12 };

static const struct canvas *canvas_of(const struct lying *lying)
{
    return &lying->view->booklet->flow.canvas;
}

/* A quarter as strong as the cloth, so that red lines and labels show on it. */
static struct path_item pale_cloth(const struct cloth_view *view)
{
    struct path_item fill =
        face_fill(view->booklet->plan->colorway, view->plan->fabric, false);
    fill.fill = mixed(fill.fill, white, 0.76);
    fill.hatch.spacing = 0.0;
    return fill;
}

/* Small enough for cloth, large enough for text: labels go only where they fit;
 * the words above the drawing name all cuts anyway. A label that lies on its
 * side tells that its piece does. */
static void label_frame(const struct lying *lying, struct frame at,
                        const char *text, bool upright)
{
    const struct canvas *canvas = canvas_of(lying);
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const double across = upright ? at.width : at.height;
    const double along = upright ? at.height : at.width;
    /* Narrow pieces get the least size that is still read on paper. */
    struct text_extent extent =
        typeset_measure(canvas->typeset, text, style, 0.0);
    if (across <= extent.width + 4.0) {
        style.size = 7.0;
        extent = typeset_measure(canvas->typeset, text, style, 0.0);
    }
    if (across <= extent.width + 1.5 || along < extent.height)
        return;
    const double x = at.x + at.width / 2.0, y = at.y + at.height / 2.0;
    if (upright)
        box_label(canvas, lying->box, x, y - extent.height / 2.0, text, style,
                  0.0, false);
    else
        box_label(canvas, lying->box, x + extent.height / 2.0, y, text, style,
                  90.0, false);
}

static void red_line(const struct lying *lying, double x1, double y1, double x2,
                     double y2)
{
    const struct path_item line = {
        .stroke = 1.417, .stroke_color = red, .role = ROLE_MARK};
    box_stroke(canvas_of(lying), lying->box, x1, y1, x2, y2, line);
}

/* From the cloth to the page. Each place becomes a point by itself, so that
 * rounding does not add up along a strip. */
static struct frame frame_at(const struct lying *lying, struct rational x,
                             struct rational y, struct rational width,
                             struct rational height)
{
    const double s = lying->scale;
    const double left = rational_double(x) * s, top = rational_double(y) * s;
    const double across = rational_double(width) * s;
    const double down = rational_double(height) * s;
    return lying->on_side
               ? (struct frame){lying->x + top, lying->y + left, down, across}
               : (struct frame){lying->x + left, lying->y + top, across, down};
}

/* Cloth that is left over, hatched, with its size where that fits. Half a point
 * is a rounding of drawing, not cloth. */
static void draw_leftover(const struct lying *lying, struct frame at,
                          struct rational width, struct rational height)
{
    if (at.width < 0.5 || at.height < 0.5)
        return;
    struct path_item waste = waste_fill();
    waste.stroke = 0.0;
    box_rectangle(canvas_of(lying), lying->box, at.x, at.y, at.width, at.height,
                  waste);
    const char *size = word_size(&lying->view->booklet->wording, width, height);
    struct text_style style = style_figure();
    const struct text_extent extent =
        typeset_measure(canvas_of(lying)->typeset, size, style, 0.0);
    if (at.width < extent.width + 8.0 || at.height < extent.height)
        return;
    style.align = ALIGN_CENTER;
    box_label(canvas_of(lying), lying->box, at.x + at.width / 2.0,
              at.y + (at.height - extent.height) / 2.0, size, style, 0.0, true);
}

/* A piece, its cloth and its label. */
static void draw_piece(const struct lying *lying,
                       const struct placed_piece *piece)
{
    const struct fabric_plan *plan = lying->view->plan;
    const struct cut_item *item = &plan->items.items[piece->item];
    const struct frame at =
        frame_at(lying, piece->x, piece->y, piece->width, piece->height);
    struct path_item fill = pale_cloth(lying->view);
    fill.stroke = 0.0;
    box_rectangle(canvas_of(lying), lying->box, at.x, at.y, at.width, at.height,
                  fill);
    label_frame(lying, at, tell_label(&lying->view->booklet->wording, item),
                rational_equal(piece->width, item->width) != lying->on_side);
}

/* A piece, and what its strip leaves above it. */
static void draw_segment(const struct lying *lying,
                         const struct placed_piece *piece,
                         struct rational height)
{
    const struct rational top = rational_add(piece->y, piece->height);
    const struct rational left = rational_sub(height, top);
    draw_piece(lying, piece);
    draw_leftover(lying, frame_at(lying, piece->x, top, piece->width, left),
                  piece->width, left);
}

/* Cuts around a piece that do not come with the edge of its strip: behind it,
 * and above it where the strip is higher. */
static void cut_piece(const struct lying *lying,
                      const struct placed_piece *piece, struct rational height,
                      struct rational end)
{
    const struct frame at =
        frame_at(lying, piece->x, piece->y, piece->width, piece->height);
    const struct rational top = rational_add(piece->y, piece->height);
    const struct rational far = rational_add(piece->x, piece->width);
    if (rational_compare(top, height) < 0 && !lying->on_side)
        red_line(lying, at.x, at.y + at.height, at.x + at.width,
                 at.y + at.height);
    if (rational_compare(top, height) < 0 && lying->on_side)
        red_line(lying, at.x + at.width, at.y, at.x + at.width,
                 at.y + at.height);
    /* Across all of the strip: that cut comes first. */
    const struct frame all = frame_at(lying, piece->x, piece->y, piece->width,
                                      rational_sub(height, piece->y));
    if (rational_compare(far, end) < 0 && !lying->on_side)
        red_line(lying, all.x + all.width, all.y, all.x + all.width,
                 all.y + all.height);
    if (rational_compare(far, end) < 0 && lying->on_side)
        red_line(lying, all.x, all.y + all.height, all.x + all.width,
                 all.y + all.height);
}

/* ---- strips across the cloth ---- */

/* Where the ruler stands at each cut, as far as there is room: the first, the
 * last, and what fits between. */
static void draw_positions(const struct lying *lying, double y,
                           const struct rational *positions, size_t count)
{
    const struct canvas *canvas = canvas_of(lying);
    const struct wording *w = &lying->view->booklet->wording;
    struct text_style style = style_figure();
    style.size = 7.0;
    style.align = ALIGN_CENTER;
    style.color = red;
    double free_from = -1e9, last_from = 1e9;
    for (size_t n = 0; n < count; n++) {
        /* The last one first, so that it always has its place. */
        const size_t i = n == 0 ? count - 1 : n - 1;
        const char *text = word_length(w, positions[i]);
        const double x =
            lying->x + rational_double(positions[i]) * lying->scale;
        const double half =
            typeset_measure(canvas->typeset, text, style, 0.0).width / 2.0;
        if (x - half < free_from || (n > 0 && x + half > last_from))
            continue;
        if (n == 0)
            last_from = x - half - 3.0;
        else
            free_from = x + half + 3.0;
        box_label(canvas, lying->box, x, y, text, style, 0.0, false);
    }
}

/* Of a list of cuts: the ruler's places, as many as there are cuts. */
static struct rational *positions_of(struct arena *arena,
                                     const struct strip_cut *cuts, size_t count,
                                     size_t *places)
{
    *places = 0;
    for (size_t i = 0; i < count; i++)
        *places += cuts[i].count;
    struct rational *positions =
        ARENA_ARRAY(arena, struct rational, *places + 1);
    struct rational at = rational_whole(0);
    size_t n = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < cuts[i].count; k++)
            positions[n++] = at = rational_add(at, cuts[i].along);
    return positions;
}

/* Cells of one layer from x = 0: pieces and what stays above them, then red
 * lines over all. */
static struct rational draw_cells(const struct lying *lying,
                                  const struct strip *strip,
                                  const struct strip_cut *cuts, size_t count,
                                  struct rational end)
{
    struct rational x = rational_whole(0);
    for (int lines = 0; lines < 2; lines++) {
        x = rational_whole(0);
        for (size_t i = 0; i < count; i++)
            for (size_t k = 0; k < cuts[i].count; k++) {
                const struct placed_piece piece = {.item = cuts[i].item,
                                                   .x = x,
                                                   .y = rational_whole(0),
                                                   .width = cuts[i].along,
                                                   .height = cuts[i].across};
                if (lines == 0)
                    draw_segment(lying, &piece, strip->height);
                else
                    cut_piece(lying, &piece, strip->height, end);
                x = rational_add(x, cuts[i].along);
            }
    }
    return x;
}

/* The lower layer shows at the edges; both end in the fold. */
static void draw_layers(const struct lying *lying, double width, double height)
{
    const struct canvas *canvas = canvas_of(lying);
    struct path_item lower = pale_cloth(lying->view);
    lower.fill = mixed(lower.fill, ink, 0.25);
    lower.stroke = 0.709;
    lower.stroke_color = ink;
    const struct point back[4] = {
        {lying->x + FOLD, lying->y - FOLD},
        {lying->x + width + FOLD, lying->y - FOLD},
        {lying->x + width + FOLD, lying->y + height - FOLD},
        {lying->x + FOLD, lying->y + height - FOLD}};
    box_polygon(canvas, lying->box, back, 4, lower);
    struct path_item upper = pale_cloth(lying->view);
    upper.stroke = 0.0;
    box_rectangle(canvas, lying->box, lying->x, lying->y, width, height, upper);
}

/* Over the cells. */
static void draw_outline(const struct lying *lying, double width, double height)
{
    const struct canvas *canvas = canvas_of(lying);
    box_rectangle(canvas, lying->box, lying->x, lying->y, width, height,
                  outline_wide());
}

/* The way of a one-way print, left of the cloth that it is drawn on. */
static void draw_way(const struct lying *lying, double height)
{
    const struct cloth_view *view = lying->view;
    if (!view->booklet->design->fabrics.items[view->plan->fabric].one_way)
        return;
    if (lying->on_side)
        draw_arrow(canvas_of(lying), lying->box, lying->x + 22.0,
                   lying->y - 5.0, lying->x + 4.0, lying->y - 5.0);
    else
        draw_arrow(canvas_of(lying), lying->box, lying->x - 6.0,
                   lying->y + fmin(height, 22.0), lying->x - 6.0, lying->y);
}

static bool one_way(const struct cloth_view *view)
{
    return view->booklet->design->fabrics.items[view->plan->fabric].one_way;
}

struct box *draw_folded_strip(const struct cloth_view *view,
                              const struct strip *strip)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct strip_work work =
        fold_strip(canvas->arena, view->plan, strip, false);
    const bool whole = is_whole_strip(view->plan, strip);
    if (work.pairs.count == 0 && !whole)
        return NULL;
    const double left = one_way(view) ? ARROW : 0.0;
    const double length = view->width - left - FOLD - 1.0;
    const double scale =
        2.0 * length / rational_double(view->plan->strip_length);
    const double height = rational_double(strip->height) * scale;
    struct lying lying = {
        view,
        box_new(canvas, view->width, height + FOLD + (whole ? 2.0 : POSITIONS)),
        left,
        FOLD,
        scale,
        false};
    draw_layers(&lying, length, height);
    const struct rational half =
        rational_div(view->plan->strip_length, rational_whole(2));
    if (whole) {
        label_frame(
            &lying, (struct frame){left, FOLD, length, height},
            tell_label(&view->booklet->wording,
                       &view->plan->items.items[strip->cuts.items[0].item]),
            true);
    } else {
        const struct rational x =
            draw_cells(&lying, strip, work.pairs.items, work.pairs.count, half);
        if (work.singles.count == 0)
            draw_leftover(&lying,
                          frame_at(&lying, x, rational_whole(0),
                                   rational_sub(half, x), strip->height),
                          rational_times(rational_sub(half, x), 2),
                          strip->height);
        size_t places;
        const struct rational *positions = positions_of(
            canvas->arena, work.pairs.items, work.pairs.count, &places);
        draw_positions(&lying, FOLD + height + 1.5, positions, places);
    }
    draw_outline(&lying, length, height);
    draw_way(&lying, height);
    return lying.box;
}

/* In the middle, from above the cloth to below it; where a cut lies in it, it
 * is seen outside only. */
static void draw_crease(const struct lying *lying, double length, double height,
                        const struct rational *positions, size_t count)
{
    const struct canvas *canvas = canvas_of(lying);
    const double x = lying->x + length / 2.0;
    const struct path_item crease = mark_style(MARK_FOLD);
    /* What is left behind the last cut bears its size there. */
    bool cut =
        count > 0 &&
        rational_double(positions[count - 1]) * lying->scale < length / 2.0;
    for (size_t i = 0; i < count; i++)
        cut |= fabs(rational_double(positions[i]) * lying->scale -
                    length / 2.0) < 2.0;
    if (!cut) {
        box_stroke(canvas, lying->box, x, lying->y - 3.0, x,
                   lying->y + height + 3.0, crease);
        return;
    }
    box_stroke(canvas, lying->box, x, lying->y - 4.0, x, lying->y - 0.8,
               crease);
    box_stroke(canvas, lying->box, x, lying->y + height + 0.8, x,
               lying->y + height + 3.0, crease);
}

struct box *draw_opened_strip(const struct cloth_view *view,
                              const struct strip *strip)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct strip_work work =
        fold_strip(canvas->arena, view->plan, strip, false);
    if (work.singles.count == 0 || is_whole_strip(view->plan, strip))
        return NULL;
    const double left = one_way(view) ? ARROW : 0.0;
    const double room = view->width - left - FOLD - 1.0;
    /* At the scale of the folded strip, or smaller where it is longer. */
    const double scale =
        fmin(2.0 * room / rational_double(view->plan->strip_length),
             room / rational_double(work.opened));
    const double length = rational_double(work.opened) * scale;
    const double height = rational_double(strip->height) * scale;
    const struct lying lying = {
        view,  box_new(canvas, view->width, height + 4.0 + POSITIONS),
        left,  4.0,
        scale, false};
    struct path_item cloth = pale_cloth(view);
    cloth.stroke = 0.0;
    box_rectangle(canvas, lying.box, left, 4.0, length, height, cloth);
    const struct rational x = draw_cells(&lying, strip, work.singles.items,
                                         work.singles.count, work.opened);
    draw_leftover(&lying,
                  frame_at(&lying, x, rational_whole(0),
                           rational_sub(work.opened, x), strip->height),
                  rational_sub(work.opened, x), strip->height);
    draw_outline(&lying, length, height);
    size_t places;
    const struct rational *positions = positions_of(
        canvas->arena, work.singles.items, work.singles.count, &places);
    draw_crease(&lying, length, height, positions, places);
    draw_positions(&lying, height + 5.5, positions, places);
    draw_way(&lying, height);
    return lying.box;
}

/* ---- lengthwise cloth ---- */

/* "rest 1, rest 2": those that something is cut from. */
static const char *names_of_rests(const struct cloth_view *view,
                                  const struct sheet *sheet, bool foot,
                                  struct rational width, struct rational height)
{
    const struct wording *w = &view->booklet->wording;
    const char *names = "";
    for (size_t i = 0; i < view->plan->sheets.count; i++) {
        const struct sheet *rest = &view->plan->sheets.items[i];
        if (rest->foot != foot || !is_rest_of(rest, sheet) ||
            !rational_equal(rest->width, width) ||
            !rational_equal(rest->height, height))
            continue;
        const char *name =
            say(w->arena, w->phrases, "cutting.rest-name", "number",
                say_count(w->arena, rest_number(view->plan, rest)), NULL);
        names = names[0] == '\0'
                    ? name
                    : arena_printf(w->arena, "%s, %s", names, name);
    }
    return names;
}

/* A piece, and its foot: a rest to keep, or left over. */
static void draw_long_piece(const struct lying *lying,
                            const struct placed_piece *piece,
                            const struct sheet *sheet)
{
    const struct rational foot = rational_sub(sheet->height, piece->height);
    const char *name =
        names_of_rests(lying->view, sheet, true, piece->width, foot);
    if (name[0] == '\0') {
        draw_segment(lying, piece, sheet->height);
        return;
    }
    draw_piece(lying, piece);
    label_frame(lying,
                frame_at(lying, piece->x, piece->height, piece->width, foot),
                name, true);
}

/* Folded, so that half of its width is seen: selvages above, the fold below. */
struct box *draw_lengthwise(const struct cloth_view *view,
                            const struct sheet *sheet)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct strip_work work = fold_sheet(canvas->arena, view->plan, sheet);
    const double scale = view->width / rational_double(sheet->height);
    const struct rational half = rational_div(sheet->width, rational_whole(2));
    const struct rational deep = work.singles.count > 0 ? sheet->width : half;
    const double top = one_way(view) ? ARROW : 2.0;
    const double depth = rational_double(deep) * scale;
    const struct lying lying = {
        view, box_new(canvas, view->width, top + depth + 4.0), 0.0, top, scale,
        true};
    const struct placement placed =
        place_sheet(canvas->arena, view->plan, sheet);
    struct path_item cloth = pale_cloth(view);
    cloth.stroke = 0.0;
    box_rectangle(canvas, lying.box, 0.0, top, view->width, depth, cloth);
    for (size_t i = 0; i < 2 * placed.pieces.count; i++) {
        const struct placed_piece *piece =
            &placed.pieces.items[i % placed.pieces.count];
        if (work.singles.count == 0 && rational_compare(piece->x, half) >= 0)
            continue;
        if (i < placed.pieces.count)
            draw_long_piece(&lying, piece, sheet);
        else
            cut_piece(&lying, piece, sheet->height, deep);
    }
    const struct rational middle = rational_sub(sheet->width, sheet->used);
    const double free =
        rational_double(middle) * scale / (work.singles.count > 0 ? 1.0 : 2.0);
    const char *rest =
        names_of_rests(view, sheet, false, middle, sheet->height);
    if (free > 8.0 && rest[0] != '\0')
        label_frame(&lying,
                    (struct frame){0.0,
                                   top + rational_double(work.folded) * scale,
                                   view->width, free},
                    rest, true);
    draw_outline(&lying, view->width, depth);
    struct path_item fold = outline_wide();
    fold.stroke *= 2.0;
    if (work.singles.count == 0)
        box_stroke(canvas, lying.box, 0.0, top + depth, view->width,
                   top + depth, fold);
    draw_way(&lying, depth);
    return lying.box;
}

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
    style.size = 9.0;
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
        .stroke = 1.417, .stroke_color = red, .role = ROLE_MARK};
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
