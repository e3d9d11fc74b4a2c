/* What covers an area: its own echoes, and a filler. Fillers stop at the strips
 * that echoes cover: lines are clipped to what these leave of the area, swirls
 * and pebbles counted by its size (strips.c). Read next: found.c. */
#include "echo.h"
#include "fill.h"
#include "regions.h"

#include <math.h>
#include <stdlib.h>

static double span_of(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* ---- lines ---- */

struct leading {
    struct spot direction, through;
    double length;      /* of the rim that it makes, or less than 0 */
    double from_middle; /* of the quilt, to its own */
};

/* Made when the first area asks: no line of the element comes later. */
static struct leads *leads_of(struct quilter *quilter, size_t item)
{
    struct arena *arena = quilter->arena;
    if (quilter->leads == NULL)
        quilter->leads =
            ARENA_ARRAY(arena, struct leads *, quilter->told->items.count + 1);
    if (quilter->leads[item] != NULL)
        return quilter->leads[item];
    struct leads *leads = quilter->leads[item] = ARENA_NEW(arena, struct leads);
    for (size_t i = 0; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        for (size_t p = 0; line->item->index == item &&
                           p + (line->closed ? 0 : 1) < line->count;
             p++)
            *LIST_ADD(arena, &leads->stretches) = (struct spot_line){
                line->points[p], line->points[(p + 1) % line->count]};
    }
    leads->by_place =
        grid_of_lines(arena, leads->stretches.items, leads->stretches.count);
    return leads;
}

/* How much of the area's rim lies along the stretch. */
static double rim_along(const struct quilted_area *area,
                        struct spot_line stretch)
{
    double along = 0;
    for (size_t r = 0; r < area->ring_count; r++)
        for (size_t k = 0; k < area->rings[r].count; k++) {
            const struct spot c = area->rings[r].points[k];
            const struct spot d =
                area->rings[r].points[(k + 1) % area->rings[r].count];
            if (spot_to_line(c, stretch) < 1e-6 &&
                spot_to_line(d, stretch) < 1e-6)
                along += span_of(c, d);
        }
    return along;
}

/* Of stretches that make as much of the rim, the one nearer to the middle of the
 * quilt leads, then the one nearer to level: so that an area and its image choose
 * what are images of each other. */
static bool leads_more(const struct leading *one, const struct leading *other)
{
    const double hair = 1e-6;
    if (fabs(one->length - other->length) > hair)
        return one->length > other->length;
    if (fabs(one->from_middle - other->from_middle) > hair)
        return one->from_middle < other->from_middle;
    const double slant = fabs(one->direction.y) * fabs(other->direction.x) -
                         fabs(other->direction.y) * fabs(one->direction.x);
    return slant < -hair;
}

/* The best of the stretches about a box. */
static struct leading lead_about(struct quilter *quilter,
                                 const struct leads *leads, size_t area,
                                 struct spot_line box)
{
    const struct quilted_area *found = &quilter->plan->areas.items[area];
    const struct spot far = vertex_spot(quilter->ground->extent.high);
    struct leading best = {{1, 0}, found->label, -HUGE_VAL, HUGE_VAL};
    struct arena *scratch = arena_create();
    size_t count; /* as they rise: of equal stretches the first is taken */
    const size_t *numbers = grid_numbers(scratch, leads->by_place, box, &count);
    for (size_t i = 0; i < count; i++) {
        const struct spot_line stretch = leads->stretches.items[numbers[i]];
        double along = rim_along(found, stretch);
        if (along == 0)
            along = -spot_to_line(found->label, stretch);
        const struct leading one = {
            {stretch.to.x - stretch.from.x, stretch.to.y - stretch.from.y},
            stretch.from,
            along,
            hypot((stretch.from.x + stretch.to.x - far.x) / 2,
                  (stretch.from.y + stretch.to.y - far.y) / 2)};
        if (best.length == -HUGE_VAL || leads_more(&one, &best))
            best = one;
    }
    arena_destroy(scratch);
    return best;
}

/* The longest side of the area that the line makes; where it makes none, the
 * stretch of it that is nearest: looked for in larger and larger boxes, until
 * none outside can be nearer. */
static struct leading leading_line(struct quilter *quilter, size_t area,
                                   size_t item)
{
    const struct spot label = quilter->plan->areas.items[area].label;
    const struct spot far = vertex_spot(quilter->ground->extent.high);
    const struct leads *leads = leads_of(quilter, item);
    struct leading best =
        lead_about(quilter, leads, area, quilter->regions->boxes[area]);
    for (double reach = 1; best.length <= 0 && -best.length > reach / 2 &&
                           reach < 2 * (far.x + far.y);
         reach *= 2)
        best =
            lead_about(quilter, leads, area,
                       (struct spot_line){{label.x - reach, label.y - reach},
                                          {label.x + reach, label.y + reach}});
    return best;
}

/* As geometry has rings. */
static spot_rings rest_of(struct quilter *quilter, size_t area)
{
    const struct quilted_area *found = &quilter->plan->areas.items[area];
    spot_rings rings = {0};
    for (size_t i = 0; i < found->rest_count; i++)
        *LIST_ADD(quilter->arena, &rings) = (struct spot_ring){
            found->rest[i].points, found->rest[i].count};
    return rings;
}

/* Lines of one direction are laid from the middle of the quilt, whatever area
 * they are in: those of neighbors are then in line, and a symmetric top stays
 * so where its lines do. */
static void fill_with_lines(struct quilter *quilter,
                            const struct told_item *item, size_t area)
{
    static const struct spot ways[] = {{1, 0}, {0, 1}, {1, -1}, {1, 1}};
    const spot_rings rings = rest_of(quilter, area);
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
    for (size_t i = 0; i < found.lines.count; i++) {
        const struct spot ends[2] = {found.lines.items[i].from,
                                     found.lines.items[i].to};
        add_line(quilter, item, STAGE_FILLERS, ends, 2, false)->area = area;
    }
    too_many_lines(quilter, item);
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
    quilter->echo_work += found.work;
    if (say_fault(quilter, item, found.fault))
        return;
    for (size_t i = 0; i < found.count; i++)
        add_line(quilter, item, STAGE_FILLERS, found.items[i].points,
                 found.items[i].count, found.items[i].closed)
            ->area = area;
    too_many_lines(quilter, item);
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
    if (item->of.fill.with != TOLD_NONE && !find_rest(quilter, item, area))
        return;
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
            found->rest_size, spacing);
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
