/* owner: quilting
 *
 * How each quilt is quilted: what is stitched and where, how each line is found
 * on the cloth, in which order and with how much thread, and the largest place
 * that is held by nothing.
 *
 * Lengths are in the pattern's unit, in the frame of the finished top (spot.h).
 * Exact points stand beside those in floating point where they are known.
 * Everything lives in the arena of the run.
 */
#ifndef SEAMWRIGHT_QUILTING_H
#define SEAMWRIGHT_QUILTING_H

#include <math.h>

#include "sewn.h"
#include "spot.h"
#include "told_quilting.h"

/* In the order in which they are stitched: the ditch anchors, small dense
 * fillers come last, as they draw up (Quilting Order, fabricbias.com, 24 August
 * 2009; Machine Quilting Sequence, kathykwylie.com, June 2012). */
enum quilting_stage {
    STAGE_DITCH,
    STAGE_LINES, /* extended and from point to point */
    STAGE_ECHOES,
    STAGE_FILLERS,
    QUILTING_STAGES
};
/* As data and figures name it: "ditch", "lines", "echoes", "fillers". */
const char *quilting_stage_name(enum quilting_stage stage);

/* How a line is found on the cloth. */
enum line_found {
    FOUND_SEAM,   /* in a seam, or with a ruler laid along one */
    FOUND_FOOT,   /* the edge of the foot on what lies beside it */
    FOUND_POINTS, /* between two points that can be seen */
    FOUND_RULER,  /* so far beside a seam or a line, with a ruler */
    FOUND_FREE,   /* by eye: swirls and pebbles */
    FOUND_MARK,   /* none of these: it is drawn on the cloth */
    FOUND_WAYS
};
/* "seam", "foot", "points", "ruler", "free", "mark". */
const char *line_found_name(enum line_found found);

/* What a line is found from: a seam that it follows or lies beside, a line that
 * was stitched before, the edge of the quilt. */
enum guide_kind { GUIDE_NONE, GUIDE_SEAM, GUIDE_LINE, GUIDE_EDGE };

/* Of indexes, none. */
#define QUILTING_NONE SIZE_MAX

/* One line, from point to point; closed ones go back to the first, which is not
 * told twice. */
struct quilted_line {
    const struct told_item *item;
    enum quilting_stage stage;
    size_t thread; /* of the told threads */
    const struct spot *points;
    const struct vertex *exact; /* the same points; NULL where they are not all
                                   known exactly */
    size_t count;               /* 2 or more */
    bool closed;
    double length; /* of what is stitched */
    enum line_found found;
    enum guide_kind guide;
    double beside;  /* how far from what it is found from; 0: along it */
    size_t area;    /* in which it lies, of an area's own lines; or
                       QUILTING_NONE */
    size_t echo;    /* its number from what is echoed, from 1; else 0 */
    bool seam_open; /* of the ditch: in a seam that is pressed open */
};

/* A row of the table of lines: lines of one element that are found alike. */
struct quilted_row {
    const struct told_item *item;
    enum quilting_stage stage;
    size_t thread;
    enum line_found found;
    enum guide_kind guide;
    double beside;
    size_t lines;
    double length, longest;
};

/* A closed line of points: the outline of an area or one of its holes, or a
 * piece of a texture, which is open. */
struct quilted_ring {
    const struct spot *points;  /* the last meets the first */
    const struct vertex *exact; /* NULL where not known exactly */
    size_t count;
};

/* An area that the lines leave: of one fabric, whole. */
struct quilted_area {
    const struct quilted_ring *rings; /* its outline, then its holes */
    size_t ring_count;
    /* What echoes leave of it, for its filler; its own rings where no strip of
     * echoes lies in it. Nothing where it has no filler. */
    const struct quilted_ring *rest;
    size_t rest_count;
    double rest_size;
    int fabric;
    size_t kind;
    const struct told_item *item; /* `area` that took it, or NULL */
    const struct told_item *fill; /* what fills it, or NULL */
    double size;                  /* in square units */
    struct spot label;            /* well inside it */
    double free;   /* length of swirls or pebbles in it, by their law */
    double filled; /* of all that is stitched for this area alone */
};

/* One piece of a path. */
/* Stitched as planned, unseen in a ditch, or back over a line that shows. */
enum path_manner { PATH_STITCH, PATH_TRAVEL_DITCH, PATH_TRAVEL_BACK };
struct path_step {
    struct spot from, to;
    enum path_manner manner;
    size_t line; /* that it is a part of; QUILTING_NONE in a seam that is not
                    quilted */
    size_t area; /* that is filled by eye, from its rim to its middle and back;
                    or QUILTING_NONE */
    bool start;  /* a path begins here, with a start of its own */
    bool turn;   /* the quilt is turned before it */
    bool bobbin; /* a full bobbin is put in before it */
};

/* The path of one thread in one stage. */
struct quilted_route {
    enum quilting_stage stage;
    size_t thread;
    LIST(struct path_step) steps;
    size_t starts;       /* changes of bobbin not counted */
    size_t starts_alone; /* without any travel */
    size_t starts_bound; /* fewer are not possible by pairing */
    size_t turns, changes;
    double stitched, travelled;
    bool proved;
};

/* Steps of one line that follow each other are one leg, which has a number in
 * figures. ensures: behind the last step of the leg that begins there. */
