/* Two mistakes in one source: a change that mends one of them, and what is said
 * of the source with it. Both together were tried; neither is promised to be
 * enough. Read next: mend.c. */
#include <string.h>

#include "mender.h"

/* ---- the first ---- */

/* A picture with too large cells is one mistake, however many cells tell it,
 * unless a change mends most of them. */
static bool mends_most(const struct mender *mender, const struct candidate *one)
{
    return mender->errors[0]->code != DIAG_PICTURE_SIZE ||
           mender->error_count > 1 ||
           2 * one->outcome.left < mender->error_total;
}

/* Ends of lines, so that a text can be replaced without moving what is below.
 */
static size_t lines_in(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++)
        count += text[i] == '\n';
    return count;
}

/* A change that moves lines would move the places that the second is told at,
 * and the lines that are named in its words. */
static bool keeps_lines(const struct mender *mender,
                        const struct candidate *one)
{
    const char *bytes = mender->run->source->bytes;
    const struct span span = one->edit.span;
    const struct span a = one->place;
    const struct span b = one->other;
    if (one->kind == KIND_REMOVAL)
        return true;
    if (one->kind == KIND_EXCHANGE)
        return lines_in(bytes + a.start, a.end - a.start) ==
               lines_in(bytes + b.start, b.end - b.start);
    return lines_in(one->edit.text, strlen(one->edit.text)) == 0 &&
           lines_in(bytes + span.start, span.end - span.start) == 0;
}

/* A copy of the change that keeps the count of lines: a removal leaves blank
 * lines behind, so that messages about the second mistake name the lines of the
 * source. */
struct candidate *with_lines(const struct mender *mender,
                             const struct candidate *one)
{
    const struct span span = one->edit.span;
    const size_t lines = lines_in(mender->run->source->bytes + span.start,
                                  span.end - span.start);
    struct candidate *same = ARENA_NEW(mender->arena, struct candidate);
    *same = *one;
    if (one->kind != KIND_REMOVAL || lines == 0)
        return same;
    char *text = arena_alloc(mender->arena, lines + 1);
    memset(text, '\n', lines);
    text[lines] = '\0';
    same->edit.text = text;
    return same;
}

/* Of several errors all go with it, and fewer come up. */
static bool clears_many(const struct mender *mender,
                        const struct candidate *one)
{
    return one->outcome.left == 0 && !one->outcome.hides &&
           one->manner != MANNER_REMOVE &&
           one->outcome.fresh + 2 <= mender->error_total;
}

/* Too weak a guess to stand beside a question: what adds or removes something,
 * and what neither mends most, nor leads on to errors hidden before, nor was
 * offered by the program or as a repeat. A single cause of the rest must
 * confirm it. */
bool needs_cause(const struct mender *mender, const struct candidate *one)
{
    if (one->kind != KIND_WORD &&
        (one->manner == MANNER_INSERT || one->manner == MANNER_REMOVE))
        return true;
    return !(one->outcome.fresh == 0 && mends_most(mender, one)) &&
           !one->outcome.onward && !one->program &&
           one->manner != MANNER_REPEAT;
}

/* A piece unlike all that it stands among, or that shows something else than
 * the picture in its place, is told only where it makes all agree.
 */
static bool is_guess(const struct candidate *one)
{
    if (one->guess)
        return true;
    return one->far &&
           (one->kind == KIND_PIECE_BEFORE || one->kind == KIND_PIECE_BEHIND);
}

/* It mends some errors and brings none, or it mends all, and what was hidden
 * behind them is seen; as long as a name or a word is wrong, the program must
 * have offered it, or it clears many. */
static bool may_be_first(const struct mender *mender,
                         const struct candidate *one)
{
    return one->tried && one->outcome.left < mender->error_total &&
           one->outcome.left + one->outcome.fresh > 0 &&
           ((one->outcome.fresh == 0 && mends_most(mender, one)) ||
            one->outcome.onward ||
            (one->outcome.left == 0 &&
             (one->program ||
              (one->manner == MANNER_REPEAT && !one->outcome.hides) ||
              clears_many(mender, one)))) &&
           keeps_lines(mender, one) && !is_guess(one);
}

/* Another change does the same. */
static bool has_rival(const struct mender *mender, const struct candidate *one)
{
    for (size_t i = 0; i < mender->candidates.count; i++) {
        const struct candidate *other = &mender->candidates.items[i];
        if (other->tried && other->outcome.which == one->outcome.which &&
            other->outcome.left == one->outcome.left &&
            other->outcome.fresh == one->outcome.fresh &&
            (other->edit.span.start != one->edit.span.start ||
             strcmp(other->edit.text, one->edit.text) != 0) &&
            compare_candidates(mender, other, one) <= 0)
            return true;
    }
    return false;
}

/* The only one that makes all agree but the amounts of cloth, or one that mends
 * errors of two kinds at once. */
