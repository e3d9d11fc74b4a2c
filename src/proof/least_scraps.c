/* What is cut from scraps for the least to sew, in the language of the wording:
 * each piece by itself, as nobody plans strips of scraps. Read next: making.c. */
#include "least.h"
#include "telling.h"

/* A piece with slanted edges lies in a rectangle that is wider than what it
 * takes of a strip beside others. */
static struct rational scrap_width(const struct wording *w,
                                   const struct cut_piece *cut)
{
    struct rational width = rational_whole(0);
    if (cut->strip == NULL)
        return cut->width;
    for (size_t i = 0; i < cut->strip->as_cut.count; i++)
        width = rational_max(width, cut->strip->as_cut.points[i].x);
    return rational_round_up(width, w->design->pattern->cutting_step);
}

static const char *word_cut(const struct wording *w,
                            const struct least_cut *of)
{
    const struct heap *heap = &w->quilt->heaps.items[of->heap];
    const struct cut_piece *cut = &heap->of.cut;
    const char *size =
        word_cut_size(w, cut->fabric, scrap_width(w, cut), cut->height);
    const char *key = cut->shape == PATCH_WHOLE       ? "least.cut"
                      : cut->shape == PATCH_HALVED    ? "least.cut-halved"
                      : cut->shape == PATCH_QUARTERED ? "least.cut-quartered"
                                                      : "least.cut-shape";
    return say(w->arena, w->phrases, key, "cloth",
               w->design->fabrics.items[cut->fabric].name, "count",
               say_count(w->arena, of->count), "label", cut->label, "squares",
               say_count(w->arena, pieces_to_cut(heap, of->count)), "size",
               size, "shape",
               cut->strip == NULL ? ""
                                  : word_shape(w, cut->shape, cut->height),
               NULL);
}

/* The corner of a border is sewn to a square scrap, from strips of a size of
 * their own; of several mitred ones, each has its strips. */
static void add_corner(const struct wording *w, const struct trial *trial,
                       struct scrap_lines *lines)
{
    const struct heap *heap = &w->quilt->heaps.items[trial->heap];
    const struct strips strips = border_strips(w, heap);
    const struct strip_lengths lengths = corner_lengths(w, heap);
    const struct rational side = corner_length(w, heap);
    for (size_t i = 0; i < strips.items.count; i++) {
        const struct heap *strip = strips.items.items[i];
        const struct rational width = strip_width(strip);
        *LIST_ADD(w->arena, &lines->items) =
            say(w->arena, w->phrases,
                i + 1 == strips.items.count ? "least.strips-last"
                                            : "least.strips",
                "cloth", w->design->fabrics.items[strip->of.cut.fabric].name,
                "first", word_size(w, lengths.first, width), "second",
                word_size(w, lengths.second, width), "size",
                word_size_unit(w, side, side), NULL);
    }
}

struct scrap_lines word_scraps(const struct wording *w,
                               const struct least *least)
{
    struct scrap_lines lines = {.items = {0}};
    for (size_t i = 0; i < least->cuts.count; i++)
        *LIST_ADD(w->arena, &lines.items) =
            word_cut(w, &least->cuts.items[i]);
    for (size_t i = 0; i < least->plan.chosen.count; i++) {
        const struct trial *trial =
            &least->trials.items[least->plan.chosen.items[i]];
        if (trial->kind == TRIAL_BORDER)
            add_corner(w, trial, &lines);
        if (trial->has_scrap)
            *LIST_ADD(w->arena, &lines.items) =
                say(w->arena, w->phrases, "least.scrap", "size",
                    word_size_unit(w, trial->scrap_width,
                                   trial->scrap_height),
                    NULL);
    }
    return lines;
}
