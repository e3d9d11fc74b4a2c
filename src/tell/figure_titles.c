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
