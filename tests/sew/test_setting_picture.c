/* Settings held to the picture of the quilt: a map and a picture that are drawn
 * from the same words agree, and each change of one word of the map that
 * changes the cloth is told. Random; SETTINGS=1000 in the environment makes
 * that many.
 */
#include <stdlib.h>

#include "buffer.h"
#include "design_faces.h"
#include "geometry.h"
#include "sewer.h"

enum { ACROSS = 4, DOWN_MOST = 3 };

static unsigned next_random(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % below;
}

static const char *const words[] = {"A",      "A.90",  "A.180", "A.270",
                                    "A.m",    "A.m90", "B",     "B.90",
                                    "B.m180", "P",     "Q"};
enum { WORDS = 11 };

struct setting {
    unsigned down;
    unsigned map[ACROSS * DOWN_MOST];
    bool sashed;
};

/* P and Q are plain cloth, which the picture tells by the letters of the
 * fabrics where all columns are alike; beside strips by their keys, which have
 * a size.
 */
static const char *pictured(const struct setting *s, const char *word)
{
    return s->sashed        ? word
           : word[0] == 'P' ? "n"
           : word[0] == 'Q' ? "g"
                            : word;
}

static void add_row(struct buffer *text, const char *const *row, bool sashed)
{
    for (int i = 0; i < ACROSS; i++)
        buffer_printf(text, "%s%s ", i > 0 && sashed ? "f " : "", row[i]);
    buffer_text(text, "\n");
}

/* One unit looks another way in each of its eight ways, the other only in four;
 * each piece lies in the first row. */
static const char *source_of(struct arena *arena, const struct setting *s,
                             const unsigned *map)
{
    const char *const first[] = {"A", "B", pictured(s, "P"), pictured(s, "Q")};
    static const char *const strip[] = {"f", "f", "f", "f"};
    struct buffer text = buffer_in(arena);
    buffer_printf(
        &text,
        "<unit id=\"a\"><column><row><patch fabric=\"night\" width=\"1\" "
        "height=\"2\"/><patch fabric=\"flame\" width=\"3\"/></row><patch "
        "fabric=\"glow\" height=\"2\"/></column></unit><unit id=\"b\" "
        "width=\"4\" height=\"4\"><half-square line=\"rising\" left=\"night\" "
        "right=\"flame\"/></unit><quilt id=\"mat\"><grid across=\"%d\" "
        "down=\"%u\"><use key=\"A\" unit=\"a\"/><use key=\"B\" unit=\"b\"/>"
        "<patch key=\"P\" fabric=\"night\" width=\"4\" height=\"4\"/><patch "
        "key=\"Q\" fabric=\"glow\" width=\"4\" height=\"4\"/><map>A B P Q ",
        ACROSS, s->down + 1);
    for (unsigned i = 0; i < ACROSS * s->down; i++)
        buffer_printf(&text, "%s ", words[map[i]]);
    buffer_printf(&text, "</map>%s</grid><picture>",
                  s->sashed ? "<sashing fabric=\"flame\" width=\"1\"/>" : "");
    add_row(&text, first, s->sashed);
    for (unsigned row = 0; row < s->down; row++) {
        const char *cells[ACROSS];
        for (unsigned i = 0; i < ACROSS; i++)
            cells[i] = pictured(s, words[s->map[row * ACROSS + i]]);
        if (s->sashed)
            add_row(&text, strip, true);
        add_row(&text, cells, s->sashed);
    }
    buffer_text(&text, "</picture></quilt>");
    return buffer_string(&text);
}

static const struct cloth *drawn(struct arena *arena, const struct small *small)
{
    return design_faces(arena, small->sized,
                        design_find(small->design, "mat", DEFINE_QUILT)->root,
                        NULL, 0);
}

/* ensures: errors that the picture has to tell of. */
static size_t look(struct small *small)
{
    check_pictures(small->run, small->sized);
    return small_errors(small);
}

