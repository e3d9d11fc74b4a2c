/* Sizes that are left out, sums that do not come out, statements, rulers and
 * what is cut. */
#include "../resolve/small.h"

#define BLOCK(attributes, inside)                                        \
    "<block id=\"star\" " attributes ">" inside "</block>\n"
#define USED(attributes)                                                 \
    "<quilt id=\"throw\"><use block=\"star\" " attributes "/></quilt>\n"
#define P(id, sizes) "<patch id=\"" id "\" fabric=\"night\" " sizes "/>"

static void assert_size(const struct small *s, const char *id, int64_t width,
                        int64_t width_den, int64_t height, int64_t height_den)
{
    const size_t i = small_piece(s, id)->index;
    assert_rational(s->sized->width[i], width, width_den);
    assert_rational(s->sized->height[i], height, height_den);
}

/* ---- sizes left out ---- */

static void test_row_and_column(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"6\"",
              "<row id=\"row\">" P("a", "width=\"1 1/2\"") P("b", "")
              "<column>" P("c", "width=\"3\" height=\"5\"") P("d", "")
              "</column></row>") USED("finished=\"12\""));
    expect_clean(&s);
    assert_size(&s, "row", 6, 1, 6, 1);
    assert_size(&s, "a", 3, 2, 6, 1);
    assert_size(&s, "b", 3, 2, 6, 1);
    assert_size(&s, "c", 3, 1, 5, 1);
    assert_size(&s, "d", 3, 1, 1, 1);
}

static void test_grids(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"6 x 5\"",
              "<grid across=\"3\" down=\"2\">" P("a", "width=\"1\"")
              P("b", "") P("c", "height=\"2\"") P("d", "") P("e", "")
              P("f", "width=\"2\"") "</grid>") USED("finished=\"12 x 10\""));
    expect_clean(&s);
    assert_size(&s, "a", 1, 1, 2, 1);
    assert_size(&s, "b", 3, 1, 2, 1);
    assert_size(&s, "e", 3, 1, 3, 1);
    assert_size(&s, "f", 2, 1, 3, 1);
}

/* One piece in all cells: each is its share. */
static void test_one_piece_grid(void **state)
{
    const struct small s = small_solve(
        *state, BLOCK("grid=\"7\"", "<grid across=\"3\" down=\"2\">"
                                    P("a", "") "</grid>")
                USED("finished=\"7\""));
    expect_clean(&s);
    assert_size(&s, "a", 7, 3, 7, 2);
}

/* Two members of 2 in a strip 1 wide make 2 + 2 - 1 = 3, and each number of
 * that sum may be the one that is left out. */
static void test_diagonals(void **state)
{
    static const char *const members[][2] = {
        {"height=\"2\"", "height=\"2\""}, {"", "height=\"2\""},
        {"height=\"2\"", ""}};
    for (size_t i = 0; i < UNIT_COUNT(members); i++)
        for (int turned = 0; turned < 2; turned++) {
            const char *first = members[i][0], *second = members[i][1];
            if (turned) {
                first = *first ? "width=\"2\"" : "";
                second = *second ? "width=\"2\"" : "";
            }
            const struct small s = small_solve(
                *state,
                arena_printf(*state,
                             BLOCK("grid=\"3\"",
                                   "<%s><diagonal id=\"d\" line=\"rising\" "
                                   "%s=\"1\"><patch id=\"a\" fabric=\"night\" "
                                   "%s/><patch id=\"b\" fabric=\"glow\" %s/>"
                                   "</diagonal>" P("rest", "") "</%s>")
                             USED("finished=\"3\""),
                             turned ? "column" : "row",
                             turned ? "height" : "width", first, second,
                             turned ? "column" : "row"));
            expect_clean(&s);
            assert_size(&s, "d", turned ? 3 : 1, 1, turned ? 1 : 3, 1);
            assert_size(&s, "a", turned ? 2 : 1, 1, turned ? 1 : 2, 1);
            assert_size(&s, "b", turned ? 2 : 1, 1, turned ? 1 : 2, 1);
        }
}

