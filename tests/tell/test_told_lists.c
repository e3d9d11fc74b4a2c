/* Lists that shops and cutters read, of the samples: what a step lays out for
 * all its casts, threads on the back cover, how narrow a fabric may be whose
 * strips are joined, and cuts that no ruler reaches along. The numbers were
 * worked by hand from the sources. */
#include "content.h"
#include "told_cutting.h"

#include "../book/sample.h"

static void assert_length(struct rational length, int64_t num, int64_t den)
{
    assert_true(rational_equal(length, (struct rational){num, den}));
}

static struct wording wording_of(struct arena *arena,
                                 const struct sample *sample,
                                 const struct cutplan *plan)
{
    return (struct wording){arena, sample->design, plan->quilt, false,
                            phrases_load(arena, "en")};
}

static const struct told_work *step_of(const struct contents *contents,
                                       size_t number)
{
    for (size_t i = 0; i < contents->items.count; i++)
        if (contents->items.items[i].kind == CONTENT_WORK &&
            contents->items.items[i].as.work.number == number)
            return &contents->items.items[i].as.work;
    fail();
    return NULL;
}

/* Eight pinwheels of two: 8 half-squares of each, two from a pair of squares;
 * the sky of all of them is one heap. */
static void test_casts_lay_out_all_parts(void **state)
{
    const struct sample sample = sample_fresh(*state, "samples/eight-sails.xml");
    const struct cutplan *plan = &sample.plans->items.items[0];
    const struct wording w = wording_of(*state, &sample, plan);
    const struct contents all = tell_sewing(&w, plan);
    const struct told_work *first = step_of(&all, 1);
    assert_int_equal(first->parts.count, 9);
    for (size_t i = 0; i < 9; i++)
        assert_string_equal(first->parts.items[i].count,
                            strcmp(first->parts.items[i].label.text, "A1") == 0
                                ? "\u00d7\u00a032"
                                : "\u00d7\u00a04");
    assert_int_equal(step_of(&all, 2)->parts.count, 8);
    assert_string_equal(step_of(&all, 2)->parts.items[7].count,
                        "\u00d7\u00a08");
}

/* Three threads, the last rows of the table, with a color for each colorway and
 * a length for each size. */
static void test_threads_stand_on_the_back(void **state)
{
    const struct sample sample = sample_fresh(*state, "samples/reed-lights.xml");
    const struct cutplan *plan = &sample.plans->items.items[0];
    const struct wording w = wording_of(*state, &sample, plan);
    const struct contents all = tell_back(&w, plan);
    const struct told_table *table = NULL;
    for (size_t i = 0; i < all.items.count && table == NULL; i++)
        if (all.items.items[i].kind == CONTENT_TABLE)
            table = &all.items.items[i].as.table;
    assert_non_null(table);
    size_t threads = 0;
    for (size_t i = 0; i < table->rows.count; i++) {
        const struct told_row *row = &table->rows.items[i];
        if (strncmp(row->cells.items[0].text.text, "Thread", 6) != 0)
            continue;
        threads++;
        assert_int_equal(row->cells.count, table->columns.count);
        for (size_t k = 1; k < row->cells.count; k++)
            assert_true(row->cells.items[k].text.text[0] != '\0');
    }
    assert_int_equal(threads, 3);
}

/* Plum: ten squares of 3 1/2 are 35, but six strips of 2 1/2 give 216 in of
 * binding only from (216 - 2 1/2) / 6 + 2 1/2 = 38 1/12 on: 38 1/8. Leaf is not
 * joined: 35. Night: 3 x (6 1/2 + 4 1/2 + 2 1/2) = 40 1/2, as its eight border
 * strips have much to spare. */
static void test_narrow_fabric_for_joined_strips(void **state)
{
    const struct sample gate = sample_fresh(*state, "samples/orchard-gate.xml");
    const struct cutplan *plan = &gate.plans->items.items[0];
    const struct wording w = wording_of(*state, &gate, plan);
    assert_length(reserved_width(&w, &plan->fabrics[1]), 35, 1);
    assert_length(reserved_width(&w, &plan->fabrics[2]), 305, 8);
    const struct sample walk = sample_fresh(*state, "samples/lantern-walk.xml");
    const struct cutplan *other = &walk.plans->items.items[0];
    const struct wording v = wording_of(*state, &walk, other);
    assert_length(reserved_width(&v, &other->fabrics[0]), 81, 2);
}

/* A strip of 56 1/2 lies under no ruler, one of 12 1/2 does. */
static void test_long_cuts_are_explained(void **state)
{
    const struct sample sample = sample_fresh(*state, "samples/lone-beacon.xml");
    const struct cutplan *plan = &sample.plans->items.items[0];
    const struct wording w = wording_of(*state, &sample, plan);
    const struct fabric_plan *bay = &plan->fabrics[0];
    const char *words = "move mat and ruler along";
    assert_true(bay->strips.count > 1);
    for (size_t i = 0; i < bay->strips.count; i++) {
        const struct told_line line =
            tell_strip_line(&w, bay, &bay->strips.items[i]);
        assert_int_equal(strstr(whole_line(&w, &line), words) != NULL, i == 0);
    }
}

/* Side strips along the cloth are 51 1/2 and 62 1/2 as sewn, and cut 1 in
 * longer, as the top is measured only when it is there. */
static void test_lengthwise_borders_wait_for_the_top(void **state)
{
    const struct sample sample = sample_fresh(*state, "samples/turning-lamp.xml");
    const struct cutplan *plan = &sample.plans->items.items[0];
    const struct wording w = wording_of(*state, &sample, plan);
    const struct fabric_plan *sky = &plan->fabrics[0];
    size_t strips = 0;
    for (size_t i = 0; i < sky->items.count; i++) {
        const struct cut_item *item = &sky->items.items[i];
        if (item->use != CUT_BORDER)
            continue;
        assert_true(item->lengthwise);
        assert_length(item->height, strips == 0 ? 105 : 127, 2);
        strips++;
    }
    assert_int_equal(strips, 2);
    assert_non_null(strstr(tell_late(&w, sky), "longer than the border needs"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_casts_lay_out_all_parts),
        cmocka_unit_test(test_threads_stand_on_the_back),
        cmocka_unit_test(test_narrow_fabric_for_joined_strips),
        cmocka_unit_test(test_long_cuts_are_explained),
        cmocka_unit_test(test_lengthwise_borders_wait_for_the_top),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
