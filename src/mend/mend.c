/* The mending stage: errors to their cause. May assume that all errors of the
 * run are reported. Order: a trial of the source as it is, the rings of
 * candidates, the choice, the words. Read next: trial.c. */
#include "mender.h"

/* So many errors have no one cause. */
enum { SOURCE_MOST = 100000 };
enum { BYTES_MOST = 3200000, ERRORS_MOST = 60, PLANNED_AT_MOST = 3 };

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
        if (holds_whole(mender, &best[i]->edit)) {
            const struct candidate *one = best[i];
            best[i] = best[held];
            best[held++] = one;
        }
    return held;
}

/* A trial takes as long as the source does; each with steps is sewn, which
 * takes twice as long. */
static size_t trials_for(const struct mender *mender)
{
    const size_t length = mender->run->source->length;
    size_t most = MEND_TRIALS - PLANNED_AT_MOST;
    if (mender->error_count > ERRORS_MOST || length > SOURCE_MOST)
        return 0;
    if (most > BYTES_MOST / (length + 1))
        most = BYTES_MOST / (length + 1);
    return only_steps(mender) ? most / 2 : most;
}

static void search(struct mender *mender)
{
    begin_trials(mender);
    if (mender->error_total == 0) {
        say_amounts(mender);
        mender->tried = 1;
        return;
    }
    search_rings(mender);
    const struct candidate *best[TOLD_AT_MOST + 1];
    const size_t count = choose(mender, best);
    const size_t held = keep_whole(mender, best, count);
    if (held == 1)
        say_mistake(mender, best[0]);
    else if (count > 0 && !size_is_open(mender, best, count))
        say_question(mender, best, held > 1 ? held : count);
    else
        say_apart(mender);
}

size_t mend_mistakes(struct run *run, const struct sized *sized)
{
    struct mender mender = {
        .arena = run->arena,
        .run = run,
        .sized = sized,
        .root = sized == NULL ? NULL : sized->design->pattern->root};
    gather_errors(&mender);
    if (mender.error_count == 0)
        return 0;
    mender.most = trials_for(&mender);
    if (mender.most == 0) {
        say_apart(&mender);
        return 0;
    }
    mender.scratch = arena_create();
    search(&mender);
    arena_destroy(mender.scratch);
    return mender.tried;
}
