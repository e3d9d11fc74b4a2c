/* Patches: rectangles that are cut. Read next: corners.c, the fullest craft. */
#include "bench.h"

/* A rectangle turned is another size cut, but the same piece: the sides of the
 * turned key are exchanged. Finished sides are in the key because rounding may
 * cut two sizes alike. */
static void key_cut(struct sewer *sewer, struct buffer *key,
                    const struct heap *heap, unsigned turn)
{
    const bool across = turn % 2 == 1;
    const struct cut_piece *cut = &heap->of.cut;
    buffer_printf(key, "%d %zu ", cut->fabric, cut->border);
    if (cut->shape != PATCH_WHOLE)
        buffer_printf(key, "shape %d at %u ", (int)cut->shape, turn);
    key_number(key, across ? cut->height : cut->width);
    key_number(key, across ? cut->width : cut->height);
    key_number(key, across ? heap->height : heap->width);
    key_number(key, across ? heap->width : heap->height);
    /* A one-way print lies another way after any turn. */
    if (sewer->sized->design->fabrics.items[cut->fabric].one_way)
        buffer_printf(key, "print %u", turn);
}

/* A cut is made of nothing, and by itself, whatever it becomes. */
static void make_cut(struct heap *recipe)
{
    recipe->technique = TECHNIQUE_CUT;
    recipe->craft = &craft_patch;
    recipe->inputs.count = recipe->inputs.capacity = 0;
    recipe->inputs.items = NULL;
    recipe->yield = 1;
}

struct ref build_strip(struct sewer *sewer, struct heap recipe, int fabric,
                       size_t border, struct rational width,
                       struct rational height)
{
    const struct pattern *pattern = sewer->sized->design->pattern;
    make_cut(&recipe);
    recipe.width = width;
    recipe.height = height;
    recipe.of.cut = (struct cut_piece){.fabric = fabric,
                                       .border = border,
                                       .width = cut_length(pattern, width),
                                       .height = cut_length(pattern, height)};
    return find_or_add(sewer, &recipe);
}

struct ref build_cut(struct sewer *sewer, struct heap recipe, int fabric,
                     struct rational width, struct rational height)
{
    return build_strip(sewer, recipe, fabric, 0, width, height);
}

/* The right angle is the top left corner; the long edge runs to the right and
 * upwards. */
static struct outline triangle(struct arena *arena, struct rational at,
                               struct rational legs)
{
    struct vertex *points = ARENA_ARRAY(arena, struct vertex, 3);
    points[0] = (struct vertex){at, at};
    points[1] = (struct vertex){rational_add(at, legs), at};
    points[2] = (struct vertex){at, rational_add(at, legs)};
    return (struct outline){points, 3};
}

/* From a strip as high as its row and the seams, along slanted lines. */
static struct ref build_angled(struct sewer *sewer, struct heap recipe,
                               enum patch_shape shape, int fabric)
{
    struct arena *arena = sewer->run->arena;
    const struct pattern *pattern = sewer->sized->design->pattern;
    const struct strip_shape *strip =
        angled_strip(arena, shape, recipe.height, pattern->seam);
    recipe.outline = angled_outline(arena, shape, recipe.height);
    recipe.of.cut = (struct cut_piece){
        .fabric = fabric,
        .shape = shape,
        .strip = strip,
        .width = strip->advance,
        .height = rational_round_up(strip->as_cut.points[2].y,
                                    pattern->cutting_step)};
    return find_or_add(sewer, &recipe);
}

/* A triangle is counted by itself and cut from a square with others. */
static struct ref build_triangle(struct sewer *sewer, struct heap recipe,
                                 enum patch_shape shape, int fabric)
{
    const struct rational side = triangle_square(
        sewer->sized->design->pattern, shape, recipe.width);
    recipe.yield = shape == PATCH_HALVED ? 2 : 4;
    recipe.outline =
        triangle(sewer->run->arena, rational_whole(0), recipe.width);
    recipe.of.cut = (struct cut_piece){
        .fabric = fabric, .width = side, .height = side, .shape = shape};
    return find_or_add(sewer, &recipe);
}

