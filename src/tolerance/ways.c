/* Other ways to a unit of the same finished size: the program's own methods,
 * and its own one made larger and trimmed. Each is worked out as it would be
 * cut, with the cloth that it takes. Read next: report.c. */
#include "form.h"

/* A way to a unit: the sums of both sides, and its cloth. */
struct way {
    const char *method;
    bool possible; /* else its squares are too fine to be told */
    struct form sides[SIDES];
    double wanted[SIDES];
    double cloth;
};

/* The unit that other ways are sought to. */
struct unit {
    struct arena *arena;
    const struct sums *sums;
    const struct heap *heap;
    size_t index;
    bool open;
};

/* Nothing is taken yet. */
static struct way way_to(const struct unit *unit, const char *method)
{
    struct way way = {.method = method, .possible = true};
    for (int side = ACROSS; side < SIDES; side++)
        way.wanted[side] = heap_side(unit->sums, unit->index, side);
    return way;
}

/* To the unit's own size. */
static void trim_way(struct way *way)
{
    for (int side = ACROSS; side < SIDES; side++)
        trim_form(&way->sides[side], way->wanted[side]);
}

/* A cut square of which another unit is not yet made. */
static struct supply square(double side)
{
    return supply_cut(side, side);
}

/* ---- half-squares and quarter-squares ---- */

static const char *const pair_methods[] = {"one", "two", "four", "eight"};

/* The squares are those that the program would cut (half_square_cut). */
static struct way half_way(const struct unit *unit,
                           enum half_square_method method)
{
    static const double yields[] = {1, 2, 4, 8};
    struct way way = way_to(unit, pair_methods[method]);
    const struct half_square_cut cut =
        half_square_cut(unit->sums->pattern, method, unit->heap->width);
    way.possible = rational_known(cut.side) && rational_known(cut.slack);
    const double side = rational_double(cut.side);
    /* Of one at a time, what was rounded up is trimmed before. */
    const struct supply sewn =
        square(method == METHOD_ONE ? way.wanted[ACROSS] : side);
    for (int s = ACROSS; s < SIDES; s++)
        pair_form(unit->arena, &way.sides[s], method, sewn, sewn, unit->open);
    if (method != METHOD_ONE)
        trim_way(&way);
    way.cloth = 2 * squared(side) / yields[method];
    return way;
}

/* Two halves of one size: of method two each of them is trimmed before, so that
 * only the ruler's error is in it. Two squares make two halves, two halves two
 * units; a plain square takes the place of a half. */
static struct way quarter_way(const struct unit *unit,
                              enum half_square_method method)
{
    const struct pattern *pattern = unit->sums->pattern;
    struct way way = way_to(unit, pair_methods[method]);
    const struct half_square_cut cut =
        half_square_cut(pattern, method, unit->heap->width);
    const struct half_square_cut whole = half_square_cut(
        pattern, method,
        method == METHOD_ONE
            ? unit->heap->width
            : rational_sub(cut.side, rational_times(pattern->seam, 2)));
    way.possible = rational_known(cut.side) && rational_known(whole.side);
    const double half =
        method == METHOD_ONE ? way.wanted[ACROSS] : rational_double(cut.side);
    const double side = rational_double(whole.side);
    const bool plain = unit->heap->of.quarter_square.has_plain;
    for (int s = ACROSS; s < SIDES; s++) {
        pair_form(unit->arena, &way.sides[s], method, square(half),
                  square(half), unit->open);
        /* A half of method one is not trimmed: its seam and fold are in it. */
        if (method == METHOD_ONE)
            for (int k = plain ? 1 : 0; k < 2; k++) {
                way.sides[s].lines += ROOT2 / 2;
                way.sides[s].stitches += 0.5;
                add_fold(&way.sides[s], unit->open, -1 / (2 * ROOT2));
            }
    }
    if (method == METHOD_TWO)
        trim_way(&way);
    const double sewn =
        method == METHOD_ONE ? 2 * squared(side) : squared(side);
    way.cloth = plain ? squared(half) + sewn : 2 * sewn;
    if (method == METHOD_TWO)
        way.cloth /= 2;
    return way;
}

/* ---- flying geese, squares in squares ---- */

/* A rectangle with squares over its corners; `flaps` of them on each side, each
 * of which covers its share of it. */
static struct way corners_way(const struct unit *unit, double base_share,
                              double side_share, double square_side,
                              double squares)
{
    struct way way = way_to(unit, "corners");
    const bool level = way.wanted[ACROSS] >= way.wanted[DOWN];
    for (int s = ACROSS; s < SIDES; s++) {
        take(unit->arena, &way.sides[s],
             supply_cut(way.wanted[ACROSS], way.wanted[DOWN]), s, 1);
        const double share = (s == ACROSS) == level ? base_share : side_share;
        for (double k = 0; k < squares; k++)
            add_flap(unit->arena, &way.sides[s], square(square_side),
                     unit->open, share);
    }
    way.cloth =
        way.wanted[ACROSS] * way.wanted[DOWN] + squares * squared(square_side);
    return way;
}

/* The sizes of four geese: the large square is cut_across(2h + 2s, 2s), small
 * ones cut_across(h + 2s, s), as they are sewn. */
