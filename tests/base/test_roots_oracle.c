/* Exact numbers against intervals: MPFI (over MPFR) is the oracle, which knows
 * no fields, only numbers between two bounds that it rounds outwards.
 *
 * A number a + b√2 + c√3 + d√6 is read from its text and looked at four times,
 * with each sign of √2 and of √3. A difference with denominator D is nothing
 * where all four of its sights, times D, are less than 1: its parts are sums of
 * the four over 4 and a root, so they are less than 1 / D, and the only
 * multiple of 1 / D below that is 0. So results are proved equal, not close.
 *
 * `make test` tries a share; `make roots` a million (SEAMWRIGHT_ROOTS= rounds,
 * SEED= other ones). Below MPFR lie the same whole numbers of GMP that the
 * program has: what is judged is what is made of them.
 */
#include <stdlib.h>

#include "roots_oracle.h"

enum {
    MOST_BITS = 1024, /* of a part of a known number (rational.h) */
    POOL = 16,        /* results that are operands again */
    FORGET = 500      /* rounds until the store is emptied */
};

enum operation { ADD, SUB, MUL, DIV, OPERATIONS };

/* Is left = right op other, in this sight and times `under`? A quotient is
 * judged as a product. */
static void judge_sight(enum operation operation, const struct parts n[3],
                        const mpz_t under, int sight, mpfr_prec_t bits)
{
    mpfi_t sights[3];
    for (int i = 0; i < 3; i++) {
        mpfi_init2(sights[i], bits);
        look(sights[i], &n[i], sight);
    }
    switch (operation) {
    case ADD: mpfi_add(sights[0], sights[0], sights[1]); break;
    case SUB: mpfi_sub(sights[0], sights[0], sights[1]); break;
    case MUL: mpfi_mul(sights[0], sights[0], sights[1]); break;
    case DIV:
    case OPERATIONS: mpfi_mul(sights[2], sights[2], sights[1]); break;
    }
    mpfi_sub(sights[0], sights[0], sights[2]);
    mpfi_mul_z(sights[0], sights[0], under);
    mpfr_t size;
    mpfr_init2(size, bits);
    mpfi_mag(size, sights[0]);
    const bool nothing = mpfr_cmp_ui(size, 1) < 0;
    mpfr_clear(size);
    for (int i = 0; i < 3; i++)
        mpfi_clear(sights[i]);
    if (!nothing)
        fail_msg("operation %d is wrong in sight %d", (int)operation, sight);
}

static void print_case(const char *what, struct rational a, struct rational b,
                       struct rational c)
{
    struct arena *arena = arena_create();
    print_error("%s: %s ; %s ; %s\n", what, rational_text(arena, a),
                rational_text(arena, b), rational_text(arena, c));
    arena_destroy(arena);
}

/* Only what has parts beyond the limit may be given up. Sums and products of
 * parts have at most as many bits as both together, and 8 for the four terms and
 * their weights; a quotient multiplies by three conjugates and what is below
 * all. */
static void judge_unknown(enum operation operation, struct rational a,
                          struct rational b)
{
    struct parts p[2];
    size_t bits = 0;
    for (int i = 0; i < 2; i++) {
        parts_begin(&p[i]);
        parts_of(&p[i], i == 0 ? a : b);
        bits += bits_of(&p[i]);
    }
    const bool nothing = parts_are_nothing(&p[1]);
    parts_end(&p[0]);
    parts_end(&p[1]);
    met.unknown++;
    if (operation == DIV && nothing)
        return;
    if (bits + 8 < MOST_BITS / (operation == DIV ? 6 : 1)) {
        print_case("given up", a, b, a);
        fail_msg("operation %d of %zu bits is unknown", (int)operation, bits);
    }
}

static struct rational does(enum operation operation, struct rational a,
                            struct rational b)
{
    switch (operation) {
    case ADD: return rational_add(a, b);
    case SUB: return rational_sub(a, b);
    case MUL: return rational_mul(a, b);
    case DIV: return rational_div(a, b);
    case OPERATIONS: break;
    }
    return rational_unknown();
}

