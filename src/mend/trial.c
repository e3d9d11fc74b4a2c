/* A trial: the source with one edit, compiled up to sewing in memory of its
 * own, and compared with the errors before it. No cause is searched, nothing is
 * proved and no cloth is planned, so it takes a few milliseconds. Read next:
 * offer.c. */
#include <string.h>

#include "cutplan.h"
#include "mender.h"

static const char *changed_text(struct arena *arena,
                                const struct source *source,
                                const struct edit *edit, size_t *length)
{
    const size_t put = strlen(edit->text);
    const size_t behind = source->length - edit->span.end;
    *length = edit->span.start + put + behind;
    char *text = arena_alloc(arena, *length + 1);
    memcpy(text, source->bytes, edit->span.start);
    memcpy(text + edit->span.start, edit->text, put);
    memcpy(text + edit->span.start + put, source->bytes + edit->span.end,
           behind);
    return text;
}

/* The passes of the driver up to sewing, with its gate; up to the amounts of
 * cloth where `whole`. */
static struct run *compile_trial(struct arena *arena, const char *name,
                                 const char *text, size_t length, bool whole)
{
    struct run *run =
        run_create(arena, source_create(arena, name, text, length));
    run->trial = !whole;
    const struct pattern *pattern = read_pattern(run);
    if (pattern == NULL)
        return run;
    const struct sized *sized =
        solve_design(run, resolve_pattern(run, pattern));
    check_pictures(run, sized);
    const struct sewn *sewn =
        diag_count(run, DIAG_ERROR) == 0 ? sew_design(run, sized) : NULL;
    if (whole && diag_count(run, DIAG_ERROR) == 0)
        plan_cutting(run, sewn);
    return run;
}

/* Where a place of the changed text lies in the source. */
static uint32_t place_before(const struct edit *edit, uint32_t at)
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

struct outcome try_edit(struct mender *mender, const struct edit *edit)
{
    struct arena *scratch = mender->scratch;
    const struct source *source = mender->run->source;
    size_t length;
    const char *text = changed_text(scratch, source, edit, &length);
    const struct run *run =
        compile_trial(scratch, source->name, text, length, false);
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    struct outcome outcome = {0, 0, 0, 0};
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
        outcome.left += old && level == DIAG_ERROR;
        outcome.fresh += !old;
    }
    arena_empty(scratch);
    mender->tried++;
    return outcome;
}

void begin_trials(struct mender *mender)
{
    struct arena *scratch = mender->scratch;
    const struct source *source = mender->run->source;
    const struct run *run = compile_trial(scratch, source->name, source->bytes,
                                          source->length, false);
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
    arena_empty(scratch);
}

bool holds_whole(struct mender *mender, const struct edit *edit)
{
    struct arena *scratch = mender->scratch;
    const struct source *source = mender->run->source;
    size_t length;
    const char *text = changed_text(scratch, source, edit, &length);
    const struct run *run =
        compile_trial(scratch, source->name, text, length, true);
    const bool holds = diag_count(run, DIAG_ERROR) == 0 &&
                       diag_count(run, DIAG_WARNING) <=
                           mender->before.count - mender->error_total;
    arena_empty(scratch);
    mender->tried++;
    return holds;
}
