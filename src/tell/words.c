/* References in the designer's words become text: how many, how large, which
 * cloth. All of it comes from the sewn quilt, so that prose cannot differ from
 * the tables beside it. May assume bound names and known sizes. */
#include "words.h"

#include <string.h>

#include "buffer.h"

/* Does the heap make what the reference names? A heap may stand for several
 * definitions that look the same; a reference to any of them means it. */
static bool makes(const struct heap *heap, const struct reference *reference)
{
    if (reference->make == NULL)
        return heap->piece->first == reference->piece;
    bool is = false;
    for (size_t i = 0; i < heap->names.count; i++)
        is |= heap->names.items[i].definition == reference->make;
    return is;
}

/* Marks what the heap is made from, itself too. Heaps stand after all their
 * inputs, so one walk from the end meets each after all that take it. ensures:
 * a flag for each heap of the quilt, by its index. */
static bool *inside(const struct wording *w, const struct heap *heap)
{
    const size_t count = w->quilt->heaps.count;
    bool *marked = ARENA_ARRAY(w->arena, bool, count);
    marked[heap - w->quilt->heaps.items] = true;
    for (size_t i = count; i-- > 0;) {
        const struct heap *taker = &w->quilt->heaps.items[i];
        for (size_t k = 0; marked[i] && k < taker->inputs.count; k++)
            marked[taker->inputs.items[k].heap] = true;
    }
    return marked;
}

/* One area is one size: a heap may lie turned against its piece. */
static bool same_size(const struct heap *heap, const struct taken_size *size)
{
    return rational_equal(rational_mul(heap->width, heap->height),
                          rational_mul(size->width, size->height));
}

/* The sizes to tell: those in the heap, where it has what is named, else all
 * that the quilt has. */
static const struct taken_size *sizes_to_tell(const struct wording *w,
                                              const struct reference *reference,
                                              const struct heap *heap,
                                              size_t *count)
{
    const struct taken *taken = taken_of(w->quilt, reference);
    *count = taken->sizes.count;
    if (heap == NULL || *count < 2)
        return taken->sizes.items;
    const bool *marked = inside(w, heap);
    struct taken_size *told = ARENA_ARRAY(w->arena, struct taken_size, *count);
    size_t found = 0;
    for (size_t s = 0; s < *count; s++) {
        bool here = false;
        for (size_t i = 0; i < w->quilt->heaps.count; i++) {
            const struct heap *part = &w->quilt->heaps.items[i];
            here |= marked[i] && makes(part, reference) &&
                    same_size(part, &taken->sizes.items[s]);
        }
        if (here)
            told[found++] = taken->sizes.items[s];
    }
    if (found == 0)
        return taken->sizes.items;
    *count = found;
    return told;
}

/* As the designer asks for it: inside the seams, with them, off the mat. */
static struct rational side_as(const struct wording *w, struct rational side,
                               enum size_as as)
{
    const struct pattern *pattern = w->design->pattern;
    switch (as) {
    case AS_FINISHED:
        return side;
    case AS_UNFINISHED:
        return rational_add(side, rational_times(pattern->seam, 2));
    case AS_CUT:
        break;
    }
    return cut_length(pattern, side);
}

/* A designer's words stay in the language of the pattern. */
static bool in_own_language(const struct wording *w)
{
    return strcmp(phrases_language(w->phrases), w->design->pattern->language) ==
           0;
}

/* Without a word, as a word of the booklet's language would stand in a sentence of
 * another one: "6½ × 6½ in". */
static const char *size_sign(const struct wording *w, struct rational width,
                             struct rational height)
{
    return arena_printf(w->arena, w->glyphs ? "%s\u00a0%s" : "%s %s",
                        word_size(w, width, height),
                        length_unit_name(w->design->pattern->units));
}

/* "6½ in square" or "6½ × 4½ in". */
static const char *size_text(const struct wording *w,
                             const struct taken_size *size, enum size_as as)
{
    const struct rational width = side_as(w, size->width, as);
    const struct rational height = side_as(w, size->height, as);
    if (!in_own_language(w))
        return size_sign(w, width, height);
    if (!rational_equal(width, height))
        return word_size_unit(w, width, height);
    return say(w->arena, w->phrases, "words.square", "side",
               word_length(w, width), "unit", word_unit(w), NULL);
}

/* "12½ in square or 6½ in square", where it is not one. */
static const char *sizes_text(const struct wording *w,
                              const struct reference *reference,
                              const struct heap *heap)
{
    size_t count = 0;
    const struct taken_size *sizes = sizes_to_tell(w, reference, heap, &count);
    const char *text = "";
    for (size_t i = 0; i < count; i++) {
        const char *next = size_text(w, &sizes[i], reference->as);
        text = i == 0                ? next
               : !in_own_language(w) ? arena_printf(w->arena, "%s / %s", text,
                                                    next)
                                     : say(w->arena, w->phrases, "words.or", "some", text,
                            "other", next, NULL);
    }
    return text;
}

/* One fact. */
static const char *reference_text(const struct wording *w,
                                  const struct colorway *colorway,
                                  const struct reference *reference,
                                  const struct heap *heap)
{
    switch (reference->kind) {
    case REFER_COUNT:
        return say_count(w->arena, taken_of(w->quilt, reference)->count);
    case REFER_SIZE:
        return sizes_text(w, reference, heap);
    case REFER_CLOTH:
        break;
    }
    return colorway->bolts[reference->fabric].name;
}

/* The reader has folded the blanks, so that runs and facts need only be joined.
 */
const char *word_words(const struct wording *w, const struct colorway *colorway,
                       const struct words *words, const struct heap *heap)
{
    if (words == NULL)
        return "";
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < words->element->runs.count; i++) {
        buffer_text(&text, words->element->runs.items[i].text);
        if (i < words->references.count)
            buffer_text(
                &text,
                reference_text(w, colorway, &words->references.items[i], heap));
    }
    return buffer_string(&text);
}