static void test_diagonal_width(void **state)
{
    /* 2 + 3 + 2 - 2 w = 5 */
    const struct small s = small_solve(
        *state,
        BLOCK("height=\"5\" width=\"4\"",
              "<row><diagonal id=\"d\" line=\"falling\">"
              P("a", "height=\"2\"") P("b", "height=\"3\"")
              P("c", "height=\"2\"") "</diagonal>" P("rest", "") "</row>")
        USED(""));
    expect_clean(&s);
    assert_size(&s, "d", 1, 1, 5, 1);
    assert_size(&s, "b", 1, 1, 3, 1);
    assert_size(&s, "rest", 3, 1, 5, 1);
}

/* A join takes a strip's width from each of its two members. */
static void test_members_too_short(void **state)
{
    static const struct {
        const char *first, *second;
        bool fits;
    } cases[] = {{"1", "2", true},  {"2", "1 1/8", true}, {"7/8", "2", false},
                 {"2", "1", false}, {"2", "7/8", false}};
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        for (int turned = 0; turned < 2; turned++) {
            const char *side = turned ? "width" : "height";
            const struct small s = small_solve(
                *state,
                arena_printf(*state,
                             BLOCK("grid=\"6\"",
                                   "<%s><diagonal line=\"rising\" %s=\"1\">"
                                   "<patch fabric=\"flame\" %s=\"%s\"/>"
                                   "<patch fabric=\"glow\" %s=\"%s\"/>"
                                   P("last", "") "</diagonal>" P("rest", "")
                                   "</%s>") USED("finished=\"6\""),
                             turned ? "column" : "row",
                             turned ? "height" : "width", side, cases[i].first,
                             side, cases[i].second, turned ? "column" : "row"));
            const bool first = strcmp(cases[i].first, "7/8") == 0;
            if (cases[i].fits)
                expect_clean(&s);
            else
                expect_only(&s, DIAG_SIZE_NEGATIVE,
                            first ? "<patch fabric=\"flame\""
                                  : "<patch fabric=\"glow\"", "patch");
        }
}

static void test_half_squares(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"5\"",
              "<column><row><half-square id=\"h\" line=\"rising\" "
              "left=\"night\" right=\"glow\" size=\"2\"/>" P("a", "")
              "</row><row id=\"low\">" P("b", "")
              "<half-square id=\"k\" line=\"rising\" left=\"night\" "
              "right=\"glow\"/></row></column>") USED("finished=\"10\""));
    expect_clean(&s);
    assert_size(&s, "h", 2, 1, 2, 1);
    assert_size(&s, "a", 3, 1, 2, 1);
    assert_size(&s, "k", 3, 1, 3, 1);
    assert_size(&s, "b", 2, 1, 3, 1);
}

/* A unit's sizes may come from outside, through each of its turns. */
static void test_turned_uses(void **state)
{
    for (unsigned turn = 0; turn < 4; turn++) {
        const bool swapped = turn % 2 == 1;
        const struct small s = small_solve(
            *state,
            arena_printf(*state,
                         "<unit id=\"wing\"><row>" P("a", "width=\"1\"")
                         P("b", "") "</row></unit>\n"
                         BLOCK("grid=\"6\"",
                               "<row><use id=\"u\" unit=\"wing\" turn=\"%u\" "
                               "width=\"4\"/>" P("rest", "") "</row>")
                         USED("finished=\"6\""), turn * 90));
        expect_clean(&s);
        assert_size(&s, "u", 4, 1, 6, 1);
        assert_size(&s, "a", 1, 1, swapped ? 4 : 6, 1);
        assert_size(&s, "b", swapped ? 5 : 3, 1, swapped ? 4 : 6, 1);
    }
}

