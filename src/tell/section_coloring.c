/* Line drawings to color: each block, and the whole top. Nobody needs them to
 * sew. Read next: section_scale.c. */
#include "contents.h"
#include "told_step.h"

/* Blocks that have a figure. */
struct drawn_blocks {
    LIST(const struct definition *) items;
};

/* Once, however often, large or turned it is sewn.
 * ensures: false where the block was there. */
static bool draw_once(struct arena *arena, struct drawn_blocks *blocks,
                      const struct definition *block)
{
    for (size_t i = 0; i < blocks->items.count; i++)
        if (blocks->items.items[i] == block)
            return false;
    *LIST_ADD(arena, &blocks->items) = block;
    return true;
}

/* A block that is cut in one piece has no line to color along. */
static void add_blocks(const struct wording *w, struct contents *contents)
{
    struct drawn_blocks drawn = {.items = {0}};
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++) {
            const struct definition *block = heap->names.items[k].definition;
            if (!is_sewn_block(heap, &heap->names.items[k]) ||
                !draw_once(w->arena, &drawn, block))
                continue;
            add_figure(w, contents, PART_BLOCKS,
                       (struct told_figure){
                           .drawing = DRAWING_BLOCK_LINES,
                           .heap = i,
                           .caption = block->name,
                           .told = say(w->arena, w->phrases, "coloring.block",
                                       "name", block->name, NULL)});
        }
    }
}

size_t most_pages(const struct wording *w)
{
    enum { PAGES = 12, PAGES_OF_SIZES = 14 };
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        const struct heap *like = &w->quilt->heaps.items[heap->like];
        for (size_t k = 0; k < heap->names.count; k++)
            if (is_sewn_block(heap, &heap->names.items[k]) &&
                !rational_equal(heap->factor, like->factor))
                return PAGES_OF_SIZES;
    }
    return PAGES;
}

/* On one page, for those who try other fabrics first: blocks with every seam,
 * the whole quilt with its large outlines alone, as seams would be too fine
 * there. */
struct contents tell_coloring(const struct wording *w)
{
    struct contents contents = {.items = {0}};
    const char *name = w->quilt->definition->name;
    const char *use = blocks_counted(w) > 0 ? "coloring.use" : "coloring.use-top";
    add_title(w, &contents, say(w->arena, w->phrases, "coloring.title", NULL),
              say(w->arena, w->phrases, use, NULL));
    add_blocks(w, &contents);
    add_figure(
        w, &contents, PART_MAIN,
        (struct told_figure){.drawing = DRAWING_TOP_LINES,
                             .caption = name,
                             .told = say(w->arena, w->phrases, "coloring.top",
                                         "name", name, NULL)});
    return contents;
}
