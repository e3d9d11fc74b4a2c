/* From pieces to heaps: what is alike is made once. Two pieces are one heap
 * where the same recipe makes both, perhaps turned. A recipe becomes a text,
 * its key, for each of the four turns; an equal key is the same heap. Mirrored
 * ones are heaps of their own, unless they look the same. All lengths are real.
 * Read next: work.c. */
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "press.h"
#include "sewer.h"

/* As it lies in the heap: a quarter turn exchanges the sides. */
struct rational input_width(const struct sewer *sewer,
                            const struct input *input)
{
    const struct heap *heap = heap_at(sewer, input->heap);
    return input->turn % 2 == 1 ? heap->height : heap->width;
}

struct rational input_height(const struct sewer *sewer,
                             const struct input *input)
{
    const struct heap *heap = heap_at(sewer, input->heap);
    return input->turn % 2 == 1 ? heap->width : heap->height;
}

/* ---- keys ---- */

/* Where an input lies after the whole was turned. Clockwise with y down: (x, y)
 * of the top left corner becomes (height - y - own height, x). Corners and
 * prints turn along. */
static struct input turned_input(const struct sewer *sewer,
                                 const struct heap *heap, struct input input,
                                 unsigned turn)
{
    struct rational height = heap->height, width = heap->width;
    for (unsigned i = 0; i < turn; i++) {
        const struct rational x = rational_sub(
            height, rational_add(input.y, input_height(sewer, &input)));
        input.y = input.x;
        input.x = x;
        input.turn = (input.turn + 1) % 4;
        input.at = (enum corner_place)((input.at + 1) % 4);
        const struct rational swap = width;
        width = height;
        height = swap;
    }
    return input;
}

/* By row, then by column; two squares at one place by their corner. */
static int compare_inputs(const void *first, const void *second)
{
    const struct input *a = first, *b = second;
    const int y = rational_compare(a->y, b->y);
    const int x = rational_compare(a->x, b->x);
    return y != 0 ? y : x != 0 ? x : (int)a->at - (int)b->at;
}

/* The order of reading. */
static void sort_inputs(struct input *inputs, size_t count)
{
    if (count > 1)
        qsort(inputs, count, sizeof *inputs, compare_inputs);
}

/* Fractions are always in lowest terms, so equal numbers have equal texts. */
static void key_number(struct buffer *key, struct rational value)
{
    buffer_printf(key, "%lld/%lld ", (long long)value.num,
                  (long long)value.den);
}

/* Corners whose squares do not overlap make the same whatever their order. Of
 * two that overlap, the later one lies on top. Finished squares are compared:
 * allowances that overlap are sewn away. */
static bool order_matters(const struct sewer *sewer, const struct heap *heap)
{
    for (size_t i = 1; heap->work == WORK_CORNERS && i < heap->inputs.count;
         i++)
        for (size_t k = 1; k < i; k++) {
            const struct input *a = &heap->inputs.items[i],
                               *b = &heap->inputs.items[k];
            const struct rational size_a = input_width(sewer, a);
            const struct rational size_b = input_width(sewer, b);
            if (rational_compare(a->x, rational_add(b->x, size_b)) < 0 &&
                rational_compare(b->x, rational_add(a->x, size_a)) < 0 &&
                rational_compare(a->y, rational_add(b->y, size_b)) < 0 &&
                rational_compare(b->y, rational_add(a->y, size_a)) < 0)
                return true;
        }
    return false;
}

/* Members in the order of reading after the turn. Their places do not tell it:
 * squares at both ends of a short strip lie at the same one. A clockwise turn
 * puts the first member of a strip down to the right, so that it is read last.
 */
static void sort_strip(struct input *inputs, const struct heap *heap,
                       unsigned turn)
{
    const bool reversed =
        turn == 2 || turn == (heap->piece->horizontal ? 3 : 1);
    for (size_t i = 0, k = heap->inputs.count; reversed && i + 1 < k; i++) {
        const struct input swap = inputs[i];
        inputs[i] = inputs[--k];
        inputs[k] = swap;
    }
}

