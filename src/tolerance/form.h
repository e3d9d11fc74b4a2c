/* Inside the stage: one side of what is sewn as a sum of the sides that go into
 * it, of seams and of folds. Techniques fill it (form.c), heaps are read into
 * it (sums.c), hands sew it (spread.c). Read next: form.c. */
#ifndef SEAMWRIGHT_TOLERANCE_FORM_H
#define SEAMWRIGHT_TOLERANCE_FORM_H

#include <math.h>

#include "tolerance.h"

#define ROOT2 1.41421356237309504880
#define ROOT3 1.73205080756887729353

/* A side of another heap, which goes in so often. */
struct term {
    size_t heap;
    int side;
    double factor;
};

/* The mean is linear in all that a hand does. */
struct form {
    LIST(struct term) terms;
    double base;
    double seams;             /* times the seam as it is sewn */
    double folds, folds_open; /* times what each takes */
    double lines;             /* times what a line-sewn seam lies off */
    double cuts, stitches;    /* times the variance of one cut, one seam */
    bool trimmed;
    double size; /* that it is trimmed to */
};

/* Cloth that goes in: a heap, or a square that is only thought of. */
struct supply {
    size_t heap;   /* or NO_HEAP: */
    double across; /* as cut */
    double down;
};
struct supply supply_heap(size_t heap);
struct supply supply_cut(double across, double down);

/* Takes so much of a side. */
void take(struct arena *arena, struct form *form, struct supply supply,
          int side, double factor);
/* A fold that takes so much. */
void add_fold(struct form *form, bool open, double factor);
/* Seams from edge to edge across the side, each of which takes twice its
 * width. */
void add_seam(struct form *form, bool open);
/* The same at 45 degrees to the side, two of them, one in each direction. */
void add_slanted_seams(struct form *form, bool open);
void trim_form(struct form *form, double size);

/* ---- techniques: the sums of one side ---- */

/* A square flipped over a corner. `share`: how much of the side it covers. */
void add_flap(struct arena *arena, struct form *form, struct supply square,
              bool open, double share);
/* Two squares sewn on or beside their diagonal: half-squares, and
 * quarter-squares from two halves. */
void pair_form(struct arena *arena, struct form *form,
               enum half_square_method method, struct supply base,
               struct supply laid, bool open);
/* A goose of four: `along` its base, or from there to the point. */
void geese_form(struct arena *arena, struct form *form, bool along,
                struct supply large, struct supply near, struct supply free,
                bool open);
/* A square in a square, of triangles. */
void triangles_form(struct arena *arena, struct form *form,
                    struct supply center, struct supply first,
                    struct supply second, bool open);

/* ---- sums.c ---- */

struct sums {
    const struct pattern *pattern;
    const struct sewn_quilt *quilt;
    double seam;
    struct form *forms; /* by heap and side */
};

/* ---- spread.c ---- */

/* One side, sewn by a hand; `sides` has the heaps before it. */
struct expected sew_form(const struct form *form, double seam,
                         const struct hand *hand, const struct expected *sides);
struct outcome outcome_of(struct expected expected, double wanted,
                          double bound);

/* Over persons: hands at even steps of the offset, up to five standard
 * deviations, each with its weight. The outcome is summed up about what is
 * wanted, and ended. */
enum { MIX_STEPS = 16, MIX_LAST = 5 * MIX_STEPS };
struct mix {
    struct hand hand;
    double weight;
};
struct mix persons_mix(struct hand hand, int step);
void mix_in(struct outcome *mixed, double weight, const struct expected *e,
            double wanted, double bound);
void end_mix(struct outcome *mixed, double wanted);

/* All heaps up to the last that is asked for. */
void sew_up_to(const struct sums *sums, const struct hand *hand,
               struct oversize oversize, size_t last, struct expected *sides);

/* ---- report.c, shares.c, ways.c ---- */

void add_shares(struct arena *arena, struct tolerance_report *report,
                const struct sums *sums, const struct expected *sides,
                size_t row);
void add_ways(struct arena *arena, struct tolerance_report *report,
              const struct sums *sums, size_t heap);

/* The hand of the report, with the seam of this case. */
struct hand hand_of(const struct tolerance_report *report, enum seam_case seam);
/* What a form of its own, without terms, comes to in all cases. */
struct outcomes outcomes_of_form(const struct tolerance_report *report,
                                 const struct form *form, double seam,
                                 double wanted, double bound);

static inline double squared(double x)
{
    return x * x;
}

/* Unfinished. */
double heap_side(const struct sums *sums, size_t heap, int side);
bool is_pressed_open(const struct heap *heap);
/* Of squares flipped over the corners of a piece? */
bool is_flipped(const struct heap *heap);

#endif
