/* The mending stage: errors to their cause. May assume that all errors of the
 * run are reported. Order: a trial of the source as it is, the rings of
 * candidates, the choice, the words. Read next: trial.c. */
#include "mender.h"

/* Work is counted in bytes that are compiled; errors beyond many are compared
 * in each trial, which takes as long as some bytes more. Fewer trials than the
 * least do not reach past what the program itself offers. */
enum {
    BYTES_MOST = 3200000,
    BYTES_OF_TWO = 6400000,
    BYTES_OF_ERROR = 400,
    BYTES_OF_REPEAT = 8,
    BYTES_OF_CAST = 300,
    CASTS_MANY = 30
};
enum { TRIALS_LEAST = 6, PLANNED_AT_MOST = 3, ROUNDS = 3 };

/* For what is left once one mistake is mended, each of a few times. */
enum { SECOND_TRIALS = 80 };

/* Errors first, then warnings, in one array: the errors are what must go, and
 * the warnings behind them only tell where to look as well. Remarks are left
 * out. */
static void gather_errors(struct mender *mender)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(mender->run, &sorted);
    mender->seeds = ARENA_ARRAY(mender->arena, struct diagnostic *, count + 1);
    mender->errors = mender->seeds;
    for (int level = DIAG_ERROR; level <= DIAG_WARNING; level++) {
        for (size_t i = 0; i < count; i++)
            if ((int)diag_entry(sorted[i]->code)->level == level)
                mender->seeds[mender->seed_count++] =
                    (struct diagnostic *)sorted[i];
        if (level == DIAG_ERROR)
            mender->error_count = mender->seed_count;
    }
}

/* Of a few that do equally well, those first that also give the amounts of
 * cloth that are stated. ensures: how many of them; 0 for none. */
static size_t keep_whole(struct mender *mender, const struct candidate **best,
                         size_t count)
{
    size_t held = 0;
    if (count > PLANNED_AT_MOST)
        return count;
    for (size_t i = 0; i < count; i++)
        if (holds_whole(mender, &best[i]->edit, 1)) {
            const struct candidate *one = best[i];
            best[i] = best[held];
            best[held++] = one;
        }
    return held;
}

/* So many of the trials as their work allows; a trial takes as long as the
 * source does, and what is repeated or cast anew in it. */
static size_t affordable(const struct mender *mender, size_t trials,
                         size_t bytes)
{
    const size_t many = mender->error_count > ERRORS_MANY
                            ? mender->error_count - ERRORS_MANY
                            : 0;
    const size_t repeats =
        mender->sized == NULL ? 0 : mender->sized->design->repeats;
    const size_t all = mender->sized == NULL ? 0 : mender->sized->design->casts;
    const size_t casts = all > CASTS_MANY ? all - CASTS_MANY : 0;
    const size_t length = mender->run->source->length + many * BYTES_OF_ERROR +
                          repeats * BYTES_OF_REPEAT + casts * BYTES_OF_CAST + 1;
    if (trials > bytes / length)
        trials = bytes / length;
    return trials < TRIALS_LEAST ? 0 : trials;
}

/* Each trial with steps is sewn, which takes twice as long. */
static size_t trials_for(struct mender *mender)
{
    const size_t most = affordable(
        mender,
        (mender->second > 0 ? mender->second : MEND_TRIALS) - PLANNED_AT_MOST,
        BYTES_MOST);
    return only_steps(mender) && mender->second == 0 ? most / 2 : most;
}

/* What came of a search. */
enum told {
    TOLD_CAUSE,    /* one change makes all agree */
    TOLD_QUESTION, /* several do */
    TOLD_APART     /* none does */
};

/* `second`: trials for what is left once one mistake is mended; 0 for the whole
 * source. */
static enum told tell(struct run *run, const struct sized *sized, size_t second,
                      size_t *trials);

/* One change mends one mistake, and of the source with it another change is
 * told, or several are asked about where the program knew the first. Only what
 * is left of the amounts of cloth is one message as it is. Where nothing is
 * told of what is left, a first that is sure is told beside it. */
static bool tell_both(struct mender *mender,
                      const struct candidate *const *firsts, size_t count)
{
    const struct candidate *asked = NULL, *sure = NULL;
    const struct run *question = NULL, *rest = NULL;
    const size_t least = affordable(mender, SECOND_TRIALS, BYTES_MOST);
    const size_t most = affordable(mender, MEND_TRIALS_OF_TWO, BYTES_OF_TWO);
    for (size_t i = 0; i < count && mender->tried + least <= most; i++) {
        const struct candidate *first = with_lines(mender, firsts[i]);
        size_t share = (most - mender->tried) / (count - i + 1);
        if (share < TRIALS_LEAST + PLANNED_AT_MOST)
            share = TRIALS_LEAST + PLANNED_AT_MOST;
        const struct sized *sized;
        struct run *second = run_with(mender, &first->edit, &sized);
        const enum told told = tell(second, sized, share, &mender->tried);
        if (!tells_apart(mender, first, second))
            continue;
        if (told == TOLD_APART && sure == NULL && i == 0 &&
            diag_count(second, DIAG_ERROR) > 0 &&
            is_sure(mender, first, count)) {
            sure = first;
            rest = second;
        }
        if (told == TOLD_APART)
            continue;
        if (told == TOLD_CAUSE) {
            say_both(mender, first, second);
            return true;
        }
        if (asked == NULL && !needs_cause(mender, first)) {
            asked = first;
            question = second;
        }
    }
    if (asked == NULL) {
        asked = sure;
        question = rest;
    }
    if (asked != NULL)
        say_both(mender, asked, question);
    return asked != NULL;
}