/* An input that looks the same after a turn counts as not turned, or two ways
 * of laying one square would be two heaps. */
static void key_inputs(struct sewer *sewer, struct buffer *key,
                       const struct heap *heap, unsigned turn)
{
    struct input *inputs =
        ARENA_ARRAY(sewer->run->arena, struct input, heap->inputs.count);
    for (size_t i = 0; i < heap->inputs.count; i++)
        inputs[i] = turned_input(sewer, heap, heap->inputs.items[i], turn);
    /* The base of corners stays first: it is what they are sewn on. */
    const size_t fixed = heap->work == WORK_CORNERS ? 1 : 0;
    if (heap->work == WORK_DIAGONAL)
        sort_strip(inputs, heap, turn);
    else if (!order_matters(sewer, heap))
        sort_inputs(inputs + fixed, heap->inputs.count - fixed);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const unsigned symmetry = heap_at(sewer, inputs[i].heap)->symmetry;
        buffer_printf(key, "%zu.%u@", inputs[i].heap,
                      inputs[i].turn % symmetry);
        key_number(key, inputs[i].x);
        key_number(key, inputs[i].y);
        if (heap->work == WORK_CORNERS && i > 0)
            buffer_printf(key, "%s ", corner_name(inputs[i].at));
    }
}

/* A rectangle turned is another size cut, but the same piece: the sides of the
 * turned key are exchanged. Finished sides are in the key because rounding may
 * cut two sizes alike. */
static void key_cut(const struct sewer *sewer, struct buffer *key,
                    const struct heap *heap, unsigned turn)
{
    const bool across = turn % 2 == 1;
    buffer_printf(key, "cut %d ", heap->fabric);
    key_number(key, across ? heap->cut_height : heap->cut_width);
    key_number(key, across ? heap->cut_width : heap->cut_height);
    key_number(key, across ? heap->height : heap->width);
    key_number(key, across ? heap->width : heap->height);
    /* A one-way print lies another way after any turn. */
    if (sewer->sized->design->fabrics.items[heap->fabric].one_way)
        buffer_printf(key, "print %u", turn);
}

/* The fabrics of the four quarters, turned. Quarters run clockwise from the
 * top: a diagonal leaves two neighbors of one fabric on each side, so the four
 * tell both line and fabrics. */
static void key_half_square(const struct sewer *sewer, struct buffer *key,
                            const struct heap *heap, unsigned turn)
{
    const struct fabric *fabrics = sewer->sized->design->fabrics.items;
    const bool one_way =
        fabrics[heap->left].one_way || fabrics[heap->right].one_way;
    const bool rising = heap->line == LINE_RISING;
    const int quarters[4] = {rising ? heap->left : heap->right, heap->right,
                             rising ? heap->right : heap->left, heap->left};
    buffer_printf(key, "half %d ", (int)heap->method);
    key_number(key, heap->width);
    for (unsigned i = 0; i < 4; i++)
        buffer_printf(key, "%d ", quarters[(i + 4 - turn) % 4]);
    if (one_way)
        buffer_printf(key, "print %u", turn);
}

/* The side a stated word points to, after the turn: what is pressed to the
 * right and turned by half is pressed to the left. */
static const char *turned_side(const struct heap *heap, enum press_side side,
                               unsigned turn)
{
    static const char *const sides[] = {"up", "right", "down", "left"};
    unsigned at = side == PRESS_UP      ? 0
                  : side == PRESS_RIGHT ? 1
                  : side == PRESS_DOWN  ? 2
                                        : 3;
    if (side != PRESS_UP && side != PRESS_RIGHT && side != PRESS_DOWN &&
        side != PRESS_LEFT)
        return side == PRESS_OPEN ? "open" : "toward";
    if (heap->mirror)
        at = (4 - at) % 4;
    return sides[(at + turn) % 4];
}

