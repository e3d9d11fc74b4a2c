/* Areas that are alike: of one fabric, and one is the other turned, mirrored and
 * shifted. Each is looked at from all eight sides, from the corner of its own
 * box, and stands for the least of what is seen, so that two are alike where
 * these are equal: no pair is compared. */
#include "areas.h"

#include <math.h>
#include <stdlib.h>

/* ---- views ---- */

/* A point as a view sees it: from its corner of the box, its axes exchanged by
 * the third bit. */
static struct spot seen_spot(struct spot_line box, unsigned view, struct spot p)
{
    const double x = (view & 1) != 0 ? box.to.x - p.x : p.x - box.from.x;
    const double y = (view & 2) != 0 ? box.to.y - p.y : p.y - box.from.y;
    return (view & 4) != 0 ? (struct spot){y, x} : (struct spot){x, y};
}

/* The same, exactly. `near` is the point from the low corner, `far` to the high
 * one: they serve all eight views, which need no fractions of their own. */
static struct vertex seen_vertex(struct vertex near, struct vertex far,
                                 unsigned view)
{
    const number x = (view & 1) != 0 ? far.x : near.x;
    const number y = (view & 2) != 0 ? far.y : near.y;
    return (view & 4) != 0 ? (struct vertex){y, x} : (struct vertex){x, y};
}

/* The outer ring tells it, which comes first. */
static struct extent face_extent(const struct arrangement *a, size_t face)
{
    const struct arranged_ring ring = a->faces[face].rings[0];
    struct extent box =
        level_extent(a->points[ring.points[0]], a->points[ring.points[0]]);
    for (size_t i = 1; i < ring.count; i++) {
        const struct vertex p = a->points[ring.points[i]];
        if (number_compare(p.x, box.low.x) < 0)
            box.low.x = p.x;
        if (number_compare(p.y, box.low.y) < 0)
            box.low.y = p.y;
        if (number_compare(p.x, box.high.x) > 0)
            box.high.x = p.x;
        if (number_compare(p.y, box.high.y) > 0)
            box.high.y = p.y;
    }
    return box;
}

/* Where the rim goes straight on, only a seam or line of a neighbor ends: that
 * makes no other area. */
static bool is_straight(const struct arrangement *a, struct arranged_ring ring,
                        size_t i)
{
    const struct spot p = a->spots[ring.points[i]];
    const struct spot q =
        a->spots[ring.points[(i + ring.count - 1) % ring.count]];
    const struct spot r = a->spots[ring.points[(i + 1) % ring.count]];
    const struct spot back = {p.x - q.x, p.y - q.y};
    const struct spot on = {r.x - p.x, r.y - p.y};
    return fabs(back.x * on.y - back.y * on.x) <
               1e-12 * hypot(back.x, back.y) * hypot(on.x, on.y) &&
           back.x * on.x + back.y * on.y > 0;
}

/* One ring, in all views. What leaves the number type is like nothing: its own
 * number is put in. */
static void see_ring(struct arena *scratch, const struct arrangement *a,
                     struct arranged_ring ring, struct extent box,
                     struct area *area)
{
    struct vertex *near = ARENA_ARRAY(scratch, struct vertex, ring.count);
    struct vertex *far = ARENA_ARRAY(scratch, struct vertex, ring.count);
    struct vertex *seen = ARENA_ARRAY(scratch, struct vertex, ring.count);
    bool known = true;
    size_t corners = 0;
    for (size_t i = 0; i < ring.count; i++) {
        const struct vertex p = a->points[ring.points[i]];
        if (is_straight(a, ring, i))
            continue;
        const struct vertex n = {number_sub(p.x, box.low.x),
                                 number_sub(p.y, box.low.y)};
        const struct vertex f = {number_sub(box.high.x, p.x),
                                 number_sub(box.high.y, p.y)};
        known = known && number_known(n.x) && number_known(n.y) &&
                number_known(f.x) && number_known(f.y);
        near[corners] = n;
        far[corners++] = f;
    }
    for (unsigned v = 0; v < AREA_VIEWS; v++) {
        for (size_t i = 0; i < corners; i++)
            seen[i] = seen_vertex(near[i], far[i], v);
        face_key_ring(&area->views[v], seen, corners);
        if (!known)
            face_key_number(&area->views[v], area->face);
    }
}

static struct area see_area(struct arena *scratch, const struct ground *ground,
                            const struct arrangement *a, size_t face)
{
    const struct arranged_face *found = &a->faces[face];
    const struct extent box = face_extent(a, face);
    const int fabric = ground_fabric(ground, found->inside);
    struct area area = {.face = face,
                        .fabric = fabric,
                        .apart = fabric,
                        .area = found->area,
                        .box = {vertex_spot(box.low), vertex_spot(box.high)}};
    for (size_t r = 0; r < found->count; r++)
        see_ring(scratch, a, found->rings[r], box, &area);
    return area;
}

/* What tells an area from others, a number at a time. */
void area_add_number(struct area *area, uint64_t value)
{
    for (unsigned v = 0; v < AREA_VIEWS; v++)
        face_key_number(&area->views[v], value);
}

/* To the millionth of a unit, from a place where none of the lengths that are
 * written lies half between two. The same either way round, so that it does not
 * matter where a line begins. */
static uint64_t rounded(double length)
{
    return (uint64_t)llround(length * 1e6 + 0.237);
}

