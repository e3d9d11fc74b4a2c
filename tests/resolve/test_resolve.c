/* Names, cycles, settings and doubles, through the public functions. */
#include "small.h"

#define TILE "<unit id=\"tile\" width=\"2\" height=\"2\">"                  \
             "<patch id=\"whole\" fabric=\"night\"/></unit>\n"
#define QUILT(inside) "<quilt id=\"throw\">" inside "</quilt>\n"

/* ---- names ---- */

static void test_bound(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<use id=\"it\" unit=\"tile\" turn=\"270\" "
                      "mirror=\"yes\"/>") TILE);
    expect_clean(&s);
    const struct definition *tile = design_find(s.design, "tile", DEFINE_UNIT);
    const struct piece *use = small_piece(&s, "it");
    assert_ptr_equal(use->target, tile);
    assert_true(tile->used);
    assert_int_equal(use->orientation.turn, 3);
    assert_true(use->orientation.mirror);
    assert_int_equal(small_piece(&s, "whole")->fabrics.items[0].fabric,
                     0);
    assert_null(design_find(s.design, "tile", DEFINE_BLOCK));
    assert_null(design_find(s.design, "tiles", DEFINE_UNIT));
}

/* Each unknown name is told once, at its value, with what is near. */
static void test_unknown_names(void **state)
{
    static const struct {
        const char *body, *context, *part, *near;
        enum diag_code code;
    } cases[] = {
        {QUILT("<patch width=\"1\" height=\"1\" fabric=\"nihgt\"/>"),
         "\"nihgt\"", "nihgt", "night", DIAG_UNKNOWN_FABRIC},
        {QUILT("<patch width=\"9\" height=\"9\" fabric=\"flame\"><corner "
               "at=\"top-left\" size=\"1\" fabric=\"flam\"/></patch>"),
         "\"flam\"", "flam", "flame", DIAG_UNKNOWN_FABRIC},
        {QUILT("<half-square size=\"2\" line=\"rising\" left=\"glo\" "
               "right=\"night\"/>"),
         "\"glo\"", "glo", "glow", DIAG_UNKNOWN_FABRIC},
        {QUILT("<row toward=\"glowe\"><use unit=\"tile\"/></row>") TILE,
         "glowe", "glowe", "glow", DIAG_UNKNOWN_FABRIC},
        {QUILT("<use unit=\"tyle\"/><binding fabric=\"night\"/>") TILE,
         "tyle", "tyle", "tile", DIAG_UNKNOWN_PIECE},
        {QUILT("<use unit=\"tile\"/><border width=\"1\" fabric=\"fflame\"/>")
             TILE, "fflame", "fflame", "flame", DIAG_UNKNOWN_FABRIC},
        {QUILT("<use unit=\"tile\"/>") TILE
         "<assembly of=\"thrwo\"><step make=\"tile\"/></assembly>",
         "thrwo", "thrwo", "throw", DIAG_UNKNOWN_PIECE},
        {QUILT("<use unit=\"tile\"/>") TILE
         "<assembly of=\"throw\"><step make=\"tiel\"/></assembly>",
         "tiel", "tiel", "tile", DIAG_UNKNOWN_PIECE},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_resolve(*state, cases[i].body);
        const struct diagnostic *d = expect_only(
            &s, cases[i].code, cases[i].context, cases[i].part);
        assert_non_null(d->replacement);
        assert_string_equal(d->replacement, cases[i].near);
        assert_int_equal(d->mend_span.end - d->mend_span.start,
                         strlen(cases[i].part));
    }
}

/* A unit is no block, and a name that nothing is near to gets the list. */
static void test_wrong_kind_and_far_name(void **state)
{
    struct small s = small_resolve(*state,
                                   QUILT("<use block=\"tile\"/>") TILE);
    expect_only(&s, DIAG_UNKNOWN_PIECE, "block=\"tile\"", "tile\"");
    s = small_resolve(*state, QUILT("<use unit=\"zeppelin\"/>") TILE);
    const struct diagnostic *d =
        expect_only(&s, DIAG_UNKNOWN_PIECE, "zeppelin", "zeppelin");
    assert_null(d->replacement);
    assert_true(says(d, "`tile`"));
}