/* Heaps that are alike but for what the designer says of their seams are two.
 * What the rules choose is not told apart: else a block that looks the same
 * from all sides would be a heap a side. */
static void key_press(const struct sewer *sewer, struct buffer *key,
                      const struct heap *heap, unsigned turn)
{
    static const enum action_kind kinds[] = {
        [WORK_CORNERS] = ACTION_FLIP_CORNER,
        [WORK_DIAGONAL] = ACTION_JOIN_DIAGONAL,
        [WORK_HALF_SQUARE] = ACTION_HALF_SQUARE,
        [WORK_JOIN] = ACTION_JOIN_ROW};
    struct press press = stated_press(sewer, heap->piece, kinds[heap->work]);
    if (leans_left(sewer, heap))
        press.side = PRESS_LEFT;
    const bool joint = heap->work == WORK_JOIN;
    if (press.side != PRESS_RULE && (!joint || heap->across > 1))
        buffer_printf(key, "press %s %d ", turned_side(heap, press.side, turn),
                      press.fabric);
    press = stated_press(sewer, heap->piece, ACTION_JOIN_COLUMN);
    if (joint && heap->down > 1 && press.side != PRESS_RULE)
        buffer_printf(key, "press %s %d ", turned_side(heap, press.side, turn),
                      press.fabric);
}

/* The kind of work comes first, so two kinds never meet. Of pressing, only that
 * a row leans left is in the key: its cloth looks the same, but hands press it
 * otherwise. */
const char *heap_key(struct sewer *sewer, const struct heap *heap,
                     unsigned turn)
{
    struct buffer key = buffer_in(sewer->run->arena);
    const bool across = turn % 2 == 1;
    switch (heap->work) {
    case WORK_CUT:
        key_cut(sewer, &key, heap, turn);
        break;
    case WORK_HALF_SQUARE:
        key_half_square(sewer, &key, heap, turn);
        break;
    case WORK_CORNERS:
        buffer_text(&key, "corners ");
        key_inputs(sewer, &key, heap, turn);
        break;
    case WORK_DIAGONAL:
        buffer_printf(&key, "diagonal %d %s ",
                      heap->piece->horizontal != across,
                      line_name(line_oriented(
                          heap->line, (struct orientation){turn, false})));
        key_inputs(sewer, &key, heap, turn);
        break;
    case WORK_JOIN:
        buffer_printf(&key, "join %zu %zu ", across ? heap->down : heap->across,
                      across ? heap->across : heap->down);
        key_inputs(sewer, &key, heap, turn);
        break;
    }
    if (heap->work != WORK_CUT)
        key_press(sewer, &key, heap, turn);
    return buffer_string(&key);
}

/* Two keys of one hash are told apart by comparing them. */
static size_t key_hash(const char *key)
{
    size_t hash = 14695981039346656037u; /* FNV-1a */
    for (; *key != '\0'; key++)
        hash = (hash ^ (unsigned char)*key) * 1099511628211u;
    return hash;
}

/* ensures: the entry of this key, or the empty place where it belongs. Never
 * full: grow_keys keeps half of the places free. */
static struct key_entry *key_place(struct sewer *sewer, const char *key)
{
    size_t at = key_hash(key) & (sewer->key_capacity - 1);
    while (sewer->keys[at].key != NULL && strcmp(sewer->keys[at].key, key) != 0)
        at = (at + 1) & (sewer->key_capacity - 1);
    return &sewer->keys[at];
}

/* A power of two, so that a mask does for the remainder. */
static void grow_keys(struct sewer *sewer)
{
    if (sewer->quilt->heaps.count * 2 < sewer->key_capacity)
        return;
    struct key_entry *old = sewer->keys;
    const size_t count = sewer->key_capacity;
    sewer->key_capacity = count == 0 ? 64 : count * 2;
    sewer->keys =
        ARENA_ARRAY(sewer->run->arena, struct key_entry, sewer->key_capacity);
    for (size_t i = 0; i < count; i++)
        if (old[i].key != NULL)
            *key_place(sewer, old[i].key) = old[i];
}

