/* What echoes leave of an area for its filler, and how much of a line lies in an
 * area. A strip of echoes is what lies between a shape and its outermost echo;
 * the geometry library takes strips off areas, each strip made once and in one
 * scale with all others. Read next: fillers.c. */
#include "echo.h"
#include "geos_room.h"
#include "regions.h"

#include <math.h>
#include <stdlib.h>

static double span_of(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* ---- strips of echoes ---- */

/* The scale makes whole what areas have for corners; shapes, seams and lines end
 * in the same points. */
void open_strips(struct quilter *quilter)
{
    const struct arrangement *a = quilter->areas;
    struct segment *points =
        ARENA_ARRAY(quilter->arena, struct segment, a->point_count + 1);
    for (size_t i = 0; i < a->point_count; i++)
        points[i] = (struct segment){a->points[i], a->points[i]};
    quilter->room = geos_room_open(quilter->arena);
    quilter->room_scale = geos_scale(NULL, 0, points, a->point_count);
}

/* Whatever was reported on the way. */
void close_strips(struct quilter *quilter)
{
    geos_room_close(quilter->room);
    quilter->room = NULL;
}

/* The strip beside a body. NULL where the library refused. */
static struct geos_body *strip_of(struct quilter *quilter,
                                  const struct echo_band *band,
                                  const struct geos_body *body,
                                  const struct geos_body *ground)
{
    const struct geos_strip strip = {.outside = band->outside,
                                     .inside = band->inside,
                                     .rounded = band->item->of.echo.rounded,
                                     .of_lines = band->line_count > 0,
                                     .chord = ECHO_CHORD,
                                     .ground = ground};
    return body == NULL ? NULL : geos_beside(quilter->room, body, &strip);
}

/* Of a shape: made when it is asked for, once. NULL where the library refused.
 */
static struct geos_body *shape_strip(struct quilter *quilter,
                                     struct echo_band *band)
{
    if (band->body != NULL)
        return band->body;
    const struct geos_body *ground =
        band->ground == NULL
            ? NULL
            : geos_polygon(quilter->room, band->ground, quilter->room_scale);
    if (band->ground != NULL && ground == NULL)
        return NULL;
    band->body = strip_of(quilter, band,
                          geos_polygon(quilter->room, &band->shape,
                                       quilter->room_scale),
                          ground);
    return band->body;
}

/* One of the lines that were echoed. */
static struct spot_line echoed_line(const struct echo_band *band, size_t i)
{
    return (struct spot_line){vertex_spot(band->lines[i].from),
                              vertex_spot(band->lines[i].to)};
}

/* Which of the lines reach into the box: their ends are square, so that they
 * reach no farther than the root of 2 times the distance. */
static size_t lines_about(struct quilter *quilter, struct arena *scratch,
                          struct echo_band *band, struct spot_line box,
                          struct segment **lines)
{
    const double reach = 1.5 * band->outside;
    const struct spot_line wide = {{box.from.x - reach, box.from.y - reach},
                                   {box.to.x + reach, box.to.y + reach}};
    if (band->by_place == NULL) {
        struct spot_line *spots = ARENA_ARRAY(quilter->arena, struct spot_line,
                                              band->line_count + 1);
        for (size_t i = 0; i < band->line_count; i++)
            spots[i] = echoed_line(band, i);
        band->by_place = grid_of_lines(quilter->arena, spots, band->line_count);
    }
    size_t count, kept = 0;
    const size_t *near = grid_numbers(scratch, band->by_place, wide, &count);
    *lines = ARENA_ARRAY(scratch, struct segment, count + 1);
    for (size_t i = 0; i < count; i++) {
        const struct spot_line line = echoed_line(band, near[i]);
        if (boxes_meet(box_around(&line.from, 2), wide))
            (*lines)[kept++] = band->lines[near[i]];
    }
    return kept;
}

typedef LIST(struct geos_body *) strip_list;

/* What lies beside lines about the area: where ends are square, a rectangle for
 * each, as taking off one after the other costs less than making one of all. */
static void add_line_strips(struct quilter *quilter, struct arena *scratch,
                            struct echo_band *band, struct spot_line box,
                            strip_list *strips)
{
    struct segment *lines;
    const size_t near = lines_about(quilter, scratch, band, box, &lines);
    const bool rounded = band->item->of.echo.rounded;
    for (size_t i = 0; i < near && !rounded; i++)
        *LIST_ADD(scratch, strips) =
            geos_beside_stretch(quilter->room, lines[i], band->outside,
                                quilter->room_scale);
    if (near > 0 && rounded)
        *LIST_ADD(scratch, strips) =
            strip_of(quilter, band,
                     geos_lines(quilter->room, lines, near,
                                quilter->room_scale),
                     NULL);
}

/* The strips whose boxes meet that of the area. ensures: false where the
 * library refused one. */
static bool strips_about(struct quilter *quilter, struct arena *scratch,
                         size_t area, strip_list *strips)
{
    const struct spot_line box = quilter->regions->boxes[area];
    for (size_t i = 0; i < quilter->bands.count; i++) {
        struct echo_band *band = &quilter->bands.items[i];
        if (!boxes_meet(band->box, box))
            continue;
        if (band->line_count > 0)
            add_line_strips(quilter, scratch, band, box, strips);
        else
            *LIST_ADD(scratch, strips) = shape_strip(quilter, band);
    }
    for (size_t i = 0; i < strips->count; i++)
        if (strips->items[i] == NULL)
            return false;
    return true;
}

/* Lines that the library gave, as rings of the plan. */
static void keep_rest(struct quilter *quilter, struct quilted_area *area,
                      const geos_lines_list *lines)
{
    struct quilted_ring *rings =
        ARENA_ARRAY(quilter->arena, struct quilted_ring, lines->count + 1);
    for (size_t i = 0; i < lines->count; i++)
        rings[i] = (struct quilted_ring){.points = lines->items[i].points,
                                         .count = lines->items[i].count};
    area->rest = rings;
    area->rest_count = lines->count;
}

/* Most areas have no echoes about them and keep their own rings. */
bool find_rest(struct quilter *quilter, const struct told_item *item,
               size_t area)
{
    struct quilted_area *found = &quilter->plan->areas.items[area];
    struct arena *scratch = arena_create();
    strip_list strips = {0};
    bool told = strips_about(quilter, scratch, area, &strips);
    found->rest = found->rings;
    found->rest_count = found->ring_count;
    found->rest_size = found->size;
    if (told && strips.count > 0) {
        const struct shape shape = shape_of_area(quilter, area);
        const struct geos_body *whole =
            geos_polygon(quilter->room, &shape, quilter->room_scale);
        geos_lines_list lines = {0};
        told = whole != NULL && geos_rest(quilter->room, whole, strips.items,
                                          strips.count, &found->rest_size,
                                          &lines);
        keep_rest(quilter, found, &lines);
    }
    arena_destroy(scratch);
    return told ||
           !say_fault(quilter, item, (struct fault){FAULT_ROOM, 0, 0});
}

/* ---- lengths ---- */

/* Where the stretch p q crosses a b, as a share of p q; below 0 for nowhere. */
static double crossing(struct spot p, struct spot q, struct spot a,
                       struct spot b)
{
    const double rx = q.x - p.x, ry = q.y - p.y;
    const double sx = b.x - a.x, sy = b.y - a.y;
    const double det = rx * sy - ry * sx;
    if (fabs(det) < 1e-12)
        return -1;
    const double t = ((a.x - p.x) * sy - (a.y - p.y) * sx) / det;
    const double u = ((a.x - p.x) * ry - (a.y - p.y) * rx) / det;
    return t >= 0 && t <= 1 && u >= -1e-9 && u <= 1 + 1e-9 ? t : -1;
}

/* As they rise. */
static int compare_shares(const void *first, const void *second)
{
    const double a = *(const double *)first, b = *(const double *)second;
    return a < b ? -1 : a > b;
}

typedef LIST(double) share_list;

/* How much of the stretch lies in the area: it is cut at the rim, and each part
 * asked for its middle. */
static double stretch_in_area(const struct quilter *quilter, size_t area,
                              struct spot a, struct spot b)
{
    struct arena *scratch = arena_create();
    const struct quilted_area *found = &quilter->plan->areas.items[area];
    share_list cuts = {0};
    double inside = 0;
    *LIST_ADD(scratch, &cuts) = 0;
    *LIST_ADD(scratch, &cuts) = 1;
    for (size_t r = 0; r < found->ring_count; r++)
        for (size_t k = 0; k < found->rings[r].count; k++) {
            const double t = crossing(
                a, b, found->rings[r].points[k],
                found->rings[r].points[(k + 1) % found->rings[r].count]);
            if (t >= 0)
                *LIST_ADD(scratch, &cuts) = t;
        }
    qsort(cuts.items, cuts.count, sizeof *cuts.items, compare_shares);
    for (size_t i = 0; i + 1 < cuts.count; i++) {
        const double t = (cuts.items[i] + cuts.items[i + 1]) / 2;
        const struct spot at = {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
        if (cuts.items[i + 1] > cuts.items[i] && area_holds(quilter, area, at))
            inside += cuts.items[i + 1] - cuts.items[i];
    }
    arena_destroy(scratch);
    return inside * span_of(a, b);
}

double length_in_area(const struct quilter *quilter, size_t area,
                      const struct quilted_line *line)
{
    const struct spot_line box = quilter->regions->boxes[area];
    double length = 0;
    if (!boxes_meet(box, box_around(line->points, line->count)))
        return 0;
    for (size_t k = 0; k + (line->closed ? 0 : 1) < line->count; k++) {
        const struct spot ends[2] = {line->points[k],
                                     line->points[(k + 1) % line->count]};
        if (boxes_meet(box, box_around(ends, 2)))
            length += stretch_in_area(quilter, area, ends[0], ends[1]);
    }
    return length;
}