static void test_use_of_nothing_or_both(void **state)
{
    struct small s = small_resolve(*state, QUILT("<use turn=\"90\"/>"));
    expect_only(&s, DIAG_MISSING_ATTRIBUTE, "<use turn", "use");
    s = small_resolve(*state,
                      QUILT("<use unit=\"tile\" block=\"tile\"/>") TILE);
    expect_only(&s, DIAG_MISSING_ATTRIBUTE, "<use unit", "use");
}

/* ---- definitions inside themselves ---- */

/* One message for each circle; solving must come to an end all the same. */
static void test_cycles(void **state)
{
    static const struct {
        const char *body, *context, *part;
    } cases[] = {
        {QUILT("<use unit=\"a\"/>")
         "<unit id=\"a\"><row><use unit=\"a\"/></row></unit>",
         "<row><use unit=\"a\"", "a\""},
        {QUILT("<use unit=\"a\"/>")
         "<unit id=\"a\"><use unit=\"b\"/></unit>"
         "<unit id=\"b\"><column><use unit=\"a\"/></column></unit>",
         "<column><use unit=\"a\"", "a\""},
        {QUILT("<use block=\"a\" finished=\"4\"/>")
         "<block id=\"a\" grid=\"2\"><use unit=\"b\"/></block>"
         "<unit id=\"b\"><use unit=\"c\"/></unit>"
         "<unit id=\"c\"><use block=\"a\"/></unit>",
         "<use block=\"a\"/>", "a\""},
        /* a circle that no quilt reaches */
        {QUILT("<use unit=\"tile\"/>") TILE
         "<unit id=\"a\"><use unit=\"b\"/></unit>"
         "<unit id=\"b\"><row><use unit=\"a\"/></row></unit>",
         "<row><use unit=\"a\"", "a\""},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_solve(*state, cases[i].body);
        expect_only(&s, DIAG_CYCLE, cases[i].context, cases[i].part);
    }
}

/* A diamond of uses is no circle. */
static void test_shared_is_no_cycle(void **state)
{
    const struct small s = small_solve(
        *state, QUILT("<row><use unit=\"a\"/><use unit=\"b\"/></row>") TILE
                "<unit id=\"a\"><use unit=\"tile\"/></unit>"
                "<unit id=\"b\"><use unit=\"tile\" turn=\"90\"/></unit>");
    expect_clean(&s);
    assert_int_equal(small_count(&s, DIAG_NOT_USED), 0);
}

static void test_not_used(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<use unit=\"tile\"/>") TILE
                "<unit id=\"spare\"><use unit=\"inner\"/></unit>"
                "<unit id=\"inner\"><patch fabric=\"glow\" width=\"1\" "
                "height=\"1\"/></unit>");
    /* What only `spare` uses is not told apart. */
    expect_only(&s, DIAG_NOT_USED, "<unit id=\"spare\"", "spare");
}

/* ---- grids and maps ---- */

#define KEYED                                                              \
    "<use key=\"L\" unit=\"tile\"/><patch key=\"p\" fabric=\"glow\"/>"

static void test_map(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<grid id=\"set\" across=\"5\" down=\"2\">" KEYED
                      "<map>\n"
                      " L L.90 L.180 L.270 p\n\tL.m L.m90  L.m180 L.m270 p.90"
                      "</map>\n</grid>") TILE);
    expect_clean(&s);
    const struct piece *set = small_piece(&s, "set");
    assert_int_equal(set->cells.count, 10);
    for (size_t i = 0; i < 10; i++) {
        const struct cell *cell = &set->cells.items[i];
        const bool patch = i % 5 == 4;
        assert_int_equal(cell->piece->kind, patch ? PIECE_PATCH : PIECE_USE);
        assert_int_equal(cell->orientation.turn,
                         i == 4 ? 0 : i == 9 ? 1 : i % 5);
        assert_int_equal(cell->orientation.mirror, i > 4 && !patch);
    }
    /* A cell points at its word. */
    const struct span word = set->cells.items[6].span;
    assert_int_equal(word.start, small_place(&s, "L.m90", "L.m90"));
    assert_int_equal(word.end - word.start, 5);
}