/* The heap that looks like `recipe`, perhaps turned; a new one if there is
 * none. A new heap lies as the recipe does. If turning the recipe by `turn`
 * gives the old heap's key, the old heap must be turned back by as much to lie
 * as the recipe does. */
static struct ref find_or_add(struct sewer *sewer, struct heap *recipe)
{
    const char *keys[4];
    for (unsigned turn = 0; turn < 4; turn++) {
        keys[turn] = heap_key(sewer, recipe, turn);
        const struct key_entry *entry =
            sewer->key_capacity == 0 ? NULL : key_place(sewer, keys[turn]);
        if (entry != NULL && entry->key != NULL)
            return (struct ref){entry->heap,
                                (4 - turn) %
                                    heap_at(sewer, entry->heap)->symmetry};
    }
    /* The first turn after which it looks the same tells all others. */
    recipe->symmetry = strcmp(keys[0], keys[1]) == 0   ? 1
                       : strcmp(keys[0], keys[2]) == 0 ? 2
                                                       : 4;
    grow_keys(sewer);
    const size_t index = sewer->quilt->heaps.count;
    *LIST_ADD(sewer->run->arena, &sewer->quilt->heaps) = *recipe;
    *key_place(sewer, keys[0]) = (struct key_entry){keys[0], index};
    sew_heap(sewer, heap_at(sewer, index));
    return (struct ref){index, 0};
}

/* ---- recipes ---- */

/* What all kinds of heap share. Sizes are those of the piece as it lies in its
 * definition; a mirror does not change them, only the line. */
static struct heap recipe_for(const struct sewer *sewer,
                              const struct piece *piece, struct rational factor,
                              bool mirror, enum work work)
{
    return (struct heap){
        .work = work,
        .piece = piece,
        .mirror = mirror,
        .factor = factor,
        .width = rational_mul(sewer->sized->width[piece->index], factor),
        .height = rational_mul(sewer->sized->height[piece->index], factor),
        .yield = 1,
        .fabric = NO_FABRIC,
        .line = line_oriented(piece->line, (struct orientation){0, mirror}),
    };
}

/* ensures: the heap of a rectangle of this finished size. `recipe` gives piece
 * and scale, for messages. */
static struct ref build_cut(struct sewer *sewer, struct heap recipe, int fabric,
                            struct rational width, struct rational height)
{
    const struct pattern *pattern = sewer->sized->design->pattern;
    recipe.work = WORK_CUT;
    recipe.inputs.count = recipe.inputs.capacity = 0;
    recipe.inputs.items = NULL;
    recipe.fabric = fabric;
    recipe.width = width;
    recipe.height = height;
    recipe.cut_width = cut_length(pattern, width);
    recipe.cut_height = cut_length(pattern, height);
    return find_or_add(sewer, &recipe);
}

/* (x, y) is the finished corner in the finished rectangle of the heap. */
static struct input *add_input(struct sewer *sewer, struct heap *recipe,
                               struct ref ref, struct rational x,
                               struct rational y)
{
    struct input *input = LIST_ADD(sewer->run->arena, &recipe->inputs);
    *input = (struct input){.heap = ref.heap, .turn = ref.turn, .x = x, .y = y};
    return input;
}

/* A cell's heap, as it lies in a container that is seen mirrored or not. The
 * mirror goes on into the cell's piece; the turn stays with the input. */
static struct ref build_cell(struct sewer *sewer, const struct cell *cell,
                             struct rational factor, bool mirror)
{
    const struct orientation o =
        orientation_compose((struct orientation){0, mirror}, cell->orientation);
    struct ref ref = build_heap(sewer, cell->piece, factor, o.mirror);
    ref.turn = (ref.turn + o.turn) % heap_at(sewer, ref.heap)->symmetry;
    return ref;
}

/* Places add up finished sizes, seams have none. A mirrored container takes its
 * cells from the right; turns of cells are mirrored by build_cell. */
