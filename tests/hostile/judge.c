/* Runs the program on one file. What counts is what is left: how it ended, what
 * it said, and what lies in the folder. */
#define _GNU_SOURCE /* memmem, mkdir */
#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "files.h"
#include "hostile.h"

/* Seconds of the processor; the wall clock gets more, as tests share machines.
 * The sanitizers make a run some three times as long, and have a limit of
 * memory of their own, in their options. */
enum {
    SECONDS = 10,
    SANITIZED_SECONDS = 30,
    WALL_SECONDS = 300,
    MEGABYTES = 1500,
    SAID_BYTES = 4 * 1024 * 1024
};

static void limit(int resource, rlim_t most)
{
    const struct rlimit limits = {most, most};
    setrlimit(resource, &limits);
}

/* In the child; does not come back. */
static void start(const char *program, const char *work,
                  const char *const *words)
{
    const int none = open("/dev/null", O_RDONLY);
    if (chdir(work) != 0 || none < 0)
        _exit(126);
    const int out = open("out", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    const int err = open("err", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    dup2(none, 0);
    dup2(out, 1);
    dup2(err, 2);
    const bool sanitized = getenv("SANITIZED") != NULL;
    limit(RLIMIT_CPU, sanitized ? SANITIZED_SECONDS : SECONDS);
    limit(RLIMIT_CORE, 0);
    limit(RLIMIT_FSIZE, 256 * 1024 * 1024);
    if (!sanitized)
        limit(RLIMIT_AS, (rlim_t)MEGABYTES * 1024 * 1024);
    alarm(WALL_SECONDS);
    execv(program, (char *const *)words);
    _exit(127);
}

static struct file_content read_in(struct arena *arena, const char *work,
                                   const char *name)
{
    return file_read_below(arena, work, name, 256 * 1024 * 1024);
}

/* ensures: how the run broke its word, or NULL; the status is written. */
static const char *ended(struct arena *arena, const char *work, int status,
                         int *code)
{
    const struct file_content err = read_in(arena, work, "err");
    *code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    if (WIFSIGNALED(status) &&
        (WTERMSIG(status) == SIGXCPU || WTERMSIG(status) == SIGALRM ||
         WTERMSIG(status) == SIGKILL))
        return "not done in its time";
    if (WIFSIGNALED(status))
        return arena_printf(arena, "ended by signal %d", WTERMSIG(status));
    if (err.fault != FILE_OK)
        return "what it said cannot be read";
    if (strstr(err.bytes, "Sanitizer") != NULL ||
        strstr(err.bytes, "runtime error:") != NULL)
        return "a sanitizer has something to say";
    if (*code == 2 || *code > 4)
        return arena_printf(arena, "status %d", *code);
    if (*code != 0 && err.length == 0)
        return "it failed without a word";
    if (err.length > SAID_BYTES)
        return "it said over 4 MiB";
    return NULL;
}

/* ensures: what is wrong with what was built, or NULL. A file that is named
 * must be there, a booklet whole, and nothing else in the folder or beside it.
 */
static const char *built(struct arena *arena, const char *work, int code)
{
    DIR *beside = opendir(work);
    const struct dirent *entry;
    const char *problem = NULL;
    bool folder = false;
    while (beside != NULL && (entry = readdir(beside)) != NULL) {
        if (strncmp(entry->d_name, ".seamwright", 11) == 0)
            problem = "something was left beside the output";
        folder |= strcmp(entry->d_name, "built") == 0;
    }
    closedir(beside);
    if (problem != NULL || folder != (code == 0))
        return problem != NULL ? problem
               : folder        ? "it failed, and wrote"
                               : "it was clean, and wrote nothing";
    if (!folder)
        return NULL;
    const struct file_content list =
        read_in(arena, work, "built/.seamwright-files");
    for (char *name = list.fault == FILE_OK ? strtok(list.bytes, "\n") : NULL;
         name != NULL && problem == NULL; name = strtok(NULL, "\n")) {
        if (name[0] == '.')
            continue;
        const char *path = arena_printf(arena, "built/%s", name);
        const struct file_content file = read_in(arena, work, path);
        const size_t length = strlen(name);
        if (file.fault != FILE_OK || file.length == 0)
            problem = arena_printf(arena, "%s is not there", name);
        else if (length > 4 && strcmp(name + length - 4, ".pdf") == 0 &&
                 (memcmp(file.bytes, "%PDF", 4) != 0 ||
                  memmem(file.bytes + file.length - 8, 8, "%%EOF", 5) == NULL))
            problem = arena_printf(arena, "%s is not whole", name);
    }
    return list.fault != FILE_OK ? "its list of files is not there" : problem;
}

static void clear(struct arena *arena, const char *folder)
{
    DIR *entries = opendir(folder);
    const struct dirent *entry;
    while (entries != NULL && (entry = readdir(entries)) != NULL) {
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0)
            continue;
        const char *path = arena_printf(arena, "%s/%s", folder, entry->d_name);
        if (unlink(path) != 0) {
            clear(arena, path);
            rmdir(path);
        }
    }
    if (entries != NULL)
        closedir(entries);
}

static const char *run(struct arena *arena, const char *program,
                       const char *work, const char *const *words, int *code)
{
    const pid_t child = fork();
    int status = 0;
    if (child == 0)
        start(program, work, words);
    if (child < 0 || waitpid(child, &status, 0) != child)
        return "it cannot be run";
    return ended(arena, work, status, code);
}

static bool write_file(struct arena *arena, const char *work, const char *name,
                       const char *bytes, size_t length)
{
    FILE *file = fopen(arena_printf(arena, "%s/%s", work, name), "w");
    return file != NULL && fwrite(bytes, 1, length, file) == length &&
           fclose(file) == 0;
}

/* The source as `x`, and behind each mark a file that it includes. */
static bool write_files(struct arena *arena, const char *work,
                        const struct buffer *source)
{
    const char *at = source->bytes, *end = source->bytes + source->length;
    const char *name = "x";
    while (name != NULL) {
        const char *mark =
            memmem(at, (size_t)(end - at), FILE_MARK, strlen(FILE_MARK));
        const char *last = mark == NULL ? end : mark;
        if (!write_file(arena, work, name, at, (size_t)(last - at)))
            return false;
        name = NULL;
        if (mark != NULL) {
            at = mark + strlen(FILE_MARK);
            name = arena_copy(arena, at, strcspn(at, "\n"));
            at += strlen(name) + 1;
        }
    }
    return true;
}

struct verdict judge(struct arena *arena, const char *program, const char *work,
                     const struct buffer *source, bool list)
{
    const char *const planned[] = {"seamwright", "plan", "x", NULL};
    const char *const checked[] = {"seamwright", "check", "x", NULL};
    const char *const made[] = {"seamwright", "build", "x",
                                "-o",         "built", NULL};
    int code = 0, again = 0;
    clear(arena, work);
    if (!write_files(arena, work, source))
        return (struct verdict){"the file cannot be written", false};
    struct verdict verdict = {
        .problem = run(arena, program, work, list ? planned : checked, &code)};
    verdict.clean = code == 0;
    if (list || verdict.problem != NULL)
        return verdict;
    verdict.problem = run(arena, program, work, made, &again);
    if (verdict.problem == NULL)
        verdict.problem = built(arena, work, again);
    /* Only the output itself may make the difference (4), or its limits (3). */
    if (verdict.problem == NULL && again != code && again < 3)
        verdict.problem = arena_printf(
            arena, "check ended with %d, build with %d", code, again);
    if (verdict.problem != NULL)
        verdict.problem = arena_printf(arena, "build: %s", verdict.problem);
    return verdict;
}
