/* What can be drawn, and what can be counted, although there are errors. Read
 * next: picture.c. */
#include "sewer.h"

/* What is not sound makes its users so; as often as uses lie inside each other.
 */
static void spread(const struct design *design, bool *sound)
{
    for (bool changed = true; changed;) {
        changed = false;
        for (size_t i = 0; i < design->pieces.count; i++) {
            const struct piece *piece = design->pieces.items[i];
            if (piece->target == NULL || !sound[piece->owner->index] ||
                sound[piece->target->index])
                continue;
            sound[piece->owner->index] = false;
            changed = true;
        }
    }
}

const bool *named_throughout(struct arena *arena, const struct design *design)
{
    bool *named = ARENA_ARRAY(arena, bool, design->definitions.count + 1);
    for (size_t i = 0; i < design->definitions.count; i++)
        named[i] = !design->definitions.items[i]->unsound;
    spread(design, named);
    return named;
}

const bool *sound_throughout(struct arena *arena, const struct sized *sized)
{
    const struct design *design = sized->design;
    bool *sound = ARENA_ARRAY(arena, bool, design->definitions.count + 1);
    for (size_t i = 0; i < design->definitions.count; i++)
        sound[i] = sized->sound[i];
    spread(design, sound);
    return sound;
}
