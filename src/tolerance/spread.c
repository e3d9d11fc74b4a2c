/* A hand sews the sums: means, variances, chances. Floating point, as none of
 * it becomes a size. Read next: report.c. */
#include "form.h"

#include "trade.h"

#define ROOT_2PI 2.50662827463100050242

/* ---- hands ---- */

struct hand usual_hand(enum length_unit units)
{
    const double thread = rational_double(trade_length(TRADE_THREAD, units));
    const double fold = rational_double(trade_length(TRADE_FOLD, units));
    return (struct hand){
        .offset = -fold / 2, /* then the test strips come right */
        .stitch = thread,
        .cut = thread,
        .fold = fold,
        .fold_open = rational_double(trade_length(TRADE_FOLD_OPEN, units)),
        .line = fold / 2, /* then a flap reaches its corner */
        .persons = thread};
}

struct rational test_strips(const struct pattern *pattern)
{
    const struct rational strip =
        trade_length(TRADE_TEST_STRIP, pattern->units);
    return rational_sub(rational_times(strip, 3),
                        rational_times(pattern->seam, 4));
}

/* Three strips have two seams, each of which takes its offset twice and a fold:
 * right - measured = 4 offset + 2 fold. */
double strips_offset(const struct pattern *pattern, const struct hand *hand,
                     double measured)
{
    return (rational_double(test_strips(pattern)) - measured) / 4 -
           hand->fold / 2;
}

/* ---- normals ---- */

/* By the complement, which stays exact far out. */
static double normal_below(double x)
{
    return erfc(-x / sqrt(2)) / 2;
}

/* Of a standard normal. */
static double normal_density(double x)
{
    return exp(-x * x / 2) / ROOT_2PI;
}

/* The chance of a normal to be above x; what has no variance is above or not.
 */
static double above(double mean, double variance, double x)
{
    if (variance <= 0)
        return mean >= x ? 1 : 0;
    return normal_below((mean - x) / sqrt(variance));
}

/* Both are counted from the size, so that squares stay small. */
struct expected expected_trimmed(struct expected sewn, double size,
                                 double trim_spread)
{
    const double over = sewn.mean - size;
    const double own = trim_spread * trim_spread;
    const double apart = sqrt(sewn.variance + own);
    const double smaller = apart > 0  ? normal_below(-over / apart)
                           : over < 0 ? 1
                                      : 0;
    const double dip = apart > 0 ? apart * normal_density(over / apart) : 0;
    const double mean = over * smaller - dip;
    const double square = (over * over + sewn.variance) * smaller +
                          own * (1 - smaller) - over * dip;
    return (struct expected){.mean = size + mean,
                             .variance = fmax(0, square - mean * mean),
                             .slope = sewn.slope * smaller,
                             .trimmed = true,
                             .sewn = sewn.mean,
                             .sewn_variance = sewn.variance,
                             .trimmed_to = size,
                             .trim_spread = trim_spread};
}

/* A smaller one of two is above x where both are. */
static double side_above(const struct expected *e, double x)
{
    return e->trimmed
               ? above(e->sewn, e->sewn_variance, x) *
                     above(e->trimmed_to, e->trim_spread * e->trim_spread, x)
               : above(e->mean, e->variance, x);
}

/* As a difference of two chances, so that what is trimmed needs no third
 * normal.
 */
double expected_within(const struct expected *expected, double wanted,
                       double bound)
{
    return side_above(expected, wanted - bound) -
           side_above(expected, wanted + bound);
}

/* Of two normals, the chance that the first is smaller: their difference is
 * normal again. */
double expected_too_small(const struct expected *expected)
{
    if (!expected->trimmed)
        return 0;
    const double variance =
        expected->sewn_variance + expected->trim_spread * expected->trim_spread;
    return 1 - above(expected->sewn, variance, expected->trimmed_to);
}

/* Errors of one set add up before they are squared: they are the same. */
struct expected expected_stack(const struct stacked_row *rows, size_t count)
{
    struct expected stack = {0};
    double height = 0;
    for (size_t i = 0; i < count; i++)
        height += rows[i].height;
    for (size_t i = 0; i < count; i++) {
        const double share = rows[i].height / height;
        stack.mean += share * rows[i].width.mean;
        stack.slope += share * rows[i].width.slope;
        double alike = 0;
        for (size_t k = 0; k < count; k++)
            if (rows[k].set == rows[i].set)
                alike += rows[k].height / height * sqrt(rows[k].width.variance);
        stack.variance += share * sqrt(rows[i].width.variance) * alike;
    }
    return stack;
}

/* ---- sewing ---- */

/* Variances of what goes in add up, as each piece is made by itself; the slope
 * is the same sum, as a person's offset is in all of them. */
