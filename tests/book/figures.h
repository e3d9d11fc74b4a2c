/* The figures of the steps, taken apart again: which items draw which state
 * of the sewn cloth, at what scale, and moved how far. */
#ifndef SEAMWRIGHT_TESTS_FIGURES_H
#define SEAMWRIGHT_TESTS_FIGURES_H

#include "pages.h"

/* All that is drawn for one state: the items before its caption. */
struct drawn {
    const struct heap *heap;
    const struct action *action;
    const struct state *state;
    bool before;
    const char *caption;
    double scale; /* points for a unit */
    LIST(const struct item *) paths;
    LIST(const struct item *) labels;
};
struct drawings {
    LIST(struct drawn) items;
};

/* A section's heading ends the steps. */
static inline bool is_section(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size == 18.0 &&
           item->as.text.style.face == FACE_BOLD;
}

/* Which states the captions of a step stand under: two for each action, or,
 * in the wide form, the first layout and each result behind it. */
static inline void name_states(struct visit *visit, const struct heap *heap,
                               struct drawings *drawings, size_t first)
{
    const size_t count = drawings->items.count - first;
    const bool pairs = count == 2 * heap->actions.count;
    if (!pairs && count != heap->actions.count) {
        breach(visit->breaches, "step %zu has %zu actions and %zu figures",
               heap->step, heap->actions.count, count);
        drawings->items.count = first;
        return;
    }
    for (size_t i = 0; i < count; i++) {
        struct drawn *drawn = &drawings->items.items[first + i];
        drawn->heap = heap;
        drawn->action = &heap->actions.items[pairs ? i / 2 : i];
        drawn->before = pairs ? i % 2 == 0 : i == 0;
        drawn->state =
            drawn->before ? &drawn->action->before : &drawn->action->after;
    }
}

static inline struct drawings drawings_of(struct visit *visit)
{
    struct arena *arena = visit->all->arena;
    struct drawings drawings = {0};
    struct drawn next = {0};
    const struct heap *heap = NULL;
    size_t first = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t step = heading_number(item);
            if (heap != NULL && (step > 0 || is_section(item))) {
                name_states(visit, heap, &drawings, first);
                heap = NULL;
            }
            if (step > 0) {
                heap = heap_of_step(visit, step);
                first = drawings.items.count;
                next = (struct drawn){0};
            } else if (heap != NULL && is_caption(item)) {
                next.caption = item->as.text.text;
                *LIST_ADD(arena, &drawings.items) = next;
                next = (struct drawn){0};
            } else if (heap != NULL && is_label(item)) {
                *LIST_ADD(arena, &next.labels) = item;
            } else if (heap != NULL && item->kind == ITEM_PATH) {
                *LIST_ADD(arena, &next.paths) = item;
            }
        }
    return drawings;
}

/* ---- the scale ---- */

static inline double edge(struct point a, struct point b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

static inline struct point real_point(struct vertex v)
{
    return (struct point){rational_double(v.x), rational_double(v.y)};
}

/* Each face is drawn by one polygon, in their order, behind the rule of a
 * heading, which is no polygon. Sets the scale. */
static inline bool match_faces(struct visit *visit, struct drawn *drawn)
{
    while (drawn->paths.count > 0 && !drawn->paths.items[0]->as.path.closed) {
        drawn->paths.items++;
        drawn->paths.count--;
    }
    if (drawn->paths.count < drawn->state->faces.count) {
        breach(visit->breaches, "step %zu: %zu polygons for %zu faces",
               drawn->heap->step, drawn->paths.count,
               drawn->state->faces.count);
        return false;
    }
    for (size_t i = 0; i < drawn->state->faces.count; i++) {
        const struct face *face = &drawn->state->faces.items[i].face;
        const struct path_item *path = &drawn->paths.items[i]->as.path;
        if (path->count != face->count) {
            breach(visit->breaches, "step %zu: face %zu has %zu corners, "
                   "drawn %zu", drawn->heap->step, i, face->count,
                   path->count);
            return false;
        }
        for (size_t k = 0; k < face->count; k++) {
            const size_t l = (k + 1) % face->count;
            const double real = edge(real_point(face->points[k]),
                                     real_point(face->points[l]));
            const double shown = edge(path->points[k], path->points[l]);
            if (drawn->scale == 0.0 && real > 0.0)
                drawn->scale = shown / real;
            if (fabs(shown - real * drawn->scale) > 0.01)
                breach(visit->breaches, "step %zu: an edge of %.4f is drawn "
                       "%.4f at scale %.4f", drawn->heap->step, real, shown,
                       drawn->scale);
        }
    }
    return drawn->scale > 0.0;
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

/* ---- press arrows ---- */

struct arrow {
    struct point tail, head;
};
struct arrows {
    LIST(struct arrow) items;
};

static inline bool is_shaft(const struct path_item *path)
{
    return !path->closed && path->count == 2 && path->stroke == 1.0 &&
           path->dash[0] == 0.0 && path->stroke_color.red < 0.5;
}

static inline bool is_head(const struct path_item *path)
{
    return path->closed && path->count == 3 && path->filled &&
           path->stroke == 0.0 && path->fill.red < 0.5;
}

/* Straight arrows: a shaft and the head behind it. */
static inline struct arrows arrows_of(struct arena *arena,
                                      const struct drawn *drawn)
{
    struct arrows arrows = {0};
    for (size_t i = drawn->state->faces.count; i + 1 < drawn->paths.count; i++)
        if (is_shaft(&drawn->paths.items[i]->as.path) &&
            is_head(&drawn->paths.items[i + 1]->as.path))
            *LIST_ADD(arena, &arrows.items) = (struct arrow){
                drawn->paths.items[i]->as.path.points[0],
                drawn->paths.items[i + 1]->as.path.points[0]};
    return arrows;
}

#endif