/* One of the four operations, proved. */
static struct rational judged(enum operation operation, struct rational a,
                              struct rational b)
{
    const struct rational c = does(operation, a, b);
    if (!rational_known(c)) {
        judge_unknown(operation, a, b);
        return c;
    }
    const struct rational all[3] = {a, b, c};
    struct parts n[3];
    mpz_t under, own;
    mpz_init_set_ui(under, 1);
    mpz_init(own);
    size_t bits = 64;
    for (int i = 0; i < 3; i++) {
        parts_begin(&n[i]);
        parts_of(&n[i], all[i]);
        denominator_of(own, &n[i]);
        mpz_mul(under, under, own);
        bits += bits_of(&n[i]);
    }
    /* The differences are below 2^bits, and what is left of them counts in
     * multiples of 1 / under. */
    bits += mpz_sizeinbase(under, 2);
    assert_true(bits < FINEST);
    mpz_clear(own);
    for (int sight = 0; sight < SIGHTS; sight++)
        judge_sight(operation, n, under, sight, (mpfr_prec_t)bits);
    mpz_clear(under);
    for (int i = 0; i < 3; i++)
        parts_end(&n[i]);
    return c;
}

/* ---- order ---- */

static void judge_order(struct rational a, struct rational b)
{
    struct parts p, q;
    parts_begin(&p);
    parts_begin(&q);
    parts_of(&p, a);
    parts_of(&q, b);
    const int signs[2] = {sign_of(&p), sign_of(&q)};
    for (int i = 0; i < 4; i++)
        mpq_sub(p.of[i], p.of[i], q.of[i]);
    const int order = sign_of(&p), found = rational_compare(a, b);
    parts_end(&p);
    parts_end(&q);
    if (rational_sign(a) != signs[0] || rational_sign(b) != signs[1] ||
        (found > 0) - (found < 0) != order ||
        rational_equal(a, b) != (order == 0) ||
        rational_equal(rational_min(a, b), order <= 0 ? a : b) == false ||
        rational_equal(rational_max(a, b), order >= 0 ? a : b) == false) {
        print_case("order", a, b, a);
        fail_msg("%d, where %d is right", found, order);
    }
}

/* ---- whole numbers ---- */

/* As 64 bits hold it: beyond them the nearest, whose negative they hold, too. */
static int64_t held(const mpz_t number)
{
    if (mpz_sizeinbase(number, 2) < 64)
        return mpz_get_si(number);
    return mpz_sgn(number) < 0 ? -INT64_MAX : INT64_MAX;
}

static void judge_whole(struct rational a)
{
    struct parts p;
    mpz_t below, above;
    parts_begin(&p);
    parts_of(&p, a);
    mpz_init(below);
    mpz_init(above);
    floor_of(below, &p);
    for (int i = 0; i < 4; i++)
        mpq_neg(p.of[i], p.of[i]);
    floor_of(above, &p);
    mpz_neg(above, above);
    const int64_t found[2] = {rational_floor(a), rational_ceil(a)};
    const int64_t right[2] = {held(below), held(above)};
    mpz_clear(below);
    mpz_clear(above);
    parts_end(&p);
    if (found[0] != right[0] || found[1] != right[1]) {
        print_case("whole", a, a, a);
        fail_msg("%lld to %lld, where %lld to %lld is right",
                 (long long)found[0], (long long)found[1],
                 (long long)right[0], (long long)right[1]);
    }
}

/* A multiple of the step, not below, and less than a step above: the three
 * together are the definition. */
static void judge_rounding(struct rational a, struct rational step)
{
    const struct rational up = rational_round_up(a, step);
    const struct rational steps = judged(DIV, a, step);
    if (!rational_known(up)) {
        if (rational_known(steps))
            assert_true(rational_ceil(steps) == INT64_MAX ||
                        rational_ceil(steps) == -INT64_MAX);
        return;
    }
    const struct rational count = judged(DIV, up, step);
    assert_true(rational_is_fraction(count) && count.den == 1);
    judge_whole(steps);
    assert_true(count.num == rational_ceil(steps));
    judge_order(up, a);
    assert_true(rational_compare(up, a) >= 0);
    assert_true(rational_compare(judged(SUB, up, step), a) < 0);
    const struct rational root = rational_round_up_root2(
        a, rational_whole(3), step);
    assert_true(rational_equal(
        root, rational_round_up(
                  judged(ADD, a, rational_times(rational_root(2), 3)), step)));
}

/* ---- operands ---- */

static struct rational pool[POOL];

