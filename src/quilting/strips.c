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

/* Made when it is asked for. NULL where the library refused. */
static struct geos_body *body_of(struct quilter *quilter,
                                 struct echo_band *band)
{
    struct geos_room *room = quilter->room;
    const double scale = quilter->room_scale;
    if (band->body != NULL)
        return band->body;
    const bool of_lines = band->shape.count == 0;
    const struct geos_body *body =
        of_lines ? geos_lines(room, band->lines, band->line_count, scale)
                 : geos_polygon(room, &band->shape, scale);
    const struct geos_body *ground =
        band->ground == NULL ? NULL : geos_polygon(room, band->ground, scale);
    if (body == NULL || (band->ground != NULL && ground == NULL))
        return NULL;
    const struct geos_strip strip = {.outside = band->outside,
                                     .inside = band->inside,
                                     .rounded = band->item->of.echo.rounded,
                                     .of_lines = of_lines,
                                     .chord = ECHO_CHORD,
                                     .ground = ground};
    band->body = geos_beside(room, body, &strip);
    return band->body;
}

/* The strips whose boxes meet that of the area. ensures: how many; false where
 * the library refused one. */
static bool strips_about(struct quilter *quilter, size_t area,
                         struct geos_body **strips, size_t *count)
{
    *count = 0;
    for (size_t i = 0; i < quilter->bands.count; i++) {
        struct echo_band *band = &quilter->bands.items[i];
        if (!boxes_meet(band->box, quilter->regions->boxes[area]))
            continue;
        strips[*count] = body_of(quilter, band);
        if (strips[(*count)++] == NULL)
            return false;
    }
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
    struct geos_body **strips =
        ARENA_ARRAY(scratch, struct geos_body *, quilter->bands.count + 1);
    size_t count;
    bool told = strips_about(quilter, area, strips, &count);
    found->rest = found->rings;
    found->rest_count = found->ring_count;
    found->rest_size = found->size;
    if (told && count > 0) {
        const struct shape shape = shape_of_area(quilter, area);
        const struct geos_body *whole =
            geos_polygon(quilter->room, &shape, quilter->room_scale);
        geos_lines_list lines = {0};
        told = whole != NULL && geos_rest(quilter->room, whole, strips, count,
                                          &found->rest_size, &lines);
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