static struct ref build_join(struct sewer *sewer, const struct piece *piece,
                             struct rational factor, bool mirror)
{
    struct heap recipe = recipe_for(sewer, piece, factor, mirror, WORK_JOIN);
    recipe.across = piece->kind == PIECE_GRID  ? piece->across
                    : piece->kind == PIECE_ROW ? piece->cells.count
                                               : 1;
    recipe.down = piece->cells.count / recipe.across;
    struct rational y = rational_whole(0);
    for (size_t row = 0; row < recipe.down; row++) {
        struct rational x = rational_whole(0);
        for (size_t column = 0; column < recipe.across; column++) {
            const size_t from = mirror ? recipe.across - 1 - column : column;
            const struct cell *cell =
                &piece->cells.items[row * recipe.across + from];
            const struct ref ref = build_cell(sewer, cell, factor, mirror);
            const struct input *input = add_input(sewer, &recipe, ref, x, y);
            x = rational_add(x, input_width(sewer, input));
        }
        y = rational_add(
            y,
            input_height(sewer, &recipe.inputs.items[recipe.inputs.count - 1]));
    }
    /* A container of one piece is that piece. */
    if (recipe.inputs.count == 1)
        return (struct ref){recipe.inputs.items[0].heap,
                            recipe.inputs.items[0].turn};
    return find_or_add(sewer, &recipe);
}

/* Neighbors overlap by the strip's width, so each starts that much before the
 * end of the last. A strip that runs down keeps its order in a mirror. */
static struct ref build_diagonal(struct sewer *sewer, const struct piece *piece,
                                 struct rational factor, bool mirror)
{
    struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, WORK_DIAGONAL);
    const bool across = piece->horizontal;
    const struct rational strip = across ? recipe.height : recipe.width;
    const bool reversed = across && mirror;
    struct rational at = rational_whole(0);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const size_t from = reversed ? piece->cells.count - 1 - i : i;
        const struct ref ref =
            build_cell(sewer, &piece->cells.items[from], factor, mirror);
        const struct input *input =
            add_input(sewer, &recipe, ref, across ? at : rational_whole(0),
                      across ? rational_whole(0) : at);
        at = rational_sub(rational_add(at, across ? input_width(sewer, input)
                                                  : input_height(sewer, input)),
                          strip);
    }
    if (recipe.inputs.count == 1)
        return (struct ref){recipe.inputs.items[0].heap,
                            recipe.inputs.items[0].turn};
    return find_or_add(sewer, &recipe);
}

/* The two squares have finished sizes only so that cut heaps look alike: cut
 * side less two seams. Method two makes two units from one pair. */
static struct ref build_half_square(struct sewer *sewer,
                                    const struct piece *piece,
                                    struct rational factor, bool mirror)
{
    struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, WORK_HALF_SQUARE);
    const struct pattern *pattern = sewer->sized->design->pattern;
    const struct half_square_cut cut =
        half_square_cut(pattern, piece->method, recipe.width);
    /* Method one is exact: what was cut up to the step is trimmed first, as a
     * patch is. */
    const struct rational side =
        piece->method == METHOD_ONE
            ? recipe.width
            : rational_sub(cut.side, rational_times(pattern->seam, 2));
    recipe.method = piece->method;
    recipe.slack = cut.slack;
    /* The second of a pair is the first turned by half: with a one-way print
     * it stands on its head, so only one of the two is what is needed. */
    const struct fabric *roles = sewer->sized->design->fabrics.items;
    const bool one_way =
        roles[piece->left].one_way || roles[piece->right].one_way;
    recipe.yield = piece->method == METHOD_TWO && !one_way ? 2 : 1;
    recipe.left = mirror ? piece->right : piece->left;
    recipe.right = mirror ? piece->left : piece->right;
    const int fabrics[2] = {recipe.left, recipe.right};
    for (size_t i = 0; i < 2; i++)
        add_input(sewer, &recipe,
                  build_cut(sewer, recipe, fabrics[i], side, side),
                  rational_whole(0), rational_whole(0));
    return find_or_add(sewer, &recipe);
}

