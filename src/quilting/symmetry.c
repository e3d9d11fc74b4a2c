/* Symmetries of a top, by keys: of each face one is made from its fabric and
 * the ends of its pieces, whatever their order, where a motion takes them. Two
 * keys of 64 bits stand for exact points; that others have the same pair is
 * less likely than 1 in 2^80 for a million faces. */
#include "symmetry.h"

#include <math.h>
#include <stdlib.h>

/* ---- motions ---- */

/* One row of the motion; no product is needed. */
static number moved(int by_x, int by_y, struct vertex v, number move)
{
    if (by_x != 0)
        move = by_x > 0 ? number_add(move, v.x) : number_sub(move, v.x);
    if (by_y != 0)
        move = by_y > 0 ? number_add(move, v.y) : number_sub(move, v.y);
    return move;
}

/* Exact, as all that is moved so was. */
struct vertex vertex_moved(struct motion m, struct vertex v)
{
    return (struct vertex){moved(m.xx, m.xy, v, m.move.x),
                           moved(m.yx, m.yy, v, m.move.y)};
}

/* The same for a point that is only drawn. */
struct spot spot_moved(struct motion m, struct spot at)
{
    const struct spot move = vertex_spot(m.move);
    return (struct spot){m.xx * at.x + m.xy * at.y + move.x,
                         m.yx * at.x + m.yy * at.y + move.y};
}

/* The product of both turns, the inner move turned by the outer. */
struct motion motion_compose(struct motion outer, struct motion inner)
{
    return (struct motion){outer.xx * inner.xx + outer.xy * inner.yx,
                           outer.xx * inner.xy + outer.xy * inner.yy,
                           outer.yx * inner.xx + outer.yy * inner.yx,
                           outer.yx * inner.xy + outer.yy * inner.yy,
                           vertex_moved(outer, inner.move)};
}

struct motion symmetry_motion(enum symmetry which, number width, number height)
{
    static const int parts[SYMMETRY_COUNT][4] = {
        [SYMMETRY_SAME] = {1, 0, 0, 1},
        [SYMMETRY_LEFT_RIGHT] = {-1, 0, 0, 1},
        [SYMMETRY_TOP_BOTTOM] = {1, 0, 0, -1},
        [SYMMETRY_HALF_TURN] = {-1, 0, 0, -1},
        [SYMMETRY_QUARTER_TURN] = {0, -1, 1, 0},
        [SYMMETRY_THREE_QUARTERS] = {0, 1, -1, 0},
        [SYMMETRY_FALLING] = {0, 1, 1, 0},
        [SYMMETRY_RISING] = {0, -1, -1, 0}};
    const int *p = parts[which];
    const number zero = number_whole(0);
    const bool from_right = p[0] + p[1] < 0, from_below = p[2] + p[3] < 0;
    return (struct motion){
        p[0],
        p[1],
        p[2],
        p[3],
        {from_right ? width : zero, from_below ? height : zero}};
}

struct motion placing_motion(struct orientation orientation, number width,
                             number height, struct vertex at)
{
    struct motion motion = symmetry_motion(
        orientation.mirror ? SYMMETRY_LEFT_RIGHT : SYMMETRY_SAME, width,
        height);
    for (unsigned i = 0; i < orientation.turn; i++) {
        const struct motion turn = {0, -1, 1, 0, {height, {0, 1}}};
        motion = motion_compose(turn, motion);
        const number swap = width;
        width = height;
        height = swap;
    }
    motion.move.x = number_add(motion.move.x, at.x);
    motion.move.y = number_add(motion.move.y, at.y);
    return motion;
}

/* ---- keys ---- */

/* All bits of the result depend on all of the argument (Steele, Lea and Flood,
 * 2014, from memory). */
static uint64_t mixed(uint64_t h)
{
    h = (h ^ (h >> 30)) * 0xbf58476d1ce4e5b9u;
    h = (h ^ (h >> 27)) * 0x94d049bb133111ebu;
    return h ^ (h >> 31);
}

/* The ends of a stretch; sums and products do not tell which is which. */
static void add_ends(struct face_key *key, uint64_t one, uint64_t other)
{
    key->a += mixed(one + other);
    key->b += mixed((one ^ other) + mixed(one * other));
}

/* Sums do not depend on where a ring begins, nor on its direction, which a
 * mirror turns round. */
void face_key_ring(struct face_key *key, const struct vertex *points,
                   size_t count)
{
    uint64_t last = vertex_hash(points[count - 1]);
    for (size_t i = 0; i < count; i++) {
        const uint64_t next = vertex_hash(points[i]);
        add_ends(key, last, next);
        last = next;
    }
}

void face_key_number(struct face_key *key, uint64_t value)
{
    key->a += mixed(value + 1);
    key->b += mixed(~value);
}

void face_key_stretch(struct face_key *key, uint64_t x, uint64_t y,
                      uint64_t other_x, uint64_t other_y)
{
    add_ends(key, mixed(x + 1) * 31 + mixed(~y),
             mixed(other_x + 1) * 31 + mixed(~other_y));
}

