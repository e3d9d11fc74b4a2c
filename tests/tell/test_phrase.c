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

/* One alone takes the first form; none, several and fractions the second. */
static void test_forms_go_with_their_number(void **state)
{
    static const struct {
        const char *count, *english, *german;
    } cases[] = {
        {"0", "0 fat quarters", "0 Fat Quarters"},
        {"1", "1 fat quarter", "1 Fat Quarter"},
        {"2", "2 fat quarters", "2 Fat Quarters"},
        {"11", "11 fat quarters", "11 Fat Quarters"},
        {"½", "½ fat quarters", "½ Fat Quarters"},
        {"1½", "1½ fat quarters", "1½ Fat Quarters"},
    };
    struct arena *arena = *state;
    const struct phrases *english = phrases_load(arena, "en");
    const struct phrases *german = phrases_load(arena, "de");
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *count = cases[i].count;
        assert_string_equal(
            arena_printf(arena, "%s %s", count,
                         say(arena, english, "sheet.fat-quarter", "count",
                             count, NULL)),
            cases[i].english);
        assert_string_equal(
            arena_printf(arena, "%s %s", count,
                         say(arena, german, "sheet.fat-quarter", "count",
                             count, NULL)),
            cases[i].german);
    }
}

/* A form may be empty, and stand beside its number or far from it. */
static void test_forms_stand_where_they_are_written(void **state)
{
    struct arena *arena = *state;
    const struct phrases *english = phrases_load(arena, "en");
    const struct phrases *german = phrases_load(arena, "de");
    assert_string_equal(say(arena, english, "cutting.strips", "count", "1",
                            "width", "2½ in", NULL),
                        "1 strip, 2½ in wide.");
    assert_string_equal(say(arena, english, "cutting.strips", "count", "3",
                            "width", "2½ in", NULL),
                        "3 strips, 2½ in wide.");
    assert_string_equal(say(arena, german, "cutting.whole", "count", "1",
                            "purpose", "Rand 1", NULL),
                        "Ganz lassen: Rand 1.");
    assert_string_equal(say(arena, german, "cutting.whole", "count", "3",
                            "purpose", "Rand 1", NULL),
                        "Alle ganz lassen: Rand 1.");
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
        cmocka_unit_test(test_forms_go_with_their_number),
        cmocka_unit_test(test_forms_stand_where_they_are_written),
        cmocka_unit_test(test_languages_say_the_same),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
