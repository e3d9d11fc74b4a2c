/* What covers an area: its own echoes, and a filler. Lines stop at the strips
 * that echoes cover; of swirls and pebbles, the strips are taken off the area
 * that the law counts. Read next: found.c. */
#include "echo.h"
#include "fill.h"
#include "regions.h"

#include <math.h>
#include <stdlib.h>

static double span_of(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* How far the spot lies from the nearest place of the stretch. */
static double to_segment(struct spot at, struct spot a, struct spot b)
{
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double length = dx * dx + dy * dy;
    double t =
        length > 0 ? ((at.x - a.x) * dx + (at.y - a.y) * dy) / length : 0;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    return span_of(at, (struct spot){a.x + t * dx, a.y + t * dy});
}

/* ---- strips of echoes ---- */

/* How far from what was echoed. */
static double to_band(const struct echo_band *band, struct spot at)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < band->rings.count; i++) {
        const struct spot_ring *ring = &band->rings.items[i];
        for (size_t k = 0; k < ring->count; k++)
            least =
                fmin(least, to_segment(at, ring->points[k],
                                       ring->points[(k + 1) % ring->count]));
    }
    for (size_t i = 0; i < band->line_count; i++)
        least = fmin(least, to_segment(at, vertex_spot(band->lines[i].from),
                                       vertex_spot(band->lines[i].to)));
    return least;
}

