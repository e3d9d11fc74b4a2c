/* The embedded files are those below templates/, byte for byte. */
#include <dirent.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "../unit.h"
#include "files.h"
#include "templates.h"

static void the_table_is_sorted_by_name(void **state)
{
    (void)state;
    size_t count = 0;
    const struct template_file *all = template_all(&count);
    for (size_t i = 1; i < count; i++)
        assert_true(strcmp(all[i - 1].name, all[i].name) < 0);
}

static void each_file_is_found_and_the_same(void **state)
{
    size_t count = 0;
    const struct template_file *all = template_all(&count);
    for (size_t i = 0; i < count; i++) {
        assert_ptr_equal(template_find(all[i].name), &all[i]);
        const char *path = arena_printf(*state, "templates/%s", all[i].name);
        const struct file_content c = file_read(*state, path);
        assert_int_equal(c.fault, FILE_OK);
        assert_int_equal(c.length, all[i].length);
        assert_memory_equal(c.bytes, all[i].bytes, c.length);
    }
}

/* ensures: how many files lie below a folder, without hidden ones. */
static size_t files_below(struct arena *arena, const char *folder)
{
    DIR *entries = opendir(folder);
    size_t count = 0;
    const struct dirent *entry;
    while (entries != NULL && (entry = readdir(entries)) != NULL) {
        if (entry->d_name[0] == '.')
            continue;
        const char *path = arena_printf(arena, "%s/%s", folder, entry->d_name);
        struct stat about;
        assert_int_equal(lstat(path, &about), 0);
        if (S_ISDIR(about.st_mode))
            count += files_below(arena, path);
        else
            count += S_ISREG(about.st_mode);
    }
    if (entries != NULL)
        closedir(entries);
    return count;
}

static void none_is_missing(void **state)
{
    size_t count = 0;
    template_all(&count);
    assert_int_equal(count, files_below(*state, "templates"));
}

static void other_names_are_not_found(void **state)
{
    (void)state;
    assert_null(template_find(""));
    assert_null(template_find("no such file"));
    assert_null(template_find("zzz"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_table_is_sorted_by_name),
        cmocka_unit_test(each_file_is_found_and_the_same),
        cmocka_unit_test(none_is_missing),
        cmocka_unit_test(other_names_are_not_found),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
