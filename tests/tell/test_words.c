/* The designer's words as the booklet prints them, against the numbers that
 * the solver, the heaps and the cutting plan have beside them. */
#include "words.h"
#include "../book/pages.h"

#define PATTERN                                                               \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"shelf\" title=\"S\">"   \
    "<about><summary>A <size of=\"mat\" as=\"finished\"/> mat: "              \
    "<qty of=\"jug\"/> jugs, <size of=\"jug\"/>, in <cloth of=\"clay\"/>."    \
    "</summary></about><fabrics><fabric id=\"clay\" key=\"c\"/>"              \
    "<fabric id=\"ash\" key=\"a\"/></fabrics>"                                \
    "<colorway id=\"kiln\"><cloth fabric=\"clay\" name=\"Clay &amp; straw\" " \
    "color=\"#b5623c\"/><cloth fabric=\"ash\" color=\"#d8d2c8\"/></colorway>" \
    "<colorway id=\"pit\"><cloth fabric=\"clay\" name=\"Soot\" "              \
    "color=\"#222222\"/><cloth fabric=\"ash\" color=\"#d8d2c8\"/></colorway>" \
    "<block id=\"jug\" grid=\"6\"><row><patch id=\"body\" fabric=\"clay\" "   \
    "width=\"4\"/><patch fabric=\"ash\" width=\"2\"/></row></block>"          \
    "<quilt id=\"mat\"><column><use block=\"jug\" finished=\"12\"/>"          \
    "<grid across=\"2\" down=\"1\"><use block=\"jug\" finished=\"6\"/>"       \
    "</grid></column></quilt><quilt id=\"coaster\"><patch fabric=\"ash\" "    \
    "width=\"4\" height=\"4\"/></quilt>"                                      \
    "<assembly of=\"jug\"><step make=\"jug\"><say>Body "                      \
    "<size of=\"body\" as=\"cut\"/> (<size of=\"body\" as=\"finished\"/>), "  \
    "jug <size of=\"jug\"/>.</say></step></assembly></pattern>"

static const char *summary_in(struct arena *arena, const struct sample *sample,
                              size_t plan)
{
    const struct cutplan *cutplan = &sample->plans->items.items[plan];
    const struct wording w = {arena, sample->design, cutplan->quilt, true,
                              phrases_load(arena, "en")};
    return word_words(&w, cutplan->colorway, sample->design->summary, NULL);
}

/* By hand: a jug of 12 over two of 6, 12 x 18 in all. */
static void test_each_booklet_has_its_own_facts(void **state)
{
    const struct sample s = sample_text(*state, PATTERN);
    assert_int_equal(s.plans->items.count, 4);
    assert_string_equal(
        summary_in(*state, &s, 0),
        "A 12\u00a0×\u00a018\u00a0in mat: 3 jugs, 12½\u00a0in square or "
        "6½\u00a0in square, in Clay & straw.");
    assert_non_null(strstr(summary_in(*state, &s, 1), "in Soot."));
    assert_non_null(strstr(summary_in(*state, &s, 2), ": 0 jugs, 12½"));
}

/* What is said stays English in a German booklet, so its sizes have no words of
 * either language. */
static void test_no_words_of_another_language(void **state)
{
    const struct sample s = sample_text(*state, PATTERN);
    const struct cutplan *plan = &s.plans->items.items[0];
    const struct wording w = {*state, s.design, plan->quilt, true,
                              phrases_load(*state, "de")};
    assert_string_equal(
        word_words(&w, plan->colorway, s.design->summary, NULL),
        "A 12\u00a0×\u00a018\u00a0in mat: 3 jugs, "
        "12½\u00a0×\u00a012½\u00a0in / 6½\u00a0×\u00a06½\u00a0in, in "
        "Clay & straw.");
}

