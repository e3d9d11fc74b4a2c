/* What testers found, for a terminal: first what two called wrong, last what
 * came out as told. Read next: gathered_json.c. */
#include <string.h>

#include "quilting_json.h"
#include "render.h"
#include "text_table.h"

struct telling_gathered {
    struct buffer *out;
    const struct gathered *all;
    const struct gathered_book *book;
};

/* By the file that came back. */
static const char *tester_name(const struct telling_gathered *t, size_t tester)
{
    return t->all->testers.items[tester].name;
}

/* "1 claim", "3 claims" */
static void add_count(struct buffer *out, size_t count, const char *thing)
{
    buffer_printf(out, "%zu %s%s", count, thing, count == 1 ? "" : "s");
}

/* ---- testers ---- */

static void print_testers(const struct telling_gathered *t)
{
    static const char *const heads[] = {"",        "right",    "wrong",
                                        "unclear", "no answer", "strips"};
    struct arena *arena = t->out->arena;
    struct text_table table = text_table_of(arena, 6);
    for (size_t i = 0; i < 6; i++)
        add_text_cell(&table, heads[i]);
    for (size_t i = 0; i < t->book->shares.count; i++) {
        const struct gathered_share *share = &t->book->shares.items[i];
        const enum claim_answer order[] = {ANSWER_RIGHT, ANSWER_WRONG,
                                           ANSWER_UNCLEAR, ANSWER_NONE};
        add_text_cell(&table, tester_name(t, share->tester));
        for (size_t k = 0; k < 4; k++)
            add_text_cell(&table, say_count(arena, share->answers[order[k]]));
        add_text_cell(&table,
                      share->strips == NULL ? "none" : share->strips->measure);
    }
    print_text_table(t->out, &table);
}

/* "3, 5, 8 to 12" */
static void print_numbers(struct buffer *out, const size_t *numbers,
                          size_t count)
{
    for (size_t i = 0; i < count;) {
        size_t last = i;
        while (last + 1 < count && numbers[last + 1] == numbers[last] + 1)
            last++;
        buffer_printf(out, "%s%zu", i == 0 ? "" : ", ", numbers[i]);
        if (last > i)
            buffer_printf(out, "%s%zu", last == i + 1 ? ", " : " to ",
                          numbers[last]);
        i = last + 1;
    }
}

/* A row that was deleted would else look like one that was never given. */
static void print_lost(const struct telling_gathered *t)
{
    for (size_t i = 0; i < t->book->shares.count; i++) {
        const struct gathered_share *share = &t->book->shares.items[i];
        if (share->lost.count == 0)
            continue;
        buffer_printf(t->out, "  %s lacks the row%s of ",
                      tester_name(t, share->tester),
                      share->lost.count == 1 ? "" : "s");
        print_numbers(t->out, share->lost.items, share->lost.count);
        buffer_char(t->out, '\n');
    }
}

/* ---- claims ---- */

/* "wrong: a.csv (8 3/8), b.csv" */
static bool print_who(const struct telling_gathered *t,
                      const struct gathered_claim *claim,
                      enum claim_answer answer, const char *before)
{
    static const char *const words[ANSWERS] = {"no answer", "right", "wrong",
                                               "unclear"};
    bool any = false;
    for (size_t i = 0; i < claim->answers.count; i++) {
        const struct gathered_answer *one = &claim->answers.items[i];
        if (one->answer != answer)
            continue;
        if (any)
            buffer_text(t->out, ", ");
        else
            buffer_printf(t->out, "%s%s: ", before, words[answer]);
        buffer_text(t->out, tester_name(t, one->tester));
        if (one->measure[0] != '\0')
            buffer_printf(t->out, " (%s)", one->measure);
        any = true;
    }
    return any;
}

/* The text stands in full, as the booklet need not be at hand. */
static void print_claim(const struct telling_gathered *t,
                        const struct gathered_claim *claim)
{
    static const enum claim_answer order[] = {ANSWER_WRONG, ANSWER_UNCLEAR,
                                              ANSWER_RIGHT, ANSWER_NONE};
    bool any = false;
    buffer_printf(t->out, "  %zu. %s\n      %s\n", claim->claim.number,
                  claim->claim.section, claim->claim.text);
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++)
        if (print_who(t, claim, order[i], any ? "; " : "      "))
            any = true;
    buffer_char(t->out, '\n');
}

/* ensures: how many claims have the finding, printed below a heading. */
static size_t print_found(const struct telling_gathered *t,
                          enum claim_finding finding, const char *heading)
{
    size_t count = 0;
    for (size_t i = 0; i < t->book->claims.count; i++) {
        const struct gathered_claim *claim = &t->book->claims.items[i];
        if (claim_is_measured(claim) || claim_finding(claim) != finding)
            continue;
        if (count++ == 0)
            buffer_printf(t->out, "\n%s\n", heading);
        print_claim(t, claim);
    }
    return count;
}

/* Only their numbers: of a packet that did not come back these are many. */
static void print_unchecked(const struct telling_gathered *t)
{
    struct arena *arena = t->out->arena;
    LIST(size_t) numbers = {0};
    for (size_t i = 0; i < t->book->claims.count; i++) {
        const struct gathered_claim *claim = &t->book->claims.items[i];
        if (!claim_is_measured(claim) &&
            claim_finding(claim) == FOUND_UNCHECKED)
            *LIST_ADD(arena, &numbers) = claim->claim.number;
    }
    if (numbers.count > 0) {
        buffer_text(t->out, "\nNobody checked\n  ");
        print_numbers(t->out, numbers.items, numbers.count);
        buffer_char(t->out, '\n');
    }
    if (t->book->absent.count > 0) {
        buffer_text(t->out, "\nGiven to nobody whose table is here\n  ");
        print_numbers(t->out, t->book->absent.items, t->book->absent.count);
        buffer_char(t->out, '\n');
    }
}

