/* The mending stage: errors to their cause. May assume that all errors of the
 * run are reported. Order: a trial of the source as it is, the rings of
 * candidates, the choice, the words. Read next: trial.c. */
#include "mender.h"

/* A trial takes as long as the source does, so a large one gets fewer; and so
 * many errors have no one cause. */
enum { BYTES_MOST = 8000000, ERRORS_MOST = 60 };

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

size_t mend_mistakes(struct run *run, const struct sized *sized)
{
    struct mender mender = {
        .arena = run->arena,
        .run = run,
        .sized = sized,
        .root = sized == NULL ? NULL : sized->design->pattern->root,
        .most = MEND_TRIALS};
    gather_errors(&mender);
    if (mender.error_count == 0)
        return 0;
    if (mender.most > BYTES_MOST / (run->source->length + 1))
        mender.most = BYTES_MOST / (run->source->length + 1);
    if (mender.error_count > ERRORS_MOST)
        mender.most = 0;
    if (mender.most == 0) {
        say_apart(&mender);
        return 0;
    }
    begin_trials(&mender);
    if (mender.error_total == 0) {
        say_amounts(&mender);
        return 1;
    }
    search_rings(&mender);
    const struct candidate *best[TOLD_AT_MOST + 1];
    const size_t count = choose(&mender, best);
    if (count == 1)
        say_mistake(&mender, best[0]);
    else if (count > 1 && !size_is_open(&mender, best, count))
        say_question(&mender, best, count);
    else
        say_apart(&mender);
    return mender.tried;
}
