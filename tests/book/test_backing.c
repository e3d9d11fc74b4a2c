/* What finishing says of a backing whose print has a direction. */
#include "pages.h"

static bool told(const struct book *book, const char *words)
{
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++) {
            const struct item *item = &book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT &&
                strstr(item->as.text.text, words) != NULL)
                return true;
        }
    return false;
}

static void test_upright(void **state)
{
    static const struct {
        const char *print, *size, *language, *says;
        bool holds;
    } cases[] = {
        {"one-way", "60 x 34", "en",
         "The print runs along the panels: lay all of them so that it stands "
         "upright.", true},
        {"one-way", "30 x 60", "en",
         "The print runs along the panel: lay it so that it stands upright.",
         true},
        {"one-way", "60 x 34", "en", "runs from top to bottom", true},
        {"all-over", "60 x 34", "en", "The print runs", false},
        {"one-way", "60 x 34", "de",
         "Das Muster läuft längs der Bahnen: Alle so legen, dass es aufrecht "
         "steht.", true},
        {"one-way", "30 x 60", "de",
         "Das Muster läuft längs der Bahn: Sie so legen, dass es aufrecht "
         "steht.", true},
    };
    struct typeset *typeset = typeset_create();
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct sample sample = sample_text(
            *state,
            arena_printf(*state,
                         "<pattern xmlns=\"urn:seamwright:pattern:1\" "
                         "id=\"p\" title=\"P\"><fabrics><fabric id=\"reed\" "
                         "print=\"%s\"/><fabric id=\"pond\"/></fabrics>"
                         "<colorway id=\"c\"><cloth fabric=\"reed\" "
                         "color=\"#6a7b3c\"/><cloth fabric=\"pond\" "
                         "color=\"#24566b\"/></colorway><quilt id=\"q\" "
                         "finished=\"%s\"><grid across=\"2\" down=\"2\"><patch "
                         "fabric=\"pond\"/></grid><backing fabric=\"reed\"/>"
                         "</quilt></pattern>", cases[i].print, cases[i].size));
        const struct book *book = compose_book(
            *state, typeset, phrases_load(*state, cases[i].language),
            sample.design, &sample.plans->items.items[0], false);
        if (told(book, cases[i].says) != cases[i].holds)
            fail_msg("%s, %s: %s", cases[i].print, cases[i].size,
                     cases[i].says);
    }
    typeset_destroy(typeset);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_upright),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
