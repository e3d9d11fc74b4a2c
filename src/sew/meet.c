/* Where the parts of a row, column or grid meet: do their seams meet, do they
 * nest, and how many meet in one point? Called while a join is made, with the
 * cloth of its parts as they lie, allowances inside the heap cut away. All of
 * it warns and nothing stops. May assume that presses are chosen. Read next:
 * nest.c. */
#include <stdlib.h>

#include "sewer.h"

/* The end of a seam on a joint. */
struct end {
    struct rational at; /* along the joint */
    struct seam_end seam;
};

struct ends {
    LIST(struct end) items;
};

/* One line along which parts are joined, and the worst that was found on any
 * line of the heap so far: a heap makes three messages at most. */
struct joint {
    struct sewer *sewer;
    const struct heap *heap;
    bool level;           /* runs from left to right */
    struct rational line; /* x of an upright joint, y of a level one */
    const struct seam *seam;
    struct ends before, after;
    /* what was found in all joints of the heap */
    struct collision collision;
    struct rational least_miss; /* unknown where nothing misses */
    struct vertex first_miss;
    size_t most_seams;
    struct vertex thickest;
};

/* Does a seam end on the joint's line? */
static bool at_end(const struct joint *joint, struct vertex v)
{
    return rational_equal(joint->level ? v.y : v.x, joint->line);
}

/* `side` is below 0 for left or up, above 0 for right or down, 0 for open or
 * for a press along the joint's own normal. */
static void add_end(struct joint *joint, struct ends *ends,
                    const struct seam *seam, struct vertex v)
{
    *LIST_ADD(joint->sewer->run->arena, &ends->items) = (struct end){
        joint->level ? v.x : v.y,
        {joint->level ? seam->x : seam->y, seam->piece, seam->operation}};
}

/* Ends of seams that run into the joint, not along it. From one side of the
 * joint; the caller chooses which. */
static void collect_ends(struct joint *joint, struct ends *ends,
                         const struct seam *seams, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const bool from = at_end(joint, seams[i].from);
        const bool to = at_end(joint, seams[i].to);
        if (from && !to)
            add_end(joint, ends, &seams[i], seams[i].from);
        else if (to && !from)
            add_end(joint, ends, &seams[i], seams[i].to);
    }
}

/* From a place along the joint to a point of the heap. */
static struct vertex joint_point(const struct joint *joint, struct rational at)
{
    return joint->level ? (struct vertex){at, joint->line}
                        : (struct vertex){joint->line, at};
}

/* Half an inch, or a grid square where that is less: a whole square is meant, a
 * part of one mostly is not. The factor of a heap is the real side of one grid
 * square. */
static struct rational miss_limit(const struct joint *joint)
{
    const struct rational half_inch = rational_mul(
        rational_make(1, 2),
        length_factor(UNIT_IN, joint->sewer->sized->design->pattern->units));
    return rational_min(half_inch, joint->heap->factor);
}

/* Order along the joint. */
static int compare_ends(const void *a, const void *b)
{
    return rational_compare(((const struct end *)a)->at,
                            ((const struct end *)b)->at);
}

