/* The text of a picture and of a map: up to the first byte 0 that of the
 * picture, behind it that of the map. */
#include <string.h>

#include "buffer.h"
#include "diag.h"
#include "driver.h"
#include "fuzz.h"

enum { MOST_BYTES = 2000 };

static const char head[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"p\" title=\"P\"><fabrics>"
    "<fabric id=\"kelp\" key=\"k\" name=\"K\"/>"
    "<fabric id=\"sand\" key=\"s\" name=\"S\"/></fabrics>"
    "<colorway id=\"c\" name=\"C\">"
    "<cloth fabric=\"kelp\" name=\"A\" color=\"#224433\"/>"
    "<cloth fabric=\"sand\" name=\"B\" color=\"#ccbb88\"/></colorway>"
    "<block id=\"b\" name=\"B\" key=\"b\" grid=\"2\"><grid across=\"2\" "
    "down=\"2\">"
    "<half-square line=\"falling\" left=\"sand\" right=\"kelp\"/>"
    "<patch fabric=\"sand\"/><patch fabric=\"kelp\"/>"
    "<half-square line=\"rising\" left=\"sand\" "
    "right=\"kelp\"/></grid><picture>";
static const char between[] =
    "</picture></block><quilt id=\"q\" name=\"Q\"><map cells=\"6\">";
static const char tail[] = "</map></quilt></pattern>";

/* So that the text stays text. */
static void put_text(struct buffer *out, const uint8_t *bytes, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (bytes[i] == '<' || bytes[i] == '&')
            buffer_text(out, bytes[i] == '<' ? "&lt;" : "&amp;");
        else
            buffer_char(out, (char)bytes[i]);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (length > MOST_BYTES)
        return 0;
    struct arena *arena = arena_create();
    struct buffer out = buffer_in(arena);
    const uint8_t *end = length == 0 ? NULL : memchr(bytes, 0, length);
    const size_t first = end == NULL ? length : (size_t)(end - bytes);
    buffer_text(&out, head);
    put_text(&out, bytes, first);
    buffer_text(&out, between);
    if (first < length)
        put_text(&out, end + 1, length - first - 1);
    buffer_text(&out, tail);
    const struct compiled compiled = compile_source(
        arena, source_create(arena, "x.xml", out.bytes, out.length));
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(compiled.run, &sorted);
    for (size_t i = 0; i < count; i++)
        MUST(sorted[i]->span.end <= out.length);
    arena_destroy(arena);
    return 0;
}