/* A use is no work of its own: it names the heap of its target. The steps of
 * the target's assembly come first, so that they keep their order. */
static struct ref build_use(struct sewer *sewer, const struct piece *piece,
                            struct rational factor, bool mirror)
{
    const struct orientation o = orientation_compose(
        (struct orientation){0, mirror}, piece->orientation);
    const struct rational inner = use_scale(sewer->sized, piece, factor);
    follow_assembly(sewer, piece->target, inner, o.mirror);
    struct ref ref = build_heap(sewer, piece->target->root, inner, o.mirror);
    struct heap *heap = heap_at(sewer, ref.heap);
    /* The first to use it gives the name, where two definitions are alike. */
    if (heap->named == NULL) {
        heap->named = piece->target;
        heap->named_mirror = o.mirror;
    } else if (heap->named != piece->target) {
        *LIST_ADD(sewer->run->arena, &heap->also) = piece->target;
    }
    ref.turn = (ref.turn + o.turn) % heap->symmetry;
    return ref;
}

/* The piece without its corners. */
static struct ref build_bare(struct sewer *sewer, const struct piece *piece,
                             struct rational factor, bool mirror)
{
    switch (piece->kind) {
    case PIECE_ROW:
    case PIECE_COLUMN:
    case PIECE_GRID:
        return build_join(sewer, piece, factor, mirror);
    case PIECE_USE:
        return build_use(sewer, piece, factor, mirror);
    case PIECE_DIAGONAL:
        return build_diagonal(sewer, piece, factor, mirror);
    case PIECE_HALF_SQUARE:
        return build_half_square(sewer, piece, factor, mirror);
    case PIECE_PATCH:
        break;
    }
    const struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, WORK_CUT);
    return build_cut(sewer, recipe, piece->fabric, recipe.width, recipe.height);
}

/* Squares on the corners of what is there already. In the order of the source,
 * which matters where they overlap. */
static struct ref build_corners(struct sewer *sewer, const struct piece *piece,
                                struct rational factor, bool mirror,
                                struct ref base)
{
    struct heap recipe = recipe_for(sewer, piece, factor, mirror, WORK_CORNERS);
    add_input(sewer, &recipe, base, rational_whole(0), rational_whole(0));
    for (size_t i = 0; i < piece->corners.count; i++) {
        const struct corner *corner = &piece->corners.items[i];
        const enum corner_place at =
            corner_oriented(corner->at, (struct orientation){0, mirror});
        const struct rational size = rational_mul(corner->size, factor);
        const bool right = at == TOP_RIGHT || at == BOTTOM_RIGHT;
        const bool bottom = at == BOTTOM_LEFT || at == BOTTOM_RIGHT;
        const struct rational zero = rational_whole(0);
        struct input *input =
            add_input(sewer, &recipe,
                      build_cut(sewer, recipe, corner->fabric, size, size),
                      right ? rational_sub(recipe.width, size) : zero,
                      bottom ? rational_sub(recipe.height, size) : zero);
        input->at = at;
    }
    return find_or_add(sewer, &recipe);
}

/* The memo is by piece, scale and mirror; heaps of other pieces that look alike
 * are found by key. */
struct ref build_heap(struct sewer *sewer, const struct piece *piece,
                      struct rational factor, bool mirror)
{
    struct memo_list *memos = &sewer->memos[piece->index];
    for (size_t i = 0; i < memos->items.count; i++)
        if (memos->items.items[i].mirror == mirror &&
            rational_equal(memos->items.items[i].factor, factor))
            return memos->items.items[i].ref;
    struct ref ref = build_bare(sewer, piece, factor, mirror);
    if (piece->corners.count > 0)
        ref = build_corners(sewer, piece, factor, mirror, ref);
    struct memo *memo = LIST_ADD(sewer->run->arena, &memos->items);
    *memo = (struct memo){factor, mirror, ref};
    return ref;
}
