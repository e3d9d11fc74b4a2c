/* What an `include` brings in: where it stands, what it belongs to, and that no
 * file is read twice, neither for one source nor for a change of it. */
#define _DEFAULT_SOURCE /* mkdtemp */

#include "reading.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#define ROOT "<shared xmlns=\"urn:seamwright:pattern:1\">"
#define PATTERN                                             \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"p\" " \
    "title=\"Tide\" units=\"cm\">"
#define FABRICS "<fabrics><fabric id=\"foam\"/></fabrics>"
#define COLORWAY                                                      \
    "<colorway id=\"day\"><cloth fabric=\"foam\" color=\"#88aabb\"/>" \
    "</colorway>"
#define UNIT(id) \
    "<unit id=\"" id "\" width=\"4 in\"><patch fabric=\"foam\"/></unit>"
#define QUILT "<quilt id=\"mat\"><patch fabric=\"foam\"/></quilt>"

/* A folder of files that goes at the end of the test. */
struct folder {
    char *path;
    struct arena *arena;
    LIST(const char *) files;
};

static struct folder folder_of(void **state)
{
    const char *place = getenv("BUILD");
    struct folder folder = {.arena = *state};
    folder.path =
        arena_printf(*state, "%s/include-XXXXXX", place == NULL ? "." : place);
    assert_non_null(mkdtemp(folder.path));
    assert_int_equal(mkdir(arena_printf(*state, "%s/parts", folder.path), 0700),
                     0);
    return folder;
}

static const char *put(struct folder *folder, const char *name,
                       const char *text)
{
    const char *path = arena_printf(folder->arena, "%s/%s", folder->path, name);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
    *LIST_ADD(folder->arena, &folder->files) = path;
    return path;
}

static void empty(struct folder *folder)
{
    for (size_t i = 0; i < folder->files.count; i++)
        unlink(folder->files.items[i]);
    folder->files.count = 0;
}

static void discard(struct folder *folder)
{
    empty(folder);
    rmdir(arena_printf(folder->arena, "%s/parts", folder->path));
    assert_int_equal(rmdir(folder->path), 0);
}

static struct reading read_file(struct folder *folder, const char *text)
{
    const char *path = put(folder, "tide.xml", text);
    struct reading reading = {
        .run = run_create(folder->arena, source_create(folder->arena, path,
                                                       text, strlen(text)))};
    reading.pattern = read_pattern(reading.run);
    return reading;
}

/* "fabrics unit:a unit:b ..." of the root's children. */
static const char *children(struct folder *folder, struct reading reading)
{
    const char *text = "";
    const struct element *root = reading.pattern->root;
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *child = root->children.items[i];
        assert_ptr_equal(child->parent, root);
        assert_int_equal(child->place, i);
        text = arena_printf(folder->arena, "%s%s%s%s%s", text,
                            i == 0 ? "" : " ", element_name(child->kind),
                            written_value(child, ATTR_ID) == NULL ? "" : ":",
                            text_of(child, ATTR_ID, ""));
    }
    return text;
}

static void test_in_the_place_of_the_include(void **state)
{
    struct folder folder = folder_of(state);
    put(&folder, "parts/blocks.xml",
        ROOT UNIT("b") "<include href=\"units.xml\"/>" UNIT("d") "</shared>");
    put(&folder, "parts/units.xml",
        ROOT UNIT("c") "<include href=\"../fabrics.xml\"/></shared>");
    put(&folder, "fabrics.xml", ROOT FABRICS COLORWAY "</shared>");
    const struct reading reading = read_file(
        &folder, PATTERN UNIT("a") "<include href=\"parts/blocks.xml\"/>" UNIT(
                     "e") QUILT "</pattern>");
    assert_sound(reading);
    assert_string_equal(children(&folder, reading),
                        "unit:a include unit:b include unit:c include fabrics "
                        "colorway:day unit:d unit:e quilt:mat");
    const struct source *source = reading.run->source;
    assert_int_equal(source->parts.count, 4);
    assert_string_equal(
        source->parts.items[2].name,
        arena_printf(*state, "%s/parts/units.xml", folder.path));
    /* Lengths of all files are in the unit of the pattern. */
    const struct element *unit = reading.pattern->root->children.items[4];
    assert_int_equal(source_part(source, unit->tag.start) - source->parts.items,
                     2);
    assert_true(rational_equal(value_of(unit, ATTR_WIDTH)->number,
                               rational_make(1016, 100)));
    discard(&folder);
}

