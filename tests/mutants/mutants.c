/* mutants [--pairs [--seed N]] [--only WORDS] [--every N] SAMPLE...: every
 * sample with one mistake at a time, or with two.
 *
 * Each mutant is compiled in memory. It is caught where there is an error;
 * harmless where there is none and the tops are the same polygon for polygon,
 * the cut lists, the amounts and the finishing too; else it has escaped. With
 * --every, only each Nth mutant is judged; with --only, one kind. Prints what
 * became of all of them, each that escaped, and `ok` or `not ok` for each
 * demand. Of two mistakes: pairs.c. */
#include <stdlib.h>
#include <string.h>

#include "files.h"
#include "mutants.h"

enum { MUTANTS_AT_LEAST = 2000, NAMES_EACH = DIAG_CODE_COUNT };

/* What is asked for on the command line. */
struct judging {
    size_t every;
    const char *only; /* kind; NULL for all */
    bool pairs;       /* two mistakes at a time, in place of one ... */
    uint64_t seed;    /* ... drawn with this */
    int at;           /* the first sample */
};

static const char *const kind_names[] = {
#define KIND_NAME(kind, name) name,
    KIND_LIST(KIND_NAME)
#undef KIND_NAME
};

struct tally {
    size_t judged, verdicts[DIED + 1], first_there, first_near, any_there;
    size_t right, wrong, errors, fixes, clean, trials;
    double seconds, longest;
    size_t names[NAMES_EACH];
};

struct report {
    struct tally kinds[KIND_TOTAL];
    struct tally rules[RULE_TOTAL];
};

static bool verdict(bool good, const char *what)
{
    printf("%s %s\n", good ? "ok" : "not ok", what);
    return good;
}

/* ---- samples ---- */

/* ensures: false, with a message, where the sample itself is not clean. */
static bool open_sample(struct sample *sample, GEOSContextHandle_t geos,
                        const char *path)
{
    *sample = (struct sample){.path = path, .arena = arena_create()};
    const struct file_content file = file_read(sample->arena, path);
    if (file.fault != FILE_OK) {
        fprintf(stderr, "%s: cannot read\n", path);
        exit(2);
    }
    sample->source =
        source_create(sample->arena, path, file.bytes, file.length);
    sample->compiled = compile_source(sample->arena, sample->source);
    const struct run *run = sample->compiled.run;
    const size_t errors = diag_count(run, DIAG_ERROR);
    const size_t warnings = diag_count(run, DIAG_WARNING);
    printf("# %s: %zu errors, %zu warnings\n", path, errors, warnings);
    if (errors > 0) {
        diag_print(run, (struct diag_style){false, false}, stdout);
        printf("not ok mutants: %s is not a correct sample\n", path);
        exit(1);
    }
    sample->tops = view_tops(geos, sample->arena, sample->compiled.sewn);
    sample_fingerprint(sample);
    return warnings == 0;
}

static bool oracle_sees_all(GEOSContextHandle_t geos,
                            const struct sample *sample)
{
    const struct sewn *sewn = sample->compiled.sewn;
    bool sees = true;
    for (size_t i = 0; i < sewn->quilts.count; i++)
        sees &= oracle_sees(geos, &sample->tops[i], &sewn->quilts.items[i]);
    return sees;
}

/* ---- the report ---- */

static void count_outcome(struct tally *tally, const struct outcome *outcome)
{
    tally->judged++;
    tally->verdicts[outcome->verdict]++;
    tally->first_there += outcome->first_there;
    tally->any_there += outcome->any_there;
    tally->first_near += outcome->first_near;
    tally->right += outcome->right;
    tally->wrong += outcome->wrong;
    tally->errors += outcome->errors;
    tally->fixes += outcome->fixes;
    tally->clean += outcome->clean;
    if (outcome->verdict == CAUGHT) {
        tally->trials += outcome->trials;
        tally->seconds += outcome->seconds;
        if (outcome->seconds > tally->longest)
            tally->longest = outcome->seconds;
    }
    if (outcome->code >= 0)
        tally->names[outcome->code]++;
}

