/* owner: proof
 *
 * Claims: all that a booklet says in numbers and directions, as statements that
 * a tester ticks. Made from the contents of its sections, so that none is
 * missed.
 */
#ifndef SEAMWRIGHT_CLAIMS_H
#define SEAMWRIGHT_CLAIMS_H

#include "content.h"

enum claim_kind {
    CLAIM_SHOWN,  /* on virtual cloth, or counted: size, direction, place */
    CLAIM_ASKED,  /* only people can tell */
    CLAIM_STRIPS, /* three test strips, measured: the tester's seam */
    CLAIM_SIZE,   /* a side of what a step makes, measured */
    CLAIM_KINDS
};

/* What a tape tells of one side, in the pattern's unit. The means are those of
 * the usual hand (tolerance.h), whose test strips come right, and of hands that
 * sew each seam a thread narrower and wider. Between them a line is drawn: they
 * are what --gather needs to tell a seam from a mistake of the pattern. */
struct claim_measure {
    double told; /* what the pattern says */
    double narrow, right, wide;
    double spread; /* by chance, a standard deviation */
    double bound;  /* what it may be off and still serve */
};

struct claim {
    size_t number; /* from 1: those of the booklet in its order, then those
                      that are asked, then those that are measured */
    enum claim_kind kind;
    const char *section; /* its heading, or the step */
    const char *text;
    struct claim_measure measure; /* of strips and sizes */
};

struct claims {
    LIST(struct claim) items;
};

/* Among whom claims are shared, and for whom this is: from 1. */
struct testers {
    size_t count, tester;
};

/* ensures: the claims of one booklet. Numbers stay the same as long as its
 * contents do. */
struct claims claims_of(const struct wording *w, const struct cutplan *plan);

/* Each claim goes to two of the testers (to all of two or one), and any two of
 * them share some. What is measured goes to all, as each has a seam of their
 * own. requires: 1 <= tester <= testers. */
bool claim_is_for(const struct claim *claim, size_t testers, size_t tester);

/* The columns of a table of claims, by their names there, in their order. All
 * lengths from `told` on are whole thousandths of the unit: a spreadsheet makes
 * dates of decimals. */
#define CLAIMS_COLUMN_LIST(X) \
    X(PATTERN, "pattern") \
    X(REVISION, "revision") \
    X(DATE, "date") \
    X(QUILT, "quilt") \
    X(COLORWAY, "colorway") \
    X(TESTER, "tester") \
    X(CLAIM, "claim") \
    X(KIND, "kind") \
    X(SECTION, "section") \
    X(TEXT, "text") \
    X(ANSWER, "answer") \
    X(MEASURE, "measure") \
    X(TESTERS, "testers") \
    X(CLAIMS, "claims") \
    X(UNIT, "unit") \
    X(TOLD, "told") \
    X(NARROW, "narrow") \
    X(RIGHT, "right") \
    X(WIDE, "wide") \
    X(SPREAD, "spread") \
    X(BOUND, "bound")

#define CLAIMS_COLUMN_ENUM(id, name) CLAIMS_##id,
enum claims_column { CLAIMS_COLUMN_LIST(CLAIMS_COLUMN_ENUM) CLAIMS_COLUMNS };
#undef CLAIMS_COLUMN_ENUM

const char *claims_column_name(enum claims_column column);
/* "shown", "asked", "strips", "size" */
const char *claim_kind_name(enum claim_kind kind);

#endif
