/* How much dearer the program is than what any program must do for the same:
 * `check` against the validation of the same file with xmllint, `build` against
 * a bare replay: the pages of the same display lists, drawn by Cairo and Pango
 * onto PDF surfaces and thrown away, with nothing that makes them or adds to
 * them. Processor time of whole processes (the replay is forked, so it lacks
 * the start of a process), taken in turns, the best of ROUNDS. Before that, how
 * time and memory grow with the source: pieces, equal ones and unlike ones, and
 * the ways in which a source can be wrong. Run by
 * `make bench`; the figures are to be read, no test depends on them. Nothing
 * that writes PDF files may be linked here: Cairo would find its zlib that
 * stores (src/render/pdf_deflate.c), and the replay would deflate nothing. */
#include <cairo-pdf.h>
#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../../src/driver/selection.h"
#include "../../src/render/draw.h"
#include "compose.h"

enum { ROUNDS = 7, MOST_BOOKS = 32 };

/* Processor time in seconds, most memory in megabytes. */
struct cost {
    double seconds, megabytes;
    int status; /* of its end; below 0 where a signal ended it */
    bool failed;
};

struct books {
    const struct book *items[MOST_BOOKS];
    size_t count;
};

static cairo_status_t drop(void *closure, const unsigned char *bytes,
                           unsigned int length)
{
    *(size_t *)closure += length;
    (void)bytes;
    return CAIRO_STATUS_SUCCESS;
}

/* In a process of its own: it ends here. */
static void replay(const struct books *books)
{
    struct typeset *typeset = typeset_create();
    size_t bytes = 0;
    for (size_t i = 0; i < books->count; i++) {
        const struct book *book = books->items[i];
        cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
            drop, &bytes, book->width, book->height);
        cairo_t *cairo = cairo_create(surface);
        for (size_t k = 0; k < book->pages.count; k++) {
            draw_page(cairo, typeset, book->pages.items[k]);
            cairo_show_page(cairo);
        }
        cairo_destroy(cairo);
        cairo_surface_destroy(surface);
    }
    _exit(bytes > 0 ? 0 : 1);
}

/* What grows beyond 3 GB or two minutes has failed, and takes nothing else with
 * it. */
static void run_quietly(const char *const *words)
{
    const struct rlimit memory = {(rlim_t)3 << 30, (rlim_t)3 << 30};
    const struct rlimit time = {120, 120};
    setrlimit(RLIMIT_AS, &memory);
    setrlimit(RLIMIT_CPU, &time);
    const int nowhere = open("/dev/null", O_WRONLY);
    dup2(nowhere, STDOUT_FILENO);
    dup2(nowhere, STDERR_FILENO);
    /* POSIX: the words are not changed, though the type says nothing of it. */
    union {
        const char *const *ours;
        char *const *theirs;
    } same = {words};
    execvp(words[0], same.theirs);
    _exit(127);
}

static double seconds_of(struct timeval time)
{
    return (double)time.tv_sec + (double)time.tv_usec / 1e6;
}

/* Through a process between, whose only child it is: usage is told of all
 * children together. `words` are a command, NULL: the books are replayed. */
static struct cost measure(const char *const *words, const struct books *books)
{
    int ends[2];
    struct cost cost = {.status = -1, .failed = true};
    fflush(stdout);
    if (pipe(ends) != 0)
        return cost;
    const pid_t between = fork();
    if (between == 0) {
        const pid_t child = fork();
        if (child == 0) {
            if (words == NULL)
                replay(books);
            run_quietly(words);
        }
        int status = 1;
        struct rusage usage;
        waitpid(child, &status, 0);
        getrusage(RUSAGE_CHILDREN, &usage);
        cost.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        cost.failed = status != 0;
        cost.seconds = seconds_of(usage.ru_utime) + seconds_of(usage.ru_stime);
        cost.megabytes = (double)usage.ru_maxrss / 1024.0;
        _exit(write(ends[1], &cost, sizeof cost) == sizeof cost ? 0 : 1);
    }
    close(ends[1]);
    if (read(ends[0], &cost, sizeof cost) != sizeof cost)
        cost.failed = true;
    close(ends[0]);
    waitpid(between, NULL, 0);
    return cost;
}

static void keep_best(double *best, struct cost cost)
{
    if (cost.failed)
        *best = NAN;
    else if (!(*best <= cost.seconds) && !isnan(*best))
        *best = cost.seconds;
}

/* ---- samples ---- */

static struct books books_of(struct arena *arena, const char *sample)
{
    struct books books = {.count = 0};
    const struct compiled compiled = compile_file(arena, sample);
    const struct options options = {0};
    if (compiled.plans == NULL)
        return books;
    struct typeset *typeset = typeset_create();
    for (size_t i = 0; i < compiled.plans->items.count && i < MOST_BOOKS; i++)
        books.items[books.count++] = compose_book(
            arena, typeset, phrases_load(arena, compiled.pattern->language),
            compiled.design, &compiled.plans->items.items[i],
            paper_is_a4(&compiled, &options));
    typeset_destroy(typeset);
    return books;
}

/* The sample without its amounts, in the folder. */
static const char *without_amounts(struct arena *arena, const char *sample,
                                   const char *folder)
{
    const char *path = arena_printf(arena, "%s/plain.xml", folder);
    const char *command = arena_printf(
        arena,
        "sed -E 's/ (yards|fat-quarters|sheets)=\"[^\"]*\"//g' '%s' > '%s'",
        sample, path);
    return system(command) == 0 ? path : NULL;
}

