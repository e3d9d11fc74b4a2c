/* Areas of one kind: each is looked at through every way in which it may be
 * like another; those that look the same are tied, and what hangs together by
 * ties is a kind. A tie knows the motion that takes one area to the other, so
 * that a figure of the first serves for all: its numbers and paths are moved
 * along. */
#include "areas.h"

#include <math.h>
#include <stdlib.h>

/* An area as it is seen through a way. */
struct view {
    size_t group, area, way;
    struct face_key key;
};

/* Two areas that are alike, and how one goes over into the other. */
struct tie {
    size_t area, other;
    struct motion motion;
};

struct sorter {
    struct arena *scratch;
    const struct arrangement *a;
    const struct area_way *ways;
    size_t way_count;
    struct area *items;
    struct spot_line *boxes;
    LIST(struct view) views;
    LIST(struct tie) ties; /* both ways, then sorted by area */
    size_t *order;         /* the areas from the top down, from the left */
};

static const struct motion SAME = {1, 0, 0, 1, {{0, 1}, {0, 1}}};

/* ---- views and ties ---- */

static int compare_views(const void *left, const void *right)
{
    const struct view *a = left, *b = right;
    if (a->group != b->group)
        return a->group > b->group ? 1 : -1;
    const int by_key = face_key_compare(a->key, b->key);
    if (by_key != 0)
        return by_key;
    return a->area != b->area ? (a->area > b->area ? 1 : -1)
                              : (a->way > b->way) - (a->way < b->way);
}

/* Areas of a placement lie in its rectangle; those on its rim do, too. Doubles
 * suffice: what only nearly lies in it is like nothing. */
static bool box_within(struct spot_line box, struct extent extent)
{
    const struct spot low = vertex_spot(extent.low);
    const struct spot high = vertex_spot(extent.high);
    const double room = 1e-9;
    return box.from.x > low.x - room && box.from.y > low.y - room &&
           box.to.x < high.x + room && box.to.y < high.y + room;
}

/* Sorted, so that what looks the same lies side by side: with n areas and w
 * ways O(n w log(n w)), where comparing all pairs took O(n n w). */
static void view_areas(struct sorter *s)
{
    for (size_t w = 0; w < s->way_count; w++)
        for (size_t i = 0; i < s->a->face_count; i++)
            if (box_within(s->boxes[i], s->ways[w].within))
                *LIST_ADD(s->scratch, &s->views) = (struct view){
                    s->ways[w].group, i, w,
                    face_key(s->a, &s->a->faces[i], s->items[i].fabric,
                             s->ways[w].motion)};
    if (s->views.count > 0)
        qsort(s->views.items, s->views.count, sizeof *s->views.items,
              compare_views);
}

static int compare_ties(const void *left, const void *right)
{
    const struct tie *a = left, *b = right;
    if (a->area != b->area)
        return a->area > b->area ? 1 : -1;
    return (a->other > b->other) - (a->other < b->other);
}

/* Each view is tied to the first that is like it. */
static void tie_areas(struct sorter *s)
{
    size_t first = 0;
    for (size_t i = 1; i < s->views.count; i++) {
        const struct view *a = &s->views.items[first];
        const struct view *b = &s->views.items[i];
        if (a->group != b->group || face_key_compare(a->key, b->key) != 0) {
            first = i;
            continue;
        }
        if (a->area == b->area)
            continue;
        const struct motion there = motion_compose(
            motion_inverse(s->ways[b->way].motion), s->ways[a->way].motion);
        *LIST_ADD(s->scratch, &s->ties) = (struct tie){a->area, b->area, there};
        *LIST_ADD(s->scratch, &s->ties) =
            (struct tie){b->area, a->area, motion_inverse(there)};
    }
    if (s->ties.count > 0)
        qsort(s->ties.items, s->ties.count, sizeof *s->ties.items,
              compare_ties);
}

/* ---- kinds ---- */

