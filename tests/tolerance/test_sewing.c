/* The check values (cases.h) by sewing: 100,000 seeded sewings of each, 20,000
 * of a whole quilt, on a cloth that is cut and sewn as geometry (sewing.h). The
 * same limits as for the formulas; a mean may be off by chance as well. */
#include "cases.h"
#include "sewing.h"

enum { SEWINGS = 100000, SEWINGS_OF_QUILTS = 20000 };

static struct hands hands_of(const struct sewing_case *c,
                             const struct check_value *value, uint64_t seed)
{
    return (struct hands){
        .quilt = c->quilt,
        .seam = 0.25,
        .hand = c->hand,
        .dice = {.random = {seed * 0x9e3779b97f4a7c15u}},
        .only_sewn = value->look == LOOK_SEWN,
        .alike = value->look == LOOK_TWO_SETS ? c->heap : NO_HEAP,
        .trimmed = value->look == LOOK_TRIMMED ? c->heap : NO_HEAP};
}

static double look_once(struct hands *hands, const struct sewing_case *c,
                        const struct check_value *value)
{
    if (value->look == LOOK_PERSONS)
        hands->hand.offset =
            c->hand.offset + dice_normal(&hands->dice, c->hand.persons);
    const struct cloth2 cloth = sew_cloth(
        hands, value->look == LOOK_TRIMMED ? c->quilt->whole : c->heap);
    return value->look == LOOK_POINT ? cloth.point : cloth.side[ACROSS];
}

static struct outcome sewn_often(struct arena *arena,
                                 const struct check_value *value, uint64_t seed)
{
    const struct sewing_case c = sewing_case(arena, value);
    struct hands hands = hands_of(&c, value, seed);
    const int times = value->name[0] == '8' ? SEWINGS_OF_QUILTS : SEWINGS;
    double sum = 0, squares = 0, within = 0;
    for (int i = 0; i < times; i++) {
        const double off = look_once(&hands, &c, value) - value->wanted;
        sum += off;
        squares += off * off;
        within += fabs(off) <= value->bound;
    }
    sum /= times;
    return (struct outcome){value->wanted + sum,
                            sqrt(squares / times - sum * sum), within / times};
}

static void every_check_value(void **state)
{
    size_t bad = 0;
    for (size_t i = 0; i < UNIT_COUNT(check_values); i++) {
        const struct check_value *value = &check_values[i];
        const struct outcome o = sewn_often(*state, value, 1000 + i);
        const bool holds =
            fabs(o.mean - value->mean) <= fmax(0.02 * value->spread, 0.0005) &&
            fabs(o.spread / value->spread - 1) <= 0.03 &&
            fabs(o.within - value->within) <= 0.01;
        bad += !holds;
        print_message("%s %s: %.5f %.5f %.4f, asked %.5f %.5f %.4f\n",
                      holds ? "  " : "!!", value->name, o.mean, o.spread,
                      o.within, value->mean, value->spread, value->within);
    }
    assert_int_equal(bad, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_check_value)};
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
