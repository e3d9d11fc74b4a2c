/* Sentences of a language: gaps, plural forms, and that every language says the
 * same things. */
#include <string.h>

#include "../unit.h"
#include "phrase.h"

static void test_gaps_are_filled(void **state)
{
    struct arena *arena = *state;
    const struct phrases *english = phrases_load(arena, "en");
    assert_string_equal(say(arena, english, "page.revision-date", "revision",
                            "3", "date", "2026-11-02", NULL),
                        "Revision 3, 2026-11-02");
    assert_string_equal(phrases_language(english), "en");
}

/* The names in the gaps of a sentence, sorted into one text. */
static const char *names_in(struct arena *arena, const char *text)
{
    LIST(const char *) names = {0};
    for (const char *open = strchr(text, '{'); open != NULL;
         open = strchr(open + 1, '{')) {
        const size_t length = strcspn(open + 1, "|}");
        const char *name = arena_copy(arena, open + 1, length);
        size_t at = 0;
        while (at < names.count && strcmp(names.items[at], name) < 0)
            at++;
        if (at < names.count && strcmp(names.items[at], name) == 0)
            continue;
        LIST_ADD(arena, &names);
        for (size_t i = names.count - 1; i > at; i--)
            names.items[i] = names.items[i - 1];
        names.items[at] = name;
    }
    const char *all = "";
    for (size_t i = 0; i < names.count; i++)
        all = arena_printf(arena, "%s %s", all, names.items[i]);
    return all;
}

/* Same keys in the same order, no key twice, same values in each sentence. */
static void test_languages_say_the_same(void **state)
{
    struct arena *arena = *state;
    const struct phrases *english = phrases_load(arena, "en");
    for (size_t i = 0; i < phrases_count(english); i++)
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(phrases_key(english, i),
                                    phrases_key(english, k));
    for (const char *const *language = phrase_languages(); *language != NULL;
         language++) {
        const struct phrases *other = phrases_load(arena, *language);
        assert_int_equal(phrases_count(other), phrases_count(english));
        for (size_t i = 0; i < phrases_count(english); i++) {
            assert_string_equal(phrases_key(other, i),
                                phrases_key(english, i));
            assert_string_equal(names_in(arena, phrases_text(other, i)),
                                names_in(arena, phrases_text(english, i)));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_gaps_are_filled),
        cmocka_unit_test(test_languages_say_the_same),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
