/* Reading lengths: every notation, every fault with its bytes, and what
 * nobody writes. */
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "../unit.h"
#include "length.h"

struct good {
    const char *text;
    enum length_unit wanted;
    int64_t num, den;
};

static void expect_good(struct good row)
{
    const struct length_result r =
        length_parse(row.text, strlen(row.text), row.wanted);
    if (r.fault != LENGTH_OK || r.value.num != row.num ||
        r.value.den != row.den)
        fail_msg("`%s`: fault %d, %lld/%lld, not %lld/%lld", row.text,
                 (int)r.fault, (long long)r.value.num, (long long)r.value.den,
                 (long long)row.num, (long long)row.den);
}

static void every_notation(void **state)
{
    (void)state;
    const struct good rows[] = {
        {"2 1/2", UNIT_IN, 5, 2},
        {"2½", UNIT_IN, 5, 2},
        {"2-1/2", UNIT_IN, 5, 2},
        {"2.5", UNIT_IN, 5, 2},
        {"5/8", UNIT_IN, 5, 8},
        {"2", UNIT_IN, 2, 1},
        {"0", UNIT_IN, 0, 1},
        {"½", UNIT_IN, 1, 2},
        {"2 ½", UNIT_IN, 5, 2},
        {"2-½", UNIT_IN, 5, 2},
        {".5", UNIT_IN, 1, 2},
        {"2.0", UNIT_IN, 2, 1},
        {"2.0625", UNIT_IN, 33, 16},
        {"2.50000000", UNIT_IN, 5, 2},
        {"5/4", UNIT_IN, 5, 4},
        {"6/8", UNIT_IN, 3, 4},
        {"007", UNIT_IN, 7, 1},
        {"2 0/4", UNIT_IN, 2, 1},
        {"12 17\u204432", UNIT_IN, 401, 32},
        {" \t2 1/2\r\n", UNIT_IN, 5, 2},
        {"2  1 / 2", UNIT_IN, 5, 2},
        {"2\u00a01/2", UNIT_IN, 5, 2},
        {"2\u2009½\u202f", UNIT_IN, 5, 2},
        {"1/10000", UNIT_IN, 1, 10000},
        {"0.0001", UNIT_IN, 1, 10000},
        {"100000", UNIT_IN, 100000, 1},
    };
    for (size_t i = 0; i < UNIT_COUNT(rows); i++)
        expect_good(rows[i]);
}

/* Each character for a fraction, by its code point in UTF-8. */
static void every_fraction_character(void **state)
{
    (void)state;
    const struct good rows[] = {
        {"\u00bc", UNIT_IN, 1, 4}, {"\u00bd", UNIT_IN, 1, 2},
        {"\u00be", UNIT_IN, 3, 4}, {"\u2150", UNIT_IN, 1, 7},
        {"\u2151", UNIT_IN, 1, 9}, {"\u2152", UNIT_IN, 1, 10},
        {"\u2153", UNIT_IN, 1, 3}, {"\u2154", UNIT_IN, 2, 3},
        {"\u2155", UNIT_IN, 1, 5}, {"\u2156", UNIT_IN, 2, 5},
        {"\u2157", UNIT_IN, 3, 5}, {"\u2158", UNIT_IN, 4, 5},
        {"\u2159", UNIT_IN, 1, 6}, {"\u215a", UNIT_IN, 5, 6},
        {"\u215b", UNIT_IN, 1, 8}, {"\u215c", UNIT_IN, 3, 8},
        {"\u215d", UNIT_IN, 5, 8}, {"\u215e", UNIT_IN, 7, 8},
    };
    for (size_t i = 0; i < UNIT_COUNT(rows); i++)
        expect_good(rows[i]);
}

/* 1 in = 2.54 cm and 1 yd = 0.9144 m, exact by the international yard and
 * pound agreement of 1959. */