/* A word may stand right before the end tag, and that before another one. */
static void test_map_end(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<grid id=\"set\" across=\"2\" down=\"1\">" KEYED
                      "<map>L p</map></grid>") TILE);
    expect_clean(&s);
    assert_int_equal(small_piece(&s, "set")->cells.count, 2);
}

/* Two pieces of one grid cannot have the same letter. */
static void test_map_key_twice(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<grid across=\"2\" down=\"1\">" KEYED
                      "<patch key=\"L\" fabric=\"flame\"/>"
                      "<map>L p</map>\n</grid>") TILE);
    expect_only(&s, DIAG_DOUBLE_NAME, "key=\"L\" fabric", "L\"");
}

static void test_map_words(void **state)
{
    static const char *const wrong[] = {
        "X",    "L.45", "L.",    "L.mm",  "L90",   "L.90m", ".90",
        "LL",   "L.m.", "L.9",   "L.900", "l",     "L.M",   "L-90",
        "L.m91"};
    for (size_t i = 0; i < UNIT_COUNT(wrong); i++) {
        const char *body = arena_printf(
            *state, QUILT("<grid across=\"2\" down=\"1\">" KEYED
                          "<map>p %s</map>\n</grid>") TILE, wrong[i]);
        const struct small s = small_resolve(*state, body);
        expect_only(&s, DIAG_MAP, arena_printf(*state, "p %s<", wrong[i]),
                    wrong[i]);
    }
}

static void test_grid_counts(void **state)
{
    static const struct {
        const char *inside;
        size_t cells; /* 0 where the count is reported */
    } cases[] = {
        {"<use unit=\"tile\"/>", 6},
        {KEYED, 0},
        {KEYED KEYED KEYED, 6},
        {KEYED KEYED KEYED KEYED, 0},
        {KEYED "<map>L L L p p p</map>\n", 6},
        {KEYED "<map>L L L p p</map>\n", 0},
        {KEYED "<map>L L L p p p p</map>\n", 0},
        {KEYED "<map/>", 0},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const char *body = arena_printf(
            *state, QUILT("<grid id=\"set\" across=\"3\" down=\"2\">%s</grid>")
            TILE, cases[i].inside);
        const struct small s = small_resolve(*state, body);
        if (cases[i].cells == 0) {
            const bool map = strstr(cases[i].inside, "<map") != NULL;
            expect_only(&s, DIAG_GRID_COUNT, map ? "<map" : "<grid",
                        map ? "map" : "grid");
            continue;
        }
        expect_clean(&s);
        assert_int_equal(small_piece(&s, "set")->cells.count, cases[i].cells);
    }
}

static void test_grid_limit(void **state)
{
    struct small s = small_resolve(
        *state, QUILT("<grid across=\"10000\" down=\"10000\">"
                      "<use unit=\"tile\"/></grid>") TILE);
    expect_only(&s, DIAG_LIMIT, "<grid", "grid");
    s = small_resolve(*state, QUILT("<grid id=\"set\" across=\"200\" "
                                    "down=\"200\"><use unit=\"tile\"/></grid>")
                              TILE);
    expect_clean(&s);
    assert_int_equal(small_piece(&s, "set")->cells.count, 40000);
}

/* ---- the way of a strip ---- */

static void test_strip_way(void **state)
{
    const struct small s = small_resolve(
        *state,
        QUILT("<row><diagonal id=\"down\" line=\"rising\">"
              "<patch fabric=\"night\" height=\"2\"/><patch fabric=\"glow\"/>"
              "</diagonal><diagonal id=\"across\" line=\"falling\">"
              "<patch fabric=\"night\"/><patch fabric=\"glow\" width=\"2\"/>"
              "</diagonal></row>"));
    expect_clean(&s);
    assert_false(small_piece(&s, "down")->horizontal);
    assert_true(small_piece(&s, "across")->horizontal);
    assert_int_equal(small_piece(&s, "down")->line, LINE_RISING);
    assert_int_equal(small_piece(&s, "across")->line, LINE_FALLING);
}

/* ---- doubles ---- */

