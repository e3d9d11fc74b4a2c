/* Compiles mutants in child processes and says what became of each. */
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "mutants.h"

bool lies_there(const struct run *run, const struct mutant *mutant,
                struct span span, unsigned mistake)
{
    const size_t line = source_line(run->source, span.start);
    for (size_t i = 0; i < mutant->edits; i++)
        if (mutant->mistakes[i] == mistake && line >= mutant->lines[i].first &&
            line <= mutant->lines[i].last)
            return true;
    return false;
}

/* The innermost element that holds the byte. */
static const struct element *innermost(const struct element *element,
                                       uint32_t at)
{
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (at >= child->tag.start &&
            at < (child->content.end > child->tag.end ? child->content.end
                                                      : child->tag.end))
            return innermost(child, at);
    }
    return element;
}

bool lies_near(const struct compiled *compiled, const struct mutant *mutant,
               struct span span, unsigned mistake)
{
    if (compiled->pattern == NULL)
        return false;
    for (size_t i = 0; i < mutant->edits; i++) {
        const struct element *element =
            innermost(compiled->pattern->root, mutant->places[i]);
        if (mutant->mistakes[i] == mistake &&
            span.start >= element->tag.start && element->parent != NULL &&
            (span.start < element->tag.end ||
             span.start < element->content.end))
            return true;
    }
    return false;
}

/* ---- helps ---- */

/* Settings that are written, but are what nothing written means. */
static void drop_defaults(char *text)
{
    static const char *const defaults[] = {"turn=\"0\"", "mirror=\"no\"",
                                           "points=\"up\""};
    for (size_t i = 0; i < 3; i++) {
        const size_t length = strlen(defaults[i]);
        for (char *at; (at = strstr(text, defaults[i])) != NULL;)
            memmove(at, at + length, strlen(at + length) + 1);
    }
}

bool same_source(struct arena *arena, const char *bare, const char *text)
{
    char *a = without_blanks(arena, text, strlen(text));
    char *b = arena_copy(arena, bare, strlen(bare));
    drop_defaults(a);
    drop_defaults(b);
    return strcmp(a, b) == 0;
}

const char *mended_text(struct arena *arena, const struct mutant *mutant,
                        const struct diagnostic *d)
{
    return arena_printf(arena, "%.*s%s%s", (int)d->mend_span.start,
                        mutant->text, d->replacement,
                        mutant->text + d->mend_span.end);
}

/* Applies a fix, and compiles what comes of it. */
static void try_fix(GEOSContextHandle_t geos, const struct job *job,
                    const struct diagnostic *d, struct outcome *outcome)
{
    struct arena *arena = arena_create();
    const char *text = mended_text(arena, job->mutant, d);
    const struct compiled compiled = compile_source(
        arena, source_create(arena, "fixed", text, strlen(text)));
    const bool clean = diag_count(compiled.run, DIAG_ERROR) == 0 &&
                       diag_count(compiled.run, DIAG_WARNING) == 0;
    char why[160];
    const bool right =
        same_source(arena, job->sample->bare, text) ||
        (clean && outcome->first_near &&
         !products_differ(geos, job->sample, &compiled, why, sizeof why));
    outcome->fixes++;
    outcome->clean += clean;
    outcome->right = outcome->right || right;
    outcome->wrong = outcome->wrong || !right;
    arena_destroy(arena);
}

/* A help without a fix names what was there before. */
static bool names_truth(const struct mutant *mutant, const char *help)
{
    const char *from = mutant->from;
    while (*from == ' ')
        from++;
    return mutant->edits == 1 && *from != '\0' && strstr(help, from) != NULL;
}

static void judge_helps(GEOSContextHandle_t geos, const struct job *job,
                        const struct run *run, struct outcome *outcome)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++) {
        if (diag_entry(sorted[i]->code)->level != DIAG_ERROR)
            continue;
        outcome->errors++;
        if (sorted[i]->replacement != NULL)
            try_fix(geos, job, sorted[i], outcome);
        else if (sorted[i]->help != NULL)
            outcome->right =
                outcome->right || names_truth(job->mutant, sorted[i]->help);
    }
}

/* ---- errors ---- */

/* ensures: false where there is no error. */
static bool look_at_errors(const struct compiled *compiled,
                           const struct mutant *mutant, struct outcome *outcome)
{
    const struct run *run = compiled->run;
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    bool found = false;
    for (size_t i = 0; i < count; i++) {
        if (diag_entry(sorted[i]->code)->level != DIAG_ERROR)
            continue;
        const bool there = lies_there(run, mutant, sorted[i]->span, 0);
        if (!found || (there && !outcome->any_there))
            outcome->code = (int)sorted[i]->code;
        if (!found) {
            outcome->first_there = there;
            outcome->first_near =
                there || lies_near(compiled, mutant, sorted[i]->span, 0);
        }
        outcome->any_there = outcome->any_there || there;
        found = true;
    }
    return found;
}

/* The length or count of a piece is a part of the quilt or a statement about
 * it. Where another one changes nothing and is not told, nobody read it. */
