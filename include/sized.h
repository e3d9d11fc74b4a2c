/* owner: solve
 *
 * The design with every size known exactly.
 *
 * Sizes of pieces are finished sizes in the *local* unit of their definition:
 * grid squares in a block with a grid and in the units it uses, the pattern's
 * unit elsewhere. A definition may be sewn at several scales; a scale is the
 * real length of one local unit.
 */
#ifndef SEAMWRIGHT_SIZED_H
#define SEAMWRIGHT_SIZED_H

#include "design.h"

struct scale {
    struct rational factor;
    struct span span; /* the use that asks for it */
};

struct definition_scales {
    LIST(struct scale) items;
    bool open; /* there may be more: something that uses it has a mistake */
};

struct sized {
    const struct design *design;
    /* By piece index: as the piece lies in its definition, local units;
     * unknown where something was reported about it. */
    struct rational *width, *height;
    /* By piece index: a use that asks for a size which its unit or block cannot
     * have; that was reported. */
    bool *misfit;
    /* By definition index: all pieces known and nothing reported inside. */
    bool *sound;
    /* By definition index: the distinct scales that quilts sew it at. */
    struct definition_scales *scales;
};

/* Solves every size.
 * requires: a design. ensures: as above. reports: sizes that contradict each
 *   other or that nothing fixes, with their sums; statements that do not
 *   hold; grid squares that do not cut on a ruler. */
struct sized *solve_design(struct run *run, const struct design *design);

/* The scale at which `piece` (a use) sews its target, when its own definition
 * is sewn at `factor`. */
struct rational use_scale(const struct sized *sized, const struct piece *piece,
                          struct rational factor);

/* The side of the two squares that half-squares of this finished size F are cut
 * from, rounded up to the cutting step, and what trimming takes off at least.
 * Squares S and a seam s give units of
 * - one: S, exactly, so S = F + 2s;
 * - two: S - s * sqrt 2, so S = F + s * (2 + sqrt 2) (K. Combs, Formulas for
 *   Quilters, 2002: F + 7/8 for s = 1/4);
 * - four: (S - 2s) / sqrt 2, so S = (F + 2s) * sqrt 2 + 2s (derived);
 * - eight: S / 2 - s * sqrt 2, so S = 2F + s * (4 + 2 * sqrt 2) (American
 *   Patchwork & Quilting, How to make eight triangle-squares at once:
 *   2 (F + 7/8) for s = 1/4). */
struct half_square_cut {
    struct rational side;
    struct rational slack; /* of the sewn unit; 0 for method one */
};
struct half_square_cut half_square_cut(const struct pattern *pattern,
                                       enum half_square_method method,
                                       struct rational finished);

/* Half-rectangles of this finished size W x H come from two rectangles P x Q,
 * as they lie in the unit, each cut in two on a line of the slope of the
 * finished diagonal D through its middle. A triangle with a seam s all round is
 * the finished one, k = 1 + s / r times as large (r is the radius of its inner
 * circle, (W + H - D) / 2), so its legs are
 *     k W = W + s (W + H + D) / H,   k H = H + s (W + H + D) / W
 * (derived: 2 x 4 asks for 2.6545 x 5.3090). D is a root that no fraction is;
 * P and Q are multiples of the cutting step, no less than the legs and `room`
 * (of the shorter one; of the longer one in proportion), decided by comparing
 * squares. The line runs from corner to corner where that
 * takes little more cloth (in the trade W + 1 and H + 2 for H = 2 W: HRT
 * tutorial, mmmquilts.com, December 2019); else its ends lie beside corners. */
struct half_rectangle_cut {
    struct rational width, height; /* P and Q */
    struct rational diagonal;      /* D, or at most 1/256 below it */
    struct rational scale; /* of the triangle at a corner of P x Q, to W x H */
    struct rational least; /* k, or a little above it */
    struct rational reach; /* the ends of the line lie so far from two opposite
                              corners; 0 where they are corners */
    bool on_width; /* ... on the edges that run across, else on the others */
    bool corners;  /* which no ruler tells from the corners */
};
/* ensures: unknown sizes where 64 bits do not hold them. */
struct half_rectangle_cut half_rectangle_cut(const struct pattern *pattern,
                                             struct rational room,
                                             struct rational width,
                                             struct rational height);

/* The side of a square that is sewn across its diagonal: `straight` + `across`
 * * sqrt 2 at least, rounded up to the cutting step, decided without rounding.
 * Unknown where it cannot be told exactly. */
struct cut_across {
    struct rational side;
    struct rational slack; /* how much too large it is, at least */
};
struct cut_across cut_across(const struct pattern *pattern,
                             struct rational straight, struct rational across);

/* The side of the square that triangles with finished legs of this length are
 * cut from, rounded up to the cutting step. For a seam s a square cut once makes
 * two whose legs are its sides: legs + s * (2 + sqrt 2); one cut twice makes four
 * whose long edges are its sides: legs * sqrt 2 + s * (2 + 2 * sqrt 2). For s =
 * 1/4 that is 0.854 and 1.207 more, rounded to 7/8 and 1 1/4 by the trade
 * (M. Hohn, Quilter's Cache, How to make setting triangles, 2002). requires: a
 * shape that is no whole patch. */
struct rational triangle_square(const struct pattern *pattern,
                                enum patch_shape shape, struct rational legs);

/* The pieces of an eight-pointed star of this finished size B, and a seam s.
 * The side of a diamond, of a corner's square and of a side triangle's legs is
 * a = B / (2 + sqrt 2); a diamond is a / sqrt 2 high (derived: two legs and a
 * diagonal of the triangle along each edge; published tables of strips: A Big
 * Lone Star, D. Kratovil, 2015). Its strip, a / sqrt 2 + 2s, is rounded up to
 * the cutting step: what that adds goes into the seams of the diamonds, half to
 * each side; sewn at s the star would grow by 2 + 2 sqrt 2 times as much. */
struct star_cut {
    struct rational side, height; /* a, and a / sqrt 2, exact */
    struct rational strip;        /* as cut */
    struct rational excess;       /* of the strip, exact */
    struct rational growth;       /* of a star that is sewn with seams of s */
};
struct star_cut star_cut(const struct pattern *pattern,
                         struct rational finished);
/* The finished star whose diamonds' strip is that, as cut: (strip - 2s) * (2 +
 * 2 sqrt 2). */
struct rational star_of_strip(const struct pattern *pattern,
                              struct rational strip);

/* A cut length: finished + 2 seams, rounded up to the cutting step. */
struct rational cut_length(const struct pattern *pattern,
                           struct rational finished);

/* Finished size of a quilt's top, borders included; unknown if not solved. */
struct rational quilt_width(const struct sized *sized,
                            const struct definition *quilt);
struct rational quilt_height(const struct sized *sized,
                             const struct definition *quilt);

#endif