static struct way geese_way(const struct unit *unit)
{
    struct way way = way_to(unit, "four");
    const struct pattern *pattern = unit->sums->pattern;
    const struct rational seams = rational_times(pattern->seam, 2);
    const struct rational h =
        rational_min(unit->heap->width, unit->heap->height);
    const struct cut_across large =
        cut_across(pattern, rational_add(rational_times(h, 2), seams), seams);
    const struct cut_across small =
        cut_across(pattern, rational_add(h, seams), pattern->seam);
    way.possible = rational_known(large.side) && rational_known(small.side);
    const double l = rational_double(large.side);
    const double c = rational_double(small.side);
    const bool upright = way.wanted[ACROSS] > way.wanted[DOWN];
    for (int s = ACROSS; s < SIDES; s++)
        geese_form(unit->arena, &way.sides[s], (s == ACROSS) == upright,
                   square(l), square(c), square(c), unit->open);
    trim_way(&way);
    way.cloth = squared(l) / 4 + squared(c);
    return way;
}

/* The sizes of a center and of two squares that are cut once: as they are sewn
 * in the program, derived there. */
static struct way triangles_way(const struct unit *unit)
{
    struct way way = way_to(unit, "triangles");
    const struct pattern *pattern = unit->sums->pattern;
    const struct rational seams = rational_times(pattern->seam, 2);
    const struct rational half =
        rational_div(unit->heap->width, rational_whole(2));
    const struct cut_across center = cut_across(pattern, seams, half);
    const struct cut_across corner =
        cut_across(pattern, rational_add(half, seams), pattern->seam);
    way.possible = rational_known(center.side) && rational_known(corner.side);
    const double c = rational_double(center.side);
    const double k = rational_double(corner.side);
    for (int s = ACROSS; s < SIDES; s++)
        triangles_form(unit->arena, &way.sides[s], square(c), square(k),
                       square(k), unit->open);
    trim_way(&way);
    way.cloth = squared(c) + 2 * squared(k);
    return way;
}

/* ---- what a heap could be ---- */

/* Its own way, larger on each side by what a ruler's step is, and trimmed; so
 * are its squares, as many as lie in its cloth. */
static struct way larger_way(const struct way *own, double more)
{
    struct way way = *own;
    double area = 1, grown = 1;
    for (int s = ACROSS; s < SIDES; s++) {
        way.sides[s].base += more;
        area *= own->wanted[s];
        grown *= own->wanted[s] + more;
    }
    trim_way(&way);
    way.cloth = own->cloth * grown / area;
    return way;
}

enum { MOST_WAYS = 4 };

/* ensures: the ways to the unit, how many, and which is its own. */
/* A goose is half as high as it is wide, and so are the squares at its corners;
 * those of a square in a square are half of it. */
static size_t ways_to(const struct unit *unit, struct way *ways, size_t *own)
{
    const struct heap *heap = unit->heap;
    const double long_side = fmax(heap_side(unit->sums, unit->index, ACROSS),
                                  heap_side(unit->sums, unit->index, DOWN));
    const double seams = 2 * unit->sums->seam;
    if (heap->technique == TECHNIQUE_HALF_SQUARE) {
        for (int m = METHOD_ONE; m <= METHOD_EIGHT; m++)
            ways[m] = half_way(unit, (enum half_square_method)m);
        *own = heap->of.half_square.method;
        return 4;
    }
    if (heap->technique == TECHNIQUE_QUARTER_SQUARE) {
        ways[0] = quarter_way(unit, METHOD_ONE);
        ways[1] = quarter_way(unit, METHOD_TWO);
        *own = heap->of.quarter_square.method;
        return 2;
    }
    *own = is_flipped(heap) ? 0 : 1;
    if (heap->technique == TECHNIQUE_FLYING_GEESE) {
        const double high = (long_side - seams) / 2 + seams;
        ways[0] = corners_way(unit, 1, 0.5, high, 2);
        ways[1] = geese_way(unit);
        return 2;
    }
    if (heap->technique == TECHNIQUE_SQUARE_IN_SQUARE) {
        const double corner = (long_side - seams) / 2 + seams;
        ways[0] = corners_way(unit, 0.5, 0.5, corner, 4);
        ways[1] = triangles_way(unit);
        return 2;
    }
    return 0;
}

/* Of both sides, that which is less sure with the right seam. */
static void add_way(const struct unit *unit, struct tolerance_report *report,
                    const struct way *way, bool own, bool larger, double cloth)
{
    struct tolerance_way told = {.heap = unit->index,
                                 .method = own ? NULL : way->method,
                                 .larger = larger,
                                 .bound = report->trimmed_bound,
                                 .cloth = way->cloth - cloth};
    for (int s = ACROSS; s < SIDES; s++) {
        const struct outcomes outcomes =
            outcomes_of_form(report, &way->sides[s], unit->sums->seam,
                             way->wanted[s], told.bound);
        if (s == ACROSS || outcomes.of[SEAM_RIGHT].within <
                               told.outcomes.of[SEAM_RIGHT].within)
            told.outcomes = outcomes;
    }
    *LIST_ADD(unit->arena, &report->ways) = told;
}

/* Its own way stands first. */
void add_ways(struct arena *arena, struct tolerance_report *report,
              const struct sums *sums, size_t heap)
{
    const struct unit unit = {arena, sums, &sums->quilt->heaps.items[heap],
                              heap,
                              is_pressed_open(&sums->quilt->heaps.items[heap])};
    struct way ways[MOST_WAYS];
    size_t own = 0;
    const size_t count = ways_to(&unit, ways, &own);
    if (count == 0 || !ways[own].possible)
        return;
    const double cloth = ways[own].cloth;
    const struct way larger = larger_way(&ways[own], report->more);
    add_way(&unit, report, &ways[own], true, false, cloth);
    add_way(&unit, report, &larger, true, true, cloth);
    for (size_t i = 0; i < count; i++)
        if (i != own && ways[i].possible)
            add_way(&unit, report, &ways[i], false, false, cloth);
}
