/* The areas that the lines leave, and which words reach which. Seams between
 * two fabrics bound areas, stitched or not, and so do all exact lines; echoes
 * do not, fillers stop at them. Read next: fillers.c. */
#include "regions.h"

#include <stdlib.h>

/* ---- finding ---- */

/* What bounds areas: the rim of the top, seams between two fabrics, lines. */
static void gather_bounds(struct quilter *quilter, struct regions *regions)
{
    struct arena *arena = quilter->arena;
    struct segment sides[4];
    extent_sides(quilter->ground->extent, sides);
    for (int i = 0; i < 4; i++)
        *LIST_ADD(arena, &regions->bounds) = sides[i];
    for (size_t i = 0; i < quilter->seams.count; i++)
        for (size_t k = 0; k < quilter->seams.items[i].count; k++) {
            const struct seam_part *part = &quilter->seams.items[i].parts[k];
            if (part->right != part->left)
                *LIST_ADD(arena, &regions->bounds) =
                    (struct segment){part->from, part->to};
        }
    regions->first_line = regions->bounds.count;
    for (size_t i = 0; i < quilter->exact.count; i++)
        *LIST_ADD(arena, &regions->bounds) = quilter->exact.items[i].segment;
}

/* The item of a bound, for a message; NULL for a seam. */
static const struct told_item *item_of_bound(const struct quilter *quilter,
                                             const struct regions *regions,
                                             size_t bound)
{
    if (bound < regions->first_line)
        return NULL;
    const size_t line = quilter->exact.items[bound - regions->first_line].line;
    return quilter->plan->lines.items[line].item;
}

/* Exact and in doubles, for data and for drawing. */
static void keep_rings(struct quilter *quilter, struct quilted_area *area,
                       const struct arranged_face *face)
{
    const struct arrangement *a = quilter->areas;
    struct quilted_ring *rings =
        ARENA_ARRAY(quilter->arena, struct quilted_ring, face->count);
    for (size_t i = 0; i < face->count; i++) {
        const size_t count = face->rings[i].count;
        struct spot *points = ARENA_ARRAY(quilter->arena, struct spot, count);
        struct vertex *exact =
            ARENA_ARRAY(quilter->arena, struct vertex, count);
        for (size_t k = 0; k < count; k++) {
            points[k] = a->spots[face->rings[i].points[k]];
            exact[k] = a->points[face->rings[i].points[k]];
        }
        rings[i] = (struct quilted_ring){points, exact, count};
    }
    area->rings = rings;
    area->ring_count = face->count;
}

/* ensures: false where geometry gave up; that was reported. */
static bool find_regions(struct quilter *quilter, struct regions *regions)
{
    gather_bounds(quilter, regions);
    quilter->areas = arrange_segments(quilter->arena, regions->bounds.items,
                                      regions->bounds.count);
    const struct fault fault = quilter->areas->fault;
    const struct told_item *item =
        fault.kind == FAULT_NONE
            ? NULL
            : item_of_bound(quilter, regions,
                            fault.first > fault.second ? fault.first
                                                       : fault.second);
    if (say_fault(quilter, item, fault))
        return false;
    regions->found =
        find_areas(quilter->arena, quilter->ground, quilter->areas);
    struct spot_line *boxes =
        ARENA_ARRAY(quilter->arena, struct spot_line, regions->found.count + 1);
    for (size_t i = 0; i < regions->found.count; i++) {
        const struct area *area = &regions->found.items[i];
        const struct arranged_face *face = &quilter->areas->faces[area->face];
        struct quilted_area *kept =
            LIST_ADD(quilter->arena, &quilter->plan->areas);
        *kept = (struct quilted_area){
            .fabric = area->fabric, .size = area->area, .label = face->inside};
        keep_rings(quilter, kept, face);
        boxes[i] = box_around(kept->rings[0].points, kept->rings[0].count);
    }
    regions->boxes = boxes;
    quilter->regions = regions;
    return true;
}

/* For echoes inside of it. */
struct shape shape_of_area(struct quilter *quilter, size_t area)
{
    return area_shape(quilter->arena, quilter->areas,
                      &quilter->regions->found.items[area]);
}