/* Does a strip of echoes cover it? */
static bool is_covered(const struct quilter *quilter, struct spot at)
{
    for (size_t i = 0; i < quilter->bands.count; i++) {
        const struct echo_band *band = &quilter->bands.items[i];
        const bool in = band->rings.count > 0 &&
                        spot_inside(band->rings.items, band->rings.count, at);
        if ((band->rings.count == 0 || (in ? band->inside : band->outside)) &&
            to_band(band, at) < band->reach - 1e-9)
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
    for (size_t i = 0; i < quilter->bands.count; i++) {
        const struct echo_band *band = &quilter->bands.items[i];
        for (size_t k = band->first; k < band->last; k++) {
            const struct quilted_line *line = &quilter->plan->lines.items[k];
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

/* Adds a line of a filler, where no strip of echoes covers it. */
static void add_clipped(struct quilter *quilter, const struct told_item *item,
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
        const bool stays =
            !last && (quilter->bands.count == 0 || !is_covered(quilter, at));
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
    double length = 0;
    for (size_t k = 0; k + (line->closed ? 0 : 1) < line->count; k++)
        length += stretch_in_area(quilter, area, line->points[k],
                                  line->points[(k + 1) % line->count]);
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

/* What strips of echoes take of the area. Between two echoes lies their mean
 * length times their distance; before the first, its mean with the rim of what
 * is echoed, of which the area has the share that it has of the first echo. */
static double covered_size(const struct quilter *quilter, size_t area)
{
    double size = 0;
    for (size_t i = 0; i < quilter->bands.count; i++) {
        const struct echo_band *band = &quilter->bands.items[i];
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

/* ---- lines ---- */

struct leading {
    struct spot direction, through;
    double length;
};

/* The longest side of the area that the line makes; where it makes none, the
 * stretch of it that is nearest. */
static struct leading leading_line(const struct quilter *quilter, size_t area,
                                   size_t item)
{
    const struct quilted_area *found = &quilter->plan->areas.items[area];
    struct leading best = {{1, 0}, found->label, -HUGE_VAL};
    for (size_t i = 0; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        for (size_t p = 0; line->item->index == item &&
                           p + (line->closed ? 0 : 1) < line->count;
             p++) {
            const struct spot a = line->points[p];
            const struct spot b = line->points[(p + 1) % line->count];
            double along = 0;
            for (size_t r = 0; r < found->ring_count; r++)
                for (size_t k = 0; k < found->rings[r].count; k++) {
                    const struct spot c = found->rings[r].points[k];
                    const struct spot d =
                        found->rings[r].points[(k + 1) % found->rings[r].count];
                    if (to_segment(c, a, b) < 1e-6 &&
                        to_segment(d, a, b) < 1e-6)
                        along += span_of(c, d);
                }
            if (along == 0)
                along = -to_segment(found->label, a, b);
            if (along > best.length + 1e-6)
                best = (struct leading){{b.x - a.x, b.y - a.y}, a, along};
        }
    }
    return best;
}

/* Lines of one direction are laid from the middle of the quilt, whatever area
 * they are in: those of neighbors are then in line, and a symmetric top stays
 * so where its lines do. */
static void fill_with_lines(struct quilter *quilter,
                            const struct told_item *item, size_t area)
{
    static const struct spot ways[] = {{1, 0}, {0, 1}, {1, -1}, {1, 1}};
    const spot_rings rings = area_spots(quilter->arena, quilter->areas,
                                        &quilter->regions->found.items[area]);
    struct fill_order order = {
        .rings = rings.items,
        .count = rings.count,
        .kind = item->of.fill.with == TOLD_GRID ? FILL_GRID : FILL_LINES,
        .spacing = number_double(item->of.fill.spacing)};
    if (item->of.fill.along == ALONG_LINE) {
        const struct leading line =
            leading_line(quilter, area, (size_t)item->of.fill.line);
        order.direction = line.direction;
        order.through = line.through;
    } else {
        order.direction = ways[item->of.fill.along];
        order.through = vertex_spot(vertex_middle(
            quilter->ground->extent.low, quilter->ground->extent.high));
    }
    const struct fill_lines found = fill_area(quilter->arena, &order);
    if (say_fault(quilter, item, found.fault))
        return;
    for (size_t i = 0; i < found.lines.count; i++)
        add_clipped(quilter, item, area, found.lines.items[i]);
}

/* From the rim inwards until no room is left; what is left is smaller than
 * the spacing. */
static void fill_with_echoes(struct quilter *quilter,
                             const struct told_item *item, size_t area)
{
    const struct shape shape = shape_of_area(quilter, area);
    const struct echo_order order = {.shape = &shape,
                                     .side = ECHO_INSIDE,
                                     .first = item->of.fill.spacing,
                                     .spacing = item->of.fill.spacing};
    const struct echoes found = echo_shape(quilter->arena, &order);
    if (say_fault(quilter, item, found.fault))
        return;
    for (size_t i = 0; i < found.count; i++)
        add_line(quilter, item, STAGE_FILLERS, found.items[i].points,
                 found.items[i].count, found.items[i].closed)
            ->area = area;
}

/* ---- all of an area ---- */

/* A fill of nothing is kept as a choice, and the gap is checked there as
 * anywhere. */
static void fill(struct quilter *quilter, const struct told_item *item,
                 size_t area)
{
    struct quilted_area *found = &quilter->plan->areas.items[area];
    const double spacing = number_double(item->of.fill.spacing);
    found->fill = item;
    switch (item->of.fill.with) {
    case TOLD_LINES:
    case TOLD_GRID:
        fill_with_lines(quilter, item, area);
        break;
    case TOLD_ECHOES:
        fill_with_echoes(quilter, item, area);
        break;
    case TOLD_SWIRLS:
    case TOLD_PEBBLES:
        found->free = fill_length(
            item->of.fill.with == TOLD_SWIRLS ? FILL_SWIRLS : FILL_PEBBLES,
            fmax(0, found->size - covered_size(quilter, area)), spacing);
        break;
    case TOLD_NONE:
        break;
    }
}

/* Children of an `area` stand behind it, up to the first that is none. */
void fill_one(struct quilter *quilter, size_t area)
{
    const struct told_item *item = quilter->plan->areas.items[area].item;
    if (item == NULL)
        return;
    for (size_t i = item->index + 1; i < quilter->told->items.count; i++) {
        const struct told_item *child = &quilter->told->items.items[i];
        if (child->area != (int)item->index)
            break;
        if (child->kind == TOLD_ECHO)
            draw_echoes(quilter, child, area);
        else if (child->kind == TOLD_FILL)
            fill(quilter, child, area);
    }
}

/* Pages show a piece of it beside the letter, not each swirl of the quilt. */
void draw_texture(struct quilter *quilter, struct quilted_kind *kind)
{
    /* Enough to see how it goes on. */
    enum { SAMPLE_SPACINGS = 8 };
    if (kind->fill == NULL || (kind->fill->of.fill.with != TOLD_SWIRLS &&
                               kind->fill->of.fill.with != TOLD_PEBBLES))
        return;
    const double spacing = number_double(kind->fill->of.fill.spacing);
    kind->texture_side = SAMPLE_SPACINGS * spacing;
    const fill_sample_lines sample = fill_sample(
        quilter->arena,
        kind->fill->of.fill.with == TOLD_SWIRLS ? FILL_SWIRLS : FILL_PEBBLES,
        kind->texture_side, kind->texture_side, spacing);
    struct quilted_ring *rings =
        ARENA_ARRAY(quilter->arena, struct quilted_ring, sample.count + 1);
    for (size_t i = 0; i < sample.count; i++)
        rings[i] = (struct quilted_ring){.points = sample.items[i].points,
                                         .count = sample.items[i].count};
    kind->texture = rings;
    kind->texture_count = sample.count;
}
