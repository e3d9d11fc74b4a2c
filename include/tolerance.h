/* owner: tolerance
 *
 * How much error the sewing forgives: what comes of a quilt that is not cut and
 * sewn exactly. No size of a pattern comes from here, so that floating point is
 * right: these are chances. All lengths in the pattern's unit, unfinished.
 *
 * The model. A seam of width q is sewn q + offset + s wide: the offset is a
 * person's own, the same in each seam; s is chance, once for each seam. A side
 * is cut with an error e, once for each cut side. The fold of a seam takes some
 * cloth, less where it is pressed open; what is sewn on a drawn line lies a
 * little off it, towards the corner. All chances are normal and independent.
 * - n pieces in a row: the sum of the pieces, less n - 1 times 2 (q + offset)
 *   and a fold. Variance n cut^2 + 4 (n - 1) stitch^2.
 * - rows above each other: eased to one another, so that the width is their
 *   mean, weighted by their height.
 * - squares S sewn beside a diagonal (two at a time): S - sqrt 2 (q + offset) -
 *   fold / sqrt 2, variance cut^2 / 2 + 2 stitch^2.
 * - a square flipped over a corner: the two edges under it lie sqrt 2 line -
 *   fold / sqrt 2 further out, variance cut^2 / 2 + 2 stitch^2; of a side, as
 *   much as the square covers.
 * - what is trimmed to a size T: the smaller of what was sewn and T + e. Its
 *   mean and variance are those of C. E. Clark, The greatest of a finite set of
 *   random variables, Operations Research 9, 1961 (from memory); its chances
 *   come from the two normals, not from a third one.
 * These are derived by plane geometry; how they hold is measured in
 * tests/tolerance. Not in the model: bias that stretches, pressing, shrinkage,
 * gross mistakes, layers that slip.
 */
#ifndef SEAMWRIGHT_TOLERANCE_H
#define SEAMWRIGHT_TOLERANCE_H

#include "sewn.h"

/* How a person sews, as lengths. `cut`, `stitch` and `persons` are standard
 * deviations. */
struct hand {
    double offset;    /* of each seam: wider than the pattern's where above 0 */
    double stitch;    /* by chance, once a seam */
    double cut;       /* by chance, once a cut side */
    double fold;      /* of cloth, by a seam that is pressed to a side, */
    double fold_open; /* and by one that is pressed open */
    double line;      /* a line-sewn seam lies so far towards the corner */
    double persons;   /* of the offset, from one person to the next */
};

/* Whose test strips come right. requires: units of a pattern. The numbers are
 * those of the trade (trade.h). */
struct hand usual_hand(enum length_unit units);

/* Three strips of trade_length(TRADE_TEST_STRIP), sewn side by side: what they
 * measure where seam and cuts are right. */
struct rational test_strips(const struct pattern *pattern);

/* The offset of the hand whose three test strips measure so much: two seams
 * take four times it, and two folds. */
double strips_offset(const struct pattern *pattern, const struct hand *hand,
                     double measured);

enum { ACROSS, DOWN, SIDES };

/* One side of what is sewn, over all that chance does to one person's work. */
struct expected {
    double mean, variance;
    double slope; /* by how much the mean grows with the offset */
    bool trimmed; /* then also: */
    double sewn, sewn_variance;     /* before it was trimmed, */
    double trimmed_to, trim_spread; /* and the ruler's size */
};

/* The smaller of two independent normals; `trim_spread` is that of the size.
 */
struct expected expected_trimmed(struct expected sewn, double size,
                                 double trim_spread);

/* The chance to be within `bound` of `wanted`, at most. */
double expected_within(const struct expected *expected, double wanted,
                       double bound);

/* The chance that what was sewn is smaller than what it is to be trimmed to; 0
 * where nothing is trimmed. */
double expected_too_small(const struct expected *expected);

/* Rows that are eased to one another: their mean width, weighted by the
 * heights. Rows of one `set` are cut from one strip set, so that all their
 * error is one. requires: rows that are not trimmed. */
