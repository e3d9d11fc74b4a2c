/* All that may be sewn by itself: each unit, block and row, neighbors in what
 * has no size of its own, and corners of borders. A trial brings all facts of
 * what lies inside it. Read next: making.c. */
#include <stdlib.h>

#include "buffer.h"
#include "facts.h"

struct finding {
    struct facts *facts;
    struct least *least;
    struct fact_list *inside; /* by heap: all facts of it, each once */
    struct name_table windows, trials;
};

static const struct heap *heap_of(const struct finding *finding, size_t heap)
{
    return &finding->facts->w->quilt->heaps.items[heap];
}

static int compare_numbers(const void *a, const void *b)
{
    const size_t one = *(const size_t *)a, other = *(const size_t *)b;
    return one < other ? -1 : one > other;
}

/* Each number once, as they rise. */
static void put_in_order(struct fact_list *list)
{
    size_t count = 0;
    if (list->items.count > 1)
        qsort(list->items.items, list->items.count, sizeof(size_t),
              compare_numbers);
    for (size_t i = 0; i < list->items.count; i++)
        if (i == 0 || list->items.items[i] != list->items.items[i - 1])
            list->items.items[count++] = list->items.items[i];
    list->items.count = count;
}

/* Doubles are taken out later, all at once. */
static void add_all(struct finding *finding, struct fact_list *list,
                    const struct fact_list *more)
{
    struct arena *arena = finding->facts->w->arena;
    LIST_RESERVE(arena, &list->items, more->items.count);
    for (size_t i = 0; i < more->items.count; i++)
        *LIST_ADD(arena, &list->items) = more->items.items[i];
}

/* Two trials that bring the same for the same are one. */
static bool is_new(struct finding *finding, const struct trial *trial)
{
    struct arena *arena = finding->facts->w->arena;
    struct buffer key = buffer_in(arena);
    buffer_printf(&key, "%zu ", trial->seams);
    rational_key(&key, trial->cloth);
    for (size_t i = 0; i < trial->facts.count; i++)
        buffer_printf(&key, " %zu", trial->facts.items[i]);
    return name_table_add(arena, &finding->trials, buffer_string(&key),
                          finding->least->trials.count);
}

/* What it takes is counted once, here, and compared many times. */
static void add_trial(struct finding *finding, struct trial trial,
                      const struct fact_list *list)
{
    const struct wording *w = finding->facts->w;
    struct arena *scratch = arena_create();
    size_t *made = ARENA_ARRAY(scratch, size_t, w->quilt->heaps.count);
    trial.seams = make_trial(w, &trial, made, &trial.cloth);
    arena_destroy(scratch);
    for (size_t i = 0; i < list->items.count; i++)
        *LIST_ADD(w->arena, &trial.facts) = list->items.items[i];
    if (is_new(finding, &trial))
        *LIST_ADD(w->arena, &finding->least->trials) = trial;
}

/* ---- neighbors ---- */

bool has_windows(const struct heap *heap)
{
    return heap->technique == TECHNIQUE_JOIN && heap->named == NULL;
}

/* The same cells, joined by seams that are pressed the same way. */
static const char *window_key(const struct finding *finding,
                              const struct window *window)
{
    const struct heap *heap = heap_of(finding, window->heap);
    struct buffer key = buffer_in(finding->facts->w->arena);
    buffer_printf(&key, "%zu %zu %zu", window->heap, window->across,
                  window->down);
    for (size_t r = 0; r < window->down; r++)
        for (size_t c = 0; c < window->across; c++) {
            const size_t cell =
                (window->row + r) * heap_across(heap) + window->column + c;
            const struct input *input = &heap->inputs.items[cell];
            buffer_printf(&key, " %zu.%u", input->heap, input->turn);
            if (c > 0)
                buffer_printf(&key, "x%d", seam_beside(heap, cell)->x);
            if (r > 0)
                buffer_printf(&key, "y%d",
                              seam_below(heap, window->row + r - 1)->y);
        }
    return buffer_string(&key);
}

/* Rows and columns need not be whole for the seam between them. */
static void add_cutouts(struct finding *finding, const struct window *window)
{
    const struct cutouts cutouts = cutouts_of(finding->facts, window);
    for (size_t i = 0; i < cutouts.items.count; i++) {
        struct cutout *one = &cutouts.items.items[i];
        for (size_t k = 0; k < one->trial.cells.count; k++)
            add_all(finding, &one->facts,
                    &finding->inside[one->trial.cells.items[k]]);
        put_in_order(&one->facts);
        add_trial(finding, one->trial, &one->facts);
    }
}

