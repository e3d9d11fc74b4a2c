/* What texts measure, kept for a run: the same words stand in many tables and
 * figures, and setting a line costs far more than finding it. */
#ifndef SEAMWRIGHT_MEASURES_H
#define SEAMWRIGHT_MEASURES_H

#include "typeset.h"

/* All that an extent depends on: color and alignment change nothing. */
struct measured {
    const char *text; /* NULL for an empty place */
    enum text_face face;
    double size, width;
    struct text_extent extent;
};

/* Open addressing, a power of two places, half of them free at least. */
struct measures {
    struct arena *arena;
    struct measured *places;
    size_t count, capacity;
};

/* ensures: what the text measures, or NULL where it was not kept. */
const struct text_extent *measures_find(const struct measures *measures,
                                        const char *text,
                                        struct text_style style, double width);

/* Keeps what was not found. The text is copied. */
void measures_keep(struct measures *measures, const char *text,
                   struct text_style style, double width,
                   struct text_extent extent);

#endif
