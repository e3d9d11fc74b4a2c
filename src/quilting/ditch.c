/* Stitching in seams, and exact lines in general: stretches that lie on one
 * straight line are put together, and none is stitched twice, whichever
 * elements ask for it. May assume straight seams. Read next: lines.c. */
#include <stdlib.h>

#include "quilter.h"

/* ---- stretches of one line ---- */

struct stretch {
    struct straight line;
    struct vertex from, to; /* `from` the lower one */
};

/* Line by line, and along each from its lower end on. */
static int compare_stretches(const void *first, const void *second)
{
    const struct stretch *a = first, *b = second;
    const int line = straight_compare(a->line, b->line);
    if (line != 0)
        return line;
    const int from = vertex_compare(a->from, b->from);
    return from != 0 ? from : vertex_compare(a->to, b->to);
}

/* Of segments of some length, as their lines are known; sorted. */
static struct stretch *
stretches_of(struct arena *arena, const struct segment *segments, size_t *count)
{
    struct stretch *stretches = ARENA_ARRAY(arena, struct stretch, *count + 1);
    size_t kept = 0;
    for (size_t i = 0; i < *count; i++) {
        struct segment s = segments[i];
        const int order = vertex_compare(s.from, s.to);
        if (order == 0)
            continue;
        if (order > 0)
            s = (struct segment){s.to, s.from};
        const struct straight line = straight_through(s.from, s.to);
        if (straight_known(line))
            stretches[kept++] = (struct stretch){line, s.from, s.to};
    }
    *count = kept;
    if (kept > 1)
        qsort(stretches, kept, sizeof *stretches, compare_stretches);
    return stretches;
}

/* Stretches of one line come one behind the other, so each is compared with
 * the last that was kept alone. ensures: how many are left. */
static size_t unite(struct stretch *stretches, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        struct stretch *last = kept > 0 ? &stretches[kept - 1] : NULL;
        if (last == NULL || !straight_equal(last->line, stretches[i].line) ||
            vertex_compare(last->to, stretches[i].from) < 0)
            stretches[kept++] = stretches[i];
        else if (vertex_compare(last->to, stretches[i].to) < 0)
            last->to = stretches[i].to;
    }
    return kept;
}

/* Two blocks share the seam between them, and both may ask for it. */
void unite_segments(struct arena *arena, segment_list *segments)
{
    struct arena *scratch = arena_create();
    size_t count = segments->count;
    struct stretch *stretches = stretches_of(scratch, segments->items, &count);
    count = unite(stretches, count);
    segments->count = 0;
    for (size_t i = 0; i < count; i++)
        *LIST_ADD(arena, segments) =
            (struct segment){stretches[i].from, stretches[i].to};
    arena_destroy(scratch);
}

/* The first stretch of that line, or where it would stand. */
static size_t first_of_line(const struct stretch *stretches, size_t count,
                            struct straight line)
{
    size_t low = 0;
    while (low < count) {
        const size_t middle = low + (count - low) / 2;
        if (straight_compare(stretches[middle].line, line) < 0)
            low = middle + 1;
        else
            count = middle;
    }
    return low;
}

/* Adds what of the stretch the others, united and sorted, leave. */
static void add_rest(struct arena *arena, segment_list *rest,
                     struct stretch stretch, const struct stretch *others,
                     size_t count)
{
    for (size_t i = first_of_line(others, count, stretch.line);
         i < count && straight_equal(others[i].line, stretch.line); i++) {
        if (vertex_compare(others[i].to, stretch.from) <= 0)
            continue;
        if (vertex_compare(others[i].from, stretch.to) >= 0)
            break;
        if (vertex_compare(others[i].from, stretch.from) > 0)
            *LIST_ADD(arena, rest) =
                (struct segment){stretch.from, others[i].from};
        stretch.from = others[i].to;
        if (vertex_compare(stretch.from, stretch.to) >= 0)
            return;
    }
    *LIST_ADD(arena, rest) = (struct segment){stretch.from, stretch.to};
}

/* Made anew each time: elements are few, and lines grow with each of them. */
segment_list uncovered(struct quilter *quilter, const segment_list *segments)
{
    struct arena *scratch = arena_create();
    segment_list rest = {0};
    size_t count = segments->count, drawn = quilter->exact.count;
    struct segment *lines = ARENA_ARRAY(scratch, struct segment, drawn + 1);
    for (size_t i = 0; i < drawn; i++)
        lines[i] = quilter->exact.items[i].segment;
    struct stretch *others = stretches_of(scratch, lines, &drawn);
    drawn = unite(others, drawn);
    const struct stretch *stretches =
        stretches_of(scratch, segments->items, &count);
    for (size_t i = 0; i < count; i++)
        add_rest(quilter->arena, &rest, stretches[i], others, drawn);
    arena_destroy(scratch);
    return rest;
}

/* The line keeps its exact ends beside those in doubles, for areas and for
 * data. */
void add_exact_line(struct quilter *quilter, const struct told_item *item,
                    enum quilting_stage stage, struct segment segment)
{
    struct spot points[2] = {vertex_spot(segment.from),
                             vertex_spot(segment.to)};
    struct quilted_line *line =
        add_line(quilter, item, stage, points, 2, false);
    struct vertex *exact = ARENA_ARRAY(quilter->arena, struct vertex, 2);
    exact[0] = segment.from;
    exact[1] = segment.to;
    line->exact = exact;
    *LIST_ADD(quilter->arena, &quilter->exact) =
        (struct exact_line){segment, quilter->plan->lines.count - 1};
}

/* ---- the ditch ---- */