static void test_named_by_two_files(void **state)
{
    struct folder folder = folder_of(state);
    put(&folder, "parts/a.xml",
        ROOT "<include href=\"fabrics.xml\"/>" UNIT("a") "</shared>");
    put(&folder, "parts/b.xml",
        ROOT "<include href=\"./fabrics.xml\"/>" UNIT("b") "</shared>");
    put(&folder, "parts/fabrics.xml", ROOT FABRICS COLORWAY "</shared>");
    const struct reading reading =
        read_file(&folder, PATTERN "<include href=\"parts/a.xml\"/>"
                                   "<include href=\"parts/b.xml\"/>"
                                   "<include href=\"parts/fabrics.xml\"/>" QUILT
                                   "</pattern>");
    assert_sound(reading);
    assert_string_equal(children(&folder, reading),
                        "include include fabrics colorway:day unit:a include "
                        "include unit:b include quilt:mat");
    assert_int_equal(reading.run->source->parts.count, 4);
    discard(&folder);
}

/* A change of one file, with all files gone. */
static void test_a_change_reads_no_file(void **state)
{
    struct folder folder = folder_of(state);
    put(&folder, "parts/units.xml", ROOT FABRICS UNIT("a") "</shared>");
    put(&folder, "cloth.xml", ROOT COLORWAY "</shared>");
    const struct reading reading = read_file(
        &folder, PATTERN "<include href=\"parts/units.xml\"/>"
                         "<include href=\"cloth.xml\"/>" QUILT "</pattern>");
    assert_sound(reading);
    empty(&folder);
    const struct element *unit = reading.pattern->root->children.items[2];
    const struct span id = value_span(unit, ATTR_ID);
    struct reading changed = {
        .run = run_create(*state, source_changed(*state, reading.run->source,
                                                 id, "another"))};
    changed.pattern = read_pattern(changed.run);
    assert_sound(changed);
    assert_string_equal(children(&folder, changed),
                        "include fabrics unit:another include colorway:day "
                        "quilt:mat");
    assert_int_equal(changed.run->source->parts.count, 3);
    discard(&folder);
}

/* What lacks in one file is told beside what lacks in another, and nothing else
 * of what comes of it. */
static void test_several_that_lack(void **state)
{
    struct folder folder = folder_of(state);
    put(&folder, "broken.xml", ROOT "<unit></shared>");
    const struct reading reading =
        read_file(&folder, PATTERN "<include href=\"lost.xml\"/>"
                                   "<include href=\"broken.xml\"/>"
                                   "<include href=\"../up.xml\"/>"
                                   "<include/>" QUILT "</pattern>");
    assert_null(reading.pattern);
    assert_int_equal(diag_count(reading.run, DIAG_ERROR), 4);
    assert_int_equal(diagnostic_at(reading, 0)->code, DIAG_INCLUDE);
    assert_int_equal(diagnostic_at(reading, 1)->code, DIAG_INCLUDE);
    assert_int_equal(diagnostic_at(reading, 2)->code, DIAG_MISSING_ATTRIBUTE);
    assert_int_equal(diagnostic_at(reading, 3)->code, DIAG_XML_SYNTAX);
    discard(&folder);
}

/* Text between elements is found in its own file, behind what came in. */
static void test_stray_text_behind_an_include(void **state)
{
    struct folder folder = folder_of(state);
    put(&folder, "units.xml", ROOT FABRICS COLORWAY UNIT("a") "</shared>");
    const char text[] =
        PATTERN "\n<include href=\"units.xml\"/> stray " QUILT "</pattern>";
    const struct reading reading = read_file(&folder, text);
    assert_one_error(reading, DIAG_STRAY_TEXT, 2, 29);
    discard(&folder);
}

static void test_a_list_of_fabrics_in_each_file(void **state)
{
    struct folder folder = folder_of(state);
    put(&folder, "more.xml",
        ROOT "<fabrics><fabric id=\"sand\"/></fabrics></shared>");
    const struct reading reading =
        read_file(&folder, PATTERN FABRICS
                  "<include href=\"more.xml\"/>" COLORWAY QUILT "</pattern>");
    assert_sound(reading);
    const struct reading twice = read_file(
        &folder, PATTERN FABRICS
        "<include href=\"more.xml\"/>" FABRICS COLORWAY QUILT "</pattern>");
    assert_int_equal(diag_count(twice.run, DIAG_ERROR), 1);
    assert_int_equal(diagnostic_at(twice, 0)->code, DIAG_UNKNOWN_ELEMENT);
    discard(&folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_in_the_place_of_the_include),
        cmocka_unit_test(test_named_by_two_files),
        cmocka_unit_test(test_a_change_reads_no_file),
        cmocka_unit_test(test_several_that_lack),
        cmocka_unit_test(test_stray_text_behind_an_include),
        cmocka_unit_test(test_a_list_of_fabrics_in_each_file),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