static bool never_harmless(enum kind kind)
{
    return kind == KIND_LENGTH || kind == KIND_SQUARE || kind == KIND_COUNT;
}

static enum verdict judge_silent(GEOSContextHandle_t geos,
                                 const struct job *job,
                                 const struct compiled *compiled,
                                 struct outcome *outcome)
{
    if (job->mutant->rule != RULE_NONE)
        return ESCAPED; /* left out: only told whether caught */
    if (products_differ(geos, job->sample, compiled, outcome->why,
                        sizeof outcome->why))
        return ESCAPED;
    if (!never_harmless(job->mutant->kind))
        return HARMLESS;
    snprintf(outcome->why, sizeof outcome->why,
             "a false statement passes, the quilt is the same");
    return ESCAPED;
}

struct outcome judge(GEOSContextHandle_t geos, const struct job *job)
{
    if (job->mutant->pair[0] != NULL)
        return judge_pair(job);
    struct outcome outcome = {.verdict = CAUGHT, .code = -1};
    struct arena *arena = arena_create();
    const struct source *source = source_create(
        arena, job->sample->path, job->mutant->text, job->mutant->length);
    const clock_t start = clock();
    const struct compiled compiled = compile_source(arena, source);
    outcome.seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    outcome.trials = compiled.trials;
    if (look_at_errors(&compiled, job->mutant, &outcome))
        judge_helps(geos, job, compiled.run, &outcome);
    else
        outcome.verdict = judge_silent(geos, job, &compiled, &outcome);
    arena_destroy(arena);
    return outcome;
}

/* ---- two at a time ---- */

enum { WORKERS = 2, SECONDS_EACH = 300 }; /* on a busy machine */

/* Every second job from `start` on; each outcome goes to its place in the
 * file as soon as it is known. Never returns. */
static _Noreturn void work(GEOSContextHandle_t geos, const struct job *jobs,
                           size_t count, size_t start, int file)
{
    for (size_t i = start; i < count; i += WORKERS) {
        alarm(SECONDS_EACH);
        const struct outcome outcome = judge(geos, &jobs[i]);
        const off_t at = (off_t)(i * sizeof outcome);
        if (pwrite(file, &outcome, sizeof outcome, at) !=
            (ssize_t)sizeof outcome)
            _exit(2);
    }
    _exit(0);
}

static pid_t start_worker(GEOSContextHandle_t geos, const struct job *jobs,
                          size_t count, size_t start, int file)
{
    fflush(stdout);
    fflush(stderr);
    const pid_t child = fork();
    if (child == 0)
        work(geos, jobs, count, start, file);
    if (child < 0) {
        perror("fork");
        exit(2);
    }
    return child;
}

static struct outcome outcome_at(int file, size_t index)
{
    struct outcome outcome = {.verdict = VERDICT_NONE};
    if (pread(file, &outcome, sizeof outcome,
              (off_t)(index * sizeof outcome)) != (ssize_t)sizeof outcome)
        outcome.verdict = VERDICT_NONE;
    return outcome;
}

/* A child that ended early died of the first job without an outcome.
 * ensures: where its slice goes on. */
static size_t bury(int file, size_t start, size_t count, int status)
{
    while (start < count && outcome_at(file, start).verdict != VERDICT_NONE)
        start += WORKERS;
    if (start >= count)
        return start;
    struct outcome outcome = {.verdict = DIED, .code = -1};
    if (WIFSIGNALED(status))
        snprintf(outcome.why, sizeof outcome.why, "ended by signal %d",
                 WTERMSIG(status));
    else
        snprintf(outcome.why, sizeof outcome.why, "left with status %d",
                 WEXITSTATUS(status));
    if (pwrite(file, &outcome, sizeof outcome,
               (off_t)(start * sizeof outcome)) != (ssize_t)sizeof outcome) {
        perror("pwrite");
        exit(2);
    }
    return start + WORKERS;
}

void judge_all(GEOSContextHandle_t geos, const struct job *jobs, size_t count,
               struct outcome *outcomes)
{
    FILE *store = tmpfile();
    if (store == NULL) {
        perror("tmpfile");
        exit(2);
    }
    const int file = fileno(store);
    pid_t children[WORKERS];
    size_t starts[WORKERS];
    for (size_t w = 0; w < WORKERS; w++) {
        starts[w] = w;
        children[w] = start_worker(geos, jobs, count, w, file);
    }
    for (size_t running = WORKERS; running > 0;) {
        int status = 0;
        const pid_t ended = wait(&status);
        size_t w = 0;
        while (w < WORKERS && children[w] != ended)
            w++;
        if (w == WORKERS)
            continue;
        if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
            starts[w] = bury(file, starts[w], count, status);
        else
            starts[w] = count;
        if (starts[w] < count)
            children[w] = start_worker(geos, jobs, count, starts[w], file);
        else
            running--;
    }
    for (size_t i = 0; i < count; i++)
        outcomes[i] = outcome_at(file, i);
    fclose(store);
}
