/* Strips as they lie on the mat, to scale: folded as they are cut, opened where
 * they are opened; and lengthwise cloth. Read next: cutting_sheet.c. */
#include <math.h>

#include "cutting_cloth.h"
#include "figure_parts.h"
#include "told_cutting.h"

/* ---- strips across the cloth ---- */

/* Where the ruler stands at each cut, as far as there is room: the first, the
 * last, and what fits between. */
static void draw_positions(const struct lying *lying, double y,
                           const struct rational *positions, size_t count)
{
    const struct canvas *canvas = canvas_of(lying);
    const struct wording *w = &lying->view->booklet->wording;
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    style.color = action_red;
    double free_from = -1e9, last_from = 1e9;
    for (size_t n = 0; n < count; n++) {
        /* The last one first, so that it always has its place. */
        const size_t i = n == 0 ? count - 1 : n - 1;
        const char *text = word_length(w, positions[i]);
        const double half =
            typeset_measure(canvas->typeset, text, style, 0.0).width / 2.0;
        /* A cut near the end of the strip has its number inside the column. */
        const double x =
            fmin(lying->x + rational_double(positions[i]) * lying->scale,
                 lying->view->width - half);
        if (x - half < free_from || (n > 0 && x + half > last_from))
            continue;
        if (n == 0)
            last_from = x - half - 3.0;
        else
            free_from = x + half + 3.0;
        box_label(canvas, lying->box, x, y, text, style, 0.0, false);
    }
}

/* Cuts before the first that keeps the rest: those that the ruler makes. */
static size_t made_now(const struct fabric_plan *plan,
                       const struct strip_cut *cuts, size_t count)
{
    size_t made = 0;
    while (made < count && !keeps_rest(plan, &cuts[made]))
        made++;
    return made;
}

/* Of a list of cuts: the ruler's places, as many as there are cuts. */
static struct rational *positions_of(const struct cloth_view *view,
                                     const struct strip_cut *cuts, size_t count,
                                     size_t *places)
{
    const size_t made = made_now(view->plan, cuts, count);
    *places = 0;
    for (size_t i = 0; i < made; i++)
        *places += cuts[i].count;
    struct rational *positions = ARENA_ARRAY(view->booklet->flow.canvas.arena,
                                             struct rational, *places + 1);
    struct rational at = rational_whole(0);
    size_t n = 0;
    for (size_t i = 0; i < made; i++)
        for (size_t k = 0; k < cuts[i].count; k++)
            positions[n++] = at = rational_add(at, cuts[i].along);
    return positions;
}

/* A cell, or the red lines around it. */
static void draw_cell(const struct lying *lying, bool lines,
                      const struct placed_piece *piece, struct rational height,
                      struct rational end)
{
    if (lines)
        cut_piece(lying, piece, height, end);
    else
        draw_segment(lying, piece, height);
}

/* Cells of one layer from x = 0: pieces and what stays above them, then red
 * lines over all. Borders keep what is behind the other cuts, no cut between
 * them; the last has what is left over. */
