/* Every check of the design finds what it is for: a booklet that holds it is
 * damaged in memory, in one place, and looked at again. */
#include "check_contrast.h"
#include "check_cutting.h"
#include "check_design.h"
#include "check_figures.h"
#include "check_layout.h"
#include "check_results.h"
#include "check_text.h"
#include "check_threshold.h"
#include "damage.h"

/* ---- how ---- */

static void move_text(struct item *item, double x, double y)
{
    item->as.text.x += x;
    item->as.text.y += y;
}

/* Moved and drawn in another scale, about the top left corner of the page. */
static void redraw(const struct visit *visit, struct path_item *path, double x,
                   double scale)
{
    struct point *points =
        ARENA_ARRAY(visit->all->arena, struct point, path->count);
    for (size_t i = 0; i < path->count; i++)
        points[i] = (struct point){path->points[i].x * scale + x,
                                   path->points[i].y * scale};
    path->points = points;
}

static void empty_a_page(struct visit *visit)
{
    const size_t page = sewing_page(visit);
    for (size_t i = 0; i < visit->book->pages.items[page]->items.count; i++) {
        struct item *item = item_of(visit, page, i);
        if (item->kind == ITEM_TEXT && item->as.text.y > 200.0)
            item->as.text.y = 100.0;
        if (item->kind == ITEM_PATH && item->as.path.points[0].y > 200.0)
            item->as.path.count = 0;
    }
}

static void rub_figures_out(struct visit *visit)
{
    for (size_t p = sewing_page(visit); p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++)
            if (item_of(visit, p, i)->kind == ITEM_PATH)
                item_of(visit, p, i)->as.path.count = 0;
}

/* Of one line, under a narrow frame. */
static bool is_short_caption(const struct item *item)
{
    return is_caption(item) && item->as.text.width < MM(60.0) &&
           strlen(item->as.text.text) < 50;
}

static void lengthen_captions(struct visit *visit)
{
    struct item *item = first_of(visit, PAGE_SEWING, is_short_caption);
    item->as.text.text = arena_printf(visit->all->arena, "%s %s %s %s",
                                      item->as.text.text, item->as.text.text,
                                      item->as.text.text, item->as.text.text);
}

static void widen_a_text(struct visit *visit)
{
    struct item *item = first_of(visit, PAGE_SEWING, is_sentence);
    item->as.text.width = 600.0;
    item->as.text.text = arena_printf(visit->all->arena, "%s %s",
                                      item->as.text.text, item->as.text.text);
}

static void take_words_away(struct visit *visit)
{
    const size_t page = sewing_page(visit);
    for (size_t i = 0; i < visit->book->pages.items[page]->items.count; i++)
        if (is_caption(item_of(visit, page, i)))
            item_of(visit, page, i)->as.text.y = 700.0;
}

static void set_another_size(struct visit *visit)
{
    first_of(visit, PAGE_SEWING, is_sentence)->as.text.style.size = 11.0;
}

static void draw_another_width(struct visit *visit)
{
    first_of(visit, PAGE_SEWING, is_fine_line)->as.path.stroke = MM(0.5);
}

/* Onto the first line of its figure. */
static void shift_a_label(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, false, false);
    struct item *label = NULL, *line = NULL;
    for (size_t i = drawn.first; i < drawn.last; i++) {
        struct item *item = item_of(visit, drawn.page, i);
        if (is_label(item) && label == NULL)
            label = item;
        if (item->kind == ITEM_PATH && item->as.path.role == ROLE_MARK &&
            item->as.path.count == 2 && line == NULL)
            line = item;
    }
    assert_true(label != NULL && line != NULL);
    const struct point *ends = line->as.path.points;
    move_text(label, (ends[0].x + ends[1].x) / 2.0 - label->as.text.x,
              (ends[0].y + ends[1].y) / 2.0 - 6.0 - label->as.text.y);
}

static void turn_otherwise(struct visit *visit)
{
    struct item *mark = first_of(visit, PAGE_SEWING, is_turn);
    mark->as.text.text =
        strcmp(mark->as.text.text, "\u00bd") == 0 ? "\u00be" : "\u00bd";
}

static void tell_a_count_again(struct visit *visit)
{
    first_of(visit, PAGE_SEWING, is_sentence)->as.text.text = "Make 216";
}

