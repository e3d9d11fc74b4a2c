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

static void print_cuts(struct buffer *out, const struct wording *w,
                       const struct least *least)
{
    const struct scrap_lines lines = word_scraps(w, least);
    buffer_printf(out, "\n%s\n",
                  say(w->arena, w->phrases, "least.scraps", NULL));
    for (size_t i = 0; i < lines.items.count; i++)
        buffer_printf(out, "  %s\n", lines.items.items[i]);
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