static struct rational draw_cells(const struct lying *lying,
                                  const struct strip *strip,
                                  const struct strip_cut *cuts, size_t count,
                                  struct rational end)
{
    const size_t made = made_now(lying->view->plan, cuts, count);
    struct rational x = rational_whole(0);
    for (int lines = 0; lines < 2; lines++) {
        x = rational_whole(0);
        for (size_t i = 0; i < count; i++)
            for (size_t k = 0; k < cuts[i].count; k++) {
                const bool last =
                    i >= made && i + 1 == count && k + 1 == cuts[i].count;
                const struct rational along =
                    last ? rational_sub(end, x) : cuts[i].along;
                const struct rational far = rational_add(x, along);
                const struct placed_piece piece = {.item = cuts[i].item,
                                                   .x = x,
                                                   .y = rational_whole(0),
                                                   .width = along,
                                                   .height = cuts[i].across};
                draw_cell(lying, lines == 1, &piece, strip->height,
                          i >= made ? far : end);
                x = far;
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
    lower.stroke = LINE_FINE;
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

/* Folded, the strip fills the room; one that is nearly as high as cloth is long
 * is drawn smaller, as its words and those of the fabric stand above it. */
static double strip_scale(const struct cloth_view *view,
                          const struct strip *strip, double room)
{
    return fmin(2.0 * room / rational_double(view->plan->strip_length),
                flow_page_height(&view->booklet->flow) * 0.4 /
                    rational_double(strip->height));
}

struct box *draw_folded_strip(const struct cloth_view *view,
                              const struct strip *strip)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct strip_work work =
        fold_strip(canvas->arena, view->plan, strip, false);
    const bool whole = is_left_whole(view->plan, strip);
    const double left = one_way(view) ? ARROW : 0.0;
    const double scale =
        strip_scale(view, strip, view->width - left - FOLD - 1.0);
    const double length =
        rational_double(view->plan->strip_length) * scale / 2.0;
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
        label_frame(&lying, (struct frame){left, FOLD, length, height},
                    view->plan->items.items[strip->cuts.items[0].item].label,
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
        const struct rational *positions =
            positions_of(view, work.pairs.items, work.pairs.count, &places);
        draw_positions(&lying, FOLD + height + 1.5, positions, places);
    }
    draw_outline(&lying, length, height);
    if (reaches_fold(&work))
        red_line(&lying, left + length, FOLD - 2.0, left + length,
                 FOLD + height + 2.0);
    draw_way(&lying, height);
    return lying.box;
}

/* Does the crease run through what stands in the middle of a cell, or along a
 * cut? The last cell ends with the cloth. */
static bool crease_is_covered(const struct lying *lying, double length,
                              const struct rational *positions, size_t count)
{
    enum { NEAR = 9 }; /* half a label, in points */
    const double crease = length / 2.0;
    double from = 0.0;
    for (size_t i = 0; i <= count; i++) {
        const double to =
            i < count ? rational_double(positions[i]) * lying->scale : length;
        if (fabs(to - crease) < 2.0 || fabs((from + to) / 2.0 - crease) < NEAR)
            return true;
        from = to;
    }
    return false;
}

/* In the middle, from above the cloth to below it; where a cut or a label lies
 * in it, it is seen outside only. */
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
    cut |= crease_is_covered(lying, length, positions, count);
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
    const double left = one_way(view) ? ARROW : 0.0;
    const double room = view->width - left - FOLD - 1.0;
    /* At the scale of the folded strip, or smaller where it is longer. */
    const double scale = fmin(strip_scale(view, strip, room),
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
    const struct rational *positions =
        positions_of(view, work.singles.items, work.singles.count, &places);
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

/* All that are seen in a sheet so deep: the pieces, then the cuts. */
static void draw_long_pieces(const struct lying *lying,
                             const struct sheet *sheet, struct rational deep)
{
    const struct placement placed =
        place_sheet(canvas_of(lying)->arena, lying->view->plan, sheet);
    for (size_t i = 0; i < 2 * placed.pieces.count; i++) {
        const struct placed_piece *piece =
            &placed.pieces.items[i % placed.pieces.count];
        if (rational_compare(piece->x, deep) >= 0)
            continue;
        if (i < placed.pieces.count)
            draw_long_piece(lying, piece, sheet);
        else
            cut_piece(lying, piece, sheet->height, deep);
    }
}

/* What the long edges of folded cloth are, beside them at the right. Returns
 * the room that it takes; puts nothing where `lying` is NULL. */
static double name_edges(const struct cloth_view *view,
                         const struct lying *lying, double width, double depth)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct wording *w = &view->booklet->wording;
    const struct text_style style = style_size();
    const char *names[] = {say(w->arena, w->phrases, "cutting.selvage", NULL),
                           say(w->arena, w->phrases, "cutting.fold", NULL)};
    double room = 0.0;
    for (int i = 0; i < 2; i++) {
        const struct text_extent extent =
            typeset_measure(canvas->typeset, names[i], style, 0.0);
        room = fmax(room, extent.width + 2.0 * FOLD);
        if (lying != NULL)
            box_label(canvas, lying->box, width + 2.0 * FOLD,
                      lying->y +
                          (i == 0 ? -(double)FOLD : depth - extent.height),
                      names[i], style, 0.0, false);
    }
    return room;
}

/* Folded, so that half of its width is seen: selvages above, the fold below;
 * opened where a cut takes one layer alone. */
struct box *draw_lengthwise(const struct cloth_view *view,
                            const struct sheet *sheet)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct strip_work work = fold_sheet(canvas->arena, view->plan, sheet);
    const bool folded = work.singles.count == 0;
    const double width =
        view->width - (folded ? name_edges(view, NULL, 0.0, 0.0) : 0.0);
    const double scale = width / rational_double(sheet->height);
    const struct rational deep =
        folded ? rational_div(sheet->width, rational_whole(2)) : sheet->width;
    const double top = (one_way(view) ? ARROW : 0.0) + (folded ? FOLD : 2.0);
    const double depth = rational_double(deep) * scale;
    const struct lying lying = {
        view, box_new(canvas, view->width, top + depth + 4.0), 0.0, top, scale,
        true};
    struct path_item cloth = pale_cloth(view);
    cloth.stroke = 0.0;
    if (folded)
        draw_layers(&lying, width, depth);
    else
        box_rectangle(canvas, lying.box, 0.0, top, width, depth, cloth);
    const struct rational middle = rational_sub(sheet->width, sheet->used);
    const double free = rational_double(middle) * scale / (folded ? 2.0 : 1.0);
    const char *rest =
        names_of_rests(view, sheet, false, middle, sheet->height);
    /* Behind the single pieces, which lie behind the pairs. */
    const double behind =
        rational_double(rational_sub(sheet->used, work.folded)) * scale;
    const struct frame left = {0.0, top + behind, width, free};
    if (free > 8.0 && rest[0] != '\0')
        label_frame(&lying, left, rest, true);
    else if (rest[0] == '\0')
        draw_leftover(&lying, left, middle, sheet->height);
    draw_long_pieces(&lying, sheet, deep);
    draw_outline(&lying, width, depth);
    if (folded)
        name_edges(view, &lying, width, depth);
    if (reaches_fold(&work))
        red_line(&lying, 0.0, top + depth, width, top + depth);
    draw_way(&lying, depth);
    return lying.box;
}