/* Two mistakes at once. First with what is tried already; only where that
 * fails, further trials are spent on the errors of one kind. */
static bool find_both(struct mender *mender)
{
    const struct candidate *firsts[FIRSTS_AT_MOST];
    if (tell_both(mender, firsts, choose_firsts(mender, firsts)))
        return true;
    return search_apart(mender,
                        affordable(mender, SECOND_TRIALS, BYTES_MOST)) &&
           tell_both(mender, firsts, choose_firsts(mender, firsts));
}

/* Only amounts of cloth are wrong. */
static enum told tell_amounts(struct mender *mender)
{
    const struct candidate *best[TOLD_AT_MOST + 1];
    const bool one = mender->error_count == 1;
    mender->tried++;
    const size_t count = search_amounts(mender) ? choose(mender, best) : 0;
    if (count == 1) {
        say_mistake(mender, best[0]);
        return TOLD_CAUSE;
    }
    if (count > 1) {
        say_question(mender, best, count);
        return TOLD_QUESTION;
    }
    say_amounts(mender);
    return one ? TOLD_CAUSE : TOLD_APART;
}

/* What makes all agree but the amounts of cloth is set aside, and the search
 * goes on: one change may give the amounts as well. ensures: how many such are
 * in `best`; 0 for none, and then those that were there. */
static size_t look_further(struct mender *mender, const struct candidate **best,
                           size_t count)
{
    struct candidate *aside =
        ARENA_ARRAY(mender->arena, struct candidate, count);
    const struct candidate *further[TOLD_AT_MOST + 1];
    size_t more = count;
    for (size_t i = 0; i < count; i++) {
        aside[i] = *best[i];
        further[i] = best[i];
        best[i] = &aside[i];
    }
    for (unsigned round = 0; round < ROUNDS && more > 0; round++) {
        for (size_t i = 0; i < more; i++)
            mender->candidates.items[further[i] - mender->candidates.items]
                .outcome.fresh = 1;
        search_rings(mender);
        more = choose(mender, further);
        const size_t held =
            more > PLANNED_AT_MOST ? 0 : keep_whole(mender, further, more);
        for (size_t i = 0; i < held; i++)
            best[i] = further[i];
        if (held > 0 || more > PLANNED_AT_MOST)
            return held;
    }
    return 0;
}

/* From the best answer to the least: one change that mends all and is told as
 * the cause, two changes, a question between several, and last each error by
 * itself. A cause must hold in a whole compilation, as a trial ends before the
 * cutting plan. */
static enum told search(struct mender *mender)
{
    begin_trials(mender);
    if (mender->error_total == 0)
        return tell_amounts(mender);
    search_rings(mender);
    const struct candidate *best[TOLD_AT_MOST + 1];
    const size_t count = choose(mender, best);
    size_t held = keep_whole(mender, best, count);
    if (held == 0 && count > 0 && !mender->second)
        held = look_further(mender, best, count);
    if (held == 1 && best[0]->own != NULL && ask_for_strip(mender))
        return TOLD_QUESTION;
    if (held == 1) {
        say_mistake(mender, best[0]);
        return TOLD_CAUSE;
    }
    if (held == 0 && count > 0 && !mender->second &&
        tell_both(mender, best, count))
        return TOLD_APART;
    if (count > 0 && !size_is_open(mender, best, count)) {
        /* A search that ended early has not seen all of them. */
        say_question(mender, best,
                     mender->second && count > 1 ? TOLD_AT_MOST + 1
                     : held > 1                  ? held
                                                 : count);
        return TOLD_QUESTION;
    }
    if (mender->second || count > 0 || !find_both(mender))
        say_apart(mender);
    return TOLD_APART;
}

/* What is made for a trial is freed behind it, so that a long search needs no
 * more memory than a short one. */
static enum told tell(struct run *run, const struct sized *sized, size_t second,
                      size_t *trials)
{
    struct mender mender = {
        .arena = run->arena,
        .run = run,
        .sized = sized,
        .root = sized == NULL ? NULL : sized->design->pattern->root,
        .second = second};
    enum told told = TOLD_APART;
    gather_errors(&mender);
    if (mender.error_count == 0)
        return told;
    mender.most = trials_for(&mender);
    if (mender.most == 0) {
        say_apart(&mender);
        return told;
    }
    mender.scratch = arena_create();
    told = search(&mender);
    arena_destroy(mender.scratch);
    *trials += mender.tried;
    return told;
}

/* ensures: how many trials it took. Other than the time, they are the same on
 * every machine. */
size_t mend_mistakes(struct run *run, const struct sized *sized)
{
    size_t trials = 0;
    tell(run, sized, 0, &trials);
    return trials;
}
