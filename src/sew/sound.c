/* What can be drawn, and what can be counted, although there are errors. Read
 * next: picture.c. */
#include "sewer.h"

/* What is not sound makes its users so: from the inside out, once each. */
static void spread(const struct design *design, bool *sound)
{
    for (size_t i = 0; i < design->inner_first.count; i++) {
        const struct definition *user = design->inner_first.items[i];
        for (size_t k = 0; k < user->uses.count; k++)
            if (user->uses.items[k]->target != NULL &&
                !sound[user->uses.items[k]->target->index])
                sound[user->index] = false;
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
