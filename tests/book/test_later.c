/* Paths that are made only when their page is walked: they come out as if they
 * had been there all the time. */
#include <string.h>

#include "../unit.h"
#include "box.h"

static struct canvas canvas_in(struct arena *arena)
{
    return (struct canvas){.arena = arena, .width = 500.0};
}

static void add_lines(const struct canvas *canvas, struct box *box,
                      size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct path_item line = {.stroke = (double)i};
        box_stroke(canvas, box, 0.1 * (double)i, 0.2, 0.3, 0.7, line);
    }
}

/* A box in a box, at places whose sums are rounded: a tag, so many lines, a
 * part with one line, and so many lines again. */
static const struct page *page_of(const struct canvas *canvas, size_t count)
{
    struct box *part = box_new(canvas, 10.0, 10.0);
    add_lines(canvas, part, 1);
    struct box *box = box_new(canvas, 100.0, 100.0);
    box_tag(canvas, box, "Figure", "many lines");
    add_lines(canvas, box, count);
    box_put(canvas, box, part, 5.0, 5.0);
    add_lines(canvas, box, count);
    box_tag_end(canvas, box, "Figure");
    struct box *around = box_new(canvas, 200.0, 200.0);
    box_put(canvas, around, box, 0.1, 0.0);
    struct page *page = ARENA_NEW(canvas->arena, struct page);
    box_flatten(canvas, around, 1.7, 2.9, &page->items);
    return page;
}

static size_t count_of(const struct item_list *items, enum item_kind kind)
{
    size_t count = 0;
    for (size_t i = 0; i < items->count; i++)
        count += items->items[i].kind == kind;
    return count;
}

static bool same_points(const struct path_item *a, const struct path_item *b)
{
    return a->count == b->count && a->stroke == b->stroke &&
           memcmp(a->points, b->points, a->count * sizeof *a->points) == 0;
}

/* Few lines are never made later, so that they tell where many must lie. */
static void test_many_lines_lie_where_few_would(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    const struct canvas canvas = canvas_in(arena);
    const struct page *few = page_of(&canvas, 100);
    const struct page *many = page_of(&canvas, BOX_MANY);
    assert_int_equal(count_of(&few->items, ITEM_LATER), 0);
    assert_int_equal(count_of(&many->items, ITEM_LATER), 2);
    assert_int_equal(many->items.count, 5);
    const struct item_list own = page_items(arena, few);
    assert_ptr_equal(own.items, few->items.items);
    const struct item_list all = page_items(arena, many);
    assert_int_equal(all.count, 2 * BOX_MANY + 3);
    assert_int_equal(count_of(&all, ITEM_PATH), 2 * BOX_MANY + 1);
    assert_int_equal(all.items[0].kind, ITEM_TAG_BEGIN);
    assert_int_equal(all.items[all.count - 1].kind, ITEM_TAG_END);
    for (size_t i = 0; i < 100; i++) {
        assert_true(
            same_points(&all.items[1 + i].as.path, &own.items[1 + i].as.path));
        assert_true(same_points(&all.items[BOX_MANY + 2 + i].as.path,
                                &own.items[102 + i].as.path));
    }
    assert_true(
        same_points(&all.items[BOX_MANY + 1].as.path, &own.items[101].as.path));
    arena_destroy(arena);
}

/* The points of the box stay where they are, however often it is drawn. */
static void test_a_walk_changes_nothing(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    const struct canvas canvas = canvas_in(arena);
    const struct page *page = page_of(&canvas, BOX_MANY);
    const struct item_list first = page_items(arena, page);
    const struct item_list second = page_items(arena, page);
    assert_int_equal(first.count, second.count);
    for (size_t i = 0; i < first.count; i++)
        if (first.items[i].kind == ITEM_PATH)
            assert_true(
                same_points(&first.items[i].as.path, &second.items[i].as.path));
    arena_destroy(arena);
}

static void test_a_copy_makes_nothing_later(void **state)
{
    (void)state;
    struct arena *arena = arena_create();
    const struct canvas canvas = canvas_in(arena);
    struct box *many = box_new(&canvas, 10.0, 10.0);
    add_lines(&canvas, many, BOX_MANY);
    struct box *copy = box_new(&canvas, 10.0, 10.0);
    box_copy(&canvas, copy, many, 3.0, 4.0);
    assert_int_equal(copy->items.count, BOX_MANY);
    assert_int_equal(count_of(&copy->items, ITEM_PATH), BOX_MANY);
    assert_true(copy->items.items[0].as.path.points[0].x == 3.0);
    assert_true(many->items.items[0].as.path.points[0].x == 0.0);
    arena_destroy(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_many_lines_lie_where_few_would),
        cmocka_unit_test(test_a_walk_changes_nothing),
        cmocka_unit_test(test_a_copy_makes_nothing_later),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