struct expected sew_form(const struct form *form, double seam,
                         const struct hand *hand, const struct expected *sides)
{
    struct expected e = {
        .mean = form->base + form->seams * (seam + hand->offset) +
                form->folds * hand->fold + form->folds_open * hand->fold_open +
                form->lines * hand->line,
        .variance = form->cuts * hand->cut * hand->cut +
                    form->stitches * hand->stitch * hand->stitch,
        .slope = form->seams};
    for (size_t i = 0; i < form->terms.count; i++) {
        const struct term *term = &form->terms.items[i];
        const struct expected *in =
            &sides[SIDES * term->heap + (size_t)term->side];
        e.mean += term->factor * in->mean;
        e.slope += term->factor * in->slope;
        e.variance += term->factor * term->factor * in->variance;
    }
    return form->trimmed ? expected_trimmed(e, form->size, hand->cut) : e;
}

/* Each heap stands behind all that it is made from, so one walk suffices. */
void sew_up_to(const struct sums *sums, const struct hand *hand,
               struct oversize oversize, size_t last, struct expected *sides)
{
    for (size_t i = 0; i < SIDES * (last + 1); i++) {
        const size_t heap = i / SIDES;
        struct form form = sums->forms[i];
        if (heap == oversize.heap) {
            form.base += oversize.more;
            trim_form(&form, heap_side(sums, heap, (int)(i % SIDES)));
        }
        sides[i] = sew_form(&form, sums->seam, hand, sides);
    }
}

/* All of the quilt. */
struct expected *sew_sums(struct arena *arena, const struct sums *sums,
                          const struct hand *hand, struct oversize oversize)
{
    const size_t heaps = sums->quilt->heaps.count;
    struct expected *sides = ARENA_ARRAY(arena, struct expected, SIDES * heaps);
    sew_up_to(sums, hand, oversize, heaps - 1, sides);
    return sides;
}

/* ---- over persons ---- */

/* A rule of even steps is as good as exact for what is smooth and dies out: a
 * sixteenth of a standard deviation is finer than any chance changes here. */
struct mix persons_mix(struct hand hand, int step)
{
    const double x = (double)step / MIX_STEPS;
    hand.offset += x * hand.persons;
    return (struct mix){hand, normal_density(x) / MIX_STEPS};
}

/* Variance of a mix: the mean of the variances, and the variance of the means.
 */
void mix_in(struct outcome *mixed, double weight, const struct expected *e,
            double wanted, double bound)
{
    const double off = e->mean - wanted;
    mixed->mean += weight * off;
    mixed->spread += weight * (off * off + e->variance);
    mixed->within += weight * expected_within(e, wanted, bound);
}

/* Until here, mean and spread were sums of what is off and of its square. */
void end_mix(struct outcome *mixed, double wanted)
{
    mixed->spread = sqrt(fmax(0, mixed->spread - mixed->mean * mixed->mean));
    mixed->mean += wanted;
}

struct outcome outcome_of(struct expected expected, double wanted, double bound)
{
    return (struct outcome){expected.mean, sqrt(expected.variance),
                            expected_within(&expected, wanted, bound)};
}

struct outcome outcome_over_persons(const struct sums *sums,
                                    const struct hand *hand, size_t heap,
                                    int side, double wanted, double bound)
{
    struct arena *arena = arena_create();
    struct expected *sides =
        ARENA_ARRAY(arena, struct expected, SIDES * (heap + 1));
    struct outcome mixed = {0};
    for (int step = -MIX_LAST; step <= MIX_LAST; step++) {
        const struct mix mix = persons_mix(*hand, step);
        sew_up_to(sums, &mix.hand, (struct oversize){NO_HEAP, 0}, heap, sides);
        mix_in(&mixed, mix.weight, &sides[SIDES * heap + (size_t)side], wanted,
               bound);
    }
    end_mix(&mixed, wanted);
    arena_destroy(arena);
    return mixed;
}

/* A ruler found it right, or it was sewn anew. */
static void take_as_trimmed(struct form *form)
{
    if (form->trimmed)
        *form = (struct form){.base = form->size};
}

/* The sums are walked with what is trimmed taken for granted. */
double *seams_take(struct arena *arena, const struct pattern *pattern,
                   const struct sewn_quilt *quilt)
{
    struct arena *scratch = arena_create();
    const struct hand hand = usual_hand(pattern->units);
    const size_t count = SIDES * quilt->heaps.count;
    const struct sums *sums = sums_of(scratch, pattern, quilt);
    for (size_t i = 0; i < count; i++)
        take_as_trimmed(&sums->forms[i]);
    const struct expected *sides =
        sew_sums(scratch, sums, &hand, (struct oversize){NO_HEAP, 0});
    double *takes = ARENA_ARRAY(arena, double, count);
    for (size_t i = 0; i < count; i++)
        takes[i] = -sides[i].slope;
    arena_destroy(scratch);
    return takes;
}