static void units_become_others_exactly(void **state)
{
    (void)state;
    const struct good rows[] = {
        {"1 in", UNIT_CM, 127, 50},         {"1in", UNIT_MM, 127, 5},
        {"2.54cm", UNIT_IN, 1, 1},          {"25.4 mm", UNIT_IN, 1, 1},
        {"1 yd", UNIT_IN, 36, 1},           {"1/3 yd", UNIT_IN, 12, 1},
        {"1 yd", UNIT_M, 1143, 1250},       {"1 m", UNIT_YD, 1250, 1143},
        {"½ yd", UNIT_IN, 18, 1},           {"2 1/2 yd", UNIT_YD, 5, 2},
        {"0.25 cm", UNIT_CM, 1, 4},         {"1 m", UNIT_CM, 100, 1},
        {"100000 in", UNIT_MM, 2540000, 1},
    };
    for (size_t i = 0; i < UNIT_COUNT(rows); i++)
        expect_good(rows[i]);
    for (int from = UNIT_IN; from <= UNIT_M; from++) {
        for (int to = UNIT_IN; to <= UNIT_M; to++) {
            const struct rational there =
                length_factor((enum length_unit)from, (enum length_unit)to);
            const struct rational back =
                length_factor((enum length_unit)to, (enum length_unit)from);
            assert_true(
                rational_equal(rational_mul(there, back), rational_whole(1)));
        }
    }
}

static void units_have_their_names(void **state)
{
    (void)state;
    assert_string_equal(length_unit_name(UNIT_IN), "in");
    assert_string_equal(length_unit_name(UNIT_CM), "cm");
    assert_string_equal(length_unit_name(UNIT_MM), "mm");
    assert_string_equal(length_unit_name(UNIT_YD), "yd");
    assert_string_equal(length_unit_name(UNIT_M), "m");
}

struct faulty {
    const char *text;
    enum length_fault fault;
    const char *about; /* the bytes that the fault is about */
};

static void expect_fault(struct faulty row)
{
    const size_t length = strlen(row.text);
    const struct length_result r = length_parse(row.text, length, UNIT_IN);
    if (r.fault != row.fault || r.start > r.end || r.end > length ||
        r.end - r.start != strlen(row.about) ||
        memcmp(row.text + r.start, row.about, r.end - r.start) != 0)
        fail_msg("`%s`: fault %d at %zu to %zu, not %d at `%s`", row.text,
                 (int)r.fault, r.start, r.end, (int)row.fault, row.about);
    assert_false(rational_known(r.value));
}

static void every_fault_and_its_bytes(void **state)
{
    (void)state;
    const struct faulty rows[] = {
        {"", LENGTH_EMPTY, ""},
        {"  ", LENGTH_EMPTY, "  "},
        {"abc", LENGTH_NOT_A_NUMBER, "abc"},
        {"in", LENGTH_NOT_A_NUMBER, "in"},
        {"/2", LENGTH_NOT_A_NUMBER, "/2"},
        {"+2", LENGTH_NOT_A_NUMBER, "+2"},
        {" # 2", LENGTH_NOT_A_NUMBER, "#"},
        {"2,5", LENGTH_NOT_A_NUMBER, ",5"},
        {"2 1.5", LENGTH_NOT_A_NUMBER, "."},
        {"2.5/4", LENGTH_NOT_A_NUMBER, "/4"},
        {"2.5 1/2", LENGTH_NOT_A_NUMBER, "1/2"},
        {"2½½", LENGTH_NOT_A_NUMBER, "½"},
        {"½2", LENGTH_NOT_A_NUMBER, "2"},
        {"1/2/3", LENGTH_NOT_A_NUMBER, "/3"},
        {"1/½", LENGTH_NOT_A_NUMBER, "½"},
        {"1/-2", LENGTH_NOT_A_NUMBER, "-"},
        {"2 1/", LENGTH_UNFINISHED, "1/"},
        {"2 1/ ", LENGTH_UNFINISHED, "1/"},
        {"1/ in", LENGTH_UNFINISHED, "1/"},
        {"3.", LENGTH_UNFINISHED, "3."},
        {" 3. in", LENGTH_UNFINISHED, "3."},
        {".", LENGTH_UNFINISHED, "."},
        {"2-", LENGTH_UNFINISHED, "2-"},
        {"2-in", LENGTH_UNFINISHED, "2-"},
        {"2 1", LENGTH_UNFINISHED, "1"},
        {"2 1 in", LENGTH_UNFINISHED, "1"},
        {"1/0", LENGTH_ZERO_DENOMINATOR, "0"},
        {"2 1/00 in", LENGTH_ZERO_DENOMINATOR, "00"},
        {"100001", LENGTH_TOO_LARGE, "100001"},
        {"100000.0001", LENGTH_TOO_LARGE, "100000.0001"},
        {" 100000 1/2 ", LENGTH_TOO_LARGE, "100000 1/2"},
        {"2541 m", LENGTH_TOO_LARGE, "2541"},
        {"2778 yd", LENGTH_TOO_LARGE, "2778"},
        {"1/10001", LENGTH_TOO_FINE, "10001"},
        {"0.00001", LENGTH_TOO_FINE, "00001"},
        {"0.123450", LENGTH_TOO_FINE, "12345"},
        {"2 inch", LENGTH_UNKNOWN_UNIT, "inch"},
        {"2 IN", LENGTH_UNKNOWN_UNIT, "IN"},
        {"2\"", LENGTH_UNKNOWN_UNIT, "\""},
        {"2″", LENGTH_UNKNOWN_UNIT, "″"},
        {"2½ ells ", LENGTH_UNKNOWN_UNIT, "ells"},
        {"2 in in", LENGTH_UNKNOWN_UNIT, "in in"},
        {"2e5", LENGTH_UNKNOWN_UNIT, "e5"},
        {"0x10", LENGTH_UNKNOWN_UNIT, "x10"},
        {"-2", LENGTH_NEGATIVE, "-2"},
        {" -2 1/2", LENGTH_NEGATIVE, "-2"},
        {"−½ in", LENGTH_NEGATIVE, "−½"},
        {"2 5/4", LENGTH_IMPROPER, "5/4"},
        {"2-4/4", LENGTH_IMPROPER, "4/4"},
    };
    for (size_t i = 0; i < UNIT_COUNT(rows); i++)
        expect_fault(rows[i]);
}

