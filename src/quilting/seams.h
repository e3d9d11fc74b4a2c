/* Seams as a person sees them: stretches that lie in one line and touch are one
 * straight seam, with the fabrics beside each part of it. */
#ifndef SEAMWRIGHT_SEAMS_H
#define SEAMWRIGHT_SEAMS_H

#include "arrange.h"
#include "ground.h"

/* A part with the same two fabrics and one way of pressing. */
struct seam_part {
    struct vertex from,
        to;          /* along the seam, from its lower end by x, then y */
    int right, left; /* fabrics at the hands of that way */
    int x, y;        /* pressed towards, as in `struct seam`; 0, 0 open */
    size_t seam;     /* the first of the cloth's seams that covers it */
};

struct straight_seam {
    struct vertex from, to;
    struct straight line;
    const struct seam_part *parts; /* in order, end to end */
    size_t count;
};
struct straight_seams {
    const struct straight_seam *items;
    size_t count;
    struct fault fault; /* indices of the cloth's seams */
    /* All parts, seam by seam, and where they lie; and the ends of seams: end
     * 2 i is where seam i begins, 2 i + 1 where it ends. */
    const struct seam_part *parts;
    size_t part_count;
    struct grid *by_part, *by_end;
};

/* All straight seams of the cloth, by line, then along it. What of a seam lies
 * on the rim of the top is left out: nothing is sewn to there. */
struct straight_seams join_seams(struct arena *arena,
                                 const struct ground *ground);

/* Does the part lie between these two fabrics, either way round? */
bool seam_between(const struct seam_part *part, int one, int other);

/* The numbers of parts, or of ends, that lie in a rectangle or near to it, as
 * they rise. ensures: they lie in the arena, `*count` of them. */
const size_t *parts_about(struct arena *arena,
                          const struct straight_seams *seams,
                          struct extent extent, size_t *count);
const size_t *ends_about(struct arena *arena,
                         const struct straight_seams *seams,
                         struct extent extent, size_t *count);

#endif
