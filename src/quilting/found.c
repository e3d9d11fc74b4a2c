/* How each line is found on the cloth, and the table of lines: those of one
 * element that are found alike are a row. Read next: paths.c. */
#include "quilter.h"

#include <math.h>

/* Does the line go round somewhere? Corners of `rounded` echoes are chords that
 * turn by little each (echo.h), where pieced cloth has none so blunt; echoes
 * inside of a convex shape have no round corner at all, whatever was asked. */
static bool goes_round(const struct quilted_line *line)
{
    const double blunt = 20 * acos(-1) / 180; /* a chord turns by 15 at 1/16 in */
    const size_t turns = line->closed ? line->count : line->count - 2;
    for (size_t i = 0; i < turns; i++) {
        const struct spot a = line->points[i];
        const struct spot b = line->points[(i + 1) % line->count];
        const struct spot c = line->points[(i + 2) % line->count];
        const double turn =
            fabs(atan2((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x),
                       (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y)));
        if (turn > 1e-6 && turn < blunt)
            return true;
    }
    return false;
}

/* Beside something, at the distance of the foot or not: the foot follows what is
 * round as well, a ruler straight lines alone, so what is round is drawn. */
static enum line_found found_beside(const struct quilter *quilter,
                                    const struct quilted_line *line)
{
    const double foot = number_double(quilter->told->foot);
    if (fabs(line->beside - foot) < 1e-6)
        return FOUND_FOOT;
    return line->item->kind == TOLD_ECHO && line->item->of.echo.rounded &&
                   goes_round(line)
               ? FOUND_MARK
               : FOUND_RULER;
}

/* What lies in a seam, or goes on from one, is found by it; what runs from
 * point to point by its points; all else lies beside something. */
static void find_way(const struct quilter *quilter, struct quilted_line *line)
{
    switch (line->item->kind) {
    case TOLD_DITCH:
    case TOLD_EXTEND:
        line->found = FOUND_SEAM;
        line->guide = GUIDE_SEAM;
        return;
    case TOLD_CONNECT:
        line->found = FOUND_POINTS;
        return;
    case TOLD_FILL:
        line->guide = GUIDE_LINE;
        line->beside = number_double(line->item->of.fill.spacing);
        break;
    case TOLD_ECHO:
    case TOLD_AREA:
        break;
    }
    line->found = found_beside(quilter, line);
}

/* Distances are set, not measured, so that they are equal or apart. */
static bool in_row(const struct quilted_row *row,
                   const struct quilted_line *line)
{
    return row->item == line->item && row->found == line->found &&
           row->guide == line->guide && fabs(row->beside - line->beside) < 1e-9;
}

/* The rows of one element stand together, as its lines do. */
static void add_to_row(struct quilter *quilter, const struct quilted_line *line)
{
    struct quilting_plan *plan = quilter->plan;
    size_t i = plan->rows.count;
    while (i > 0 && !in_row(&plan->rows.items[i - 1], line))
        i--;
    if (i == 0) {
        *LIST_ADD(quilter->arena, &plan->rows) =
            (struct quilted_row){.item = line->item,
                                 .stage = line->stage,
                                 .thread = line->thread,
                                 .found = line->found,
                                 .guide = line->guide,
                                 .beside = line->beside};
        i = plan->rows.count;
    }
    struct quilted_row *row = &plan->rows.items[i - 1];
    row->lines++;
    row->length += line->length;
    row->longest = fmax(row->longest, line->length);
}

/* Swirls and pebbles are a row by element, too; a line is an area. */
static void add_free(struct quilter *quilter, const struct quilted_area *area)
{
    const struct quilted_line line = {.item = area->fill,
                                      .stage = STAGE_FILLERS,
                                      .thread = (size_t)area->fill->thread,
                                      .length = area->free,
                                      .found = FOUND_FREE};
    add_to_row(quilter, &line);
    quilter->plan->by_found[FOUND_FREE] += area->free;
    quilter->plan->length += area->free;
}

/* Behind the lines of areas, so that areas know what is stitched in them. */
void find_ways(struct quilter *quilter)
{
    struct quilting_plan *plan = quilter->plan;
    for (size_t i = 0; i < plan->lines.count; i++) {
        struct quilted_line *line = &plan->lines.items[i];
        find_way(quilter, line);
        add_to_row(quilter, line);
        plan->by_found[line->found] += line->length;
        plan->length += line->length;
        if (line->area != QUILTING_NONE)
            plan->areas.items[line->area].filled += line->length;
    }
    for (size_t i = 0; i < plan->areas.count; i++) {
        struct quilted_area *area = &plan->areas.items[i];
        area->filled += area->free;
        if (area->free > 0)
            add_free(quilter, area);
    }
    for (size_t i = 0; i < plan->kinds.count; i++)
        plan->kinds.items[i].filled =
            plan->areas.items[plan->kinds.items[i].sample].filled;
}
