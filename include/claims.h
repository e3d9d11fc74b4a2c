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
    CLAIM_SHOWN, /* on virtual cloth, or counted: size, direction, place */
    CLAIM_ASKED  /* only people can tell */
};

struct claim {
    size_t number; /* from 1, in the order of the booklet; asked ones last */
    enum claim_kind kind;
    const char *section; /* its heading, or the step */
    const char *text;
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
 * them share some. requires: 1 <= tester <= testers. */
bool claim_is_for(const struct claim *claim, size_t testers, size_t tester);

/* The strips by which a tester's seam is measured: how wide each of three is
 * cut, and how wide they are, sewn side by side. Three of 1 1/2 in make 3 1/2
 * with a seam of 1/4 (the trade's test of a seam, told by several teachers);
 * 4 cm in centimetres (our choice). */
struct rational test_strip(const struct pattern *pattern);
struct rational test_strips_sewn(const struct pattern *pattern);

#endif
