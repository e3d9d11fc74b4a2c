/* The least to sew, for a terminal: what to make, from which scraps, and what a
 * tester has had in hand afterwards. */
#include <string.h>

#include "buffer.h"
#include "least.h"
#include "render.h"

/* "make 1 Wing, 1 Wing (mirrored) and 1 Star". */
static void print_chosen(struct buffer *out, const struct wording *w,
                         const struct least *least)
{
    const char **names =
        ARENA_ARRAY(out->arena, const char *, least->plan.chosen.count + 1);
    for (size_t i = 0; i < least->plan.chosen.count; i++)
        names[i] =
            word_trial(w, &least->trials.items[least->plan.chosen.items[i]]);
    if (least->plan.chosen.count == 0) {
        buffer_text(out, "  nothing is sewn up\n");
        return;
    }
    buffer_printf(out, "  make %s:\n",
                  word_list(w, names, least->plan.chosen.count));
    buffer_printf(out,
                  "  that is %zu of %zu seams, %zu %% of the quilt and all of "
                  "its steps (%zu things to get right)\n",
                  least->seams, least->all_seams, least_percent(least),
                  least->facts.count);
    if (least->plan.least)
        buffer_text(out, "  proven: nothing that has them all takes fewer "
                         "seams, or as few and less cloth\n");
    else
        buffer_printf(out,
                      "  best that was found; no less than %lld seams do\n",
                      (long long)least->plan.bound.first);
}

/* A border's corner is sewn from scraps of a size of their own. */
static void print_corner(struct buffer *out, const struct wording *w,
                         const struct trial *trial)
{
    const struct heap *heap = &w->quilt->heaps.items[trial->heap];
    const struct strips strips = border_strips(w, heap);
    const struct strip_lengths lengths = corner_lengths(w, heap);
    const struct rational side = corner_length(w, heap);
    for (size_t i = 0; i < strips.items.count; i++) {
        const struct heap *strip = strips.items.items[i];
        const struct rational width = strip_width(strip);
        const bool last = i + 1 == strips.items.count;
        buffer_printf(out, "  %s: strips of %s and %s%s%s\n",
                      w->design->fabrics.items[strip->of.cut.fabric].name,
                      word_size(w, lengths.first, width),
                      word_size(w, lengths.second, width),
                      last ? "; any scrap of " : "",
                      last ? word_size(w, side, side) : "");
    }
}

static void print_cuts(struct buffer *out, const struct wording *w,
                       const struct least *least)
{
    buffer_text(out, "\nCut from scraps, each by itself\n");
    for (size_t i = 0; i < least->cuts.count; i++) {
        const struct heap *heap =
            &w->quilt->heaps.items[least->cuts.items[i].heap];
        const struct cut_piece *cut = &heap->of.cut;
        buffer_printf(out, "  %s: %zu x %s, %s\n",
                      w->design->fabrics.items[cut->fabric].name,
                      least->cuts.items[i].count, cut->label,
                      word_cut_size(w, cut->fabric, cut->width, cut->height));
    }
    for (size_t i = 0; i < least->plan.chosen.count; i++) {
        const struct trial *trial =
            &least->trials.items[least->plan.chosen.items[i]];
        if (trial->kind == TRIAL_BORDER)
            print_corner(out, w, trial);
        if (trial->has_scrap)
            buffer_printf(out, "  any scrap of %s\n",
                          word_size_unit(w, trial->scrap_width,
                                         trial->scrap_height));
    }
}

static void print_facts(struct buffer *out, const struct wording *w,
                        const struct least *least)
{
    buffer_text(out, "\nWhat it has\n");
    for (int kind = 0; kind < FACT_KINDS; kind++) {
        bool told = false;
        for (size_t i = 0; i < least->facts.count; i++) {
            const struct sew_fact *fact = &least->facts.items[i];
            if ((int)fact->kind != kind)
                continue;
            if (!told)
                buffer_printf(out, "  %s\n",
                              word_fact_kind(w, (enum sew_fact_kind)kind));
            told = true;
            buffer_printf(out, "    %s\n", word_fact(w, fact));
        }
    }
}

const char *render_least(struct arena *arena, const struct cutplans *plans,
                         const struct selection *selection)
{
    struct buffer out = buffer_in(arena);
    const struct design *design = plans->sewn->sized->design;
    struct wording w = {arena, design, NULL, false, phrases_load(arena, "en")};
    for (size_t i = 0; i < plans->sewn->quilts.count; i++) {
        w.quilt = &plans->sewn->quilts.items[i];
        if (selection->quilt != NULL &&
            strcmp(selection->quilt, w.quilt->definition->id) != 0)
            continue;
        const struct least least = least_to_sew(&w);
        buffer_printf(&out, "%s%s, %s: the least to sew\n",
                      out.length == 0 ? "" : "\n", design->title,
                      w.quilt->definition->name);
        print_chosen(&out, &w, &least);
        print_cuts(&out, &w, &least);
        print_facts(&out, &w, &least);
    }
    return buffer_string(&out);
}