bool is_sure(const struct mender *mender, const struct candidate *one,
             size_t count)
{
    bool mended[DIAG_CODE_COUNT] = {false};
    size_t kinds = 0;
    if (one->outcome.fresh > 0 || one->manner == MANNER_REMOVE)
        return false;
    if (one->outcome.left == 0)
        return count == 1;
    for (size_t i = 0; i < mender->before.count && i < 64; i++) {
        const enum diag_code code = mender->before.items[i].code;
        if (diag_entry(code)->level == DIAG_ERROR && !mended[code] &&
            (one->outcome.which >> i & 1) == 0) {
            mended[code] = true;
            kinds++;
        }
    }
    return kinds > 1 && !has_rival(mender, one);
}

/* What is mended, less what comes up instead of it. */
static int64_t gain(const struct mender *mender, const struct candidate *one)
{
    return (int64_t)mender->error_total - (int64_t)one->outcome.left -
           (one->outcome.onward ? 0 : (int64_t)one->outcome.fresh);
}

/* ensures: negative where `a` is the likelier first one. */
static int compare_firsts(const struct mender *mender,
                          const struct candidate *a, const struct candidate *b)
{
    const int64_t more = gain(mender, b) - gain(mender, a);
    const bool bring = a->outcome.fresh > 0 && b->outcome.fresh > 0;
    if (bring && a->program != b->program)
        return a->program ? -1 : 1;
    if (bring && a->outcome.left == b->outcome.left &&
        a->outcome.stage != b->outcome.stage)
        return a->outcome.stage > b->outcome.stage ? -1 : 1;
    if (more != 0)
        return more < 0 ? -1 : 1;
    if (bring && a->outcome.fresh != b->outcome.fresh)
        return a->outcome.fresh < b->outcome.fresh ? -1 : 1;
    return compare_candidates(mender, a, b);
}

/* The best few, by insertion, as there are at most FIRSTS_AT_MOST of them.
 * ensures: how many. */
size_t choose_firsts(const struct mender *mender,
                     const struct candidate *firsts[FIRSTS_AT_MOST])
{
    size_t count = 0;
    for (size_t i = 0; i < mender->candidates.count; i++) {
        const struct candidate *one = &mender->candidates.items[i];
        if (!may_be_first(mender, one))
            continue;
        size_t at = count;
        while (at > 0 && compare_firsts(mender, one, firsts[at - 1]) < 0)
            at--;
        if (at == FIRSTS_AT_MOST)
            continue;
        count += count < FIRSTS_AT_MOST;
        for (size_t k = count - 1; k > at; k--)
            firsts[k] = firsts[k - 1];
        firsts[at] = one;
    }
    return count;
}

/* ---- a search of its own ---- */

/* Errors of one kind have one cause, most likely: pictures, steps, all others.
 */
static int kind_of(enum diag_code code)
{
    return of_steps(code) ? 2 : of_picture(code);
}

/* Of each, as a trial sees it. */
static uint64_t bits_of(const struct mender *mender, int kind)
{
    uint64_t bits = 0;
    for (size_t i = 0; i < mender->before.count && i < 64; i++) {
        const enum diag_code code = mender->before.items[i].code;
        if (diag_entry(code)->level == DIAG_ERROR && kind_of(code) == kind)
            bits |= UINT64_C(1) << i;
    }
    return bits;
}

/* Looks for a change that mends the errors of the first kind alone, as if there
 * were no others. The mender is set back behind it; only candidates and the
 * count of trials stay. ensures: false where all errors are of one kind, so
 * that there is nothing to part. */
bool search_apart(struct mender *mender, size_t most)
{
    const struct mender all = *mender;
    const int kind = kind_of(mender->errors[0]->code);
    mender->errors =
        ARENA_ARRAY(mender->arena, struct diagnostic *, all.seed_count + 1);
    mender->seeds = mender->errors;
    mender->error_count = mender->seed_count = 0;
    mender->steps = STEPS_UNKNOWN;
    for (size_t i = 0; i < all.error_count; i++)
        if (kind_of(all.errors[i]->code) == kind)
            mender->errors[mender->error_count++] = all.errors[i];
    mender->seed_count = mender->error_count;
    const bool others = mender->error_count < all.error_count;
    mender->aim = bits_of(mender, kind);
    mender->most = mender->tried + most;
    if (others && mender->aim != 0)
        search_rings(mender);
    mender->errors = all.errors;
    mender->error_count = all.error_count;
    mender->steps = STEPS_UNKNOWN;
    mender->seeds = all.seeds;
    mender->seed_count = all.seed_count;
    mender->aim = all.aim;
    mender->most = all.most;
    return others;
}

/* ---- words ---- */

/* Where a place of the source with the change lies in the source. What lies
 * between two that were exchanged moves with them. */
static struct span span_before(const struct candidate *first, struct span span)
{
    const struct edit *edit = &first->edit;
    const uint32_t behind = edit->span.start + (uint32_t)strlen(edit->text);
    if (first->kind == KIND_EXCHANGE && span.start >= edit->span.start &&
        span.end <= behind) {
        const uint32_t a = first->place.end - first->place.start;
        const uint32_t b = first->other.end - first->other.start;
        if (span.start >= edit->span.start + b && span.end <= behind - a)
            return (struct span){span.start + a - b, span.end + a - b};
    }
    return (struct span){place_before(edit, span.start),
                         place_before(edit, span.end)};
}

