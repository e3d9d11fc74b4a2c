/* What is told of a quilt: sizes to expect, step by step, for each seam; where
 * the spread comes from; where trimming pays. Read next: shares.c. */
#include "form.h"

#include "trade.h"

/* Work of trying to trim is counted, so that a quilt of thousands of heaps is
 * told in a second. */
enum { MOST_TRIMS = 40, MOST_TRIM_WORK = 1000000 };

struct reporting {
    struct arena *arena;
    const struct sums *sums;
    struct tolerance_report *report;
    double block, top; /* bounds */
};

/* The same person in all else: only the seam is another. */
struct hand hand_of(const struct tolerance_report *report, enum seam_case seam)
{
    struct hand hand = report->right;
    hand.offset = report->offsets[seam];
    return hand;
}

/* In the order of the columns: each seam by itself, then persons, whose mix is
 * summed up round the right seam whatever strips were measured. */
struct outcomes outcomes_of_form(const struct tolerance_report *report,
                                 const struct form *form, double seam,
                                 double wanted, double bound)
{
    struct outcomes outcomes = {.persons = {0}};
    for (int c = SEAM_RIGHT; c < SEAM_CASES; c++) {
        const struct hand hand = hand_of(report, (enum seam_case)c);
        outcomes.of[c] =
            outcome_of(sew_form(form, seam, &hand, NULL), wanted, bound);
    }
    for (int step = -MIX_LAST; step <= MIX_LAST; step++) {
        const struct mix mix = persons_mix(report->right, step);
        const struct expected e = sew_form(form, seam, &mix.hand, NULL);
        mix_in(&outcomes.persons, mix.weight, &e, wanted, bound);
    }
    end_mix(&outcomes.persons, wanted);
    return outcomes;
}

/* ---- rows ---- */

static const struct heap *heap_of(const struct reporting *r, size_t heap)
{
    return &r->sums->quilt->heaps.items[heap];
}

/* A step of the booklet, but not in other fabrics alone. */
static bool is_told(const struct reporting *r, size_t index)
{
    const struct heap *heap = heap_of(r, index);
    return heap->step > 0 && heap->within == index &&
           (heap->like == index ||
            !rational_equal(heap->factor, heap_of(r, heap->like)->factor));
}

/* Center, whole, and what lies between them: borders that are sewn one after
 * the other are told in one step, which the last of them ends. */
static bool is_top(const struct reporting *r, size_t heap)
{
    return heap == r->sums->quilt->top || heap == r->sums->quilt->whole ||
           heap_of(r, heap)->technique == TECHNIQUE_BORDER;
}

/* A unit that is trimmed is held to the ruler; what is only sewn to what the
 * next step can ease; a top to what a border takes in. */
static double bound_of(const struct reporting *r, size_t heap)
{
    return is_top(r, heap)                        ? r->top
           : r->sums->forms[SIDES * heap].trimmed ? r->report->trimmed_bound
                                                  : r->block;
}

/* Both sides are one row where they come to the same. */
static void add_rows(const struct reporting *r, const struct expected *sides,
                     size_t heap)
{
    const struct expected *a = &sides[SIDES * heap];
    const double wide = heap_side(r->sums, heap, ACROSS);
    const bool alike = fabs(wide - heap_side(r->sums, heap, DOWN)) < 1e-9 &&
                       fabs(a[ACROSS].mean - a[DOWN].mean) < 1e-9 &&
                       fabs(a[ACROSS].variance - a[DOWN].variance) < 1e-12 &&
                       fabs(a[ACROSS].slope - a[DOWN].slope) < 1e-9;
    for (int side = ACROSS; side < (alike ? DOWN : SIDES); side++) {
        const struct expected *e = &a[side];
        const double own = squared(e->slope * r->report->right.persons);
        if (heap == r->sums->quilt->whole && side == ACROSS)
            r->report->top_row = r->report->rows.count;
        *LIST_ADD(r->arena, &r->report->rows) = (struct tolerance_row){
            .heap = heap,
            .side = alike ? SIDES : side,
            .trimmed = e->trimmed,
            .wanted = heap_side(r->sums, heap, side),
            .bound = bound_of(r, heap),
            .slope = e->slope,
            .too_small = expected_too_small(e),
            .own_seam = own + e->variance > 0 ? own / (own + e->variance) : 0};
    }
}

/* What lies beyond the point of a goose once the next seam is sewn. The line
 * does not matter: it moves the point as far as the edge. */
