/* Joint plans against the same cloth planned part after part: a pattern with
 * known numbers, and random ones with lengthwise borders. A few are planned in
 * `make test`; `BUILD/tests/cut/test_joint 500` plans so many. */
#include <stdlib.h>

#include "../resolve/small.h"
#include "cutter.h"

/* ---- random patterns ---- */

/* Half inches, at least `least` and below `limit`. */
static const char *halves(struct arena *arena, struct unit_random *random,
                          int64_t least, int64_t limit)
{
    const int64_t count = least + unit_below(random, (uint64_t)(limit - least));
    return arena_printf(arena, "%d%s", (int)(count / 2),
                        count % 2 == 1 ? " 1/2" : "");
}

/* A block of one to three rows, each of a patch of the border's cloth and one
 * of another. */
static const char *random_block(struct arena *arena, struct unit_random *random)
{
    const int64_t side = 12 + unit_below(random, 16); /* half inches */
    const char *block = "<column>";
    for (int64_t rows = 1 + unit_below(random, 3); rows > 0; rows--) {
        const int64_t width = 2 + unit_below(random, (uint64_t)side - 4);
        block = arena_printf(
            arena,
            "%s<row><patch fabric=\"night\" width=\"%d%s\" height=\"%s\"/>"
            "<patch fabric=\"flame\" width=\"%d%s\"/></row>",
            block, (int)(width / 2), width % 2 == 1 ? " 1/2" : "",
            halves(arena, random, 3, 16), (int)((side - width) / 2),
            (side - width) % 2 == 1 ? " 1/2" : "");
    }
    return arena_printf(arena, "%s</column>", block);
}

/* One or two lengthwise borders, a narrow one of another cloth between them;
 * three of five are bound with the same cloth. */
static const char *random_pattern(struct arena *arena, uint64_t seed)
{
    struct unit_random random = {seed * 2654435761u + 11};
    for (int i = 0; i < 8; i++)
        unit_next(&random);
    const char *text = arena_printf(
        arena, "<quilt id=\"q\"><grid across=\"%d\" down=\"%d\">%s</grid>",
        (int)(2 + unit_below(&random, 5)), (int)(3 + unit_below(&random, 6)),
        random_block(arena, &random));
    for (int64_t borders = 1 + unit_below(&random, 3) / 2; borders > 0;
         borders--)
        text = arena_printf(
            arena,
            "%s<border fabric=\"night\" width=\"%s\" grain=\"lengthwise\"/>%s",
            text, halves(arena, &random, 3, 16),
            borders > 1 ? "<border fabric=\"flame\" width=\"1\"/>" : "");
    const bool bound = unit_below(&random, 5) < 3;
    return arena_printf(arena, "%s<binding fabric=\"%s\" width=\"%s\"/></quilt>",
                        text, bound ? "night" : "glow",
                        unit_below(&random, 2) == 0 ? "2 1/4" : "2 1/2");
}

/* ---- what they save ---- */

static size_t patterns = 15;

static struct cutplan *plan_pattern(struct small *small, struct arena *arena,
                                    const char *text)
{
    *small = small_sew(arena, text);
    expect_clean(small);
    struct cutplans *plans = plan_cutting(small->run, small->sewn);
    expect_clean(small);
    return &plans->items.items[0];
}

struct tally {
    size_t patterns, less, more;
    double apart, joint; /* yards together */
};

/* Whose letter, and which: the next number is that of strips of another kind. */
static void check_labels(const struct fabric_plan *cloth)
{
    for (size_t i = 0; i < cloth->items.count; i++) {
        char label[24];
        snprintf(label, sizeof label, "%c%zu", 'A' + cloth->fabric, i + 1);
        assert_string_equal(cloth->items.items[i].label, label);
    }
}

