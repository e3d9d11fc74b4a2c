/* The solved model as tables for a terminal. For a quick look in a terminal;
 * nothing is meant to be read by programs, which have JSON and CSV. */
#include <string.h>

#include "buffer.h"
#include "render.h"
#include "text_table.h"
#include "wording.h"

/* One of the shapes that are cut from the strips of an item. */
static void add_shape_row(struct buffer *out, struct text_table *table,
                          const struct wording *w, const struct cut_item *item,
                          size_t number)
{
    const struct shaped_piece *piece = &item->shaped.items[number];
    add_text_cell(table, piece->label);
    add_text_cell(table, w->design->fabrics.items[item->fabric].name);
    add_text_cell(table, arena_printf(out->arena, "%zu", piece->count));
    add_text_cell(table, word_shape(w, piece->shape, item->height));
    add_text_cell(table, word_purpose(w, item));
}

/* By fabric, in the order of their labels. */
static void print_pieces(struct buffer *out, const struct wording *w,
                         const struct cutplan *plan)
{
    struct text_table table = text_table_of(out->arena, 5);
    for (size_t f = 0; f < w->design->fabrics.count; f++) {
        for (size_t i = 0; i < plan->fabrics[f].items.count; i++) {
            const struct cut_item *item = &plan->fabrics[f].items.items[i];
            for (size_t k = 0; k < item->shaped.count; k++)
                add_shape_row(out, &table, w, item, k);
            if (item->shaped.count > 0)
                continue;
            add_text_cell(&table, item->label);
            add_text_cell(&table, w->design->fabrics.items[f].name);
            add_text_cell(&table, arena_printf(out->arena, "%zu", item->count));
            /* Joined strips run the whole width, so only their height is a
             * number. */
            add_text_cell(&table, item->joined
                            ? arena_printf(out->arena, "%s x width",
                                           word_length(w, item->height))
                            : word_size(w, item->width, item->height));
            add_text_cell(&table, word_purpose(w, item));
        }
    }
    print_text_table(out, &table);
}

/* What to buy, and how much of it strips take. */
static void print_cloth(struct buffer *out, const struct wording *w,
                        const struct cutplan *plan)
{
    struct text_table table = text_table_of(out->arena, 4);
    for (size_t f = 0; f < w->design->fabrics.count; f++) {
        const struct fabric_plan *fabric = &plan->fabrics[f];
        if (fabric->items.count == 0)
            continue;
        add_text_cell(&table, fabric_letter(out->arena, (int)f));
        add_text_cell(&table, fabric->bolt->name);
        add_text_cell(&table, word_amount(w, fabric));
        add_text_cell(&table,
            fabric->bolt->sold == SOLD_YARDAGE
                ? arena_printf(out->arena, "cuts of %s %s together",
                               word_length(w, fabric->cut_height), word_unit(w))
                : arena_printf(out->arena, "%s each",
                               word_size_unit(w, fabric->strip_length,
                                              fabric->sheet_height)));
    }
    /* A line of its own, even where it is in the amount of another. */
    if (plan->backing.wanted) {
        add_text_cell(&table, fabric_letter(out->arena, plan->backing.fabric));
        add_text_cell(&table, plan->backing.bolt->name);
        add_text_cell(&table,
            plan->backing.together
                ? arena_printf(out->arena, "in that of %s",
                               fabric_letter(out->arena, plan->backing.fabric))
                : word_yardage(w, plan->backing.bought));
        add_text_cell(&table,
            arena_printf(
                out->arena, "backing %s, %zu panel%s",
                word_size(w, plan->backing.width, plan->backing.height),
                plan->backing.panels, plan->backing.panels == 1 ? "" : "s"));
    }
    print_text_table(out, &table);
}

/* The first diagonal line of a step is told; rows have none. */
static const char *step_line(const struct wording *w, const struct heap *heap)
{
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        if (action->operation->draws_line)
            return arena_printf(w->arena, "line %s", line_name(action->line));
    }
    return "";
}

/* In the order of sewing. */
static void print_steps(struct buffer *out, const struct wording *w)
{
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    struct text_table table = text_table_of(out->arena, 6);
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        if (heap->step == 0)
            continue;
        add_text_cell(&table, arena_printf(out->arena, "%s.", word_step(w, i)));
        add_text_cell(&table, word_heap(w, i));
        add_text_cell(&table, arena_printf(out->arena, "make %zu", heap->count));
        add_text_cell(&table, arena_printf(out->arena, "%s unfinished",
                                 word_size(w, rational_add(heap->width, seams),
                                           rational_add(heap->height, seams))));
        add_text_cell(&table, step_line(w, heap));
        add_text_cell(&table, word_parts(w, heap));
    }
    print_text_table(out, &table);
}

/* A setting on point: what it is without borders, and beside what was wished. */
static void print_setting(struct buffer *out, const struct wording *w,
                          const struct sewn_quilt *quilt)
{
    const struct piece *root = quilt->definition->root;
    const struct on_point *of = root->on_point;
    if (of == NULL)
        return;
    const struct heap *heap = &quilt->heaps.items[quilt->top];
    while (heap->piece != root)
        heap = &quilt->heaps.items[heap->inputs.items[BORDER_CENTER].heap];
    buffer_printf(out, "\nOn point: %zu x %zu blocks, ", of->across, of->down);
    if (of->about.usable)
        buffer_printf(out, "about %s: ",
                      word_size(w, of->about.value, of->about.second));
    buffer_text(out, word_size_unit(w, heap->width, heap->height));
    if (rational_sign(of->excess) > 0)
        buffer_printf(out, "; they float by %s",
                      word_length_unit(w, of->excess));
    buffer_char(out, '\n');
}

/* A block of tables for each selected quilt and colorway. */
const char *render_tables(struct arena *arena, const struct cutplans *plans,
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
        print_setting(&out, &w, plan->quilt);
        buffer_text(&out, "\nCloth\n");
        print_cloth(&out, &w, plan);
        /* Batting has no colour and no letter, so no row among the cloths. */
        if (plan->batting_wanted)
            buffer_printf(
                &out, "  Batting %s\n",
                word_size_unit(&w, plan->batting_width, plan->batting_height));
        buffer_text(&out, "\nPieces to cut\n");
        print_pieces(&out, &w, plan);
        buffer_text(&out, "\nSteps\n");
        print_steps(&out, &w);
    }
    return buffer_string(&out);
}
