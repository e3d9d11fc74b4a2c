/* Runs a target on the files that are named, without a fuzzer. */
#include <string.h>

#include "files.h"
#include "fuzz.h"

int main(int count, char **names)
{
    for (int i = 1; i < count; i++) {
        struct arena *arena = arena_create();
        const struct file_content file = file_read(arena, names[i]);
        if (file.fault != FILE_OK) {
            fprintf(stderr, "%s: cannot read\n", names[i]);
            return 2;
        }
        /* Said before, as a crash says nothing. */
        fprintf(stderr, "%s\n", names[i]);
        /* Room of its own, so that a read beyond the end is seen. */
        uint8_t *bytes = malloc(file.length + 1);
        if (bytes == NULL)
            return 3;
        memcpy(bytes, file.bytes, file.length);
        LLVMFuzzerTestOneInput(bytes, file.length);
        free(bytes);
        arena_destroy(arena);
    }
    return count > 1 ? 0 : 2;
}
