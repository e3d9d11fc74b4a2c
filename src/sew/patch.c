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
    key_number(key, across ? cut->height : cut->width);
    key_number(key, across ? cut->width : cut->height);
    key_number(key, across ? heap->height : heap->width);
    key_number(key, across ? heap->width : heap->height);
    /* A one-way print lies another way after any turn. */
    if (sewer->sized->design->fabrics.items[cut->fabric].one_way)
        buffer_printf(key, "print %u", turn);
}

struct ref build_strip(struct sewer *sewer, struct heap recipe, int fabric,
                       size_t border, struct rational width,
                       struct rational height)
{
    const struct pattern *pattern = sewer->sized->design->pattern;
    recipe.technique = TECHNIQUE_CUT;
    recipe.craft = &craft_patch;
    recipe.inputs.count = recipe.inputs.capacity = 0;
    recipe.inputs.items = NULL;
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

static struct ref build_patch(struct sewer *sewer, const struct piece *piece,
                              struct rational factor, bool mirror)
{
    const struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_CUT, &craft_patch);
    return build_cut(sewer, recipe, fabric_of(sewer, piece, 0), recipe.width,
                     recipe.height);
}

static void lay_out(const struct bench *bench)
{
    struct heap *heap = bench->heap;
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
