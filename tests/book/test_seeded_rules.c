/* Checks of the rules of a printed page that are held by every sample find what
 * they are for, too: a booklet is damaged in memory and looked at again. */
#include "check_rules.h"
#include "check_structure.h"
#include "check_words.h"
#include "damage.h"

/* ---- words ---- */

static void send_to_a_page(struct visit *visit)
{
    say_instead(visit, "Sew as you did, see page 4.");
}

static void write_decimals(struct visit *visit)
{
    say_instead(visit, "It is 2.5\u00a0in wide.");
}

static void write_slashes(struct visit *visit)
{
    say_instead(visit, "It is 21/2\u00a0in wide.");
}

static void write_shall(struct visit *visit)
{
    say_instead(visit, "You shall sew.");
}

static void write_passively(struct visit *visit)
{
    say_instead(visit, "The seam is sewn from the left.");
}

static void write_much(struct visit *visit)
{
    say_instead(visit, "Sew one and two and three and four and five and six "
                       "and seven and eight and nine and ten and eleven and "
                       "twelve.");
}

static void tell_what_to_avoid(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++)
            if (is_caption(item_of(visit, p, i)))
                item_of(visit, p, i)->as.text.text = "Do not sew.";
}

static void begin_otherwise(struct visit *visit)
{
    struct item *letter = first_of(visit, PAGE_SEWING, is_frame_letter);
    while (!is_caption(letter))
        letter++;
    letter->as.text.text = "The parts lie there.";
}

/* ---- figures ---- */

static void mix_units(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, true, false);
    struct item *size = item_of(visit, drawn.page, drawn.first);
    while (!is_dimension(size))
        size++;
    size->as.text.text = "5\u00a0cm";
}

static void tilt_a_line_label(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, false, false);
    struct item *label = item_of(visit, drawn.page, drawn.first);
    while (!is_label(label) || !is_direction(visit, label->as.text.text))
        label++;
    label->as.text.angle += 20.0;
}

static bool is_outline(const struct item *item)
{
    return item->kind == ITEM_PATH && item->as.path.role == ROLE_OUTLINE &&
           item->as.path.stroke > 0.0;
}

static void thin_an_outline(struct visit *visit)
{
    first_of(visit, PAGE_CUTTING, is_outline)->as.path.stroke = LINE_FINE;
}

/* Down to the cloth. */
static void lengthen_extensions(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, true, false);
    const struct reach reach = reach_of_faces(&drawn, WHOLE);
    for (size_t i = drawn.first; i < drawn.last; i++) {
        struct path_item *path = &item_of(visit, drawn.page, i)->as.path;
        if (item_of(visit, drawn.page, i)->kind != ITEM_PATH ||
            path->count != 2 || path->points[0].x != path->points[1].x ||
            path->points[0].y > reach.top)
            continue;
        struct point *points = ARENA_ARRAY(visit->all->arena, struct point, 2);
        points[0] = (struct point){path->points[0].x, reach.top};
        points[1] = path->points[1];
        path->points = points;
    }
}

static void hide_a_part(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, false, true);
    const struct path_item *first = &drawn.paths.items[0]->as.path;
    const size_t last = drawn.state->faces.count - 1;
    struct path_item *path = NULL;
    for (size_t i = drawn.first; i < drawn.last; i++)
        if (item_of(visit, drawn.page, i) == drawn.paths.items[last])
            path = &item_of(visit, drawn.page, i)->as.path;
    assert_non_null(path);
    path->points = first->points;
    path->count = first->count;
}

static void forget_words(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, false, false);
    item_of(visit, drawn.page, drawn.first - 1)->as.tag.alternative = "";
}

/* ---- pages ---- */

static void cut_the_feet(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            struct item *item = item_of(visit, p, i);
            if (item->kind == ITEM_TEXT &&
                item->as.text.y > visit->book->height - 45.0)
                item->as.text.text = "";
        }
}

static void drop_the_squares(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++)
            if (visit->book->pages.items[p]->true_to_scale &&
                item_of(visit, p, i)->kind == ITEM_PATH)
                item_of(visit, p, i)->as.path.count = 2;
}

static bool is_title(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size == 7.5;
}

static void rename_on_page_two(struct visit *visit)
{
    for (size_t i = 0; i < visit->book->pages.items[1]->items.count; i++)
        if (is_title(item_of(visit, 1, i)))
            item_of(visit, 1, i)->as.text.text = "part";
}

static void fill_a_page(struct visit *visit)
{
    const size_t page = sewing_page(visit);
    struct point *points = ARENA_ARRAY(visit->all->arena, struct point, 2);
    points[0] = (struct point){20.0, 20.0};
    points[1] = (struct point){590.0, 770.0};
    struct item *item = item_of(visit, page, 0);
    while (item->kind != ITEM_PATH)
        item++;
    item->as.path.points = points;
    item->as.path.count = 2;
}

/* ---- each check and its fault ---- */

static const struct seeded_fault seeds[] = {
    {"A5", "a part is hidden", hide_a_part, look_at_seen_parts},
    {"A19", "a step sends to a page", send_to_a_page, look_at_references},
    {"A20", "names are missing", rename_on_page_two, look_at_overview},
    {"B12", "a label leaves its line", tilt_a_line_label, look_at_line_labels},
    {"C3", "an outline is fine", thin_an_outline, look_at_outline_widths},
    {"D7", "a line touches", lengthen_extensions, look_at_extensions},
    {"D11", "a size is decimal", write_decimals, look_at_fractions},
    {"D11", "a fraction is plain", write_slashes, look_at_fractions},
    {"D12", "units are mixed", mix_units, look_at_units},
    {"F1", "a caption only tells", begin_otherwise, look_at_imperatives},
    {"F2", "a sentence is long", write_much, look_at_sentences},
    {"F3", "a sentence is passive", write_passively, look_at_voice},
    {"F6", "all is to be avoided", tell_what_to_avoid, look_at_avoiding},
    {"F9", "something shall be", write_shall, look_at_plainness},
    {"G1", "feet are missing", cut_the_feet, look_at_feet},
    {"G4", "squares are missing", drop_the_squares, look_at_true_size},
    {"G8", "a page is full", fill_a_page, look_at_free_space},
    {"H4", "a figure has no words", forget_words, look_at_alternatives},
};

static void test_each_check_finds_its_fault(void **state)
{
    assert_seeds_found(*state, seeds, UNIT_COUNT(seeds));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_check_finds_its_fault),
    };
    return cmocka_run_group_tests(tests, typeset_setup, booklets_teardown);
}
