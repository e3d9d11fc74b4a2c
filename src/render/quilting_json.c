/* Quilting as data: points are exact texts where they are exact, and decimals
 * of six places where they are not. The manual describes each key. */
#include "quilting_json.h"

#include <math.h>

#include "pattern.h"

/* By whole numbers, so that no locale can change the point. */
const char *decimal_text(struct arena *arena, double length, int places)
{
    int64_t parts = 1;
    for (int i = 0; i < places; i++)
        parts *= 10;
    return rational_decimal(
        arena, rational_make(llround(length * (double)parts), parts), places);
}

/* Lengths in floating point: to a millionth. */
static void number(struct json *json, const char *key, double value)
{
    json_text(json, key, decimal_text(json->out.arena, value, 6));
}

static const char *thread_id(const struct quilting_plan *plan, size_t thread)
{
    return plan->told->threads.items[thread].id;
}

/* "x y": one text a point keeps large quilts readable. */
static void write_points(struct json *json, const struct wording *w,
                         const char *key, const struct spot *points,
                         const struct vertex *exact, size_t count)
{
    struct arena *arena = json->out.arena;
    const enum length_unit units = w->design->pattern->units;
    json_open(json, key, '[');
    for (size_t i = 0; i < count; i++) {
        json_open(json, NULL, '[');
        json_text(json, NULL,
                  exact != NULL ? length_exact(arena, exact[i].x, units)
                                : decimal_text(arena, points[i].x, 6));
        json_text(json, NULL,
                  exact != NULL ? length_exact(arena, exact[i].y, units)
                                : decimal_text(arena, points[i].y, 6));
        json_close(json, ']');
    }
    json_close(json, ']');
}

/* Which element asked for it. */
static void write_item(struct json *json, const struct told_item *item)
{
    json_text(json, "element", element_name(item->element->kind));
    if (item->id != NULL)
        json_text(json, "id", item->id);
}

/* How it is found on the cloth, from what, and how far from it. */
static void write_beside(struct json *json, enum line_found found,
                         enum guide_kind guide, double beside)
{
    static const char *const guides[] = {"none", "seam", "line", "edge"};
    json_text(json, "found", line_found_name(found));
    json_text(json, "guide", guides[guide]);
    number(json, "beside", beside);
}

