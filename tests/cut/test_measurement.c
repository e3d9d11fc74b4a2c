/* What is a measurement in prose and what is not; and that every size that a
 * pattern has passes, while others are told. */
#include "../book/sample.h"
#include "known_sizes.h"
#include "measurement.h"

/* The measurements of a text, in the order of finding, with bars between. */
static const char *found_in(struct arena *arena, const char *text,
                            enum length_unit units)
{
    const struct text_run run = {.text = text, .length = strlen(text)};
    struct scanner scanner = {.units = units, .run = &run};
    struct measurement found;
    const char *all = "";
    while (next_measurement(&scanner, &found))
        all = arena_printf(arena, "%s%s%.*s", all, all[0] == '\0' ? "" : "|",
                           (int)(found.end - found.start), text + found.start);
    return all;
}

static void test_found(void **state)
{
    static const struct {
        const char *text, *found;
    } cases[] = {
        {"Trim to 6½ in.", "6½ in"},
        {"Trim to 6 1/2 in, or 6-1/2in", "6 1/2 in|6-1/2in"},
        {"a 1/4-inch seam", "1/4-inch"},
        {"a \u00bc\u2033 seam, a 1⁄4\" seam", "\u00bc\u2033|1⁄4\""},
        {"2.5\u00a0cm, 25 mm, 1.5 m, 2 3/4 yd",
         "2.5\u00a0cm|25 mm|1.5 m|2 3/4 yd"},
        {"3 inches or 3 yards", "3 inches|3 yards"},
        {"66 x 78", "66 x 78"},
        {"4½×6½ in and 4 × 6", "4½×6½ in|4 × 6"},
        {"4\" x 6\"", "4\" x 6\""},
        {"7 1/8 x 9 in lay it", "7 1/8 x 9 in"},
        {"Cut 4 2½ in squares", "2½ in"},
        {"5-10 in wide", "10 in"},
        {".5 in", ".5 in"},
        {"a 9 in block, 6 in square, 3 in wide", "9 in|6 in|3 in"},
        {"in the end 6 in", "6 in"},
        {"cut 4 x 2½ x 6½ in", "2½ x 6½ in"},
        {"\u201c6½ in\u201d", "6½ in"},
        {"6√2 in, 6r2 in or √3 in", "6√2 in|6r2 in|√3 in"},
        {"1 1/2 + 3√2 in", "1 1/2 + 3√2 in"},
        {"12-4√3 in and 12 \u2212 ½√3\"", "12-4√3 in|12 \u2212 ½√3\""},
        {"6√2 x 6√2 in", "6√2 x 6√2 in"},
        {"5 - 3 in, 2 + 3 in, 10\u22125 in", "3 in|3 in"},
        {"2 - 3√2 in", "3√2 in"},
        /* No measurements. */
        {"6√25 in, 6√5 in, row6r2 in, for2 in, 6 r2d in", ""},
        {"Sew 2 rows of 6.", ""},
        {"Sew 2 in each corner and 6 in a row", ""},
        {"Step 3: the 4 in the middle", ""},
        {"A12 in, v2.5 in, #3 in", ""},
        {"1,000 cm", ""},
        {"2026-11-02", ""},
        {"say \"step 5\" and (\"row 2\")", ""},
        {"\u201crow 5\u201d", ""},
        {"4 x Wing, 4 x", ""},
        {"6 inner and 6 mmm and 6 cmé", ""},
        {"0 in", ""},
        {"99999999999999999999999999999999999999999999999 in", ""},
        {"1/0 in", ""},
        {"½", ""},
        {"", ""},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *found = found_in(*state, cases[i].text, UNIT_IN);
        if (strcmp(found, cases[i].found) != 0)
            fail_msg("\"%s\": found \"%s\", not \"%s\"", cases[i].text, found,
                     cases[i].found);
    }
}

/* Any bytes: each step goes on, and what is found lies in the text. */
static void test_any_text_ends(void **state)
{
    static const char *const parts[] = {
        "1", "2", "0", "½", "/", "⁄", ".", "-", " ", "\u00a0", "x", "×", "in",
        "cm", "\"", "''", "\u2033", "\u201c", "\u201d", "a", "é", "(", ",",
        "√", "r", "3", "6", "+", "\u2212"};
    struct unit_random random = {77};
    for (size_t n = 0; n < 20000; n++) {
        char text[128] = "";
        for (int64_t i = unit_below(&random, 24); i > 0; i--)
            strcat(text, parts[unit_below(&random, UNIT_COUNT(parts))]);
        const struct text_run run = {.text = text, .length = strlen(text)};
        struct scanner scanner = {.units = UNIT_IN, .run = &run};
        struct measurement found;
        size_t last = 0;
        while (next_measurement(&scanner, &found)) {
            assert_true(found.start >= last && found.end > found.start);
            assert_true(found.end <= run.length);
            assert_true(rational_sign(found.first) > 0);
            assert_true(rational_sign(found.second) > 0);
            last = found.end;
        }
    }
    (void)state;
}

