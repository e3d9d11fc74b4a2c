/* References in the designer's words: what they are bound to, how many and how
 * large that is, and what is said of names that are not there. */
#include "small.h"

/* A wing is a quarter of a block that lies at 6 and at 12; the bed has none. */
#define BODY(words)                                                       \
    "<unit id=\"wing\" width=\"3\" height=\"3\">"                         \
    "<row><patch id=\"bar\" fabric=\"night\" width=\"1\"/>"               \
    "<patch fabric=\"flame\"/></row></unit>\n"                            \
    "<unit id=\"lone\" width=\"4\" height=\"4\">"                         \
    "<patch id=\"rim\" fabric=\"glow\"/></unit>\n"                        \
    "<block id=\"lantern\" grid=\"6\"><grid across=\"2\" down=\"2\">"     \
    "<use unit=\"wing\"/><use unit=\"wing\" turn=\"90\"/>"                \
    "<use unit=\"wing\" mirror=\"yes\"/><use unit=\"wing\"/>"             \
    "</grid></block>\n"                                                   \
    "<quilt id=\"throw\"><column><use block=\"lantern\" finished=\"12\"/>" \
    "<grid id=\"feet\" across=\"2\" down=\"1\">"                          \
    "<use block=\"lantern\" finished=\"6\"/></grid></column>"             \
    "<border fabric=\"night\" width=\"2\"/></quilt>\n"                    \
    "<quilt id=\"bed\"><patch id=\"plain\" fabric=\"glow\" width=\"9\" "  \
    "height=\"7\"/></quilt>\n"                                            \
    "<about><summary>" words "</summary></about>\n"

static const struct reference *reference_at(const struct small *small,
                                            size_t index)
{
    assert_non_null(small->design->summary);
    assert_true(index < small->design->summary->references.count);
    return &small->design->summary->references.items[index];
}

static void test_references_are_bound(void **state)
{
    const struct small s = small_resolve(
        *state,
        BODY("<qty of=\"wing\"/><size of=\"bar\" as=\"cut\"/> "
             "<cloth of=\"glow\"/><size of=\"throw\" as=\"finished\"/>"));
    expect_clean(&s);
    assert_int_equal(s.design->summary->references.count, 4);
    const struct reference *wing = reference_at(&s, 0);
    assert_int_equal(wing->kind, REFER_COUNT);
    assert_ptr_equal(wing->make, design_find(s.design, "wing", DEFINE_UNIT));
    const struct reference *bar = reference_at(&s, 1);
    assert_int_equal(bar->kind, REFER_SIZE);
    assert_int_equal(bar->as, AS_CUT);
    assert_null(bar->make);
    assert_ptr_equal(bar->piece, small_piece(&s, "bar"));
    assert_int_equal(reference_at(&s, 2)->kind, REFER_CLOTH);
    assert_int_equal(reference_at(&s, 2)->fabric, 2);
    assert_ptr_equal(reference_at(&s, 3)->make,
                     design_find(s.design, "throw", DEFINE_QUILT));
    assert_int_equal(reference_at(&s, 3)->as, AS_FINISHED);
}

static void test_names_that_are_not_there(void **state)
{
    const struct small s =
        small_resolve(*state, BODY("<qty of=\"wign\"/><size of=\"baar\"/>"
                                   "<cloth of=\"glaw\"/>"));
    assert_int_equal(small_errors(&s), 3);
    assert_true(says(expect_at(&s, DIAG_UNKNOWN_PIECE, "wign", "wign"),
                     "`wing`"));
    assert_true(says(expect_at(&s, DIAG_UNKNOWN_PIECE, "baar", "baar"),
                     "`bar`"));
    assert_true(says(expect_at(&s, DIAG_UNKNOWN_FABRIC, "glaw", "glaw"),
                     "`glow`"));
}

static void test_only_a_patch_has_a_cut_size(void **state)
{
    static const char *const sewn[] = {"wing", "lantern", "throw", "feet"};
    for (size_t i = 0; i < UNIT_COUNT(sewn); i++) {
        const struct small s = small_resolve(
            *state, arena_printf(*state, BODY("<size of=\"%s\" as=\"cut\"/>"),
                                 sewn[i]));
        const char *place =
            arena_printf(*state, "<size of=\"%s\"", sewn[i]);
        const struct diagnostic *d =
            expect_only(&s, DIAG_UNKNOWN_PIECE, place, sewn[i]);
        assert_string_equal(d->replacement, "unfinished");
    }
}

