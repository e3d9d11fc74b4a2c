/* owner: resolve
 *
 * What is told of the quilting of a quilt: threads, lines, areas and fillers
 * with their names bound, in the order of the source. Where they lie on the top
 * is found later (quilting.h).
 */
#ifndef SEAMWRIGHT_TOLD_QUILTING_H
#define SEAMWRIGHT_TOLD_QUILTING_H

#include "design.h"

/* Where a thread takes its color from. */
enum thread_color { THREAD_MATCHES, THREAD_BLENDS, THREAD_COLORED };

struct quilting_thread {
    const struct element *element;
    const char *id;
    enum thread_color color;
    int fabrics[2];          /* of THREAD_MATCHES twice the same */
    double red, green, blue; /* of THREAD_COLORED, 0 to 1 */
    size_t below;            /* the thread in the bobbin; itself if not told */
};

/* Place words. What is not told is NULL, NO_FABRIC and 0. */
struct quilting_place {
    const struct element *element;
    const struct definition *of; /* a unit, a block, the quilt itself */
    const struct piece *piece;   /* a piece with an id */
    int fabric;
    size_t row, column;          /* of the setting, from 1 */
    size_t border;               /* from the inside, from 1 */
    enum attribute_id attribute; /* that names `of` or `piece` */
};

/* A line or area is one of these. Ditches, extended lines, echoes and lines
 * from point to point are drawn over the whole top or in an area; a fill stands
 * in an area alone. */
enum told_kind {
    TOLD_DITCH,
    TOLD_EXTEND,
    TOLD_ECHO,
    TOLD_CONNECT,
    TOLD_AREA,
    TOLD_FILL
};
/* All in the order of the choices of their attributes. */
enum told_until {
    TOLD_UNTIL_SEAM,
    TOLD_UNTIL_LINE,
    TOLD_UNTIL_BORDER,
    TOLD_UNTIL_EDGE
};
/* Of a shape. Lines have two sides alike, and are echoed on both. */
enum told_side { TOLD_INSIDE, TOLD_OUTSIDE, TOLD_BOTH_SIDES };
/* Which points lines run between. Corners are those of a shape, or of the place
 * itself where no fabric is told: outer ones, where it is narrower than a half
 * plane, and inner ones. Middles are those of its sides, the center that of its
 * box. Seams end at cloth of `into`; lines are those that seams are extended
 * to.
 */
enum point_kind {
    POINT_CORNERS,
    POINT_OUTER_CORNERS,
    POINT_INNER_CORNERS,
    POINT_SEAM_ENDS,
    POINT_MIDDLES,
    POINT_CENTER,
    POINT_LINE_ENDS
};
/* Which of two sets of points are joined: those that are nearest to each other
 * both ways, each with the nearest that it sees, or all that see each other. */
enum told_pair { TOLD_FACING, TOLD_NEAREST, TOLD_ALL };
/* What covers an area. Lines, grid and echoes are worked out one by one; swirls
 * and pebbles are stitched by eye, and counted by a law. Nothing is a choice,
 * too: the gap is checked there as anywhere. */
enum told_fill {
    TOLD_LINES,
    TOLD_GRID,
    TOLD_SWIRLS,
    TOLD_PEBBLES,
    TOLD_ECHOES,
    TOLD_NONE
};
/* The way that lines of a filler run; of a grid, half of them. */
enum fill_along {
    ALONG_ACROSS,
    ALONG_DOWN,
    ALONG_RISING,
    ALONG_FALLING,
    ALONG_LINE
};
/* What an area must lie along. */
enum touching { TOUCHING_ANY, TOUCHING_BORDER, TOUCHING_SHAPE, TOUCHING_LINE };
/* Where the needle may travel between what is stitched: in the ditch of seams
 * that are pressed to one side; there and back over lines; nowhere. */
enum travel_way { TRAVEL_DITCHES, TRAVEL_ANYWHERE, TRAVEL_NOWHERE };
/* Bits of the choices of symmetry=, by their places. */
enum {
    TOLD_LEFT_RIGHT = 1,
    TOLD_TOP_BOTTOM = 2,
    TOLD_HALF_TURN = 4,
    TOLD_QUARTER_TURN = 8,
    TOLD_RISING = 16,
    TOLD_FALLING = 32
};

enum { NO_ITEM = -1 };

/* One element of what is told, by its kind. Lengths are in the pattern's unit,
 * unknown where they are not told. */
struct told_item {
    enum told_kind kind;
    const struct element *element;
    const char *id; /* NULL for none */
    size_t index;   /* among all items */
    int thread;     /* its index; NO_ITEM for a fill of nothing */
    int area;       /* the item that it stands in, or NO_ITEM */
    struct quilting_place place;
    struct stated limit; /* `until` of extend, `times` of echo, as written */
    int between[2];      /* of ditch, extend: NO_FABRIC for any */
    bool outline;
    int into; /* of extend, connect */
    union {
        enum told_until until; /* of extend */
        struct {
            const int *around; /* items with ids before it */
            size_t around_count;
            enum told_side side;
            struct rational spacing, first;
            size_t times; /* 0 for as many as there is room for */
            bool rounded;
        } echo;
        struct {
            enum point_kind from, to;
            struct quilting_place with; /* of `to`; else as `from` */
            enum told_pair pair;
            struct rational stop; /* 0 for none */
        } connect;
        struct {
            enum touching touching;
            struct quilting_place shape; /* of TOUCHING_SHAPE */
            int line;                    /* of TOUCHING_LINE, an item */
            int inside;                  /* an item, or NO_ITEM */
        } area;
        struct {
            enum told_fill with;
            struct rational spacing;
            enum fill_along along;
            int line; /* of ALONG_LINE, an item */
        } fill;
    } of;
};

/* All that one quilt is told of its quilting. */
struct quilting {
    const struct element *element;
    const struct definition *quilt;
    struct rational foot;  /* from the needle to its edge */
    struct rational ruler; /* its length; unknown for none */
    struct rational start; /* as much travel as one start is worth */
    struct rational bobbin;
    enum travel_way travel;
    bool center_out;   /* in what order long lines are stitched */
    unsigned symmetry; /* bits that are stated */
    struct stated starts;
    LIST(struct quilting_thread) threads;
    LIST(struct told_item) items; /* those of an area behind it */
};

#endif