static void the_range_is_the_right_one_of_two(void **state)
{
    (void)state;
    const struct length_result r = length_parse("1/2/2", 5, UNIT_IN);
    assert_int_equal(r.fault, LENGTH_NOT_A_NUMBER);
    assert_int_equal(r.start, 3);
    const struct length_result z = length_parse("0/0", 3, UNIT_IN);
    assert_int_equal(z.fault, LENGTH_ZERO_DENOMINATOR);
    assert_int_equal(z.start, 2);
}

static void only_the_bytes_given_are_read(void **state)
{
    (void)state;
    const struct length_result r = length_parse("2 1/25 cm", 5, UNIT_IN);
    assert_int_equal(r.fault, LENGTH_OK);
    assert_true(rational_equal(r.value, rational_make(5, 2)));
    assert_int_equal(length_parse("2 1/25 cm", 4, UNIT_IN).fault,
                     LENGTH_UNFINISHED);
    assert_int_equal(length_parse("2\0", 2, UNIT_IN).fault,
                     LENGTH_NOT_A_NUMBER);
}

static void huge_strings_of_digits(void **state)
{
    (void)state;
    enum { SIZE = 1000000 };
    char *text = malloc(SIZE);
    assert_non_null(text);
    memset(text, '9', SIZE);
    struct length_result r = length_parse(text, SIZE, UNIT_MM);
    assert_int_equal(r.fault, LENGTH_TOO_LARGE);
    assert_int_equal(r.end - r.start, SIZE);
    text[1] = '/';
    assert_int_equal(length_parse(text, SIZE, UNIT_IN).fault, LENGTH_TOO_FINE);
    text[1] = '.';
    assert_int_equal(length_parse(text, SIZE, UNIT_IN).fault, LENGTH_TOO_FINE);
    text[1] = '9';
    memcpy(text + SIZE - 6, "/10000", 6);
    assert_int_equal(length_parse(text, SIZE, UNIT_MM).fault, LENGTH_TOO_LARGE);
    memset(text, '0', SIZE);
    text[SIZE - 1] = '2';
    assert_int_equal(length_parse(text, SIZE, UNIT_IN).fault, LENGTH_OK);
    memset(text + 1, '9', SIZE - 1);
    memcpy(text, "1 ", 2);
    assert_int_equal(length_parse(text, SIZE, UNIT_IN).fault,
                     LENGTH_UNFINISHED);
    free(text);
}

