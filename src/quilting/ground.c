/* What lies under a line. Which seams a line meets, and where, is exact; which
 * cloth lies between two such places is asked at one point, in doubles, as no
 * seam is near. */
#include "ground.h"

#include <math.h>
#include <stdlib.h>

/* ---- the cloth at a point ---- */

/* A side of a face in doubles, reckoned once: points are asked by the million.
 */
struct face_side {
    struct spot from;
    double x, y, length; /* its way, so that the face lies at its left */
};

/* How far inside a convex face the point lies; below 0 outside. */
static double depth_in(const struct face_side *sides, size_t count,
                       struct spot at)
{
    double depth = HUGE_VAL;
    for (size_t i = 0; i < count; i++) {
        const struct face_side *s = &sides[i];
        const double off =
            s->x * (at.y - s->from.y) - s->y * (at.x - s->from.x);
        if (off / s->length < depth)
            depth = off / s->length;
    }
    return depth;
}

/* Faces reach over the outer allowance, which is no cloth of the top. */
static bool off_extent(struct extent extent, struct spot at)
{
    const struct spot low = vertex_spot(extent.low);
    const struct spot high = vertex_spot(extent.high);
    const double room = 1e-9;
    return at.x < low.x - room || at.y < low.y - room || at.x > high.x + room ||
           at.y > high.y + room;
}

int ground_fabric(const struct ground *ground, struct spot at)
{
    const size_t *near;
    const size_t count = grid_at(ground->faces, at, &near);
    int fabric = NO_FABRIC;
    double best = -1e-6;
    if (off_extent(ground->extent, at))
        return NO_FABRIC;
    for (size_t i = 0; i < count; i++) {
        const size_t first = ground->first_side[near[i]];
        const double depth = depth_in(
            ground->sides + first, ground->first_side[near[i] + 1] - first, at);
        if (depth > best) {
            best = depth;
            fabric = ground->cloth->faces.items[near[i]].fabric;
        }
    }
    return fabric;
}

/* ---- made once ---- */

/* The sides of one face behind those that are there; sides without length are
 * none. Returns how many there are then. */
static size_t lay_sides(struct face face, struct face_side *sides, size_t count)
{
    double turn = 0;
    for (size_t i = 0; i < face.count; i++) {
        const struct spot p = vertex_spot(face.points[i]);
        const struct spot q = vertex_spot(face.points[(i + 1) % face.count]);
        turn += p.x * q.y - p.y * q.x;
    }
    for (size_t i = 0; i < face.count; i++) {
        const struct spot p = vertex_spot(face.points[i]);
        const struct spot q = vertex_spot(face.points[(i + 1) % face.count]);
        const double x = q.x - p.x, y = q.y - p.y, length = hypot(x, y);
        if (length > 0)
            sides[count++] = (struct face_side){p, turn < 0 ? -x : x,
                                                turn < 0 ? -y : y, length};
    }
    return count;
}

/* The sides of all faces, one face behind the other. */
static void lay_faces(struct arena *arena, struct ground *ground)
{
    const size_t count = ground->cloth->faces.count;
    size_t *first = ARENA_ARRAY(arena, size_t, count + 1), room = 0;
    for (size_t i = 0; i < count; i++)
        room += ground->cloth->faces.items[i].count;
    struct face_side *sides = ARENA_ARRAY(arena, struct face_side, room + 1);
    for (size_t i = 0; i < count; i++)
        first[i + 1] =
            lay_sides(ground->cloth->faces.items[i], sides, first[i]);
    ground->sides = sides;
    ground->first_side = first;
}

/* Boxes of convex faces are near to what they hold. */
static struct spot_line face_box(struct face face)
{
    struct spot_line box = {{HUGE_VAL, HUGE_VAL}, {-HUGE_VAL, -HUGE_VAL}};
    for (size_t i = 0; i < face.count; i++) {
        const struct spot p = vertex_spot(face.points[i]);
        box.from = (struct spot){fmin(box.from.x, p.x), fmin(box.from.y, p.y)};
        box.to = (struct spot){fmax(box.to.x, p.x), fmax(box.to.y, p.y)};
    }
    return box;
}

/* Union and find (Tarjan, 1975): the way up is halved each time it is walked.
 */
static size_t part_of(size_t *part, size_t face)
{
    while (part[face] != face)
        face = part[face] = part[part[face]];
    return face;
}

