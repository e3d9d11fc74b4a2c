/* Arrangements at roots of 2 and 3: random tops of blocks that stand on a
 * corner, rows of triangles, and both beside each other. Faces are counted by
 * GEOS, which snaps the same lines in doubles to 1e-9, and by pieces, points
 * and parts; areas are exactly those of the tops. */
#include "grid.h"
#include "noded.h"

/* What a random top is made of. */
struct random_top {
    struct arena *arena;
    struct unit_random *random;
    segments *list;
    struct vertex origin; /* of its lattice */
    number width, height;
};

static number root(int of)
{
    return rational_root(of);
}

static number shared(number a, int64_t parts, int64_t of)
{
    return number_mul(a, rational_make(parts, of));
}

static void add_rim(struct random_top *top)
{
    struct segment sides[EXTENT_CORNERS];
    const struct vertex corner = {number_whole(0), number_whole(0)};
    extent_sides(level_extent(corner, (struct vertex){top->width, top->height}),
                 sides);
    for (size_t i = 0; i < EXTENT_CORNERS; i++)
        add_segment(top->arena, top->list, sides[i].from, sides[i].to);
}

/* ---- on point ---- */

/* A point of a block of 6 in whose top corner lies in `corner`, so many parts
 * of its sides to the lower right and to the lower left. */
static struct vertex slanted(struct vertex corner, int64_t right, int64_t left,
                             int64_t parts)
{
    const number half = number_div(root(2), number_whole(2));
    return (struct vertex){
        number_add(corner.x, shared(half, 6 * (right - left), parts)),
        number_add(corner.y, shared(half, 6 * (right + left), parts))};
}

static struct vertex random_slanted(struct random_top *top,
                                    struct vertex corner, int64_t parts)
{
    const uint64_t most = 1 + (uint64_t)parts;
    const int64_t right = unit_below(top->random, most);
    return slanted(corner, right, unit_below(top->random, most), parts);
}

/* The four sides and lines between points of a grid of thirds, sevenths or
 * eighths. */
static void add_slanted_block(struct random_top *top, struct vertex corner)
{
    static const int64_t grids[] = {3, 7, 8};
    const int64_t grid = grids[unit_below(top->random, UNIT_COUNT(grids))];
    const struct vertex corners[4] = {
        slanted(corner, 0, 0, 1), slanted(corner, 1, 0, 1),
        slanted(corner, 1, 1, 1), slanted(corner, 0, 1, 1)};
    for (int i = 0; i < 4; i++)
        add_segment(top->arena, top->list, corners[i], corners[(i + 1) % 4]);
    for (int64_t k = unit_below(top->random, 12); k > 0; k--)
        add_segment(top->arena, top->list, random_slanted(top, corner, grid),
                    random_slanted(top, corner, grid));
}

/* Blocks across and down, in a border of 3 in. */
static void add_on_point(struct random_top *top)
{
    const int64_t across = 1 + unit_below(top->random, 3);
    const int64_t down = 1 + unit_below(top->random, 3);
    const number diagonal = number_mul(number_whole(6), root(2));
    const number border = number_whole(2 * 3);
    top->width = number_add(number_mul(diagonal, number_whole(across)), border);
    top->height = number_add(number_mul(diagonal, number_whole(down)), border);
    for (int64_t line = 0; line < 2 * down - 1; line++)
        for (int64_t i = 0; i < across - line % 2; i++) {
            const struct vertex corner = {
                number_add(top->origin.x,
                           shared(diagonal, 2 * i + 1 + line % 2, 2)),
                number_add(top->origin.y, shared(diagonal, line, 2))};
            add_slanted_block(top, corner);
        }
}

/* ---- triangles ---- */

/* A point of rows 5 in high, in parts of the halves of sides and of heights. */
static struct vertex in_rows(const struct random_top *top, int64_t x, int64_t y,
                             int64_t parts)
{
    const number half = number_div(number_whole(5), root(3));
    return (struct vertex){
        number_add(top->origin.x, shared(half, x, parts)),
        number_add(top->origin.y, rational_make(5 * y, parts))};
}

/* Rows with their sides, and lines between points of a grid. */
static void add_rows(struct random_top *top)
{
    static const int64_t grids[] = {2, 3, 5};
    const int64_t across = 2 + unit_below(top->random, 5);
    const int64_t rows = 1 + unit_below(top->random, 4);
    const struct vertex high = in_rows(top, across, rows, 1);
    top->width = number_add(high.x, number_whole(3));
    top->height = number_add(high.y, number_whole(3));
    for (int64_t row = 0; row < rows; row++)
        for (int64_t i = 0; i < across; i++) {
            const bool falls = (row + i) % 2 == 0;
            add_segment(top->arena, top->list, in_rows(top, i, row + !falls, 1),
                        in_rows(top, i + 1, row + falls, 1));
            add_segment(top->arena, top->list, in_rows(top, i, row, 1),
                        in_rows(top, i + 1, row, 1));
        }
    for (int64_t k = unit_below(top->random, 40); k > 0; k--) {
        struct vertex ends[2];
        for (int e = 0; e < 2; e++) {
            const int64_t parts =
                grids[unit_below(top->random, UNIT_COUNT(grids))];
            const int64_t x =
                unit_below(top->random, 1 + (uint64_t)(across * parts));
            ends[e] = in_rows(
                top, x, unit_below(top->random, 1 + (uint64_t)(rows * parts)),
                parts);
        }
        add_segment(top->arena, top->list, ends[0], ends[1]);
    }
}

