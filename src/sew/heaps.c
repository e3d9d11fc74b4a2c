/* From pieces to heaps: what is alike is made once. Two pieces are one heap
 * where the same recipe makes both, perhaps turned. A recipe becomes a text,
 * its key, for each of the four turns; an equal key is the same heap. Mirrored
 * ones are heaps of their own, unless they look the same. All lengths are real.
 * What is of one technique is its craft's. Read next: bench.h. */
#include <stdlib.h>
#include <string.h>

#include "bench.h"

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

void sort_inputs(struct input *inputs, size_t count)
{
    if (count > 1)
        qsort(inputs, count, sizeof *inputs, compare_inputs);
}

struct input *turned_inputs(struct sewer *sewer, const struct heap *heap,
                            unsigned turn)
{
    struct input *inputs =
        ARENA_ARRAY(sewer->scratch, struct input, heap->inputs.count);
    for (size_t i = 0; i < heap->inputs.count; i++)
        inputs[i] = turned_input(sewer, heap, heap->inputs.items[i], turn);
    return inputs;
}

void key_number(struct buffer *key, struct rational value)
{
    rational_key(key, value);
    buffer_char(key, ' ');
}

/* An input that looks the same after a turn counts as not turned, or two ways
 * of laying one square would be two heaps. */
void key_inputs(struct sewer *sewer, struct buffer *key,
                const struct input *inputs, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const unsigned symmetry = heap_at(sewer, inputs[i].heap)->symmetry;
        buffer_printf(key, "%zu.%u@", inputs[i].heap,
                      inputs[i].turn % symmetry);
        key_number(key, inputs[i].x);
        key_number(key, inputs[i].y);
    }
}

/* Heaps that are alike but for what the designer says of their seams are two.
 */
void key_press(const struct sewer *sewer, struct buffer *key,
               const struct heap *heap, unsigned turn,
               const struct operation *operation)
{
    struct press press = stated_press(sewer, heap->piece, operation);
    const bool apart = sewer->plan != NULL && !sewer->plan->keeps;
    if (apart && sewer->plan->gathers)
        buffer_printf(key, "piece %zu ", heap->piece->index);
    if (press.side == PRESS_RULE && apart) {
        key_plan(sewer, key, heap, turn, operation);
        return;
    }
    if (press.side == PRESS_RULE)
        press.side = lean_of(sewer, heap, operation);
    if (press.side != PRESS_RULE)
        buffer_printf(key, "press %s %d ", turned_side(heap, press.side, turn),
                      press.fabric);
}

/* The craft comes first, so two of them never meet. Of pressing by rule, only
 * how a row or column leans is in the key: its cloth looks the same, but hands
 * press it otherwise. */
static const char *heap_key(struct sewer *sewer, const struct heap *heap,
                            unsigned turn)
{
    struct buffer key = buffer_in(sewer->scratch);
    buffer_printf(&key, "%s ", heap->craft->name);
    heap->craft->key(sewer, &key, heap, turn);
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

/* A new heap lies as the recipe does. */
static struct ref add_heap(struct sewer *sewer, struct heap *recipe,
                           const char *key)
{
    struct arena *arena = sewer->run->arena;
    grow_keys(sewer);
    const size_t index = sewer->quilt->heaps.count;
    const char *kept = arena_copy(arena, key, strlen(key));
    *key_place(sewer, kept) = (struct key_entry){kept, index};
    if (recipe->outline.count == 0)
        recipe->outline =
            outline_rectangle(arena, rational_whole(0), rational_whole(0),
                              recipe->width, recipe->height);
    *LIST_ADD(arena, &sewer->quilt->heaps) = *recipe;
    sew_on_bench(sewer, heap_at(sewer, index));
    return (struct ref){index, 0};
}

/* If turning the recipe by `turn` gives the old heap's key, the old heap must
 * be turned back by as much to lie as the recipe does. */
static struct ref look_up(struct sewer *sewer, struct heap *recipe)
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
    return add_heap(sewer, recipe, keys[0]);
}

