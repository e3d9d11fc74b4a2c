/* What testers found, for programs: every claim with every answer. */
#include "json_writer.h"
#include "quilting_json.h"
#include "render.h"

static const char *const answer_names[ANSWERS] = {
    [ANSWER_NONE] = "none",
    [ANSWER_RIGHT] = "right",
    [ANSWER_WRONG] = "wrong",
    [ANSWER_UNCLEAR] = "unclear",
};

static const char *const finding_names[FINDINGS] = {
    [FOUND_BY_TWO] = "two",       [FOUND_DISPUTED] = "disputed",
    [FOUND_BY_ONE] = "one",       [FOUND_UNCHECKED] = "unchecked",
    [FOUND_RIGHT] = "right",
};

static const char *const verdict_names[SIZE_VERDICTS] = {
    [SIZE_NONE] = "none",       [SIZE_AS_TOLD] = "as-told",
    [SIZE_SEAM] = "seam",       [SIZE_PATTERN] = "pattern",
    [SIZE_HIDDEN] = "hidden",   [SIZE_UNKNOWN] = "unknown",
};

/* A chance or a tape, to a thousandth: nobody measures finer. */
static void json_measure(struct json *json, const char *key, double length)
{
    json_text(json, key, decimal_text(json->out.arena, length, 3));
}

/* Numbers of claims, as they rise. */
static void json_numbers(struct json *json, const char *key,
                         const size_t *numbers, size_t count)
{
    json_open(json, key, '[');
    for (size_t i = 0; i < count; i++)
        json_number(json, NULL, numbers[i]);
    json_close(json, ']');
}

/* A reach of 0 is none: there were no strips. */
static void json_answer(struct json *json, const struct gathered *all,
                        const struct gathered_claim *claim,
                        const struct gathered_answer *answer)
{
    json_open(json, NULL, '{');
    json_text(json, "tester", all->testers.items[answer->tester].name);
    if (!claim_is_measured(claim))
        json_text(json, "answer", answer_names[answer->answer]);
    json_text(json, "measure", answer->measure);
    if (claim_is_measured(claim) && answer->measure[0] != '\0') {
        json_measure(json, "measured", answer->measured);
        if (claim->claim.kind == CLAIM_SIZE)
            json_text(json, "verdict", verdict_names[answer->verdict]);
        if (answer->reach > 0) {
            json_measure(json, "expected", answer->expected);
            json_measure(json, "reach", answer->reach);
        }
    }
    json_close(json, '}');
}

/* What is measured has no finding, and what is answered no unit. */
static void json_claim(struct json *json, const struct gathered *all,
                       const struct gathered_claim *claim)
{
    json_open(json, NULL, '{');
    json_number(json, "claim", claim->claim.number);
    json_text(json, "kind", claim_kind_name(claim->claim.kind));
    json_text(json, "section", claim->claim.section);
    json_text(json, "text", claim->claim.text);
    if (claim_is_measured(claim)) {
        json_text(json, "unit", claim->unit);
        json_measure(json, "told", claim->claim.measure.told);
        json_measure(json, "bound", claim->claim.measure.bound);
    } else {
        json_text(json, "finding", finding_names[claim_finding(claim)]);
    }
    json_open(json, "answers", '[');
    for (size_t i = 0; i < claim->answers.count; i++)
        json_answer(json, all, claim, &claim->answers.items[i]);
    json_close(json, ']');
    json_close(json, '}');
}

/* Counts of answers are not told: they can be counted. */
static void json_book(struct json *json, const struct gathered *all,
                      const struct gathered_book *book)
{
    json_open(json, NULL, '{');
    json_text(json, "quilt", book->quilt);
    json_text(json, "colorway", book->colorway);
    json_number(json, "claimCount", book->count);
    json_open(json, "testers", '[');
    for (size_t i = 0; i < book->shares.count; i++) {
        const struct gathered_share *share = &book->shares.items[i];
        json_open(json, NULL, '{');
        json_text(json, "tester", all->testers.items[share->tester].name);
        json_text(json, "strips",
                  share->strips == NULL ? "" : share->strips->measure);
        json_numbers(json, "lost", share->lost.items, share->lost.count);
        json_close(json, '}');
    }
    json_close(json, ']');
    json_numbers(json, "absent", book->absent.items, book->absent.count);
    json_open(json, "claims", '[');
    for (size_t i = 0; i < book->claims.count; i++)
        json_claim(json, all, &book->claims.items[i]);
    json_close(json, ']');
    json_close(json, '}');
}

/* The version rises when a name changes or goes, not when one is added. */
const char *render_gathered_json(struct arena *arena,
                                 const struct gathered *all)
{
    struct json json = {buffer_in(arena), 0, true};
    json_open(&json, NULL, '{');
    json_number(&json, "version", 1);
    json_text(&json, "pattern", all->pattern);
    json_text(&json, "revision", all->revision);
    json_text(&json, "date", all->date);
    json_open(&json, "booklets", '[');
    for (size_t i = 0; i < all->books.count; i++)
        json_book(&json, all, &all->books.items[i]);
    json_close(&json, ']');
    json_close(&json, '}');
    buffer_char(&json.out, '\n');
    return buffer_string(&json.out);
}
