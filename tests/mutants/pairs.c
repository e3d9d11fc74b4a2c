/* Two mistakes in one source, in different elements: is each of them told by an
 * error of its own? Drawn with a seed. */
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "mutants.h"

/* ---- drawing ---- */

/* A linear congruential generator (D. E. Knuth, MMIX), its upper bits. */
static size_t draw(uint64_t *state, size_t below)
{
    *state =
        *state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (size_t)(*state >> 33) % below;
}

static const struct element *innermost(const struct sample *sample, uint32_t at)
{
    const struct element *found = sample->compiled.pattern->root;
    for (size_t i = 0; i < found->children.count; i++) {
        const struct element *child = found->children.items[i];
        const struct span span = element_span(sample->source, child);
        if (at < span.start || at >= span.end)
            continue;
        found = child;
        i = (size_t)-1; /* on to its children */
    }
    return found;
}

/* In different elements, and where one lies the other changes nothing. */
static bool can_be_paired(const struct sample *sample, const struct mutant *a,
                          const struct mutant *b)
{
    if (a->rule != RULE_NONE || b->rule != RULE_NONE)
        return false;
    for (size_t i = 0; i < a->edits; i++)
        for (size_t k = 0; k < b->edits; k++) {
            const struct span one = a->changes[i].span;
            const struct span other = b->changes[k].span;
            if ((one.start <= other.end && other.start <= one.end) ||
                innermost(sample, one.start) == innermost(sample, other.start))
                return false;
        }
    return true;
}

static struct mutant draw_pair(struct sample *sample, uint64_t *state)
{
    const size_t count = sample->mutants.count;
    for (;;) {
        const struct mutant *a = &sample->mutants.items[draw(state, count)];
        const struct mutant *b = &sample->mutants.items[draw(state, count)];
        if (can_be_paired(sample, a, b))
            return mutant_pair(sample, a, b);
    }
}

/* ---- judging ---- */

static bool caught_alone(const struct sample *sample,
                         const struct mutant *mutant)
{
    struct arena *arena = arena_create();
    const struct compiled compiled =
        compile_source(arena, source_create(arena, sample->path, mutant->text,
                                            mutant->length));
    const bool caught = diag_count(compiled.run, DIAG_ERROR) > 0;
    arena_destroy(arena);
    return caught;
}

/* A fix that mends one of the two gives back the text with the other. */
static void look_at_fix(const struct job *job, const struct diagnostic *d,
                        struct outcome *outcome)
{
    struct arena *arena = arena_create();
    const char *text = mended_text(arena, job->mutant, d);
    bool right = false;
    for (size_t i = 0; i < 2; i++)
        right |= same_source(arena, job->mutant->pair[i]->bare, text);
    outcome->fixes++;
    outcome->clean += right;
    arena_destroy(arena);
}

/* Errors that lie at the first mistake only, at the second only, at both. */
struct errors_at {
    size_t one[2], both;
};

static void look_at_error(const struct job *job,
                          const struct compiled *compiled,
                          const struct diagnostic *d, struct errors_at *errors)
{
    bool there[2];
    for (unsigned i = 0; i < 2; i++)
        there[i] = lies_there(compiled->run, job->mutant, d->span, i) ||
                   lies_near(compiled, job->mutant, d->span, i);
    errors->both += there[0] && there[1];
    for (unsigned i = 0; i < 2; i++)
        errors->one[i] += there[i] && !there[1 - i];
}

static void look_at_errors(const struct job *job,
                           const struct compiled *compiled,
                           struct outcome *outcome)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(compiled->run, &sorted);
    struct errors_at errors = {{0, 0}, 0};
    for (size_t i = 0; i < count; i++) {
        if (diag_entry(sorted[i]->code)->level != DIAG_ERROR)
            continue;
        look_at_error(job, compiled, sorted[i], &errors);
        outcome->errors++;
        if (outcome->code < 0)
            outcome->code = (int)sorted[i]->code;
        if (sorted[i]->replacement != NULL)
            look_at_fix(job, sorted[i], outcome);
    }
    /* One that lies at both places names one of them. */
    for (unsigned i = 0; i < 2; i++)
        outcome->named[i] =
            errors.one[i] > 0 || errors.both > (errors.one[1 - i] == 0);
    if (errors.both == 1 && errors.one[0] + errors.one[1] == 0)
        outcome->named[0] = true;
}

