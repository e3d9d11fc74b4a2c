/* A folder of its own for each test that writes files, below the build
 * folder, and helpers to fill and look at it. */
#ifndef SEAMWRIGHT_TESTS_SCRATCH_H
#define SEAMWRIGHT_TESTS_SCRATCH_H

#include <dirent.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../unit.h"

struct scratch {
    struct arena *arena;
    char *path;
    int home; /* the folder that the test began in */
};

/* Makes the folder and goes there. */
static inline int scratch_enter(void **state)
{
    struct scratch *s = calloc(1, sizeof *s);
    const char *build = getenv("BUILD");
    s->arena = arena_create();
    s->path = arena_printf(s->arena, "%s/tests/scratch-XXXXXX",
                           build == NULL ? "build" : build);
    s->home = open(".", O_RDONLY | O_DIRECTORY);
    *state = s;
    return mkdtemp(s->path) == NULL || chdir(s->path) != 0;
}

static inline void scratch_remove(int at, const char *name)
{
    const int folder = openat(at, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW);
    if (folder < 0) {
        unlinkat(at, name, 0);
        return;
    }
    fchmod(folder, 0700);
    DIR *entries = fdopendir(folder);
    const struct dirent *entry;
    while ((entry = readdir(entries)) != NULL) {
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0)
            scratch_remove(folder, entry->d_name);
    }
    closedir(entries);
    unlinkat(at, name, AT_REMOVEDIR);
}

static inline int scratch_leave(void **state)
{
    struct scratch *s = *state;
    const int failed = fchdir(s->home);
    scratch_remove(AT_FDCWD, s->path);
    close(s->home);
    arena_destroy(s->arena);
    free(s);
    return failed;
}

static inline void scratch_write(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

static inline int scratch_entry(const struct dirent *entry)
{
    return strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
}

/* ensures: what a folder holds, sorted: "a=TEXT b=TEXT ..."; a folder inside
 * is "a/"; "-" where there is no such folder. */
static inline const char *scratch_content(struct arena *arena,
                                          const char *folder)
{
    struct dirent **names = NULL;
    const int count = scandir(folder, &names, scratch_entry, alphasort);
    if (count < 0)
        return "-";
    const char *all = "";
    for (int i = 0; i < count; i++) {
        const char *name = names[i]->d_name;
        const char *path = arena_printf(arena, "%s/%s", folder, name);
        char text[256] = "";
        struct stat about;
        FILE *file = stat(path, &about) == 0 && S_ISREG(about.st_mode)
                         ? fopen(path, "r")
                         : NULL;
        const size_t got =
            file == NULL ? 0 : fread(text, 1, sizeof text - 1, file);
        all = arena_printf(arena, "%s%s%s%s%.*s", all, i == 0 ? "" : " ", name,
                           names[i]->d_type == DT_DIR ? "/" : "=", (int)got,
                           text);
        if (file != NULL)
            fclose(file);
        free(names[i]);
    }
    free(names);
    return all;
}

#endif
