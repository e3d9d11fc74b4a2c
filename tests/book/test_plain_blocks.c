/* Blocks that nobody sews: one patch, which is cut, and one that is a unit
 * under another name. How lists, steps and the coloring page tell them. */
#include "pages.h"

#define HEAD                                                            \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"pier\" "          \
    "title=\"Pier\">\n<fabrics><fabric id=\"water\" key=\"w\"/>"        \
    "<fabric id=\"sail\" key=\"s\"/></fabrics>\n<colorway id=\"noon\">" \
    "<cloth fabric=\"water\" color=\"#24566b\"/>"                       \
    "<cloth fabric=\"sail\" color=\"#f2ead8\"/></colorway>\n"
#define VANE                                                                 \
    "<unit id=\"vane\" name=\"Vane\" width=\"2\" height=\"2\"><half-square " \
    "line=\"falling\" left=\"sail\" right=\"water\"/></unit>\n"
#define PLAIN                                                                \
    "<block id=\"plain\" name=\"Plain\" grid=\"2\"><patch fabric=\"sail\"/>" \
    "</block>\n"
#define WRAP(inside) \
    "<block id=\"wrap\" name=\"Wrap\" grid=\"2\">" inside "</block>\n"
#define MILL                                                            \
    "<block id=\"mill\" name=\"Mill\" grid=\"4\"><grid across=\"2\" "   \
    "down=\"2\" press=\"open\"><use unit=\"vane\"/><use unit=\"vane\" " \
    "turn=\"90\"/><use unit=\"vane\" turn=\"270\"/><use unit=\"vane\" " \
    "turn=\"180\"/></grid></block>\n"
#define BLOCK(id, size, more) \
    "<use block=\"" id "\" finished=\"" size "\" " more "/>"
#define QUILT(across, inside)                                         \
    "<quilt id=\"throw\" name=\"Throw\"><grid across=\"" across "\" " \
    "down=\"2\" press=\"open\">" inside "</grid></quilt>\n</pattern>\n"

struct told {
    struct sample sample;
    struct typeset *typeset;
    const struct cutplan *plan;
    const struct book *book;
    struct wording wording;
};

static struct told compile(struct arena *arena, const char *text)
{
    struct told told = {.sample = sample_text(arena, text)};
    const struct phrases *phrases = phrases_load(arena, "en");
    told.typeset = typeset_create();
    told.plan = &told.sample.plans->items.items[0];
    told.book = compose_book(arena, told.typeset, phrases, told.sample.design,
                             told.plan, false);
    told.wording = (struct wording){arena, told.sample.design, told.plan->quilt,
                                    false, phrases};
    return told;
}

/* How often the words are a text of the pages from `first` on. */
static size_t texts(const struct told *told, size_t first, const char *words)
{
    size_t count = 0;
    for (size_t p = first; p < told->book->pages.count; p++)
        for (size_t i = 0; i < told->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &told->book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT)
                count += strcmp(item->as.text.text, words) == 0;
        }
    return count;
}

/* How often all texts of the booklet hold the words. Blocks are told in one
 * line of the cover, and all of them as a sum on the page behind it. */
static size_t tells(const struct told *told, const char *words)
{
    const char *text = all_text(told->wording.arena, told->book);
    size_t count = 0;
    while ((text = strstr(text, words)) != NULL) {
        count++;
        text++;
    }
    return count;
}

static size_t coloring_page(const struct told *told)
{
    for (size_t p = 0; p < told->book->pages.count; p++)
        for (size_t i = 0; i < told->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &told->book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT &&
                strcmp(item->as.text.text, "Coloring page") == 0)
                return p;
        }
    fail_msg("no coloring page");
    return 0;
}

/* The heap of a step with this title. */
static const struct heap *step_of(const struct told *told, const char *title)
{
    const struct sewn_quilt *quilt = told->plan->quilt;
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (quilt->heaps.items[i].step > 0 &&
            strcmp(word_heap(&told->wording, i), title) == 0)
            return &quilt->heaps.items[i];
    fail_msg("no step %s", title);
    return NULL;
}

static const struct cut_item *item_of(const struct told *told,
                                      const char *label)
{
    for (size_t f = 0; f < told->sample.design->fabrics.count; f++)
        for (size_t i = 0; i < told->plan->fabrics[f].items.count; i++)
            if (strcmp(told->plan->fabrics[f].items.items[i].label, label) == 0)
                return &told->plan->fabrics[f].items.items[i];
    fail_msg("no piece %s", label);
    return NULL;
}

