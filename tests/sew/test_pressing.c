/* Pressing that the compiler decides, on random quilts: rows, columns, grids
 * and half-squares in units that lie turned and mirrored, with a word here and
 * there. What collides is counted on the cloth of the whole quilt, by its lines
 * alone; the least is found by sewing the quilt with every choice of ways. The
 * quilt that is sewn for good must have as little, and where something is left,
 * the remark must name a ring. SEAMWRIGHT_QUILTS=1000 makes that many, with up
 * to SEAMWRIGHT_WAYS=12 ways each. */
#include <stdlib.h>

#include "../resolve/small.h"
#include "craft.h"
#include "press_plan.h"

/* ---- random quilts ---- */

struct grower {
    struct arena *arena;
    struct unit_random random;
    int words; /* one in so many pieces has a word; 0 for none */
};

static int below(struct grower *g, int limit)
{
    return (int)unit_below(&g->random, (uint64_t)limit);
}

static const char *any_fabric(struct grower *g)
{
    static const char *const fabrics[] = {"night", "flame", "glow"};
    return fabrics[below(g, 3)];
}

static const char *any_word(struct grower *g, bool row)
{
    static const char *const words[] = {"left", "right", "open",
                                        "up",   "down",  "open"};
    if (g->words == 0 || below(g, g->words) != 0)
        return "";
    return arena_printf(g->arena, " press=\"%s\"",
                        words[below(g, 3) + (row ? 0 : 3)]);
}

static const char *grow_leaf(struct grower *g, int width, int height)
{
    const int first = below(g, 3), other = (first + 1 + below(g, 2)) % 3;
    static const char *const fabrics[] = {"night", "flame", "glow"};
    if (width != height || below(g, 3) > 0)
        return arena_printf(g->arena,
                            "<patch fabric=\"%s\" width=\"%d\" height=\"%d\"/>",
                            any_fabric(g), width, height);
    return arena_printf(g->arena,
                        "<half-square size=\"%d\" line=\"%s\" left=\"%s\" "
                        "right=\"%s\"/>",
                        width, below(g, 2) == 0 ? "rising" : "falling",
                        fabrics[first], fabrics[other]);
}

static const char *grow(struct grower *g, int width, int height, int depth);

/* Cut into equal parts, so that seams of neighbors meet often. */
static const char *grow_join(struct grower *g, int width, int height, int depth)
{
    const bool row = width > 1 && (height == 1 || below(g, 2) == 0);
    const int whole = row ? width : height;
    const int parts = whole % 3 == 0 ? 3 : 2;
    const char *inside = "";
    for (int i = 0; i < parts; i++)
        inside = arena_printf(g->arena, "%s%s", inside,
                              grow(g, row ? width / parts : width,
                                   row ? height : height / parts, depth - 1));
    const char *name = row ? "row" : "column";
    return arena_printf(g->arena, "<%s%s>%s</%s>", name, any_word(g, row),
                        inside, name);
}

static const char *grow_grid(struct grower *g, int size)
{
    const char *inside = "";
    for (int i = 0; i < 4; i++)
        inside = arena_printf(g->arena, "%s%s", inside,
                              grow_leaf(g, size / 2, size / 2));
    return arena_printf(g->arena, "<grid across=\"2\" down=\"2\">%s</grid>",
                        inside);
}

static const char *grow(struct grower *g, int width, int height, int depth)
{
    const bool odd = (width > 1 && width % 2 != 0 && width % 3 != 0) ||
                     (height > 1 && height % 2 != 0 && height % 3 != 0);
    if (depth == 0 || odd || (width == 1 && height == 1))
        return grow_leaf(g, width, height);
    if (width == height && width % 2 == 0 && below(g, 4) == 0)
        return grow_grid(g, width);
    return grow_join(g, width, height, depth);
}

/* Two or three units of one size, in two rows or columns of two or three. */
static const char *grow_quilt(struct grower *g)
{
    const int size = below(g, 2) == 0 ? 4 : 6, units = 2 + below(g, 2);
    const char *text = "";
    for (int i = 0; i < units; i++)
        text = arena_printf(g->arena, "%s<unit id=\"u%d\">%s</unit>\n", text, i,
                            grow(g, size, size, 1 + below(g, 2)));
    const int across = 2 + below(g, 2), down = 1 + below(g, 3);
    const char *inside = "";
    for (int i = 0; i < across * down; i++)
        inside = arena_printf(
            g->arena, "%s<use unit=\"u%d\" turn=\"%d\" mirror=\"%s\"/>", inside,
            below(g, units), 90 * below(g, 4), below(g, 3) == 0 ? "yes" : "no");
    return arena_printf(g->arena,
                        "%s<quilt id=\"throw\"><grid across=\"%d\" "
                        "down=\"%d\">%s</grid></quilt>\n",
                        text, across, down, inside);
}