/* ---- judged ---- */

/* Twice the area of all faces, to the digit. */
static void assert_area(const struct arrangement *a, number width,
                        number height)
{
    number sum = number_whole(0);
    for (size_t f = 0; f < a->face_count; f++)
        for (size_t r = 0; r < a->faces[f].count; r++)
            sum = number_add(sum, ring_double_area(a, a->faces[f].rings[r]));
    assert_true(number_equal(
        sum, number_mul(number_whole(2), number_mul(width, height))));
}

static size_t top_of(size_t *part, size_t point)
{
    while (part[point] != point)
        point = part[point] = part[part[point]];
    return point;
}

/* Faces = pieces - points + parts that hang together (Euler). */
static void assert_count(struct arena *arena, const struct arrangement *a)
{
    size_t *part = ARENA_ARRAY(arena, size_t, a->point_count + 1), parts = 0;
    for (size_t i = 0; i < a->point_count; i++)
        part[i] = i;
    for (size_t p = 0; p < a->piece_count; p++)
        part[top_of(part, a->pieces[p].from)] = top_of(part, a->pieces[p].to);
    for (size_t i = 0; i < a->point_count; i++)
        parts += part[i] == i;
    assert_int_equal(a->face_count, a->piece_count - a->point_count + parts);
}

/* Points in doubles stay right to 1e-12, whatever their parts. */
static void assert_spots(const struct arrangement *a, const segments *list)
{
    for (size_t p = 0; p < a->piece_count; p++) {
        const struct segment s = list->items[a->sources[a->pieces[p].first]];
        const struct spot_line line = {vertex_spot(s.from), vertex_spot(s.to)};
        assert_true(spot_to_line(a->spots[a->pieces[p].from], line) < 1e-12);
        assert_true(spot_to_line(a->spots[a->pieces[p].to], line) < 1e-12);
    }
}

/* ensures: how many of the points have a root. */
static size_t judge(struct random_top *top)
{
    add_rim(top);
    const struct arrangement *a =
        arrange_segments(top->arena, top->list->items, top->list->count);
    double area;
    size_t roots = 0;
    assert_int_equal(a->fault.kind, FAULT_NONE);
    assert_count(top->arena, a);
    assert_int_equal(a->face_count, geos_faces(top->list, 1, 1e-9, &area));
    assert_area(a, top->width, top->height);
    assert_rings(a);
    assert_sources(a, top->list);
    assert_spots(a, top->list);
    for (size_t i = 0; i < a->point_count; i++)
        roots += rational_is_irrational(a->points[i].x) ||
                 rational_is_irrational(a->points[i].y);
    return roots;
}

enum kind { ON_POINT, TRIANGLES, BOTH, KINDS };

/* Triangles that lie over blocks on point have meetings with √6. */
static void add_kind(struct random_top *top, enum kind kind)
{
    if (kind != TRIANGLES)
        add_on_point(top);
    const number width = top->width, height = top->height;
    if (kind != ON_POINT)
        add_rows(top);
    if (kind == BOTH) {
        top->width = rational_max(width, top->width);
        top->height = rational_max(height, top->height);
    }
}

static void test_random_tops(void **state)
{
    struct unit_random random = {20261130};
    size_t roots[KINDS] = {0};
    (void)state;
    for (size_t i = 0; i < wanted_tops(); i++) {
        struct arena *arena = arena_create();
        segments list = {0};
        struct random_top top = {.arena = arena,
                                 .random = &random,
                                 .list = &list,
                                 .origin = at(3, 1, 3, 1)};
        add_kind(&top, i % KINDS);
        roots[i % KINDS] += judge(&top);
        arena_destroy(arena);
        rational_forget();
    }
    for (enum kind kind = ON_POINT; kind < KINDS; kind++)
        assert_true(roots[kind] > 10 * (wanted_tops() / KINDS));
}

/* Three lines through one point that no fraction tells are one point, and a
 * fourth that misses it by 1e-30 makes a triangle. */
static void test_hair(void **state)
{
    struct arena *arena = *state;
    segments list = {0};
    const number zero = number_whole(0), four = number_whole(4);
    const number hair = number_div(number_whole(1), power(10, 30));
    const struct vertex meet = {root(2), root(3)};
    const struct vertex far = {number_add(meet.x, meet.x),
                               number_add(meet.y, meet.y)};
    add_segment(arena, &list, (struct vertex){zero, zero}, far);
    add_segment(arena, &list, (struct vertex){meet.x, zero},
                (struct vertex){meet.x, four});
    add_segment(arena, &list, (struct vertex){zero, meet.y},
                (struct vertex){four, meet.y});
    assert_int_equal(arrange_segments(arena, list.items, 3)->point_count, 7);
    assert_int_equal(arrange_segments(arena, list.items, 3)->face_count, 0);
    const number beside = number_add(meet.x, hair);
    list.items[1] = (struct segment){{beside, zero}, {beside, four}};
    assert_int_equal(arrange_segments(arena, list.items, 3)->point_count, 9);
    assert_int_equal(arrange_segments(arena, list.items, 3)->face_count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_random_tops),
                                       cmocka_unit_test(test_hair)};
    return cmocka_run_group_tests_name("arrange roots", tests, unit_arena,
                                       unit_arena_end);
}