/* A block with no grid has real lengths; so has a unit that it uses. */
static void test_real_lengths(void **state)
{
    const struct small s = small_solve(
        *state,
        "<unit id=\"wing\"><row>" P("a", "finished=\"2 x 3\"")
        P("b", "unfinished=\"2 x 3 1/2\"") "</row></unit>\n"
        BLOCK("", "<column><use unit=\"wing\"/>" P("c", "height=\"10 cm\"")
                  "</column>") USED(""));
    expect_clean(&s);
    assert_size(&s, "a", 2, 1, 3, 1);
    assert_size(&s, "b", 3, 2, 3, 1);
    assert_size(&s, "c", 7, 2, 500, 127); /* 10 cm / 2.54 */
}

/* The size of the blocks from that of the quilt: (66 - 6) / 5 and
 * (78 - 6) / 6 are both 12. */
static void test_quilt_fixes_block(void **state)
{
    const struct small s = small_solve(
        *state,
        BLOCK("grid=\"6\"", P("a", "")) "<quilt id=\"throw\" "
        "finished=\"66 x 78\"><grid across=\"5\" down=\"6\">"
        "<use id=\"u\" block=\"star\"/></grid><border fabric=\"flame\" "
        "width=\"3\"/></quilt>");
    expect_clean(&s);
    assert_size(&s, "u", 12, 1, 12, 1);
    const struct definition *star = design_find(s.design, "star", DEFINE_BLOCK);
    const struct definition_scales *scales = &s.sized->scales[star->index];
    assert_int_equal(scales->items.count, 1);
    assert_rational(scales->items.items[0].factor, 2, 1);
    const struct definition *throw =
        design_find(s.design, "throw", DEFINE_QUILT);
    assert_rational(quilt_width(s.sized, throw), 66, 1);
    assert_rational(quilt_height(s.sized, throw), 78, 1);
}

/* The quilt's size is a statement where the blocks have theirs, and borders
 * of several widths add up: 24 + 2 (1 + 2 1/2) = 31. */
static void test_quilt_with_borders(void **state)
{
    const char *const form =
        BLOCK("grid=\"6\"", P("a", "")) "<quilt id=\"throw\" %s>"
        "<grid across=\"2\" down=\"2\"><use block=\"star\" finished=\"12\"/>"
        "</grid><border fabric=\"flame\" width=\"1\"/>"
        "<border fabric=\"glow\" width=\"2 1/2\"/></quilt>";
    struct small s = small_solve(
        *state, arena_printf(*state, form, "finished=\"31\""));
    expect_clean(&s);
    s = small_solve(*state, arena_printf(*state, form, ""));
    expect_clean(&s);
    assert_rational(quilt_width(s.sized, s.design->definitions.items[1]), 31,
                    1);
    s = small_solve(*state, arena_printf(*state, form, "finished=\"31 x 30\""));
    const struct diagnostic *d =
        expect_only(&s, DIAG_STATEMENT, "\"31 x 30\"", "31 x 30");
    assert_string_equal(d->replacement, "31 x 31");
    assert_true(says(d, "24 + 2 x 1 + 2 x 2 1/2 = 31"));
}

/* One block at several sizes. */
static void test_scales(void **state)
{
    const struct small s = small_solve(
        *state, BLOCK("grid=\"6\"", P("a", "")) "<quilt id=\"throw\"><row>"
                "<column><use block=\"star\" finished=\"6\"/>"
                "<use block=\"star\" finished=\"6\"/></column>"
                "<use block=\"star\" finished=\"12\"/></row></quilt>");
    expect_clean(&s);
    const struct definition_scales *scales = &s.sized->scales[0];
    assert_int_equal(scales->items.count, 2);
    assert_rational(scales->items.items[0].factor, 1, 1);
    assert_rational(scales->items.items[1].factor, 2, 1);
}

/* ---- sums that do not come out ---- */