/* Strips of binding of all kinds give its length. */
static void check_binding(const struct cutplan *plan)
{
    const struct fabric_plan *cloth = &plan->fabrics[plan->binding.fabric];
    struct rational length = plan->binding.width;
    size_t strips = 0;
    for (size_t i = 0; i < cloth->items.count; i++) {
        const struct cut_item *item = &cloth->items.items[i];
        if (item->use != CUT_BINDING)
            continue;
        const struct rational along =
            item->lengthwise ? item->height : item->width;
        strips += item->count;
        length = rational_add(
            length, rational_times(rational_sub(along, plan->binding.width),
                                   (int64_t)item->count));
    }
    check_labels(cloth);
    assert_int_equal(strips, plan->binding.strips);
    assert_true(rational_compare(length, plan->binding.length) >= 0);
}

static void plan_random(uint64_t seed, struct tally *tally)
{
    struct arena *arena = arena_create();
    const char *text = random_pattern(arena, seed);
    struct small small;
    const struct cutplan *plan = plan_pattern(&small, arena, text);
    const struct fabric_plan *night = &plan->fabrics[0];
    assert_true(cutplan_holds(night));
    check_binding(plan);
    const struct rational apart = night->apart_bought;
    const int order = rational_compare(night->bought, apart);
    tally->patterns++;
    tally->less += order < 0;
    tally->more += order > 0;
    tally->apart += (double)apart.num / (double)apart.den / 36;
    tally->joint += (double)night->bought.num / (double)night->bought.den / 36;
    if (getenv("JOINT_SHOW") != NULL)
        printf("# %3d %s %g %g\n# %s\n", (int)seed, order < 0 ? "less" : "same",
               (double)apart.num / (double)apart.den / 36,
               (double)night->bought.num / (double)night->bought.den / 36, text);
    arena_destroy(arena);
}

/* Borders of 4 1/2 x 60 1/2 and 56 1/2 leave 24 x 60 1/2. Squares take the
 * 25 in at its end; whole strips of binding, 7 of 2 1/2, would leave the other
 * 35 unused and take 78 in: 2 1/4 yd. Along the cloth five strips do, as
 * (258 - 2 1/2) / 58 is 4.4: 60 1/2 in and the squares beside them. */
static void test_binding_along(void **state)
{
    struct small small;
    const struct cutplan *plan = plan_pattern(
        &small, *state,
        "<quilt id=\"q\"><grid across=\"4\" down=\"5\"><row>"
        "<patch fabric=\"flame\" width=\"7 1/2\"/><column>"
        "<patch fabric=\"night\" width=\"4 1/2\" height=\"4 1/2\"/>"
        "<patch fabric=\"glow\" height=\"7 1/2\"/></column></row></grid>"
        "<border fabric=\"night\" width=\"4\" grain=\"lengthwise\"/>"
        "<binding fabric=\"night\"/></quilt>");
    const struct fabric_plan *night = &plan->fabrics[0];
    assert_rational(night->apart_bought, 81, 1);
    assert_rational(night->cut_height, 123, 2);
    assert_rational(night->bought, 63, 1);
    assert_int_equal(plan->binding.strips, 5);
    assert_string_equal(plan->binding.labels,
                        night->items.items[plan->binding.item].label);
    const struct cut_item *binding = &night->items.items[plan->binding.item];
    assert_int_equal(binding->use, CUT_BINDING);
    assert_true(binding->lengthwise);
    assert_rational(binding->height, 123, 2);
    assert_true(cutplan_holds(night));
}

/* Sides of 80 1/2 and ends of 40 1/2 x 12 1/2, each 1 in longer as the top is
 * not measured yet; four of them are 50 wide: two ends one behind the other are
 * as long as a side with 1 1/2 in more, so that three columns of 37 1/2 do in
 * place of 81 1/2 and 41 1/2 in of length. */
