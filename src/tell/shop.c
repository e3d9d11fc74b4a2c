/* What is asked before anything is bought: what there is to make, by what
 * techniques, with which tools. Cover, page 2 and back cover tell it by the
 * same functions. Read next: section_materials.c. */
#include <string.h>

#include "contents.h"
#include "telling.h"
#include "told_step.h"

/* ---- what is made ---- */

/* A block of several sizes has its size in its name (wording.c). */
static bool sewn_in_sizes(const struct wording *w, const struct heap *heap,
                          const struct definition *block)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *other = &w->quilt->heaps.items[i];
        if (heap_is(other, block) &&
            !rational_equal(other->factor, heap->factor))
            return true;
    }
    return false;
}

/* In all its casts, if it has any. */
static size_t block_count(const struct wording *w, size_t index,
                          const struct heap_name *block)
{
    size_t count = block->count;
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *other = &w->quilt->heaps.items[i];
        if (other->like != index || !is_other_cast(w->quilt, i))
            continue;
        for (size_t k = 0; k < other->names.count; k++)
            if (other->names.items[k].definition == block->definition)
                count += other->names.items[k].count;
    }
    return count;
}

/* The size once: where a block is sewn in several, its name tells it. */
static const char *block_text(const struct wording *w, size_t index,
                              const struct heap_name *block)
{
    const struct heap *heap = &w->quilt->heaps.items[index];
    const char *count = say_count(w->arena, block_count(w, index, block));
    const char *name = word_kind(w, heap, block->definition, block->mirror);
    return sewn_in_sizes(w, heap, block->definition)
               ? say(w->arena, w->phrases, "glance.block-named", "count", count,
                     "name", name, NULL)
               : say(w->arena, w->phrases, "glance.block", "count", count,
                     "name", name, "size",
                     word_size_unit(w, heap->width, heap->height), NULL);
}

/* A block that is sewn in two sizes, or mirrored too, is told once for each:
 * that is how it is made; in all its casts it is one. One that is a patch is
 * cut. */
struct texts blocks_made(const struct wording *w)
{
    struct texts texts = {.items = {0}};
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++)
            if (is_sewn_block(heap, &heap->names.items[k]) &&
                !is_other_cast(w->quilt, i))
                texts_add(w, &texts, block_text(w, i, &heap->names.items[k]));
    }
    return texts;
}

/* A heap may stand for several blocks that look the same, so its names are
 * counted, not the heap. */
size_t blocks_counted(const struct wording *w)
{
    size_t count = 0;
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++)
            if (is_sewn_block(heap, &heap->names.items[k]))
                count += heap->names.items[k].count;
    }
    return count;
}

/* Of strips from which shapes are cut the shapes count, not the strips. */
static size_t pieces_of(const struct cut_item *item)
{
    size_t count = 0;
    for (size_t i = 0; i < item->shaped.count; i++)
        count += item->shaped.items[i].count;
    return item->shaped.count > 0 ? count : item->count;
}

/* Borders and binding are strips, which nobody counts. */
size_t pieces_cut(const struct wording *w, const struct cutplan *plan)
{
    size_t count = 0;
    for (size_t f = 0; f < w->design->fabrics.count; f++) {
        const struct fabric_plan *cloth = &plan->fabrics[f];
        for (size_t i = 0; i < cloth->items.count; i++)
            if (cloth->items.items[i].use == CUT_PIECE)
                count += pieces_of(&cloth->items.items[i]);
    }
    return count;
}

/* `number` is from 0. Blocks of one name in several sizes count once; at most
 * two names are kept, as the pages show two blocks. */
const struct heap *sewn_block(const struct wording *w, size_t number)
{
    const struct definition *told[2] = {NULL, NULL};
    size_t count = 0;
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++) {
            const struct heap_name *name = &heap->names.items[k];
            if (!is_sewn_block(heap, name) || told[0] == name->definition)
                continue;
            if (count == number)
                return heap;
            told[count > 1 ? 1 : count] = name->definition;
            count++;
        }
    }
    return NULL;
}

/* ---- techniques and tools ---- */

/* Is anything sewn so, and is anything sewn in a mirror? */
static bool sews(const struct wording *w, enum technique technique)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++)
        if (w->quilt->heaps.items[i].technique == technique)
            return true;
    return false;
}

/* Any heap that is named as the mirror image of a unit. */
static bool sews_mirrored(const struct wording *w)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++)
        if (told_mirrored(w, &w->quilt->heaps.items[i]))
            return true;
    return false;
}

/* Corners that are mitred ask for more skill than a border; where only some are,
 * the steps tell which. */
static const char *borders_key(const struct wording *w)
{
    for (size_t i = 0; i < w->quilt->borders.count; i++)
        if (!w->quilt->borders.items[i].border->mitred)
            return "technique.borders";
    return "technique.borders-mitred";
}

/* The order is that of the list on the page, from simple to special, and not
 * that of sewing. */
struct texts techniques_used(const struct wording *w)
{
    struct texts texts = {.items = {0}};
    for (int i = 0; i < TECHNIQUE_COUNT; i++) {
        const char *key = telling_of_technique((enum technique)i)->named;
        if (key != NULL && sews(w, (enum technique)i))
            texts_add(w, &texts, say(w->arena, w->phrases, key, NULL));
    }
    if (sews_mirrored(w))
        texts_add(w, &texts,
                  say(w->arena, w->phrases, "technique.mirrored", NULL));
    if (w->quilt->borders.count > 0)
        texts_add(w, &texts,
                  say(w->arena, w->phrases, borders_key(w), "count",
                      say_count(w->arena, w->quilt->borders.count), NULL));
    return texts;
}

/* No brand, and nothing that a step does not use. */
struct texts tools_needed(const struct wording *w)
{
    struct texts texts = {.items = {0}};
    texts_add(w, &texts, say(w->arena, w->phrases, "tools.machine", NULL));
    texts_add(w, &texts, say(w->arena, w->phrases, "tools.cutter", NULL));
    texts_add(w, &texts, say(w->arena, w->phrases, "tools.marker", NULL));
    return texts;
}

/* The choices of skill= as sentences. */
const char *skill_text(const struct wording *w)
{
    static const char *const skills[][2] = {
        {"beginner", "skill.beginner"},
        {"confident", "skill.confident"},
        {"experienced", "skill.experienced"}};
    for (size_t i = 0; i < sizeof skills / sizeof skills[0]; i++)
        if (strcmp(w->design->skill, skills[i][0]) == 0)
            return say(w->arena, w->phrases, skills[i][1], NULL);
    return "";
}