static void test_contradictions(void **state)
{
    static const struct {
        const char *body, *context, *part, *sum;
    } cases[] = {
        {BLOCK("grid=\"6\"", "<row>" P("a", "width=\"1\"")
               P("b", "width=\"1 1/2\"") P("c", "width=\"4\"") "</row>"),
         "\"1 1/2\"", "1 1/2", "1 + 1 1/2 + 4 = 6 1/2"},
        {BLOCK("grid=\"6\"", "<column>" P("a", "height=\"3\"")
               P("b", "height=\"4\"") "</column>"),
         "<column>", "column", "3 + 4 = 7"},
        {BLOCK("grid=\"6\"", "<row>" P("a", "width=\"2\"")
               P("b", "height=\"5\"") "</row>"),
         "height=\"5\"", "5", NULL},
        {BLOCK("grid=\"6\"", "<row><diagonal line=\"rising\" width=\"2\">"
               P("a", "height=\"4\"") P("b", "height=\"5\"") "</diagonal>"
               P("c", "") "</row>"),
         "<diagonal", "diagonal", "4 + 5 - 2 = 7"},
        {BLOCK("grid=\"6\"", "<grid across=\"2\" down=\"1\">"
               P("a", "width=\"3\"") P("b", "width=\"2\"") "</grid>"),
         "<grid across", "grid", "3 + 2 = 5"},
        {BLOCK("grid=\"6\"", "<half-square size=\"5\" line=\"rising\" "
               "left=\"night\" right=\"glow\"/>"),
         "size=\"5\"", "5", NULL},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_solve(
            *state, arena_printf(*state, "%s%s", cases[i].body,
                                 USED("finished=\"12\"")));
        const struct diagnostic *d = expect_only(
            &s, DIAG_SEAM_SUM, cases[i].context, cases[i].part);
        if (cases[i].sum != NULL && !says(d, cases[i].sum))
            small_show(&s);
        assert_true(cases[i].sum == NULL || says(d, cases[i].sum));
    }
}

/* A unit that is used eight times has its mistake once. */
static void test_contradiction_in_unit(void **state)
{
    const struct small s = small_solve(
        *state,
        "<unit id=\"wing\" width=\"3\" height=\"3\"><row>"
        P("a", "width=\"1\"") P("b", "width=\"1\"") "</row></unit>\n"
        BLOCK("grid=\"6\"", "<grid across=\"2\" down=\"2\">"
              "<use unit=\"wing\"/><use unit=\"wing\" turn=\"90\"/>"
              "<use unit=\"wing\" turn=\"180\"/>"
              "<use unit=\"wing\" mirror=\"yes\"/></grid>")
        USED("finished=\"12\""));
    expect_only(&s, DIAG_SEAM_SUM, "<row>", "row");
}

static void test_open_sums(void **state)
{
    struct small s = small_solve(
        *state, BLOCK("grid=\"6\"", "<row>" P("a", "") P("b", "")
                                    P("c", "width=\"2\"") "</row>")
                USED("finished=\"12\""));
    const struct diagnostic *d =
        expect_only(&s, DIAG_SIZE_OPEN, "<row>", "row");
    assert_true(says(d, "? + ? + 2 = 6"));
    s = small_solve(*state, BLOCK("", P("a", "width=\"2\"")) USED(""));
    expect_only(&s, DIAG_SIZE_OPEN, "<patch", "patch");
    s = small_solve(*state, BLOCK("grid=\"6\"", P("a", "")) USED(""));
    expect_only(&s, DIAG_SIZE_OPEN, "<use", "use");
}

static void test_nothing_left(void **state)
{
    static const char *const widths[] = {"4", "4 1/2"};
    for (size_t i = 0; i < UNIT_COUNT(widths); i++) {
        const struct small s = small_solve(
            *state,
            arena_printf(*state,
                         BLOCK("grid=\"6\"", "<row>" P("a", "width=\"2\"")
                               P("b", "width=\"%s\"") P("c", "") "</row>")
                         USED("finished=\"12\""), widths[i]));
        expect_only(&s, DIAG_SIZE_NEGATIVE, "<patch id=\"c\"", "patch");
    }
}

