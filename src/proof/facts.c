/* What a person must get right when a heap is made from its parts. Facts are
 * equal by what they say, not by where they stand: a key tells, and a size or a
 * cast of what is sewn alike is no other technique. Read next: meetings.c. */
#include "facts.h"
#include "telling.h"

static const struct heap *heap_of(const struct facts *facts, size_t heap)
{
    return &facts->w->quilt->heaps.items[heap];
}

/* Notes the fact, unless one of its key is there. */
static void add_fact(struct facts *facts, struct fact_list *list,
                     struct sew_fact fact, const char *key)
{
    struct arena *arena = facts->w->arena;
    const char *whole = arena_printf(arena, "%d %s", (int)fact.kind, key);
    size_t number = facts->items.count;
    if (name_table_add(arena, &facts->numbers, whole, number))
        *LIST_ADD(arena, &facts->items) = fact;
    else
        name_table_find(&facts->numbers, whole, &number);
    *LIST_ADD(arena, &list->items) = number;
}

static int method_of(const struct heap *heap)
{
    const struct telling *telling = telling_of(heap);
    return telling->method == NULL ? 0 : telling->method(heap);
}

/* What the heap is in any cast: its unit or block, else how it is made. */
static const char *kind_key(const struct facts *facts, size_t index)
{
    const struct heap *heap = heap_of(facts, index);
    if (heap->named != NULL)
        return arena_printf(facts->w->arena, "of %zu%s", heap->named->index,
                            told_mirrored(facts->w, heap) ? "m" : "");
    if (heap->technique == TECHNIQUE_JOIN)
        return arena_printf(facts->w->arena, "join %zu", heap->like);
    return arena_printf(facts->w->arena, "by %d %d", (int)heap->technique,
                        method_of(heap));
}

/* A row or grid without a name has no size that anyone measures alone. */
static bool has_size(const struct heap *heap)
{
    return heap->technique != TECHNIQUE_CUT &&
           heap->technique != TECHNIQUE_BORDER &&
           (heap->technique != TECHNIQUE_JOIN || heap->named != NULL);
}

/* Two sizes of a unit are two things to get right, as seams weigh more in the
 * smaller one; a mirror image is one more, whatever its size. */
static void size_facts(struct facts *facts, size_t index,
                       struct fact_list *list)
{
    const struct heap *heap = heap_of(facts, index);
    struct arena *arena = facts->w->arena;
    if (has_size(heap)) {
        struct buffer key = buffer_in(arena);
        buffer_printf(&key, "%s ", kind_key(facts, index));
        rational_key(&key, heap->width);
        buffer_char(&key, ' ');
        rational_key(&key, heap->height);
        add_fact(facts, list, (struct sew_fact){FACT_SIZE, .heap = index},
                 buffer_string(&key));
    }
    if (told_mirrored(facts->w, heap))
        add_fact(facts, list, (struct sew_fact){FACT_MIRROR, .heap = index},
                 kind_key(facts, index));
}

/* Rows on the way lie as they were sewn, and cut pieces look the same. */
void turn_fact(struct facts *facts, size_t heap, size_t input,
               struct fact_list *list)
{
    const struct input *one = &heap_of(facts, heap)->inputs.items[input];
    const struct heap *part = heap_of(facts, one->heap);
    const unsigned turn = one->turn % part->symmetry;
    if (part->technique == TECHNIQUE_CUT || has_windows(part))
        return;
    add_fact(facts, list,
             (struct sew_fact){FACT_TURN, .heap = one->heap, .parent = heap,
                               .turn = turn},
             arena_printf(facts->w->arena, "%s %u in %s",
                          kind_key(facts, one->heap), turn,
                          kind_key(facts, heap)));
}

/* ---- seams ---- */

/* The way that a seam is pressed, where no word says it. */
static enum press_side way_of(const struct seam *seam)
{
    return seam->x == 0 && seam->y == 0 ? PRESS_OPEN
           : seam->x > 0                ? PRESS_RIGHT
           : seam->x < 0                ? PRESS_LEFT
           : seam->y > 0                ? PRESS_DOWN
                                        : PRESS_UP;
}