/* The first of its ties; those of an area lie one behind the other. */
static size_t first_tie(const struct sorter *s, size_t area)
{
    size_t low = 0, high = s->ties.count;
    while (low < high) {
        const size_t middle = (low + high) / 2;
        if (s->ties.items[middle].area < area)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* All that hangs together with an area by ties gets its kind, and the way there
 * from it. ensures: how many. */
static size_t spread_kind(struct sorter *s, size_t area, size_t kind,
                          size_t *queue)
{
    size_t count = 1;
    queue[0] = area;
    s->items[area].kind = kind;
    s->items[area].from_first = SAME;
    for (size_t i = 0; i < count; i++)
        for (size_t t = first_tie(s, queue[i]);
             t < s->ties.count && s->ties.items[t].area == queue[i]; t++) {
            struct area *other = &s->items[s->ties.items[t].other];
            if (other->kind != SIZE_MAX)
                continue;
            other->kind = kind;
            other->from_first = motion_compose(s->ties.items[t].motion,
                                               s->items[queue[i]].from_first);
            queue[count++] = s->ties.items[t].other;
        }
    return count;
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
static void order_areas(struct sorter *s)
{
    const size_t count = s->a->face_count;
    struct placed *placed = ARENA_ARRAY(s->scratch, struct placed, count + 1);
    s->order = ARENA_ARRAY(s->scratch, size_t, count + 1);
    for (size_t i = 0; i < count; i++)
        placed[i] = (struct placed){s->boxes[i].from, i};
    qsort(placed, count, sizeof *placed, compare_placed);
    for (size_t i = 0; i < count; i++)
        s->order[i] = placed[i].area;
}

/* The outer ring tells it, which comes first. */
static struct spot_line face_box(const struct arrangement *a, size_t face)
{
    struct spot_line box = {{HUGE_VAL, HUGE_VAL}, {-HUGE_VAL, -HUGE_VAL}};
    const struct arranged_ring ring = a->faces[face].rings[0];
    for (size_t i = 0; i < ring.count; i++) {
        const struct spot p = a->spots[ring.points[i]];
        box.from = (struct spot){fmin(box.from.x, p.x), fmin(box.from.y, p.y)};
        box.to = (struct spot){fmax(box.to.x, p.x), fmax(box.to.y, p.y)};
    }
    return box;
}

/* The boxes are asked once for each way, so they are made beforehand. */
static struct sorter start_sorter(struct arena *arena,
                                  const struct ground *ground,
                                  const struct arrangement *a)
{
    struct sorter s = {.scratch = arena_create_roomy(), .a = a};
    s.items = ARENA_ARRAY(arena, struct area, a->face_count + 1);
    s.boxes = ARENA_ARRAY(s.scratch, struct spot_line, a->face_count + 1);
    for (size_t i = 0; i < a->face_count; i++) {
        s.items[i] =
            (struct area){.face = i,
                          .fabric = ground_fabric(ground, a->faces[i].inside),
                          .kind = SIZE_MAX,
                          .area = a->faces[i].area};
        s.boxes[i] = face_box(a, i);
    }
    return s;
}

struct areas find_areas(struct arena *arena, const struct ground *ground,
                        const struct arrangement *arrangement,
                        const struct area_way *ways, size_t way_count)
{
    struct sorter s = start_sorter(arena, ground, arrangement);
    /* To leave all as it is belongs to the symmetries. */
    struct area_way *all =
        ARENA_ARRAY(s.scratch, struct area_way, way_count + 1);
    all[0] = (struct area_way){0, ground->extent, SAME};
    for (size_t w = 0; w < way_count; w++)
        all[w + 1] = ways[w];
    s.ways = all;
    s.way_count = way_count + 1;
    view_areas(&s);
    tie_areas(&s);
    order_areas(&s);
    LIST(struct area_kind) kinds = {0};
    size_t *queue = ARENA_ARRAY(s.scratch, size_t, arrangement->face_count + 1);
    for (size_t i = 0; i < arrangement->face_count; i++) {
        const size_t area = s.order[i], kind = kinds.count;
        if (s.items[area].kind == SIZE_MAX)
            *LIST_ADD(arena, &kinds) =
                (struct area_kind){fabric_letter(arena, (int)kind), area,
                                   spread_kind(&s, area, kind, queue)};
    }
    arena_destroy(s.scratch);
    return (struct areas){s.items, arrangement->face_count, kinds.items,
                          kinds.count};
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
