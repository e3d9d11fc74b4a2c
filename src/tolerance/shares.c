/* Where the spread of a size comes from. Variances are followed from the top
 * down: what a side passes on is the square of how often it goes in. Read next:
 * ways.c. */
#include "form.h"

/* How often the variance of each side counts, and what is born in each heap. */
struct flow {
    const struct sums *sums;
    const struct expected *sides;
    double cut, stitch; /* variances */
    double *weights;    /* by heap and side */
    double *born;       /* by heap in whose step it is told */
    double cutting;
};

/* The step in which a heap is sewn: other sizes and fabrics are sewn in it,
 * too.
 */
static double *born_in(struct flow *flow, size_t heap)
{
    const struct sewn_quilt *quilt = flow->sums->quilt;
    return &flow->born[quilt->heaps.items[heap_whole(quilt, heap)].like];
}

/* Of a smaller one of two, each counts by its share squared; together they are
 * made as much as there is. ensures: the weight of what was sewn. */
static double pass_trim(struct flow *flow, size_t heap,
                        const struct expected *e, double weight)
{
    const double smaller = expected_too_small(e);
    const double sewn = smaller * smaller * e->sewn_variance;
    const double cut =
        (1 - smaller) * (1 - smaller) * e->trim_spread * e->trim_spread;
    if (sewn + cut <= 0)
        return 0;
    const double scale = weight * e->variance / (sewn + cut);
    *born_in(flow, heap) += scale * cut;
    return scale * smaller * smaller;
}

/* What seams and cuts bring here stays here; the rest goes to what was sewn
 * before, which lies further down. */
static void pass_on(struct flow *flow, size_t heap, int side)
{
    const struct form *form = &flow->sums->forms[SIDES * heap + (size_t)side];
    const struct expected *e = &flow->sides[SIDES * heap + (size_t)side];
    double weight = flow->weights[SIDES * heap + (size_t)side];
    if (weight <= 0)
        return;
    if (e->trimmed)
        weight = pass_trim(flow, heap, e, weight);
    flow->cutting += weight * form->cuts * flow->cut;
    *born_in(flow, heap) += weight * form->stitches * flow->stitch;
    for (size_t i = 0; i < form->terms.count; i++) {
        const struct term *term = &form->terms.items[i];
        flow->weights[SIDES * term->heap + (size_t)term->side] +=
            weight * term->factor * term->factor;
    }
}

/* Less than a twentieth says nothing. */
static void add_share(struct arena *arena, struct tolerance_report *report,
                      size_t row, size_t heap, double share)
{
    if (share >= 0.05)
        *LIST_ADD(arena, &report->shares) =
            (struct tolerance_share){row, heap, share};
}

/* One walk from the row's heap down meets each heap behind all that takes it.
 */
void add_shares(struct arena *arena, struct tolerance_report *report,
                const struct sums *sums, const struct expected *sides,
                size_t row)
{
    const struct tolerance_row *told = &report->rows.items[row];
    const int side = told->side == SIDES ? ACROSS : told->side;
    struct arena *scratch = arena_create();
    struct flow flow = {
        .sums = sums,
        .sides = sides,
        .cut = report->right.cut * report->right.cut,
        .stitch = report->right.stitch * report->right.stitch,
        .weights = ARENA_ARRAY(scratch, double, SIDES *(told->heap + 1)),
        .born = ARENA_ARRAY(scratch, double, sums->quilt->heaps.count)};
    flow.weights[SIDES * told->heap + (size_t)side] = 1;
    for (size_t heap = told->heap + 1; heap-- > 0;)
        for (int s = ACROSS; s < SIDES; s++)
            pass_on(&flow, heap, s);
    const double all = sides[SIDES * told->heap + (size_t)side].variance;
    if (all > 0) {
        add_share(arena, report, row, NO_HEAP, flow.cutting / all);
        for (size_t heap = 0; heap < sums->quilt->heaps.count; heap++)
            add_share(arena, report, row, heap, flow.born[heap] / all);
    }
    arena_destroy(scratch);
}