static void compare_sample(struct arena *arena, const char *program,
                           const char *sample, const char *folder)
{
    const struct books books = books_of(arena, sample);
    const char *plain = without_amounts(arena, sample, folder);
    const char *const validate[] = {"xmllint",   "--noout",
                                    "--relaxng", "templates/pattern.rng",
                                    sample,      NULL};
    const char *const check[] = {program, "check", sample, NULL};
    const char *const check_plain[] = {program, "check", plain, NULL};
    const char *const build[] = {
        program, "build", sample, "-o", arena_printf(arena, "%s/built", folder),
        NULL};
    const char *const *const commands[] = {validate, check, check_plain, build,
                                           NULL};
    double best[5] = {INFINITY, INFINITY, INFINITY, INFINITY, INFINITY};
    for (int round = 0; round < ROUNDS; round++)
        for (int i = 0; i < 5; i++)
            keep_best(&best[i], measure(commands[i], &books));
    const char *name = strrchr(sample, '/');
    printf("%-20s check %5.1f x xmllint (without amounts %5.1f x), build %5.2f "
           "x replay   (ms: %.0f, %.0f, %.0f, %.0f, %.0f)\n",
           name == NULL ? sample : name + 1, best[1] / best[0],
           best[2] / best[0], best[3] / best[4], best[0] * 1e3, best[1] * 1e3,
           best[2] * 1e3, best[3] * 1e3, best[4] * 1e3);
}

/* ---- growth ---- */

/* Sources that grow in one way (tests/pathological/generate.awk): what `check`,
 * `list` and `build` make of them, and with which status it ends. */
struct growth {
    const char *kind, *command;
    int counts[3], status;
};

static const struct growth growths[] = {
    {"equal", "check", {1000, 10000, 100000}, 0},
    {"unlike", "check", {100, 1000, 10000}, 0},
    {"unlike", "check", {20000, 50000, 100000}, 1}, /* all sewn, then told */
    {"equal", "list", {1000, 10000, 100000}, 0},
    {"unlike", "list", {100, 1000, 10000}, 0},
    {"equal", "build", {1000, 10000, 100000}, 0},
    {"unlike", "build", {100, 1000, 10000}, 0},
    {"unknown", "check", {100, 1000, 10000}, 1},
    {"cycle", "check", {1000, 10000, 100000}, 1},
    {"depth", "check", {1000, 10000, 100000}, 1},
    {"wrong-cell", "check", {100, 1000, 10000}, 1},
    {"shapes", "check", {50, 500, 5000}, 0},
    {"prose", "check", {10000, 100000, 1000000}, 1},
};

/* The best of a few runs: on a shared machine one alone may take a third more,
 * which is half a step of the exponent. Long ones are run once. */
static struct cost measure_growth(const char *const *words)
{
    enum { RUNS = 3, LONG = 4 };
    struct cost best = measure(words, NULL);
    for (int i = 1; i < RUNS && best.seconds < LONG; i++) {
        const struct cost cost = measure(words, NULL);
        if (cost.status != best.status || cost.seconds < best.seconds)
            best = cost;
    }
    return best;
}

/* The exponent is that of the last step: time over number. */
static void show_growth(struct arena *arena, const char *program,
                        const struct growth *growth, const char *folder)
{
    double before = 0.0;
    const char *path = arena_printf(arena, "%s/large.xml", folder);
    const char *built = arena_printf(arena, "%s/built", folder);
    const char *const plain[] = {program, growth->command, path, NULL};
    const char *const build[] = {program, growth->command, path,
                                 "-o",    built,           NULL};
    const bool builds = strcmp(growth->command, "build") == 0;
    for (size_t i = 0; i < sizeof growth->counts / sizeof *growth->counts;
         i++) {
        const char *make = arena_printf(
            arena,
            "awk -v kind=%s -v n=%d -f tests/pathological/generate.awk > '%s'",
            growth->kind, growth->counts[i], path);
        if (system(make) != 0)
            return;
        const struct cost cost = measure_growth(builds ? build : plain);
        const bool failed = cost.status != growth->status;
        printf("%s, %7d %s: %6.2f s, %5.0f MB%s", growth->command,
               growth->counts[i], growth->kind, cost.seconds, cost.megabytes,
               failed ? ", FAILED" : "");
        if (i > 0)
            printf(", exponent %.2f",
                   log(cost.seconds / before) /
                       log((double)growth->counts[i] / growth->counts[i - 1]));
        printf("\n");
        if (failed)
            return;
        before = cost.seconds;
    }
}

int main(void)
{
    static const char *const samples[] = {
        "samples/ebb-pools.xml",    "samples/eight-sails.xml",
        "samples/gull-rock.xml",    "samples/net-racks.xml",
        "samples/lantern-walk.xml", "samples/lone-beacon.xml",
        "samples/orchard-gate.xml", "samples/reed-lights.xml",
        "samples/turning-lamp.xml", "samples/vane-harbor.xml"};
    struct arena *arena = arena_create();
    const char *place = getenv("BUILD") == NULL ? "build" : getenv("BUILD");
    char *program = arena_printf(arena, "%s/seamwright", place);
    char *folder = arena_printf(arena, "%s/bench.XXXXXX", place);
    if (mkdtemp(folder) == NULL) {
        perror(folder);
        return 1;
    }
    /* First, as the memory of a process counts what it was forked from. */
    for (size_t i = 0; i < sizeof growths / sizeof *growths; i++)
        show_growth(arena, program, &growths[i], folder);
    for (size_t i = 0; i < sizeof samples / sizeof *samples; i++)
        compare_sample(arena, program, samples[i], folder);
    const int gone = system(arena_printf(arena, "rm -rf '%s'", folder));
    arena_destroy(arena);
    return gone == 0 ? 0 : 1;
}
