/* Which definitions are sound. Stages keep that as they report; here it is held
 * against the places of the errors, which no stage asks for. */
#include <glob.h>

#include "../resolve/small.h"
#include "files.h"

#define TILE                                      \
    "<unit id=\"tile\" width=\"2\" height=\"2\">" \
    "<patch id=\"whole\" fabric=\"night\"/></unit>\n"
#define QUILT(inside) "<quilt id=\"throw\">" inside "</quilt>\n"

/* What is told of the quilting of a sewn top changes nothing of its cloth. */
static bool in_quilting(const struct element *element, uint32_t at)
{
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (child->kind == ELEMENT_QUILTING && at >= child->tag.start &&
            at < child->content.end)
            return true;
    }
    return false;
}

/* ensures: true where an error of its cloth lies between the definition's tags.
 */
static bool error_inside(const struct run *run,
                         const struct definition *definition)
{
    const struct element *element = definition->element;
    const struct diagnostic **sorted;
    for (size_t i = 0, all = diag_sorted(run, &sorted); i < all; i++) {
        const uint32_t at = sorted[i]->span.start;
        if (diag_entry(sorted[i]->code)->level == DIAG_ERROR &&
            at >= element->tag.start && at < element->content.end &&
            !in_quilting(element, at))
            return true;
    }
    return false;
}

static bool sound(const struct small *small, const char *id)
{
    const struct design *design = small->design;
    for (size_t i = 0; i < design->definitions.count; i++)
        if (strcmp(design->definitions.items[i]->id, id) == 0)
            return small->sized->sound[i];
    fail_msg("no definition %s", id);
    return false;
}

/* ---- every message there is ---- */

static size_t check_source(struct run *run, const char *name)
{
    const struct pattern *pattern = read_pattern(run);
    if (pattern == NULL)
        return 0; /* no tree, so no definitions */
    const struct design *design = resolve_pattern(run, pattern);
    const struct sized *sized = solve_design(run, design);
    size_t unsound = 0;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *definition = design->definitions.items[i];
        const bool inside = error_inside(run, definition);
        if (inside && sized->sound[i])
            fail_msg("%s: an error in `%s`, which is sound", name,
                     definition->id);
        if (!sized->sound[i] && diag_count(run, DIAG_ERROR) == 0)
            fail_msg("%s: `%s` is not sound without an error", name,
                     definition->id);
        unsound += !sized->sound[i];
    }
    return unsound;
}

/* The smallest broken source of each message: what is reported in a definition
 * makes it unsound. */
static void test_all_codes(void **state)
{
    (void)state;
    glob_t found;
    assert_int_equal(glob("tests/codes/*.xml", 0, NULL, &found), 0);
    size_t unsound = 0;
    for (size_t i = 0; i < found.gl_pathc; i++) {
        struct arena *arena = arena_create();
        const struct file_content file = file_read(arena, found.gl_pathv[i]);
        assert_int_equal(file.fault, FILE_OK);
        unsound += check_source(
            run_create(arena, source_create(arena, found.gl_pathv[i],
                                            file.bytes, file.length)),
            found.gl_pathv[i]);
        arena_destroy(arena);
    }
    assert_true(found.gl_pathc > 100);
    assert_true(unsound > 40);
    globfree(&found);
}

/* ---- one by one ---- */

static void test_sound(void **state)
{
    const struct small s =
        small_solve(*state, QUILT("<use unit=\"tile\"/>") TILE);
    expect_clean(&s);
    assert_true(sound(&s, "throw"));
    assert_true(sound(&s, "tile"));
}

/* Only the definition in which the error lies. */
static void test_only_there(void **state)
{
    static const struct {
        const char *body;
        bool quilt, tile;
    } cases[] = {
        /* read: text that has no place, though nothing lacks for sums */
        {QUILT("<row>x<use unit=\"tile\"/></row>") TILE, false, true},
        {QUILT(
             "<use unit=\"tile\"/>") "<unit id=\"tile\" width=\"2\" "
                                     "height=\"2\"><patch fabric=\"night\">"
                                     "<corner at=\"top-left\" fabric=\"glow\" "
                                     "size=\"1\" shine=\"1\"/>"
                                     "</patch></unit>",
         true, false},
        /* resolve: a press that is said twice; a name that stands twice */
        {QUILT("<row press=\"left\" toward=\"glow\"><use unit=\"tile\"/>"
               "</row>") TILE,
         false, true},
        {QUILT("<use id=\"whole\" unit=\"tile\"/>") TILE, true, false},
        /* solve: statements that do not hold */
        {QUILT("<use unit=\"tile\" finished=\"5\"/>") TILE, false, true},
        {QUILT("<use unit=\"tile\"/>") "<unit id=\"tile\" width=\"2\" "
                                       "height=\"2\"><patch count=\"3\" "
                                       "fabric=\"night\"/></unit>",
         true, false},
        {QUILT("<use unit=\"tile\"/><border fabric=\"glow\" width=\"1\" "
               "finished=\"5\"/>") TILE,
         false, true},
        {"<quilt id=\"throw\" finished=\"3\"><use unit=\"tile\"/></quilt>" TILE,
         false, true},
        {QUILT(
             "<row><patch fabric=\"glow\" width=\"2\"><corner at=\"top-left\" "
             "fabric=\"night\" size=\"3\"/></patch><use unit=\"tile\"/></row>")
             TILE,
         false, true},
        /* the sum is the quilt's, the size to mend is the unit's */
        {QUILT("<row width=\"5\"><use unit=\"tile\"/></row>") TILE, true,
         false},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_solve(*state, cases[i].body);
        if (sound(&s, "throw") != cases[i].quilt ||
            sound(&s, "tile") != cases[i].tile)
            small_show(&s);
        assert_int_equal(small_errors(&s), 1);
        assert_int_equal(sound(&s, "throw"), cases[i].quilt);
        assert_int_equal(sound(&s, "tile"), cases[i].tile);
    }
}

/* A name that is nowhere is told once; all that lacks it is not sound. */
static void test_told_elsewhere(void **state)
{
    const struct small s = small_solve(
        *state, QUILT("<row><patch fabric=\"nihgt\" width=\"1\" height=\"2\"/>"
                      "<use unit=\"tile\"/><use unit=\"two\"/></row>") TILE
        "<unit id=\"two\" width=\"2\" height=\"2\">"
        "<patch fabric=\"nihgt\"/></unit>");
    assert_int_equal(small_errors(&s), 1);
    assert_false(sound(&s, "throw"));
    assert_false(sound(&s, "two"));
    assert_true(sound(&s, "tile"));
}

/* A warning leaves it sound. */
static void test_warning(void **state)
{
    const struct small s = small_solve(
        *state, QUILT("<use block=\"b\" finished=\"1\"/>") "<block id=\"b\" "
                                                           "grid=\"3\"><patch "
                                                           "fabric=\"night\"/>"
                                                           "</block>");
    expect_clean(&s);
    assert_int_equal(small_count(&s, DIAG_RULER), 1);
    assert_true(sound(&s, "throw"));
    assert_true(sound(&s, "b"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_codes),
        cmocka_unit_test(test_sound),
        cmocka_unit_test(test_only_there),
        cmocka_unit_test(test_told_elsewhere),
        cmocka_unit_test(test_warning),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