/* Index of the first end at or behind a place. */
static size_t first_end_from(const struct ends *ends, struct rational at)
{
    size_t low = 0, high = ends->items.count;
    while (low < high) {
        const size_t middle = (low + high) / 2;
        if (rational_compare(ends->items.items[middle].at, at) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Two ends in one place: on the same side they collide. */
static void keep_meeting(struct joint *joint, const struct end *end,
                         const struct end *other)
{
    struct collision *collision = &joint->collision;
    if (end->seam.side == 0 && other->seam.side == 0)
        return;
    *LIST_ADD(joint->sewer->run->arena, &collision->meetings) =
        (struct meeting){{end->seam, other->seam}};
    if (end->seam.side * other->seam.side > 0 && collision->count++ == 0)
        collision->first = joint_point(joint, end->at);
}

/* Edges of a setting on point run through the points of its cornerstones: the
 * seam of a triangle ends there with nothing behind it to meet. */
static bool is_at_edge(const struct joint *joint, const struct end *end)
{
    if (joint->heap->technique != TECHNIQUE_ON_POINT)
        return false;
    const struct vertex from = joint->seam->from, to = joint->seam->to;
    return rational_equal(end->at, joint->level ? from.x : from.y) ||
           rational_equal(end->at, joint->level ? to.x : to.y);
}

/* An end before the joint with all ends behind it: some meet it, and a small
 * distance is a miss. */
static void compare_end(struct joint *joint, const struct end *end)
{
    struct rational nearest = rational_unknown();
    /* Both are sorted: the neighbors of the place are near enough. */
    size_t first = first_end_from(&joint->after, end->at);
    first -= first > 0;
    for (size_t i = first; i < joint->after.items.count; i++) {
        const struct end *other = &joint->after.items.items[i];
        if (i > first + 1 && rational_compare(other->at, end->at) > 0)
            break;
        struct rational distance = rational_sub(end->at, other->at);
        if (rational_sign(distance) < 0)
            distance = rational_times(distance, -1);
        if (rational_sign(distance) == 0)
            keep_meeting(joint, end, other);
        if (!rational_known(nearest) || rational_compare(distance, nearest) < 0)
            nearest = distance;
    }
    if (!rational_known(nearest) || rational_sign(nearest) == 0 ||
        rational_compare(nearest, miss_limit(joint)) >= 0 ||
        is_at_edge(joint, end))
        return;
    if (!rational_known(joint->least_miss) ||
        rational_compare(nearest, joint->least_miss) < 0) {
        joint->least_miss = nearest;
        joint->first_miss = joint_point(joint, end->at);
    }
}

static size_t ends_at(const struct ends *ends, struct rational at)
{
    size_t i = first_end_from(ends, at), count = 0;
    for (; i < ends->items.count && rational_equal(ends->items.items[i].at, at);
         i++)
        count++;
    return count;
}

/* Seams in one point: those that end there on both sides, and the joint, which
 * runs through and so counts twice. */
static void weigh_points(struct joint *joint)
{
    for (size_t i = 0; i < joint->before.items.count; i++) {
        const struct rational at = joint->before.items.items[i].at;
        const size_t seams =
            ends_at(&joint->before, at) + ends_at(&joint->after, at) + 2;
        if (seams > joint->most_seams) {
            joint->most_seams = seams;
            joint->thickest = joint_point(joint, at);
        }
    }
}

static void sort_ends(struct ends *ends)
{
    if (ends->items.count > 1)
        qsort(ends->items.items, ends->items.count, sizeof(struct end),
              compare_ends);
}

/* What the joint folds on either side of it, where a plan is made. */
static void keep_fold(struct joint *joint)
{
    const struct seam *seam = joint->seam;
    const int side = joint->level ? seam->y : seam->x;
    const struct press_plan *plan = joint->sewer->plan;
    if (plan == NULL || !plan->gathers || side == 0)
        return;
    *LIST_ADD(joint->sewer->run->arena, &joint->collision.folds) =
        (struct seam_fold){
            side,
            seam->piece,
            seam->operation,
            {joint->before.items.count, joint->after.items.count}};
}

static void close_joint(struct joint *joint)
{
    keep_fold(joint);
    sort_ends(&joint->before);
    sort_ends(&joint->after);
    for (size_t i = 0; i < joint->before.items.count; i++)
        compare_end(joint, &joint->before.items.items[i]);
    weigh_points(joint);
    joint->before.items.count = joint->after.items.count = 0;
}

/* The seam that joins a part of a row to the one at its left: those of the
 * first action, row by row, each row with one less than it has parts. */
static const struct sewn_seam *row_seam(const struct heap *heap, size_t row,
                                        size_t part)
{
    return &heap->actions.items[0].seams.items[part - row - 1];
}

/* The upright joints of a row. Joins of a row are upright lines, each from one
 * part to the next. */
static void check_upright(struct joint *joint,
                          const struct cloth *const *joined, size_t row)
{
    joint->level = false;
    for (size_t i = heap_row_begin(joint->heap, row) + 1;
         i < heap_row_end(joint->heap, row); i++) {
        joint->seam = &row_seam(joint->heap, row, i)->seam;
        joint->line = joint->seam->from.x;
        collect_ends(joint, &joint->before, joined[i - 1]->seams.items,
                     joined[i - 1]->seams.count);
        collect_ends(joint, &joint->after, joined[i]->seams.items,
                     joined[i]->seams.count);
        close_joint(joint);
    }
}

/* The seams of a row's parts, and those between them. The row's own joints are
 * no seams of a part; they are those of the first action, row by row. */
static void collect_row(struct joint *joint, struct ends *ends,
                        const struct cloth *const *joined, size_t row)
{
    const size_t first = heap_row_begin(joint->heap, row);
    for (size_t part = first; part < heap_row_end(joint->heap, row); part++) {
        collect_ends(joint, ends, joined[part]->seams.items,
                     joined[part]->seams.count);
        if (part == first)
            continue;
        const struct seam *seam = &row_seam(joint->heap, row, part)->seam;
        *LIST_ADD(joint->sewer->run->arena, &ends->items) =
            (struct end){at_end(joint, seam->from) ? seam->from.x : seam->to.x,
                         {seam->x, seam->piece, seam->operation}};
    }
}

/* Rows have been joined by now, so a level joint meets seams of the parts and
 * those between them. */
static void check_level(struct joint *joint, const struct cloth *const *joined)
{
    const struct heap *heap = joint->heap;
    const struct action *last = &heap->actions.items[heap->actions.count - 1];
    joint->level = true;
    for (size_t row = 1; row < heap_down(heap); row++) {
        joint->seam = &last->seams.items[row - 1].seam;
        joint->line = joint->seam->from.y;
        collect_row(joint, &joint->before, joined, row - 1);
        collect_row(joint, &joint->after, joined, row);
        close_joint(joint);
    }
}

/* ---- what is said ---- */

/* Where, measured from the finished corner as a designer can measure, too; and
 * what helps. */
static void say_where(const struct joint *joint, struct diagnostic *d,
                      const char *at, struct vertex point, const char *help)
{
    struct run *run = joint->sewer->run;
    const enum length_unit units = joint->sewer->sized->design->pattern->units;
    if (joint->heap->technique == TECHNIQUE_ON_POINT)
        point = slanted_point(joint->heap, point);
    diag_note(run, d, (struct span){0, 0},
              "%s %s from the left and %s from the top", at,
              length_plain(run->arena, point.x, units),
              length_plain(run->arena, point.y, units));
    diag_help(run, d, "%s", help);
}

/* reports: the smallest miss. Large ones are the design's wish. */
static void say_miss(const struct joint *joint)
{
    struct run *run = joint->sewer->run;
    const struct element *element = joint->heap->piece->element;
    struct diagnostic *d =
        diag_report(run, DIAG_POINTS_MISS, element->name,
                    "seams miss each other by %s where this `%s` is joined",
                    length_plain(run->arena, joint->least_miss,
                                 joint->sewer->sized->design->pattern->units),
                    element_name(element->kind));
    say_where(joint, d, "at", joint->first_miss,
              "look for a size that is a little off");
}

/* reports: the point with the most seams. Eight meet in any pinwheel or
 * four-patch of half-squares; there, pressing open is the usual help (common
 * practice). */
static void say_bulk(const struct joint *joint)
{
    const struct element *element = joint->heap->piece->element;
    struct diagnostic *d =
        diag_report(joint->sewer->run, DIAG_BULK, element->name,
                    "%zu seams meet in one point of this `%s`",
                    joint->most_seams, element_name(element->kind));
    say_where(joint, d, "at", joint->thickest,
              "press=\"open\" keeps the point flat");
}

/* `joined` are the parts in the order of the inputs. The heap's cloth must hold
 * the seams of its own joints by now: weigh_points counts them. */
void check_joints(struct sewer *sewer, const struct heap *heap,
                  const struct cloth *const *joined)
{
    /* Beyond that, a quilt is made of what was looked at already. */
    enum { MANY_SEAMS = 20000, BULKY = 8 };
    if (heap->cloth->seams.count > MANY_SEAMS)
        return;
    struct joint joint = {
        .sewer = sewer, .heap = heap, .least_miss = rational_unknown()};
    /* Where parts of a row meet aslant, nothing else meets them on the way. */
    for (size_t row = 0; row < heap_down(heap) &&
                         heap->technique != TECHNIQUE_TRIANGLES;
         row++)
        check_upright(&joint, joined, row);
    check_level(&joint, joined);
    const struct action *last = &heap->actions.items[heap->actions.count - 1];
    if (rational_known(joint.least_miss))
        say_miss(&joint);
    const bool all = sewer->plan != NULL && sewer->plan->gathers;
    if (joint.collision.count > 0 ||
        (all &&
         joint.collision.meetings.count + joint.collision.folds.count > 0)) {
        joint.collision.heap = (size_t)(heap - sewer->quilt->heaps.items);
        *LIST_ADD(sewer->run->arena, &sewer->collisions) = joint.collision;
    }
    if (joint.most_seams >= BULKY && last->press.side != PRESS_OPEN)
        say_bulk(&joint);
}
