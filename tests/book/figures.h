/* The figures of the steps, taken apart again: which items draw which state
 * of the sewn cloth, at what scale, and moved how far. */
#ifndef SEAMWRIGHT_TESTS_FIGURES_H
#define SEAMWRIGHT_TESTS_FIGURES_H

#include "../../src/book/figure.h"
#include "../../src/book/look.h"
#include "exploded.h"
#include "pages.h"
#include "trade.h"

/* All that is drawn for one state: the items of its figure. */
struct drawn {
    const struct told_step *step;
    const struct heap *heap;
    const struct action *action;     /* the one that is shown, or NULL */
    const struct state *state;       /* NULL where it is no cloth of the step */
    const struct exploded *exploded; /* of a join */
    bool before, result;
    bool worded; /* its caption was taken */
    const char *caption;
    double scale;             /* points for a unit */
    size_t page, first, last; /* items of the page, without the tags */
    LIST(const struct item *) paths;
    LIST(const struct item *) labels;
};
struct drawings {
    LIST(struct drawn) items;
};

static inline double edge(struct point a, struct point b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

static inline struct point real_point(struct vertex v)
{
    return (struct point){rational_double(v.x), rational_double(v.y)};
}

/* ---- which state a figure shows ---- */

/* Each face is drawn by one polygon, in their order, all at one scale and as it
 * lies, not turned: what does not fit is another state. */
static inline bool shows(struct drawn *drawn, const struct state *state)
{
    double scale = 0.0;
    if (state->faces.count == 0 || drawn->paths.count < state->faces.count)
        return false;
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct face *face = &state->faces.items[i].face;
        const struct path_item *path = &drawn->paths.items[i]->as.path;
        if (path->count != face->count || !path->filled)
            return false;
        for (size_t k = 0; k < face->count; k++) {
            const size_t l = (k + 1) % face->count;
            const struct point a = real_point(face->points[k]);
            const struct point b = real_point(face->points[l]);
            const struct point p = path->points[k], q = path->points[l];
            if (scale == 0.0 && edge(a, b) > 0.0)
                scale = edge(p, q) / edge(a, b);
            if (fabs(q.x - p.x - (b.x - a.x) * scale) > 0.01 ||
                fabs(q.y - p.y - (b.y - a.y) * scale) > 0.01)
                return false;
        }
    }
    drawn->scale = scale;
    drawn->state = state;
    return scale > 0.0;
}

static inline bool is_red(struct color color)
{
    return color.red == action_red.red && color.green == action_red.green &&
           color.blue == action_red.blue;
}

/* Joins: the parts apart, then the whole. */
static inline bool name_join(struct visit *visit, struct drawn *drawn,
                             size_t nth, const struct exploded *exploded)
{
    (void)visit;
    drawn->exploded = exploded;
    drawn->before = nth == 0;
    drawn->result = nth == 1;
    return nth < 2 &&
           shows(drawn, nth == 0 ? &exploded->laid : &exploded->sewn);
}

/* All else: what lies there before each action, once or for each move, then the
 * result; and the other way, if there is one. `at` is the action before. */
static inline bool name_moves(struct drawn *drawn, size_t *at)
{
    const struct heap *heap = drawn->heap;
    const struct action *first = &heap->actions.items[0];
    const struct action *last = first + heap->actions.count - 1;
    for (const struct action *action = first + *at; action <= last; action++) {
        drawn->action = action;
        if (!shows(drawn, &action->before))
            continue;
        drawn->before = true;
        *at = (size_t)(action - first);
        return true;
    }
    drawn->action = last;
    if (shows(drawn, &last->after)) {
        drawn->result = true;
        return true;
    }
    drawn->action = first;
    drawn->before = true;
    return shows(drawn, &first->other);
}

/* Of borders, and of rows on point or of triangles, only the result, the last
 * figure, is a state of a heap. */
static inline bool name_last(struct drawn *drawn, bool last)
{
    const struct action *action =
        &drawn->heap->actions.items[drawn->heap->actions.count - 1];
    drawn->result = last;
    drawn->action = action;
    return !last || shows(drawn, &action->after);
}

static inline bool is_border_like(const struct heap *heap)
{
    return heap->technique == TECHNIQUE_BORDER &&
           heap->inputs.count == BORDER_CORNER &&
           heap->inputs.items[BORDER_CENTER].turn == 0;
}

static inline bool is_of_rows(const struct heap *heap)
{
    return heap->technique == TECHNIQUE_ON_POINT ||
           heap->technique == TECHNIQUE_TRIANGLES;
}

