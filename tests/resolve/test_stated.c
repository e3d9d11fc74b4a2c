/* What elements state, as facts of the design: told apart are what is not
 * written, what could not be read, and what is known. */
#include "small.h"

#define TILE                                      \
    "<unit id=\"tile\" width=\"2\" height=\"3\">" \
    "<patch id=\"whole\" fabric=\"night\"/></unit>\n"
#define QUILT(inside) "<quilt id=\"throw\">" inside "</quilt>\n"
#define BLOCK(attributes, inside)              \
    QUILT("<use block=\"b\" finished=\"6\"/>") \
    "<block id=\"b\" " attributes ">" inside "</block>\n"

static void assert_absent(const struct stated *stated)
{
    assert_false(stated->written);
    assert_false(stated->usable);
    assert_false(rational_known(stated->value));
    assert_false(rational_known(stated->second));
}

/* Written where `text` lies in `context`, with this value. */
static void assert_stated(const struct small *small,
                          const struct stated *stated, const char *context,
                          const char *text, int64_t num, int64_t den)
{
    assert_true(stated->written);
    assert_true(stated->usable);
    assert_rational(stated->value, num, den);
    assert_string_equal(stated->text, text);
    assert_int_equal(stated->span.start, small_place(small, context, text));
    assert_int_equal(stated->span.end - stated->span.start, strlen(text));
}

static void assert_unreadable(const struct small *small,
                              const struct stated *stated, const char *context,
                              const char *text)
{
    assert_true(stated->written);
    assert_false(stated->usable);
    assert_false(rational_known(stated->value));
    assert_false(rational_known(stated->second));
    assert_int_equal(stated->span.start, small_place(small, context, text));
}

/* ---- pieces ---- */

static void test_piece_lengths(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<row><patch id=\"a\" fabric=\"night\" width=\"2 1/2\" "
                      "height=\"3 cm\" cut=\"3 x 4\" count=\"07\"/>"
                      "<half-square id=\"h\" line=\"rising\" left=\"night\" "
                      "right=\"glow\" size=\"4\"/></row>"));
    const struct piece *a = small_piece(&s, "a"), *h = small_piece(&s, "h");
    assert_stated(&s, &a->width, "width=\"2 1/2\"", "2 1/2", 5, 2);
    assert_false(a->width.has_unit);
    assert_stated(&s, &a->height, "height=\"3 cm\"", "3 cm", 150, 127);
    assert_true(a->height.has_unit);
    assert_stated(&s, &a->cut, "cut=\"3 x 4\"", "3 x 4", 3, 1);
    assert_rational(a->cut.second, 4, 1);
    assert_stated(&s, &a->count, "count=\"07\"", "07", 7, 1);
    assert_absent(&a->size);
    assert_absent(&a->finished);
    assert_absent(&a->unfinished);
    assert_stated(&s, &h->size, "size=\"4\"", "4", 4, 1);
    assert_absent(&h->width);
    assert_absent(&h->count);
}

static void test_piece_sizes(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<row><use id=\"u\" unit=\"tile\" finished=\"6\" "
                      "unfinished=\"6 1/2 x 7 in\"/></row>") TILE);
    const struct piece *u = small_piece(&s, "u");
    assert_stated(&s, &u->finished, "finished=\"6\"", "6", 6, 1);
    assert_rational(u->finished.second, 6, 1);
    assert_stated(&s, &u->unfinished, "unfinished=\"6", "6 1/2 x 7 in", 13, 2);
    assert_rational(u->unfinished.second, 7, 1);
    assert_true(u->unfinished.has_unit);
}

/* Written, but nothing that a sum may take. A length that is known and still
 * none, as it is below 0, is unknown here too. */
static void test_unreadable(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<patch id=\"a\" fabric=\"night\" width=\"wide\" "
                      "height=\"-2\" cut=\"3 x\" count=\"0\"/>"));
    const struct piece *a = small_piece(&s, "a");
    assert_unreadable(&s, &a->width, "\"wide\"", "wide");
    assert_unreadable(&s, &a->height, "\"-2\"", "-2");
    assert_unreadable(&s, &a->cut, "\"3 x\"", "3 x");
    assert_unreadable(&s, &a->count, "count=\"0\"", "0");
}

static void test_names_and_turns(void **state)
{
    const struct small s = small_resolve(
        *state,
        QUILT("<row><use id=\"plain\" unit=\"tile\"/>"
              "<use id=\"turned\" unit=\"tile\" turn=\"0\"/>"
              "<use id=\"mirrored\" unit=\"tile\" mirror=\"no\"/>"
              "<use unit=\"tile\" mirror=\"yes\" turn=\"90\"/></row>") TILE);
    expect_clean(&s);
    const struct piece *plain = small_piece(&s, "plain");
    assert_false(plain->turn_written || plain->mirror_written);
    const struct piece *turned = small_piece(&s, "turned");
    assert_true(turned->turn_written && !turned->mirror_written);
    const struct piece *mirrored = small_piece(&s, "mirrored");
    assert_true(!mirrored->turn_written && mirrored->mirror_written);
    const struct piece *both = s.design->pieces.items[mirrored->index + 1];
    assert_null(both->id);
    assert_true(both->turn_written && both->mirror_written);
}

