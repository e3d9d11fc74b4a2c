/* An order of kits up to its plan, each line's pattern being the same small one;
 * and all that is said of it. What can be planned is told in every table and is
 * read back as the shelf of the next order. */
#include <string.h>

#include "diag.h"
#include "driver.h"
#include "fuzz.h"
#include "kits.h"
#include "order.h"
#include "render.h"

/* More kits, and more of a source, find nothing new. */
enum { MOST_BYTES = 4000, MOST_KITS = 200 };

static const char pattern[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"p\" title=\"P\"><fabrics>"
    "<fabric id=\"kelp\"/><fabric id=\"sand\"/></fabrics><colorway id=\"c\">"
    "<cloth fabric=\"kelp\" name=\"A\" color=\"#224433\" code=\"K\"/>"
    "<cloth fabric=\"sand\" name=\"B\" color=\"#ccbb88\" sold=\"fat-quarter\"/>"
    "</colorway><quilt id=\"q\"><row><patch fabric=\"kelp\" width=\"9\" "
    "height=\"6\"/><patch fabric=\"sand\" width=\"4\"/></row>"
    "<backing fabric=\"kelp\"/><batting/><binding fabric=\"sand\"/></quilt>"
    "</pattern>";

static void tell_all(struct arena *arena, const struct kits *kits)
{
    MUST(render_purchase_csv(arena, kits) != NULL);
    MUST(render_bolts_csv(arena, kits) != NULL);
    MUST(render_strips_csv(arena, kits) != NULL);
    MUST(render_picking_csv(arena, kits) != NULL);
    MUST(render_slips_csv(arena, kits) != NULL);
    MUST(render_count_csv(arena, kits) != NULL);
    MUST(render_costs_csv(arena, kits) != NULL);
    const char *shelf = render_next_shelf(arena, kits);
    struct run *next = run_create(
        arena, source_create(arena, "shelf.xml", shelf, strlen(shelf)));
    MUST(read_pattern(next) == NULL); /* a shelf is none, and is well formed */
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(next, &sorted);
    for (size_t i = 0; i < count; i++)
        MUST(sorted[i]->code != DIAG_XML_SYNTAX);
}

/* Whatever file a line names, it is the small pattern. */
static void plan(struct run *run, const struct order *order)
{
    struct arena *arena = run->arena;
    const struct compiled compiled = compile_source(
        arena, source_create(arena, "p.xml", pattern, strlen(pattern)));
    MUST(compiled.plans != NULL);
    const struct kit_facts_list *list = kit_facts(arena, compiled.plans);
    const struct kit_facts **facts =
        ARENA_ARRAY(arena, const struct kit_facts *, order->lines.count + 1);
    size_t count = 0;
    for (size_t i = 0; i < order->lines.count; i++) {
        facts[i] = kit_facts_find(list, "q", "c");
        count += order->lines.items[i].kits;
    }
    if (count > MOST_KITS)
        return;
    const struct kits *kits = plan_kits(run, order, facts);
    MUST((kits == NULL) == (diag_count(run, DIAG_ERROR) > 0));
    if (kits != NULL) {
        prove_kits(kits);
        tell_all(arena, kits);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (length > MOST_BYTES)
        return 0;
    struct arena *arena = arena_create();
    const char *text = arena_copy(arena, (const char *)bytes, length);
    struct run *run =
        run_create(arena, source_create(arena, "x.kits", text, length));
    is_order(run->source);
    const struct element *root = read_order(run);
    MUST(root != NULL || diag_count(run, DIAG_ERROR) > 0);
    if (root != NULL && diag_count(run, DIAG_ERROR) == 0) {
        const struct order *order = resolve_order(run, root);
        if (diag_count(run, DIAG_ERROR) == 0)
            plan(run, order);
    }
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++) {
        MUST(sorted[i]->span.end <= length);
        MUST(sorted[i]->span.start <= sorted[i]->span.end);
    }
    arena_destroy(arena);
    return 0;
}