static void test_one_behind_the_other(void **state)
{
    struct small small;
    const struct cutplan *plan = plan_pattern(
        &small, *state,
        "<quilt id=\"q\"><grid across=\"2\" down=\"8\"><patch "
        "fabric=\"flame\" width=\"8\" height=\"10\"/></grid>"
        "<border fabric=\"night\" width=\"12\" grain=\"lengthwise\"/>"
        "</quilt>");
    const struct fabric_plan *night = &plan->fabrics[0];
    assert_rational(night->apart_bought, 126, 1);
    assert_rational(night->cut_height, 83, 1);
    assert_rational(night->bought, 171, 2);
    assert_int_equal(night->sheets.count, 1);
    const struct sheet *sheet = &night->sheets.items[0];
    size_t behind = 0;
    for (size_t i = 0; i < sheet->strips.count; i++)
        if (sheet->strips.items[i].cuts.items[0].count == 2)
            behind += sheet->strips.items[i].repeat;
    assert_int_equal(behind, 1);
    assert_true(cutplan_holds(night));
}

/* ---- backing in the same cloth ---- */

/* The same pattern twice, its backing apart or together. */
static const struct cutplan *plan_backed(struct arena *arena, const char *text,
                                         const char *bought)
{
    const char *binding = strstr(text, "<binding");
    struct small small;
    return plan_pattern(
        &small, arena,
        arena_printf(arena,
                     "%.*s<backing fabric=\"night\" bought=\"%s\"/>%s",
                     (int)(binding - text), text, bought, binding));
}

/* Panels cover the backing: each join takes 1/2 in of both. */
static void check_panels(const struct cutplan *plan)
{
    const struct backing_plan *backing = &plan->backing;
    const struct fabric_plan *night = &plan->fabrics[0];
    struct rational across = rational_whole(1);
    size_t panels = 0;
    for (size_t i = 0; i < night->items.count; i++) {
        const struct cut_item *item = &night->items.items[i];
        if (item->use != CUT_BACKING)
            continue;
        assert_true(rational_equal(item->height, backing->panel_length));
        panels += item->count;
        across = rational_add(
            across,
            rational_times(rational_sub(item->width, rational_whole(1)),
                           (int64_t)item->count));
    }
    assert_int_equal(panels, backing->panels);
    assert_true(rational_compare(across, backing->seams_vertical
                                             ? backing->width
                                             : backing->height) >= 0);
    assert_int_equal(rational_sign(backing->bought), 0);
}

/* Together never takes more than both apart; mostly it takes less. */
static void test_backing_together(void **state)
{
    (void)state;
    const size_t backed = 5 + patterns / 5;
    size_t less = 0;
    for (uint64_t seed = 1; seed <= backed; seed++) {
        struct arena *arena = arena_create();
        const char *text = random_pattern(arena, seed);
        const struct cutplan *apart = plan_backed(arena, text, "apart");
        const struct cutplan *together = plan_backed(arena, text, "together");
        assert_true(cutplan_holds(&together->fabrics[0]));
        check_panels(together);
        check_binding(together);
        const struct rational sum =
            rational_add(apart->fabrics[0].bought, apart->backing.bought);
        const int order =
            rational_compare(together->fabrics[0].bought, sum);
        assert_true(order <= 0);
        less += order < 0;
        arena_destroy(arena);
    }
    print_message("# backing together takes less for %zu of %zu\n", less,
                  backed);
    assert_in_range(less, backed / 2, backed);
}

static void test_random_patterns(void **state)
{
    (void)state;
    struct tally tally = {0};
    for (uint64_t seed = 1; seed <= patterns; seed++)
        plan_random(seed, &tally);
    print_message("# %zu patterns: joint plans take less cloth as sold for "
                  "%zu, more for %zu; %.3f yd in place of %.3f\n",
                  tally.patterns, tally.less, tally.more, tally.joint,
                  tally.apart);
    assert_int_equal(tally.more, 0);
    assert_true(tally.less * 3 >= tally.patterns);
}

int main(int argc, char **argv)
{
    if (argc > 1)
        patterns = strtoul(argv[1], NULL, 10);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_binding_along),
        cmocka_unit_test(test_one_behind_the_other),
        cmocka_unit_test(test_backing_together),
        cmocka_unit_test(test_random_patterns),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
