/* Parts of the sheet that an order is cut by. */
#ifndef SEAMWRIGHT_KIT_CUTTING_H
#define SEAMWRIGHT_KIT_CUTTING_H

#include "kit_words.h"

/* A heading with the cloth's swatch, name and shelf. */
void add_kit_heading(const struct kit_telling *t, struct contents *contents,
                     const struct kits_cloth *cloth, enum content_part part);
/* Strips that are cut up in layers, for kits that are cut; nothing where the
 * cloth has none. */
void add_kit_layers(const struct kit_telling *t, struct contents *contents,
                    const struct kits_cloth *cloth);
#endif
