/* Boxes onto pages, with boxes made by hand: what keeps together, what breaks
 * where, and that nothing is lost, doubled or out of order. */
#include <stdio.h>
#include <string.h>

#include "../unit.h"
#include "flow.h"

struct bench {
    struct arena *arena;
    struct book book;
    struct flow flow;
};

static struct bench *bench(struct arena *arena)
{
    struct bench *b = ARENA_NEW(arena, struct bench);
    b->arena = arena;
    b->book.width = 612.0;
    b->book.height = 792.0;
    b->flow = flow_for(arena, NULL, &b->book);
    b->flow.phrases = phrases_load(arena, "en");
    return b;
}

/* A box that is known again by its number, as the x of a mark in it. */
static struct box *add(struct bench *b, double height, bool keep, double space)
{
    const struct path_item line = {.stroke = 1.0};
    struct box *box = box_new(&b->flow.canvas, 100.0, height);
    box_stroke(&b->flow.canvas, box, (double)b->flow.boxes.count, 0.0,
               (double)b->flow.boxes.count, height, line);
    box->keep_with_next = keep;
    return flow_add(&b->flow, box, space);
}

struct found {
    size_t page;
    double top, bottom;
};

/* Where box `number` was put; it must be there just once. */
static struct found find(const struct bench *b, size_t number)
{
    struct found found = {0};
    size_t times = 0;
    for (size_t p = 0; p < b->book.pages.count; p++) {
        const struct page *page = b->book.pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct path_item *path = &page->items.items[i].as.path;
            if (page->items.items[i].kind != ITEM_PATH ||
                path->points[0].x - b->flow.margin != (double)number)
                continue;
            found = (struct found){p, path->points[0].y, path->points[1].y};
            times++;
        }
    }
    assert_int_equal(times, 1);
    return found;
}

static void assert_place(const struct bench *b, size_t number, size_t page,
                         double top)
{
    const struct found found = find(b, number);
    assert_int_equal(found.page, page);
    if (found.top < top - 0.001 || found.top > top + 0.001)
        fail_msg("box %zu at %f, not at %f", number, found.top, top);
}

static void test_boxes_lie_under_each_other(void **state)
{
    struct bench *b = bench(*state);
    add(b, 100.0, false, 40.0);
    add(b, 50.0, false, 12.5);
    add(b, 10.0, false, 0.0);
    flow_finish(&b->flow);
    assert_int_equal(b->book.pages.count, 1);
    assert_place(b, 0, 0, b->flow.top); /* no space at the top of a page */
    assert_place(b, 1, 0, b->flow.top + 112.5);
    assert_place(b, 2, 0, b->flow.top + 162.5);
}

static void test_a_page_is_filled_to_its_end(void **state)
{
    struct bench *b = bench(*state);
    const double height = flow_page_height(&b->flow);
    add(b, height / 2.0, false, 0.0);
    add(b, height / 2.0, false, 0.0);
    add(b, 1.0, false, 9.0);
    flow_finish(&b->flow);
    assert_int_equal(b->book.pages.count, 2);
    assert_place(b, 1, 0, b->flow.top + height / 2.0);
    assert_place(b, 2, 1, b->flow.top);
}

static void test_a_heading_goes_with_what_follows(void **state)
{
    struct bench *b = bench(*state);
    const double height = flow_page_height(&b->flow);
    add(b, height - 40.0, false, 0.0);
    add(b, 20.0, true, 0.0);
    add(b, 10.0, true, 5.0);
    add(b, 10.0, false, 5.0);
    flow_finish(&b->flow);
    assert_place(b, 1, 1, b->flow.top);
    assert_place(b, 2, 1, b->flow.top + 25.0);
    assert_place(b, 3, 1, b->flow.top + 40.0);
}

static void test_the_space_before_counts(void **state)
{
    struct bench *b = bench(*state);
    add(b, flow_page_height(&b->flow) - 200.0, false, 0.0);
    add(b, 196.0, false, 6.0);
    flow_finish(&b->flow);
    assert_place(b, 1, 1, b->flow.top);
}

/* A last page that would hold a line or two is saved by closer spaces. */
static void test_a_line_gets_no_page_of_its_own(void **state)
{
    struct bench *b = bench(*state);
    add(b, flow_page_height(&b->flow) - 20.0, false, 0.0);
    add(b, 15.0, false, 6.0);
    flow_finish(&b->flow);
    assert_int_equal(b->book.pages.count, 1);
}

static void test_a_box_can_start_a_page(void **state)
{
    struct bench *b = bench(*state);
    add(b, 10.0, false, 0.0)->starts_page = true;
    add(b, 10.0, false, 0.0);
    add(b, 10.0, false, 7.0)->starts_page = true;
    flow_finish(&b->flow);
    assert_int_equal(b->book.pages.count, 2); /* no empty page before all */
    assert_place(b, 0, 0, b->flow.top);
    assert_place(b, 2, 1, b->flow.top);
}

/* A chain that no page holds must break somewhere, but not right behind its
 * first box: a heading alone at the foot of a page helps nobody. */
static void test_a_heading_of_a_long_chain_is_not_left_alone(void **state)
{
    struct bench *b = bench(*state);
    const double height = flow_page_height(&b->flow);
    add(b, height - 60.0, false, 0.0);
    add(b, 20.0, true, 10.0);
    for (int i = 0; i < 9; i++)
        add(b, height / 8.0, true, 4.0);
    add(b, 10.0, false, 0.0);
    flow_finish(&b->flow);
    assert_int_equal(find(b, 1).page, find(b, 2).page);
}