static void add_point(const struct reporting *r, size_t heap)
{
    const struct heap *goose = heap_of(r, heap);
    if (goose->technique != TECHNIQUE_FLYING_GEESE || !is_flipped(goose))
        return;
    struct form form = {
        .base = r->sums->seam, .seams = -1, .cuts = 0.75, .stitches = 1};
    add_fold(&form, is_pressed_open(goose), -1 / ROOT2);
    *LIST_ADD(r->arena, &r->report->rows) = (struct tolerance_row){
        .heap = heap,
        .side = SIDES,
        .point = true,
        .bound = r->report->trimmed_bound,
        .slope = -1,
        .outcomes = outcomes_of_form(r->report, &form, r->sums->seam, 0,
                                     r->report->trimmed_bound)};
}

/* Where both sides are alike, the width stands for both. */
static const struct expected *side_of_row(const struct tolerance_row *row,
                                          const struct expected *sides)
{
    return &sides[SIDES * row->heap +
                  (size_t)(row->side == SIDES ? ACROSS : row->side)];
}

/* One hand sews the whole quilt, and every row looks at its own heap. */
static void fill_case(const struct reporting *r, enum seam_case seam,
                      struct expected *sides)
{
    const struct hand hand = hand_of(r->report, seam);
    sew_up_to(r->sums, &hand, (struct oversize){NO_HEAP, 0},
              r->sums->quilt->heaps.count - 1, sides);
    for (size_t i = 0; i < r->report->rows.count; i++) {
        struct tolerance_row *row = &r->report->rows.items[i];
        if (!row->point)
            row->outcomes.of[seam] =
                outcome_of(*side_of_row(row, sides), row->wanted, row->bound);
    }
}

/* All rows at one go: a person's seam is the same in all of them. */
static void fill_persons(const struct reporting *r, struct expected *sides)
{
    for (int step = -MIX_LAST; step <= MIX_LAST; step++) {
        const struct mix mix = persons_mix(r->report->right, step);
        sew_up_to(r->sums, &mix.hand, (struct oversize){NO_HEAP, 0},
                  r->sums->quilt->heaps.count - 1, sides);
        for (size_t i = 0; i < r->report->rows.count; i++) {
            struct tolerance_row *row = &r->report->rows.items[i];
            if (!row->point)
                mix_in(&row->outcomes.persons, mix.weight,
                       side_of_row(row, sides), row->wanted, row->bound);
        }
    }
    for (size_t i = 0; i < r->report->rows.count; i++)
        if (!r->report->rows.items[i].point)
            end_mix(&r->report->rows.items[i].outcomes.persons,
                    r->report->rows.items[i].wanted);
}

/* ---- where trimming pays ---- */

/* The top as it comes out where all of one unit or block are made larger and
 * trimmed. Whether its cloth suffices is not asked: more is cut. */
static struct outcomes trimmed_top(const struct reporting *r, size_t heap,
                                   struct expected *sides)
{
    const struct oversize oversize = {heap, r->report->more};
    const struct tolerance_row *top =
        &r->report->rows.items[r->report->top_row];
    struct outcomes outcomes = {.persons = {0}};
    for (int c = SEAM_RIGHT; c < SEAM_CASES; c++) {
        const struct hand hand = hand_of(r->report, (enum seam_case)c);
        sew_up_to(r->sums, &hand, oversize, top->heap, sides);
        outcomes.of[c] =
            outcome_of(*side_of_row(top, sides), top->wanted, top->bound);
    }
    for (int step = -MIX_LAST; step <= MIX_LAST; step++) {
        const struct mix mix = persons_mix(r->report->right, step);
        sew_up_to(r->sums, &mix.hand, oversize, top->heap, sides);
        mix_in(&outcomes.persons, mix.weight, side_of_row(top, sides),
               top->wanted, top->bound);
    }
    end_mix(&outcomes.persons, top->wanted);
    return outcomes;
}

/* A hundredth more of all persons: what helps one seam may harm another. */
static bool pays(const struct outcomes *trimmed, const struct outcomes *plain)
{
    return trimmed->persons.within > plain->persons.within + 0.01;
}

/* What sewing the quilt once takes, in sums of terms. */
static size_t work_of(const struct sums *sums)
{
    size_t terms = 0;
    for (size_t i = 0; i < SIDES * sums->quilt->heaps.count; i++)
        terms += 1 + sums->forms[i].terms.count;
    return terms;
}

/* Units and blocks in the order of their steps; one whose two sides are two
 * rows is tried once. What is trimmed already has its own line among the ways.
 */
static void add_trims(const struct reporting *r, struct expected *sides)
{
    struct tolerance_report *report = r->report;
    const size_t work = work_of(r->sums);
    size_t tried = 0, last = NO_HEAP;
    for (size_t i = 0; i < report->rows.count; i++) {
        const size_t heap = report->rows.items[i].heap;
        if (heap == last || is_top(r, heap))
            continue;
        last = heap;
        if (++tried > MOST_TRIMS || tried * work > MOST_TRIM_WORK) {
            report->trims_left = true;
            return;
        }
        const struct outcomes top = trimmed_top(r, heap, sides);
        if (pays(&top, &report->rows.items[report->top_row].outcomes))
            *LIST_ADD(r->arena, &report->trims) =
                (struct tolerance_trim){heap, top};
    }
}

