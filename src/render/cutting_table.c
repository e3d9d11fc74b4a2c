/* How each cloth is cut, in short, for the designer: how near the next smaller
 * amount is and what causes the last step, what the cutting asks of hands, and
 * what each size by itself would take. Sentences rather than a table, as each
 * cloth has something else to tell. */
#include "buffer.h"
#include "render.h"
#include "wording.h"

/* The very numbers by which plans are compared (cut/choose.c), so that one can
 * see why this one was chosen. */
static const char *effort_text(struct arena *arena, struct cut_effort effort)
{
    return arena_printf(arena, "%zu line%s, %zu ruler setting%s, %zu trim%s",
                        effort.lines, effort.lines == 1 ? "" : "s",
                        effort.settings, effort.settings == 1 ? "" : "s",
                        effort.trims, effort.trims == 1 ? "" : "s");
}

/* "7 pieces cause it (4 x A3, 3 x A5)". */
static void print_causes(struct buffer *out, const struct fabric_plan *plan,
                         const struct cut_nudge *nudge)
{
    buffer_printf(out, "%zu piece%s cause%s it (", nudge->pieces,
                  nudge->pieces == 1 ? "" : "s", nudge->pieces == 1 ? "s" : "");
    for (size_t i = 0; i < nudge->causes.count; i++)
        buffer_printf(out, "%s%zu x %s", i == 0 ? "" : ", ",
                      nudge->causes.items[i].count,
                      plan->items.items[nudge->causes.items[i].item].label);
    buffer_text(out, ")");
}

/* "1 7/8 yd, 5 5/8 in over 1 3/4 yd: 7 pieces cause it (7 x A3)". What is to
 * spare is told in decimals: it is to be judged, not measured. */
static void print_amount(struct buffer *out, const struct wording *w,
                         const struct fabric_plan *plan)
{
    const struct pattern *pattern = w->design->pattern;
    const struct cut_nudge nudge = nudge_of(out->arena, pattern, plan);
    buffer_text(out, word_amount(w, plan));
    if (plan->bolt->sold != SOLD_YARDAGE) {
        if (!nudge.possible)
            return;
        buffer_text(out, "; for the last one, ");
        print_causes(out, plan, &nudge);
        return;
    }
    const struct rational spare = rational_sub(plan->bought, plan->needed);
    if (rational_sign(nudge.less) > 0)
        buffer_printf(out, ", %s %s over %s", word_length(w, nudge.over),
                      word_unit(w), word_yardage(w, nudge.less));
    if (nudge.possible) {
        buffer_text(out, ": ");
        print_causes(out, plan, &nudge);
    }
    buffer_printf(out, "; %s %s to spare",
                  rational_decimal(out->arena, spare, 2), word_unit(w));
}

/* What was proven, and what a little more cloth would save. */
static void print_bound(struct buffer *out, const struct wording *w,
                        const struct fabric_plan *plan)
{
    const bool yardage = plan->bolt->sold == SOLD_YARDAGE;
    const bool known =
        yardage ? rational_known(plan->least_bought) : plan->least_sheets > 0;
    const bool least =
        known && (yardage ? rational_equal(plan->least_bought, plan->bought)
                          : plan->least_sheets == plan->bought_sheets);
    if (least)
        buffer_text(out, "     proven: no plan of this kind takes less\n");
    else if (known)
        buffer_printf(
            out, "     bound: at least %s\n",
            yardage ? word_yardage(w, plan->least_bought)
                    : arena_printf(out->arena, "%zu", plan->least_sheets));
    if (plan->simply > 0)
        buffer_printf(out, "     planned simply: %zu sizes\n", plan->simply);
    if (plan->offer.strips.count > 0)
        buffer_printf(out, "     with %s: %s\n",
                      word_yardage(w, plan->offer.bought),
                      effort_text(out->arena, plan->offer.effort));
}

/* "9 x A3, 2 x 2 A5": segments, and how many pieces of each, where several lie
 * one above the other. */
static void print_cuts(struct buffer *out, const struct fabric_plan *plan,
                       const struct strip_cut *cuts, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct strip_cut *cut = &cuts[i];
        buffer_printf(out, "%s%zu x ", i == 0 ? "" : ", ", cut->count);
        if (cut->stack > 1)
            buffer_printf(out, "%zu ", cut->stack);
        buffer_text(out, plan->items.items[cut->item].label);
    }
}

