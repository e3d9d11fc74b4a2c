/* owner: plan
 *
 * A list of pieces to cut from one cloth, as a small text:
 *
 *     # pieces of a sampler
 *     width 42
 *     2.5 2.5 96 squares
 *     2-1/2 4-1/2 72
 *
 * `width` is the usable width of the cloth; then a piece a line: its side along
 * the strip, its side across, how many, and a name. `height` makes the cloth
 * sheets of that height, and `first-cut down` or `first-cut across` says which
 * way their first cuts run, where only one will do. `leftover 21 18 4` is cloth
 * that lies there already, 4 pieces of it, and is used before the roll. `unit`
 * (a ruler's steps for one unit) is taken and not needed, as lengths are exact.
 * Lengths are decimals or fractions (`2 1/2`, `2-1/2`), in inches; in
 * centimetres where the width is written so (`106cm`). A name is all that stands
 * behind the count.
 */
#ifndef SEAMWRIGHT_PIECE_LIST_H
#define SEAMWRIGHT_PIECE_LIST_H

#include "length.h"
#include "rational.h"
#include "roll.h"
#include "sheets.h"

struct piece_list {
    struct roll_problem problem; /* in whole steps */
    int64_t sheet_height;        /* in steps; 0 for a roll */
    enum sheet_first_cut first_cut;
    const struct leftover *leftovers; /* in steps */
    size_t leftover_count;
    /* As written, since steps are rounded down: width and height of a sheet,
     * and of each leftover, one after the other. */
    struct rational sheet_sides[2];
    const struct rational *leftover_sides;
    struct rational step;     /* length of one step */
    enum length_unit unit;    /* that lengths are written and told in */
    const char *problem_text; /* NULL, or "line 3: ..." */
};

/* ensures: the list; or `problem_text` set. Pieces may be turned if `turns`. */
struct piece_list read_piece_list(struct arena *arena, const char *text,
                                  bool turns);

#endif