/* What could not be read is said once, and fixes nothing and opens nothing. */
static void test_no_cascades(void **state)
{
    static const char *const cases[] = {
        BLOCK("grid=\"6\"", "<row>" P("a", "width=\"2 q\"") P("b", "")
               "</row>") USED("finished=\"12\""),
        BLOCK("grid=\"6\"", P("a", "")) USED("finished=\"12 x\""),
        BLOCK("grid=\"6\"", P("a", "")) "<quilt id=\"throw\" "
         "finished=\"12 x\"><use block=\"star\"/></quilt>",
        BLOCK("grid=\"6\"", P("a", "")) "<quilt id=\"throw\" "
         "finished=\"20\"><use block=\"star\"/><border fabric=\"glow\" "
         "width=\"2 q\"/></quilt>",
        BLOCK("", "<row>" P("a", "unfinished=\"2 q\"") P("b", "width=\"1\"")
               "</row>") USED(""),
        BLOCK("grid=\"six\"", P("a", "")) USED("finished=\"12\""),
        BLOCK("grid=\"six\"", P("a", "")) "<quilt id=\"throw\" "
         "finished=\"20\"><use block=\"star\"/></quilt>",
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_solve(*state, cases[i]);
        if (small_errors(&s) != 1)
            small_show(&s);
        assert_int_equal(small_errors(&s), 1);
        assert_int_equal(small_count(&s, DIAG_LENGTH), 1);
    }
}

static void test_unit_of_length_in_grid(void **state)
{
    const struct small s = small_solve(
        *state, BLOCK("grid=\"6\"", "<row>" P("a", "width=\"2 in\"")
                                    P("b", "") "</row>")
                USED("finished=\"12\""));
    expect_only(&s, DIAG_GRID_UNIT, "\"2 in\"", "2 in");
}

/* ---- statements ---- */

#define STATED(attributes)                                                   \
    BLOCK("grid=\"6\"", "<row>" P("a", "width=\"1\" " attributes) P("b", "") \
          "</row>") USED("finished=\"12\"")

static void test_statements_hold(void **state)
{
    static const char *const holding[] = {
        STATED("cut=\"2 1/2 x 12 1/2\""), STATED("cut=\"12 1/2 x 2 1/2\""),
        STATED("finished=\"2 x 12\""),    STATED("unfinished=\"2.5 x 12.5\""),
        STATED("count=\"1\""),
        BLOCK("grid=\"4\"", "<grid across=\"4\" down=\"4\">"
              P("a", "count=\"16\" cut=\"3 1/2\"") "</grid>")
        USED("finished=\"12\""),
        /* 2 squares of 2 in: 4 + 7/8 */
        BLOCK("grid=\"2\"", "<half-square line=\"rising\" left=\"night\" "
              "right=\"glow\" cut=\"4 7/8\" unfinished=\"4 1/2\"/>")
        USED("finished=\"4\""),
        BLOCK("grid=\"2\"", "<patch fabric=\"glow\"><corner at=\"top-left\" "
              "fabric=\"night\" size=\"1\" cut=\"2 1/2\" line=\"rising\"/>"
              "</patch>") USED("finished=\"4\""),
    };
    for (size_t i = 0; i < UNIT_COUNT(holding); i++) {
        const struct small s = small_solve(*state, holding[i]);
        expect_clean(&s);
    }
}

static void test_statements_fail(void **state)
{
    static const struct {
        const char *body, *value, *right;
    } cases[] = {
        {STATED("cut=\"2 1/2 x 12\""), "2 1/2 x 12", "2 1/2 x 12 1/2"},
        {STATED("finished=\"12 x 2\""), "12 x 2", "2 x 12"},
        {STATED("unfinished=\"2 x 12\""), "2 x 12", "2 1/2 x 12 1/2"},
        {STATED("count=\"7\""), "7", "1"},
        {BLOCK("grid=\"4\"", "<grid across=\"4\" down=\"4\">"
               P("a", "count=\"15\"") "</grid>") USED("finished=\"12\""),
         "15", "16"},
        {BLOCK("grid=\"2\"", "<half-square line=\"rising\" left=\"night\" "
               "right=\"glow\" cut=\"4 1/2\"/>") USED("finished=\"4\""),
         "4 1/2", "4 7/8 x 4 7/8"},
        {BLOCK("grid=\"2\"", "<patch fabric=\"glow\"><corner at=\"top-left\" "
               "fabric=\"night\" size=\"1\" cut=\"2 7/8\"/></patch>")
         USED("finished=\"4\""), "2 7/8", "2 1/2 x 2 1/2"},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_solve(*state, cases[i].body);
        const char *context =
            arena_printf(*state, "=\"%s\"", cases[i].value);
        const struct diagnostic *d = expect_only(
            &s, DIAG_STATEMENT, context, cases[i].value);
        assert_string_equal(d->replacement, cases[i].right);
    }
}