static void change_a_count(struct visit *visit)
{
    struct item *count = first_of(visit, PAGE_SEWING, tells_count);
    count->as.text.text = "Make 7";
}

static void rename_a_label(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, false, false);
    struct item *label = item_of(visit, drawn.page, drawn.first);
    while (!is_label(label) || is_direction(visit, label->as.text.text))
        label++;
    label->as.text.text = "Z9";
}

static void double_a_caption(struct visit *visit)
{
    const struct item *first = first_of(visit, PAGE_SEWING, is_sentence);
    first_of(visit, PAGE_FINISHING, is_sentence)->as.text.text =
        first->as.text.text;
}

static void give_more(struct visit *visit)
{
    struct item *gives = first_of(visit, PAGE_CUTTING, tells_gift);
    gives->as.text.text =
        arena_printf(visit->all->arena, "1%s", gives->as.text.text);
}

/* Behind the label of another, so not the whole cloth below all cells. */
static struct item *second_cell(const struct visit *visit)
{
    struct item *cell = first_of(visit, PAGE_CUTTING, is_cell) + 1;
    while (!is_cell(cell) || !is_label(cell - 1))
        cell++;
    return cell;
}

static void leave_a_cell_out(struct visit *visit)
{
    second_cell(visit)->as.path.role = ROLE_DRAWING;
}

static void cut_over_the_fold(struct visit *visit)
{
    redraw(visit, &second_cell(visit)->as.path, MM(82.0), 1.0);
}

static void need_more_parts(struct visit *visit)
{
    const size_t page = sewing_page(visit);
    for (size_t i = 0; i < visit->book->pages.items[page]->items.count; i++) {
        struct item *item = item_of(visit, page, i);
        if (item->kind == ITEM_TEXT &&
            strncmp(item->as.text.text, "\u00d7\u00a0", 4) == 0)
            item->as.text.text = "\u00d7\u00a0999";
    }
}

static void paint_red(struct visit *visit)
{
    struct item *item = first_of(visit, PAGE_SEWING, is_cloth);
    item->as.path.role = ROLE_DRAWING;
    item->as.path.fill = action_red;
}

static void write_red(struct visit *visit)
{
    first_of(visit, PAGE_SEWING, is_sentence)->as.text.style.color = action_red;
}

static void drop_casings(struct visit *visit)
{
    size_t dropped = 0;
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++)
            if (is_casing(item_of(visit, p, i))) {
                item_of(visit, p, i)->as.path.stroke = 0.0;
                dropped++;
            }
    assert_true(dropped > 0);
}

static void shade_a_patch(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, false, false);
    struct item *cloth = item_of(visit, drawn.page, drawn.first);
    while (!is_cloth(cloth))
        cloth++;
    cloth->as.path.fill.red -= 0.1;
}

static void scale_a_frame(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, false, false);
    for (size_t i = drawn.first; i < drawn.last; i++) {
        struct item *item = item_of(visit, drawn.page, i);
        if (item->kind == ITEM_PATH)
            redraw(visit, &item->as.path, 0.0, 0.9);
    }
}

static void move_on_one_paper(struct visit *visit)
{
    move_text(first_of(visit, PAGE_SEWING, is_sentence), 3.0, 0.0);
}

static void add_pages(struct visit *visit)
{
    struct book *book = (struct book *)visit->book;
    struct page *last = book->pages.items[book->pages.count - 1];
    for (int i = 0; i < 8; i++)
        *LIST_ADD(visit->all->arena, &book->pages) = last;
}

/* A page before the first step: what lay left lies right. */
static void shift_pages(struct visit *visit)
{
    struct book *book = (struct book *)visit->book;
    struct page *second = book->pages.items[1];
    *LIST_ADD(visit->all->arena, &book->pages) = second;
    for (size_t p = book->pages.count - 1; p > 1; p--)
        book->pages.items[p] = book->pages.items[p - 1];
}

static void fade_a_text(struct visit *visit)
{
    first_of(visit, PAGE_SEWING, is_sentence)->as.text.style.color =
        (struct color){0.6, 0.6, 0.6};
}

static void fade_a_line(struct visit *visit)
{
    first_of(visit, PAGE_SEWING, is_fine_line)->as.path.stroke_color =
        (struct color){0.8, 0.8, 0.7};
}

