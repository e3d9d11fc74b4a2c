/* A trial: the source with one edit, compiled up to sewing in memory of its
 * own, and compared with the errors before it. No cause is searched, nothing is
 * proved and no cloth is planned, so it takes a few milliseconds. Read next:
 * offer.c. */
#include <limits.h>
#include <string.h>

#include "cutplan.h"
#include "mender.h"
#include "quilting.h"

static const struct source *changed(const struct mender *mender,
                                    struct arena *arena,
                                    const struct edit *edit)
{
    return source_changed(arena, mender->run->source, edit->span, edit->text);
}

/* How far a trial goes. */
enum reach {
    REACH_PICTURES, /* steps only where all before them is right */
    REACH_STEPS,    /* steps in any case, as the driver does */
    REACH_WHOLE     /* up to the quilting and the amounts of cloth */
};

/* The passes of the driver, with its gates. ensures: the sizes, or NULL where
 * the text cannot be read. */
static const struct sized *compile_text(struct run *run, enum reach reach)
{
    const struct pattern *pattern = read_pattern(run);
    if (pattern == NULL)
        return NULL;
    const struct sized *sized =
        solve_design(run, resolve_pattern(run, pattern));
    check_pictures(run, sized);
    if (diag_count(run, DIAG_ERROR) > 0) {
        if (reach != REACH_PICTURES)
            check_steps(run, sized);
        return sized;
    }
    const struct sewn *sewn = sew_design(run, sized);
    if (reach != REACH_WHOLE || diag_count(run, DIAG_ERROR) > 0)
        return sized;
    /* Another design may be sewn without an error, and have lost the symmetry
     * that its quilting states. */
    plan_quilting(run, sewn);
    if (diag_count(run, DIAG_ERROR) == 0)
        check_cutting(run, sewn);
    return sized;
}

/* Nobody sees what it reports, so that one amount of cloth that is off is
 * enough. Short of the whole way, errors are only found, not searched for their
 * cause. */
static struct run *compile_trial(struct arena *arena,
                                 const struct source *source, enum reach reach)
{
    struct run *run = run_create(arena, source);
    run->trial = reach != REACH_WHOLE;
    run->brief = true;
    run->unseen = true;
    compile_text(run, reach);
    return run;
}

/* In the arena of the run, as messages about the second mistake point into its
 * text. */
struct run *run_with(const struct mender *mender, const struct edit *edit,
                     const struct sized **sized)
{
    struct run *run =
        run_create(mender->arena, changed(mender, mender->arena, edit));
    run->unseen = true;
    *sized = compile_text(run, REACH_WHOLE);
    return run;
}

/* A place behind the edit is moved back by what the edit adds; one within the
 * new text keeps its number, up to the end of what was replaced. */
uint32_t place_before(const struct edit *edit, uint32_t at)
{
    const uint32_t put = (uint32_t)strlen(edit->text);
    if (at < edit->span.start)
        return at;
    if (at >= edit->span.start + put && (put > 0 || at > edit->span.start))
        return at - put + (edit->span.end - edit->span.start);
    return at < edit->span.end ? at : edit->span.end;
}

/* Its number among the problems before, or their count. */
static size_t number_before(const struct mender *mender, enum diag_code code,
                            uint32_t at)
{
    size_t i = 0;
    while (i < mender->before.count && (mender->before.items[i].code != code ||
                                        mender->before.items[i].at != at))
        i++;
    return i;
}

/* Seams that nearly meet are only looked for where all before them is right, so
 * nobody knows which of them were there. */
static bool is_fresh(const struct mender *mender, const struct diagnostic *d,
                     size_t number)
{
    if (number < mender->before.count)
        return false;
    return d->code != DIAG_POINTS_MISS || mender->sewn_before;
}

static int stage_of(enum diag_code code)
{
    if (of_steps(code))
        return STAGE_STEPS;
    if (code == DIAG_GRID_COUNT)
        return STAGE_COUNTS;
    if (code == DIAG_PICTURE)
        return STAGE_CELLS;
    return code >= DIAG_SEAM_SUM ? STAGE_SIZES : STAGE_NAMES;
}

/* Are they behind all errors before, or behind some, so that they hide none? */
static void compare_stages(const struct mender *mender, int fresh,
                           struct outcome *outcome)
{
    outcome->onward = outcome->left == 0;
    outcome->hides = true;
    for (size_t i = 0; i < mender->before.count; i++) {
        const enum diag_code code = mender->before.items[i].code;
        if (diag_entry(code)->level != DIAG_ERROR)
            continue;
        outcome->onward &= stage_of(code) > 0 && fresh > stage_of(code);
        outcome->hides &= fresh < stage_of(code);
    }
}

