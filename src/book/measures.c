#include "measures.h"

#include <string.h>

/* FNV-1a over the text; style and width are few, so they are only compared. */
static size_t hash_of(const char *text)
{
    size_t hash = 14695981039346656037u;
    for (; *text != '\0'; text++)
        hash = (hash ^ (unsigned char)*text) * 1099511628211u;
    return hash;
}

/* Sizes and widths are copies of what the caller asked before, so equal ones
 * are equal to the last bit. */
static bool is_same(const struct measured *kept, const char *text,
                    struct text_style style, double width)
{
    return kept->face == style.face &&
           memcmp(&kept->size, &style.size, sizeof style.size) == 0 &&
           memcmp(&kept->width, &width, sizeof width) == 0 &&
           strcmp(kept->text, text) == 0;
}

/* The place of the text, or the free one where it belongs. */
static struct measured *place_of(const struct measures *measures,
                                 const char *text, struct text_style style,
                                 double width)
{
    size_t at = hash_of(text) & (measures->capacity - 1);
    while (measures->places[at].text != NULL &&
           !is_same(&measures->places[at], text, style, width))
        at = (at + 1) & (measures->capacity - 1);
    return &measures->places[at];
}

const struct text_extent *measures_find(const struct measures *measures,
                                        const char *text,
                                        struct text_style style, double width)
{
    if (measures->count == 0)
        return NULL;
    const struct measured *kept = place_of(measures, text, style, width);
    return kept->text == NULL ? NULL : &kept->extent;
}

/* Twice as many places, all that was kept put in anew. */
static void grow(struct measures *measures)
{
    const struct measures old = *measures;
    measures->capacity = old.capacity == 0 ? 256 : old.capacity * 2;
    measures->places =
        ARENA_ARRAY(measures->arena, struct measured, measures->capacity);
    for (size_t i = 0; i < old.capacity; i++) {
        const struct measured *kept = &old.places[i];
        if (kept->text == NULL)
            continue;
        const struct text_style style = {.face = kept->face,
                                         .size = kept->size};
        *place_of(measures, kept->text, style, kept->width) = *kept;
    }
}

void measures_keep(struct measures *measures, const char *text,
                   struct text_style style, double width,
                   struct text_extent extent)
{
    if (measures->count * 2 >= measures->capacity)
        grow(measures);
    *place_of(measures, text, style, width) =
        (struct measured){arena_copy(measures->arena, text, strlen(text)),
                          style.face, style.size, width, extent};
    measures->count++;
}
