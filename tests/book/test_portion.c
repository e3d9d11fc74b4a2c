/* Portions onto pages, with portions made by hand: how many share a page, in
 * what size, and what becomes of the room that is left. */
#include "../../src/book/portion.h"

#include "../unit.h"

struct bench {
    struct booklet booklet;
    struct book book;
    struct portions portions;
};

static struct bench *bench(struct arena *arena)
{
    struct bench *b = ARENA_NEW(arena, struct bench);
    b->book.width = 612.0;
    b->book.height = 792.0;
    b->booklet.flow = flow_for(arena, NULL, &b->book);
    b->booklet.flow.phrases = phrases_load(arena, "en");
    b->booklet.wording.arena = arena;
    return b;
}

/* As high as `height` pages in the usual size, in others as `scaled` says: 1
 * for a height that follows the size, 0 for one that does not. The box is known
 * again by the x of its mark, and its size by the mark's width. */
static void add(struct bench *b, double height, double scaled, bool left_page)
{
    struct arena *arena = b->booklet.wording.arena;
    const struct canvas *canvas = &b->booklet.flow.canvas;
    const double page = flow_page_height(&b->booklet.flow);
    struct portion portion = {.space = 10.0, .left_page = left_page};
    for (size_t k = 0; k < SIZES; k++) {
        const double high =
            page * height * (1.0 + scaled * (figure_sizes[k] - 1.0));
        const struct path_item line = {.stroke = 1.0 + (double)k};
        struct box *box = box_new(canvas, 100.0, high);
        box_stroke(canvas, box, (double)b->portions.items.count, 0.0,
                   (double)b->portions.items.count, high, line);
        drawn_add(arena, &portion.drawn[k], box, 0.0);
    }
    *LIST_ADD(arena, &b->portions.items) = portion;
}

struct found {
    size_t page, size;
    double top, bottom;
};

/* requires: portion `number` was put on a page, once. */
static struct found find(const struct bench *b, size_t number)
{
    struct found found = {0};
    size_t times = 0;
    for (size_t p = 0; p < b->book.pages.count; p++)
        for (size_t i = 0; i < b->book.pages.items[p]->items.count; i++) {
            const struct item *item = &b->book.pages.items[p]->items.items[i];
            const struct path_item *path = &item->as.path;
            if (item->kind != ITEM_PATH ||
                path->points[0].x - b->booklet.flow.margin != (double)number)
                continue;
            found = (struct found){p, (size_t)path->stroke - 1,
                                   path->points[0].y, path->points[1].y};
            times++;
        }
    assert_int_equal(times, 1);
    return found;
}

static void place(struct bench *b)
{
    place_portions(&b->booklet, &b->portions);
    flow_finish(&b->booklet.flow);
}

static void test_what_has_room_gets_larger(void **state)
{
    struct bench *b = bench(*state);
    add(b, 0.3, 1.0, false);
    add(b, 0.3, 1.0, false);
    place(b);
    assert_int_equal(b->book.pages.count, 1);
    assert_int_equal(find(b, 0).size, 0);
    assert_int_equal(find(b, 1).size, 0);
}

static void test_figures_shrink_to_save_a_page(void **state)
{
    struct bench *b = bench(*state);
    add(b, 0.6, 1.0, false);
    add(b, 0.6, 1.0, false);
    place(b);
    assert_int_equal(b->book.pages.count, 1);
    assert_true(find(b, 0).size > USUAL_SIZE);
    assert_true(find(b, 1).bottom <= b->book.height - b->booklet.flow.bottom);
}

/* Three of which two fit together: the small one shares the page of the one
 * that loses less by it. */
static void test_what_does_not_fit_goes_over(void **state)
{
    struct bench *b = bench(*state);
    add(b, 0.7, 0.0, false);
    add(b, 0.25, 0.0, false);
    add(b, 0.9, 0.0, false);
    place(b);
    assert_int_equal(b->book.pages.count, 2);
    assert_int_equal(find(b, 1).page, 0);
    assert_int_equal(find(b, 2).page, 1);
}

static void test_rest_goes_between_up_to_a_limit(void **state)
{
    struct bench *b = bench(*state);
    add(b, 0.4, 0.0, false);
    add(b, 0.4, 0.0, false);
    add(b, 0.9, 0.0, false);
    place(b);
    const double gap = find(b, 1).top - find(b, 0).bottom;
    assert_true(gap > 10.0 + MM(6.5) && gap < 10.0 + MM(6.7));
}

/* Both ways need two pages; a spread opens on the even page. */
/* What goes between the portions of a page does not count as empty: a low one
 * joins the lower of its neighbors, whose page then is spread to be fuller. */
static void test_what_is_spread_is_not_empty(void **state)
{
    struct bench *b = bench(*state);
    add(b, 0.6, 0.0, false);
    add(b, 0.005, 0.0, false);
    add(b, 0.7, 0.0, false);
    add(b, 0.9, 0.0, false);
    place(b);
    assert_int_equal(find(b, 1).page, find(b, 0).page);
    assert_int_equal(find(b, 2).page, find(b, 0).page + 1);
    assert_int_equal(find(b, 3).page, find(b, 0).page + 2);
}

static void test_a_spread_opens_on_the_left(void **state)
{
    struct bench *b = bench(*state);
    add(b, 0.5, 0.0, false);
    add(b, 0.45, 0.0, true);
    add(b, 0.45, 0.0, false);
    place(b);
    assert_int_equal(b->book.pages.count, 2);
    assert_int_equal(find(b, 1).page, 1); /* the second one */
    assert_int_equal(find(b, 2).page, 1);
}

static void test_more_than_a_page_has_its_own(void **state)
{
    struct bench *b = bench(*state);
    add(b, 0.3, 0.0, false);
    add(b, 1.4, 0.0, false);
    add(b, 0.3, 0.0, false);
    place(b);
    assert_int_equal(find(b, 0).page, 0);
    assert_int_equal(find(b, 1).page, 1);
    assert_int_equal(find(b, 1).size, USUAL_SIZE);
    assert_int_equal(find(b, 2).page, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_has_room_gets_larger),
        cmocka_unit_test(test_figures_shrink_to_save_a_page),
        cmocka_unit_test(test_what_does_not_fit_goes_over),
        cmocka_unit_test(test_rest_goes_between_up_to_a_limit),
        cmocka_unit_test(test_what_is_spread_is_not_empty),
        cmocka_unit_test(test_a_spread_opens_on_the_left),
        cmocka_unit_test(test_more_than_a_page_has_its_own),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
