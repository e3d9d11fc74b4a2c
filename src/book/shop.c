/* The words and tables by which a pattern is chosen and bought. May assume a
 * plan that holds. Read next: materials.c, back.c. */
#include "shop.h"

#include "structure.h"
#include "telling.h"
#include "told_step.h"

/* ---- what is made ---- */

/* The text is not copied; it lives as long as the booklet. */
static void add_text(const struct booklet *booklet, struct texts *texts,
                     const char *text)
{
    *LIST_ADD(booklet->wording.arena, &texts->items) = text;
}

/* A block of several sizes has its size in its name (wording.c). */
static bool sewn_in_sizes(const struct booklet *booklet,
                          const struct heap *heap,
                          const struct definition *block)
{
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *other = &booklet->quilt->heaps.items[i];
        if (heap_is(other, block) &&
            !rational_equal(other->factor, heap->factor))
            return true;
    }
    return false;
}

/* In all its casts, if it has any. */
static size_t block_count(const struct booklet *booklet, size_t index,
                          const struct heap_name *block)
{
    size_t count = block->count;
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *other = &booklet->quilt->heaps.items[i];
        if (other->like != index || !is_other_cast(booklet->quilt, i))
            continue;
        for (size_t k = 0; k < other->names.count; k++)
            if (other->names.items[k].definition == block->definition)
                count += other->names.items[k].count;
    }
    return count;
}

/* The size once: where a block is sewn in several, its name tells it. */
static const char *block_text(const struct booklet *booklet, size_t index,
                              const struct heap_name *block)
{
    const struct wording *w = &booklet->wording;
    const struct heap *heap = &booklet->quilt->heaps.items[index];
    const char *count = say_count(w->arena, block_count(booklet, index, block));
    const char *name = word_kind(w, heap, block->definition, block->mirror);
    return sewn_in_sizes(booklet, heap, block->definition)
               ? say(w->arena, w->phrases, "glance.block-named", "count", count,
                     "name", name, NULL)
               : say(w->arena, w->phrases, "glance.block", "count", count,
                     "name", name, "size",
                     word_size_unit(w, heap->width, heap->height), NULL);
}

/* A block that is sewn in two sizes, or mirrored too, is told once for each:
 * that is how it is made; in all its casts it is one. One that is a patch is
 * cut. */
struct texts blocks_made(const struct booklet *booklet)
{
    struct texts texts = {.items = {0}};
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *heap = &booklet->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++)
            if (is_sewn_block(heap, &heap->names.items[k]) &&
                !is_other_cast(booklet->quilt, i))
                add_text(booklet, &texts,
                         block_text(booklet, i, &heap->names.items[k]));
    }
    return texts;
}

/* A heap may stand for several blocks that look the same, so its names are
 * counted, not the heap. */
size_t blocks_counted(const struct booklet *booklet)
{
    size_t count = 0;
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *heap = &booklet->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++)
            if (is_sewn_block(heap, &heap->names.items[k]))
                count += heap->names.items[k].count;
    }
    return count;
}

/* Borders and binding are strips, which nobody counts. */
size_t pieces_cut(const struct booklet *booklet)
{
    size_t count = 0;
    for (size_t f = 0; f < booklet->design->fabrics.count; f++) {
        const struct fabric_plan *plan = &booklet->plan->fabrics[f];
        for (size_t i = 0; i < plan->items.count; i++)
            if (plan->items.items[i].use == CUT_PIECE)
                count += plan->items.items[i].count;
    }
    return count;
}

/* `number` is from 0. Blocks of one name in several sizes count once; at most
 * two names are kept, as the pages show two blocks. */
const struct heap *sewn_block(const struct booklet *booklet, size_t number)
{
    const struct definition *told[2] = {NULL, NULL};
    size_t count = 0;
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *heap = &booklet->quilt->heaps.items[i];
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
static bool sews(const struct booklet *booklet, enum technique technique)
{
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++)
        if (booklet->quilt->heaps.items[i].technique == technique)
            return true;
    return false;
}

/* Any heap that is named as the mirror image of a unit. */
static bool sews_mirrored(const struct booklet *booklet)
{
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++)
        if (told_mirrored(&booklet->wording, &booklet->quilt->heaps.items[i]))
            return true;
    return false;
}

/* The order is that of the list on the page, from simple to special, and not
 * that of sewing. */
struct texts techniques_used(const struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    struct texts texts = {.items = {0}};
    for (int i = 0; i < TECHNIQUE_COUNT; i++) {
        const char *key = telling_of_technique((enum technique)i)->named;
        if (key != NULL && sews(booklet, (enum technique)i))
            add_text(booklet, &texts, say(w->arena, w->phrases, key, NULL));
    }
    if (sews_mirrored(booklet))
        add_text(booklet, &texts,
                 say(w->arena, w->phrases, "technique.mirrored", NULL));
    if (booklet->quilt->borders.count > 0)
        add_text(booklet, &texts,
                 say(w->arena, w->phrases, "technique.borders", "count",
                     say_count(w->arena, booklet->quilt->borders.count), NULL));
    return texts;
}

/* No brand, and nothing that a step does not use. */
struct texts tools_needed(const struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    struct texts texts = {.items = {0}};
    add_text(booklet, &texts, say(w->arena, w->phrases, "tools.machine", NULL));
    add_text(booklet, &texts, say(w->arena, w->phrases, "tools.cutter", NULL));
    add_text(booklet, &texts, say(w->arena, w->phrases, "tools.marker", NULL));
    return texts;
}

/* As one sentence part, where there is no room for a list. */
const char *texts_listed(const struct wording *w, const struct texts *texts)
{
    return texts->items.count == 0
               ? ""
               : word_list(w, texts->items.items, texts->items.count);
}

/* An empty list has no height and no tag. The dash stands 10 points before the
 * text, and lines that break hang below the text. */
struct box *texts_box(const struct canvas *canvas, const struct texts *texts,
                      double width)
{
    struct box *box = box_new(canvas, width, 0.0);
    if (texts->items.count == 0)
        return box;
    box_tag(canvas, box, "L", NULL);
    box->items.items[0].as.tag.role = ROLE_BULLETED;
    for (size_t i = 0; i < texts->items.count; i++) {
        const struct box *text =
            box_text(canvas, texts->items.items[i], style_body(), width - 10.0);
        begin_list_item(canvas, box, 0.0, box->height, "\u2013", style_body());
        box_put(canvas, box, text, 10.0, box->height);
        end_list_item(canvas, box);
        box->height += text->height;
    }
    box_tag_end(canvas, box, "L");
    return box;
}

/* As wide as what it heads. */
struct box *headed_box(const struct canvas *canvas, const char *title,
                       struct text_style style, struct box *below)
{
    struct box *head = box_heading(canvas, title, style, below->width, "H2");
    struct box *parts[2] = {head, below};
    return box_stack(canvas, parts, 2, 1.0);
}