static void assert_size(const struct taken *taken, size_t index, int64_t width,
                        int64_t height)
{
    assert_true(index < taken->sizes.count);
    assert_rational(taken->sizes.items[index].width, width, 1);
    assert_rational(taken->sizes.items[index].height, height, 1);
}

/* By hand: 3 blocks of 4 wings; the large block has squares of 2, the small
 * ones of 1. A border of 2 all around 12 x 18. */
static void test_each_quilt_takes_its_own(void **state)
{
    const struct small s = small_sew(
        *state, BODY("<qty of=\"wing\"/><qty of=\"bar\"/><qty of=\"feet\"/>"
                     "<qty of=\"throw\"/><qty of=\"plain\"/>"
                     "<qty of=\"lantern\"/>"));
    expect_clean(&s);
    static const size_t counts[2][6] = {{12, 12, 1, 1, 0, 3},
                                        {0, 0, 0, 0, 1, 0}};
    for (size_t q = 0; q < 2; q++)
        for (size_t i = 0; i < 6; i++)
            assert_int_equal(
                taken_of(&s.sewn->quilts.items[q], reference_at(&s, i))->count,
                counts[q][i]);
    /* The bed has no wing, and tells the sizes that the throw has. */
    for (size_t q = 0; q < 2; q++) {
        const struct sewn_quilt *quilt = &s.sewn->quilts.items[q];
        const struct taken *wing = taken_of(quilt, reference_at(&s, 0));
        assert_int_equal(wing->sizes.count, 2);
        assert_size(wing, 0, 6, 6);
        assert_size(wing, 1, 3, 3);
        assert_size(taken_of(quilt, reference_at(&s, 1)), 0, 2, 6);
        assert_size(taken_of(quilt, reference_at(&s, 3)), 0, 16, 22);
        assert_size(taken_of(quilt, reference_at(&s, 4)), 0, 9, 7);
    }
}

/* The heaps count anew, from the top down: both must agree. */
static void test_counts_are_those_of_the_heaps(void **state)
{
    const struct small s = small_sew(*state, BODY("<qty of=\"wing\"/>"));
    expect_clean(&s);
    const struct sewn_quilt *quilt = &s.sewn->quilts.items[0];
    const struct definition *wing =
        design_find(s.design, "wing", DEFINE_UNIT);
    size_t heaps = 0, made = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (quilt->heaps.items[i].named == wing) {
            made += quilt->heaps.items[i].count;
            heaps++;
        }
    /* Two sizes; a mirrored wing is a plain one turned by half. */
    assert_int_equal(heaps, 2);
    assert_int_equal(made, taken_of(quilt, reference_at(&s, 0))->count);
}

static void test_a_size_of_what_no_quilt_takes(void **state)
{
    const struct small none = small_sew(*state, BODY("<size of=\"rim\"/>"));
    expect_only(&none, DIAG_SIZE_OPEN, "<size of=\"rim\"", "rim");
    /* None of it is a number like another; that it is not used was told. */
    const struct small zero =
        small_sew(*state, BODY("<qty of=\"rim\"/><qty of=\"lone\"/>"));
    expect_clean(&zero);
    assert_int_equal(small_count(&zero, DIAG_NOT_USED), 1);
    assert_int_equal(
        taken_of(&zero.sewn->quilts.items[0], reference_at(&zero, 0))->count,
        0);
    /* What is said of its making is not printed. */
    const struct small apart = small_sew(
        *state, BODY("Dark") "<assembly of=\"lone\"><step make=\"lone\">"
                             "<say><size of=\"rim\"/></say></step></assembly>");
    expect_clean(&apart);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_references_are_bound),
        cmocka_unit_test(test_names_that_are_not_there),
        cmocka_unit_test(test_only_a_patch_has_a_cut_size),
        cmocka_unit_test(test_each_quilt_takes_its_own),
        cmocka_unit_test(test_counts_are_those_of_the_heaps),
        cmocka_unit_test(test_a_size_of_what_no_quilt_takes),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