/* ---- what collides, by lines alone ---- */

/* Of the points of a seam the one on the line, if the other lies beside it and
 * between the ends of the joint. */
static bool ends_on(const struct seam *joint, const struct seam *seam,
                    struct vertex *at, int *before, int *side)
{
    const bool level = rational_equal(joint->from.y, joint->to.y);
    const struct rational line = level ? joint->from.y : joint->from.x;
    const struct rational low = level ? joint->from.x : joint->from.y;
    const struct rational high = level ? joint->to.x : joint->to.y;
    const struct vertex ends[2] = {seam->from, seam->to};
    for (int i = 0; i < 2; i++) {
        const struct rational across = level ? ends[i].y : ends[i].x;
        const struct rational along = level ? ends[i].x : ends[i].y;
        const struct rational other = level ? ends[1 - i].y : ends[1 - i].x;
        const struct rational beside = level ? ends[1 - i].x : ends[1 - i].y;
        if (!rational_equal(across, line) || rational_equal(other, line) ||
            rational_compare(along, low) < 0 ||
            rational_compare(along, high) > 0 ||
            rational_compare(beside, low) < 0 ||
            rational_compare(beside, high) > 0)
            continue;
        *at = ends[i];
        *before = rational_compare(other, line) < 0;
        *side = level ? seam->x : seam->y;
        return true;
    }
    return false;
}

static bool is_joint(const struct seam *seam)
{
    return strncmp(seam->operation->name, "join-", 5) == 0 &&
           (rational_equal(seam->from.x, seam->to.x) ||
            rational_equal(seam->from.y, seam->to.y));
}

/* From left to right or down, however the cloth lies. */
static struct seam onward(struct seam seam)
{
    const int x = rational_compare(seam.from.x, seam.to.x);
    if (x > 0 || (x == 0 && rational_compare(seam.from.y, seam.to.y) > 0)) {
        const struct vertex from = seam.from;
        seam.from = seam.to;
        seam.to = from;
    }
    return seam;
}

static int64_t pairs_on(const struct cloth *cloth, size_t joint)
{
    const struct seam line = onward(cloth->seams.items[joint]);
    int64_t pairs = 0;
    for (size_t i = 0; i < cloth->seams.count; i++)
        for (size_t k = 0; k < cloth->seams.count; k++) {
            struct vertex at[2];
            int before[2], side[2];
            if (i == joint || k == joint ||
                !ends_on(&line, &cloth->seams.items[i], &at[0], &before[0],
                         &side[0]) ||
                !before[0] ||
                !ends_on(&line, &cloth->seams.items[k], &at[1], &before[1],
                         &side[1]) ||
                before[1])
                continue;
            pairs += rational_equal(at[0].x, at[1].x) &&
                     rational_equal(at[0].y, at[1].y) && side[0] * side[1] > 0;
        }
    return pairs;
}

static int64_t pairs_of(const struct cloth *cloth)
{
    int64_t pairs = 0;
    for (size_t i = 0; i < cloth->seams.count; i++)
        if (is_joint(&cloth->seams.items[i]))
            pairs += pairs_on(cloth, i);
    return pairs;
}

/* ---- every choice ---- */

static int64_t sewn_pairs(const struct sewer *like,
                          const struct press_plan *plan)
{
    struct aside aside;
    sew_aside(&aside, like, NULL, plan);
    const struct heap *whole =
        &aside.quilt.heaps.items[aside.quilt.heaps.count - 1];
    const int64_t pairs = pairs_of(whole->cloth);
    assert_int_equal(pairs, aside_collisions(&aside));
    end_aside(&aside);
    return pairs;
}

/* All ways that the plan has, of all pieces. */
struct ways {
    LIST(struct planned_way *) items;
};

/* Pieces that share a way have one list. */
static struct ways ways_of(struct arena *arena, const struct small *s,
                           const struct press_plan *plan)
{
    struct ways ways = {0};
    for (size_t i = 0; i < s->design->pieces.count; i++)
        for (struct planned_way *way = plan->ways[i]; way != NULL;
             way = way->next) {
            size_t k = 0;
            while (k < ways.items.count && ways.items.items[k] != way)
                k++;
            if (k == ways.items.count)
                *LIST_ADD(arena, &ways.items) = way;
        }
    return ways;
}