/* By the even-odd rule: inside the outline, and in no hole. */
bool area_holds(const struct quilter *quilter, size_t area, struct spot at)
{
    const struct quilted_area *found = &quilter->plan->areas.items[area];
    bool inside = false;
    if (!box_holds(quilter->regions->boxes[area], at))
        return false;
    for (size_t i = 0; i < found->ring_count; i++) {
        const struct spot_ring ring = {found->rings[i].points,
                                       found->rings[i].count};
        inside ^= spot_inside(&ring, 1, at);
    }
    return inside;
}

/* Areas do not overlap, so the first that holds it is the only one. */
size_t area_taken(const struct quilter *quilter, const struct told_item *item,
                  struct spot at)
{
    for (size_t i = 0; i < quilter->plan->areas.count; i++)
        if (quilter->plan->areas.items[i].item == item &&
            area_holds(quilter, i, at))
            return i;
    return QUILTING_NONE;
}

/* ---- words ---- */

/* Has a ring of the area a stretch on the rim of the rectangle, or in it? */
static bool touches_extent(const struct quilted_area *area,
                           struct extent extent, bool rim)
{
    for (size_t i = 0; i < area->ring_count; i++) {
        const struct quilted_ring *ring = &area->rings[i];
        for (size_t k = 0; k < ring->count; k++) {
            const size_t next = (k + 1) % ring->count;
            const struct spot middle = {
                (ring->points[k].x + ring->points[next].x) / 2,
                (ring->points[k].y + ring->points[next].y) / 2};
            if (rim ? extent_along(extent, ring->exact[k], ring->exact[next]) &&
                          extent_has(extent, middle)
                    : extent_has(extent, middle))
                return true;
        }
    }
    return false;
}

/* Which faces an item's exact lines touch; NULL where it has none. */
static const bool *touched_faces(struct quilter *quilter, size_t item)
{
    bool *source =
        ARENA_ARRAY(quilter->arena, bool, quilter->regions->bounds.count + 1);
    bool exact = false;
    for (size_t i = 0; i < quilter->exact.count; i++) {
        const size_t line = quilter->exact.items[i].line;
        if (quilter->plan->lines.items[line].item->index != item)
            continue;
        source[quilter->regions->first_line + i] = exact = true;
    }
    return exact ? faces_touching(quilter->arena, quilter->areas, source)
                 : NULL;
}

/* The lines of one element by place: by their first points, or by the boxes of
 * those that close. */
struct lines_by_place {
    LIST(const struct quilted_line *) lines;
    struct grid *grid;
};

static struct lines_by_place lines_of(struct quilter *quilter, size_t item,
                                      bool boxes)
{
    struct arena *arena = quilter->arena;
    struct lines_by_place found = {.grid = NULL};
    LIST(struct spot_line) places = {0};
    for (size_t i = 0; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        if (line->item->index != item || (boxes && !line->closed))
            continue;
        *LIST_ADD(arena, &found.lines) = line;
        *LIST_ADD(arena, &places) =
            box_around(line->points, boxes ? line->count : 1);
    }
    found.grid = grid_of_boxes(arena, places.items, places.count);
    return found;
}

/* Echoes bound no area: one that begins in it touches it. */
static bool holds_line(const struct quilter *quilter, size_t area,
                       const struct lines_by_place *lines)
{
    const size_t *near;
    const size_t count =
        grid_within(lines->grid, quilter->regions->boxes[area], &near);
    for (size_t i = 0; i < count; i++)
        if (area_holds(quilter, area, lines->lines.items[near[i]]->points[0]))
            return true;
    return false;
}

/* Lines that do not close hold nothing. */
static bool inside_line(const struct lines_by_place *lines, struct spot at)
{
    const size_t *near;
    const size_t count = grid_at(lines->grid, at, &near);
    for (size_t i = 0; i < count; i++) {
        const struct quilted_line *line = lines->lines.items[near[i]];
        const struct spot_ring ring = {line->points, line->count};
        if (spot_inside(&ring, 1, at))
            return true;
    }
    return false;
}

