/* Facts of patterns as they are kept beside kits: whatever the bytes are, they
 * are read as a whole or not at all, and what was read is written so that it
 * reads the same again. */
#include <string.h>

#include "fuzz.h"
#include "kit_facts.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_create();
    /* A copy, as texts in it end where they end. */
    const char *text = arena_copy(arena, (const char *)bytes, length);
    const char *at = text;
    const struct kit_facts_list *facts =
        kit_facts_read(arena, &at, text + length);
    MUST(at <= text + length);
    if (facts != NULL) {
        const char *written = kit_facts_write(arena, facts);
        const char *from = written;
        const struct kit_facts_list *again =
            kit_facts_read(arena, &from, written + strlen(written));
        MUST(again != NULL);
        MUST(strcmp(kit_facts_write(arena, again), written) == 0);
    }
    arena_destroy(arena);
    return 0;
}
