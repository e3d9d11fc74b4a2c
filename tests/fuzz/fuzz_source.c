/* A whole source through all passes, and all that is said of it as text and as
 * JSON. */
#include <string.h>

#include "diag.h"
#include "driver.h"
#include "fuzz.h"

/* A longer one finds nothing that a shorter one does not. */
enum { MOST_BYTES = 20000 };

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (length > MOST_BYTES)
        return 0;
    struct arena *arena = arena_create();
    FILE *nowhere = fopen("/dev/null", "w");
    MUST(nowhere != NULL);
    const char *text = arena_copy(arena, (const char *)bytes, length);
    const struct compiled compiled =
        compile_source(arena, source_create(arena, "x.xml", text, length));
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(compiled.run, &sorted);
    for (size_t i = 0; i < count; i++) {
        MUST(sorted[i]->span.end <= length);
        MUST(sorted[i]->span.start <= sorted[i]->span.end);
        MUST(strchr(diag_json(compiled.run, sorted[i]), '\n') == NULL);
    }
    diag_print(compiled.run, (struct diag_style){.color = true}, nowhere);
    /* A source without plans says why. */
    MUST(compiled.plans != NULL || diag_count(compiled.run, DIAG_ERROR) > 0);
    fclose(nowhere);
    arena_destroy(arena);
    return 0;
}