static void print_mutant(const char *what, const struct job *job,
                         const struct outcome *outcome)
{
    const struct mutant *mutant = job->mutant;
    printf("# %s: %s:%zu: %s: `%s` -> `%s`%s%s (%zu trials, %.2f s)\n", what,
           job->sample->path, mutant->line, kind_names[mutant->kind],
           mutant->from, mutant->to, outcome->why[0] == '\0' ? "" : ": ",
           outcome->why, outcome->trials, outcome->seconds);
}

static void print_names(const struct tally *tally)
{
    printf("#   ");
    for (int code = 0; code < NAMES_EACH; code++)
        if (tally->names[code] > 0)
            printf(" %s %zu", diag_entry((enum diag_code)code)->name,
                   tally->names[code]);
    printf("\n");
}

static size_t escaped(const struct tally *tally)
{
    return tally->verdicts[ESCAPED] + tally->verdicts[DIED] +
           tally->verdicts[VERDICT_NONE];
}

static void print_row(const char *name, const struct tally *tally)
{
    const size_t caught = tally->verdicts[CAUGHT];
    printf("# %-31s %6zu %6zu %8zu %7zu", name, tally->judged, caught,
           tally->verdicts[HARMLESS], escaped(tally));
    if (caught > 0)
        printf(" %5zu%% %5zu%% %5zu%% %5zu%% %5zu/%-5zu %5.2f %6zu %5.2f %5.2f",
               100 * tally->first_there / caught,
               100 * tally->first_near / caught, 100 * tally->right / caught,
               100 * tally->wrong / caught, tally->clean, tally->fixes,
               (double)tally->errors / (double)caught, tally->trials / caught,
               tally->seconds / (double)caught, tally->longest);
    printf("\n");
}

/* For sums over several runs, a row of numbers with MUTANTS_COUNTS. */
static void print_counts(const char *name, const struct tally *tally)
{
    if (getenv("MUTANTS_COUNTS") == NULL)
        return;
    printf("counts\t%s\t%zu\t%zu\t%zu\t%zu\t%zu\t%zu\t%zu\t%zu\t%zu\t%zu\t%zu\t"
           "%zu\t%.3f\t%.3f\n",
           name, tally->judged, tally->verdicts[CAUGHT],
           tally->verdicts[HARMLESS], escaped(tally), tally->first_there,
           tally->first_near, tally->right, tally->wrong, tally->clean,
           tally->fixes, tally->errors, tally->trials, tally->seconds,
           tally->longest);
}

static void add_tally(struct tally *sum, const struct tally *tally)
{
    sum->judged += tally->judged;
    sum->first_there += tally->first_there;
    sum->any_there += tally->any_there;
    sum->first_near += tally->first_near;
    sum->right += tally->right;
    sum->wrong += tally->wrong;
    sum->errors += tally->errors;
    sum->fixes += tally->fixes;
    sum->clean += tally->clean;
    sum->trials += tally->trials;
    sum->seconds += tally->seconds;
    if (tally->longest > sum->longest)
        sum->longest = tally->longest;
    for (int i = 0; i <= DIED; i++)
        sum->verdicts[i] += tally->verdicts[i];
    for (int i = 0; i < NAMES_EACH; i++)
        sum->names[i] += tally->names[i];
}

/* ensures: all kinds together. */
static struct tally print_kinds(const struct report *report)
{
    struct tally all = {0};
    printf("# %-31s %6s %6s %8s %7s %6s %6s %6s %6s %11s %5s %6s %5s %5s\n", "",
           "judged", "caught", "harmless", "escaped", "line", "elem.", "right",
           "wrong", "fixes clean", "errs", "trials", "sec.", "most");
    for (int i = 0; i < KIND_TOTAL; i++) {
        if (report->kinds[i].judged == 0)
            continue;
        print_row(kind_names[i], &report->kinds[i]);
        print_counts(kind_names[i], &report->kinds[i]);
        print_names(&report->kinds[i]);
        add_tally(&all, &report->kinds[i]);
    }
    print_row("all", &all);
    printf(
        "# of those caught: the first error lies at a line with the mistake, "
        "in its element; the help gives the\n# sample back, a fix does not; "
        "fixes that leave nothing to say; errors, trials, seconds for one\n");
    return all;
}

