/* Strips from which a ruler cuts pieces with slanted edges: opened, along its
 * line, as drawn, by lengths that are told once for all pieces that share them.
 * Read next: cutting_words.c. */
#include "buffer.h"
#include "told_cutting.h"

const char *word_shapes(const struct wording *w, const struct cut_item *item)
{
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < item->shaped.count; i++)
        buffer_printf(&text, "%s%zu\u00a0%s", i == 0 ? "" : ", ",
                      item->shaped.items[i].count, item->shaped.items[i].label);
    return buffer_string(&text);
}

/* The labels of all shapes of the item that are cut as this one is, which is
 * the first of them; NULL where it is not. */
static const char *labels_cut_alike(const struct wording *w,
                                    const struct cut_item *item, size_t number)
{
    const struct shape_measures own =
        measure_shape(item->shaped.items[number].strip);
    LIST(const char *) labels = {0};
    for (size_t i = 0; i < item->shaped.count; i++) {
        const struct shape_measures other =
            measure_shape(item->shaped.items[i].strip);
        if (!same_measures(&own, &other))
            continue;
        if (i < number)
            return NULL;
        *LIST_ADD(w->arena, &labels) = item->shaped.items[i].label;
    }
    return word_list(w, labels.items, labels.count);
}

/* By what lengths shapes are cut: the ruler's line tells the angle alone. */
static void add_lengths(const struct wording *w, const struct cut_item *item,
                        struct told_line *line)
{
    for (size_t i = 0; i < item->shaped.count; i++) {
        const char *labels = labels_cut_alike(w, item, i);
        const struct shape_measures m =
            measure_shape(item->shaped.items[i].strip);
        if (labels == NULL)
            continue;
        *LIST_ADD(w->arena, &line->cuts) = (struct told_cut){
            NULL,
            say(w->arena, w->phrases,
                rational_known(m.apart)         ? "cutting.shape-parallel"
                : m.upright                     ? "cutting.shape-end"
                : rational_sign(m.shorter) == 0 ? "cutting.shape-point"
                                                : "cutting.shape-edges",
                "labels", labels, "long", word_length_unit(w, m.longer),
                "short", word_length_unit(w, m.shorter), "apart",
                rational_known(m.apart) ? word_length_unit(w, m.apart) : "",
                NULL)};
    }
}

void tell_shapes(const struct wording *w, const struct cut_item *item,
                 struct told_line *line)
{
    *LIST_ADD(w->arena, &line->cuts) = (struct told_cut){
        NULL,
        say(w->arena, w->phrases, "cutting.shapes", "count",
            say_count(w->arena, item->count), "degrees",
            say_count(w->arena, item->shaped.items[0].strip->degrees), NULL)};
    add_lengths(w, item, line);
    for (size_t i = 0; i < item->shaped_strips.count; i++) {
        const struct shaped_strip *strip = &item->shaped_strips.items[i];
        *LIST_ADD(w->arena, &line->cuts) = (struct told_cut){
            NULL, say(w->arena, w->phrases, "cutting.shapes-strip", "count",
                      say_count(w->arena, strip->repeat), "pieces",
                      word_shaped_strip(w, item, strip, 1), NULL)};
    }
}