static inline bool shows_last_alone(const struct heap *heap)
{
    return is_border_like(heap) || is_of_rows(heap);
}

/* ensures: each figure of the step has its state; one that shows none, and a
 * result that is missing, is a breach. */
static inline void name_states(struct visit *visit, struct drawings *drawings,
                               size_t first)
{
    if (first == drawings->items.count)
        return;
    struct arena *arena = visit->all->arena;
    const struct told_step *step = drawings->items.items[first].step;
    const struct heap *heap = drawings->items.items[first].heap;
    struct exploded *exploded = ARENA_NEW(arena, struct exploded);
    size_t at = 0, results = 0;
    if (heap->technique == TECHNIQUE_JOIN)
        *exploded = explode(arena, visit->plan->quilt, step);
    for (size_t i = first; i < drawings->items.count; i++) {
        struct drawn *drawn = &drawings->items.items[i];
        const bool named =
            heap->technique == TECHNIQUE_JOIN
                ? name_join(visit, drawn, i - first, exploded)
            : shows_last_alone(heap)
                ? name_last(drawn, i + 1 == drawings->items.count)
                : name_moves(drawn, &at);
        results += drawn->result;
        if (!named)
            breach(visit->breaches, "step %zu: figure %zu shows nothing of it",
                   step->number, i - first + 1);
    }
    if (results != 1)
        breach(visit->breaches, "step %zu: %zu results", step->number, results);
}

static inline void add_item(struct arena *arena, struct drawn *drawn,
                            const struct item *item)
{
    if (is_label(item))
        *LIST_ADD(arena, &drawn->labels) = item;
    if (item->kind == ITEM_PATH)
        *LIST_ADD(arena, &drawn->paths) = item;
}

static inline bool is_tag(const struct item *item, const char *name)
{
    return (item->kind == ITEM_TAG_BEGIN || item->kind == ITEM_TAG_END) &&
           strcmp(item->as.tag.name, name) == 0;
}

/* Walks all items in reading order. Steps in a pair stand whole, one after the
 * other. */
static inline struct drawings all_drawings_of(struct visit *visit)
{
    struct arena *arena = visit->all->arena;
    struct drawings drawings = {0};
    const struct told_step *step = NULL;
    struct drawn *open = NULL;
    size_t first = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t number = heading_number(item);
            if (number > 0 || is_section(item)) {
                name_states(visit, &drawings, first);
                step = told_step(visit, number);
                first = drawings.items.count;
            }
            if (step == NULL)
                continue;
            if (is_tag(item, "Figure") && item->kind == ITEM_TAG_BEGIN) {
                open = LIST_ADD(arena, &drawings.items);
                *open = (struct drawn){
                    .step = step,
                    .heap = &visit->plan->quilt->heaps.items[step->heap],
                    .caption = "",
                    .page = p,
                    .first = i + 1};
            } else if (is_tag(item, "Figure")) {
                open->last = i;
                open = NULL;
            } else if (open != NULL) {
                add_item(arena, open, item);
            } else if (is_caption(item) && drawings.items.count > first &&
                       !drawings.items.items[drawings.items.count - 1].worded) {
                drawings.items.items[drawings.items.count - 1].caption =
                    item->as.text.text;
                drawings.items.items[drawings.items.count - 1].worded = true;
            }
        }
    name_states(visit, &drawings, first);
    return drawings;
}

/* Those that show a state: two at least of a step, but where only what it makes
 * is one. */
static inline struct drawings drawings_of(struct visit *visit)
{
    const struct drawings all = all_drawings_of(visit);
    struct drawings shown = {0};
    size_t least = 2 * step_count(visit);
    for (size_t i = 0; i < all.items.count; i++) {
        const struct drawn *drawn = &all.items.items[i];
        if (drawn->state != NULL)
            *LIST_ADD(visit->all->arena, &shown.items) = *drawn;
        least -= drawn->result && shows_last_alone(drawn->heap);
    }
    if (shown.items.count < least)
        breach(visit->breaches, "%zu figures", shown.items.count);
    return shown;
}

/* ---- sizes ---- */

static inline bool is_cut(const struct visit *visit, const struct heap *heap)
{
    for (size_t i = 0; i < heap->inputs.count; i++)
        if (visit->plan->quilt->heaps.items[heap->inputs.items[i].heap]
                .technique != TECHNIQUE_CUT)
            return false;
    return heap->inputs.count > 0;
}