/* The facts between the cells of one window, and with all in its cells the
 * facts of a trial. A window that is all of its join is no other trial. */
static void add_window(struct finding *finding, struct window window,
                       struct fact_list *between)
{
    const struct heap *heap = heap_of(finding, window.heap);
    struct fact_list list = {.items = {0}};
    if (!name_table_add(finding->facts->w->arena, &finding->windows,
                        window_key(finding, &window), 0))
        return;
    window_facts(finding->facts, &window, &list);
    put_in_order(&list);
    add_all(finding, between, &list);
    add_cutouts(finding, &window);
    if (!has_windows(heap) ||
        (window.across == heap_across(heap) && window.down == heap_down(heap)))
        return;
    for (size_t r = 0; r < window.down; r++)
        for (size_t c = 0; c < window.across; c++) {
            const size_t cell =
                (window.row + r) * heap_across(heap) + window.column + c;
            add_all(finding, &list,
                    &finding->inside[heap->inputs.items[cell].heap]);
        }
    put_in_order(&list);
    add_trial(finding,
              (struct trial){.kind = TRIAL_NEIGHBORS,
                             .heap = window.heap,
                             .row = window.row,
                             .column = window.column,
                             .across = window.across,
                             .down = window.down},
              &list);
}

/* All windows of a join: what lies between its cells is between the cells of
 * one of them, as no point is touched by more than four. */
static void add_windows(struct finding *finding, size_t index,
                        struct fact_list *between)
{
    static const struct {
        size_t across, down;
    } sizes[] = {{2, 1}, {1, 2}, {2, 2}};
    const struct heap *heap = heap_of(finding, index);
    for (size_t s = 0; s < sizeof sizes / sizeof sizes[0]; s++)
        for (size_t r = 0; r + sizes[s].down <= heap_down(heap); r++)
            for (size_t c = 0; c + sizes[s].across <= heap_across(heap); c++)
                add_window(finding,
                           (struct window){index, r, c, sizes[s].across,
                                           sizes[s].down},
                           between);
}

/* ---- borders ---- */

static void add_border(struct finding *finding, size_t index)
{
    const struct heap *heap = heap_of(finding, index);
    const size_t corners = heap->of.border->blocks ? 4 : 1;
    for (size_t i = 0; i < corners; i++) {
        struct fact_list list = {.items = {0}};
        border_facts(finding->facts, index, i, &list);
        if (heap->of.border->blocks)
            add_all(
                finding, &list,
                &finding->inside[heap->inputs.items[BORDER_CORNER + i].heap]);
        /* Strips that are joined first. */
        for (size_t k = BORDER_LEFT; k <= BORDER_BOTTOM; k++)
            add_all(finding, &list,
                    &finding->inside[heap->inputs.items[k].heap]);
        put_in_order(&list);
        add_trial(
            finding,
            (struct trial){.kind = TRIAL_BORDER, .heap = index, .corner = i},
            &list);
    }
}

/* Heaps stand behind all that they are made from, so that what lies inside is
 * known when a heap is met. */
void find_trials(struct facts *facts, struct least *least)
{
    const struct wording *w = facts->w;
    struct finding finding = {.facts = facts, .least = least};
    finding.inside =
        ARENA_ARRAY(w->arena, struct fact_list, w->quilt->heaps.count);
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = heap_of(&finding, i);
        struct fact_list *list = &finding.inside[i];
        if (heap->count == 0 || heap->technique == TECHNIQUE_CUT)
            continue;
        if (heap->technique == TECHNIQUE_BORDER) {
            add_border(&finding, i);
            continue;
        }
        heap_facts(facts, i, list);
        if (heap->technique == TECHNIQUE_JOIN)
            add_windows(&finding, i, list);
        for (size_t k = 0; k < heap->inputs.count; k++)
            add_all(&finding, list,
                    &finding.inside[heap->inputs.items[k].heap]);
        put_in_order(list);
        add_trial(&finding, (struct trial){.kind = TRIAL_HEAP, .heap = i},
                  list);
    }
}
