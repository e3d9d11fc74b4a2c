/* Arena and lists: nothing overlaps, everything is zeroed and aligned. */
#include <malloc.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../unit.h"

static void memory_is_zeroed_and_aligned(void **state)
{
    for (size_t size = 0; size < 300; size++) {
        unsigned char *bytes = arena_alloc(*state, size);
        assert_int_equal((uintptr_t)bytes % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++)
            assert_int_equal(bytes[i], 0);
        memset(bytes, 0xFF, size);
    }
}

static void allocations_do_not_overlap(void **state)
{
    enum { COUNT = 2000 };
    unsigned char *blocks[COUNT];
    struct unit_random random = {1};
    size_t sizes[COUNT];
    for (size_t i = 0; i < COUNT; i++) {
        sizes[i] = (size_t)unit_below(&random, i % 100 == 0 ? 200000 : 100);
        blocks[i] = arena_alloc(*state, sizes[i]);
        memset(blocks[i], (int)(i & 0xFF), sizes[i]);
    }
    for (size_t i = 0; i < COUNT; i++) {
        for (size_t j = 0; j < sizes[i]; j++)
            assert_int_equal(blocks[i][j], i & 0xFF);
    }
}

static void copies_end_in_nul(void **state)
{
    const char text[] = {'a', '\0', 'b', 'c'};
    const char *copy = arena_copy(*state, text, sizeof text);
    assert_memory_equal(copy, text, sizeof text);
    assert_int_equal(copy[4], '\0');
    assert_string_equal(arena_copy(*state, NULL, 0), "");
}

static void printing_fits_any_length(void **state)
{
    char *longer = arena_alloc(*state, 100001);
    memset(longer, 'x', 100000);
    const char *text = arena_printf(*state, "<%s|%d>", longer, -7);
    assert_int_equal(strlen(text), 100005);
    assert_string_equal(text + 100001, "|-7>");
    assert_string_equal(arena_printf(*state, "%s", ""), "");
}

static void a_list_keeps_its_items(void **state)
{
    LIST(struct {
        size_t number;
        char name[5];
    })
    list = {0};
    for (size_t i = 0; i < 5000; i++) {
        assert_int_equal(list.count, i);
        LIST_ADD(*state, &list)->number = i;
        assert_int_equal(list.items[i].name[0], 0);
    }
    for (size_t i = 0; i < 5000; i++)
        assert_int_equal(list.items[i].number, i);
    assert_true(list.capacity >= list.count);
    /* What an item was before is gone when it is added again. */
    memset(list.items, 0xFF, 5000 * sizeof *list.items);
    list.count = 0;
    assert_int_equal(LIST_ADD(*state, &list)->number, 0);
    assert_int_equal(list.items[0].name[4], 0);
}

/* In its place while it is the last, elsewhere once something lies behind it;
 * what was in it stays, either way. */
static void what_grows_keeps_its_bytes(void **state)
{
    size_t size = 0;
    unsigned char *bytes = NULL;
    unsigned char *last = NULL;
    for (size_t more = 1; more < 300; more++) {
        bytes = arena_grow(*state, bytes, size, size + more);
        for (size_t i = 0; i < size; i++)
            assert_int_equal(bytes[i], i & 0xFF);
        for (size_t i = size; i < size + more; i++)
            bytes[i] = (unsigned char)(i & 0xFF);
        size += more;
        if (more % 3 == 0) {
            last = arena_alloc(*state, 7);
            memset(last, 0xFF, 7);
        }
    }
    assert_int_equal(last[6], 0xFF);
}

/* What is large lies in a block of its own, and is made larger there: from
 * small to large, and while others of its kind come and grow. */