static void test_press(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<row><row id=\"side\" press=\"left\">"
                      "<use unit=\"tile\"/></row><row id=\"cloth\" "
                      "toward=\"glow\"><use unit=\"tile\"/></row></row>") TILE);
    expect_clean(&s);
    const struct press *side = &small_piece(&s, "side")->press;
    assert_int_equal(side->side, PRESS_LEFT);
    assert_string_equal(side->word, "left");
    assert_int_equal(side->span.start, small_place(&s, "\"left\"", "left"));
    const struct press *cloth = &small_piece(&s, "cloth")->press;
    assert_int_equal(cloth->side, PRESS_TOWARD_FABRIC);
    assert_string_equal(cloth->word, "glow");
    assert_int_equal(cloth->span.start,
                     small_place(&s, "toward=\"glow\"", "glow"));
}

static void test_corners(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<patch id=\"a\" fabric=\"night\">"
                      "<corner at=\"top-left\" fabric=\"glow\" size=\"2 in\" "
                      "cut=\"2 1/2\" line=\"falling\"/>"
                      "<corner at=\"top-right\" fabric=\"glow\" size=\"1\"/>"
                      "<corner at=\"middle\" fabric=\"glow\" size=\"big\" "
                      "line=\"rising\"/></patch>"));
    const struct piece *a = small_piece(&s, "a");
    assert_int_equal(a->corners.count, 3);
    const struct corner *corner = a->corners.items;
    assert_rational(corner->size, 2, 1);
    assert_stated(&s, &corner->stated_size, "size=\"2 in\"", "2 in", 2, 1);
    assert_true(corner->stated_size.has_unit);
    assert_stated(&s, &corner->cut, "cut=\"2 1/2\"", "2 1/2", 5, 2);
    assert_rational(corner->cut.second, 5, 2);
    assert_true(corner->line_stated);
    assert_int_equal(corner->line, LINE_FALLING);
    corner++;
    assert_absent(&corner->cut);
    assert_false(corner->line_stated);
    /* A line says nothing beside a place that could not be read. */
    corner++;
    assert_unreadable(&s, &corner->stated_size, "\"big\"", "big");
    assert_false(rational_known(corner->size));
    assert_false(corner->line_stated);
}

/* ---- definitions ---- */

static void test_definitions(void **state)
{
    struct small s =
        small_resolve(*state, "<quilt id=\"throw\" finished=\"60 x 72\">"
                              "<use unit=\"tile\"/></quilt>" TILE);
    const struct definition *tile = design_find(s.design, "tile", DEFINE_UNIT);
    assert_stated(&s, &tile->width, "width=\"2\"", "2", 2, 1);
    assert_stated(&s, &tile->height, "height=\"3\"", "3", 3, 1);
    assert_absent(&tile->finished);
    assert_false(tile->gridded);
    const struct definition *quilt =
        design_find(s.design, "throw", DEFINE_QUILT);
    assert_stated(&s, &quilt->finished, "finished=", "60 x 72", 60, 1);
    assert_rational(quilt->finished.second, 72, 1);
    s = small_resolve(*state, BLOCK("grid=\"6 x 4\" width=\"six\"",
                                    "<patch fabric=\"night\"/>"));
    const struct definition *b = design_find(s.design, "b", DEFINE_BLOCK);
    assert_true(b->gridded);
    assert_rational(b->grid_across, 6, 1);
    assert_rational(b->grid_down, 4, 1);
    assert_unreadable(&s, &b->width, "\"six\"", "six");
    s = small_resolve(*state, BLOCK("grid=\"?\"", "<patch fabric=\"night\"/>"));
    b = design_find(s.design, "b", DEFINE_BLOCK);
    assert_true(b->gridded); /* its lengths were meant as squares */
    assert_false(rational_known(b->grid_across));
}

