/* Strips from which shapes are cut, opened, to scale: a red line for each cut,
 * a label in each piece; once for each kind of shape the lengths by which it is
 * cut. Read next: cutting_figure.c. */
#include <math.h>
#include <string.h>

#include "cutting_cloth.h"
#include "dimension.h"
#include "figure_parts.h"

/* Between two strips that are cut otherwise. */
#define STRIP_GAP MM(3.0)

/* From the strip to the page. */
static double point_x(const struct lying *lying, const struct cut_outline *o,
                      size_t corner)
{
    return lying->x +
           rational_double(o->coordinates[2 * corner]) * lying->scale;
}

/* The strip's upper edge is its y = 0. */
static double point_y(const struct lying *lying, const struct cut_outline *o,
                      size_t corner)
{
    return lying->y +
           rational_double(o->coordinates[2 * corner + 1]) * lying->scale;
}

/* Corners are at the strip's edges; an edge that joins two levels is cut. */
static void draw_edges(const struct lying *lying,
                       const struct cut_outline *outline, double length)
{
    for (size_t i = 0; i < outline->corners; i++) {
        const size_t next = (i + 1) % outline->corners;
        const double x1 = point_x(lying, outline, i);
        const double x2 = point_x(lying, outline, next);
        const double y1 = point_y(lying, outline, i);
        const double y2 = point_y(lying, outline, next);
        const bool at_end = fmax(x1, x2) < lying->x + 0.1 ||
                            fmin(x1, x2) > lying->x + length - 0.1;
        if (fabs(y1 - y2) > 0.1 && !at_end)
            red_line(lying, x1, y1, x2, y2);
    }
}

/* The cloth of one piece, and its label where there is room for it. */
static void draw_shape(const struct lying *lying, const struct cut_outline *o,
                       const char *label)
{
    struct point points[4];
    double x = 0.0, y = 0.0, area = 0.0;
    for (size_t i = 0; i < o->corners; i++)
        points[i] = (struct point){point_x(lying, o, i), point_y(lying, o, i)};
    struct path_item fill = pale_cloth(lying->view);
    fill.stroke = 0.0;
    box_polygon(canvas_of(lying), lying->box, points, o->corners, fill);
    /* The middle of its area, as a corner may be far out. */
    for (size_t i = 0; i < o->corners; i++) {
        const struct point p = points[i], q = points[(i + 1) % o->corners];
        const double part = p.x * q.y - q.x * p.y;
        area += part;
        x += (p.x + q.x) * part;
        y += (p.y + q.y) * part;
    }
    struct text_style style = style_figure();
    style.align = ALIGN_CENTER;
    const struct text_extent extent =
        typeset_measure(canvas_of(lying)->typeset, label, style, 0.0);
    if (fabs(area) / 2.0 < 3.0 * extent.width * extent.height)
        return;
    box_label(canvas_of(lying), lying->box, x / (3.0 * area),
              y / (3.0 * area) - extent.height / 2.0, label, style, 0.0, false);
}

/* First all cloth, hatched where nothing is cut from it, then the cuts. */
static void draw_strip(const struct lying *lying, const struct cut_item *item,
                       const struct shaped_strip *strip)
{
    const struct canvas *canvas = canvas_of(lying);
    const struct rational zero = rational_whole(0);
    const double length =
        rational_double(lying->view->plan->strip_length) * lying->scale;
    const struct frame all = frame_at(
        lying, zero, zero, lying->view->plan->strip_length, item->height);
    const struct placement placed = place_shapes(canvas->arena, item, strip);
    struct path_item waste = waste_fill(canvas);
    waste.stroke = 0.0;
    box_rectangle(canvas, lying->box, all.x, all.y, all.width, all.height,
                  waste);
    for (size_t i = 0; i < placed.pieces.count; i++)
        draw_shape(lying, placed.pieces.items[i].outline,
                   item->shaped.items[placed.pieces.items[i].item].label);
    for (size_t i = 0; i < placed.pieces.count; i++)
        draw_edges(lying, placed.pieces.items[i].outline, length);
    draw_outline(lying, all.width, all.height);
}

/* ---- lengths ---- */

/* A level edge of a piece on the page, the upper or the lower one. */
struct level {
    double left, right, y;
};
static struct level level_of(const struct lying *lying,
                             const struct cut_outline *outline, bool upper)
{
    struct level level = {INFINITY, -INFINITY, point_y(lying, outline, 0)};
    for (size_t i = 0; i < outline->corners; i++) {
        const double y = point_y(lying, outline, i);
        level.y = upper ? fmin(level.y, y) : fmax(level.y, y);
    }
    for (size_t i = 0; i < outline->corners; i++) {
        const double x = point_x(lying, outline, i);
        if (fabs(point_y(lying, outline, i) - level.y) > 0.01)
            continue;
        level.left = fmin(level.left, x);
        level.right = fmax(level.right, x);
    }
    return level;
}

/* A piece whose lengths are told, the first of its kind. */
struct noted {
    struct level upper, lower;
    struct shape_measures measures;
};
struct notes {
    LIST(struct noted) items;
};

/* The length that is told of a level edge: of the longer one; of the shorter
 * one where it is no point, nor the end of a row, whose is a seam; of parallel
 * cuts only below, as their distance stands above. Else unknown. */