/* The sum is that of Fowler, Noll and Vo (FNV-1a), of 32 bits. */
static void see_cell(struct outcome *outcome, const struct edit *edit,
                     const struct diagnostic *d)
{
    uint32_t sum = UINT32_C(2166136261);
    for (const char *c = d->replacement; c != NULL && *c != '\0'; c++)
        sum = (sum ^ (unsigned char)*c) * UINT32_C(16777619);
    if (outcome->cell_count < CELLS_SEEN)
        outcome->cells[outcome->cell_count++] =
            (struct cell_seen){place_before(edit, d->span.start),
                               place_before(edit, d->span.end), sum};
}

/* Problems are known again by code and place: what was there before is left,
 * all else is fresh. Bits of `which` serve the first 64 problems. A trial goes
 * as far as steps only where steps are wrong, as sewing them takes twice as
 * long. */
struct outcome try_edit(struct mender *mender, const struct edit *edit)
{
    struct arena *scratch = mender->scratch;
    const struct run *run =
        compile_trial(scratch, changed(mender, scratch, edit),
                      mender->steps_wrong ? REACH_STEPS : REACH_PICTURES);
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    struct outcome outcome = {0};
    int first = INT_MAX;
    for (size_t i = 0; i < count; i++) {
        const enum diag_level level = diag_entry(sorted[i]->code)->level;
        if (level == DIAG_REMARK)
            continue;
        const size_t number = number_before(
            mender, sorted[i]->code, place_before(edit, sorted[i]->span.start));
        const bool old = number < mender->before.count;
        if (old && number < 64)
            outcome.which |= UINT64_C(1) << number;
        outcome.warnings += level == DIAG_WARNING;
        outcome.uncut |= sorted[i]->code == DIAG_RULER;
        outcome.left += old && level == DIAG_ERROR;
        outcome.fresh += is_fresh(mender, sorted[i], number);
        if (!old && sorted[i]->code == DIAG_PICTURE)
            see_cell(&outcome, edit, sorted[i]);
        if (!old && level == DIAG_ERROR && stage_of(sorted[i]->code) < first)
            first = stage_of(sorted[i]->code);
    }
    compare_stages(mender, first, &outcome);
    outcome.stage = first;
    arena_empty(scratch);
    mender->tried++;
    return outcome;
}

/* The source without a change, as a trial sees it, so that like is compared
 * with like. What the picture shows is copied, as the scratch arena is emptied.
 */
void begin_trials(struct mender *mender)
{
    struct arena *scratch = mender->scratch;
    const struct run *run =
        compile_trial(scratch, mender->run->source, REACH_STEPS);
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++)
        if (diag_entry(sorted[i]->code)->level != DIAG_REMARK)
            *LIST_ADD(mender->arena, &mender->before) = (struct problem){
                sorted[i]->code, sorted[i]->span.start, sorted[i]->span.end,
                sorted[i]->code != DIAG_PICTURE ||
                        sorted[i]->replacement == NULL
                    ? NULL
                    : arena_copy(mender->arena, sorted[i]->replacement,
                                 strlen(sorted[i]->replacement))};
    mender->error_total = diag_count(run, DIAG_ERROR);
    mender->sewn_before = true;
    for (size_t i = 0; i < mender->before.count; i++) {
        const enum diag_code code = mender->before.items[i].code;
        mender->steps_wrong |= of_steps(code);
        mender->sewn_before &=
            of_steps(code) || diag_entry(code)->level == DIAG_WARNING;
    }
    arena_empty(scratch);
}

/* Where a place of the source with all edits lies in the source. */
static uint32_t place_before_all(const struct edit *edits, size_t count,
                                 uint32_t at)
{
    for (size_t i = 0; i < count; i++)
        at = place_before(&edits[i], at);
    return at;
}

/* Warnings that were there before may stay; a mend must not bring new ones. */
static bool no_fresh_warning(const struct mender *mender,
                             const struct edit *edits, size_t edit_count,
                             const struct run *run)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++) {
        const uint32_t at =
            place_before_all(edits, edit_count, sorted[i]->span.start);
        if (diag_entry(sorted[i]->code)->level == DIAG_WARNING &&
            is_fresh(mender, sorted[i],
                     number_before(mender, sorted[i]->code, at)))
            return false;
    }
    return true;
}

/* Counted as one trial, though it takes longer: the cutting is planned too. The
 * last edit is made first, so that the places of the others stay. */
bool holds_whole(struct mender *mender, const struct edit *edits, size_t count)
{
    struct arena *scratch = mender->scratch;
    const struct source *source = mender->run->source;
    for (size_t i = count; i-- > 0;)
        source = source_changed(scratch, source, edits[i].span, edits[i].text);
    const struct run *run = compile_trial(scratch, source, REACH_WHOLE);
    const bool holds = diag_count(run, DIAG_ERROR) == 0 &&
                       no_fresh_warning(mender, edits, count, run);
    arena_empty(scratch);
    mender->tried++;
    return holds;
}
