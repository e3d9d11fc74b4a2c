/* Straight lines without ends, exact. Each has one form, so that lines that are
 * the same are equal: y = slope x + at, or x = at for one that runs upright. */
#ifndef SEAMWRIGHT_STRAIGHT_H
#define SEAMWRIGHT_STRAIGHT_H

#include "number.h"

struct straight {
    bool upright;
    number slope; /* 0 for one that runs upright */
    number at;
};

/* A stretch between two points. */
struct segment {
    struct vertex from, to;
};

/* requires: two known points, not the same. ensures: unknown parts where the
 * number type is left. */
struct straight straight_through(struct vertex a, struct vertex b);
bool straight_known(struct straight s);
bool straight_equal(struct straight a, struct straight b);
/* By direction, then by place; upright ones last. requires: known. */
int straight_compare(struct straight a, struct straight b);
/* By direction alone: slopes as they rise, then upright. */
int straight_compare_direction(struct straight a, struct straight b);

/* Where two lines of different directions meet; unknown where that leaves the
 * number type. */
struct vertex straight_meet(struct straight a, struct straight b);
/* -1, 0 or 1: the point lies above (or left of an upright line), on, below (or
 * right of) the line; 2 where that leaves the number type. */
int straight_side(struct straight s, struct vertex v);

/* The place of a point along its line: y on an upright line, else x. */
static inline number straight_place(struct straight s, struct vertex v)
{
    return s.upright ? v.y : v.x;
}

/* How far right of the way from `a` to `b` the point lies, times that way's
 * length; y down. */
number vertex_aside(struct vertex a, struct vertex b, struct vertex v);
/* Which side of the way from `a` to `b` the point lies on, y down: 1 on the
 * right hand, -1 on the left, 0 on the line, 2 where that cannot be told. */
int vertex_turn(struct vertex a, struct vertex b, struct vertex v);

#endif
