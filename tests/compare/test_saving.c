/* What can be saved of cut pieces, and the best assignment, against a search
 * over all ways. Sizes and counts come from a seed. */
#include <string.h>

#include "../unit.h"
#include "compare_parts.h"

/* ---- saving ---- */

enum { OLD_MOST = 4, NEW_MOST = 4, COUNT_MOST = 2 };

struct small {
    struct revision revisions[2];
    struct revision_quilt quilts[2];
    struct comparison comparison;
    struct quilt_pair pair;
    struct pairs fabrics;
};

static void add_pieces(struct arena *arena, struct revision_quilt *quilt,
                       struct unit_random *random, int64_t most)
{
    const size_t kinds = (size_t)unit_below(random, (uint64_t)most) + 1;
    for (size_t i = 0; i < kinds; i++) {
        struct revision_piece *piece = LIST_ADD(arena, &quilt->pieces);
        *piece = (struct revision_piece){
            .label = "A1",
            .purpose = "",
            .fabric = (int)unit_below(random, 2),
            .width = rational_whole(unit_below(random, 4) + 1),
            .height = rational_whole(unit_below(random, 4) + 1),
            .count = (size_t)unit_below(random, COUNT_MOST) + 1,
            .from_each = 1,
            .shape = ""};
    }
}

static struct small *make_small(struct arena *arena, struct unit_random *random)
{
    struct small *small = ARENA_NEW(arena, struct small);
    const bool way = unit_below(random, 2) == 0;
    for (int side = 0; side < 2; side++) {
        for (int f = 0; f < 2; f++)
            *LIST_ADD(arena, &small->revisions[side].fabrics) =
                (struct revision_fabric){f == 0 ? "a" : "b", "", "",
                                         f == 0 && way};
        add_pieces(arena, &small->quilts[side], random,
                   side == 0 ? OLD_MOST : NEW_MOST);
        small->comparison.revisions[side] = &small->revisions[side];
        small->pair.quilt[side] = &small->quilts[side];
    }
    small->fabrics = pairs_new(arena, 2, 2);
    pair_up(&small->fabrics, 0, 0);
    pair_up(&small->fabrics, 1, 1);
    small->pair.arena = arena;
    small->pair.comparison = &small->comparison;
    small->pair.fabrics = &small->fabrics;
    match_pieces(&small->pair);
    small->pair.pieces_changed = true;
    return small;
}

/* Single pieces, one for each count. */
struct units {
    const struct revision_piece *of[OLD_MOST * COUNT_MOST];
    size_t count;
};

static struct units units_of(const struct revision_quilt *quilt)
{
    struct units units = {.count = 0};
    for (size_t i = 0; i < quilt->pieces.count; i++)
        for (size_t k = 0; k < quilt->pieces.items[i].count; k++)
            units.of[units.count++] = &quilt->pieces.items[i];
    return units;
}

static bool may_serve(const struct small *small, const struct revision_piece *a,
                      const struct revision_piece *b)
{
    const bool way = small->revisions[1].fabrics.items[b->fabric].one_way;
    if (a->fabric != b->fabric)
        return false;
    return (b->width.num <= a->width.num && b->height.num <= a->height.num) ||
           (!way && b->width.num <= a->height.num &&
            b->height.num <= a->width.num);
}

struct served {
    int64_t area, whole;
};

/* The most area, then the most that serve as they are, by trying everything. */
static struct served best_of(const struct small *small,
                             const struct units *old, const struct units *now,
                             size_t at, unsigned used)
{
    if (at == now->count)
        return (struct served){0, 0};
    struct served best = best_of(small, old, now, at + 1, used);
    const struct revision_piece *b = now->of[at];
    for (size_t i = 0; i < old->count; i++) {
        const struct revision_piece *a = old->of[i];
        if ((used >> i & 1) != 0 || !may_serve(small, a, b))
            continue;
        struct served with = best_of(small, old, now, at + 1, used | 1u << i);
        with.area += b->width.num * b->height.num;
        with.whole += a->width.num * a->height.num ==
                      b->width.num * b->height.num;
        if (with.area > best.area ||
            (with.area == best.area && with.whole > best.whole))
            best = with;
    }
    return best;
}

static void test_saving_is_the_best(void **state)
{
    (void)state;
    struct unit_random random = {20261130};
    for (int run = 0; run < 400; run++) {
        struct arena *arena = arena_create();
        struct small *small = make_small(arena, &random);
        const struct units old = units_of(&small->quilts[0]);
        const struct units now = units_of(&small->quilts[1]);
        const struct served best = best_of(small, &old, &now, 0, 0);
        struct served told = {0, 0};
        size_t wanted = 0, left = 0;
        save_pieces(&small->pair);
        for (size_t i = 0; i < small->comparison.saved.count; i++) {
            const struct saved *s = &small->comparison.saved.items[i];
            wanted += s->piece_of_new != NOWHERE ? s->count : 0;
            left += s->piece_of_old != NOWHERE ? s->count : 0;
            if (s->saving == SAVED_NOT)
                continue;
            const struct revision_piece *a =
                &small->quilts[0].pieces.items[s->piece_of_old];
            const struct revision_piece *b =
                &small->quilts[1].pieces.items[s->piece_of_new];
            assert_true(may_serve(small, a, b));
            told.area += (int64_t)s->count * b->width.num * b->height.num;
            told.whole += s->saving == SAVED_WHOLE ? (int64_t)s->count : 0;
        }
        assert_int_equal(wanted, now.count);
        assert_int_equal(left, old.count);
        assert_int_equal(told.area, best.area);
        assert_int_equal(told.whole, best.whole);
        arena_destroy(arena);
    }
}

/* ---- assignment ---- */

static long best_gain(const long *gain, size_t m, size_t n, size_t at,
                      unsigned used)
{
    if (at == m)
        return 0;
    long best = best_gain(gain, m, n, at + 1, used);
    for (size_t j = 0; j < n; j++)
        if ((used >> j & 1) == 0 && gain[at * n + j] > 0) {
            const long with = gain[at * n + j] +
                              best_gain(gain, m, n, at + 1, used | 1u << j);
            best = with > best ? with : best;
        }
    return best;
}

static void test_assignment_is_the_best(void **state)
{
    (void)state;
    struct unit_random random = {77};
    for (int run = 0; run < 500; run++) {
        struct arena *arena = arena_create();
        const size_t m = (size_t)unit_below(&random, 6) + 1;
        const size_t n = (size_t)unit_below(&random, 6) + 1;
        long *gain = ARENA_ARRAY(arena, long, m *n);
        for (size_t i = 0; i < m * n; i++)
            gain[i] = unit_below(&random, 3) == 0 ? 0 : unit_below(&random, 50);
        const int *found = assign_best(arena, gain, m, n);
        unsigned used = 0;
        long told = 0;
        for (size_t i = 0; i < m; i++)
            if (found[i] != NOWHERE) {
                assert_int_equal(used >> found[i] & 1, 0);
                used |= 1u << found[i];
                told += gain[i * n + (size_t)found[i]];
            }
        assert_int_equal(told, best_gain(gain, m, n, 0, 0));
        arena_destroy(arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_saving_is_the_best),
        cmocka_unit_test(test_assignment_is_the_best)};
    return cmocka_run_group_tests_name("saving", tests, NULL, NULL);
}
