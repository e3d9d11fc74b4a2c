/* Which areas the booklet names by letters, and the pages in true size for what
 * must be marked in them. Read next: section_quilting.c. */
#include "contents.h"

/* ---- stages ---- */

bool quilting_has_stage(const struct quilting_plan *plan,
                        enum quilting_stage stage)
{
    for (size_t i = 0; i < plan->routes.count; i++)
        if (plan->routes.items[i].stage == stage)
            return true;
    return false;
}

size_t quilting_stages(const struct quilting_plan *plan,
                       enum quilting_stage *last)
{
    size_t count = 0;
    for (int i = 0; i < QUILTING_STAGES; i++)
        if (quilting_has_stage(plan, (enum quilting_stage)i)) {
            *last = (enum quilting_stage)i;
            count++;
        }
    return count;
}

static size_t turns_of(const struct quilting_plan *plan,
                       enum quilting_stage stage)
{
    size_t turns = 0;
    for (size_t i = 0; i < plan->routes.count; i++)
        if (plan->routes.items[i].stage == stage)
            turns += plan->routes.items[i].turns;
    return turns;
}

/* So many have room beside words, as a try on pages shows; a page is given only
 * to very many, as it takes that of the coloring page. */
enum { TURNS_BESIDE = 120, TURNS_OF_PAGE = 300 };

bool quilting_way_is_long(const struct quilting_plan *plan,
                          enum quilting_stage stage)
{
    return stage <= STAGE_LINES && turns_of(plan, stage) > TURNS_OF_PAGE;
}

bool quilting_way_is_short(const struct quilting_plan *plan,
                           enum quilting_stage stage)
{
    return stage <= STAGE_LINES && turns_of(plan, stage) <= TURNS_BESIDE;
}

bool quilting_is_short(const struct cutplan *plan)
{
    enum { FEW = 2 };
    enum quilting_stage last;
    return quilting_stages(plan->quilting, &last) <= FEW &&
           !(plan->quilting->by_found[FOUND_MARK] > 0) &&
           (plan->backing.wanted || plan->batting_wanted);
}

/* ---- which kinds are told ---- */

/* As on the page: its first stretch begins in the area. */
static bool ring_holds(const struct quilted_ring *ring, struct spot at)
{
    bool odd = false;
    for (size_t i = 0, k = ring->count - 1; i < ring->count; k = i++) {
        const struct spot a = ring->points[i], b = ring->points[k];
        if ((a.y > at.y) != (b.y > at.y) &&
            at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y))
            odd = !odd;
    }
    return odd;
}

/* Only what nothing else finds. */
static bool has_mark(const struct quilting_plan *plan,
                     const struct quilted_area *area)
{
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        const struct spot a = line->points[0], b = line->points[1];
        if (line->found == FOUND_MARK && area->ring_count > 0 &&
            ring_holds(&area->rings[0],
                       (struct spot){(a.x + b.x) / 2.0, (a.y + b.y) / 2.0}))
            return true;
    }
    return false;
}

bool quilting_kind_shown(const struct quilting_plan *plan, size_t kind)
{
    const struct quilted_kind *found = &plan->kinds.items[kind];
    return found->filled > 0 ||
           has_mark(plan, &plan->areas.items[found->sample]);
}

bool quilting_path_plain(const struct quilted_kind *kind)
{
    enum { FEW = 5 };
    size_t legs = 0, starts = 0;
    for (size_t i = 0; i < kind->sequences.count; i++) {
        const struct quilted_route *route = &kind->sequences.items[i];
        starts += route->starts;
        for (size_t k = 0; k < route->steps.count; k = route_leg_end(route, k))
            legs++;
    }
    return legs <= 1 || (legs <= FEW && starts <= 1);
}

/* ---- marks ---- */

/* One area of the kind stands for all of them. */
static void add_mark(const struct wording *w, struct contents *contents,
                     const struct cutplan *plan, size_t index)
{
    const struct quilted_kind *kind = &plan->quilting->kinds.items[index];
    const struct told_figure figure = {
        .drawing = DRAWING_QUILTING_MARKS,
        .quilting = plan->quilting,
        .colorway = plan->colorway,
        .kind = index,
        .caption = say(w->arena, w->phrases, "quilting.mark-area", "letter",
                       kind->letter, "count", say_count(w->arena, kind->count),
                       NULL),
        .told = say(w->arena, w->phrases, "quilting.mark-told", "letter",
                    kind->letter, NULL)};
    add_figure(w, contents, PART_MARKS, figure);
}

/* Where nothing needs a mark there is no page, and no heading. */
struct contents tell_quilting_marks(const struct wording *w,
                                    const struct cutplan *plan)
{
    struct contents contents = {.items = {0}};
    const struct quilting_plan *quilting = plan->quilting;
    for (size_t i = 0; quilting != NULL && i < quilting->kinds.count; i++) {
        if (!has_mark(quilting,
                      &quilting->areas.items[quilting->kinds.items[i].sample]))
            continue;
        if (contents.items.count == 0) {
            add_title(w, &contents,
                      say(w->arena, w->phrases, "quilting.marks", NULL),
                      say(w->arena, w->phrases, "quilting.marks-lead", NULL));
            add_squares(w, &contents);
        }
        add_mark(w, &contents, plan, i);
    }
    return contents;
}