/* A side with its seams. What is joined of pieces alone is as long as they are
 * cut: where that has a root, up to the next line of the ruler. */
static inline struct rational whole_side(const struct visit *visit,
                                         const struct heap *heap,
                                         struct rational finished)
{
    const struct pattern *pattern = visit->sample->design->pattern;
    const struct rational side =
        rational_add(finished, rational_times(pattern->seam, 2));
    return heap->technique == TECHNIQUE_JOIN && is_cut(visit, heap)
               ? rational_round_up(
                     side, trade_length(TRADE_CUTTING_STEP, pattern->units))
               : side;
}

/* ---- where things lie ---- */

/* The heap that is a part of the state, as it lies there. */
static inline struct figure_part part_of(const struct drawn *drawn, int part)
{
    if (drawn->exploded != NULL) {
        const struct exploded_part *one = &drawn->exploded->parts.items[part];
        return (struct figure_part){.heap = one->heap, .turn = one->turn};
    }
    const struct input *input = &drawn->heap->inputs.items[part];
    return (struct figure_part){.heap = input->heap, .turn = input->turn};
}

/* How far all that lies with these gaps is moved on the page. */
static inline struct point offset_of(const struct drawn *drawn, int gap_x,
                                     int gap_y)
{
    for (size_t i = 0; i < drawn->state->faces.count; i++) {
        const struct shown_face *shown = &drawn->state->faces.items[i];
        if (shown->gap_x != gap_x || shown->gap_y != gap_y)
            continue;
        const struct point real = real_point(shown->face.points[0]);
        const struct point at = drawn->paths.items[i]->as.path.points[0];
        return (struct point){at.x - real.x * drawn->scale,
                              at.y - real.y * drawn->scale};
    }
    fail_msg("no face lies with the gaps %d, %d", gap_x, gap_y);
    return (struct point){0.0, 0.0};
}

/* The face that is seen at a point of the page, or -1. */
static inline int face_at(const struct drawn *drawn, struct point p)
{
    int seen = -1;
    for (size_t i = 0; i < drawn->state->faces.count; i++) {
        const struct path_item *path = &drawn->paths.items[i]->as.path;
        int left = 0, right = 0;
        for (size_t k = 0; k < path->count; k++) {
            const struct point a = path->points[k];
            const struct point b = path->points[(k + 1) % path->count];
            const double cross =
                (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
            left += cross > 0.0;
            right += cross < 0.0;
        }
        if (left == 0 || right == 0)
            seen = (int)i;
    }
    return seen;
}

/* What the faces cover on the page. */
struct reach {
    double left, top, right, bottom;
};
static inline struct reach reach_of_faces(const struct drawn *drawn, int part)
{
    struct reach reach = {1e9, 1e9, -1e9, -1e9};
    for (size_t i = 0; i < drawn->state->faces.count; i++)
        for (size_t k = 0; k < drawn->paths.items[i]->as.path.count; k++) {
            const struct point p = drawn->paths.items[i]->as.path.points[k];
            if (part != WHOLE && drawn->state->faces.items[i].part != part)
                continue;
            reach.left = fmin(reach.left, p.x);
            reach.top = fmin(reach.top, p.y);
            reach.right = fmax(reach.right, p.x);
            reach.bottom = fmax(reach.bottom, p.y);
        }
    return reach;
}

/* ---- press arrows ---- */

struct arrow {
    struct point tail, head;
};
struct arrows {
    LIST(struct arrow) items;
};

static inline bool is_shaft(const struct path_item *path)
{
    return !path->closed && path->count == 2 && path->stroke > 0.0 &&
           path->dash[0] == 0.0 && path->role == ROLE_MARK &&
           is_red(path->stroke_color);
}

static inline bool is_head(const struct path_item *path)
{
    return path->closed && path->count == 3 && path->filled &&
           path->stroke == 0.0 && is_red(path->fill);
}

/* Straight arrows: a shaft and the head behind it. */
static inline struct arrows arrows_of(struct arena *arena,
                                      const struct drawn *drawn)
{
    struct arrows arrows = {0};
    for (size_t i = drawn->state->faces.count; i + 1 < drawn->paths.count; i++)
        if (is_shaft(&drawn->paths.items[i]->as.path) &&
            is_head(&drawn->paths.items[i + 1]->as.path))
            *LIST_ADD(arena, &arrows.items) =
                (struct arrow){drawn->paths.items[i]->as.path.points[0],
                               drawn->paths.items[i + 1]->as.path.points[0]};
    return arrows;
}

#endif
