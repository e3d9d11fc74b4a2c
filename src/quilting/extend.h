/* Straight seams that end at open cloth go on through it. */
#ifndef SEAMWRIGHT_EXTEND_H
#define SEAMWRIGHT_EXTEND_H

#include "seams.h"

enum extend_until { UNTIL_SEAM, UNTIL_LINE, UNTIL_BORDER, UNTIL_EDGE };

struct extend_order {
    struct extent within; /* the place: only seams with a part in it ... */
    bool outline;         /* ... that lies on its rim, */
    int one, other;       /* ... or, without `outline`, between these fabrics */
    int into;
    enum extend_until until;
    struct extent center;        /* the top without its borders */
    const struct segment *lines; /* told before; only UNTIL_LINE asks them */
    size_t line_count;
    struct grid *by_place; /* of those lines; NULL: each looks at all */
};

enum extended_to {
    EXTENDED_SEAM,
    EXTENDED_LINE,
    EXTENDED_BORDER, /* the rim of the center */
    EXTENDED_EDGE,
    EXTENDED_CLOTH /* of another fabric: a line never goes on into it */
};

struct extended_line {
    struct vertex from, to; /* `from` at the seam it grows out of */
    size_t seam;            /* its index among the straight seams */
    enum extended_to end;
    bool met; /* another of this order came from the other side, in one line
                 with it: the two are this one */
};
struct extended_lines {
    const struct extended_line *items;
    size_t count;
    size_t lost; /* the first that came to the edge (UNTIL_SEAM, UNTIL_LINE)
                    before it came to what was asked; SIZE_MAX for none */
    struct fault fault; /* indices of the cloth's seams */
};

/* An end of a straight seam is extended where the part that ends there is asked
 * for and the cloth straight on, at both hands, is `into`. A line stops where
 * other cloth begins, whatever `until` says. Lines of one order do not stop
 * each other, so their order does not matter. */
struct extended_lines extend_seams(struct arena *arena,
                                   const struct ground *ground,
                                   const struct straight_seams *seams,
                                   const struct extend_order *order);

/* The points at which extend_seams begins: ends of seams before open cloth. */
struct seam_ends {
    const struct vertex *items; /* each once */
    size_t count;
    struct fault fault;
};
struct seam_ends find_seam_ends(struct arena *arena,
                                const struct ground *ground,
                                const struct straight_seams *seams,
                                struct extent within, int into);

#endif