/* Where lengths are real, `finished` may be what fixes a size: a wrong one is
 * one mistake all the same, not a sum and a statement. */
static void test_real_statement_once(void **state)
{
    static const char *const stated[] = {"finished=\"2 x 5\"",
                                         "unfinished=\"2 1/2 x 5 1/2\""};
    for (size_t i = 0; i < UNIT_COUNT(stated); i++) {
        const struct small s = small_solve(
            *state,
            arena_printf(*state,
                         BLOCK("width=\"6\" height=\"4\"",
                               "<row>" P("a", "%s") P("b", "") "</row>")
                         USED(""), stated[i]));
        if (small_errors(&s) != 1)
            small_show(&s);
        assert_int_equal(small_errors(&s), 1);
    }
}

static void test_corner_too_large(void **state)
{
    const char *const form =
        BLOCK("grid=\"6\"", "<row><patch fabric=\"glow\" width=\"2\"><corner "
              "at=\"top-left\" fabric=\"night\" size=\"%s\"/></patch>"
              P("b", "") "</row>") USED("finished=\"12\"");
    struct small s = small_solve(*state, arena_printf(*state, form, "2"));
    expect_clean(&s);
    s = small_solve(*state, arena_printf(*state, form, "2 1/8"));
    expect_only(&s, DIAG_CORNER_SIZE, "size=\"2 1/8\"", "2 1/8");
}

/* Of two sizes the message tells the first, and the finished size beside the cut
 * one is of the same. */
static void test_corner_of_two_sizes(void **state)
{
    const char *const form =
        "<block id=\"b\" grid=\"4\"><patch fabric=\"night\"><corner "
        "at=\"top-left\" fabric=\"glow\" size=\"1\" cut=\"%s\"/></patch>"
        "</block><quilt id=\"q\"><row><use block=\"b\" finished=\"8\"/>"
        "<column><use block=\"b\" finished=\"4\"/>"
        "<use block=\"b\" finished=\"4\"/></column></row></quilt>";
    struct small s = small_solve(*state, arena_printf(*state, form, "1 1/2"));
    expect_clean(&s);
    s = small_solve(*state, arena_printf(*state, form, "2 1/2"));
    expect_clean(&s);
    s = small_solve(*state, arena_printf(*state, form, "5"));
    const struct diagnostic *d =
        expect_only(&s, DIAG_STATEMENT, "cut=\"5\"", "5");
    assert_true(says(d, "`corner` is 2 1/2 x 2 1/2 cut"));
    assert_true(says(d, "2 x 2 finished"));
    assert_true(says(d, "it is sewn at 2 sizes"));
}

/* 12 over 7 squares: the nearest multiples of 7/8 are 11 3/8 and 12 1/4. */
static void test_ruler(void **state)
{
    struct small s = small_solve(
        *state, BLOCK("grid=\"7\"", P("a", "")) USED("finished=\"12\""));
    const struct diagnostic *d =
        expect_only(&s, DIAG_RULER, "finished=\"12\"", "12");
    assert_true(says(d, "11 3/8 and 12 1/4"));
    assert_true(says(d, "1 5/7"));
    s = small_solve(*state,
                    BLOCK("grid=\"7\"", P("a", "")) USED("finished=\"10.5\""));
    assert_int_equal(small_count(&s, DIAG_RULER), 0);
    /* No finished size lies below: 1/2 in over 7 squares. */
    s = small_solve(*state,
                    BLOCK("grid=\"7\"", P("a", "")) USED("finished=\"1/2\""));
    d = expect_only(&s, DIAG_RULER, "finished=\"1/2\"", "1/2");
    assert_false(says(d, "0 and"));
    assert_true(says(d, "7/8"));
}