/* What the words of one `area` mean. */
struct wanted {
    const struct told_item *item;
    placement_list places, shapes;
    const bool *touched; /* by face, of exact lines; NULL for none */
    struct lines_by_place touching, inside; /* else, and of `inside` */
};

/* Does the area lie along what `touching` names? */
static bool is_touched(struct quilter *quilter, const struct wanted *wanted,
                       size_t index)
{
    const struct quilted_area *area = &quilter->plan->areas.items[index];
    switch (wanted->item->of.area.touching) {
    case TOUCHING_ANY:
        return true;
    case TOUCHING_BORDER:
        return touches_extent(area, quilter->levels[0], true);
    case TOUCHING_LINE:
        return wanted->touched != NULL
                   ? wanted->touched[quilter->regions->found.items[index].face]
                   : holds_line(quilter, index, &wanted->touching);
    case TOUCHING_SHAPE:
        break;
    }
    for (size_t i = 0; i < wanted->shapes.count; i++)
        if (touches_extent(area, wanted->shapes.items[i].extent, false))
            return true;
    return false;
}

/* All words together: fabric, place, what is touched, what is around. */
static bool fits(struct quilter *quilter, const struct wanted *wanted,
                 size_t index)
{
    const struct quilted_area *area = &quilter->plan->areas.items[index];
    const struct told_item *item = wanted->item;
    if (item->place.fabric != NO_FABRIC && item->place.fabric != area->fabric)
        return false;
    bool held = false;
    for (size_t i = 0; i < wanted->places.count && !held; i++)
        held = place_holds(quilter, &item->place, &wanted->places.items[i],
                           area->label);
    return held && is_touched(quilter, wanted, index) &&
           (item->of.area.inside == NO_ITEM ||
            inside_line(&wanted->inside, area->label));
}

/* reports: words that no area fits, and those of which nothing is left. */
static void say_none(struct quilter *quilter, const struct told_item *item,
                     const struct told_item *taken)
{
    const struct design *design = quilter->sized->design;
    if (taken != NULL) {
        struct diagnostic *d = diag_report(
            quilter->run, DIAG_FILL_UNUSED, item->element->name,
            "no area is left for this `area`: all that fit are taken");
        diag_note(quilter->run, d, taken->element->name,
                  "one is taken here; each is taken once, in order");
        diag_help(quilter->run, d,
                  "before that one, with words that fit fewer areas, it takes "
                  "its own");
        return;
    }
    struct diagnostic *d = say_error(quilter, DIAG_NO_AREA, item->element->name,
                                     "no area fits these words");
    diag_note(quilter->run, d, (struct span){0, 0}, "the lines leave %zu areas",
              quilter->plan->areas.count);
    size_t of_fabric = 0;
    for (size_t i = 0; i < quilter->plan->areas.count; i++)
        of_fabric += item->place.fabric != NO_FABRIC &&
                     quilter->plan->areas.items[i].fabric == item->place.fabric;
    if (of_fabric > 0)
        diag_help(quilter->run, d, "%zu fit%s `fabric=\"%s\"` without more",
                  of_fabric, of_fabric == 1 ? "s" : "",
                  fabric_id(design, item->place.fabric));
    enum { LISTED = 8 };
    for (size_t i = 0; i < quilter->regions->found.kind_count && i < LISTED;
         i++) {
        const struct area_kind *kind = &quilter->regions->found.kinds[i];
        const struct quilted_area *area =
            &quilter->plan->areas.items[kind->first];
        diag_note(quilter->run, d, (struct span){0, 0},
                  "%zu of `%s`, %s square %s%s, one %s", kind->count,
                  area->fabric == NO_FABRIC ? "?"
                                            : fabric_id(design, area->fabric),
                  size_words(quilter, area->size),
                  length_unit_name(design->pattern->units),
                  touches_extent(area, quilter->levels[0], true)
                      ? " beside the border"
                      : "",
                  place_words(quilter, area->label));
    }
}

/* Of the areas that fit the words, those that others took before. */
struct taken_before {
    const struct told_item *by; /* the last of those; NULL for none */
    size_t count, first;        /* of their areas */
};

/* Words for a part of what later words mean are a choice: each area goes to the
 * first. Where each of two means areas that the other does not, either could
 * have been meant for those that fit both.
 * reports: those. */
