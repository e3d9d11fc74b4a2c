/* Steps as a graph in layers (Sugiyama, Tagawa and Toda, 1981): a column is one
 * more than the deepest part; lines that pass a column have a slot in it; slots
 * are ordered by where they come from. Read next: step_map.c. */
#include <math.h>

#include "buffer.h"
#include "step_map.h"
#include "told_step.h"

/* Between two slots of a column, and the height of a line that passes. */
#define SLOT_GAP MM(1.4)
#define PASS_HEIGHT MM(1.6)

/* ---- nodes ---- */

/* From the center on all is one node: the quilt grows in one place. */
static bool is_top_step(const struct booklet *booklet, size_t heap)
{
    return heap == booklet->quilt->top ||
           booklet->quilt->heaps.items[heap].technique == TECHNIQUE_BORDER;
}

static struct map_node step_node(const struct booklet *booklet,
                                 const struct told_step *step)
{
    struct arena *arena = booklet->wording.arena;
    const struct heap *heap = &booklet->quilt->heaps.items[step->heap];
    /* Other sizes of it are counted by themselves: "× 20 + 1"; other casts are
     * not. */
    size_t made = step->count;
    struct buffer sizes = buffer_in(arena);
    for (size_t i = 0; i < step->sizes.count; i++) {
        const struct told_size *size = &step->sizes.items[i];
        if (is_other_cast(booklet->quilt, size->heap))
            made += size->count;
        else
            buffer_printf(&sizes, "\u00a0+\u00a0%zu", size->count);
    }
    const char *count =
        arena_printf(arena, "\u00d7\u00a0%zu%s", made, buffer_string(&sizes));
    return (struct map_node){.number = say_count(arena, step->number),
                             .name = step->title,
                             .count = count,
                             .cloth = finished_cloth(arena, heap->cloth)};
}

/* The numbers of all steps that it stands for. */
static struct map_node top_node(const struct booklet *booklet, size_t first,
                                size_t last)
{
    const struct wording *w = &booklet->wording;
    struct arena *arena = w->arena;
    return (struct map_node){
        .number = first == last
                      ? say_count(arena, first)
                      : arena_printf(arena, "%zu\u2013%zu", first, last),
        .name = say(arena, w->phrases, "glance.top", NULL),
        .count = "\u00d7\u00a01",
        .cloth = booklet->quilt->cloth};
}

/* An edge once, though a step may take many parts of another one. */
static void add_from(struct arena *arena, struct map_node *node, size_t from)
{
    for (size_t i = 0; i < node->from.count; i++)
        if (node->from.items[i] == from)
            return;
    *LIST_ADD(arena, &node->from) = from;
}

/* Parts that a step made; those of the same node are no edge. */
static void add_edges(const struct booklet *booklet, struct step_graph *graph,
                      const struct told_step *step, size_t own,
                      const size_t *node_of_step)
{
    struct map_node *node = &graph->nodes.items[own];
    for (size_t i = 0; i < step->parts.items.count; i++) {
        const size_t part = step->parts.items.items[i].heap;
        const size_t made = booklet->quilt->heaps.items[part].step;
        if (made == 0 || node_of_step[made] == own)
            continue;
        const size_t from = node_of_step[made];
        add_from(booklet->wording.arena, node, from);
        node->depth = (size_t)fmax((double)node->depth,
                                   (double)graph->nodes.items[from].depth + 1);
    }
}

/* Steps that sew the top are one node, as the map shows how blocks come about,
 * not in what order rows are joined. Depth is the longest way to a node, and
 * thereby its column. */
struct step_graph step_graph(const struct booklet *booklet)
{
    struct arena *arena = booklet->wording.arena;
    const struct told_steps steps = tell_steps(&booklet->wording);
    struct step_graph graph = {.nodes = {0}};
    size_t *node_of_step =
        ARENA_ARRAY(arena, size_t, booklet->quilt->heaps.count + 1);
    size_t first_top = 0, last_top = 0;
    for (size_t i = 0; i < steps.items.count; i++) {
        const struct told_step *step = &steps.items.items[i];
        if (is_top_step(booklet, step->heap)) {
            first_top = first_top == 0 ? step->number : first_top;
            last_top = step->number;
            continue;
        }
        node_of_step[step->number] = graph.nodes.count;
        *LIST_ADD(arena, &graph.nodes) = step_node(booklet, step);
    }
    const size_t top = graph.nodes.count;
    if (last_top > 0)
        *LIST_ADD(arena, &graph.nodes) = top_node(booklet, first_top, last_top);
    for (size_t i = 0; i < steps.items.count; i++) {
        const struct told_step *step = &steps.items.items[i];
        const bool is_top = is_top_step(booklet, step->heap);
        if (is_top)
            node_of_step[step->number] = top;
        add_edges(booklet, &graph, step,
                  is_top ? top : node_of_step[step->number], node_of_step);
    }
    for (size_t i = 0; i < graph.nodes.count; i++)
        graph.depth = (size_t)fmax((double)graph.depth,
                                   (double)graph.nodes.items[i].depth + 1);
    return graph;
}

