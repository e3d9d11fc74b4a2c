/* Rows, columns and grids, told. */
#include "telling.h"

static bool is_sashing(const struct element *element)
{
    return element->kind == ELEMENT_SASHING ||
           element->kind == ELEMENT_CORNERSTONE;
}

/* Strips and plain cornerstones are told by the sashing itself, others are held
 * by it. */
static bool is_of_sashing(const struct cell *cell)
{
    const struct element *element = cell->piece->element;
    return is_sashing(element) ||
           (element->parent != NULL && is_sashing(element->parent));
}

/* A grid with sashing is rows that the designer did not write: of strips alone,
 * or of what the strips part. NULL for others. */
static const char *sashed_key(const struct heap *heap)
{
    const struct piece *row = heap->piece;
    size_t strips = 0;
    if (heap->technique != TECHNIQUE_JOIN || row->kind != PIECE_ROW)
        return NULL;
    for (size_t i = 0; i < row->cells.count; i++)
        strips += is_of_sashing(&row->cells.items[i]);
    return strips == 0                  ? NULL
           : strips == row->cells.count ? "title.sashing-row"
                                        : "title.block-row";
}

/* Two of a kind would share a name; they are told by their parts. */
const char *sashed_row_title(const struct wording *w, const struct heap *heap)
{
    const char *key = sashed_key(heap);
    for (size_t i = 0; key != NULL && i < w->quilt->heaps.count; i++)
        if (&w->quilt->heaps.items[i] != heap &&
            sashed_key(&w->quilt->heaps.items[i]) == key)
            return NULL;
    return key == NULL ? NULL : say(w->arena, w->phrases, key, NULL);
}

/* What has no name of its own is told by its shape. */
static const char *join_title(const struct wording *w, const struct heap *heap)
{
    const char *sashed = sashed_row_title(w, heap);
    if (sashed != NULL)
        return sashed;
    if (heap->piece->kind == PIECE_BORDER)
        return say(w->arena, w->phrases, "title.border-strips", NULL);
    if (heap->of.join.across > 1 && heap->of.join.down > 1)
        return say(w->arena, w->phrases, "title.grid", "across",
                   say_count(w->arena, heap->of.join.across), "down",
                   say_count(w->arena, heap->of.join.down), NULL);
    return say(w->arena, w->phrases,
               heap->of.join.down > 1 ? "title.column" : "title.row", "count",
               say_count(w->arena, heap->inputs.count), NULL);
}

/* Strips of borders that are mitred as one. */
static struct told_action word_set(const struct wording *w,
                                   const struct heap *heap)
{
    return (struct told_action){
        set_measured(w, heap),
        "",
        say(w->arena, w->phrases, "border.match-strips", NULL),
        "",
        "",
        ""};
}

/* Rows first where there are both. */
static const char *word_joining(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action)
{
    const char *count = say_count(w->arena, heap->inputs.count);
    if (action->operation->laid == LAID_DOWN)
        return heap->of.join.across > 1
                   ? say(w->arena, w->phrases, "join.rows", NULL)
                   : say(w->arena, w->phrases, "join.column", "count", count,
                         NULL);
    return heap->of.join.down > 1
               ? say(w->arena, w->phrases, "join.grid", "rows",
                     say_count(w->arena, heap->of.join.down), "across",
                     say_count(w->arena, heap->of.join.across), NULL)
               : say(w->arena, w->phrases, "join.row", "count", count, NULL);
}

/* Like parts that lie turned against each other are told of: the figure shows
 * how, and it is easily overlooked. */
static bool has_turned_parts(const struct heap *heap)
{
    for (size_t i = 0; i < heap->inputs.count; i++)
        for (size_t k = 0; k < i && k < 64; k++)
            if (heap->inputs.items[i].heap == heap->inputs.items[k].heap &&
                heap->inputs.items[i].turn != heap->inputs.items[k].turn)
                return true;
    return false;
}

/* A join has one sentence. That parts are turned is told once, with the first
 * action, as by then all of them must lie as drawn. */
static struct told_action word_join(const struct wording *w,
                                    const struct heap *heap,
                                    const struct action *action)
{
    if (heap->piece->kind == PIECE_BORDER)
        return word_set(w, heap);
    const bool turned =
        action == &heap->actions.items[0] && has_turned_parts(heap);
    return (struct told_action){
        turned ? say(w->arena, w->phrases, "join.turn", NULL) : "",
        "",
        word_joining(w, heap, action),
        "",
        "",
        ""};
}

/* Pieces become rows first, then rows become the unit; a single row or a single
 * column has nothing of the other kind to speak of. */
static const char *laid_apart(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    const bool rows = action->operation->laid == LAID_ACROSS;
    const char *key =
        rows ? heap->of.join.down > 1 ? "caption.lay-rows" : "caption.lay"
        : heap->of.join.across > 1 ? "caption.rows"
                                   : "caption.lay";
    return say(w->arena, w->phrases, key, NULL);
}

const struct telling telling_join = {
    .title = join_title, .action = word_join, .before = laid_apart};