struct stacked_row {
    struct expected width;
    double height;
    size_t set;
};
struct expected expected_stack(const struct stacked_row *rows, size_t count);

/* What happens to a quilt: the sums of each heap, whoever sews it. */
struct sums;
struct sums *sums_of(struct arena *arena, const struct pattern *pattern,
                     const struct sewn_quilt *quilt);

/* One heap is made larger by so much, and trimmed to its size. */
#define NO_HEAP ((size_t)-1)
struct oversize {
    size_t heap; /* NO_HEAP for none */
    double more;
};

/* ensures: both sides of each heap, sewn by this hand, by heap and side: item
 * SIDES * heap + side. */
struct expected *sew_sums(struct arena *arena, const struct sums *sums,
                          const struct hand *hand, struct oversize oversize);

/* What may come, of one size. */
struct outcome {
    double mean, spread; /* standard deviation */
    double within;       /* chance to be within the bound */
};

/* The same over persons, whose offsets lie round that of the hand: computed for
 * each offset, then mixed, as all that a person sews shares the offset. */
struct outcome outcome_over_persons(const struct sums *sums,
                                    const struct hand *hand, size_t heap,
                                    int side, double wanted, double bound);

/* ---- the report of a quilt ---- */

/* The seams for which it is told. The right one is that whose test strips come
 * right; narrow and wide are a thread off it. */
enum seam_case { SEAM_RIGHT, SEAM_OWN, SEAM_NARROW, SEAM_WIDE, SEAM_CASES };

struct outcomes {
    struct outcome of[SEAM_CASES];
    struct outcome persons; /* round the right seam */
};

/* A side of a step's work, or the cloth beyond the point of a goose. */
struct tolerance_row {
    size_t heap;
    int side;     /* SIDES: both alike */
    bool point;   /* beyond the point, less a seam: 0 is wanted */
    bool trimmed; /* to its size */
    double wanted, bound;
    double slope; /* with the right seam */
    double too_small; /* of what is trimmed, with the right seam */
    struct outcomes outcomes;
    /* Of the variance over persons, what comes of their own seam. */
    double own_seam;
};

/* Of the variance of a row, with the right seam. */
struct tolerance_share {
    size_t row;
    size_t heap; /* that ends the step in which it is sewn or trimmed; NO_HEAP:
                    of all cutting */
    double share;
};

/* A heap that is made larger and trimmed, and what the top then comes to. */
struct tolerance_trim {
    size_t heap;
    struct outcomes top;
};

/* Another way to a unit, of the same finished size. */
struct tolerance_way {
    size_t heap;
    const char *method; /* as in the source: "four"; NULL for its own */
    bool larger;        /* by the ruler's step, and trimmed */
    double bound;
    struct outcomes outcomes; /* of the side that is less sure */
    double cloth;             /* for one, in square units, beyond its own way */
};

struct tolerance_report {
    struct hand right;
    double offsets[SEAM_CASES]; /* of each seam, against the pattern's */
    double thread;              /* what narrow and wide are off */
    double more;                /* what is larger, where it is to be trimmed */
    double trimmed_bound;       /* of a trimmed unit */
    bool own;                   /* a person's strips were measured */
    LIST(struct tolerance_row) rows;
    size_t top_row;             /* the whole quilt top */
    LIST(struct tolerance_share) shares;
    LIST(struct tolerance_trim) trims;
    bool trims_left; /* more heaps than were tried */
    LIST(struct tolerance_way) ways;
    size_t bias_edges; /* that hands sew along, in the whole quilt */
};

/* requires: the quilt of a pattern without errors. `measured`: three test
 * strips, or unknown: they come right. */
struct tolerance_report *report_tolerance(struct arena *arena,
                                          const struct pattern *pattern,
                                          const struct sewn_quilt *quilt,
                                          struct rational measured);

/* How much a side gets smaller for each unit by which every seam in it is wider:
 * twice for each join. What was trimmed on the way has its size, so that only later
 * seams count.
 * ensures: two numbers a heap, of its width and of its height. */
double *seams_take(struct arena *arena, const struct pattern *pattern,
                   const struct sewn_quilt *quilt);

#endif
