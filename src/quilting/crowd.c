/* Checks that look at single ends and paths: many ends in one point, areas that
 * cost a start, how dense areas are. Read next: checks.c. */
#include "regions.h"

#include <math.h>
#include <stdlib.h>

static double span_of(struct spot a, struct spot b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* Of closed lines side by side, each side is one setting of the ruler. */
double longest_straight(const struct quilter *quilter,
                        const struct quilted_row *row)
{
    double longest = 0;
    for (size_t i = 0; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        if (line->item != row->item || line->found != row->found ||
            line->beside != row->beside)
            continue;
        for (size_t k = 0; k + (line->closed ? 0 : 1) < line->count; k++)
            longest =
                fmax(longest, span_of(line->points[k],
                                      line->points[(k + 1) % line->count]));
    }
    return longest;
}

/* ---- ends ---- */

struct line_end {
    struct spot at;
    const struct told_item *item;
};

/* By place, and where that is one by element. */
static int compare_ends(const void *first, const void *second)
{
    const struct line_end *a = first, *b = second;
    if (fabs(a->at.x - b->at.x) > 1e-6)
        return a->at.x < b->at.x ? -1 : 1;
    if (fabs(a->at.y - b->at.y) > 1e-6)
        return a->at.y < b->at.y ? -1 : 1;
    return a->item->index < b->item->index   ? -1
           : a->item->index > b->item->index ? 1
                                             : 0;
}

/* Lines from point to point alone crowd: seams do so when they are sewn. */
void check_ends(struct quilter *quilter)
{
    enum { ENDS_MOST = 8 };
    struct arena *scratch = arena_create();
    LIST(struct line_end) ends = {0};
    for (size_t i = 0; i < quilter->plan->lines.count; i++) {
        const struct quilted_line *line = &quilter->plan->lines.items[i];
        if (line->closed || line->item->kind != TOLD_CONNECT)
            continue;
        *LIST_ADD(scratch, &ends) =
            (struct line_end){line->points[0], line->item};
        *LIST_ADD(scratch, &ends) =
            (struct line_end){line->points[line->count - 1], line->item};
    }
    if (ends.count > 1)
        qsort(ends.items, ends.count, sizeof *ends.items, compare_ends);
    size_t most = 0, at = 0;
    for (size_t i = 0, first = 0; i < ends.count; i++) {
        if (span_of(ends.items[i].at, ends.items[first].at) > 2e-6)
            first = i;
        if (i - first + 1 > most) {
            most = i - first + 1;
            at = first;
        }
    }
    if (most > ENDS_MOST) {
        struct diagnostic *d = diag_report(
            quilter->run, DIAG_LINES_CROWD, ends.items[at].item->element->name,
            "%zu lines end in one point, more than %d", most, ENDS_MOST);
        diag_note(quilter->run, d, (struct span){0, 0}, "it lies %s",
                  place_words(quilter, ends.items[at].at));
        diag_help(quilter->run, d,
                  "stop=\"1/4\" lets them end before they meet");
    }
    arena_destroy(scratch);
}

/* ---- starts ---- */

/* reports: how many areas of one element no travel leads to. */
static void say_unreached(struct quilter *quilter, const struct told_item *item,
                          size_t count)
{
    struct diagnostic *d = diag_report(
        quilter->run, DIAG_START_EXTRA, item->element->name,
        "%zu of these areas %s a start of %s own: no travel leads there", count,
        count == 1 ? "costs" : "cost", count == 1 ? "its" : "their");
    diag_help(quilter->run, d,
              "travel leads where a filler ends on a seam pressed to one side "
              "or, with travel=\"any\", on a stitched line; echoes end on "
              "nothing");
}

/* Only where one start is not all there is, and where travel is wanted. */
void check_starts_extra(struct quilter *quilter)
{
    const struct quilting_plan *plan = quilter->plan;
    if (quilter->told->travel == TRAVEL_NOWHERE || plan->starts < 2)
        return;
    struct arena *scratch = arena_create();
    size_t *areas =
        ARENA_ARRAY(scratch, size_t, quilter->told->items.count + 1);
    for (size_t i = 0; i < plan->areas.count; i++)
        if (plan->areas.items[i].filled > 0 && !quilter->reached[i])
            areas[plan->areas.items[i].item->index]++;
    for (size_t i = 0; i < quilter->told->items.count; i++)
        if (areas[i] > 0)
            say_unreached(quilter, &quilter->told->items.items[i], areas[i]);
    arena_destroy(scratch);
}

/* ---- density ---- */

/* How much of the rim of each area is stitched, or the edge of the quilt,
 * where the binding is sewn. By face. */
static const double *held_rims(struct quilter *quilter)
{
    enum { SIDES = 4 };
    const struct arrangement *a = quilter->areas;
    double *held = ARENA_ARRAY(quilter->arena, double, a->face_count + 1);
    for (size_t p = 0; p < a->piece_count; p++) {
        const struct arranged_piece *piece = &a->pieces[p];
        bool stitched = false;
        for (size_t i = piece->first; i < piece->last; i++)
            stitched = stitched || a->sources[i] < SIDES ||
                       a->sources[i] >= quilter->regions->first_line;
        const struct spot from = a->spots[piece->from];
        const struct spot to = a->spots[piece->to];
        const double length = stitched ? hypot(to.x - from.x, to.y - from.y) : 0;
        if (piece->right >= 0)
            held[piece->right] += length;
        if (piece->left >= 0)
            held[piece->left] += length;
    }
    return held;
}

/* Of the lines of echoes that cross areas; of one area of each kind, as such
 * lines lie alike in all of them where the top is quilted evenly. */
static const double *echoes_in_kinds(struct quilter *quilter)
{
    const struct quilting_plan *plan = quilter->plan;
    double *lengths =
        ARENA_ARRAY(quilter->arena, double, plan->kinds.count + 1);
    for (size_t k = 0; k < plan->kinds.count; k++)
        for (size_t i = 0; i < plan->lines.count; i++) {
            const struct quilted_line *line = &plan->lines.items[i];
            if (line->stage == STAGE_ECHOES)
                lengths[k] +=
                    length_in_area(quilter, plan->kinds.items[k].sample, line);
        }
    return lengths;
}

/* An area is held by what is stitched in it, and by half of what is stitched
 * along its rim. */
void check_density(struct quilter *quilter)
{
    struct quilting_plan *plan = quilter->plan;
    const bool metric = quilter->sized->design->pattern->units == UNIT_CM;
    /* Smaller ones are held by their rims; 4 : 1 (our choice). */
    const double small = metric ? 6.4516 : 1, most = 4;
    size_t densest = QUILTING_NONE, sparsest = QUILTING_NONE;
    const double *held = held_rims(quilter);
    const double *echoes = echoes_in_kinds(quilter);
    for (size_t i = 0; i < plan->areas.count; i++) {
        const struct quilted_area *area = &plan->areas.items[i];
        if (area->size < small)
            continue;
        const size_t face = quilter->regions->found.items[i].face;
        const double density =
            (area->filled + echoes[area->kind] + held[face] / 2) / area->size;
        if (densest == QUILTING_NONE || density > plan->density_most) {
            densest = i;
            plan->density_most = density;
        }
        if (sparsest == QUILTING_NONE || density < plan->density_least) {
            sparsest = i;
            plan->density_least = density;
        }
    }
    if (densest == QUILTING_NONE ||
        plan->density_most <= most * plan->density_least + 1e-9)
        return;
    const char *unit = metric ? "cm on a square cm" : "in on a square in";
    struct diagnostic *d = diag_report(
        quilter->run, DIAG_DENSITY, quilter->told->element->name,
        "some areas are quilted more than %d times as densely as others",
        (int)most);
    const size_t areas[2] = {densest, sparsest};
    for (int i = 0; i < 2; i++) {
        const struct quilted_area *area = &plan->areas.items[areas[i]];
        const double density =
            i == 0 ? plan->density_most : plan->density_least;
        diag_note(quilter->run, d,
                  area->item != NULL ? area->item->element->name
                                     : (struct span){0, 0},
                  "area %s has %s %s, %s", plan->kinds.items[area->kind].letter,
                  rational_decimal(quilter->arena,
                                   rational_make(llround(density * 100), 100),
                                   2),
                  unit, place_words(quilter, area->label));
    }    diag_help(quilter->run, d,
              "a wider spacing in area %s, or more in area %s, evens it",
              plan->kinds.items[plan->areas.items[densest].kind].letter,
              plan->kinds.items[plan->areas.items[sparsest].kind].letter);
}