static void test_a_box_larger_than_a_page(void **state)
{
    struct bench *b = bench(*state);
    add(b, 20.0, false, 0.0);
    add(b, flow_page_height(&b->flow) + 100.0, false, 3.0);
    add(b, 20.0, false, 3.0);
    flow_finish(&b->flow);
    assert_int_equal(b->book.pages.count, 3);
    assert_place(b, 1, 1, b->flow.top);
    assert_place(b, 2, 2, b->flow.top);
}

static void test_bookmarks_point_to_their_boxes(void **state)
{
    struct bench *b = bench(*state);
    const double height = flow_page_height(&b->flow);
    add(b, height - 30.0, false, 0.0)->outline = "One";
    add(b, 40.0, false, 0.0);
    struct box *box = add(b, 40.0, false, 8.0);
    box->outline = "Two";
    box->outline_depth = 1;
    flow_finish(&b->flow);
    assert_int_equal(b->book.outline.count, 2);
    assert_string_equal(b->book.outline.items[1].title, "Two");
    assert_int_equal(b->book.outline.items[1].page, 1);
    assert_int_equal(b->book.outline.items[1].depth, 1);
    assert_true(b->book.outline.items[1].y == b->flow.top + 48.0);
}

static void test_each_page_tells_its_number(void **state)
{
    struct bench *b = bench(*state);
    b->flow.foot = "Foot";
    for (int i = 0; i < 3; i++)
        add(b, 700.0, false, 0.0)->starts_page = true;
    flow_finish(&b->flow);
    assert_int_equal(b->book.pages.count, 3);
    for (size_t p = 0; p < 3; p++) {
        const struct page *page = b->book.pages.items[p];
        const char *wanted =
            arena_printf(b->arena, "%zu / 3", p + 1);
        size_t numbers = 0, feet = 0;
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            if (item->kind != ITEM_TEXT)
                continue;
            numbers += strcmp(item->as.text.text, wanted) == 0;
            feet += strcmp(item->as.text.text, "Foot") == 0;
        }
        /* The cover has neither. */
        assert_int_equal(numbers, p == 0 ? 0 : 1);
        assert_int_equal(feet, p == 0 ? 0 : 1);
        assert_string_equal(page->label,
                            arena_printf(b->arena, "%zu", p + 1));
    }
}

static void test_nothing_makes_no_page(void **state)
{
    struct bench *b = bench(*state);
    flow_finish(&b->flow);
    assert_int_equal(b->book.pages.count, 0);
}

/* ---- many flows by chance ---- */

/* The end of the chain that begins at `first`, and its height. */
static size_t chain_end(const struct bench *b, size_t first, double *height)
{
    size_t last = first;
    *height = b->flow.boxes.items[first]->height;
    while (b->flow.boxes.items[last]->keep_with_next &&
           last + 1 < b->flow.boxes.count) {
        last++;
        *height += b->flow.boxes.items[last]->space_before +
                   b->flow.boxes.items[last]->height;
    }
    return last;
}

static void check_order(const struct bench *b, size_t i)
{
    const struct found here = find(b, i);
    const double end = b->book.height - b->flow.bottom;
    if (here.bottom > end + 0.02)
        assert_true(here.top == b->flow.top);
    if (i == 0)
        return;
    const struct found before = find(b, i - 1);
    assert_true(here.page == before.page || here.page == before.page + 1);
    if (here.page == before.page)
        assert_true(here.top >= before.bottom - 0.001);
    else
        assert_true(here.top == b->flow.top);
}

/* Chains that a page holds are whole; a page ends only where what comes next
 * does not fit it. */
static void check_chain(const struct bench *b, size_t first, size_t last,
                        double height)
{
    const double end = b->book.height - b->flow.bottom;
    const struct found start = find(b, first);
    if (height <= flow_page_height(&b->flow))
        assert_int_equal(start.page, find(b, last).page);
    if (first == 0 || start.top > b->flow.top)
        return;
    const struct found before = find(b, first - 1);
    assert_true(before.bottom + b->flow.boxes.items[first]->space_before +
                    height > end - 0.02);
}

static void test_flows_by_chance(void **state)
{
    struct unit_random random = {20261102};
    for (int round = 0; round < 300; round++) {
        struct arena *arena = arena_create();
        struct bench *b = bench(arena);
        const size_t count = 1 + (size_t)unit_below(&random, 40);
        for (size_t i = 0; i < count; i++)
            add(b, 1.0 + (double)unit_below(&random, 260),
                unit_below(&random, 3) == 0 && i + 1 < count,
                (double)unit_below(&random, 30));
        flow_finish(&b->flow);
        double height;
        for (size_t i = 0; i < count; i++)
            check_order(b, i);
        for (size_t i = 0, last; i < count; i = last + 1) {
            last = chain_end(b, i, &height);
            check_chain(b, i, last, height);
        }
        arena_destroy(arena);
    }
    (void)state;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_boxes_lie_under_each_other),
        cmocka_unit_test(test_a_page_is_filled_to_its_end),
        cmocka_unit_test(test_a_heading_goes_with_what_follows),
        cmocka_unit_test(test_the_space_before_counts),
        cmocka_unit_test(test_a_line_gets_no_page_of_its_own),
        cmocka_unit_test(test_a_box_can_start_a_page),
        cmocka_unit_test(test_a_heading_of_a_long_chain_is_not_left_alone),
        cmocka_unit_test(test_a_box_larger_than_a_page),
        cmocka_unit_test(test_bookmarks_point_to_their_boxes),
        cmocka_unit_test(test_each_page_tells_its_number),
        cmocka_unit_test(test_nothing_makes_no_page),
        cmocka_unit_test(test_flows_by_chance),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