static void say_twice(struct quilter *quilter, const struct wanted *wanted,
                      const struct taken_before *before)
{
    bool apart = false;
    for (size_t i = 0; i < quilter->plan->areas.count && !apart; i++)
        apart = quilter->plan->areas.items[i].item == before->by &&
                !fits(quilter, wanted, i);
    if (!apart)
        return;
    struct diagnostic *d = diag_report(
        quilter->run, DIAG_AREA_TWICE, wanted->item->element->name,
        "%zu area%s the words of two `area`s", before->count,
        before->count == 1 ? " fits" : "s fit");
    diag_note(quilter->run, d, before->by->element->name,
              "the first takes it: one lies %s",
              place_words(quilter,
                          quilter->plan->areas.items[before->first].label));
    diag_help(quilter->run, d,
              "words that fit one of the two alone, as `row`, `column` or "
              "`touching`, tell which is meant");
}

/* Each area goes to the first words that fit it. */
static void take_areas(struct quilter *quilter, const struct told_item *item)
{
    struct wanted wanted = {.item = item};
    wanted.places = places_of(quilter, &item->place);
    if (item->of.area.touching == TOUCHING_SHAPE)
        wanted.shapes = places_of(quilter, &item->of.area.shape);
    if (wanted.places.count == 0 ||
        (item->of.area.touching == TOUCHING_SHAPE && wanted.shapes.count == 0))
        return;
    if (item->of.area.touching == TOUCHING_LINE) {
        const size_t line = (size_t)item->of.area.line;
        wanted.touched = touched_faces(quilter, line);
        wanted.touching = lines_of(quilter, line, false);
    }
    if (item->of.area.inside != NO_ITEM)
        wanted.inside = lines_of(quilter, (size_t)item->of.area.inside, true);
    struct taken_before before = {NULL, 0, 0};
    size_t taken = 0;
    for (size_t i = 0; i < quilter->plan->areas.count; i++) {
        struct quilted_area *area = &quilter->plan->areas.items[i];
        if (!fits(quilter, &wanted, i))
            continue;
        if (area->item != NULL) {
            before.first = before.count++ == 0 ? i : before.first;
            before.by = area->item;
            continue;
        }
        area->item = item;
        taken++;
    }
    if (taken == 0)
        say_none(quilter, item, before.by);
    else if (before.by != NULL)
        say_twice(quilter, &wanted, &before);
}

/* ---- kinds ---- */

/* Small letters: those of fabrics are large ones. */
static const char *kind_letter(struct arena *arena, size_t index)
{
    const char *last = arena_printf(arena, "%c", (int)('a' + index % 26));
    return index < 26 ? last
                      : arena_printf(arena, "%s%s",
                                     kind_letter(arena, index / 26 - 1), last);
}

/* What is stitched for an area alone tells it apart: one `area` took it, and
 * the same lines of the same elements lie in it. Words that name no fabric mean
 * any, so that fabrics do not tell such areas apart. */
static void add_contents(struct quilter *quilter)
{
    const struct quilting_plan *plan = quilter->plan;
    struct area *items = quilter->regions->found.items;
    for (size_t i = 0; i < plan->areas.count; i++) {
        const struct told_item *item = plan->areas.items[i].item;
        if (item == NULL)
            continue;
        area_add_number(&items[i], item->index);
        if (item->place.fabric == NO_FABRIC)
            items[i].apart = NO_FABRIC;
    }
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        if (line->area == QUILTING_NONE)
            continue;
        area_add_number(&items[line->area], line->item->index);
        for (size_t p = 0; p + (line->closed ? 0 : 1) < line->count; p++)
            area_add_stretch(&items[line->area], line->points[p],
                             line->points[(p + 1) % line->count]);
    }
}

/* By area: is something stitched for it alone? A filler may have found no room
 * there. */
static const bool *stitched_areas(struct quilter *quilter)
{
    const struct quilting_plan *plan = quilter->plan;
    bool *stitched =
        ARENA_ARRAY(quilter->arena, bool, plan->areas.count + 1);
    for (size_t i = 0; i < plan->areas.count; i++)
        stitched[i] = plan->areas.items[i].free > 0;
    for (size_t i = 0; i < plan->lines.count; i++)
        if (plan->lines.items[i].area != QUILTING_NONE)
            stitched[plan->lines.items[i].area] = true;
    return stitched;
}