/* Two words of one map or picture, one beside the other, are two places. */
static bool two_words(const struct mender *mender,
                      const struct candidate *first, struct span other)
{
    const struct element *element = element_at(mender, first->place.start);
    return first->kind == KIND_WORD && first->manner == MANNER_VALUE &&
           (element->kind == ELEMENT_MAP || element->kind == ELEMENT_PICTURE) &&
           (other.end <= first->place.start || other.start >= first->place.end);
}

/* Two mistakes at one place are likelier one that was mended wrongly. Without a
 * tree, lines stand in for elements. */
bool tells_apart(const struct mender *mender, const struct candidate *first,
                 const struct run *second)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(second, &sorted);
    const struct source *source = mender->run->source;
    for (size_t i = 0; i < count; i++) {
        if (diag_entry(sorted[i]->code)->level != DIAG_ERROR)
            continue;
        const struct span there = span_before(first, sorted[i]->span);
        const uint32_t at = there.start;
        const bool same = mender->root == NULL
                              ? source_line(source, at) ==
                                    source_line(source, first->place.start)
                              : element_at(mender, at) ==
                                        element_at(mender, first->place.start) &&
                                    !two_words(mender, first, there);
        if (same)
            return false;
    }
    return true;
}

/* Another change does the same and is as likely. */
static bool is_rival(const struct mender *mender, const struct candidate *other,
                     const struct candidate *one)
{
    return other->tried && other->outcome.which == one->outcome.which &&
           other->outcome.left == one->outcome.left &&
           other->outcome.fresh == one->outcome.fresh &&
           (other->edit.span.start != one->edit.span.start ||
            strcmp(other->edit.text, one->edit.text) != 0) &&
           compare_candidates(mender, other, one) == 0;
}

static const char *line_words(const struct mender *mender, struct span place,
                              struct span caret)
{
    return source_line_words(mender->arena, mender->run->source, place.start,
                             caret.start);
}

/* Which of two is meant, or NULL where there is no other, or several. */
static const char *question_of(const struct mender *mender,
                               const struct candidate *one,
                               const struct diagnostic *at)
{
    const struct candidate *rival = NULL;
    for (size_t i = 0; i < mender->candidates.count; i++) {
        const struct candidate *other = &mender->candidates.items[i];
        if (!is_rival(mender, other, one))
            continue;
        if (rival != NULL)
            return NULL;
        rival = other;
    }
    if (rival == NULL)
        return NULL;
    return arena_printf(
        mender->arena, "which is meant: %s in %s or %s in %s?",
        change_text(mender, one), line_words(mender, one->place, at->span),
        change_text(mender, rival), line_words(mender, rival->place, at->span));
}

/* The message about the source with the change, at its place in the source. */
static void carry_over(struct mender *mender, const struct candidate *first,
                       const struct diagnostic *d, struct span other)
{
    struct run *run = mender->run;
    struct diagnostic *here = diag_report(
        run, d->code, span_before(first, d->span), "%s", d->message);
    here->label = d->label;
    for (size_t i = 0; i < d->notes.count; i++) {
        const struct span span = d->notes.items[i].span;
        diag_note(run, here, span.end == 0 ? span : span_before(first, span),
                  "%s", d->notes.items[i].text);
    }
    const char *line = line_words(mender, other, here->span);
    if (d->help != NULL && d->replacement != NULL && !asks(d))
        diag_help(run, here, "%s, once %s is mended", d->help, line);
    else if (d->help != NULL)
        diag_help(run, here, "%s (once %s is mended)", d->help, line);
}

/* Only both mends together were tried: they are shown to people, and none is
 * for a program to apply, as alone it leaves the other mistake. Amounts of
 * cloth depend on the method of a piece, and wait for it. */
void say_both(struct mender *mender, const struct candidate *first,
              const struct run *second)
{
    struct run *run = mender->run;
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(second, &sorted);
    struct diagnostic *kept = message_of(mender, first);
    const struct span place = kept->span;
    const char *question = question_of(mender, first, kept);
    if (question != NULL)
        diag_help(run, kept, "%s", question);
    else if (first->own == NULL && !first->made_somehow)
        kept->help = arena_printf(mender->arena,
                                  "%s but what is told beside it", kept->help);
    for (size_t i = 0; i < mender->error_count; i++)
        if (mender->errors[i] != kept)
            diag_drop(run, mender->errors[i]);
    drop_warnings(mender, first);
    for (size_t i = 0; i < count; i++)
        if (diag_entry(sorted[i]->code)->level == DIAG_ERROR &&
            !(first->made_somehow && sorted[i]->code == DIAG_YARDAGE))
            carry_over(mender, first, sorted[i], place);
    kept->replacement = NULL;
}