/* ---- columns ---- */

/* NULL where the node neither stands in the column nor passes through it. */
const struct map_slot *slot_of(const struct step_graph *graph, size_t column,
                               size_t node)
{
    const struct map_column *at = &graph->columns[column];
    for (size_t i = 0; i < at->slots.count; i++)
        if (at->slots.items[i].node == node)
            return &at->slots.items[i];
    return NULL;
}

/* The last column that takes a node, and the first. */
static size_t last_use(const struct step_graph *graph, size_t node, bool first)
{
    size_t column = first ? graph->depth : 0;
    for (size_t i = 0; i < graph->nodes.count; i++) {
        const struct map_node *taker = &graph->nodes.items[i];
        for (size_t k = 0; k < taker->from.count; k++)
            if (taker->from.items[k] == node &&
                (first ? taker->depth < column : taker->depth > column))
                column = taker->depth;
    }
    return column;
}

/* Where a slot would like to be: beside what it comes from. */
static double wanted(const struct step_graph *graph, size_t column,
                     const struct map_slot *slot)
{
    if (column == 0) /* what is needed late stands below */
        return (double)last_use(graph, slot->node, true) * 1000.0 +
               (double)slot->node;
    if (slot->passes)
        return slot_of(graph, column - 1, slot->node)->y;
    const struct map_node *node = &graph->nodes.items[slot->node];
    double sum = 0.0;
    size_t count = 0;
    for (size_t i = 0; i < node->from.count; i++) {
        const struct map_slot *from =
            slot_of(graph, column - 1, node->from.items[i]);
        if (from == NULL)
            continue;
        sum += from->y;
        count++;
    }
    return count == 0 ? 0.0 : sum / (double)count;
}

/* Sorted by what they want; stable, as equals keep the order of the steps. */
static void sort_slots(const struct step_graph *graph, size_t column)
{
    struct map_column *at = &graph->columns[column];
    for (size_t i = 1; i < at->slots.count; i++) {
        const struct map_slot slot = at->slots.items[i];
        const double want = wanted(graph, column, &slot);
        size_t k = i;
        for (; k > 0 &&
               wanted(graph, column, &at->slots.items[k - 1]) > want + 1e-9;
             k--)
            at->slots.items[k] = at->slots.items[k - 1];
        at->slots.items[k] = slot;
    }
}

/* As near to what they want as those above leave room. ensures: the end. */
static double stack_slots(const struct step_graph *graph, size_t column)
{
    struct map_column *at = &graph->columns[column];
    double end = 0.0;
    for (size_t i = 0; i < at->slots.count; i++) {
        struct map_slot *slot = &at->slots.items[i];
        const double want =
            column == 0 ? 0.0 : wanted(graph, column, slot) - slot->height / 2;
        const double top = fmax(want, end + (i > 0 ? SLOT_GAP : 0.0));
        slot->y = top + slot->height / 2.0;
        end = top + slot->height;
    }
    return end;
}

/* What reaches beyond the end moves up, and pushes those above. */
static void lift_slots(struct map_column *at, double end)
{
    for (size_t i = at->slots.count; i-- > 0;) {
        struct map_slot *slot = &at->slots.items[i];
        slot->y = fmin(slot->y, end - slot->height / 2.0);
        end = slot->y - slot->height / 2.0 - SLOT_GAP;
    }
}

/* `heights` is in points, one for each node. A node keeps a narrow slot in
 * every column between its own and its last use, for the edge. ensures: the
 * height of the highest column, to which the others are kept. */
double place_slots(struct arena *arena, struct step_graph *graph,
                   const double *heights)
{
    graph->columns = ARENA_ARRAY(arena, struct map_column, graph->depth);
    double height = 0.0;
    for (size_t i = 0; i < graph->nodes.count; i++) {
        const size_t last = last_use(graph, i, false);
        for (size_t c = graph->nodes.items[i].depth;
             c < graph->depth && (c == graph->nodes.items[i].depth || c < last);
             c++) {
            const bool passes = c != graph->nodes.items[i].depth;
            *LIST_ADD(arena, &graph->columns[c].slots) = (struct map_slot){
                i, passes, 0.0, passes ? PASS_HEIGHT : heights[i]};
        }
    }
    for (size_t c = 0; c < graph->depth; c++) {
        double total = 0.0;
        for (size_t i = 0; i < graph->columns[c].slots.count; i++)
            total += graph->columns[c].slots.items[i].height +
                     (i > 0 ? SLOT_GAP : 0.0);
        height = fmax(height, total);
    }
    for (size_t c = 0; c < graph->depth; c++) {
        sort_slots(graph, c);
        if (stack_slots(graph, c) > height)
            lift_slots(&graph->columns[c], height);
    }
    return height;
}