/* Up to so many bits, and of any fewer. */
static int64_t any_whole(struct unit_random *random, int most_bits)
{
    const int bits = (int)unit_below(random, (uint64_t)most_bits) + 1;
    const int64_t size =
        (int64_t)(unit_next(random) >> 1 & ((UINT64_C(1) << bits) - 1));
    return unit_below(random, 2) ? size : -size;
}

static struct rational any_fraction(struct unit_random *random, int num,
                                    int den)
{
    const int64_t under = any_whole(random, den);
    return rational_make(any_whole(random, num),
                         under == 0 ? 1 : under < 0 ? -under : under);
}

/* Each root may be missing, so that all 16 shapes come. */
static struct rational any_parts(struct unit_random *random, int num, int den)
{
    struct rational part[4];
    for (int i = 0; i < 4; i++)
        part[i] = unit_below(random, 3) == 0 ? rational_whole(0)
                                             : any_fraction(random, num, den);
    return rational_roots(part[0], part[1], part[2], part[3]);
}

/* Whole parts of one length over a small denominator, from far below to far above
 * what 128 bits hold of their products; some missing, some powers of two, whose
 * products would be 0 in too few bits. */
static struct rational any_long(struct unit_random *random)
{
    const int bits = 16 + (int)unit_below(random, 44);
    struct rational part[4];
    for (int i = 0; i < 4; i++) {
        const int64_t kind = unit_below(random, 4);
        part[i] = rational_whole(kind == 0   ? 0
                                 : kind == 1 ? INT64_C(1) << bits
                                             : any_whole(random, bits));
    }
    return rational_div(rational_roots(part[0], part[1], part[2], part[3]),
                        rational_whole(1 + unit_below(random, 8)));
}

/* A product of powers of √2 - 1, 2 - √3, 5 - 2√6 and √3 - √2, or their inverses:
 * their parts grow as their values go to nothing. p - q√2 with a convergent p / q
 * is one of these. */
static struct rational any_unit(struct unit_random *random, int most)
{
    struct rational value = rational_whole(1);
    for (int i = 0; i < 4; i++) {
        const struct rational base =
            rational_roots(rational_whole(i == 0   ? -1
                                          : i == 1 ? 2
                                          : i == 2 ? 5
                                                   : 0),
                           rational_whole(i == 0 ? 1 : i == 3 ? -1 : 0),
                           rational_whole(i == 1 ? -1 : i == 3 ? 1 : 0),
                           rational_whole(i == 2 ? -2 : 0));
        for (int64_t power = unit_below(random, (uint64_t)most); power > 0;
             power--)
            value = rational_mul(value, base);
    }
    return unit_below(random, 4) == 0 ? rational_div(rational_whole(1), value)
                                      : value;
}

/* 1 over 10^18 and far beyond. */
static struct rational any_speck(struct unit_random *random)
{
    const struct rational down = rational_make(1, INT64_C(1000000000000000000));
    struct rational speck = down;
    for (int64_t i = unit_below(random, 3); i > 0; i--)
        speck = rational_mul(speck, down);
    return unit_below(random, 2) ? speck : rational_times(speck, -1);
}

/* Three roots, and a whole number that nearly cancels them: at most 1/2^20 is
 * left of 2^40, sometimes in steps so fine that it is 2^-60. */
static struct rational any_canceled(struct unit_random *random)
{
    struct rational sum = rational_roots(
        rational_whole(0), rational_whole(any_whole(random, 40)),
        rational_whole(any_whole(random, 40)),
        rational_whole(any_whole(random, 40)));
    const struct rational step =
        rational_make(1, INT64_C(1) << unit_below(random, 61));
    const struct rational near = rational_round_up(sum, step);
    return rational_known(near) ? rational_sub(sum, near) : sum;
}

static struct rational operand(struct unit_random *random)
{
    switch (unit_below(random, 10)) {
    case 0:
    case 1: return any_parts(random, 8, 6);
    case 2: return any_parts(random, 62, 62);
    case 3: return any_parts(random, 30, 30);
    case 4: return any_fraction(random, 62, 62);
    case 5: return any_unit(random, unit_below(random, 8) == 0 ? 60 : 9);
    case 6: return any_canceled(random);
    case 7: return any_long(random);
    default: return pool[unit_below(random, POOL)];
    }
}