/* In a step of one size a reference tells that size. */
static void test_a_step_tells_its_own_size(void **state)
{
    const struct sample s = sample_text(*state, PATTERN);
    const struct cutplan *plan = &s.plans->items.items[0];
    const struct wording w = {*state, s.design, plan->quilt, true,
                              phrases_load(*state, "en")};
    size_t seen = 0;
    for (size_t i = 0; i < plan->quilt->heaps.count; i++) {
        const struct heap *heap = &plan->quilt->heaps.items[i];
        if (heap->says.count == 0)
            continue;
        const bool large = rational_equal(heap->width, rational_whole(12));
        assert_string_equal(
            word_words(&w, plan->colorway, heap->says.items[0], heap),
            large ? "Body 8½\u00a0×\u00a012½\u00a0in (8\u00a0×\u00a012\u00a0in)"
                    ", jug 12½\u00a0in square."
                  : "Body 4½\u00a0×\u00a06½\u00a0in (4\u00a0×\u00a06\u00a0in)"
                    ", jug 6½\u00a0in square.");
        seen++;
    }
    assert_int_equal(seen, 2);
}

/* A note that tells two sizes, "not 8½ in (Star 24 in: 24½ in) square", tells
 * what is said of each. */
static bool tells_of_size(struct arena *arena, const char *note,
                          const char *text)
{
    const char *open = strstr(note, " ("), *name = open;
    while (name != NULL && (name = strstr(name, ": ")) != NULL) {
        const char *close = strchr(name, ')'), *own = open;
        if (close == NULL)
            return false;
        while (own > note && own[-1] != ' ')
            own--;
        const char *other = name + strlen(": ");
        if (strcmp(text, arena_printf(arena, "%.*s%s", (int)(open - note), note,
                                      close + 1)) == 0 ||
            strcmp(text, arena_printf(arena, "%.*s%.*s%s", (int)(own - note),
                                      note, (int)(close - other), other,
                                      close + 1)) == 0)
            return true;
        name = other;
    }
    return false;
}

static bool on_a_page(const struct visit *visit, const char *text)
{
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT &&
                (strcmp(item->as.text.text, text) == 0 ||
                 tells_of_size(visit->all->arena, item->as.text.text, text)))
                return true;
        }
    return false;
}

/* How many the heaps of what is referred to have together. */
static size_t heaps_of(const struct sewn_quilt *quilt,
                       const struct reference *reference)
{
    size_t count = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (reference->make != NULL ? heap->named == reference->make
                                    : heap->piece == reference->piece &&
                                          heap->technique != TECHNIQUE_CUT)
            count += heap->count;
    }
    return count;
}

/* Every reference in every say of the samples: the number is that of the
 * heaps, the size that of the heap, the cloth that of the materials. */
static void look_at_says(struct visit *visit)
{
    visit->wording.phrases = phrases_load(visit->all->arena, "en");
    const struct sewn_quilt *quilt = visit->plan->quilt;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        for (size_t s = 0; heap->count > 0 && s < heap->says.count; s++) {
            const struct words *words = heap->says.items[s];
            const char *text = word_words(&visit->wording,
                                          visit->plan->colorway, words, heap);
            if (!on_a_page(visit, text))
                breach(visit->breaches, "\"%s\" is on no page", text);
            for (size_t r = 0; r < words->references.count; r++) {
                const struct reference *reference = &words->references.items[r];
                const struct rational seams = rational_times(
                    visit->sample->design->pattern->seam, 2);
                const char *wanted =
                    reference->kind == REFER_COUNT
                        ? say_count(visit->all->arena,
                                    heaps_of(quilt, reference))
                    : reference->kind == REFER_CLOTH
                        ? visit->plan->colorway->bolts[reference->fabric].name
                        : word_length(&visit->wording,
                                      rational_add(heap->width, seams));
                if (strstr(text, wanted) == NULL)
                    breach(visit->breaches, "\"%s\" lacks %s", text, wanted);
            }
        }
    }
}

static void test_samples_print_their_facts(void **state)
{
    visit_booklets(state, look_at_says);
}

int main(void)
{
    const struct CMUnitTest alone[] = {
        cmocka_unit_test(test_each_booklet_has_its_own_facts),
        cmocka_unit_test(test_a_step_tells_its_own_size),
        cmocka_unit_test(test_no_words_of_another_language),
    };
    const struct CMUnitTest samples[] = {
        cmocka_unit_test(test_samples_print_their_facts),
    };
    return cmocka_run_group_tests(alone, unit_arena, unit_arena_end) +
           cmocka_run_group_tests(samples, booklets_setup, booklets_teardown);
}