static void large_lists_keep_their_items(void **state)
{
    enum { LISTS = 7, ITEMS = 40000 };
    struct item {
        size_t number;
        char rest[40];
    };
    LIST(struct item) lists[LISTS] = {{0}};
    for (size_t i = 0; i < ITEMS; i++) {
        const size_t k = (i / 100) % LISTS;
        struct item *item = LIST_ADD(*state, &lists[k]);
        for (size_t b = 0; b < sizeof item->rest; b++)
            assert_int_equal(item->rest[b], 0);
        item->number = i;
        memset(item->rest, 0xFF, sizeof item->rest);
    }
    size_t at[LISTS] = {0};
    for (size_t i = 0; i < ITEMS; i++) {
        const size_t k = (i / 100) % LISTS;
        assert_int_equal(lists[k].items[at[k]++].number, i);
    }
}

/* The bytes of what was there before are used again: a list of a million items
 * is not kept twice. */
static void what_grows_leaves_nothing_behind(void **state)
{
    LIST(size_t) list = {0};
    for (size_t i = 0; i < 100000; i++)
        *LIST_ADD(*state, &list) = i;
    const size_t before = mallinfo2().uordblks + mallinfo2().hblkhd;
    for (size_t i = 0; i < 900000; i++)
        *LIST_ADD(*state, &list) = i;
    const size_t after = mallinfo2().uordblks + mallinfo2().hblkhd;
    assert_true(after - before < list.capacity * sizeof *list.items + 4096);
    assert_true(list.capacity < 2 * list.count);
}

static void two_lists_that_grow_in_turns_keep_apart(void **state)
{
    LIST(size_t) one = {0}, two = {0};
    for (size_t i = 0; i < 3000; i++) {
        *LIST_ADD(*state, &one) = i;
        if (i % 3 == 0)
            *LIST_ADD(*state, &two) = ~i;
    }
    for (size_t i = 0; i < 3000; i++) {
        assert_int_equal(one.items[i], i);
        assert_int_equal(two.items[i / 3], ~(i / 3 * 3));
    }
}

/* ensures: the exit status of a child that asks for `size` bytes. */
static int status_of_asking(struct arena *arena, size_t size)
{
    const pid_t child = fork();
    if (child == 0) {
        /* The one line that it prints is no part of this test's output. */
        close(STDERR_FILENO);
        arena_alloc(arena, size);
        _exit(0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* Blocks of megabytes, one after the other, and again after it was emptied. */
static void much_does_not_overlap(void **state)
{
    enum { COUNT = 3000, BYTES = 8000 };
    unsigned char *parts[COUNT];
    for (int round = 0; round < 2; round++) {
        for (size_t i = 0; i < COUNT; i++) {
            parts[i] = arena_alloc(*state, BYTES);
            assert_int_equal((uintptr_t)parts[i] % _Alignof(max_align_t), 0);
            for (size_t k = 0; k < BYTES; k++)
                assert_int_equal(parts[i][k], 0);
            memset(parts[i], 1 + (int)(i % 255), BYTES);
        }
        for (size_t i = 0; i < COUNT; i++)
            for (size_t k = 0; k < BYTES; k++)
                assert_int_equal(parts[i][k], 1 + (int)(i % 255));
        arena_empty(*state);
    }
}

static void no_memory_ends_with_status_3(void **state)
{
    assert_int_equal(status_of_asking(*state, 100), 0);
    assert_int_equal(status_of_asking(*state, SIZE_MAX), 3);
    assert_int_equal(status_of_asking(*state, SIZE_MAX - 8), 3);
    assert_int_equal(status_of_asking(*state, SIZE_MAX / 2 - 64), 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(memory_is_zeroed_and_aligned),
        cmocka_unit_test(allocations_do_not_overlap),
        cmocka_unit_test(copies_end_in_nul),
        cmocka_unit_test(printing_fits_any_length),
        cmocka_unit_test(a_list_keeps_its_items),
        cmocka_unit_test(what_grows_keeps_its_bytes),
        cmocka_unit_test(large_lists_keep_their_items),
        cmocka_unit_test(what_grows_leaves_nothing_behind),
        cmocka_unit_test(two_lists_that_grow_in_turns_keep_apart),
        cmocka_unit_test(much_does_not_overlap),
        cmocka_unit_test(no_memory_ends_with_status_3),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
