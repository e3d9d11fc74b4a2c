/* Inside the planner: strips without a gap. */
#ifndef SEAMWRIGHT_ROLL_COVER_H
#define SEAMWRIGHT_ROLL_COVER_H

#include "roll_master.h"

/* `times` strips of a height, each filled to the width. */
struct roll_full {
    int64_t height;
    const struct roll_part *parts;
    size_t part_count;
    size_t times;
};

struct roll_cover {
    LIST(struct roll_full) strips;
    int64_t length;
};

/* ensures: full strips that make no more of any size than is asked for, as
 * many as are found within `work`; none where there are too many to choose
 * from. `work` gets what was done. */
struct roll_cover roll_cover(struct arena *arena,
                             const struct roll_problem *problem,
                             uint64_t *work);

#endif