/* A line a pattern of strips, as on the page of cutting; those of a sheet stand
 * further in. */
static void print_strips(struct buffer *out, const struct wording *w,
                         const struct fabric_plan *plan,
                         const struct strip *strips, size_t count,
                         struct rational length, int indent)
{
    for (size_t i = 0; i < count; i++) {
        const struct strip *strip = &strips[i];
        buffer_printf(out, "%*zu x strip %s: ", indent, strip->repeat,
                      word_length(w, strip->height));
        print_cuts(out, plan, strip->cuts.items, strip->cuts.count);
        if (strip->last.count > 0) {
            buffer_text(out, "; of the last ");
            print_cuts(out, plan, strip->last.items, strip->last.count);
        }
        buffer_printf(out, "; %s left\n",
                      word_length(w, rational_sub(length, strip->used)));
    }
}

static const char *sheet_title(const struct wording *w,
                               const struct fabric_plan *plan,
                               const struct sheet *sheet)
{
    const char *size =
        arena_printf(w->arena, "%s x %s", word_length(w, sheet->width),
                     word_length(w, sheet->height));
    switch (sheet->kind) {
    case SHEET_BOUGHT:
        return arena_printf(w->arena, "%s %s",
                            sheet_name(plan->bolt->sold, sheet->repeat != 1),
                            size);
    case SHEET_LENGTHWISE:
        return arena_printf(w->arena, "lengthwise cloth %s", size);
    case SHEET_REST:
        return arena_printf(w->arena, "rest %s", size);
    }
    return size;
}

/* All lines of a cloth: strips across, then sheets and rests with theirs. */
static void print_lines(struct buffer *out, const struct wording *w,
                        const struct fabric_plan *plan)
{
    print_strips(out, w, plan, plan->strips.items, plan->strips.count,
                 plan->strip_length, 8);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        buffer_printf(out, "%8zu x %s, strips %s:\n", sheet->repeat,
                      sheet_title(w, plan, sheet),
                      sheet->down ? "down" : "across");
        print_strips(out, w, plan, sheet->strips.items, sheet->strips.count,
                     sheet->down ? sheet->height : sheet->width, 12);
    }
}

/* What each size by itself would take stands beside the plan: without it nobody
 * could tell what planning has saved. */
static void print_cloth(struct buffer *out, const struct wording *w,
                        const struct fabric_plan *plan)
{
    struct arena *arena = out->arena;
    buffer_printf(out, "  %s  %s: ", fabric_letter(arena, plan->fabric),
                  plan->bolt->name);
    print_amount(out, w, plan);
    buffer_printf(out, "\n     %s, %zu cuts; each size by itself: %s, %s\n",
                  effort_text(arena, plan->effort), hand_cuts(plan),
                  plan->bolt->sold == SOLD_YARDAGE
                      ? word_yardage(w, plan->hand_bought)
                      : arena_printf(arena, "%zu", plan->hand_sheets),
                  effort_text(arena, plan->hand_effort));
    print_bound(out, w, plan);
    print_lines(out, w, plan);
}

/* A cloth from which no piece is cut has no line: it is not used, or only backs
 * the quilt. */
const char *render_cutting(struct arena *arena, const struct cutplans *plans,
                           const struct selection *selection)
{
    struct buffer out = buffer_in(arena);
    const struct design *design = plans->sewn->sized->design;
    struct wording w = {arena, design, NULL, false, phrases_load(arena, "en")};
    for (size_t i = 0; i < plans->items.count; i++) {
        const struct cutplan *plan = &plans->items.items[i];
        if (!selected(selection, plan))
            continue;
        w.quilt = plan->quilt;
        buffer_printf(&out, "%s%s, %s in %s\n", out.length == 0 ? "" : "\n",
                      design->title, plan->quilt->definition->name,
                      plan->colorway->name);
        for (size_t f = 0; f < design->fabrics.count; f++)
            if (plan->fabrics[f].items.count > 0)
                print_cloth(&out, &w, &plan->fabrics[f]);
    }
    return buffer_string(&out);
}
