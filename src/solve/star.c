/* Eight-pointed stars: sizes. Along each edge of the block lie two legs of
 * corner squares and the long edge of a side triangle, so that the side of a
 * diamond is a = B / (2 + sqrt 2) (derived). It is never a fraction where B is
 * one; where the strip of the diamonds is stated, B is the one with the root.
 * Read next: on_point.c. */
#include "solver.h"
#include "trade.h"

/* 2 + 2 sqrt 2: how many times as much as its diamonds' height a star is wide.
 */
static struct rational heights_of_star(void)
{
    return rational_times(rational_add(rational_whole(1), rational_root(2)), 2);
}

struct star_cut star_cut(const struct pattern *pattern,
                         struct rational finished)
{
    const struct rational seams = rational_times(pattern->seam, 2);
    const struct rational height = rational_div(finished, heights_of_star());
    const struct rational exact = rational_add(height, seams);
    const struct rational strip =
        rational_round_up(exact, pattern->cutting_step);
    const struct rational excess = rational_sub(strip, exact);
    return (struct star_cut){.side = rational_mul(height, rational_root(2)),
                             .height = height,
                             .strip = strip,
                             .excess = excess,
                             .growth = rational_mul(excess, heights_of_star())};
}

struct rational star_of_strip(const struct pattern *pattern,
                              struct rational strip)
{
    return rational_mul(rational_sub(strip, rational_times(pattern->seam, 2)),
                        heights_of_star());
}

/* reports: a strip that its own seams use up. */
static bool has_room(struct system *system, const struct piece *piece)
{
    const struct pattern *pattern = system->design->pattern;
    if (!piece->strip.usable ||
        rational_sign(star_of_strip(pattern, piece->strip.value)) > 0)
        return true;
    struct diagnostic *d = report_in(
        system->run, system->sound, piece->owner, DIAG_STATEMENT,
        piece->strip.span, "a strip of %s leaves nothing between its seams",
        piece->strip.text);
    diag_help(
        system->run, d,
        "a strip is as high as a diamond and two seams of %s: more than %s",
        length_plain(system->run->arena, pattern->seam, pattern->units),
        length_plain(system->run->arena, rational_times(pattern->seam, 2),
                     pattern->units));
    return false;
}

/* Square by nature. The strip of its diamonds is a real length, so it fixes the
 * star only where lengths are real; elsewhere it is compared at each scale. */
static void star_sizes(struct system *system, const struct piece *piece,
                       bool local_grid)
{
    system_equal(system, width_of(piece), height_of(piece));
    length_fact(system, width_of(piece), piece->element, &piece->size);
    const bool room = has_room(system, piece);
    if (local_grid || !piece->strip.written)
        return;
    if (!piece->strip.usable || !room)
        system_silence(system, width_of(piece));
    else
        system_soft_fact(
            system, width_of(piece),
            star_of_strip(system->design->pattern, piece->strip.value),
            piece->strip.span, "`strip`");
}

/* reports: another strip than the star of this size is cut from. */
static void report_strip(struct run *run, const struct sized *sized,
                         const struct piece *piece, struct rational star)
{
    const struct pattern *pattern = sized->design->pattern;
    const struct star_cut cut = star_cut(pattern, star);
    const char *right = length_written(run->arena, cut.strip, pattern->units);
    struct diagnostic *d = report_in(
        run, sized->sound, piece->owner, DIAG_STATEMENT, piece->strip.span,
        "the diamonds' strip is %s, not %s",
        length_plain(run->arena, cut.strip, pattern->units), piece->strip.text);
    diag_off(d, rational_sub(cut.strip, piece->strip.value), rational_whole(0));
    diag_note(run, d, (struct span){0, 0},
              "the star is %s wide finished; a strip of %s makes one of %s",
              length_plain(run->arena, star, pattern->units), piece->strip.text,
              length_plain(run->arena,
                           star_of_strip(pattern, piece->strip.value),
                           pattern->units));
    diag_mend(run, d, piece->strip.span, right, "strip=\"%s\" is what is cut",
              right);
}

/* reports: a star that rounding its strip would make much larger. Its neighbors
 * on the ruler are told, as none of them may be the wish. */
static void remark_growth(struct run *run, const struct sized *sized,
                          const struct piece *piece, struct rational star)
{
    const struct pattern *pattern = sized->design->pattern;
    const enum length_unit units = pattern->units;
    const struct star_cut cut = star_cut(pattern, star);
    if (!rational_known(cut.growth) ||
        rational_compare(cut.growth, trade_length(TRADE_STAR_GROWTH, units)) <=
            0)
        return;
    const struct rational below =
        rational_sub(cut.strip, pattern->cutting_step);
    struct diagnostic *d = diag_report(
        run, DIAG_STRIP_ROUNDED, value_span(piece->element, ATTR_SIZE),
        "a strip of %s makes a star of %s wide about %s larger",
        length_plain(run->arena, cut.strip, units),
        length_plain(run->arena, star, units),
        length_on_ruler(run->arena, cut.growth, units));
    diag_note(
        run, d, (struct span){0, 0},
        "its diamonds ask for %s; the rest goes into their seams",
        length_plain(run->arena, rational_sub(cut.strip, cut.excess), units));
    diag_help(
        run, d,
        "strip=\"%s\" in the place of its size makes a star of %s, "
        "strip=\"%s\" one of %s",
        length_written(run->arena, below, units),
        length_plain(run->arena, star_of_strip(pattern, below), units),
        length_written(run->arena, cut.strip, units),
        length_plain(run->arena, star_of_strip(pattern, cut.strip), units));
}

/* A stated strip must be that of one scale; each scale has its own rounding,
 * of which the first that is large is told. */
static void check_star(struct run *run, const struct sized *sized,
                       const struct piece *piece)
{
    const struct definition_scales *scales =
        &sized->scales[piece->owner->index];
    const struct pattern *pattern = sized->design->pattern;
    if (rational_sign(star_of_strip(pattern, piece->strip.value)) <= 0 &&
        piece->strip.usable)
        return; /* it was told */
    struct rational wrong = rational_unknown(), grown = rational_unknown();
    bool held = !piece->strip.usable;
    for (size_t i = 0; i < scales->items.count; i++) {
        const struct rational star = rational_mul(
            sized->width[piece->index], scales->items.items[i].factor);
        const struct star_cut cut = star_cut(pattern, star);
        if (!rational_known(cut.strip))
            return;
        held |= rational_equal(cut.strip, piece->strip.value);
        wrong = star;
        if (!rational_known(grown) &&
            rational_compare(cut.growth, trade_length(TRADE_STAR_GROWTH,
                                                      pattern->units)) > 0)
            grown = star;
    }
    if (!held && rational_known(wrong))
        report_strip(run, sized, piece, wrong);
    else if (rational_known(grown))
        remark_growth(run, sized, piece, grown);
}

const struct sizing sizing_star = {.sizes = star_sizes, .check = check_star};
