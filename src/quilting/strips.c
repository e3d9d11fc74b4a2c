/* Strips that echoes cover, and how much of a line lies in an area: fillers
 * stop at the one and are counted by the other. Each question looks at boxes
 * first, as most strips and lines lie elsewhere. Read next: fillers.c. */
#include "regions.h"

#include <math.h>
#include <stdlib.h>

static double span_of(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* ---- strips of echoes ---- */

/* The same box with so much more on all sides. */
static struct spot_line grown(struct spot_line box, double by)
{
    return (struct spot_line){{box.from.x - by, box.from.y - by},
                              {box.to.x + by, box.to.y + by}};
}

/* All that was echoed, in single stretches. */
static void gather_rims(struct arena *arena, struct echo_band *band)
{
    for (size_t i = 0; i < band->rings.count; i++) {
        const struct spot_ring *ring = &band->rings.items[i];
        for (size_t k = 0; k < ring->count; k++)
            *LIST_ADD(arena, &band->rims) = (struct spot_line){
                ring->points[k], ring->points[(k + 1) % ring->count]};
    }
    for (size_t i = 0; i < band->line_count; i++)
        *LIST_ADD(arena, &band->rims) = (struct spot_line){
            vertex_spot(band->lines[i].from), vertex_spot(band->lines[i].to)};
}

/* Around what lies within its reach, and around its echoes: pointed corners lie
 * farther out. */
void find_band_boxes(struct quilter *quilter, struct echo_band *band)
{
    gather_rims(quilter->arena, band);
    band->box =
        grown(box_around(&band->rims.items[0].from, 2 * band->rims.count),
              band->reach);
    struct spot_line *boxes = ARENA_ARRAY(quilter->arena, struct spot_line,
                                          band->last - band->first + 1);
    for (size_t i = band->first; i < band->last; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        const struct spot_line box = box_around(line->points, line->count);
        const struct spot corners[4] = {band->box.from, band->box.to, box.from,
                                        box.to};
        boxes[i - band->first] = box;
        band->box = box_around(corners, 4);
    }
    band->line_boxes = boxes;
    band->by_place =
        grid_of_lines(quilter->arena, band->rims.items, band->rims.count);
}

void find_near_bands(struct quilter *quilter, size_t area)
{
    quilter->near_bands.count = 0;
    for (size_t i = 0; i < quilter->bands.count; i++)
        if (boxes_meet(quilter->bands.items[i].box,
                       quilter->regions->boxes[area]))
            *LIST_ADD(quilter->arena, &quilter->near_bands) = i;
}

/* Lies the spot nearer to what was echoed than the outermost echo? */
static bool in_reach(const struct echo_band *band, struct spot at)
{
    const size_t *near;
    const size_t count = grid_within(
        band->by_place, grown((struct spot_line){at, at}, band->reach), &near);
    for (size_t i = 0; i < count; i++) {
        const struct spot_line rim = band->rims.items[near[i]];
        if (spot_to_line(at, rim) < band->reach - 1e-9)
            return true;
    }
    return false;
}

/* Does a strip of echoes cover it? */
static bool is_covered(const struct quilter *quilter, struct spot at)
{
    for (size_t i = 0; i < quilter->near_bands.count; i++) {
        const struct echo_band *band =
            &quilter->bands.items[quilter->near_bands.items[i]];
        if (!box_holds(band->box, at) || !in_reach(band, at))
            continue;
        const bool in = band->rings.count > 0 &&
                        spot_inside(band->rings.items, band->rings.count, at);
        if (band->rings.count == 0 || (in ? band->inside : band->outside))
            return true;
    }
    return false;
}

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

/* Adds where the stretch crosses the lines of all strips. */
static void add_crossings(const struct quilter *quilter, struct arena *scratch,
                          struct spot_line stretch, share_list *cuts)
{
    const struct spot_line box = box_around(&stretch.from, 2);
    for (size_t i = 0; i < quilter->near_bands.count; i++) {
        const struct echo_band *band =
            &quilter->bands.items[quilter->near_bands.items[i]];
        if (!boxes_meet(band->box, box))
            continue;
        for (size_t k = band->first; k < band->last; k++) {
            const struct quilted_line *line = &quilter->plan->lines.items[k];
            if (!boxes_meet(band->line_boxes[k - band->first], box))
                continue;
            for (size_t p = 0; p + (line->closed ? 0 : 1) < line->count; p++) {
                const double t =
                    crossing(stretch.from, stretch.to, line->points[p],
                             line->points[(p + 1) % line->count]);
                if (t >= 0)
                    *LIST_ADD(scratch, cuts) = t;
            }
        }
    }
}

void add_clipped(struct quilter *quilter, const struct told_item *item,
                 size_t area, struct spot_line stretch)
{
    struct arena *scratch = arena_create();
    share_list cuts = {0};
    *LIST_ADD(scratch, &cuts) = 0;
    add_crossings(quilter, scratch, stretch, &cuts);
    *LIST_ADD(scratch, &cuts) = 1;
    qsort(cuts.items, cuts.count, sizeof *cuts.items, compare_shares);
    const double dx = stretch.to.x - stretch.from.x;
    const double dy = stretch.to.y - stretch.from.y;
    double begin = -1; /* of what stays and is not added yet */
    for (size_t i = 0; i + 1 <= cuts.count; i++) {
        const bool last = i + 1 == cuts.count;
        const double middle =
            last ? 1 : (cuts.items[i] + cuts.items[i + 1]) / 2;
        const struct spot at = {stretch.from.x + middle * dx,
                                stretch.from.y + middle * dy};
        const bool stays = !last && (quilter->near_bands.count == 0 ||
                                     !is_covered(quilter, at));
        if (stays && begin < 0)
            begin = cuts.items[i];
        if (stays || begin < 0)
            continue;
        const double end = cuts.items[i];
        const struct spot ends[2] = {
            {stretch.from.x + begin * dx, stretch.from.y + begin * dy},
            {stretch.from.x + end * dx, stretch.from.y + end * dy}};
        if (span_of(ends[0], ends[1]) > 1e-6)
            add_line(quilter, item, STAGE_FILLERS, ends, 2, false)->area = area;
        begin = -1;
    }
    arena_destroy(scratch);
}

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

/* How long what was echoed is, all around. */
static double band_rim(const struct echo_band *band)
{
    double length = 0;
    for (size_t i = 0; i < band->rings.count; i++) {
        const struct spot_ring *ring = &band->rings.items[i];
        for (size_t k = 0; k < ring->count; k++)
            length +=
                span_of(ring->points[k], ring->points[(k + 1) % ring->count]);
    }
    for (size_t i = 0; i < band->line_count; i++)
        length += 2 * span_of(vertex_spot(band->lines[i].from),
                              vertex_spot(band->lines[i].to));
    return length;
}

double covered_size(const struct quilter *quilter, size_t area)
{
    double size = 0;
    for (size_t i = 0; i < quilter->near_bands.count; i++) {
        const struct echo_band *band =
            &quilter->bands.items[quilter->near_bands.items[i]];
        const double step = band->reach / (double)band->most;
        double all = 0, first = 0, whole = 0, last = 0;
        for (size_t k = band->first; k < band->last; k++) {
            const struct quilted_line *line = &quilter->plan->lines.items[k];
            const double length = length_in_area(quilter, area, line);
            all += length;
            first += line->echo == 1 ? length : 0;
            whole += line->echo == 1 ? line->length : 0;
            last += line->echo == band->most ? length : 0;
        }
        const double sides = band->inside && band->outside ? 2 : 1;
        const double rim =
            whole > 0 ? sides * band_rim(band) * first / whole : 0;
        size += step * (all + (rim - last) / 2);
    }
    return size;
}