/* Two plain blocks beside two that are sewn. */
static void test_one_patch(void **state)
{
    const struct told told = compile(
        *state, HEAD VANE PLAIN MILL QUILT(
                    "2", BLOCK("mill", "6", "") BLOCK("plain", "6", "")
                             BLOCK("plain", "6", "") BLOCK("mill", "6", "")));
    assert_string_equal(word_parts(&told.wording, step_of(&told, "Quilt top")),
                        "2 x Mill (2), 2 x B1");
    assert_int_equal(tells(&told, "2 blocks Mill, 6"), 1);
    assert_int_equal(tells(&told, "2 blocks Plain"), 0);
    /* So many are sewn in all: plain ones do not count. */
    assert_int_equal(tells(&told, "2 blocks and "), 1);
    assert_int_equal(tells(&told, "4 blocks"), 0);
    /* Cut for the block, whose name nothing else tells. */
    const struct cut_item *item = item_of(&told, "B1");
    assert_int_equal(item->takers.count, 1);
    assert_string_equal(item->takers.items[0]->name, "Plain");
    /* An empty square teaches no one where to color. */
    const size_t page = coloring_page(&told);
    assert_int_equal(texts(&told, page, "Mill"), 1);
    assert_int_equal(texts(&told, page, "Plain"), 0);
    typeset_destroy(told.typeset);
}

/* The same square stands in the quilt as a patch of its own, too. */
static void test_one_patch_and_others(void **state)
{
    const struct told told = compile(
        *state,
        HEAD VANE PLAIN MILL QUILT(
            "2", BLOCK("mill", "6", "")
                     BLOCK("plain", "6", "") "<patch fabric=\"sail\"/>" BLOCK(
                         "mill", "6", "")));
    const struct cut_item *item = item_of(&told, "B1");
    assert_int_equal(item->count, 2);
    assert_int_equal(item->takers.count, 2);
    assert_string_equal(item->takers.items[0]->name, "Plain");
    assert_string_equal(item->takers.items[1]->name, "Throw");
    typeset_destroy(told.typeset);
}

/* A quilt of nothing but plain blocks has no block to color, and is sewn. */
static void test_only_one_patch(void **state)
{
    const struct told told =
        compile(*state, HEAD PLAIN QUILT("1", BLOCK("plain", "6", "")
                                                  BLOCK("plain", "6", "")));
    assert_string_equal(word_parts(&told.wording, step_of(&told, "Quilt top")),
                        "2 x B1");
    assert_int_equal(tells(&told, "2 blocks"), 0);
    assert_int_equal(texts(&told, coloring_page(&told), "Plain"), 0);
    typeset_destroy(told.typeset);
}

/* ---- a unit under another name ---- */

/* Sewn larger than the unit is elsewhere: a heap of the block's own. */
static void test_wrapped_unit(void **state)
{
    static const char *const uses[] = {WRAP("<use unit=\"vane\"/>"),
                                       WRAP("<use unit=\"vane\" turn=\"90\"/>"),
                                       WRAP("<row><use unit=\"vane\"/></row>")};
    for (size_t i = 0; i < UNIT_COUNT(uses); i++) {
        const struct told told = compile(
            *state, arena_printf(
                        *state, "%s%s%s%s", HEAD VANE, uses[i], MILL,
                        QUILT("2", BLOCK("mill", "6", "") BLOCK("wrap", "6", "")
                                       BLOCK("wrap", "6", "turn=\"90\"")
                                           BLOCK("mill", "6", ""))));
        assert_int_equal(step_of(&told, "Wrap")->count, 2);
        assert_int_equal(step_of(&told, "Vane")->count, 8);
        assert_int_equal(tells(&told, "2 blocks Mill, 6"), 1);
        assert_int_equal(tells(&told, "2 blocks Wrap, 6"), 1);
        assert_string_equal(item_of(&told, "A1")->takers.items[0]->name,
                            "Wrap");
        assert_string_equal(item_of(&told, "A2")->takers.items[0]->name,
                            "Vane");
        assert_int_equal(texts(&told, coloring_page(&told), "Wrap"), 1);
        typeset_destroy(told.typeset);
    }
}

/* As large as in the other block: one heap, ten vanes, of which two are blocks
 * of that name. */
static void test_wrapped_unit_shares_a_heap(void **state)
{
    const struct told told = compile(
        *state, HEAD VANE WRAP("<use unit=\"vane\"/>") MILL
        "<quilt id=\"throw\" name=\"Throw\"><row><column>" BLOCK("mill", "6",
                                                                 "")
            BLOCK("mill", "6", "") "</column><column>" BLOCK("wrap", "3", "")
                BLOCK(
                    "wrap", "3",
                    "") "<patch "
                        "fabric=\"water\"/></column></row></quilt></pattern>");
    assert_int_equal(step_of(&told, "Vane")->count, 10);
    assert_int_equal(tells(&told, "2 blocks Mill, 6"), 1);
    assert_int_equal(tells(&told, "2 blocks Wrap, 3"), 1);
    assert_int_equal(texts(&told, coloring_page(&told), "Wrap"), 1);
    typeset_destroy(told.typeset);
}

