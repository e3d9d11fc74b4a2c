/* Measurements that a designer wrote by hand in a text. */
#ifndef SEAMWRIGHT_MEASUREMENT_H
#define SEAMWRIGHT_MEASUREMENT_H

#include "cutplan.h"

struct measurement {
    size_t start, end; /* bytes of the run's text */
    bool pair;         /* "A x B", else one length */
    bool counts;       /* "3 x 4": whole numbers, no unit */
    struct rational first, second;
    struct rational rounding; /* how far it may be off: 0 but for a length of
                                 the other system, which is rounded */
    struct rational on_ruler; /* the same from a size that has roots, which no
                                 ruler shows */
};

/* Walks the runs of one text; zeroed but for `units` at the start of it. */
struct scanner {
    enum length_unit units; /* of the pattern */
    const struct text_run *run;
    size_t at;
    bool in_quotes; /* a " that opened is still to close */
};

/* ensures: the next measurement of scanner->run, or false at its end. */
bool next_measurement(struct scanner *scanner, struct measurement *found);

#endif