/* ---- against a pattern ---- */

/* 8 jugs of 4 and 2 x 6, a border of 3, all sizes known by hand. */
#define HEAD(units)                                                          \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"shelf\" title=\"S\" "  \
    "units=\"" units "\" seam=\"1/4\" cutting-step=\"1/8\" "                 \
    "allowance=\"1\"><about><summary>"
#define TAIL                                                                 \
    "</summary></about>"                                                     \
    "<fabrics><fabric id=\"clay\"/><fabric id=\"ash\"/></fabrics>"           \
    "<colorway id=\"kiln\"><cloth fabric=\"clay\" color=\"#b5623c\" "        \
    "width=\"42\"/><cloth fabric=\"ash\" color=\"#d8d2c8\" width=\"42\"/>"   \
    "</colorway><unit id=\"jug\"><row><patch id=\"body\" fabric=\"clay\" "   \
    "width=\"4\" height=\"6\"/><patch fabric=\"ash\" width=\"2\"/></row>"    \
    "</unit><quilt id=\"mat\"><grid across=\"4\" down=\"2\">"                \
    "<use unit=\"jug\"/></grid><border fabric=\"ash\" width=\"3\"/>"         \
    "<backing fabric=\"ash\" overage=\"4\"/><batting max-gap=\"8\"/>"        \
    "<binding fabric=\"clay\" width=\"2 1/4\"/></quilt></pattern>"

static struct sample pattern_with(void **state, const char *units,
                                  const char *words)
{
    const char *head = strcmp(units, "cm") == 0 ? HEAD("cm") : HEAD("in");
    return sample_text(*state,
                       arena_printf(*state, "%s%s%s", head, words, TAIL));
}

static size_t stale(void **state, const char *units, const char *words)
{
    const struct sample sample = pattern_with(state, units, words);
    const bool known = numbers_known(sample.run, sample.plans);
    check_numbers(sample.run, sample.plans);
    const struct diagnostic **sorted;
    size_t count = 0;
    for (size_t i = 0, all = diag_sorted(sample.run, &sorted); i < all; i++)
        count += sorted[i]->code == DIAG_STALE_NUMBER;
    assert_int_equal(known, count == 0);
    return count;
}

static void test_sizes_of_the_pattern_pass(void **state)
{
    static const char *const right[] = {
        "6 in wide",           /* a jug, finished */
        "6 1/2 in",            /* unfinished */
        "6½ × 6½ in",          "4½ x 6½ in", "6½ x 4½", "2 1/2 x 6 1/2\"",
        "24 x 12 in",          /* the center: 4 x 6 by 2 x 6 */
        "30 x 18",             /* with the border */
        "3 in wide",           "3½ in",      "1/4 in", "1/2 in", "42 in wide",
        "2¼ in",               "1 1/8 in", /* the binding, and folded */
        "38 x 26 in",          /* the backing: 4 on each side */
        "4 x 2", "4 in wide",  "8 in apart",
        "4 x 2½ x 6½ in",      /* four of a size */
        "16.5 cm",             /* 6 1/2 in = 16.51 cm */
        "6.5 in",              "165 mm",
        "Sew 8 jugs, 2 in a row."};
    for (size_t i = 0; i < UNIT_COUNT(right); i++)
        if (stale(state, "in", right[i]) != 0)
            fail_msg("\"%s\" is a size of the pattern", right[i]);
}

static void test_other_sizes_are_told(void **state)
{
    static const char *const wrong[] = {
        "6 1/4 in", "6⅝″",     "5 1/2 x 6 1/2 in", "4 x 6 1/2 in",
        "30 x 19",  "3 x 3",   "3/8-inch",         "16.4 cm",
        "18 cm",    "6.51 in", "43 in wide",       "10 yd"};
    for (size_t i = 0; i < UNIT_COUNT(wrong); i++)
        if (stale(state, "in", wrong[i]) != 1)
            fail_msg("\"%s\" is no size of the pattern", wrong[i]);
    assert_int_equal(stale(state, "in", "7 1/8\" and 9.5 cm"), 2);
}

/* The pattern's own system is exact, the other one rounded. */
static void test_metric_patterns(void **state)
{
    assert_int_equal(stale(state, "cm", "6.5 cm"), 0);
    assert_int_equal(stale(state, "cm", "65 mm"), 0);
    assert_int_equal(stale(state, "cm", "6.6 cm"), 1);
    /* 6.5 cm = 2.559 in */
    assert_int_equal(stale(state, "cm", "2.56 in"), 0);
    assert_int_equal(stale(state, "cm", "2.57 in"), 1);
}