/* Do the fabrics beside the part fit the words? */
static bool is_asked(const struct told_item *item, const struct seam_part *part)
{
    if (item->place.fabric != NO_FABRIC && part->left != item->place.fabric &&
        part->right != item->place.fabric)
        return false;
    return item->between[0] == NO_FABRIC ||
           seam_between(part, item->between[0], item->between[1]);
}

/* What of the part lies in the place. reports: a place on it that leaves the
 * number type. */
static bool part_in_place(struct quilter *quilter, const struct told_item *item,
                          const struct placement *placement,
                          const struct seam_part *part, struct segment *inside)
{
    if (!segment_within((struct segment){part->from, part->to},
                        placement->extent, inside))
        return false;
    if (!vertex_known(inside->from) || !vertex_known(inside->to))
        return !say_fault(quilter, item, (struct fault){FAULT_LIMIT, 0, 0});
    if (item->outline && !extent_along(placement->extent, inside->from, inside->to))
        return false;
    const struct spot middle =
        vertex_spot(vertex_middle(inside->from, inside->to));
    return place_holds(quilter, &item->place, placement, middle);
}

/* Two fabrics that meet in a seam. */
struct meeting {
    int left, right;
};
typedef LIST(struct meeting) meeting_list;

/* Does a stretch of the part lie in one of the places? */
static bool part_in_places(struct quilter *quilter,
                           const struct told_item *item,
                           const placement_list *places,
                           const struct seam_part *part)
{
    struct segment inside;
    for (size_t p = 0; p < places->count; p++)
        if (part_in_place(quilter, item, &places->items[p], part, &inside))
            return true;
    return false;
}

/* Which pairs of fabrics do meet in the places, each once. */
static meeting_list meetings_in(struct quilter *quilter,
                                const struct told_item *item,
                                const placement_list *places)
{
    meeting_list meetings = {0};
    struct told_item any = *item;
    any.between[0] = NO_FABRIC;
    for (size_t i = 0; i < quilter->seams.part_count; i++) {
        const struct seam_part *part = &quilter->seams.parts[i];
        bool known = part->left == part->right || !is_asked(&any, part);
        for (size_t k = 0; k < meetings.count && !known; k++)
            known = seam_between(part, meetings.items[k].left,
                                 meetings.items[k].right);
        if (!known && part_in_places(quilter, &any, places, part))
            *LIST_ADD(quilter->arena, &meetings) =
                (struct meeting){part->left, part->right};
    }
    return meetings;
}

/* reports: no seam between two fabrics, and which do meet there. */
static void say_no_seam(struct quilter *quilter, const struct told_item *item,
                        const placement_list *places)
{
    enum { LISTED = 6 };
    const struct design *design = quilter->sized->design;
    const bool told = item->between[0] != NO_FABRIC;
    const struct span span =
        value_span(item->element, told ? ATTR_BETWEEN : ATTR_OF);
    struct diagnostic *d =
        say_error(quilter, DIAG_NO_SEAM, span,
                  told ? "no seam lies between `%s` and `%s` there"
                       : "no such seam lies there",
                  told ? fabric_id(design, item->between[0]) : "",
                  told ? fabric_id(design, item->between[1]) : "");
    const meeting_list meetings = meetings_in(quilter, item, places);
    for (size_t i = 0; i < meetings.count && i < LISTED; i++)
        diag_note(quilter->run, d, (struct span){0, 0},
                  "a seam there lies between `%s` and `%s`",
                  fabric_id(design, meetings.items[i].left),
                  fabric_id(design, meetings.items[i].right));
    if (meetings.count == 0)
        diag_note(quilter->run, d, (struct span){0, 0},
                  "no seam at all is there");
    if (meetings.count == 1 && told) {
        const char *pair =
            arena_printf(quilter->arena, "%s %s",
                         fabric_id(design, meetings.items[0].left),
                         fabric_id(design, meetings.items[0].right));
        diag_mend(quilter->run, d, span, pair,
                  "between=\"%s\" is the one that is there", pair);
    }
}

/* Of straight seams, what is asked for and pressed open, or pressed to a side.
 */
static void add_parts(struct quilter *quilter, const struct told_item *item,
                      const struct placement *placement, bool open,
                      segment_list *parts)
{
    struct arena *scratch = arena_create();
    size_t count;
    const size_t *about =
        parts_about(scratch, &quilter->seams, placement->extent, &count);
    for (size_t i = 0; i < count; i++) {
        const struct seam_part *part = &quilter->seams.parts[about[i]];
        struct segment inside;
        if ((part->x == 0 && part->y == 0) == open && is_asked(item, part) &&
            part_in_place(quilter, item, placement, part, &inside))
            *LIST_ADD(quilter->arena, parts) = inside;
    }
    arena_destroy(scratch);
}

/* Seams that are pressed open are lines of their own, as their ditch is told
 * apart. */
void draw_ditch(struct quilter *quilter, const struct told_item *item)
{
    const placement_list places = places_of(quilter, &item->place);
    size_t found = 0;
    for (int open = 0; open < 2; open++) {
        segment_list parts = {0};
        for (size_t i = 0; i < places.count; i++)
            add_parts(quilter, item, &places.items[i], open == 1, &parts);
        unite_segments(quilter->arena, &parts);
        found += parts.count;
        const segment_list rest = uncovered(quilter, &parts);
        for (size_t i = 0; i < rest.count; i++) {
            add_exact_line(quilter, item, STAGE_DITCH, rest.items[i]);
            quilter->plan->lines.items[quilter->plan->lines.count - 1]
                .seam_open = open == 1;
        }
    }
    if (found == 0 && places.count > 0)
        say_no_seam(quilter, item, &places);
}
