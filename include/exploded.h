/* owner: tell
 *
 * All that a step joins, laid out apart as it will be sewn: the parts of what
 * it makes, and of the rows on the way to that, each in its place and turn. How
 * wide a gap is, is not said. */
#ifndef SEAMWRIGHT_EXPLODED_H
#define SEAMWRIGHT_EXPLODED_H

#include "told_step.h"

/* A quarter turn and a move: x' = xx x + xy y + x, y' = yx x + yy y + y. */
struct placing {
    int xx, xy, yx, yy;
    struct rational x, y;
};
struct placing placing_none(void);
/* Where an input's cloth lies in the cloth that takes it. */
struct placing placing_of(const struct sewn_quilt *quilt,
                          const struct input *input);
/* First `inner`, then `outer`. */
struct placing placing_then(struct placing inner, struct placing outer);
struct face placed_face(struct arena *arena, struct face face,
                        struct placing placing);

/* A seam in the gap that it will close. */
struct exploded_seam {
    size_t number;        /* from 1, in the order of sewing */
    struct vertex middle; /* of the seam, as it lies in the whole */
    int gap_x, gap_y;     /* moved by so many gaps */
    bool upright;         /* in the whole */
    int x, y;             /* pressed towards; both 0 for open */
};

/* A part as it lies: its middle, to mark its turn. */
struct exploded_part {
    size_t heap;
    unsigned turn; /* clockwise quarter turns of that heap's cloth */
    struct vertex middle;
    int gap_x, gap_y;
};

/* One gap is GAP_PARTS parts, so that rows of few parts spread over the width
 * of others. */
enum { GAP_PARTS = 12 };

struct exploded {
    struct state laid; /* gaps in parts of a gap */
    struct state sewn; /* the whole, with the pressing of all seams */
    LIST(struct exploded_part) parts; /* by their number in `laid` */
    LIST(struct exploded_seam) seams;
    int gaps_x, gaps_y; /* in all, in parts of a gap */
};

/* requires: a step whose heaps are joins. */
struct exploded explode(struct arena *arena, const struct sewn_quilt *quilt,
                        const struct told_step *step);

/* A cut piece that lies sideways shows it by its shape; a sewn part has a mark
 * for its turn, unless it looks the same. ensures: the turn that is marked, or
 * 0. */
unsigned shown_turn(const struct sewn_quilt *quilt,
                    const struct exploded_part *part);

#endif
