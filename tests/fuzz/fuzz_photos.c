/* The bytes of a photo: what they are taken for, and, where they pass, that a
 * page with it can be drawn. */
#include <string.h>

#include "fuzz.h"
#include "resolver.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct photo photo = {0};
    const char *problem = photo_of_bytes((const char *)bytes, length, &photo);
    if (problem != NULL) {
        MUST(problem[0] != '\0');
        return 0;
    }
    MUST(photo.width > 0 && photo.height > 0);
    MUST(photo.bytes == (const char *)bytes && photo.length <= length);
    return 0;
}