static void test_a_setting_is_held_to_its_picture(void **state)
{
    const char *asked = getenv("SETTINGS");
    const int settings = asked == NULL ? 30 : atoi(asked);
    unsigned random = 11;
    size_t seen = 0;
    for (int n = 0; n < settings; n++) {
        struct arena *arena = arena_create();
        struct setting s = {.down = 1 + next_random(&random, DOWN_MOST),
                            .sashed = next_random(&random, 2) == 1};
        for (unsigned i = 0; i < ACROSS * DOWN_MOST; i++)
            s.map[i] = next_random(&random, WORDS);
        struct small right = small_solve(arena, source_of(arena, &s, s.map));
        assert_int_equal(look(&right), 0);
        unsigned map[ACROSS * DOWN_MOST];
        memcpy(map, s.map, sizeof map);
        map[next_random(&random, ACROSS * s.down)] =
            next_random(&random, WORDS);
        struct small wrong = small_solve(arena, source_of(arena, &s, map));
        const bool same =
            same_cloth(arena, drawn(arena, &right), drawn(arena, &wrong));
        assert_int_equal(look(&wrong) == 0, same);
        seen += !same;
        arena_destroy(arena);
    }
    assert_true(seen > (size_t)settings / 2);
    (void)state;
}

#define QUILT(row, picture)                                    \
    "<unit id=\"fin\" width=\"4\" height=\"4\"><half-square "  \
    "line=\"rising\" left=\"night\" right=\"flame\"/></unit>"  \
    "<unit id=\"gill\" width=\"4\" height=\"4\"><half-square " \
    "line=\"rising\" left=\"glow\" right=\"flame\"/></unit>"   \
    "<quilt id=\"mat\"><row>" row "</row><picture>" picture    \
    "</picture></quilt>"

/* A turn, a sibling left out, one too many, a plain piece of another
 * fabric, a mirror: each is told. */
static void test_what_is_not_the_picture(void **state)
{
    static const char *const rows[] = {
        "<use key=\"F\" unit=\"fin\" turn=\"180\"/><patch fabric=\"night\" "
        "width=\"2\"/>",
        "<use key=\"F\" unit=\"fin\"/>",
        "<use key=\"F\" unit=\"fin\"/><use unit=\"fin\"/><patch "
        "fabric=\"night\" width=\"2\"/>",
        "<use key=\"F\" unit=\"fin\"/><patch fabric=\"glow\" width=\"2\"/>",
        "<use key=\"F\" unit=\"fin\" mirror=\"yes\"/><patch fabric=\"night\" "
        "width=\"2\"/>",
        "<patch fabric=\"night\" width=\"2\"/><use key=\"F\" unit=\"fin\"/>"};
    for (size_t i = 0; i < UNIT_COUNT(rows); i++) {
        char source[2000];
        snprintf(source, sizeof source, QUILT("%s", "F n"), rows[i]);
        struct small small = small_solve(*state, source);
        assert_true(look(&small) > 0);
    }
}

/* Where a piece is drawn turned or mirrored, the picture tells how it lies. */
static void test_a_key_is_the_piece_as_it_was_drawn(void **state)
{
    struct small small = small_solve(
        *state, QUILT("<use key=\"F\" unit=\"fin\" turn=\"90\"/><use "
                      "key=\"F\" unit=\"fin\"/>",
                      "F.90 F"));
    assert_int_equal(look(&small), 0);
}

/* With its borders: another fabric of one is seen, as polygons and as cells. */
static void test_borders_are_in_the_picture(void **state)
{
    static const char *const pictures[] = {
        "<picture borders=\"yes\">\ng g g\ng P g\ng g g\n</picture>",
        "<picture borders=\"yes\" cells=\"3\">\ng g g\ng n g\ng g g\n"
        "</picture>",
        "<picture borders=\"yes\"><shape fabric=\"glow\" points=\"0,0 6,0 "
        "6,6 0,6\"/><shape fabric=\"night\" points=\"2,2 4,2 4,4 2,4\"/>"
        "</picture>"};
    for (size_t i = 0; i < UNIT_COUNT(pictures); i++)
        for (int wrong = 0; wrong < 2; wrong++) {
            char source[1000];
            snprintf(source, sizeof source,
                     "<quilt id=\"mat\"><patch key=\"P\" fabric=\"night\" "
                     "width=\"2\" height=\"2\"/>%s<border fabric=\"%s\" "
                     "width=\"2\"/></quilt>",
                     pictures[i], wrong ? "flame" : "glow");
            struct small small = small_solve(*state, source);
            assert_int_equal(look(&small) > 0, wrong);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_setting_is_held_to_its_picture),
        cmocka_unit_test(test_what_is_not_the_picture),
        cmocka_unit_test(test_a_key_is_the_piece_as_it_was_drawn),
        cmocka_unit_test(test_borders_are_in_the_picture),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
