/* The claims of all chosen booklets as a table, to be filled in by a tester:
 * one row a claim, with empty cells for the answer and a measure. What --gather
 * needs to judge a measure stands behind them. */
#include <math.h>

#include "claims.h"
#include "csv_cell.h"
#include "render.h"

/* Whole thousandths of the unit. */
static const char *thousandths(struct arena *arena, double length)
{
    return arena_printf(arena, "%ld", lround(1000 * length));
}

/* Empty for what is not measured, so that every row has all cells. */
static void measure_cells(struct buffer *out, const struct wording *w,
                          const struct claim *claim)
{
    const struct claim_measure *m = &claim->measure;
    const double lengths[] = {m->told, m->narrow, m->right,
                              m->wide, m->spread, m->bound};
    const bool measured =
        claim->kind == CLAIM_STRIPS || claim->kind == CLAIM_SIZE;
    csv_cell(out,
             measured ? length_unit_name(w->design->pattern->units) : "");
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++)
        csv_cell(out, measured ? thousandths(w->arena, lengths[i]) : "");
}

/* Which printing was read stands in each row, as tables are cut and joined. */
static void claim_row(struct buffer *out, const struct wording *w,
                      const struct cutplan *plan, const struct claim *claim,
                      struct testers testers, size_t count)
{
    csv_cell(out, w->design->id);
    csv_cell(out, w->design->revision);
    csv_cell(out, w->design->date);
    csv_cell(out, w->quilt->definition->id);
    csv_cell(out, plan->colorway->id);
    csv_cell(out, say_count(w->arena, testers.tester));
    csv_cell(out, say_count(w->arena, claim->number));
    csv_cell(out, claim_kind_name(claim->kind));
    csv_cell(out, claim->section);
    csv_cell(out, claim->text);
    csv_cell(out, "");
    csv_cell(out, "");
    csv_cell(out, say_count(w->arena, testers.count));
    csv_cell(out, say_count(w->arena, count));
    measure_cells(out, w, claim);
    csv_end_row(out);
}

const char *render_claims_csv(struct arena *arena,
                              const struct phrases *phrases,
                              const struct cutplans *plans,
                              const struct selection *selection,
                              struct testers testers)
{
    struct buffer out = buffer_in(arena);
    struct wording w = {arena, plans->sewn->sized->design, NULL, true, phrases};
    for (int column = 0; column < CLAIMS_COLUMNS; column++)
        csv_cell(&out, claims_column_name((enum claims_column)column));
    csv_end_row(&out);
    for (size_t i = 0; i < plans->items.count; i++) {
        const struct cutplan *plan = &plans->items.items[i];
        if (!selected(selection, plan))
            continue;
        w.quilt = plan->quilt;
        const struct claims claims = claims_of(&w, plan);
        for (size_t k = 0; k < claims.items.count; k++)
            if (claim_is_for(&claims.items.items[k], testers.count,
                             testers.tester))
                claim_row(&out, &w, plan, &claims.items.items[k], testers,
                          claims.items.count);
    }
    return buffer_string(&out);
}