struct ref build_diamond(struct sewer *sewer, struct heap recipe, int fabric,
                         const struct star_cut *of)
{
    struct arena *arena = sewer->run->arena;
    const struct strip_shape *strip =
        angled_strip(arena, PATCH_STAR_DIAMOND, of->height,
                     rational_div(rational_sub(of->strip, of->height),
                                  rational_whole(2)));
    make_cut(&recipe);
    recipe.width = rational_add(of->side, of->height);
    recipe.height = of->height;
    recipe.outline = angled_outline(arena, PATCH_STAR_DIAMOND, of->height);
    recipe.of.cut = (struct cut_piece){.fabric = fabric,
                                       .shape = PATCH_STAR_DIAMOND,
                                       .strip = strip,
                                       .width = strip->advance,
                                       .height = of->strip};
    return find_or_add(sewer, &recipe);
}

struct ref build_side_triangle(struct sewer *sewer, struct heap recipe,
                               int fabric, struct rational legs)
{
    make_cut(&recipe);
    recipe.width = recipe.height = legs;
    return build_triangle(sewer, recipe, PATCH_QUARTERED, fabric);
}

static struct ref build_patch(struct sewer *sewer, const struct piece *piece,
                              struct rational factor, bool mirror)
{
    const struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_CUT, &craft_patch);
    if (patch_is_angled(piece->shape))
        return build_angled(sewer, recipe, piece->shape,
                            fabric_of(sewer, piece, 0));
    if (piece->shape != PATCH_WHOLE)
        return build_triangle(sewer, recipe, piece->shape,
                              fabric_of(sewer, piece, 0));
    return build_cut(sewer, recipe, fabric_of(sewer, piece, 0), recipe.width,
                     recipe.height);
}

/* A square that is cut twice across has its side as the long edge of each
 * triangle. What rounding made it larger lies beyond that edge, and is trimmed
 * with it. Its print lies as the square's does: slanted to its legs. */
static void lay_out_triangle(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const struct cut_piece *cut = &heap->of.cut;
    const bool quartered = cut->shape == PATCH_QUARTERED;
    const struct rational legs =
        quartered ? rational_div(cut->width, rational_root(2)) : cut->width;
    struct cloth *cloth =
        cloth_cut(bench->arena, cut->fabric,
                  triangle(bench->arena, rational_times(bench->seam, -1), legs),
                  heap->width, heap->height);
    cloth->faces.items[0].slanted = quartered;
    heap->cloth = cloth;
}

/* What lies around the finished shape: a seam; of a diamond, whose strip is
 * rounded, half of what that leaves. */
static struct rational around(const struct bench *bench)
{
    const struct heap *heap = bench->heap;
    return heap->of.cut.shape == PATCH_STAR_DIAMOND
               ? rational_div(rational_sub(heap->of.cut.height, heap->height),
                              rational_whole(2))
               : bench->seam;
}

static void lay_out(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    if (patch_is_angled(heap->of.cut.shape)) {
        heap->cloth = cloth_cut(bench->arena, heap->of.cut.fabric,
                                angled_cut(bench->arena, heap->of.cut.shape,
                                           heap->height, around(bench)),
                                heap->width, heap->height);
        return;
    }
    if (heap->of.cut.shape != PATCH_WHOLE) {
        lay_out_triangle(bench);
        return;
    }
    heap->cloth =
        cloth_cut(bench->arena, heap->of.cut.fabric,
                  outline_grown(bench->arena, heap->outline, bench->seam),
                  heap->width, heap->height);
}

void try_fabrics(struct slips *slips, const struct piece *piece)
{
    for (size_t i = 0; i < piece->fabrics.count; i++)
        for (size_t f = 0; f < fabric_numbers(slips->sized->design); f++)
            /* A fabric that is not there was reported as that. */
            if (piece->fabrics.items[i].fabric != NO_FABRIC &&
                may_name_fabric(slips->sized->design, piece->owner, (int)f) &&
                (int)f != piece->fabrics.items[i].fabric)
                slips->try_change(slips, (struct change){.kind = CHANGE_FABRIC,
                                                         .piece = piece,
                                                         .fabric = (int)f,
                                                         .first = i});
}

void try_exchanges(struct slips *slips, const struct piece *piece)
{
    for (size_t i = 0; i < piece->fabrics.count; i++)
        for (size_t k = i + 1; k < piece->fabrics.count; k++)
            slips->try_change(slips,
                              (struct change){.kind = CHANGE_FABRICS_EXCHANGED,
                                              .piece = piece,
                                              .first = i,
                                              .second = k});
}

const struct craft craft_patch = {.name = "cut",
                                  .build = build_patch,
                                  .key = key_cut,
                                  .sew = lay_out,
                                  .slips = try_fabrics};