void ground_parts(const struct ground *ground, const struct arrangement *a,
                  int *fabric, size_t *part)
{
    for (size_t f = 0; f < a->face_count; f++) {
        fabric[f] = ground_fabric(ground, a->faces[f].inside);
        part[f] = f;
    }
    for (size_t p = 0; p < a->piece_count; p++) {
        const long right = a->pieces[p].right, left = a->pieces[p].left;
        if (right >= 0 && left >= 0 && fabric[right] == fabric[left])
            part[part_of(part, (size_t)right)] = part_of(part, (size_t)left);
    }
    for (size_t f = 0; f < a->face_count; f++)
        part[f] = part_of(part, f);
}

/* Seams in doubles for the grid, as lines for walks, and arranged with the rim
 * for all that asks what hangs together. */
static void lay_seams(struct arena *arena, struct ground *ground)
{
    const size_t count = ground->cloth->seams.count;
    struct spot_line *spots = ARENA_ARRAY(arena, struct spot_line, count + 1);
    struct straight *lines = ARENA_ARRAY(arena, struct straight, count + 1);
    struct segment *all = ARENA_ARRAY(arena, struct segment, count + 4);
    for (size_t i = 0; i < count; i++) {
        const struct seam *seam = &ground->cloth->seams.items[i];
        spots[i] =
            (struct spot_line){vertex_spot(seam->from), vertex_spot(seam->to)};
        lines[i] = straight_through(seam->from, seam->to);
        all[i] = (struct segment){seam->from, seam->to};
    }
    extent_sides(ground->extent, all + count);
    ground->seam_spots = spots;
    ground->seam_lines = lines;
    ground->seams = grid_of_lines(arena, spots, count);
    ground->base = arrange_segments(arena, all, count + 4);
    const struct arrangement *base = ground->base;
    struct spot_line *pieces =
        ARENA_ARRAY(arena, struct spot_line, base->piece_count + 1);
    for (size_t p = 0; p < base->piece_count; p++)
        pieces[p] = (struct spot_line){base->spots[base->pieces[p].from],
                                       base->spots[base->pieces[p].to]};
    ground->pieces = grid_of_lines(arena, pieces, base->piece_count);
}

struct ground *ground_of(struct arena *arena, const struct cloth *cloth)
{
    struct ground *ground = ARENA_NEW(arena, struct ground);
    const size_t count = cloth->faces.count;
    struct spot_line *boxes = ARENA_ARRAY(arena, struct spot_line, count + 1);
    for (size_t i = 0; i < count; i++)
        boxes[i] = face_box(cloth->faces.items[i]);
    const number zero = number_whole(0);
    ground->cloth = cloth;
    ground->extent = level_extent((struct vertex){zero, zero},
                                  (struct vertex){cloth->width, cloth->height});
    ground->boxes = boxes;
    ground->faces = grid_of_boxes(arena, boxes, count);
    lay_faces(arena, ground);
    lay_seams(arena, ground);
    int *fabric = ARENA_ARRAY(arena, int, ground->base->face_count + 1);
    size_t *part = ARENA_ARRAY(arena, size_t, ground->base->face_count + 1);
    ground_parts(ground, ground->base, fabric, part);
    ground->fabric = fabric;
    ground->part = part;
    return ground;
}

/* ---- walks ---- */

struct walk {
    struct arena *arena;
    const struct ground *ground;
    struct segment way;
    struct straight line;
    stops found;
    struct fault fault;
};

/* A line that comes here leaves the quilt. */
static bool on_rim(struct extent e, struct vertex v)
{
    return number_equal(v.x, e.low.x) || number_equal(v.x, e.high.x) ||
           number_equal(v.y, e.low.y) || number_equal(v.y, e.high.y);
}

/* Places are compared along the line, which needs one coordinate alone. */
static bool within_places(struct straight line, struct segment s,
                          struct vertex v)
{
    const number at = straight_place(line, v);
    const number a = straight_place(line, s.from);
    const number b = straight_place(line, s.to);
    return number_compare(at, a) * number_compare(at, b) <= 0;
}

/* What lies before the way begins, or beyond its end, is no stop. */
static void add_stop(struct walk *walk, struct vertex v, bool seam)
{
    if (within_places(walk->line, walk->way, v))
        *LIST_ADD(walk->arena, &walk->found) = (struct stop){
            .at = v, .seam = seam, .edge = on_rim(walk->ground->extent, v)};
}

/* A seam in the same line is no crossing: its ends are stops, and what lies
 * beside it is asked at both hands. */