/* Each line with its points, then the table that the booklet prints of them. */
static void write_lines(struct json *json, const struct wording *w,
                        const struct quilting_plan *plan)
{
    json_open(json, "lines", '[');
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        json_open(json, NULL, '{');
        json_text(json, "stage", quilting_stage_name(line->stage));
        json_text(json, "thread", thread_id(plan, line->thread));
        write_item(json, line->item);
        write_beside(json, line->found, line->guide, line->beside);
        if (line->area != QUILTING_NONE)
            json_number(json, "area", line->area + 1);
        json_flag(json, "closed", line->closed);
        number(json, "length", line->length);
        write_points(json, w, "points", line->points, line->exact, line->count);
        json_close(json, '}');
    }
    json_close(json, ']');
    json_open(json, "table", '[');
    for (size_t i = 0; i < plan->rows.count; i++) {
        const struct quilted_row *row = &plan->rows.items[i];
        json_open(json, NULL, '{');
        json_text(json, "stage", quilting_stage_name(row->stage));
        json_text(json, "thread", thread_id(plan, row->thread));
        write_item(json, row->item);
        write_beside(json, row->found, row->guide, row->beside);
        json_number(json, "lines", row->lines);
        number(json, "length", row->length);
        number(json, "longest", row->longest);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* Empty where an area lies over several. */
static const char *fabric_name(const struct wording *w, int fabric)
{
    return fabric == NO_FABRIC ? "" : fabric_id(w->design, fabric);
}

/* What covers the area; nothing where no words reached it. */
static void write_fill(struct json *json, const struct wording *w,
                       const struct quilting_plan *plan,
                       const struct told_item *fill)
{
    static const char *const names[] = {"lines",   "grid", "swirls",
                                        "pebbles", "echo", "none"};
    if (fill == NULL)
        return;
    json_text(json, "fill", names[fill->of.fill.with]);
    if (fill->of.fill.with == TOLD_NONE)
        return;
    json_length(json, "spacing", fill->of.fill.spacing,
                w->design->pattern->units);
    json_text(json, "thread", thread_id(plan, (size_t)fill->thread));
}

/* Each area with its outline and holes, then the kinds that have letters. */
static void write_areas(struct json *json, const struct wording *w,
                        const struct quilting_plan *plan)
{
    json_open(json, "areas", '[');
    for (size_t i = 0; i < plan->areas.count; i++) {
        const struct quilted_area *area = &plan->areas.items[i];
        json_open(json, NULL, '{');
        json_text(json, "kind", plan->kinds.items[area->kind].letter);
        json_text(json, "fabric", fabric_name(w, area->fabric));
        number(json, "size", area->size);
        number(json, "stitched", area->filled);
        json_open(json, "rings", '[');
        for (size_t k = 0; k < area->ring_count; k++)
            write_points(json, w, NULL, area->rings[k].points,
                         area->rings[k].exact, area->rings[k].count);
        json_close(json, ']');
        json_close(json, '}');
    }
    json_close(json, ']');
    json_open(json, "kinds", '[');
    for (size_t i = 0; i < plan->kinds.count; i++) {
        const struct quilted_kind *kind = &plan->kinds.items[i];
        json_open(json, NULL, '{');
        json_text(json, "letter", kind->letter);
        if (kind->item != NULL && kind->item->id != NULL)
            json_text(json, "id", kind->item->id);
        json_text(json, "fabric", fabric_name(w, kind->fabric));
        json_number(json, "areas", kind->count);
        number(json, "size", kind->size);
        number(json, "stitched", kind->filled);
        write_fill(json, w, plan, kind->fill);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* A step ends where the next begins; only a start tells where it comes from. */
static void write_steps(struct json *json, const struct quilted_route *route)
{
    static const char *const manners[] = {"stitch", "travel-ditch",
                                          "travel-back"};
    json_open(json, "steps", '[');
    for (size_t i = 0; i < route->steps.count; i++) {
        const struct path_step *step = &route->steps.items[i];
        json_open(json, NULL, '{');
        json_text(json, "manner", manners[step->manner]);
        number(json, "x", step->to.x);
        number(json, "y", step->to.y);
        if (step->start) {
            number(json, "fromX", step->from.x);
            number(json, "fromY", step->from.y);
        }
        if (step->line != QUILTING_NONE)
            json_number(json, "line", step->line + 1);
        if (step->area != QUILTING_NONE)
            json_number(json, "area", step->area + 1);
        if (step->turn)
            json_flag(json, "turn", true);
        if (step->bobbin)
            json_flag(json, "bobbin", true);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* In the order in which they are stitched. */
static void write_routes(struct json *json, const struct quilting_plan *plan)
{
    json_open(json, "routes", '[');
    for (size_t i = 0; i < plan->routes.count; i++) {
        const struct quilted_route *route = &plan->routes.items[i];
        json_open(json, NULL, '{');
        json_text(json, "stage", quilting_stage_name(route->stage));
        json_text(json, "thread", thread_id(plan, route->thread));
        json_number(json, "starts", route->starts);
        json_number(json, "startsWithoutTravel", route->starts_alone);
        json_number(json, "bobbinChanges", route->changes);
        json_number(json, "turns", route->turns);
        number(json, "stitched", route->stitched);
        number(json, "travelled", route->travelled);
        write_steps(json, route);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* What plays the thread in a colorway, and the fabrics on which it shows, of
 * those that it runs over. */
static void write_dress(struct json *json, const struct wording *w,
                        const struct quilting_plan *plan, size_t colorway,
                        size_t thread)
{
    const struct thread_dress *dress =
        &plan->dresses[colorway * plan->told->threads.count + thread];
    const struct thread_amount *amount = &plan->amounts[thread];
    json_open(json, NULL, '{');
    json_text(json, "id", w->design->colorways.items[colorway].id);
    json_text(json, "name", dress->name);
    json_text(json, "color",
              arena_printf(json->out.arena, "#%02x%02x%02x",
                           (unsigned)lround(dress->red * 255),
                           (unsigned)lround(dress->green * 255),
                           (unsigned)lround(dress->blue * 255)));
    if (dress->spools > 0)
        json_number(json, "spools", dress->spools);
    json_open(json, "shows", '[');
    for (size_t f = 0; f < w->design->fabrics.count; f++)
        if (amount->over[f] > 0 && dress->shows[f])
            json_text(json, NULL, w->design->fabrics.items[f].id);
    json_close(json, ']');
    json_close(json, '}');
}

/* Lengths for the whole quilt, with travel, starts and waste. */
static void write_threads(struct json *json, const struct wording *w,
                          const struct quilting_plan *plan)
{
    json_open(json, "threads", '[');
    for (size_t i = 0; i < plan->told->threads.count; i++) {
        const struct thread_amount *amount = &plan->amounts[i];
        json_open(json, NULL, '{');
        json_text(json, "id", thread_id(plan, i));
        json_text(json, "below",
                  thread_id(plan, plan->told->threads.items[i].below));
        number(json, "line", amount->line);
        number(json, "travel", amount->travel);
        json_number(json, "starts", amount->starts);
        number(json, "lengthAbove", amount->above);
        number(json, "lengthBelow", amount->below);
        number(json, "length", amount->bought);
        json_number(json, "bobbins", amount->bobbins);
        json_open(json, "colorways", '[');
        for (size_t c = 0; c < w->design->colorways.count; c++)
            write_dress(json, w, plan, c, i);
        json_close(json, ']');
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* By the words of the attribute, in their order. */
static void write_symmetry(struct json *json, const struct quilting_plan *plan)
{
    static const char *const names[] = {"left-right", "top-bottom",
                                        "half-turn",  "quarter-turn",
                                        "rising",     "falling"};
    json_open(json, "symmetry", '[');
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if ((plan->symmetry >> i & 1) != 0)
            json_text(json, NULL, names[i]);
    json_close(json, ']');
}

/* Totals first, so that they can be read at a glance. */
void write_quilting(struct json *json, const struct wording *w,
                    const struct quilting_plan *plan)
{
    json_open(json, "quilting", '{');
    number(json, "length", plan->length);
    number(json, "withoutMark", quilting_unmarked(plan));
    json_number(json, "starts", plan->starts);
    json_number(json, "turns", plan->turns);
    json_number(json, "bobbinChanges", plan->changes);
    write_symmetry(json, plan);
    if (plan->gap_known) {
        json_open(json, "gap", '{');
        number(json, "atLeast", plan->gap.least);
        number(json, "atMost", plan->gap.most);
        number(json, "x", plan->gap.at.x);
        number(json, "y", plan->gap.at.y);
        json_close(json, '}');
    }
    write_threads(json, w, plan);
    write_lines(json, w, plan);
    write_areas(json, w, plan);
    write_routes(json, plan);
    json_close(json, '}');
}
