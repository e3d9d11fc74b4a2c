/* The claims of all chosen booklets as a table, to be filled in by a tester:
 * one row a claim, with empty cells for the answer and a measure. */
#include "claims.h"
#include "csv_cell.h"
#include "render.h"

/* Which printing was read stands in each row, as tables are cut and joined. */
static void claim_row(struct buffer *out, const struct wording *w,
                      const struct cutplan *plan, const struct claim *claim,
                      size_t tester)
{
    csv_cell(out, w->design->id);
    csv_cell(out, w->design->revision);
    csv_cell(out, w->design->date);
    csv_cell(out, w->quilt->definition->id);
    csv_cell(out, plan->colorway->id);
    csv_cell(out, say_count(w->arena, tester));
    csv_cell(out, say_count(w->arena, claim->number));
    csv_cell(out, claim->kind == CLAIM_SHOWN ? "shown" : "asked");
    csv_cell(out, claim->section);
    csv_cell(out, claim->text);
    csv_cell(out, "");
    csv_cell(out, "");
    csv_end_row(out);
}

const char *render_claims_csv(struct arena *arena,
                              const struct phrases *phrases,
                              const struct cutplans *plans,
                              const struct selection *selection,
                              struct testers testers)
{
    static const char *const heads[] = {
        "pattern", "revision", "date",    "quilt", "colorway", "tester",
        "claim",   "kind",     "section", "text",  "answer",   "measure"};
    struct buffer out = buffer_in(arena);
    struct wording w = {arena, plans->sewn->sized->design, NULL, true, phrases};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        csv_cell(&out, heads[i]);
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
                claim_row(&out, &w, plan, &claims.items.items[k],
                          testers.tester);
    }
    return buffer_string(&out);
}