static void check_size(const char *text, struct rational width,
                       struct rational height)
{
    const struct size_result r = size_parse(text, strlen(text), UNIT_IN);
    if (r.fault != LENGTH_OK || !rational_equal(r.width, width) ||
        !rational_equal(r.height, height))
        fail_msg("`%s`: fault %d at %zu to %zu", text, (int)r.fault, r.start,
                 r.end);
}

static void sizes(void **state)
{
    (void)state;
    const struct rational w = rational_whole(66);
    const struct rational h = rational_whole(78);
    check_size("66 x 78", w, h);
    check_size("66x78", w, h);
    check_size("66 × 78", w, h);
    check_size(" 66 × 78 in ", w, h);
    check_size("66 in x 78 in", w, h);
    check_size("167.64 x 198.12 cm", w, h);
    check_size("167.64 cm x 78 in", w, h);
    check_size("66", w, w);
    check_size("167.64 cm", w, w);
    check_size("2 1/2 x 6½", rational_make(5, 2), rational_make(13, 2));
}

static void expect_size_fault(const char *text, enum length_fault fault,
                              size_t start, size_t end)
{
    const struct size_result r = size_parse(text, strlen(text), UNIT_IN);
    if (r.fault != fault || r.start != start || r.end != end)
        fail_msg("`%s`: fault %d at %zu to %zu, not %d at %zu to %zu", text,
                 (int)r.fault, r.start, r.end, (int)fault, start, end);
    assert_false(rational_known(r.width));
    assert_false(rational_known(r.height));
}

static void faults_of_sizes(void **state)
{
    (void)state;
    expect_size_fault("", LENGTH_EMPTY, 0, 0);
    expect_size_fault("66 x", LENGTH_UNFINISHED, 3, 4);
    expect_size_fault("× 78", LENGTH_UNFINISHED, 0, 2);
    expect_size_fault("x", LENGTH_UNFINISHED, 0, 1);
    expect_size_fault("66 x 78 x 2", LENGTH_NOT_A_NUMBER, 8, 9);
    expect_size_fault("66 x x 78", LENGTH_NOT_A_NUMBER, 5, 6);
    expect_size_fault("66 cm x 78", LENGTH_UNFINISHED, 8, 10);
    expect_size_fault("6a x 78", LENGTH_UNKNOWN_UNIT, 1, 2);
    expect_size_fault("66 × 7/0", LENGTH_ZERO_DENOMINATOR, 8, 9);
    expect_size_fault("66 x -78", LENGTH_NEGATIVE, 5, 8);
    expect_size_fault("100001 x 2", LENGTH_TOO_LARGE, 0, 6);
    expect_size_fault("2 x 300000 cm", LENGTH_TOO_LARGE, 4, 10);
    expect_size_fault("sixty", LENGTH_NOT_A_NUMBER, 0, 2);
}

/* Pieces of lengths, so that random texts get deep into the grammar. */
static const char *const pieces[] = {
    "0",      "1",    "2",    "9",        "10000", "99999999999999999999",
    ".",      "/",    "-",    " ",        "½",     "⅞",
    "\u2044", "in",   "cm",   "m",        "yd",    "x",
    "×",      "\xc2", "\xe2", "\xe2\x85", "\xff",  "\n",
    "\u00a0", "−",    "e",    "\"",
};

static size_t random_text(struct unit_random *random, char *text, size_t room)
{
    size_t length = 0;
    const int64_t parts = unit_below(random, 9);
    for (int64_t i = 0; i < parts; i++) {
        const size_t which = (size_t)unit_below(random, UNIT_COUNT(pieces) + 3);
        const char byte = (char)unit_below(random, 256);
        const char *piece = which < UNIT_COUNT(pieces) ? pieces[which] : &byte;
        const size_t size = which < UNIT_COUNT(pieces) ? strlen(piece) : 1;
        if (length + size > room)
            break;
        memcpy(text + length, piece, size);
        length += size;
    }
    return length;
}