static void test_doubles(void **state)
{
    static const struct {
        const char *body, *context, *part;
    } cases[] = {
        {QUILT("<use unit=\"tile\"/>") TILE
         "<block id=\"tile\"><use unit=\"tile\"/></block>",
         "<block id=\"tile\"", "tile"},
        {QUILT("<use unit=\"tile\"/>") TILE "<colorway id=\"dusk\" name=\"2\">"
         "<cloth fabric=\"night\" color=\"#000000\"/>"
         "<cloth fabric=\"flame\" color=\"#000000\"/>"
         "<cloth fabric=\"glow\" color=\"#000000\"/></colorway>",
         "\"dusk\" name", "dusk"},
        {QUILT("<use unit=\"tile\"/>") TILE "<colorway id=\"dawn\">"
         "<cloth fabric=\"night\" color=\"#000000\"/>"
         "<cloth fabric=\"flame\" color=\"#000000\"/>"
         "<cloth fabric=\"glow\" color=\"#000000\"/>"
         "<cloth fabric=\"glow\" color=\"#ffffff\"/></colorway>",
         "\"glow\" color=\"#ffffff\"", "glow"},
        {QUILT("<use unit=\"tile\"/>") TILE
         "<assembly of=\"throw\"><step make=\"throw\"/></assembly>"
         "<assembly of=\"throw\"><step make=\"tile\"/></assembly>",
         "\"throw\"><step make=\"tile\"", "throw"},
        {QUILT("<use unit=\"tile\"/>") TILE
         "<fabrics><fabric id=\"flame\"/></fabrics>",
         "<fabric id=\"flame\"/>", "flame"},
    };
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct small s = small_resolve(*state, cases[i].body);
        const struct diagnostic *d = expect_at(
            &s, DIAG_DOUBLE_NAME, cases[i].context, cases[i].part);
        assert_int_equal(small_count(&s, DIAG_DOUBLE_NAME), 1);
        assert_int_equal(d->notes.count, 1);
        assert_true(d->notes.items[0].span.start < d->span.start);
    }
}

static void test_double_key(void **state)
{
    const struct small s = small_resolve(
        *state, "<fabrics><fabric id=\"straw\" key=\"n\"/></fabrics>"
                QUILT("<use unit=\"tile\"/>") TILE);
    expect_at(&s, DIAG_DOUBLE_NAME, "\"straw\" key=\"n\"", "n\"");
}

static void test_missing_cloth(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<use unit=\"tile\"/>") TILE "<colorway id=\"dawn\">"
                "<cloth fabric=\"night\" color=\"#000000\"/>"
                "<cloth fabric=\"glow\" color=\"#000000\"/></colorway>");
    const struct diagnostic *d =
        expect_only(&s, DIAG_MISSING_CLOTH, "\"dawn\"", "dawn");
    assert_true(says(d, "`flame`"));
}

/* A misspelt cloth is one mistake: it is perhaps the one that is missing. */
static void test_misspelt_cloth(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<use unit=\"tile\"/>") TILE "<colorway id=\"dawn\">"
                "<cloth fabric=\"night\" color=\"#000000\"/>"
                "<cloth fabric=\"flaem\" color=\"#000000\"/>"
                "<cloth fabric=\"glow\" color=\"#000000\"/></colorway>");
    expect_only(&s, DIAG_UNKNOWN_FABRIC, "flaem", "flaem");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bound),
        cmocka_unit_test(test_unknown_names),
        cmocka_unit_test(test_wrong_kind_and_far_name),
        cmocka_unit_test(test_use_of_nothing_or_both),
        cmocka_unit_test(test_cycles),
        cmocka_unit_test(test_shared_is_no_cycle),
        cmocka_unit_test(test_not_used),
        cmocka_unit_test(test_map),
        cmocka_unit_test(test_map_end),
        cmocka_unit_test(test_map_key_twice),
        cmocka_unit_test(test_map_words),
        cmocka_unit_test(test_grid_counts),
        cmocka_unit_test(test_grid_limit),
        cmocka_unit_test(test_strip_way),
        cmocka_unit_test(test_doubles),
        cmocka_unit_test(test_double_key),
        cmocka_unit_test(test_missing_cloth),
        cmocka_unit_test(test_misspelt_cloth),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
