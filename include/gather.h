/* owner: proof
 *
 * Tables of claims that came back from testers, summed up: what nobody checked,
 * what was called wrong or unclear, where testers disagree, and of each measure
 * whether the tester's own seam explains it.
 */
#ifndef SEAMWRIGHT_GATHER_H
#define SEAMWRIGHT_GATHER_H

#include "claims.h"
#include "diag.h"

enum claim_answer {
    ANSWER_NONE,
    ANSWER_RIGHT,
    ANSWER_WRONG,
    ANSWER_UNCLEAR,
    ANSWERS
};

/* What is to be made of a size that was measured. */
enum size_verdict {
    SIZE_NONE,    /* not measured */
    SIZE_AS_TOLD, /* within the bound of what the pattern says */
    SIZE_SEAM,    /* off, and this tester's strips explain it */
    SIZE_PATTERN, /* off, and they do not */
    SIZE_HIDDEN,  /* as told, although these strips make another size */
    SIZE_UNKNOWN, /* off, and no strips were measured */
    SIZE_VERDICTS
};

/* One tester of one file; a file may hold the rows of several. */
struct gathered_tester {
    const char *name; /* the file, and the number where a file has several */
    size_t part;      /* of the source */
    struct testers of;
};

/* What one tester says of one claim. */
struct gathered_answer {
    size_t tester;
    enum claim_answer answer;
    const char *measure; /* as written; "" for none */
    struct span span;    /* of its row */
    double measured;     /* of strips and sizes, where there is a measure */
    enum size_verdict verdict;
    double expected, reach; /* what this tester's seam makes, and by how much
                               chance and the strips' own error leave it open */
};

struct gathered_claim {
    struct claim claim;
    const char *unit; /* of what is measured */
    struct span text;  /* where it was read first */
    LIST(struct gathered_answer) answers; /* of all who have a row of it */
};

/* What one tester did in one booklet. */
struct gathered_share {
    size_t tester;
    size_t answers[ANSWERS]; /* of claims to be answered */
    LIST(size_t) lost; /* numbers that went to this tester and have no row */
    const struct gathered_answer *strips; /* measured, or NULL */
};

struct gathered_book {
    const char *quilt, *colorway;
    size_t count;      /* of its claims */
    size_t *place;     /* by number: 1 + index in `claims`, or 0 */
    LIST(struct gathered_claim) claims; /* as their numbers rise */
    LIST(size_t) absent; /* numbers that stand in no file */
    LIST(struct gathered_share) shares; /* as testers were read */
};

struct gathered {
    const char *pattern, *revision, *date;
    LIST(struct gathered_tester) testers;
    LIST(struct gathered_book) books;
};

/* requires: a run over one or more tables of claims, one a file.
 * ensures: what they say together, without errors in the run.
 * reports: what is no table of claims, cells that cannot be read, claims of
 * another pattern or printing, claims that stand twice. */
const struct gathered *gather_claims(struct run *run);

/* How many testers called a claim so. */
size_t count_answers(const struct gathered_claim *claim,
                     enum claim_answer answer);

/* What all testers together say of a claim that is answered. */
enum claim_finding {
    FOUND_BY_TWO,    /* two or more call it wrong or unclear */
    FOUND_DISPUTED,  /* one does, and another calls it right */
    FOUND_BY_ONE,    /* one does, and nobody else has checked it */
    FOUND_UNCHECKED, /* nobody has */
    FOUND_RIGHT,
    FINDINGS
};
enum claim_finding claim_finding(const struct gathered_claim *claim);

/* Strips and sizes are measured, not answered. */
bool claim_is_measured(const struct gathered_claim *claim);

#endif