/* The block alone, mirrored: told as such, as it is made. */
static void test_mirrored_wrap(void **state)
{
    const struct told told = compile(
        *state, HEAD
        "<unit id=\"hook\" name=\"Hook\" width=\"2\" height=\"2\"><patch "
        "fabric=\"sail\"><corner at=\"top-left\" fabric=\"water\" "
        "size=\"1\"/><corner at=\"top-right\" fabric=\"water\" "
        "size=\"2\"/></patch></unit>\n" WRAP(
            "<use unit=\"hook\" mirror=\"yes\"/>")
            QUILT("2",
                  BLOCK("wrap", "6", "") BLOCK("wrap", "6", "mirror=\"yes\"")
                      BLOCK("wrap", "6", "") BLOCK("wrap", "6", "")));
    assert_int_equal(step_of(&told, "Wrap")->count, 3);
    assert_int_equal(step_of(&told, "Wrap (mirrored)")->count, 1);
    assert_int_equal(tells(&told, "3 blocks Wrap, 6"), 1);
    assert_int_equal(tells(&told, "1 block Wrap (mirrored), 6"), 1);
    typeset_destroy(told.typeset);
}

/* Two blocks that look the same are each told with their own number. */
static void test_two_blocks_alike(void **state)
{
    const struct told told = compile(
        *state, HEAD VANE MILL
        "<block id=\"twin\" name=\"Twin\" grid=\"4\"><grid across=\"2\" "
        "down=\"2\" press=\"open\"><use unit=\"vane\"/><use unit=\"vane\" "
        "turn=\"90\"/><use unit=\"vane\" turn=\"270\"/><use unit=\"vane\" "
        "turn=\"180\"/></grid></block>\n" QUILT(
            "2", BLOCK("mill", "6", "") BLOCK("twin", "6", "")
                     BLOCK("twin", "6", "") BLOCK("twin", "6", "")));
    assert_int_equal(tells(&told, "1 block Mill, 6"), 1);
    assert_int_equal(tells(&told, "3 blocks Twin, 6"), 1);
    typeset_destroy(told.typeset);
}

/* A block of many parts in two sizes is one step, and so are its pieces; the
 * tables under its figures leave out none of the other size's parts. */
static void test_parts_of_another_size(void **state)
{
    const struct told told = compile(
        *state, HEAD
        "<block id=\"hulk\" name=\"Hulk\" grid=\"8\"><column><row>"
        "<half-square line=\"rising\" left=\"sail\" right=\"water\" "
        "size=\"2\"/><patch fabric=\"sail\" width=\"6\"/></row><row><patch "
        "fabric=\"water\" width=\"1\" height=\"6\"/><patch fabric=\"sail\" "
        "width=\"3\"/><patch fabric=\"water\" width=\"4\"/></row></column>"
        "</block>\n<quilt id=\"throw\" name=\"Throw\"><row><column>" BLOCK(
            "hulk", "8", "")
            BLOCK("hulk", "8", "") "</column>" BLOCK(
                "hulk", "16", "") "</row></quilt></pattern>");
    struct wording drawn = told.wording;
    drawn.glyphs = true;
    const struct told_steps steps = tell_steps(&told.wording);
    assert_int_equal(steps.items.count, 3);
    for (size_t i = 0; i < 2; i++)
        assert_int_equal(steps.items.items[i].sizes.count, 1);
    const struct told_size *size = &steps.items.items[1].sizes.items[0];
    const char *text = blanks_alike(*state, all_text(*state, told.book));
    assert_int_equal(size->parts.items.count, 5);
    for (size_t i = 0; i < size->parts.items.count; i++) {
        const struct told_part *part = &size->parts.items.items[i];
        const struct heap *heap = &told.plan->quilt->heaps.items[part->heap];
        const char *cell =
            heap->technique != TECHNIQUE_CUT
                ? word_part(&drawn, part->heap)
                : arena_printf(
                      *state, "%s: %zu of %s", heap->of.cut.label, part->count,
                      word_cut_size(&drawn, heap->of.cut.fabric,
                                    heap->of.cut.width, heap->of.cut.height));
        assert_non_null(strstr(text, blanks_alike(*state, cell)));
    }
    typeset_destroy(told.typeset);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_parts_of_another_size),
        cmocka_unit_test(test_one_patch),
        cmocka_unit_test(test_one_patch_and_others),
        cmocka_unit_test(test_only_one_patch),
        cmocka_unit_test(test_wrapped_unit),
        cmocka_unit_test(test_wrapped_unit_shares_a_heap),
        cmocka_unit_test(test_mirrored_wrap),
        cmocka_unit_test(test_two_blocks_alike),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
