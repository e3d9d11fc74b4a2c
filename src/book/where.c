/* Where a unit goes: its block in pale, its places in full color. */
#include <math.h>

#include "exploded.h"
#include "figure_parts.h"
#include "steps.h"

/* Places of a heap in another. */
struct places {
    LIST(struct placing) items;
};

/* Which heaps hold the one, at any depth: a walk goes into no others, as a
 * pattern may double its units many times. Inputs stand before what takes them.
 */
static bool *holders_of(struct arena *arena, const struct sewn_quilt *quilt,
                        size_t of)
{
    bool *holds = ARENA_ARRAY(arena, bool, quilt->heaps.count);
    holds[of] = true;
    for (size_t i = of + 1; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        for (size_t k = 0; k < heap->inputs.count && !holds[i]; k++)
            holds[i] = holds[heap->inputs.items[k].heap];
    }
    return holds;
}

/* As many as are drawn. */
static void find_places(struct arena *arena, const struct sewn_quilt *quilt,
                        const bool *holds, size_t of, size_t in,
                        struct placing at, struct places *places)
{
    enum { MANY = 64 };
    const struct heap *heap = &quilt->heaps.items[in];
    if (in == of) {
        *LIST_ADD(arena, &places->items) = at;
        return;
    }
    for (size_t i = 0; i < heap->inputs.count && places->items.count < MANY;
         i++)
        if (holds[heap->inputs.items[i].heap])
            find_places(
                arena, quilt, holds, of, heap->inputs.items[i].heap,
                placing_then(placing_of(quilt, &heap->inputs.items[i]), at),
                places);
}

/* The first block that is sewn from it. */
static const struct heap *block_with(struct booklet *booklet, size_t heap,
                                     struct places *places)
{
    const struct sewn_quilt *quilt = booklet->quilt;
    struct arena *arena = booklet->wording.arena;
    const bool *holds = holders_of(arena, quilt, heap);
    for (size_t i = heap + 1; i < quilt->heaps.count; i++) {
        const struct heap *block = &quilt->heaps.items[i];
        bool sewn = false;
        for (size_t k = 0; k < block->names.count; k++)
            sewn |= is_sewn_block(block, &block->names.items[k]);
        if (!sewn || !holds[i])
            continue;
        find_places(arena, quilt, holds, heap, i, placing_none(), places);
        return block;
    }
    return NULL;
}

/* A face has few points: a patch whose four corners are cut off has eight. 64
 * are never reached, and more would only be left out. */
static void put_face(const struct canvas *canvas, struct box *box,
                     const struct face *face, double scale,
                     struct path_item fill)
{
    struct point points[64];
    const size_t count = face->count < 64 ? face->count : 64;
    for (size_t i = 0; i < count; i++)
        points[i] = (struct point){rational_double(face->points[i].x) * scale,
                                   rational_double(face->points[i].y) * scale};
    box_polygon(canvas, box, points, count, fill);
}

/* At this size lines between patches would be all that is seen. */
static void put_cloth(struct booklet *booklet, struct box *box,
                      const struct cloth *cloth, struct placing at,
                      double scale, bool done)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    for (size_t i = 0; i < cloth->faces.count; i++) {
        struct path_item fill = face_fill(canvas, booklet->plan->colorway,
                                          cloth->faces.items[i].fabric, false,
                                          done ? SHADE_DONE : SHADE_WORK);
        if (!done)
            fill.fill = mixed(fill.fill, white, 0.45);
        fill.hatch = NULL;
        fill.stroke_color = done ? fill.fill : rule_grey;
        const struct face face =
            placed_face(canvas->arena, cloth->faces.items[i], at);
        put_face(canvas, box, &face, scale, fill);
    }
}

/* All of the block pale first, then the unit at each of its places in full
 * colors, and an outline, as pale edges vanish on paper. */
struct box *where_it_goes(struct booklet *booklet, size_t heap, double side)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct sewn_quilt *quilt = booklet->quilt;
    struct places places = {.items = {0}};
    const struct heap *block = block_with(booklet, heap, &places);
    /* A block of thousands of patches is no small picture. */
    enum { FACES_MANY = 2000 };
    if (block == NULL || block->cloth->faces.count > FACES_MANY)
        return NULL;
    const double width = rational_double(block->width);
    const double height = rational_double(block->height);
    const double scale = side / fmax(width, height);
    struct box *box = box_new(canvas, width * scale, height * scale);
    put_cloth(booklet, box, finished_cloth(canvas->arena, block->cloth),
              placing_none(), scale, false);
    const struct cloth *unit =
        finished_cloth(canvas->arena, quilt->heaps.items[heap].cloth);
    for (size_t i = 0; i < places.items.count; i++)
        put_cloth(booklet, box, unit, places.items.items[i], scale, true);
    box_rectangle(canvas, box, 0.0, 0.0, box->width, box->height,
                  outline_narrow());
    return box;
}