static void check_any(const char *text, size_t length)
{
    const struct length_result r = length_parse(text, length, UNIT_CM);
    assert_true(r.start <= r.end && r.end <= length);
    assert_int_equal(rational_known(r.value), r.fault == LENGTH_OK);
    if (r.fault == LENGTH_OK)
        assert_true(rational_sign(r.value) >= 0);
    else
        assert_true(r.end > r.start || r.fault == LENGTH_EMPTY);
    const struct size_result s = size_parse(text, length, UNIT_CM);
    assert_true(s.start <= s.end && s.end <= length);
    assert_int_equal(rational_known(s.width), s.fault == LENGTH_OK);
    assert_int_equal(rational_known(s.height), s.fault == LENGTH_OK);
    if (r.fault == LENGTH_OK)
        assert_int_equal(s.fault, LENGTH_OK);
}

/* Each text lies in a block of exactly its size: reading past it is seen by
 * the address sanitizer and by valgrind. */
static void random_bytes_are_safe(void **state)
{
    (void)state;
    struct unit_random random = {271828};
    char text[256];
    for (int i = 0; i < 200000; i++) {
        const size_t length = random_text(&random, text, sizeof text);
        char *exact = malloc(length == 0 ? 1 : length);
        assert_non_null(exact);
        memcpy(exact, text, length);
        check_any(exact, length);
        free(exact);
    }
}

/* ---- roots ---- */

/* A text, and the number as data has it; NULL for a fault. */
static void every_root(void **state)
{
    static const struct {
        const char *text, *found;
        enum length_fault fault;
    } rows[] = {
        {"3√2", "3√2", LENGTH_OK},
        {"3r2", "3√2", LENGTH_OK},
        {"r3", "√3", LENGTH_OK},
        {"√6", "√6", LENGTH_OK},
        {"2 1/2 r6", "5/2√6", LENGTH_OK},
        {"1/2r2", "1/2√2", LENGTH_OK},
        {"1 1/2 + 3r2", "3/2+3√2", LENGTH_OK},
        {"12-4√3", "12-4√3", LENGTH_OK},
        {"12 \u2212 4 √3", "12-4√3", LENGTH_OK},
        {"r2 + r2 - r2", "√2", LENGTH_OK},
        {"2-1/2", "5/2", LENGTH_OK},
        {"1 + 1/2", "3/2", LENGTH_OK},
        {"3r2 in", "3√2", LENGTH_OK},
        {"r2 - r2", "0", LENGTH_OK},
        {"r2 - 2", NULL, LENGTH_NEGATIVE},
        {"r5", NULL, LENGTH_NOT_A_NUMBER},
        {"r23", NULL, LENGTH_NOT_A_NUMBER},
        {"r", NULL, LENGTH_NOT_A_NUMBER},
        {"3 +", NULL, LENGTH_UNFINISHED},
        {"3 + + 2", NULL, LENGTH_NOT_A_NUMBER},
        {"+ 3", NULL, LENGTH_NOT_A_NUMBER},
        {"100000r2", NULL, LENGTH_TOO_LARGE},
    };
    for (size_t i = 0; i < UNIT_COUNT(rows); i++) {
        const struct length_result r =
            length_parse(rows[i].text, strlen(rows[i].text), UNIT_IN);
        const char *found = rational_text(*state, r.value);
        if (r.fault != rows[i].fault ||
            (rows[i].found != NULL && strcmp(found, rows[i].found) != 0))
            fail_msg("`%s`: fault %d, %s", rows[i].text, (int)r.fault, found);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_notation),
        cmocka_unit_test(every_root),
        cmocka_unit_test(every_fraction_character),
        cmocka_unit_test(units_become_others_exactly),
        cmocka_unit_test(units_have_their_names),
        cmocka_unit_test(every_fault_and_its_bytes),
        cmocka_unit_test(the_range_is_the_right_one_of_two),
        cmocka_unit_test(only_the_bytes_given_are_read),
        cmocka_unit_test(huge_strings_of_digits),
        cmocka_unit_test(sizes),
        cmocka_unit_test(faults_of_sizes),
        cmocka_unit_test(random_bytes_are_safe),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
