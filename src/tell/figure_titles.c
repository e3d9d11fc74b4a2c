/* What figures are called that stand alone. Read next: contents.c. */
#include "content.h"

const char *title_of_quilt(const struct wording *w)
{
    return say(w->arena, w->phrases, "figure.quilt", "name",
               w->quilt->definition->name, NULL);
}

const char *title_of_step(const struct wording *w, size_t heap)
{
    return say(w->arena, w->phrases, "figure.step", "number",
               say_count(w->arena, w->quilt->heaps.items[heap].step), "name",
               word_heap(w, heap), NULL);
}

const char *title_of_cutting(const struct wording *w,
                             const struct colorway *colorway, int fabric,
                             size_t number)
{
    const char *letter = fabric_letter(w->arena, fabric);
    const char *name = colorway->bolts[fabric].name;
    return number == 0 ? say(w->arena, w->phrases, "figure.cutting", "letter",
                             letter, "name", name, NULL)
                       : say(w->arena, w->phrases, "figure.cutting-line",
                             "letter", letter, "name", name, "number",
                             say_count(w->arena, number), NULL);
}

/* With the fabrics of its cast where there are several. */
const char *title_of_cloth(const struct wording *w, const struct heap_name *of)
{
    const bool unit = of->definition->kind == DEFINE_UNIT;
    const char *key = unit ? of->mirror ? "figure.unit-mirrored" : "figure.unit"
                      : of->mirror ? "figure.block-mirrored"
                                   : "figure.block";
    const char *fabrics = word_cast(w, of->cast);
    const char *name = of->definition->name;
    if (fabrics != NULL)
        name = say(w->arena, w->phrases, "part.cast", "name", name, "fabrics",
                   fabrics, NULL);
    return say(w->arena, w->phrases, key, "name", name, NULL);
}

const char *title_of_quilting(const struct wording *w)
{
    return say(w->arena, w->phrases, "figure.quilting", NULL);
}

const char *title_of_stage(const struct wording *w, enum quilting_stage stage)
{
    switch (stage) {
    case STAGE_DITCH:
        return say(w->arena, w->phrases, "figure.quilting-ditch", NULL);
    case STAGE_LINES:
        return say(w->arena, w->phrases, "figure.quilting-lines", NULL);
    case STAGE_ECHOES:
        return say(w->arena, w->phrases, "figure.quilting-echoes", NULL);
    case STAGE_FILLERS:
    case QUILTING_STAGES:
        break;
    }
    return say(w->arena, w->phrases, "figure.quilting-fillers", NULL);
}

const char *title_of_area(const struct wording *w,
                          const struct quilted_kind *kind, bool sequence)
{
    return say(w->arena, w->phrases,
               sequence ? "figure.quilting-sequence" : "figure.quilting-area",
               "letter", kind->letter, NULL);
}

const char *title_of_gaps(const struct wording *w)
{
    return say(w->arena, w->phrases, "figure.quilting-gaps", NULL);
}
