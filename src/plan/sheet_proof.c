/* The proof of a plan of sheets: every piece is laid out at its place, and
 * nothing is believed of what the planner says but its cuts. */
#include <string.h>

#include "sheet_plan.h"

/* A cut part of a sheet: from here so far. */
struct area {
    int64_t x, y, width, height;
};

/* One sheet while it is laid out. `holds` stays false once a cut is wrong. */
struct proof {
    const struct sheet_problem *problem;
    struct arena *arena;
    LIST(struct area) pieces;
    size_t *made;
    bool holds;
};

/* Along and across a strip become width and height on the sheet. */
static struct area turned(bool down, struct area area)
{
    if (!down)
        return area;
    return (struct area){area.y, area.x, area.height, area.width};
}

/* Is the piece one of the list, its grain as asked? `lies` is upright. */
static bool is_piece(const struct sheet_problem *problem, size_t size,
                     struct area lies)
{
    if (size >= problem->count)
        return false;
    const struct roll_size *piece = &problem->sizes[size];
    return (lies.width == piece->width && lies.height == piece->height) ||
           (piece->turns && lies.width == piece->height &&
            lies.height == piece->width);
}

/* Edges may touch. */
static bool overlap(const struct area *a, const struct area *b)
{
    return a->x < b->x + b->width && b->x < a->x + a->width &&
           a->y < b->y + b->height && b->y < a->y + a->height;
}

/* One segment, cut from edge to edge of its strip; its slices are cut from edge
 * to edge of the segment. Heights are divided, not multiplied: a plan that is
 * wrong may hold any number, and a product could overflow and look right. */
static void lay_segment(struct proof *proof, const struct sheet_cut *cut,
                        bool down, struct area strip, int64_t along)
{
    if (cut->along <= 0 || cut->across <= 0 || cut->stack == 0 ||
        along + cut->along > strip.width ||
        (int64_t)cut->stack > strip.height / cut->across) {
        proof->holds = false;
        return;
    }
    for (size_t n = 0; n < cut->stack; n++) {
        const struct area piece =
            turned(down, (struct area){strip.x + along,
                                       strip.y + cut->across * (int64_t)n,
                                       cut->along, cut->across});
        if (!is_piece(proof->problem, cut->size, piece)) {
            proof->holds = false;
            return;
        }
        *LIST_ADD(proof->arena, &proof->pieces) = piece;
        proof->made[cut->size]++;
    }
}

/* One strip, cut from edge to edge of the sheet. Segments of a strip stand
 * side by side from its left end. */
static void lay_strip(struct proof *proof, const struct sheet_strip *strip,
                      bool down, struct area lies)
{
    int64_t along = 0;
    if (strip->cuts.count == 0)
        proof->holds = false;
    for (size_t k = 0; k < strip->cuts.count; k++) {
        const struct sheet_cut *cut = &strip->cuts.items[k];
        if (cut->beside == 0)
            proof->holds = false;
        for (size_t n = 0; proof->holds && n < cut->beside; n++) {
            lay_segment(proof, cut, down, lies, along);
            along += cut->along;
        }
    }
}

/* All strips of one sheet, from its edge. The first cut has to run as the
 * problem asks, as the bound was proven for plans of that kind alone. */
static void lay_sheet(struct proof *proof, const struct sheet_pattern *pattern)
{
    const struct sheet_problem *problem = proof->problem;
    const int64_t length = pattern->down ? problem->height : problem->width;
    const int64_t room = pattern->down ? problem->width : problem->height;
    int64_t at = 0;
    if ((pattern->down && problem->first == SHEET_CUT_ACROSS) ||
        (!pattern->down && problem->first == SHEET_CUT_DOWN) ||
        pattern->strips.count == 0)
        proof->holds = false;
    for (size_t i = 0; i < pattern->strips.count; i++) {
        const struct sheet_strip *strip = &pattern->strips.items[i];
        if (strip->repeat == 0 || strip->height <= 0)
            proof->holds = false;
        for (size_t n = 0; proof->holds && n < strip->repeat; n++) {
            if (strip->height > room - at) {
                proof->holds = false;
                break;
            }
            lay_strip(proof, strip, pattern->down,
                      (struct area){0, at, length, strip->height});
            at += strip->height;
        }
    }
}

/* All pairs: slow and simple, as a proof should be. */
static void compare_pieces(struct proof *proof)
{
    const struct sheet_problem *problem = proof->problem;
    for (size_t i = 0; proof->holds && i < proof->pieces.count; i++) {
        const struct area *a = &proof->pieces.items[i];
        if (a->x < 0 || a->y < 0 || a->x + a->width > problem->width ||
            a->y + a->height > problem->height)
            proof->holds = false;
        for (size_t k = 0; k < i; k++)
            if (overlap(a, &proof->pieces.items[k]))
                proof->holds = false;
    }
}

/* One sheet stands for all that are cut alike. Where it does not hold, what is
 * counted is of no use: the caller refuses all of the plan. */
bool sheet_pattern_holds(const struct sheet_problem *problem,
                         const struct sheet_pattern *pattern, size_t *made)
{
    struct proof proof = {
        .problem = problem, .arena = arena_create(), .holds = true};
    proof.made = ARENA_ARRAY(proof.arena, size_t, problem->count + 1);
    lay_sheet(&proof, pattern);
    compare_pieces(&proof);
    for (size_t i = 0; i < problem->count; i++)
        made[i] += proof.made[i] * pattern->repeat;
    arena_destroy(proof.arena);
    return proof.holds && pattern->repeat > 0;
}

/* Exactly as often as asked: a piece too many is cloth lost, too. */
bool sheet_plan_holds(const struct sheet_problem *problem,
                      const struct sheet_plan *plan)
{
    struct arena *scratch = arena_create();
    size_t *made = ARENA_ARRAY(scratch, size_t, problem->count + 1);
    size_t count = 0;
    bool holds = true;
    for (size_t i = 0; i < plan->sheets.count; i++) {
        holds =
            holds && sheet_pattern_holds(problem, &plan->sheets.items[i], made);
        count += plan->sheets.items[i].repeat;
    }
    for (size_t i = 0; i < problem->count; i++)
        holds = holds && made[i] == problem->sizes[i].demand;
    arena_destroy(scratch);
    return holds && count == plan->count && plan->bound <= plan->count;
}