/* One that is not the other by a speck at most, told in another way. */
static struct rational neighbour(struct unit_random *random, struct rational a)
{
    switch (unit_below(random, 4)) {
    case 0: return rational_add(a, any_speck(random));
    case 1: return rational_add(a, any_unit(random, 40));
    case 2: return rational_mul(a, rational_add(rational_whole(1),
                                                any_speck(random)));
    default: return rational_div(rational_mul(a, rational_root(6)),
                                 rational_root(6));
    }
}

/* Whole numbers and multiples of a step, and what lies just beside them. */
static struct rational near_whole(struct unit_random *random,
                                  struct rational step)
{
    const struct rational at = rational_times(step, any_whole(random, 40));
    switch (unit_below(random, 3)) {
    case 0: return at;
    case 1: return rational_add(at, any_speck(random));
    default: return rational_sub(at, any_unit(random, 30));
    }
}

/* ---- rounds ---- */

/* Results are operands later on, unless they grew too long to be of use. */
static void keep(struct unit_random *random, struct rational value)
{
    struct arena *arena = arena_create();
    if (rational_known(value) && strlen(rational_text(arena, value)) < 700)
        pool[unit_below(random, POOL)] = value;
    arena_destroy(arena);
}

static void round_of(struct unit_random *random)
{
    const struct rational a = operand(random);
    if (!rational_known(a))
        return;
    struct rational b = operand(random);
    if (unit_below(random, 3) == 0)
        b = neighbour(random, a);
    if (!rational_known(b))
        return;
    const int64_t what = unit_below(random, 8);
    if (what < OPERATIONS) {
        keep(random, judged((enum operation)what, a, b));
    } else if (what < 6) {
        judge_order(a, b);
    } else {
        const struct rational steps[] = {
            rational_make(1, 8), rational_make(1, 4), rational_make(1, 10),
            rational_div(rational_root(2), rational_whole(8)),
            rational_whole(1)};
        const struct rational step = steps[unit_below(random, 5)];
        const struct rational value =
            unit_below(random, 2) ? a : near_whole(random, step);
        if (rational_known(value) && what == 6)
            judge_whole(value);
        else if (rational_known(value))
            judge_rounding(value, step);
    }
}

/* The pool begins with the tangents of the trade and the roots. */
static void begin_pool(void)
{
    rational_forget();
    for (int i = 0; i < POOL; i++)
        pool[i] = rational_sub(rational_root(i % 2 ? 2 : 3),
                               rational_make(i, 2));
}

static long wish(const char *name, long usual)
{
    const char *text = getenv(name);
    return text == NULL ? usual : strtol(text, NULL, 10);
}

static void every_operation_is_as_the_oracle_has_it(void **state)
{
    (void)state;
    const long rounds = wish("SEAMWRIGHT_ROOTS", 8000);
    struct unit_random random = {(uint64_t)wish("SEED", 20261130)};
    for (long i = 0; i < rounds; i++) {
        if (i % FORGET == 0)
            begin_pool();
        round_of(&random);
    }
    printf("%ld rounds: %ld comparisons that 64 bits left open, %ld whole "
           "numbers that they did, %ld long numbers, %ld too long\n",
           rounds, met.near, met.whole, met.wide, met.unknown);
    assert_true(met.near > rounds / 100 && met.whole > rounds / 200 &&
                met.wide > rounds / 20);
}

/* The judge itself: what is off by the least that there is must be told. */
static void the_oracle_tells_what_is_off(void **state)
{
    (void)state;
    struct parts p;
    parts_begin(&p);
    parts_read(&p, "1000000000000000000-1414213562373095048801688724209/"
                   "2000000000000√2");
    assert_int_equal(sign_of(&p), 1); /* of 30 digits, the last one is less */
    parts_read(&p, "-1414213562373095049/1000000000000000000+√2");
    assert_int_equal(sign_of(&p), -1);
    parts_read(&p, "99-70√2");
    mpz_t below;
    mpz_init(below);
    floor_of(below, &p);
    assert_int_equal(mpz_get_si(below), 0);
    mpz_clear(below);
    parts_end(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_oracle_tells_what_is_off),
        cmocka_unit_test(every_operation_is_as_the_oracle_has_it),
    };
    roots_begin();
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    roots_end();
    rational_forget();
    return failed;
}