/* All patches of a result in one color, without an edge. */
static void blend_patches(struct visit *visit)
{
    const struct drawn drawn = drawn_of(visit, true, false);
    for (size_t i = drawn.first; i < drawn.last; i++) {
        struct item *item = item_of(visit, drawn.page, i);
        if (!is_cloth(item))
            continue;
        item->as.path.fill = (struct color){0.5, 0.5, 0.5};
        item->as.path.stroke_color = (struct color){0.5, 0.5, 0.5};
    }
}

/* ---- each check and its fault ---- */

/* Of SAMPLES. */
enum { LANTERN = 0, VANE = 2 };

static const struct seeded {
    int rule; /* of the eighteen */
    const char *what;
    damage *harm;
    visitor *look;
    size_t sample; /* that holds the rule */
} seeds[] = {
    {1, "a page is half empty", empty_a_page, look_at_page_fill, VANE},
    {2, "figures are hardly there", rub_figures_out, look_at_figure_area, VANE},
    {3, "a caption is long", lengthen_captions, look_at_caption_lines, VANE},
    {3, "lines are long", widen_a_text, look_at_lengths, VANE},
    {4, "words lie far from figures", take_words_away, look_at_nearness, VANE},
    {5, "a text has another size", set_another_size, look_at_type_sizes, VANE},
    {5, "a line has another width", draw_another_width, look_at_line_widths,
     VANE},
    {6, "a label lies on a line", shift_a_label, look_at_clear_labels, VANE},
    {7, "a mark tells another turn", turn_otherwise, look_at_turns, VANE},
    {8, "a count is told twice", tell_a_count_again, look_at_counts, VANE},
    {8, "a count is another", change_a_count, look_at_counts, VANE},
    {9, "a label is no part", rename_a_label, look_at_label_names, VANE},
    {9, "a label names another part", rename_a_label, look_at_places, VANE},
    {10, "a caption is told again", double_a_caption, look_at_repeats, VANE},
    {11, "a line gives more", give_more, look_at_cutting, VANE},
    {11, "a cell is missing", leave_a_cell_out, look_at_cutting, VANE},
    {11, "a cell crosses the fold", cut_over_the_fold, look_at_cutting, VANE},
    {11, "steps take more", need_more_parts, look_at_cutting, VANE},
    {12, "an area is red", paint_red, look_at_all_red, VANE},
    {12, "a sentence is red", write_red, look_at_all_red, VANE},
    {12, "red lines have no casing", drop_casings, look_at_all_red, VANE},
    {13, "a patch has another shade", shade_a_patch, look_at_shades, VANE},
    {14, "a frame has another scale", scale_a_frame, look_at_scales, VANE},
    {15, "one paper differs", move_on_one_paper, look_at_papers, VANE},
    {16, "there are many pages", add_pages, look_at_page_count, VANE},
    {16, "the layout changes its side", shift_pages, look_at_page_count,
     LANTERN},
    {17, "a text is faint", fade_a_text, look_at_texts, VANE},
    {17, "a line is faint", fade_a_line, look_at_line_contrast, VANE},
    {17, "patches look like one", blend_patches, look_at_neighbours, VANE},
    {18, "a copy loses arrows", drop_casings, look_at_copies, VANE},
};

static void test_each_check_finds_its_fault(void **state)
{
    const struct booklets *all = *state;
    size_t missed = 0;
    for (size_t i = 0; i < UNIT_COUNT(seeds); i++)
        if (found_by_damage(all->typeset, SAMPLES[seeds[i].sample],
                            seeds[i].harm, seeds[i].look) <= 0) {
            fprintf(stderr, "# rule %d: not found that %s\n", seeds[i].rule,
                    seeds[i].what);
            missed++;
        }
    assert_int_equal(missed, 0);
}

/* None of the eighteen is left out. */
static void test_each_check_has_a_fault(void **state)
{
    (void)state;
    enum { RULES = 18 };
    for (int rule = 1; rule <= RULES; rule++) {
        bool seeded = false;
        for (size_t i = 0; i < UNIT_COUNT(seeds); i++)
            seeded |= seeds[i].rule == rule;
        assert_true(seeded);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_check_finds_its_fault),
        cmocka_unit_test(test_each_check_has_a_fault),
    };
    return cmocka_run_group_tests(tests, typeset_setup, booklets_teardown);
}