/* ---- measures ---- */

static const char *verdict_words(enum size_verdict verdict)
{
    static const char *const words[SIZE_VERDICTS] = {
        [SIZE_NONE] = "",
        [SIZE_AS_TOLD] = "as told",
        [SIZE_SEAM] = "this tester's seam",
        [SIZE_PATTERN] = "not this tester's seam: look at the pattern",
        [SIZE_HIDDEN] = "as told, but this seam makes another size: look at "
                        "the pattern",
        [SIZE_UNKNOWN] = "off; no strips tell whose fault it is",
    };
    return words[verdict];
}

/* The reach stands beside the measure, so that a reader may judge otherwise. */
static void add_measure(const struct telling_gathered *t,
                        struct text_table *table,
                        const struct gathered_answer *answer)
{
    struct arena *arena = t->out->arena;
    const bool strips = answer->verdict != SIZE_UNKNOWN;
    add_text_cell(table,
                  arena_printf(arena, "    %s", tester_name(t, answer->tester)));
    add_text_cell(table, answer->measure);
    add_text_cell(
        table,
        strips ? arena_printf(
                     arena, "%s to %s",
                     decimal_text(arena, answer->expected - answer->reach, 3),
                     decimal_text(arena, answer->expected + answer->reach, 3))
               : "");
    add_text_cell(table, verdict_words(answer->verdict));
}

/* Of several verdicts, as bits. */
static size_t count_verdict(const struct gathered_claim *claim,
                            unsigned verdicts)
{
    size_t count = 0;
    for (size_t i = 0; i < claim->answers.count; i++)
        count += verdicts >> claim->answers.items[i].verdict & 1;
    return count;
}

/* All who are off, with what their own seam makes, chance reckoned in. */
static void print_sizes(const struct telling_gathered *t, unsigned verdicts,
                        unsigned not_with, const char *heading)
{
    bool any = false;
    for (size_t i = 0; i < t->book->claims.count; i++) {
        const struct gathered_claim *claim = &t->book->claims.items[i];
        if (count_verdict(claim, verdicts) == 0 ||
            count_verdict(claim, not_with) > 0)
            continue;
        if (!any)
            buffer_printf(t->out, "\n%s\n", heading);
        any = true;
        buffer_printf(t->out, "  %zu. %s: %s\n", claim->claim.number,
                      claim->claim.section, claim->claim.text);
        struct text_table table = text_table_of(t->out->arena, 4);
        for (size_t k = 0; k < claim->answers.count; k++)
            if (claim->answers.items[k].verdict > SIZE_AS_TOLD)
                add_measure(t, &table, &claim->answers.items[k]);
        print_text_table(t->out, &table);
    }
}

/* What is to be looked at comes first; a size that is the seam of one tester and
 * not that of another stands there alone. */
static void print_measures(const struct telling_gathered *t)
{
    const unsigned seam = 1U << SIZE_SEAM;
    const unsigned look =
        1U << SIZE_PATTERN | 1U << SIZE_HIDDEN | 1U << SIZE_UNKNOWN;
    size_t as_told = 0;
    print_sizes(t, look, 0,
                "Sizes to look at: measured, what that seam makes");
    print_sizes(t, seam, look,
                "Sizes that are off by the tester's seam, not by the pattern");
    for (size_t i = 0; i < t->book->claims.count; i++)
        as_told +=
            count_verdict(&t->book->claims.items[i], 1U << SIZE_AS_TOLD);
    buffer_text(t->out, "\n");
    add_count(t->out, as_told, "measure");
    buffer_text(t->out, " as told\n");
}

/* ---- all of it ---- */

static void print_book(const struct telling_gathered *t)
{
    size_t right = 0;
    buffer_printf(t->out, "\n%s, %s: ", t->book->quilt, t->book->colorway);
    add_count(t->out, t->book->count, "claim");
    buffer_char(t->out, '\n');
    print_testers(t);
    print_lost(t);
    print_found(t, FOUND_BY_TWO, "Two or more call it wrong or unclear");
    print_found(t, FOUND_DISPUTED, "Testers disagree");
    print_found(t, FOUND_BY_ONE, "One calls it wrong or unclear");
    print_unchecked(t);
    print_measures(t);
    for (size_t i = 0; i < t->book->claims.count; i++)
        right += !claim_is_measured(&t->book->claims.items[i]) &&
                 claim_finding(&t->book->claims.items[i]) == FOUND_RIGHT;
    add_count(t->out, right, "claim");
    buffer_text(t->out, " right\n");
}

/* The printing stands at the top, as the sum is kept with it. */
const char *render_gathered(struct arena *arena, const struct gathered *all)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, all->pattern);
    if (all->revision[0] != '\0')
        buffer_printf(&out, ", revision %s", all->revision);
    if (all->date[0] != '\0')
        buffer_printf(&out, ", %s", all->date);
    buffer_text(&out, ": ");
    add_count(&out, all->testers.count, "tester");
    buffer_char(&out, '\n');
    for (size_t i = 0; i < all->books.count; i++) {
        const struct telling_gathered t = {&out, all, &all->books.items[i]};
        print_book(&t);
    }
    return buffer_string(&out);
}