struct ranked {
    size_t rank, kind; /* of geometry */
};

static int compare_ranked(const void *left, const void *right)
{
    const struct ranked *a = left, *b = right;
    if (a->rank != b->rank)
        return a->rank > b->rank ? 1 : -1;
    return (a->kind > b->kind) - (a->kind < b->kind);
}

/* In the order of the elements that took them, then as a map is read, so that
 * what is filled alike has letters in a row; empty ones come last, as the
 * booklet names most of them not at all. The numbers of kinds change with it.
 */
static void order_kinds(struct quilter *quilter)
{
    struct quilting_plan *plan = quilter->plan;
    struct arena *scratch = arena_create();
    const struct areas *found = &quilter->regions->found;
    const bool *stitched = stitched_areas(quilter);
    struct ranked *ranked =
        ARENA_ARRAY(scratch, struct ranked, found->kind_count + 1);
    size_t *place = ARENA_ARRAY(scratch, size_t, found->kind_count + 1);
    for (size_t i = 0; i < found->kind_count; i++) {
        const size_t first = found->kinds[i].first;
        ranked[i] =
            (struct ranked){stitched[first]
                                ? plan->areas.items[first].item->index
                                : quilter->told->items.count,
                            i};
    }
    qsort(ranked, found->kind_count, sizeof *ranked, compare_ranked);
    for (size_t i = 0; i < found->kind_count; i++) {
        const struct area_kind *alike = &found->kinds[ranked[i].kind];
        const struct quilted_area *area = &plan->areas.items[alike->first];
        *LIST_ADD(quilter->arena, &plan->kinds) =
            (struct quilted_kind){.letter = kind_letter(quilter->arena, i),
                                  .sample = alike->first,
                                  .count = alike->count,
                                  .fabric = area->fabric,
                                  .item = area->item,
                                  .fill = area->fill,
                                  .size = area->size};
        place[ranked[i].kind] = i;
    }
    for (size_t i = 0; i < plan->areas.count; i++)
        plan->areas.items[i].kind = place[found->items[i].kind];
    arena_destroy(scratch);
}

/* Areas that are alike and filled alike. */
static void sort_kinds(struct quilter *quilter)
{
    struct quilting_plan *plan = quilter->plan;
    struct areas *found = &quilter->regions->found;
    add_contents(quilter);
    sort_areas(quilter->arena, found);
    order_kinds(quilter);
    for (size_t i = 0; i < plan->areas.count; i++) {
        struct quilted_kind *kind =
            &plan->kinds.items[plan->areas.items[i].kind];
        if (kind->fabric != plan->areas.items[i].fabric)
            kind->fabric = NO_FABRIC;
    }
}

/* ---- filling ---- */

/* Lines from point to point are looked for once for all areas of an element. */
static void connect_areas(struct quilter *quilter)
{
    for (size_t i = 0; i < quilter->told->items.count; i++) {
        const struct told_item *item = &quilter->told->items.items[i];
        if (item->kind == TOLD_CONNECT && item->area != NO_ITEM)
            draw_connected(quilter, item);
    }
}

/* All areas are taken before any is filled, as a line that an area brings
 * along must not change which areas there are. */
void fill_areas(struct quilter *quilter)
{
    struct regions *regions = ARENA_NEW(quilter->arena, struct regions);
    if (!find_regions(quilter, regions))
        return;
    for (size_t i = 0; i < quilter->told->items.count; i++)
        if (quilter->told->items.items[i].kind == TOLD_AREA)
            take_areas(quilter, &quilter->told->items.items[i]);
    connect_areas(quilter);
    open_strips(quilter);
    for (size_t i = 0; i < quilter->plan->areas.count && !quilter->failed; i++)
        fill_one(quilter, i);
    close_strips(quilter);
    sort_kinds(quilter);
    for (size_t i = 0; i < quilter->plan->kinds.count; i++)
        draw_texture(quilter, &quilter->plan->kinds.items[i]);
}