/* No ruler shows 6√2 = 8.485: words may have it in full, as a ruler has it, to the
 * nearest eighth, or with as many places as they like; what is further off is
 * told. */
static void test_sizes_with_roots(void **state)
{
    static const struct {
        const char *words;
        size_t told;
    } rows[] = {{"6√2 in", 0},       {"6r2 in", 0},      {"8 1/2 in", 0},
                {"8.5 in", 0},       {"8.49 in", 0},     {"21.6 cm", 0},
                {"8 1/2 x 6 in", 0}, {"1/2+6√2 in", 0},  {"8.47 in", 1},
                {"8 3/8 in", 1},     {"8 5/8 in", 1},    {"6√3 in", 1},
                {"21.4 cm", 1},      {"8 1/2 x 7 in", 1}};
    for (size_t i = 0; i < UNIT_COUNT(rows); i++) {
        const struct sample sample = sample_text(
            *state,
            arena_printf(
                *state,
                "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"weir\" "
                "title=\"Weir\"><about><summary>%s</summary></about><fabrics>"
                "<fabric id=\"moss\"/></fabrics><colorway id=\"noon\"><cloth "
                "fabric=\"moss\" color=\"#4f5b36\"/></colorway><quilt "
                "id=\"mat\"><patch fabric=\"moss\" width=\"6r2\" "
                "height=\"6\"/></quilt></pattern>",
                rows[i].words));
        check_numbers(sample.run, sample.plans);
        const struct diagnostic **sorted;
        size_t told = 0;
        for (size_t k = 0, all = diag_sorted(sample.run, &sorted); k < all; k++)
            told += sorted[k]->code == DIAG_STALE_NUMBER;
        if (told != rows[i].told)
            fail_msg("\"%s\" is told %zu times", rows[i].words, told);
    }
}

/* The help is a reference; what it says it prints is in the pattern. */
static void test_help_names_the_nearest(void **state)
{
    const struct sample sample =
        pattern_with(state, "in", "Trim to 6 5/8 in.");
    check_numbers(sample.run, sample.plans);
    const struct diagnostic **sorted;
    assert_int_equal(diag_sorted(sample.run, &sorted) > 0, 1);
    const struct diagnostic *d = NULL;
    for (size_t i = 0, all = diag_sorted(sample.run, &sorted); i < all; i++)
        if (sorted[i]->code == DIAG_STALE_NUMBER)
            d = sorted[i];
    assert_non_null(d);
    assert_memory_equal(sample.run->source->bytes + d->span.start, "6 5/8 in.",
                        9);
    assert_int_equal(d->span.end - d->span.start, 8);
    assert_non_null(strstr(d->help, "<size of=\"jug\"/> prints 6 1/2 in"));
    assert_non_null(strstr(d->notes.items[0].text, "6 1/2 in (`jug`"));
    assert_int_equal(
        stale(state, "in", "Trim to <size of=\"jug\"/>."), 0);
}

/* Rising, each once, and of two of a size the one with a name: so the nearest are
 * found, and none is told twice. */
static void test_known_sizes_are_distinct(void **state)
{
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        const struct known_sizes known =
            find_known_sizes(*state, sample.plans);
        assert_true(known.items.count > 20);
        for (size_t i = 1; i < known.items.count; i++) {
            const struct known_size *a = &known.items.items[i - 1];
            const struct known_size *b = &known.items.items[i];
            assert_true(a->length != b->length ||
                        !rational_equal(a->width, b->width) ||
                        !rational_equal(a->height, b->height));
        }
    }
    const struct sample sample = pattern_with(state, "in", "");
    const struct known_sizes known = find_known_sizes(*state, sample.plans);
    size_t jugs = 0;
    for (size_t i = 0; i < known.items.count; i++) {
        const struct known_size *size = &known.items.items[i];
        if (size->length || rational_compare(size->width, size->height) != 0 ||
            !rational_equal(size->width, rational_make(13, 2)))
            continue;
        jugs++;
        assert_string_equal(size->owner, "jug");
    }
    assert_int_equal(jugs, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_found),
        cmocka_unit_test(test_any_text_ends),
        cmocka_unit_test(test_sizes_of_the_pattern_pass),
        cmocka_unit_test(test_other_sizes_are_told),
        cmocka_unit_test(test_metric_patterns),
        cmocka_unit_test(test_sizes_with_roots),
        cmocka_unit_test(test_help_names_the_nearest),
        cmocka_unit_test(test_known_sizes_are_distinct),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