struct outcome judge_pair(const struct job *job)
{
    const struct mutant *mutant = job->mutant;
    struct outcome outcome = {.verdict = CAUGHT, .code = -1};
    struct arena *arena = arena_create();
    const clock_t start = clock();
    const struct compiled compiled =
        compile_source(arena, source_create(arena, job->sample->path,
                                            mutant->text, mutant->length));
    outcome.seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    outcome.trials = compiled.trials;
    look_at_errors(job, &compiled, &outcome);
    arena_destroy(arena);
    if ((!outcome.named[0] && !caught_alone(job->sample, mutant->pair[0])) ||
        (!outcome.named[1] && !caught_alone(job->sample, mutant->pair[1])))
        outcome.verdict = HARMLESS;
    return outcome;
}

/* ---- counting ---- */

struct pair_tally {
    size_t judged, both, one, died, errors, fixes, right;
    double seconds, longest;
};

/* Into the folder that MUTANTS_KEEP names. */
static void keep_source(const struct job *job, size_t number)
{
    const char *folder = getenv("MUTANTS_KEEP");
    char path[256];
    if (folder == NULL)
        return;
    snprintf(path, sizeof path, "%s/pair-%zu.xml", folder, number);
    FILE *file = fopen(path, "w");
    if (file == NULL)
        return;
    fwrite(job->mutant->text, 1, job->mutant->length, file);
    fclose(file);
}

static void count_pair(struct pair_tally *tally, const struct job *job,
                       const struct outcome *outcome)
{
    if (outcome->verdict == HARMLESS)
        return; /* one of the two is no mistake */
    const size_t named = (size_t)outcome->named[0] + outcome->named[1];
    tally->judged++;
    tally->died += outcome->verdict != CAUGHT;
    tally->both += named == 2;
    tally->one += named == 1;
    tally->errors += outcome->errors;
    tally->fixes += outcome->fixes;
    tally->right += outcome->clean;
    tally->seconds += outcome->seconds;
    if (outcome->seconds > tally->longest)
        tally->longest = outcome->seconds;
    if (getenv("MUTANTS_SHOW") == NULL || named == 2)
        return;
    keep_source(job, tally->judged);
    for (size_t i = 0; i < 2; i++)
        printf("# pair %zu, %s: %s:%zu: `%s` -> `%s`\n", tally->judged,
               outcome->named[i] ? "named" : "not named", job->sample->path,
               job->mutant->pair[i]->line, job->mutant->pair[i]->from,
               job->mutant->pair[i]->to);
}

static bool tell_pairs(const struct pair_tally *tally)
{
    const double judged = (double)tally->judged;
    /* Not told are mostly pairs of which one hides where a piece lacks that is
     * unlike its neighbors, or could as well be at another place. */
    enum { BOTH_OF_HUNDRED = 90 };
    const bool good = tally->died == 0 &&
                      100 * tally->both >= BOTH_OF_HUNDRED * tally->judged;
    printf("# %zu pairs: both named in %zu, one in %zu; %.2f errors, %zu of "
           "%zu fixes right; %.2f s, %.2f at most\n",
           tally->judged, tally->both, tally->one,
           (double)tally->errors / judged, tally->right, tally->fixes,
           tally->seconds / judged, tally->longest);
    printf("%s mutants: of two mistakes both are told in %d of 100\n",
           good ? "ok" : "not ok", BOTH_OF_HUNDRED);
    return good;
}

bool judge_pairs(GEOSContextHandle_t geos, struct sample *samples, size_t count,
                 size_t every, uint64_t seed)
{
    uint64_t state = seed;
    const size_t pairs = (PAIRS + every - 1) / every;
    struct arena *arena = arena_create();
    struct job *jobs = ARENA_ARRAY(arena, struct job, pairs);
    struct mutant *mutants = ARENA_ARRAY(arena, struct mutant, pairs);
    struct outcome *outcomes = ARENA_ARRAY(arena, struct outcome, pairs);
    for (size_t i = 0; i < pairs; i++) {
        struct sample *sample = &samples[i % count];
        mutants[i] = draw_pair(sample, &state);
        jobs[i] = (struct job){sample, &mutants[i]};
    }
    judge_all(geos, jobs, pairs, outcomes);
    struct pair_tally tally = {0};
    for (size_t i = 0; i < pairs; i++)
        count_pair(&tally, &jobs[i], &outcomes[i]);
    const bool good = tell_pairs(&tally);
    arena_destroy(arena);
    return good;
}
