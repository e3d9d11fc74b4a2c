/* Which of the changes that make all agree is meant. Read next: say.c. */
#include <string.h>

#include "mender.h"

/* Nothing old is left and nothing new is reported: the whole pattern agrees. */
static bool agrees(const struct candidate *candidate)
{
    return candidate->tried && candidate->outcome.left == 0 &&
           candidate->outcome.fresh == 0;
}

/* How many ways there are to make all agree at the candidate's place. */
static size_t ways_at(const struct mender *mender,
                      const struct candidate *candidate)
{
    size_t count = 0;
    for (size_t i = 0; i < mender->candidates.count; i++) {
        const struct candidate *other = &mender->candidates.items[i];
        count += agrees(other) && other->place.start == candidate->place.start;
    }
    return count;
}

/* Coarse numbers are likelier meant than fine ones: 4 before 4 1/8. The
 * denominator measures it; what is no fraction comes last. */
static int64_t fineness(const struct candidate *candidate)
{
    const struct rational number = candidate->number;
    return rational_is_fraction(number) ? number.den
           : rational_known(number)     ? INT64_MAX
                                        : 1;
}

/* Without subtracting, which could overflow. */
static int compare(int64_t a, int64_t b)
{
    return (a > b) - (a < b);
}

/* Another way to make it that gives just the size that is stated is no chance.
 */
static bool sets_method(const struct candidate *candidate)
{
    return candidate->kind == KIND_ATTRIBUTE &&
           (candidate->attribute == ATTR_METHOD ||
            candidate->attribute == ATTR_QUARTER_METHOD ||
            candidate->attribute == ATTR_GOOSE_METHOD ||
            candidate->attribute == ATTR_SQUARE_METHOD);
}

/* Where a size must only be small or large enough, any does, and that one is
 * round says nothing. */
static bool any_size_does(const struct mender *mender)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        const enum diag_code code = mender->errors[i]->code;
        if (code != DIAG_SIZE_NEGATIVE && code != DIAG_SIZE_OPEN &&
            code != DIAG_CORNER_SIZE)
            return false;
    }
    return true;
}

/* Several sizes that all agree are no mistake that can be named: the author has
 * to choose one, so that none is told as the right one. */
bool size_is_open(const struct mender *mender,
                  const struct candidate *const *best, size_t count)
{
    bool sizes = false;
    for (size_t i = 0; i < count && i < TOLD_AT_MOST; i++)
        sizes = sizes || rational_known(best[i]->number);
    return count > 1 && sizes && any_size_does(mender);
}

/* Would the other of these be the same? */
static bool other_is(const struct candidate *one, enum attribute_id id)
{
    const struct value *value = written(one->element, id);
    return one->attribute != id && value != NULL &&
           strcmp(value->text, one->edit.text) == 0;
}

/* Triangles of one fabric would be a patch: nobody sews them. */
static bool makes_plain(const struct candidate *one)
{
    if (one->kind != KIND_ATTRIBUTE)
        return false;
    switch ((int)one->attribute) {
    case ATTR_LEFT:
    case ATTR_RIGHT:
        return written(one->element, ATTR_LINE) != NULL && /* of two halves */
               (other_is(one, ATTR_LEFT) || other_is(one, ATTR_RIGHT));
    case ATTR_GOOSE:
    case ATTR_SKY:
        return other_is(one, ATTR_GOOSE) || other_is(one, ATTR_SKY);
    case ATTR_CENTER:
    case ATTR_CORNER_FABRIC:
        return other_is(one, ATTR_CENTER) || other_is(one, ATTR_CORNER_FABRIC);
    default:
        return false;
    }
}

/* The rows stand in the order of their weight; the first that differs decides.
 * What is left out where any size does is at the end of the list. */
int compare_candidates(const struct mender *mender, const struct candidate *a,
                       const struct candidate *b)
{
    const int64_t ranks[][2] = {
        {(int64_t)a->manner, (int64_t)b->manner},
        {makes_plain(a), makes_plain(b)},
        {(int64_t)a->outcome.warnings, (int64_t)b->outcome.warnings},
        {!a->regular, !b->regular},
        {a->ring, b->ring},
        {!sets_method(a), !sets_method(b)},
        {!a->program, !b->program},
        {a->far, b->far},
        {fineness(a), fineness(b)},
        {(int64_t)ways_at(mender, a), (int64_t)ways_at(mender, b)}};
    const size_t count = sizeof ranks / sizeof ranks[0];
    for (size_t i = 0; i < (any_size_does(mender) ? count - 2 : count); i++)
        if (ranks[i][0] != ranks[i][1])
            return compare(ranks[i][0], ranks[i][1]);
    return 0;
}

/* A row of a map with a word too many: that one repeats its neighbor tells
 * little, as words of a map often do. */
static bool other_word_goes(const struct candidate *one,
                            const struct candidate *best)
{
    return one != best && one->kind == KIND_WORD && best->kind == KIND_WORD &&
           one->element == best->element && one->edit.text[0] == '\0' &&
           best->edit.text[0] == '\0' && !best->regular && agrees(one);
}

/* What changes two things at once is never the least change, but may be meant.
 */
size_t choose(const struct mender *mender,
              const struct candidate *best[TOLD_AT_MOST + 1])
{
    size_t count = 0;
    for (size_t i = 0; i < mender->candidates.count; i++) {
        const struct candidate *one = &mender->candidates.items[i];
        if (!agrees(one))
            continue;
        const int order =
            count == 0 ? -1 : compare_candidates(mender, one, best[0]);
        if (order < 0)
            count = 0;
        if (order <= 0 && count <= TOLD_AT_MOST)
            best[count++] = one;
    }
    for (size_t i = 0; i < mender->candidates.count; i++) {
        const struct candidate *one = &mender->candidates.items[i];
        if (count == 0 || count > TOLD_AT_MOST)
            continue;
        if ((one->twofold && agrees(one) && best[0] != one) ||
            (count == 1 && other_word_goes(one, best[0])))
            best[count++] = one;
    }
    return count;
}