void area_add_stretch(struct area *area, struct spot from, struct spot to)
{
    for (unsigned v = 0; v < AREA_VIEWS; v++) {
        const struct spot p = seen_spot(area->box, v, from);
        const struct spot q = seen_spot(area->box, v, to);
        face_key_stretch(&area->views[v], rounded(p.x), rounded(p.y),
                         rounded(q.x), rounded(q.y));
    }
}

/* ---- kinds ---- */

struct viewed {
    struct face_key key; /* the least of its views */
    size_t area;
};

static int compare_viewed(const void *left, const void *right)
{
    const struct viewed *a = left, *b = right;
    const int by_key = face_key_compare(a->key, b->key);
    return by_key != 0 ? by_key : (a->area > b->area) - (a->area < b->area);
}

struct placed {
    struct spot at;
    size_t area;
};

/* Row by row; what begins less than 1e-6 apart begins at one height. */
static int compare_placed(const void *left, const void *right)
{
    const struct placed *a = left, *b = right;
    const double by_y = round(a->at.y * 1e6) - round(b->at.y * 1e6);
    const double by_x = a->at.x - b->at.x;
    if (by_y != 0 || by_x != 0)
        return (by_y != 0 ? by_y : by_x) > 0 ? 1 : -1;
    return (a->area > b->area) - (a->area < b->area);
}

/* The order in which kinds get their letters: as a map is read. */
static const struct placed *order_areas(struct arena *scratch,
                                        const struct areas *areas)
{
    struct placed *placed =
        ARENA_ARRAY(scratch, struct placed, areas->count + 1);
    for (size_t i = 0; i < areas->count; i++)
        placed[i] = (struct placed){areas->items[i].box.from, i};
    qsort(placed, areas->count, sizeof *placed, compare_placed);
    return placed;
}

/* Of each area the first that is like it. O(n log n). */
static const size_t *first_alike(struct arena *scratch,
                                 const struct areas *areas)
{
    struct viewed *viewed =
        ARENA_ARRAY(scratch, struct viewed, areas->count + 1);
    size_t *first = ARENA_ARRAY(scratch, size_t, areas->count + 1);
    for (size_t i = 0; i < areas->count; i++) {
        const struct area *area = &areas->items[i];
        viewed[i] = (struct viewed){area->views[0], i};
        for (unsigned v = 1; v < AREA_VIEWS; v++)
            if (face_key_compare(area->views[v], viewed[i].key) < 0)
                viewed[i].key = area->views[v];
        face_key_number(&viewed[i].key, (uint64_t)area->apart);
    }
    qsort(viewed, areas->count, sizeof *viewed, compare_viewed);
    for (size_t i = 0; i < areas->count; i++)
        first[viewed[i].area] =
            i > 0 && face_key_compare(viewed[i].key, viewed[i - 1].key) == 0
                ? first[viewed[i - 1].area]
                : viewed[i].area;
    return first;
}

/* In the order of reading, so that letters come as they are seen. */
void sort_areas(struct arena *arena, struct areas *areas)
{
    struct arena *scratch = arena_create();
    const struct placed *order = order_areas(scratch, areas);
    const size_t *first = first_alike(scratch, areas);
    /* Of each first one its kind, plus 1. */
    size_t *kind_of = ARENA_ARRAY(scratch, size_t, areas->count + 1);
    LIST(struct area_kind) kinds = {0};
    for (size_t i = 0; i < areas->count; i++) {
        const size_t area = order[i].area;
        if (kind_of[first[area]] == 0) {
            *LIST_ADD(arena, &kinds) = (struct area_kind){area, 0};
            kind_of[first[area]] = kinds.count;
        }
        areas->items[area].kind = kind_of[first[area]] - 1;
        kinds.items[areas->items[area].kind].count++;
    }
    areas->kinds = kinds.items;
    areas->kind_count = kinds.count;
    arena_destroy(scratch);
}

/* Faces of the arrangement that no line parts are one area. */
struct areas find_areas(struct arena *arena, const struct ground *ground,
                        const struct arrangement *arrangement)
{
    struct areas areas = {.count = arrangement->face_count};
    struct arena *scratch = arena_create();
    areas.items = ARENA_ARRAY(arena, struct area, areas.count + 1);
    for (size_t i = 0; i < areas.count; i++)
        areas.items[i] = see_area(scratch, ground, arrangement, i);
    arena_destroy(scratch);
    sort_areas(arena, &areas);
    return areas;
}

/* ---- questions ---- */

struct shape area_shape(struct arena *arena, const struct arrangement *a,
                        const struct area *area)
{
    const struct arranged_face *face = &a->faces[area->face];
    struct labelled_ring *rings =
        ARENA_ARRAY(arena, struct labelled_ring, face->count);
    for (size_t r = 0; r < face->count; r++)
        rings[r] = (struct labelled_ring){0, r > 0, face->rings[r]};
    return shape_of_rings(arena, a, rings, face->count, area->fabric);
}

spot_rings area_spots(struct arena *arena, const struct arrangement *a,
                      const struct area *area)
{
    const struct shape shape = area_shape(arena, a, area);
    return shape_spots(arena, &shape);
}

const bool *faces_touching(struct arena *arena, const struct arrangement *a,
                           const bool *source)
{
    bool *touched = ARENA_ARRAY(arena, bool, a->face_count + 1);
    for (size_t p = 0; p < a->piece_count; p++) {
        const struct arranged_piece *piece = &a->pieces[p];
        bool one = false;
        for (size_t i = piece->first; i < piece->last; i++)
            one = one || source[a->sources[i]];
        if (one && piece->right >= 0)
            touched[piece->right] = true;
        if (one && piece->left >= 0)
            touched[piece->left] = true;
    }
    return touched;
}