struct face_key face_key(const struct arrangement *a,
                         const struct arranged_face *face, int fabric,
                         struct motion motion)
{
    struct face_key key = {mixed((uint64_t)fabric + 1), (uint64_t)fabric};
    for (size_t r = 0; r < face->count; r++) {
        const struct arranged_ring ring = face->rings[r];
        uint64_t last = vertex_hash(
            vertex_moved(motion, a->points[ring.points[ring.count - 1]]));
        for (size_t i = 0; i < ring.count; i++) {
            const uint64_t next =
                vertex_hash(vertex_moved(motion, a->points[ring.points[i]]));
            add_ends(&key, last, next);
            last = next;
        }
    }
    return key;
}

int face_key_compare(struct face_key a, struct face_key b)
{
    if (a.a != b.a)
        return a.a > b.a ? 1 : -1;
    return (a.b > b.b) - (a.b < b.b);
}

static int compare_keys(const void *left, const void *right)
{
    return face_key_compare(*(const struct face_key *)left,
                            *(const struct face_key *)right);
}

/* Sorted keys are equal exactly where the faces are, in whatever order. */
static struct face_key *sorted_keys(struct arena *arena,
                                    const struct ground *ground,
                                    struct motion motion)
{
    const size_t count = ground->base->face_count;
    struct face_key *keys = ARENA_ARRAY(arena, struct face_key, count + 1);
    for (size_t f = 0; f < count; f++)
        keys[f] = face_key(ground->base, &ground->base->faces[f],
                           ground->fabric[f], motion);
    qsort(keys, count, sizeof *keys, compare_keys);
    return keys;
}

/* Those that take width to height: of squares alone. */
static bool turns_sides(enum symmetry which)
{
    return which >= SYMMETRY_QUARTER_TURN;
}

unsigned top_symmetries(struct arena *arena, const struct ground *ground,
                        struct fault *fault)
{
    const number width = ground->cloth->width, height = ground->cloth->height;
    const bool square = number_equal(width, height);
    unsigned held = SYMMETRY_BIT(SYMMETRY_SAME);
    const struct face_key *same = sorted_keys(
        arena, ground, symmetry_motion(SYMMETRY_SAME, width, height));
    for (enum symmetry s = SYMMETRY_LEFT_RIGHT; s < SYMMETRY_COUNT; s++) {
        if (turns_sides(s) && !square)
            continue;
        const struct face_key *other =
            sorted_keys(arena, ground, symmetry_motion(s, width, height));
        bool equal = true;
        for (size_t f = 0; f < ground->base->face_count; f++)
            equal = equal && face_key_compare(same[f], other[f]) == 0;
        held |= equal ? SYMMETRY_BIT(s) : 0;
    }
    *fault = ground->base->fault;
    return held;
}

/* ---- lines ---- */

static const double SAME = 1e-6;

/* So that a line and its way back are one. */
static struct spot_line ordered(struct spot_line line)
{
    const double off = fabs(line.from.x - line.to.x) > 2 * SAME
                           ? line.from.x - line.to.x
                           : line.from.y - line.to.y;
    return off <= 0 ? line : (struct spot_line){line.to, line.from};
}

static int compare_lines(const void *left, const void *right)
{
    const struct spot_line *a = left, *b = right;
    return (a->from.x > b->from.x) - (a->from.x < b->from.x);
}

/* Echoes and clipped lines are right to 1e-6, and no better. */
static bool same_spot(struct spot a, struct spot b)
{
    return fabs(a.x - b.x) <= SAME && fabs(a.y - b.y) <= SAME;
}

/* Is there one like it? They are sorted by the x of their beginnings. */
static bool has_like(const struct spot_line *sorted, size_t count,
                     struct spot_line line)
{
    size_t low = 0, high = count;
    while (low < high) {
        const size_t middle = (low + high) / 2;
        if (sorted[middle].from.x < line.from.x - SAME)
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < count && sorted[low].from.x <= line.from.x + SAME; low++)
        if (same_spot(sorted[low].from, line.from) &&
            same_spot(sorted[low].to, line.to))
            return true;
    return false;
}

size_t line_without_image(struct arena *arena, const struct spot_line *lines,
                          size_t count, struct motion motion)
{
    struct spot_line *sorted = ARENA_ARRAY(arena, struct spot_line, count + 1);
    for (size_t i = 0; i < count; i++)
        sorted[i] = ordered(lines[i]);
    qsort(sorted, count, sizeof *sorted, compare_lines);
    size_t lacks = SIZE_MAX;
    for (size_t i = 0; i < count && lacks == SIZE_MAX; i++) {
        const struct spot_line image = {spot_moved(motion, lines[i].from),
                                        spot_moved(motion, lines[i].to)};
        if (!has_like(sorted, count, ordered(image)))
            lacks = i;
    }
    return lacks;
}
