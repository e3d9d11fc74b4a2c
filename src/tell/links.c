/* Names of places of the booklet, and the words that lead there. Read next:
 * contents.c. */
#include <string.h>

#include "contents.h"
#include "told_cutting.h"

/* ---- places ---- */

/* A link and its target both ask here for the name of the place, so they cannot
 * differ. Cloths are counted from 1, as people count. */
const char *place_cloth(struct arena *arena, int fabric)
{
    return arena_printf(arena, "cloth-%d", fabric + 1);
}

/* By the number that the page shows. */
const char *place_step(struct arena *arena, size_t step)
{
    return arena_printf(arena, "step-%zu", step);
}

/* A quilt has one, so it needs no number. */
const char *place_binding(void)
{
    return "binding";
}

/* Backing and batting, which no piece leads to; an errata sheet does. */
const char *place_layers(void)
{
    return "layers";
}

/* ---- from steps to cutting and back ---- */

/* A part that an earlier step made. */
struct told_text link_to_step(const struct wording *w, size_t index)
{
    const size_t step = w->quilt->heaps.items[index].step;
    const char *number = say_count(w->arena, step);
    return (struct told_text){
        word_part(w, index), place_step(w->arena, step),
        say(w->arena, w->phrases, "link.step", "step", number, NULL)};
}

/* A part that was cut; the cloth is told by its role, which is on every page.
 */
struct told_text link_to_cutting(const struct wording *w, size_t index)
{
    const struct heap *heap = &w->quilt->heaps.items[index];
    return (struct told_text){
        heap->of.cut.label, place_cloth(w->arena, heap->of.cut.fabric),
        say(w->arena, w->phrases, "link.cutting", "label", heap->of.cut.label,
            "fabric", w->design->fabrics.items[heap->of.cut.fabric].name,
            NULL)};
}

struct name_table steps_using(const struct wording *w)
{
    const struct sewn_quilt *quilt = w->quilt;
    struct name_table steps = {0};
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        for (size_t k = 0; k < heap->inputs.count && heap->step > 0; k++) {
            const struct heap *part =
                &quilt->heaps.items[heap->inputs.items[k].heap];
            if (part->technique == TECHNIQUE_CUT)
                name_table_add(w->arena, &steps, part->of.cut.label,
                               heap->step);
        }
    }
    return steps;
}

/* A strip that is joined first has more than one label; binding is sewn on in
 * no step. */
struct told_text link_to_use(const struct wording *w,
                             const struct name_table *steps,
                             const struct cut_item *item)
{
    const struct sewn_quilt *quilt = w->quilt;
    size_t step = 0;
    if (name_table_find(steps, item->label, &step))
        return (struct told_text){item->label, place_step(w->arena, step),
                                  say(w->arena, w->phrases, "link.step", "step",
                                      say_count(w->arena, step), NULL)};
    if (item->use == CUT_BORDER) {
        const size_t border = strip_taker(quilt, item);
        return (struct told_text){
            item->label, place_step(w->arena, quilt->heaps.items[border].step),
            say(w->arena, w->phrases, "link.border", "number",
                say_count(w->arena, item->border), NULL)};
    }
    if (item->use == CUT_BINDING)
        return (struct told_text){
            item->label, place_binding(),
            say(w->arena, w->phrases, "link.binding", NULL)};
    return (struct told_text){item->label, NULL, NULL};
}