/* By the name of the operation: how a kind of seam is pressed is learned once,
 * not for each unit that has it. Where parts lie on each other, all seams of a
 * technique are told as one kind: a star, whose three operations are pressed
 * alike, has one thing to press. */
static void press_fact(struct facts *facts, size_t heap,
                       const struct operation *operation, enum press_side side,
                       struct fact_list *list)
{
    add_fact(
        facts, list,
        (struct sew_fact){FACT_PRESS, .heap = heap, .operation = operation,
                          .side = side},
        operation->laid == LAID_TOGETHER
            ? arena_printf(facts->w->arena, "by %d %d",
                           (int)heap_of(facts, heap)->technique, (int)side)
            : arena_printf(facts->w->arena, "%s %d", operation->name,
                           (int)side));
}

/* A word that speaks of cloth or corner is the same wherever the seam runs. */
static void action_facts(struct facts *facts, size_t index,
                         const struct action *action, struct fact_list *list)
{
    const struct operation *operation = action->operation;
    struct arena *arena = facts->w->arena;
    const int technique = (int)heap_of(facts, index)->technique;
    if (operation->draws_line)
        add_fact(
            facts, list,
            (struct sew_fact){FACT_LINE, .heap = index, .line = action->line},
            arena_printf(arena, "%d %d", technique, (int)action->line));
    for (size_t i = 1; operation->at_corner && i < action->parts.count; i++) {
        const enum corner_place at =
            heap_of(facts, index)->inputs.items[action->parts.items[i]].at;
        add_fact(facts, list,
                 (struct sew_fact){FACT_CORNER, .heap = index, .at = at},
                 arena_printf(arena, "%d %d", technique, (int)at));
    }
    if (operation->sets_in)
        add_meeting(facts, index, MEET_SET_IN, list);
    if (action->press.side >= PRESS_TOWARD_CORNER ||
        action->press.side == PRESS_OPEN) {
        press_fact(facts, index, operation, action->press.side, list);
        return;
    }
    for (size_t i = 0; i < action->seams.count; i++)
        press_fact(facts, index, operation,
                   way_of(&action->seams.items[i].seam), list);
}

/* Each method once: the first heap that is made by it stands for all. */
static void technique_fact(struct facts *facts, size_t index,
                           struct fact_list *list)
{
    const struct heap *heap = heap_of(facts, index);
    add_fact(facts, list, (struct sew_fact){FACT_TECHNIQUE, .heap = index},
             arena_printf(facts->w->arena, "%d %d", (int)heap->technique,
                          method_of(heap)));
}

/* A print that has a direction, as it runs in the heap that takes it first. */
static void print_facts(struct facts *facts, size_t index,
                        struct fact_list *list)
{
    const struct heap *heap = heap_of(facts, index);
    for (size_t i = 0; i < heap->cloth->faces.count; i++) {
        const struct face *face = &heap->cloth->faces.items[i];
        bool taken = false;
        if (!facts->w->design->fabrics.items[face->fabric].one_way)
            continue;
        for (size_t k = 0; k < heap->inputs.count; k++)
            taken |= heap_fabric(heap_of(facts, heap->inputs.items[k].heap)) ==
                     face->fabric;
        if (taken)
            add_fact(facts, list,
                     (struct sew_fact){
                         FACT_PRINT, .heap = index, .turn = face->turn,
                         .slanted = face->slanted, .fabric = face->fabric},
                     arena_printf(facts->w->arena, "%d %u %d", face->fabric,
                                  face->turn, (int)face->slanted));
    }
}

/* What lies between the cells of a join is told by its windows, and a border by
 * its corner. */