static void test_borders_and_layers(void **state)
{
    struct small s = small_resolve(
        *state,
        QUILT("<use unit=\"tile\"/>"
              "<border fabric=\"night\" width=\"2\" finished=\"6 x 7\"/>"
              "<border fabric=\"glow\" width=\"?\" grain=\"lengthwise\" "
              "unfinished=\"9\"/>"
              "<backing fabric=\"glow\" overage=\"3\"/>"
              "<batting max-gap=\"8\" overage=\"2 1/2\"/>"
              "<binding fabric=\"flame\" width=\"2 1/4\"/>") TILE);
    const struct definition *quilt =
        design_find(s.design, "throw", DEFINE_QUILT);
    const struct border *border = quilt->borders.items;
    assert_rational(border->width, 2, 1);
    assert_false(border->lengthwise);
    assert_stated(&s, &border->finished, "\"6 x 7\"", "6 x 7", 6, 1);
    assert_absent(&border->unfinished);
    border++;
    assert_false(rational_known(border->width));
    assert_true(border->lengthwise);
    assert_stated(&s, &border->unfinished, "unfinished=\"9\"", "9", 9, 1);
    assert_rational(quilt->backing_overage, 3, 1);
    assert_rational(quilt->batting_overage, 5, 2);
    assert_rational(quilt->batting_gap, 8, 1);
    assert_rational(quilt->binding_width, 9, 4);
    s = small_resolve(*state, QUILT("<use unit=\"tile\"/>"
                                    "<backing fabric=\"glow\"/><batting/>"
                                    "<binding fabric=\"flame\"/>") TILE);
    quilt = design_find(s.design, "throw", DEFINE_QUILT);
    assert_false(rational_known(quilt->backing_overage));
    assert_false(rational_known(quilt->batting_overage));
    assert_false(rational_known(quilt->batting_gap));
    assert_false(rational_known(quilt->binding_width));
}

static void test_pictures(void **state)
{
    struct small s = small_resolve(
        *state, BLOCK("grid=\"2\"", "<patch fabric=\"night\"/>"
                                    "<picture cells=\"4\">n</picture>"));
    const struct definition *b = design_find(s.design, "b", DEFINE_BLOCK);
    assert_int_equal(b->picture_cells, 4);
    assert_int_equal(b->shapes.count, 0);
    s = small_resolve(
        *state, BLOCK("grid=\"2\"",
                      "<patch fabric=\"night\"/><picture>"
                      "<shape fabric=\"night\" points=\"0,0 2,0 1/2,3/2\"/>"
                      "<shape fabric=\"glow\" points=\"0,0 2\"/></picture>"));
    b = design_find(s.design, "b", DEFINE_BLOCK);
    assert_int_equal(b->picture_cells, 0);
    assert_int_equal(b->shapes.count, 2);
    const struct picture_shape *shape = b->shapes.items;
    assert_int_equal(shape->point_count, 3);
    assert_rational(shape->points[2], 2, 1);
    assert_rational(shape->points[4], 1, 2);
    assert_rational(shape->points[5], 3, 2);
    assert_null(shape[1].points);
}

/* ---- cloth, steps, words ---- */

static void test_amounts(void **state)
{
    const struct small s = small_resolve(
        *state, QUILT("<use unit=\"tile\"/>") TILE
        "<colorway id=\"dawn\">"
        "<cloth fabric=\"night\" color=\"#000000\" yards=\"1/2, 1 3/8\"/>"
        "<cloth fabric=\"flame\" color=\"#000000\" fat-quarters=\"3\"/>"
        "<cloth fabric=\"glow\" color=\"#000000\" sheets=\"few\"/>"
        "</colorway>");
    const struct bolt *bolts = s.design->colorways.items[1].bolts;
    const struct stated_amounts *yards = &bolts[0].yards;
    assert_int_equal(yards->count, 2);
    assert_rational(yards->items[0], 1, 2);
    assert_rational(yards->items[1], 11, 8);
    assert_int_equal(yards->name.start, small_place(&s, "yards=", "yards"));
    assert_int_equal(yards->span.start, small_place(&s, "\"1/2, ", "1/2"));
    assert_null(bolts[0].fat_quarters.items);
    assert_int_equal(bolts[1].fat_quarters.count, 1);
    assert_rational(bolts[1].fat_quarters.items[0], 3, 1);
    assert_null(bolts[1].yards.items);
    assert_null(bolts[2].sheets.items);
}

static void test_steps_and_words(void **state)
{
    const struct small s =
        small_resolve(*state, QUILT("<use unit=\"tile\"/>") TILE
                      "<assembly of=\"throw\"><step make=\"tile\" count=\"1\">"
                      "<say>Cut <qty of=\"whole\"/>.</say></step>"
                      "<step make=\"tail\"/></assembly>");
    const struct assembly *assembly = s.design->assemblies.items;
    assert_string_equal(assembly->steps.items[0].name, "tile");
    assert_string_equal(assembly->steps.items[1].name, "tail");
    assert_null(assembly->steps.items[1].make);
    const struct words *words = assembly->steps.items[0].says.items[0];
    assert_string_equal(words->references.items[0].name, "whole");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_piece_lengths),
        cmocka_unit_test(test_piece_sizes),
        cmocka_unit_test(test_unreadable),
        cmocka_unit_test(test_names_and_turns),
        cmocka_unit_test(test_press),
        cmocka_unit_test(test_corners),
        cmocka_unit_test(test_definitions),
        cmocka_unit_test(test_borders_and_layers),
        cmocka_unit_test(test_pictures),
        cmocka_unit_test(test_amounts),
        cmocka_unit_test(test_steps_and_words),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