/* ensures: the fewest pairs of all choices; -1 where there are too many. */
static int64_t least_of(struct arena *arena, const struct small *s,
                        const struct sewer *like, const struct press_plan *plan,
                        size_t most)
{
    const struct ways ways = ways_of(arena, s, plan);
    const size_t count = ways.items.count;
    if (count > most)
        return -1;
    int *solved = ARENA_ARRAY(arena, int, count + 1);
    for (size_t k = 0; k < count; k++)
        solved[k] = ways.items.items[k]->way;
    int64_t least = INT64_MAX;
    for (size_t choice = 0; choice < (size_t)1 << count && least > 0;
         choice++) {
        for (size_t k = 0; k < count; k++)
            ways.items.items[k]->way = choice >> k & 1 ? 1 : -1;
        const int64_t pairs = sewn_pairs(like, plan);
        least = pairs < least ? pairs : least;
    }
    for (size_t k = 0; k < count; k++)
        ways.items.items[k]->way = solved[k];
    return least;
}

struct tally {
    size_t quilts, searched, nest, helped, odd;
    size_t most_ways;
};

/* Each remark must tell a ring at its places. */
static size_t remarks_with_ring(const struct small *s)
{
    const struct diagnostic **sorted;
    size_t count = 0;
    for (size_t i = 0, all = diag_sorted(s->run, &sorted); i < all; i++) {
        const struct diagnostic *d = sorted[i];
        if (d->code != DIAG_SEAMS_COLLIDE)
            continue;
        count++;
        assert_non_null(d->help);
        if (d->notes.count < 2 || d->notes.items[1].span.end == 0) {
            small_show(s);
            fail_msg("a remark without a ring");
        }
    }
    return count;
}

static void judge(struct arena *arena, const struct small *s, size_t most,
                  struct tally *tally)
{
    const struct sewn_quilt *quilt = &s->sewn->quilts.items[0];
    struct sewn_quilt again = {.definition = quilt->definition};
    const struct sewer like = {.run = s->run,
                               .sized = s->sized,
                               .build = build_piece,
                               .quilt = &again};
    struct aside ruled;
    sew_aside(&ruled, &like, NULL, NULL);
    const int64_t before = aside_collisions(&ruled);
    const int64_t after = pairs_of(quilt->heaps.items[quilt->whole].cloth);
    const size_t remarks = remarks_with_ring(s);
    int64_t least = before;
    bool searched = true;
    const struct press_plan *plan = make_plans(arena, &ruled.sewer, NULL);
    for (; plan != NULL && least > 0; plan = plan->next) {
        const int64_t found = least_of(arena, s, &like, plan, most);
        searched &= found >= 0;
        least = found >= 0 && found < least ? found : least;
    }
    end_aside(&ruled);
    if (after > before || (remarks > 0) != (after > 0) ||
        (searched && after != least)) {
        small_show(s);
        fail_msg("%lld by the rules, %lld solved, %lld at least",
                 (long long)before, (long long)after, (long long)least);
    }
    tally->quilts++;
    tally->searched += searched;
    tally->nest += after == 0;
    tally->helped += after < before;
    tally->odd += after > 0;
}

/* A number from the environment, or what serves where there is none. */
static size_t number_of(const char *name, size_t usual)
{
    const char *text = getenv(name);
    return text == NULL ? usual : (size_t)strtoul(text, NULL, 10);
}

static void test_no_choice_has_fewer(void **state)
{
    (void)state;
    const size_t quilts = number_of("SEAMWRIGHT_QUILTS", 60);
    const size_t most = number_of("SEAMWRIGHT_WAYS", 6);
    struct tally tally = {0};
    for (size_t i = 0; i < quilts; i++) {
        struct arena *arena = arena_create();
        struct grower g = {arena, {(i + 1) * 7919}, i % 3 == 0 ? 6 : 0};
        const struct small s = small_sew(arena, grow_quilt(&g));
        expect_clean(&s);
        judge(arena, &s, most, &tally);
        arena_destroy(arena);
    }
    print_message("# %zu quilts, %zu searched whole; %zu nest, %zu have odd "
                  "rings; %zu better than by the rules\n",
                  tally.quilts, tally.searched, tally.nest, tally.odd,
                  tally.helped);
    assert_true(tally.searched > quilts / 4);
    assert_true(tally.nest > 0 && tally.odd > 0 && tally.helped > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_choice_has_fewer),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