void heap_facts(struct facts *facts, size_t index, struct fact_list *list)
{
    const struct heap *heap = heap_of(facts, index);
    if (heap->technique == TECHNIQUE_CUT || heap->technique == TECHNIQUE_BORDER)
        return;
    size_facts(facts, index, list);
    if (heap->technique == TECHNIQUE_JOIN)
        return;
    technique_fact(facts, index, list);
    print_facts(facts, index, list);
    for (size_t i = 0; i < heap->inputs.count; i++)
        turn_fact(facts, index, i, list);
    for (size_t i = 0; i < heap->actions.count; i++)
        action_facts(facts, index, &heap->actions.items[i], list);
}

/* ---- between cells ---- */

/* A print in a cell that was cut lies as the cell does. */
static void cell_print(struct facts *facts, const struct window *window,
                       size_t cell, struct fact_list *list)
{
    const struct input *input =
        &heap_of(facts, window->heap)->inputs.items[cell];
    const struct heap *part = heap_of(facts, input->heap);
    if (part->technique != TECHNIQUE_CUT ||
        !facts->w->design->fabrics.items[part->of.cut.fabric].one_way)
        return;
    const struct face *face = &part->cloth->faces.items[0];
    const unsigned turn = (face->turn + input->turn) % 4;
    add_fact(facts, list,
             (struct sew_fact){FACT_PRINT, .heap = input->heap, .turn = turn,
                               .slanted = face->slanted,
                               .fabric = face->fabric},
             arena_printf(facts->w->arena, "%d %u %d", face->fabric, turn,
                          (int)face->slanted));
}

/* Turns of the cells, the seams between them, and where those meet others. */
void window_facts(struct facts *facts, const struct window *window,
                  struct fact_list *list)
{
    const struct heap *heap = heap_of(facts, window->heap);
    const struct operation *beside = heap->actions.items[0].operation;
    const struct operation *below =
        heap->actions.items[heap->actions.count - 1].operation;
    for (size_t r = 0; r < window->down; r++) {
        for (size_t c = 0; c < window->across; c++) {
            const size_t cell =
                (window->row + r) * heap_across(heap) + window->column + c;
            turn_fact(facts, window->heap, cell, list);
            cell_print(facts, window, cell, list);
            if (c > 0)
                press_fact(facts, window->heap, beside,
                           way_of(seam_beside(heap, cell)), list);
        }
        if (r > 0)
            press_fact(facts, window->heap, below,
                       way_of(seam_below(heap, window->row + r - 1)), list);
    }
    meeting_facts(facts, window, list);
}

void joint_facts(struct facts *facts, const struct window *window,
                 struct fact_list *list)
{
    const struct heap *heap = heap_of(facts, window->heap);
    const bool level = window->down == 2;
    const size_t cell =
        window->row * heap_across(heap) + window->column + (level ? 0 : 1);
    press_fact(facts, window->heap,
               heap->actions.items[level ? heap->actions.count - 1 : 0]
                   .operation,
               way_of(level ? seam_below(heap, window->row)
                            : seam_beside(heap, cell)),
               list);
}

void add_meeting(struct facts *facts, size_t heap, enum meeting_kind kind,
                 struct fact_list *list)
{
    add_fact(facts, list,
             (struct sew_fact){FACT_MEETING, .heap = heap, .meeting = kind},
             arena_printf(facts->w->arena, "%d", (int)kind));
}

/* Strips that butt, strips between pieces and strips that are mitred are ways to
 * sew a border, and so is which of them come first; their width is none. */
void border_facts(struct facts *facts, size_t index, size_t corner,
                  struct fact_list *list)
{
    const struct heap *heap = heap_of(facts, index);
    const struct border *border = heap->of.border;
    add_fact(facts, list, (struct sew_fact){FACT_TECHNIQUE, .heap = index},
             arena_printf(facts->w->arena, "border %d %d",
                          border->mitred ? 2 : (int)border->blocks,
                          (int)border->ends_first));
    if (border->blocks)
        turn_fact(facts, index, BORDER_CORNER + corner, list);
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        press_fact(facts, index, action->operation, action->press.side, list);
    }
}