/* ---- all of it ---- */

/* Of a piece that was cut to shape. Round blocks on point, two legs at the sides
 * and one long edge in a corner; of a piece of a strip its slanted ends, which
 * lie off the grain, too: an end of a row has one. */
static size_t slanted_edges(enum patch_shape shape)
{
    switch (shape) {
    case PATCH_WHOLE:
        return 0;
    case PATCH_HALVED:
    case PATCH_END_LEFT:
    case PATCH_END_RIGHT:
        return 1;
    case PATCH_QUARTERED:
    case PATCH_TRIANGLE:
    case PATCH_DIAMOND_RIGHT:
    case PATCH_DIAMOND_LEFT:
    case PATCH_HALF_HEXAGON:
    case PATCH_STAR_DIAMOND:
        break;
    }
    return 2;
}

/* Edges that stretch while hands sew them: four of a half-square that is cut
 * from two after sewing, four long edges round a center, and the two that a
 * half-rectangle is joined along; and those of what is cut to shape. */
static size_t bias_edges(const struct sewn_quilt *quilt)
{
    size_t edges = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if ((heap->technique == TECHNIQUE_HALF_SQUARE &&
             heap->of.half_square.method == METHOD_FOUR) ||
            (heap->technique == TECHNIQUE_SQUARE_IN_SQUARE &&
             !is_flipped(heap)))
            edges += 4 * heap->count;
        if (heap->technique == TECHNIQUE_HALF_RECTANGLE)
            edges += 2 * heap->count;
        if (heap->technique == TECHNIQUE_CUT)
            edges += slanted_edges(heap->of.cut.shape) * heap->count;
    }
    return edges;
}

/* A thread narrower and wider than the right seam. Without strips, the own seam
 * is the right one, and is not told. */
static void set_seams(struct tolerance_report *report,
                      const struct pattern *pattern, struct rational measured)
{
    report->right = usual_hand(pattern->units);
    report->thread = report->right.persons;
    report->own = rational_known(measured);
    report->offsets[SEAM_RIGHT] = report->right.offset;
    report->offsets[SEAM_OWN] =
        report->own
            ? strips_offset(pattern, &report->right, rational_double(measured))
            : report->right.offset;
    report->offsets[SEAM_NARROW] = report->right.offset - report->thread;
    report->offsets[SEAM_WIDE] = report->right.offset + report->thread;
}

/* Units and blocks have shares and other ways; of a point it is told by its
 * unit. */
static void add_details(const struct reporting *r, const struct expected *sides)
{
    size_t last = NO_HEAP;
    for (size_t i = 0; i < r->report->rows.count; i++) {
        const struct tolerance_row *row = &r->report->rows.items[i];
        if (row->point)
            continue;
        add_shares(r->arena, r->report, r->sums, sides, i);
        if (row->heap != last)
            add_ways(r->arena, r->report, r->sums, row->heap);
        last = row->heap;
    }
}

/* Rows first, as shares and trims name them by their place. Sides of the right
 * seam serve shares before the cases write over them. */
struct tolerance_report *report_tolerance(struct arena *arena,
                                          const struct pattern *pattern,
                                          const struct sewn_quilt *quilt,
                                          struct rational measured)
{
    struct tolerance_report *report = ARENA_NEW(arena, struct tolerance_report);
    const enum length_unit units = pattern->units;
    const struct reporting r = {
        arena, sums_of(arena, pattern, quilt), report,
        rational_double(trade_length(TRADE_OFF_BLOCK, units)),
        rational_double(trade_length(TRADE_OFF_TOP, units))};
    report->trimmed_bound =
        rational_double(trade_length(TRADE_OFF_TRIMMED, units));
    report->more = rational_double(trade_length(TRADE_CUTTING_STEP, units));
    set_seams(report, pattern, measured);
    struct expected *sides =
        sew_sums(arena, r.sums, &report->right, (struct oversize){NO_HEAP, 0});
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (is_told(&r, i)) {
            add_rows(&r, sides, i);
            add_point(&r, i);
        }
    add_details(&r, sides);
    for (int c = SEAM_RIGHT; c < SEAM_CASES; c++)
        fill_case(&r, (enum seam_case)c, sides);
    fill_persons(&r, sides);
    add_trims(&r, sides);
    report->bias_edges = bias_edges(quilt);
    return report;
}
