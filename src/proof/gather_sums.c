/* A booklet's claims once all tables are read: in order, with what each tester
 * did, what got lost, and what each measure says of the pattern. */
#include "gather_parts.h"

#include <math.h>
#include <stdlib.h>

/* Testers are few, so that nothing is kept for this. */
size_t count_answers(const struct gathered_claim *claim,
                     enum claim_answer answer)
{
    size_t count = 0;
    for (size_t i = 0; i < claim->answers.count; i++)
        count += claim->answers.items[i].answer == answer;
    return count;
}

bool claim_is_measured(const struct gathered_claim *claim)
{
    return claim->claim.kind == CLAIM_STRIPS || claim->claim.kind == CLAIM_SIZE;
}

/* Wrong and unclear count alike: either way a page is to be looked at. */
enum claim_finding claim_finding(const struct gathered_claim *claim)
{
    const size_t right = count_answers(claim, ANSWER_RIGHT);
    const size_t faults = count_answers(claim, ANSWER_WRONG) +
                          count_answers(claim, ANSWER_UNCLEAR);
    return faults >= 2                ? FOUND_BY_TWO
           : faults == 1 && right > 0 ? FOUND_DISPUTED
           : faults == 1              ? FOUND_BY_ONE
           : right > 0                ? FOUND_RIGHT
                                      : FOUND_UNCHECKED;
}

/* ---- measures ---- */

/* From the right seam to this one, in threads: more than 0 where it is sewn
 * narrower, as three strips then measure more. */
static double threads_of(const struct claim_measure *strips, double measured)
{
    const double step = measured > strips->right
                            ? strips->narrow - strips->right
                            : strips->right - strips->wide;
    return step > 0 ? (measured - strips->right) / step : 0;
}

/* Lines between what three hands sew; beyond them they go on. */
static double by_thread(const struct claim_measure *size, double threads)
{
    return threads > 0 ? size->narrow - size->right : size->right - size->wide;
}

/* Twice the standard deviation, which 95 of 100 stay within: of chance in this
 * quilt, and of the strips, from which the seam is only known so far. Never
 * less than the bound that is told anyway. */
static double reach_of(const struct claim_measure *size, double slope,
                       const struct claim_measure *strips)
{
    const double step = (strips->narrow - strips->wide) / 2;
    const double seam = step > 0 ? slope * strips->spread / step : 0;
    return fmax(size->bound,
                2 * sqrt(size->spread * size->spread + seam * seam));
}

/* A size may be as told by two faults that cancel: a seam that is off, and a
 * pattern that is off the other way. Such a one is told as hidden. */
static void judge(const struct claim_measure *size,
                  struct gathered_answer *answer,
                  const struct claim_measure *strips, double measured)
{
    /* Thousandths were rounded on their way. */
    const double rounding = 0.001;
    const bool as_told = fabs(answer->measured - size->told) <=
                         size->bound + rounding;
    if (strips == NULL) {
        answer->verdict = as_told ? SIZE_AS_TOLD : SIZE_UNKNOWN;
        return;
    }
    const double threads = threads_of(strips, measured);
    const double slope = by_thread(size, threads);
    answer->expected = size->right + threads * slope;
    answer->reach = reach_of(size, slope, strips);
    const bool explained = fabs(answer->measured - answer->expected) <=
                           answer->reach + rounding;
    answer->verdict = as_told ? explained ? SIZE_AS_TOLD : SIZE_HIDDEN
                      : explained ? SIZE_SEAM
                                  : SIZE_PATTERN;
}

/* ensures: what a tester says of a claim, or NULL. */
static struct gathered_answer *answer_of(const struct gathered_claim *claim,
                                         size_t tester)
{
    for (size_t i = 0; i < claim->answers.count; i++)
        if (claim->answers.items[i].tester == tester)
            return &claim->answers.items[i];
    return NULL;
}

/* The strips first, wherever they stand: all sizes of the tester go by them. */
static void judge_tester(const struct gathered_book *book,
                         struct gathered_share *share)
{
    const struct claim_measure *strips = NULL;
    for (size_t i = 0; i < book->claims.count; i++) {
        const struct gathered_claim *claim = &book->claims.items[i];
        const struct gathered_answer *answer =
            claim->claim.kind == CLAIM_STRIPS
                ? answer_of(claim, share->tester)
                : NULL;
        if (answer != NULL && answer->measure[0] != '\0') {
            share->strips = answer;
            strips = &claim->claim.measure;
        }
    }
    for (size_t i = 0; i < book->claims.count; i++) {
        const struct gathered_claim *claim = &book->claims.items[i];
        struct gathered_answer *answer =
            claim->claim.kind == CLAIM_SIZE ? answer_of(claim, share->tester)
                                            : NULL;
        if (answer != NULL && answer->measure[0] != '\0')
            judge(&claim->claim.measure, answer, strips,
                  strips == NULL ? 0 : share->strips->measured);
    }
}

/* ---- shares ---- */

static int by_number(const void *left, const void *right)
{
    const struct gathered_claim *a = left, *b = right;
    return (a->claim.number > b->claim.number) -
           (a->claim.number < b->claim.number);
}

/* Answers of what is measured are no answers: nothing is called wrong there. */
static void count_share(const struct gathered_book *book,
                        struct gathered_share *share)
{
    for (size_t i = 0; i < book->claims.count; i++) {
        const struct gathered_claim *claim = &book->claims.items[i];
        const struct gathered_answer *answer = answer_of(claim, share->tester);
        if (answer != NULL && !claim_is_measured(claim))
            share->answers[answer->answer]++;
    }
}

/* Which numbers a tester was given follows from the number alone; of one that
 * stands in no file only whose it was is known. */
static void find_lost(struct arena *arena, const struct gathered_book *book,
                      const struct testers *of, struct gathered_share *share)
{
    for (size_t number = 1; number <= book->count; number++) {
        const size_t place = book->place[number];
        const struct claim unseen = {.number = number};
        const struct claim *claim =
            place == 0 ? &unseen : &book->claims.items[place - 1].claim;
        if (claim_is_for(claim, of->count, of->tester) &&
            (place == 0 || answer_of(&book->claims.items[place - 1],
                                     share->tester) == NULL))
            *LIST_ADD(arena, &share->lost) = number;
    }
}

/* A tester may have had one of several booklets. */
static bool has_share(const struct gathered_book *book, size_t tester)
{
    for (size_t i = 0; i < book->claims.count; i++)
        if (answer_of(&book->claims.items[i], tester) != NULL)
            return true;
    return false;
}

/* Places by number follow the new order, as what is lost is found by them. */
void sum_book(struct arena *arena, const struct gathered *all,
              struct gathered_book *book)
{
    qsort(book->claims.items, book->claims.count, sizeof *book->claims.items,
          by_number);
    for (size_t i = 0; i < book->claims.count; i++)
        book->place[book->claims.items[i].claim.number] = i + 1;
    for (size_t number = 1; number <= book->count; number++)
        if (book->place[number] == 0)
            *LIST_ADD(arena, &book->absent) = number;
    for (size_t i = 0; i < all->testers.count; i++) {
        if (!has_share(book, i))
            continue;
        struct gathered_share *share = LIST_ADD(arena, &book->shares);
        share->tester = i;
        count_share(book, share);
        find_lost(arena, book, &all->testers.items[i].of, share);
        judge_tester(book, share);
    }
}