static void print_rules(const struct report *report)
{
    printf("# left out by rule (judged only where all are): things stated "
           "once\n");
    static const char *const texts[] = {
#define RULE_TEXT(rule, text) text,
        RULE_LIST(RULE_TEXT)
#undef RULE_TEXT
    };
    for (int i = RULE_NONE + 1; i < RULE_TOTAL; i++)
        printf("# left out by rule: %zu (%zu caught all the same): %s\n",
               report->rules[i].judged, report->rules[i].verdicts[CAUGHT],
               texts[i]);
}

/* ---- judging ---- */

/* Each Nth of what is not left out; what is only where all are judged. */
static size_t choose(const struct sample *samples, size_t count,
                     const struct judging *judging, struct job *jobs,
                     size_t *made)
{
    const size_t every = judging->every;
    size_t chosen = 0, seen[2] = {0, 0};
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < samples[i].mutants.count; k++) {
            const struct mutant *mutant = &samples[i].mutants.items[k];
            const bool left_out = mutant->rule != RULE_NONE;
            if (judging->only != NULL &&
                strcmp(kind_names[mutant->kind], judging->only) != 0)
                continue;
            if (seen[left_out]++ % every == 0 && (!left_out || every == 1))
                jobs[chosen++] = (struct job){&samples[i], mutant};
        }
    }
    *made = seen[0];
    return chosen;
}

/* One line for each caught mistake that is not told as well as it could be. */
static void print_caught(const struct job *job, const struct outcome *outcome)
{
    enum { SECONDS_MANY = 1 };
    const bool unclean = outcome->clean < outcome->fixes;
    const bool good = outcome->first_there && outcome->right &&
                      outcome->errors == 1 && !unclean &&
                      outcome->seconds < SECONDS_MANY;
    if (!good)
        print_mutant(unclean                 ? "unclean fix"
                     : outcome->wrong        ? "wrong help"
                     : !outcome->first_there ? "elsewhere"
                     : !outcome->right       ? "no help"
                     : outcome->errors > 1   ? "errors"
                                             : "slow",
                     job, outcome);
}

static struct report gather(const struct job *jobs, size_t count,
                            const struct outcome *outcomes, bool show_harmless)
{
    struct report report = {0};
    for (size_t i = 0; i < count; i++) {
        const struct mutant *mutant = jobs[i].mutant;
        if (mutant->rule != RULE_NONE) {
            count_outcome(&report.rules[mutant->rule], &outcomes[i]);
            continue;
        }
        count_outcome(&report.kinds[mutant->kind], &outcomes[i]);
        if (outcomes[i].verdict == HARMLESS && show_harmless)
            print_mutant("harmless", &jobs[i], &outcomes[i]);
        else if (getenv("MUTANTS_SHOW") != NULL &&
                 outcomes[i].verdict == CAUGHT)
            print_caught(&jobs[i], &outcomes[i]);
        else if (outcomes[i].verdict != CAUGHT &&
                 outcomes[i].verdict != HARMLESS)
            print_mutant("escaped", &jobs[i], &outcomes[i]);
    }
    return report;
}

/* What a message must reach, in parts of a hundred of those caught. */
static bool judge_figures(const struct tally *sum)
{
    const size_t caught = sum->verdicts[CAUGHT];
    bool good = true;
    good &= verdict(100 * sum->first_there >= 85 * caught,
                    "mutants: the first error lies at the line in 85 of 100");
    good &= verdict(100 * sum->first_near >= 95 * caught,
                    "mutants: ... or in the element in 95 of 100");
    good &= verdict(100 * sum->right >= 82 * caught,
                    "mutants: the help gives the sample back in 82 of 100");
    good &= verdict(100 * sum->wrong <= 2 * caught,
                    "mutants: a fix does not in 2 of 100 at most");
    good &= verdict(sum->clean == sum->fixes,
                    "mutants: every fix leaves nothing to say");
    good &= verdict(100 * sum->errors <= 115 * caught,
                    "mutants: 1.15 errors for one mistake at most");
    return good;
}