struct ref find_or_add(struct sewer *sewer, struct heap *recipe)
{
    /* A container of one piece is that piece. */
    if (recipe->inputs.count == 1)
        return (struct ref){recipe->inputs.items[0].heap,
                            recipe->inputs.items[0].turn};
    sewer->scratch = arena_create();
    const struct ref ref = look_up(sewer, recipe);
    arena_destroy(sewer->scratch);
    return ref;
}

void begin_heaps(struct sewer *sewer, struct sewn_quilt *quilt)
{
    sewer->quilt = quilt;
    const size_t pieces = sewer->sized->design->pieces.count;
    if (sewer->memos == NULL)
        sewer->memos = ARENA_ARRAY(sewer->run->arena, struct memo *, pieces);
    memset(sewer->memos, 0, pieces * sizeof *sewer->memos);
    if (sewer->plan == NULL)
        sewer->leans =
            ARENA_ARRAY(sewer->run->arena, struct kept_lean *, pieces);
    sewer->keys = NULL;
    sewer->key_capacity = 0;
    sewer->collisions.count = 0;
}

/* ---- recipes ---- */

/* A mirror does not change sizes, only what lies in them. */
struct heap recipe_for(const struct sewer *sewer, const struct piece *piece,
                       struct rational factor, bool mirror,
                       enum technique technique, const struct craft *craft)
{
    return (struct heap){
        .technique = technique,
        .craft = craft,
        .piece = piece,
        .cast = sewer->cast,
        .mirror = mirror,
        .factor = factor,
        .width = rational_mul(sewer->sized->width[piece->index], factor),
        .height = rational_mul(sewer->sized->height[piece->index], factor),
        .yield = 1,
    };
}

struct input *add_input(struct sewer *sewer, struct heap *recipe,
                        struct ref ref, struct rational x, struct rational y)
{
    struct input *input = LIST_ADD(sewer->run->arena, &recipe->inputs);
    *input = (struct input){.heap = ref.heap, .turn = ref.turn, .x = x, .y = y};
    return input;
}

/* The mirror goes on into the cell's piece; the turn stays with the input. */
struct ref build_cell(struct sewer *sewer, const struct cell *cell,
                      struct rational factor, bool mirror)
{
    const struct orientation o =
        orientation_compose((struct orientation){0, mirror}, cell->orientation);
    struct ref ref = build_heap(sewer, cell->piece, factor, o.mirror);
    ref.turn = (ref.turn + o.turn) % heap_at(sewer, ref.heap)->symmetry;
    return ref;
}

/* By its craft. What is its own mirror image is made once where a plan presses
 * it: else mirrored ones would be pressed another way for nothing. A use only
 * names what it takes; in another cast it may be no mirror image. */
static struct ref build_new(struct sewer *sewer, const struct piece *piece,
                            struct rational factor, bool mirror)
{
    const struct press_plan *plan = sewer->plan;
    const int turn = plan == NULL || plan->keeps || piece->kind == PIECE_USE ||
                             !mirror || sewer->cast != NULL
                         ? NO_MIRROR
                         : plan->mirrors[piece->index];
    if (turn == NO_MIRROR)
        return sewer->build(sewer, piece, factor, mirror);
    struct ref ref = build_heap(sewer, piece, factor, false);
    ref.turn = (ref.turn + (unsigned)turn) % heap_at(sewer, ref.heap)->symmetry;
    return ref;
}

/* The memo is by piece, scale, cast and mirror; heaps of other pieces that look
 * alike are found by key. */
struct ref build_heap(struct sewer *sewer, const struct piece *piece,
                      struct rational factor, bool mirror)
{
    struct memo **end = &sewer->memos[piece->index];
    for (; *end != NULL; end = &(*end)->next)
        if ((*end)->mirror == mirror &&
            rational_equal((*end)->factor, factor) &&
            same_cast((*end)->cast, sewer->cast))
            return (*end)->ref;
    const struct ref ref = build_new(sewer, piece, factor, mirror);
    while (*end != NULL) /* of what was built for it */
        end = &(*end)->next;
    *end = ARENA_NEW(sewer->run->arena, struct memo);
    **end = (struct memo){factor, mirror, sewer->cast, ref, NULL};
    return ref;
}
