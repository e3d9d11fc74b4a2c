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

/* `compare` has two statuses more: something changed, and, as wrong usage, two
 * files that are not one pattern. */
static bool is_allowed(const char *command, int code, const char *said)
{
    if (strcmp(command, "compare") == 0)
        return code <= 1 || code == 3 || code == 4 || code == 6 ||
               (code == 2 && strstr(said, "are not the same pattern") != NULL);
    return code != 2 && code <= 4;
}

/* ensures: how the run broke its word, or NULL; the status is written. */
static const char *ended(struct arena *arena, const char *work,
                         const char *command, int status, int *code)
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
    if (!is_allowed(command, *code, err.bytes))
        return arena_printf(arena, "status %d", *code);
    if (*code != 0 && *code != 6 && err.length == 0)
        return "it failed without a word";
    if (err.length > SAID_BYTES)
        return "it said over 4 MiB";
    return NULL;
}

static bool is_whole_pdf(const struct file_content *file)
{
    return file->length > 8 && memcmp(file->bytes, "%PDF", 4) == 0 &&
           memmem(file->bytes + file->length - 8, 8, "%%EOF", 5) != NULL;
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
                 !is_whole_pdf(&file))
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
    return ended(arena, work, words[1], status, code);
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

/* `check` and the command that writes a folder. */
static struct verdict judge_folder(struct arena *arena, const char *program,
                                   const char *work, const char *command)
{
    const char *const checked[] = {"seamwright", "check", "x", NULL};
    const char *const made[] = {"seamwright", command, "x",
                                "-o",         "built", NULL};
    int code = 0, again = 0;
    struct verdict verdict = {
        .problem = run(arena, program, work, checked, &code)};
    verdict.clean = code == 0;
    if (verdict.problem != NULL)
        return verdict;
    verdict.problem = run(arena, program, work, made, &again);
    if (verdict.problem == NULL)
        verdict.problem = built(arena, work, again);
    /* Only the output itself may make the difference (4), or its limits (3). */
    if (verdict.problem == NULL && again != code && again < 3)
        verdict.problem =
            arena_printf(arena, "check ended with %d, %s with %d", code,
                         command, again);
    if (verdict.problem != NULL)
        verdict.problem =
            arena_printf(arena, "%s: %s", command, verdict.problem);
    return verdict;
}

/* The data as the older revision, with a sheet, and as the newer one. */
static struct verdict judge_data(struct arena *arena, const char *program,
                                 const char *work)
{
    const char *const older[] = {"seamwright", "compare",   "x", DATA_SOUND,
                                 "-o",         "sheet.pdf", NULL};
    const char *const newer[] = {"seamwright", "compare", DATA_SOUND,
                                 "x",          "--json",  NULL};
    int code = 0, again = 0;
    struct verdict verdict = {
        .problem = run(arena, program, work, older, &code)};
    verdict.clean = code == 0 || code == 6;
    if (verdict.problem != NULL)
        return verdict;
    const struct file_content sheet = read_in(arena, work, "sheet.pdf");
    if ((sheet.fault == FILE_OK) != (code == 6))
        verdict.problem = code == 6 ? "something changed, and no sheet tells it"
                                    : "nothing changed, and there is a sheet";
    else if (sheet.fault == FILE_OK && !is_whole_pdf(&sheet))
        verdict.problem = "the sheet is not whole";
    if (verdict.problem == NULL)
        verdict.problem = run(arena, program, work, newer, &again);
    /* It is the same file with the same other one. */
    if (verdict.problem == NULL && again != code)
        verdict.problem = arena_printf(
            arena, "ended with %d, and the other way round with %d", code,
            again);
    return verdict;
}

static struct verdict judge_list(struct arena *arena, const char *program,
                                 const char *work)
{
    const char *const planned[] = {"seamwright", "plan", "x", NULL};
    int code = 0;
    const char *problem = run(arena, program, work, planned, &code);
    return (struct verdict){problem, code == 0};
}

struct verdict judge(struct arena *arena, const char *program, const char *work,
                     const struct buffer *source, enum hostile_file file)
{
    clear(arena, work);
    if (!write_files(arena, work, source))
        return (struct verdict){"the file cannot be written", false};
    switch (file) {
    case HOSTILE_SOURCE:
        return judge_folder(arena, program, work, "build");
    case HOSTILE_ORDER:
        return judge_folder(arena, program, work, "kit");
    case HOSTILE_LIST:
        return judge_list(arena, program, work);
    case HOSTILE_DATA:
        break;
    }
    return judge_data(arena, program, work);
}