/* What lies in no cell of its map has nothing beside it that would fix its
 * size; that is no mistake of its own, and the rest is as sound as ever. */
static void test_left_out_of_a_map(void **state)
{
    static const char *const left[] = {
        "<patch id=\"c\" key=\"c\" fabric=\"night\"/>",
        "<row id=\"c\" key=\"c\"><patch fabric=\"night\"/><patch "
        "fabric=\"glow\"/></row>",
        "<use id=\"c\" key=\"c\" block=\"star\"/>",
    };
    for (size_t i = 0; i < UNIT_COUNT(left); i++) {
        struct small s = small_solve(
            *state,
            arena_printf(*state,
                         BLOCK("grid=\"6\"", P("p", ""))
                         "<quilt id=\"throw\"><grid across=\"2\" "
                         "down=\"2\">%s<patch id=\"a\" key=\"a\" "
                         "fabric=\"night\" width=\"2\" height=\"3\"/><use "
                         "key=\"b\" block=\"star\" finished=\"3\"/><map>b a "
                         "b a</map></grid></quilt>", left[i]));
        expect_only(&s, DIAG_KEY_NOT_USED, "key=\"c\"", "c\"");
        assert_size(&s, "a", 2, 1, 3, 1);
        assert_false(
            rational_known(s.sized->width[small_piece(&s, "c")->index]));
        small_finish(&s);
        assert_non_null(s.sewn);
        assert_int_equal(s.sewn->quilts.count, 1);
    }
}

/* A row of patches, each as wide as one part of so many: the largest primes
 * below 10,000, 13 bits each. */
static struct small primes(void **state, size_t count)
{
    struct buffer row = buffer_in(*state);
    for (int64_t prime = 10000; count > 0; prime--) {
        int64_t divisor = 2;
        while (prime % divisor != 0)
            divisor++;
        if (divisor < prime)
            continue;
        buffer_printf(&row, "<patch fabric=\"night\" width=\"1/%d\"/>",
                      (int)prime);
        count--;
    }
    return small_solve(
        *state, arena_printf(*state,
                             BLOCK("height=\"2\"", "<row>%s</row>") USED(""),
                             buffer_string(&row)));
}

/* A sum whose common denominator leaves 64 bits is exact all the same; one that
 * leaves 1,024 must not pass in silence. */
static void test_too_fine_sum(void **state)
{
    const struct small fine = primes(state, 70);
    assert_int_equal(small_errors(&fine), 0);
    const struct small too_fine = primes(state, 90);
    assert_int_equal(small_count(&too_fine, DIAG_LIMIT), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_row_and_column),
        cmocka_unit_test(test_grids),
        cmocka_unit_test(test_one_piece_grid),
        cmocka_unit_test(test_diagonals),
        cmocka_unit_test(test_diagonal_width),
        cmocka_unit_test(test_members_too_short),
        cmocka_unit_test(test_half_squares),
        cmocka_unit_test(test_turned_uses),
        cmocka_unit_test(test_real_lengths),
        cmocka_unit_test(test_quilt_fixes_block),
        cmocka_unit_test(test_quilt_with_borders),
        cmocka_unit_test(test_scales),
        cmocka_unit_test(test_contradictions),
        cmocka_unit_test(test_contradiction_in_unit),
        cmocka_unit_test(test_open_sums),
        cmocka_unit_test(test_nothing_left),
        cmocka_unit_test(test_no_cascades),
        cmocka_unit_test(test_unit_of_length_in_grid),
        cmocka_unit_test(test_statements_hold),
        cmocka_unit_test(test_statements_fail),
        cmocka_unit_test(test_real_statement_once),
        cmocka_unit_test(test_corner_too_large),
        cmocka_unit_test(test_corner_of_two_sizes),
        cmocka_unit_test(test_ruler),
        cmocka_unit_test(test_left_out_of_a_map),
        cmocka_unit_test(test_too_fine_sum),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