static void meet_seam(struct walk *walk, size_t index)
{
    const struct seam *seam = &walk->ground->cloth->seams.items[index];
    const struct straight line = walk->ground->seam_lines[index];
    const struct segment stretch = {seam->from, seam->to};
    if (straight_known(line) && straight_equal(line, walk->line)) {
        add_stop(walk, seam->from, true);
        add_stop(walk, seam->to, true);
    }
    if (straight_known(line) &&
        straight_compare_direction(line, walk->line) == 0)
        return;
    const struct vertex v = straight_meet(line, walk->line);
    if (!vertex_known(v))
        walk->fault = (struct fault){FAULT_LIMIT, index, index};
    else if (within_places(line, stretch, v))
        add_stop(walk, v, true);
}

static int compare_stops(const void *left, const void *right)
{
    const struct stop *a = left, *b = right;
    return vertex_compare(a->at, b->at);
}

/* In the order of the way, each place once. */
static void sort_stops(struct walk *walk)
{
    struct stop *items = walk->found.items;
    size_t count = 0;
    qsort(items, walk->found.count, sizeof *items, compare_stops);
    for (size_t i = 0; i < walk->found.count; i++) {
        if (count == 0 || !vertex_equal(items[count - 1].at, items[i].at))
            items[count++] = items[i];
        else
            items[count - 1].seam |= items[i].seam;
    }
    walk->found.count = count;
    if (vertex_compare(walk->way.from, walk->way.to) > 0)
        for (size_t i = 0; i < count / 2; i++) {
            const struct stop swap = items[i];
            items[i] = items[count - 1 - i];
            items[count - 1 - i] = swap;
        }
}

/* The fabrics beside the stretches, asked a hair beside their middles. */
static void look_beside(struct walk *walk)
{
    struct stop *items = walk->found.items;
    for (size_t i = 0; i < walk->found.count; i++) {
        items[i].right = items[i].left = NO_FABRIC;
        if (i + 1 == walk->found.count)
            continue;
        const struct spot a = vertex_spot(items[i].at);
        const struct spot b = vertex_spot(items[i + 1].at);
        const double length = hypot(b.x - a.x, b.y - a.y);
        const double hair = fmin(1e-6, length * 1e-3) / length;
        const struct spot aside = {-(b.y - a.y) * hair, (b.x - a.x) * hair};
        const struct spot middle = {(a.x + b.x) / 2, (a.y + b.y) / 2};
        items[i].right =
            ground_fabric(walk->ground, (struct spot){middle.x + aside.x,
                                                      middle.y + aside.y});
        items[i].left =
            ground_fabric(walk->ground, (struct spot){middle.x - aside.x,
                                                      middle.y - aside.y});
    }
}

stops ground_walk(struct arena *arena, const struct ground *ground,
                  struct vertex from, struct vertex to, struct fault *fault)
{
    struct walk walk = {.arena = arena,
                        .ground = ground,
                        .way = {from, to},
                        .line = straight_through(from, to)};
    const struct spot_line spots = {vertex_spot(from), vertex_spot(to)};
    const size_t *near;
    const size_t count = grid_along(ground->seams, spots, &near);
    if (!straight_known(walk.line)) {
        *fault = (struct fault){FAULT_LIMIT, 0, 0};
        return walk.found;
    }
    add_stop(&walk, from, false);
    add_stop(&walk, to, false);
    for (size_t i = 0; i < count; i++)
        if (!clearly_beside(spots, ground->seam_spots[near[i]]) &&
            !clearly_beside(ground->seam_spots[near[i]], spots))
            meet_seam(&walk, near[i]);
    sort_stops(&walk);
    look_beside(&walk);
    if (walk.fault.kind != FAULT_NONE)
        *fault = walk.fault;
    return walk.found;
}

bool ground_opens(const struct ground *ground, struct vertex from,
                  struct vertex toward, int fabric)
{
    const struct spot a = vertex_spot(from), b = vertex_spot(toward);
    const double length = hypot(b.x - a.x, b.y - a.y);
    const double x = (b.x - a.x) / length, y = (b.y - a.y) / length;
    const double on = 1e-5, aside = 1e-8;
    const struct spot at = {a.x + x * on, a.y + y * on};
    const struct spot right = {at.x - y * aside, at.y + x * aside};
    const struct spot left = {at.x + y * aside, at.y - x * aside};
    return ground_fabric(ground, right) == fabric &&
           ground_fabric(ground, left) == fabric;
}
