/* The quilting plan in short, for the designer: what is stitched and how it is
 * found, areas, threads, starts and the gap. Nothing is meant to be read by
 * programs, which have JSON. */
#include "buffer.h"
#include "quilting_json.h"
#include "render.h"
#include "wording.h"

static const char *thread_id(const struct quilting_plan *plan, size_t thread)
{
    return plan->told->threads.items[thread].id;
}

/* To a tenth, for people. */
static void print_length(struct buffer *out, const struct wording *w,
                         double length)
{
    buffer_printf(out, "%s %s", decimal_text(out->arena, length, 1),
                  word_unit(w));
}

static const char *const fills[] = {"lines",   "grid", "swirls",
                                    "pebbles", "echo", "nothing"};

/* "extend rays", "fill with swirls". */
static const char *item_name(struct arena *arena, const struct told_item *item)
{
    const char *name = element_name(item->element->kind);
    if (item->kind == TOLD_FILL)
        return arena_printf(arena, "%s with %s", name,
                            fills[item->of.fill.with]);
    return item->id == NULL ? name
                            : arena_printf(arena, "%s %s", name, item->id);
}

/* As the table of the booklet has them. */
static void print_rows(struct buffer *out, const struct wording *w,
                       const struct quilting_plan *plan)
{
    static const char *const guides[] = {"", " beside a seam", " beside a line",
                                         " beside the edge"};
    buffer_text(out, "\nLines\n");
    for (size_t i = 0; i < plan->rows.count; i++) {
        const struct quilted_row *row = &plan->rows.items[i];
        const bool free = row->found == FOUND_FREE;
        buffer_printf(out, "  %s: %s in `%s`: %zu %s%s, ",
                      quilting_stage_name(row->stage),
                      item_name(out->arena, row->item),
                      thread_id(plan, row->thread), row->lines,
                      free ? "area" : "line", row->lines == 1 ? "" : "s");
        print_length(out, w, row->length);
        buffer_printf(out, "; found by %s", line_found_name(row->found));
        if (row->beside > 0) {
            buffer_text(out, ", ");
            print_length(out, w, row->beside);
            buffer_text(out, guides[row->guide]);
        }
        buffer_char(out, '\n');
    }
    buffer_printf(out, "  %s %% of the length needs no mark\n",
                  decimal_text(out->arena, 100 * quilting_unmarked(plan), 1));
}

/* A line for each letter. */
static void print_areas(struct buffer *out, const struct wording *w,
                        const struct quilting_plan *plan)
{
    buffer_text(out, "\nAreas\n");
    for (size_t i = 0; i < plan->kinds.count; i++) {
        const struct quilted_kind *kind = &plan->kinds.items[i];
        buffer_printf(
            out, "  %s: %zu of %s, %s square %s each, %s", kind->letter,
            kind->count,
            kind->fabric == NO_FABRIC ? "several fabrics"
                                      : fabric_id(w->design, kind->fabric),
            decimal_text(out->arena, kind->size, 2), word_unit(w),
            kind->fill == NULL ? "no fill" : fills[kind->fill->of.fill.with]);
        if (kind->filled > 0) {
            buffer_text(out, ", ");
            print_length(out, w, kind->filled);
            buffer_text(out, " each");
        }
        buffer_char(out, '\n');
    }
}

/* A line for each thread and stage. */
static void print_routes(struct buffer *out, const struct wording *w,
                         const struct quilting_plan *plan)
{
    buffer_text(out, "\nPaths\n");
    for (size_t i = 0; i < plan->routes.count; i++) {
        const struct quilted_route *route = &plan->routes.items[i];
        buffer_printf(out, "  %s in `%s`: %zu start%s (%zu without travel), ",
                      quilting_stage_name(route->stage),
                      thread_id(plan, route->thread), route->starts,
                      route->starts == 1 ? "" : "s", route->starts_alone);
        print_length(out, w, route->stitched);
        buffer_text(out, " stitched, ");
        print_length(out, w, route->travelled);
        buffer_printf(out,
                      " travelled, %zu turn%s of the quilt, %zu change%s of "
                      "the bobbin\n",
                      route->turns, route->turns == 1 ? "" : "s",
                      route->changes, route->changes == 1 ? "" : "s");
    }
}

/* In the colorway of the plan. */
static void print_threads(struct buffer *out, const struct wording *w,
                          const struct cutplan *cut)
{
    const struct quilting_plan *plan = cut->quilting;
    const size_t threads = plan->told->threads.count;
    const size_t colorway =
        (size_t)(cut->colorway - w->design->colorways.items);
    buffer_text(out, "\nThread\n");
    for (size_t i = 0; i < threads; i++) {
        const struct thread_amount *amount = &plan->amounts[i];
        const struct thread_dress *dress =
            &plan->dresses[colorway * threads + i];
        buffer_printf(out, "  %s%s%s: ", thread_id(plan, i),
                      dress->name[0] == '\0' ? "" : ", ", dress->name);
        print_length(out, w, amount->bought);
        buffer_printf(out, " of thread, %zu bobbin%s", amount->bobbins,
                      amount->bobbins == 1 ? "" : "s");
        if (dress->spools > 0)
            buffer_printf(out, ", %zu spool%s", dress->spools,
                          dress->spools == 1 ? "" : "s");
        for (size_t f = 0; f < w->design->fabrics.count; f++)
            if (amount->over[f] > 0)
                buffer_printf(out, "; %s on %s",
                              dress->shows[f] ? "shows" : "blends",
                              w->design->fabrics.items[f].id);
        buffer_char(out, '\n');
    }
}

/* Beside what the batting allows, where that is told. */
static void print_gap(struct buffer *out, const struct wording *w,
                      const struct cutplan *cut)
{
    const struct quilting_plan *plan = cut->quilting;
    if (!plan->gap_known)
        return;
    buffer_text(out, "\nGap\n  the largest open circle is ");
    print_length(out, w, plan->gap.most);
    buffer_printf(out, " wide, %s from the left and ",
                  decimal_text(out->arena, plan->gap.left, 1));
    print_length(out, w, plan->gap.top);
    buffer_text(out, " from the top");
    if (rational_known(cut->batting_gap) && rational_sign(cut->batting_gap) > 0)
        buffer_printf(out, "; the batting allows %s %s",
                      word_length(w, cut->batting_gap), word_unit(w));
    buffer_char(out, '\n');
}

/* A block for each selected quilt and colorway. */
const char *render_quilting(struct arena *arena, const struct cutplans *plans,
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
        buffer_printf(
            &out, "%s%s, %s in %s: %s finished\n", out.length == 0 ? "" : "\n",
            design->title, plan->quilt->definition->name, plan->colorway->name,
            word_size_unit(&w, plan->quilt->width, plan->quilt->height));
        if (plan->quilting == NULL) {
            buffer_text(&out, "  no quilting is told\n");
            continue;
        }
        print_rows(&out, &w, plan->quilting);
        print_areas(&out, &w, plan->quilting);
        print_routes(&out, &w, plan->quilting);
        print_threads(&out, &w, plan);
        print_gap(&out, &w, plan);
    }
    return buffer_string(&out);
}
