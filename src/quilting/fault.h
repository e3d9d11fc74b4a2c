/* What geometry says where it cannot do what was asked: a value, no message.
 * The pass turns it into words with a place in the source. */
#ifndef SEAMWRIGHT_FAULT_H
#define SEAMWRIGHT_FAULT_H

#include <stddef.h>

enum fault_kind {
    FAULT_NONE,
    FAULT_LIMIT, /* a number outgrew its type, or lines would be too many */
    FAULT_ROOM   /* the geometry library gave up: our own fault, tell it so */
};

/* `first` and `second` are indices of the lines that were given in, those whose
 * meeting could not be told; both the same where it is one line. */
struct fault {
    enum fault_kind kind;
    size_t first, second;
};

#endif