static inline size_t route_leg_end(const struct quilted_route *route,
                                   size_t begin)
{
    size_t end = begin + 1;
    const struct path_step *first = &route->steps.items[begin];
    while (end < route->steps.count) {
        const struct path_step *step = &route->steps.items[end];
        if (step->start || step->manner != first->manner ||
            step->line != first->line || step->area != first->area)
            break;
        end++;
    }
    return end;
}

/* Over the whole top a leg goes straight on, over several lines, and ends where
 * the hand turns: one in 60 is no turn that it feels. ensures: behind the last
 * step of the leg that begins there, before `most`. */
static inline size_t route_turn_end(const struct quilted_route *route,
                                    size_t begin, size_t most)
{
    size_t end = begin + 1;
    const struct path_step *steps = route->steps.items;
    for (; end < most && !steps[end].start &&
           steps[end].area == steps[begin].area &&
           (steps[end].manner == PATH_STITCH) ==
               (steps[begin].manner == PATH_STITCH);
         end++) {
        const double x = steps[end - 1].to.x - steps[end - 1].from.x;
        const double y = steps[end - 1].to.y - steps[end - 1].from.y;
        const double u = steps[end].to.x - steps[end].from.x;
        const double v = steps[end].to.y - steps[end].from.y;
        if (fabs(x * v - y * u) > hypot(x, y) * hypot(u, v) / 60.0 ||
            x * u + y * v < 0.0)
            break;
    }
    return end;
}

/* Areas that are alike, turned, mirrored and shifted, with what is stitched in
 * them; of one fabric, unless the words that took them name none. */
struct quilted_kind {
    const char *letter; /* "a", "b", ..., "aa" */
    size_t sample;      /* the first area of it */
    size_t count;       /* of areas */
    int fabric;         /* NO_FABRIC: several */
    const struct told_item *item, *fill; /* of its areas; NULL for none */
    double size;                         /* of one area, square units */
    double filled;                       /* of one area */
    /* Of swirls and pebbles a sample, some inches on a side, from (0, 0) on;
     * else nothing. */
    const struct quilted_ring *texture;
    size_t texture_count;
    double texture_side;
    /* In the sample, of what is stitched in areas; by thread. */
    LIST(struct quilted_route) sequences;
};

/* What one thread takes. Line and travel are lengths on the quilt; a lockstitch
 * takes one and a half times that above and as much below, and waste and the
 * tails of starts come to it. */
struct thread_amount {
    double line, travel;
    size_t starts, changes;
    double above, below; /* of thread, waste and starts with it, in whole yards
                            or metres */
    double bought;       /* of this thread, above and on bobbins */
    size_t bobbins;      /* wound with it, for all that it lies below of */
    /* By fabric number: length of line that runs on its cloth, in no ditch. */
    const double *over;
};

/* The color of a thread in a colorway, and what of it is bought. */
struct thread_dress {
    double red, green, blue;
    const char *name;          /* of its spool; "" for none */
    const struct spool *spool; /* or NULL */
    size_t spools;             /* 0 where no length of a spool is told */
    /* By fabric number: how far it differs from that cloth, as contrast is told
     * elsewhere (color.h), and whether it shows there. */
    const double *difference;
    const bool *shows;
};

/* An open circle, and where it is found. `least` is 0 where none is larger than
 * 1/8 in. */
struct quilted_gap {
    double least, most; /* its diameter lies between them */
    struct spot at;
    size_t row, column; /* of the setting, the cell that is nearest; 0 where the
                           setting has none */
    double left, top;   /* from the edges of the quilt, to its center */
};

struct quilting_plan {
    const struct sewn_quilt *quilt;
    const struct quilting *told; /* NULL: no quilting, and all else is empty */
    LIST(struct quilted_line) lines; /* by stage, thread, element */
    LIST(struct quilted_row) rows;
    LIST(struct quilted_area) areas;
    LIST(struct quilted_kind) kinds;   /* in the order of their letters */
    LIST(struct quilted_route) routes; /* by stage, then thread */
    struct thread_amount *amounts;     /* by thread */
    struct thread_dress *dresses;      /* by colorway, then thread */
    size_t starts, turns, changes;
    double length; /* of all lines and fillers, travel not counted */
    double by_found[FOUND_WAYS]; /* the same, apart */
    bool gap_known;
    struct quilted_gap gap; /* the largest, to 1/64 in */
    LIST(struct quilted_gap)
    gaps;                  /* circles that do not overlap, the largest
                              first: those above max-gap, else the
                              largest few */
    unsigned top_symmetry; /* bits as in design.h: of the top ... */
    unsigned symmetry;     /* ... and of the lines on it */
    double density_least, density_most; /* inches on a square inch, or the like
                                           in centimetres; 0 where nothing */
};

struct quilted {
    const struct sewn *sewn;
    LIST(struct quilting_plan) plans; /* one for each quilt, in their order */
    bool failed;                      /* an error was reported in one */
};

/* Plans the quilting of all quilts.
 * requires: quilts that were sewn without errors. ensures: a value with a plan
 *   for each; where there were errors, as much as is known for the figure of
 *   gaps. reports: places that are not there, lines that cannot be drawn,
 *   gaps, statements that do not hold. */
const struct quilted *plan_quilting(struct run *run, const struct sewn *sewn);

/* ensures: whether an error was reported. */
bool quilting_failed(const struct quilted *quilted);

/* Length of line that no mark is needed for, as a share of all: 0 to 1. */
double quilting_unmarked(const struct quilting_plan *plan);

/* Of one quilt; NULL where it has no quilting. */
const struct quilting_plan *quilting_of(const struct quilted *quilted,
                                        const struct sewn_quilt *quilt);

#endif