static bool judge_samples(GEOSContextHandle_t geos,
                          const struct sample *samples, size_t count,
                          const struct judging *judging)
{
    size_t all = 0, doubles = 0, made = 0;
    for (size_t i = 0; i < count; i++) {
        all += samples[i].mutants.count;
        doubles += samples[i].doubles;
    }
    struct arena *arena = arena_create();
    struct job *jobs = ARENA_ARRAY(arena, struct job, all + 1);
    const size_t chosen = choose(samples, count, judging, jobs, &made);
    struct outcome *outcomes = ARENA_ARRAY(arena, struct outcome, chosen + 1);
    judge_all(geos, jobs, chosen, outcomes);
    const struct report report =
        gather(jobs, chosen, outcomes, judging->every == 1);
    const struct tally sum = print_kinds(&report);
    print_rules(&report);
    printf("# %zu mutants (%zu doubles dropped, %zu left out by rule), %zu "
           "judged: %zu caught, %zu harmless, %zu escaped\n",
           made, doubles, all - made, sum.judged, sum.verdicts[CAUGHT],
           sum.verdicts[HARMLESS], escaped(&sum));
    bool good = verdict(escaped(&sum) == 0, "mutants: none escaped");
    good &= judge_figures(&sum);
    good &= verdict(made >= MUTANTS_AT_LEAST, "mutants: at least 2000");
    arena_destroy(arena);
    return good;
}

static struct judging read_words(int count, char **words)
{
    enum { SEED = 1961 };
    struct judging judging = {.every = 1, .seed = SEED, .at = 1};
    if (count > judging.at && strcmp(words[judging.at], "--pairs") == 0) {
        judging.pairs = true;
        judging.at++;
    }
    if (count > judging.at + 1 && strcmp(words[judging.at], "--seed") == 0) {
        judging.seed = strtoul(words[judging.at + 1], NULL, 10);
        judging.at += 2;
    }
    if (count > judging.at + 1 && strcmp(words[judging.at], "--only") == 0) {
        judging.only = words[judging.at + 1];
        judging.at += 2;
    }
    if (count > judging.at + 1 && strcmp(words[judging.at], "--every") == 0) {
        judging.every = strtoul(words[judging.at + 1], NULL, 10);
        judging.at += 2;
    }
    if (judging.every < 1 || judging.at >= count) {
        fprintf(stderr,
                "usage: mutants [--pairs [--seed N]] [--only KIND] [--every N] "
                "SAMPLE...\n");
        exit(2);
    }
    return judging;
}

static bool judge_all_samples(GEOSContextHandle_t geos, struct sample *all,
                              size_t count, const struct judging *judging)
{
    if (judging->pairs)
        return judge_pairs(geos, all, count, judging->every, judging->seed);
    return judge_samples(geos, all, count, judging);
}

int main(int count, char **words)
{
    const struct judging judging = read_words(count, words);
    GEOSContextHandle_t geos = GEOS_init_r();
    struct arena *arena = arena_create();
    const size_t samples = (size_t)(count - judging.at);
    struct sample *all = ARENA_ARRAY(arena, struct sample, samples);
    bool quiet = true, sees = true;
    for (size_t i = 0; i < samples; i++) {
        quiet &= open_sample(&all[i], geos, words[judging.at + (int)i]);
        sees &= oracle_sees_all(geos, &all[i]);
        make_mutants(&all[i]);
    }
    bool good = judge_all_samples(geos, all, samples, &judging);
    good &= verdict(quiet, "mutants: no false alarm on a correct sample");
    good &= verdict(sees, "mutants: the oracle sees each top whole");
    for (size_t i = 0; i < samples; i++) {
        destroy_tops(geos, all[i].tops, all[i].compiled.sewn);
        arena_destroy(all[i].arena);
    }
    arena_destroy(arena);
    GEOS_finish_r(geos);
    return good ? 0 : 1;
}
