/* Data of a build: whatever the bytes are, they are read or told to be none, and
 * what is read does not differ from itself. */
#include "compare.h"
#include "fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_create();
    const char *problem = NULL;
    const struct revision *revision =
        read_revision(arena, (const char *)bytes, length, &problem);
    MUST((revision == NULL) == (problem != NULL));
    if (revision != NULL) {
        const struct comparison *same =
            compare_revisions(arena, revision, revision);
        MUST(same->same_pattern);
        MUST(same->total == 0);
    }
    arena_destroy(arena);
    return 0;
}