static struct rational told_length(const struct noted *noted, bool upper)
{
    const struct shape_measures *m = &noted->measures;
    const double above = noted->upper.right - noted->upper.left;
    const double below = noted->lower.right - noted->lower.left;
    if (rational_known(m->apart))
        return upper ? rational_unknown() : m->longer;
    if ((above > below) == upper)
        return m->longer;
    return m->upright || rational_sign(m->shorter) == 0 ? rational_unknown()
                                                        : m->shorter;
}

/* Of a piece with parallel cuts: their direction upwards, and their ends at the
 * upper edge, as `draw_distance` asks for them. */
struct slant {
    struct point up, from, to;
};
static struct slant slant_of(const struct noted *noted)
{
    const double across = noted->upper.left - noted->lower.left;
    const double up = noted->upper.y - noted->lower.y;
    const double length = hypot(across, up);
    const struct point left = {noted->upper.left, noted->upper.y};
    const struct point right = {noted->upper.right, noted->upper.y};
    return (struct slant){{across / length, up / length},
                          across > 0.0 ? right : left,
                          across > 0.0 ? left : right};
}

/* The room that lengths take above their strip, or below it. */
static double room_of(const struct notes *notes, bool above)
{
    double room = 0.0;
    for (size_t i = 0; i < notes->items.count; i++) {
        const struct noted *noted = &notes->items.items[i];
        if (rational_known(told_length(noted, above)))
            room = fmax(room, DIMENSION_SPACE);
        if (above && rational_known(noted->measures.apart)) {
            const struct slant slant = slant_of(noted);
            room = fmax(room, distance_space(slant.from, slant.to, slant.up));
        }
    }
    return room;
}

static void draw_notes(const struct lying *lying, const struct notes *notes)
{
    const struct canvas *canvas = canvas_of(lying);
    const struct wording *w = &lying->view->booklet->wording;
    for (size_t i = 0; i < notes->items.count; i++) {
        const struct noted *noted = &notes->items.items[i];
        const struct level upper = noted->upper, lower = noted->lower;
        const struct rational above = told_length(noted, true);
        const struct rational below = told_length(noted, false);
        if (rational_known(above))
            draw_dimension(canvas, lying->box, upper.left, upper.y,
                           upper.right - upper.left, false,
                           word_length_unit(w, above));
        if (rational_known(below))
            draw_dimension_below(canvas, lying->box, lower.left, lower.y,
                                 lower.right - lower.left,
                                 word_length_unit(w, below));
        if (rational_known(noted->measures.apart)) {
            const struct slant slant = slant_of(noted);
            draw_distance(canvas, lying->box, slant.from, slant.to, slant.up,
                          word_length_unit(w, noted->measures.apart));
        }
    }
}

static bool is_parallel(const struct cut_item *item, size_t number)
{
    return rational_known(
        measure_shape(item->shaped.items[number].strip).apart);
}

/* The pieces of a strip whose lengths no strip before it tells: `told` are the
 * shapes that need no more. Of two with parallel cuts it is the second: the
 * lengths of the first one would reach beyond the end of the strip. */
static struct notes notes_of(const struct lying *lying,
                             const struct cut_item *item,
                             const struct shaped_strip *strip, bool *told)
{
    struct arena *arena = canvas_of(lying)->arena;
    const struct placement placed = place_shapes(arena, item, strip);
    struct notes notes = {0};
    for (size_t i = 0; i < placed.pieces.count; i++) {
        const struct placed_piece *piece = &placed.pieces.items[i];
        const bool again = i + 1 < placed.pieces.count &&
                           placed.pieces.items[i + 1].item == piece->item;
        const bool first =
            i == 0 || placed.pieces.items[i - 1].item != piece->item;
        if (told[piece->item] ||
            (again && first && is_parallel(item, piece->item)))
            continue;
        const struct noted noted = {
            level_of(lying, piece->outline, true),
            level_of(lying, piece->outline, false),
            measure_shape(item->shaped.items[piece->item].strip)};
        *LIST_ADD(arena, &notes.items) = noted;
        for (size_t k = 0; k < item->shaped.count; k++) {
            const struct shape_measures other =
                measure_shape(item->shaped.items[k].strip);
            told[k] |= same_measures(&noted.measures, &other);
        }
    }
    return notes;
}

/* All at the scale at which the whole strip fills the column. Lengths are
 * placed first as if the strip lay at 0: that tells their room. */
struct box *draw_shapes(const struct cloth_view *view,
                        const struct strip *strip)
{
    const struct canvas *canvas = &view->booklet->flow.canvas;
    const struct cut_item *item =
        &view->plan->items.items[strip->cuts.items[0].item];
    bool *told = ARENA_ARRAY(canvas->arena, bool, item->shaped.count);
    const double scale =
        (view->width - 1.0) / rational_double(view->plan->strip_length);
    const double height = rational_double(item->height) * scale;
    struct lying lying = {
        view, box_new(canvas, view->width, 0.0), 0.5, 1.0, scale, false};
    for (size_t i = 0; i < item->shaped_strips.count; i++) {
        const struct shaped_strip *one = &item->shaped_strips.items[i];
        bool *before = ARENA_ARRAY(canvas->arena, bool, item->shaped.count);
        memcpy(before, told, item->shaped.count * sizeof *told);
        const struct notes sized = notes_of(&lying, item, one, before);
        lying.y += room_of(&sized, true);
        const struct notes notes = notes_of(&lying, item, one, told);
        draw_strip(&lying, item, one);
        draw_notes(&lying, &notes);
        lying.y += height + room_of(&notes, false) + STRIP_GAP;
    }
    lying.box->height = lying.y + 1.0;
    return lying.box;
}
