/* Symmetries of a top: which of the rectangle's four (the square's eight) map
 * its cloth onto itself, and whether lines follow. */
#ifndef SEAMWRIGHT_SYMMETRY_H
#define SEAMWRIGHT_SYMMETRY_H

#include "arrange.h"
#include "ground.h"

enum symmetry {
    SYMMETRY_SAME,
    SYMMETRY_LEFT_RIGHT,
    SYMMETRY_TOP_BOTTOM,
    SYMMETRY_HALF_TURN,
    SYMMETRY_QUARTER_TURN, /* clockwise */
    SYMMETRY_THREE_QUARTERS,
    SYMMETRY_FALLING, /* mirrored about the diagonal that falls */
    SYMMETRY_RISING,
    SYMMETRY_COUNT
};
#define SYMMETRY_BIT(which) (1u << (which))

/* Moves a point: x' = xx x + xy y + move.x, y' = yx x + yy y + move.y, where
 * the four are 0, 1 or -1 and make a turn or a mirror image. */
struct motion {
    int xx, xy, yx, yy;
    struct vertex move;
};
struct vertex vertex_moved(struct motion motion, struct vertex v);
struct spot spot_moved(struct motion motion, struct spot at);
/* First `inner`, then `outer`. */
struct motion motion_compose(struct motion outer, struct motion inner);

/* Of a rectangle from (0, 0); those that turn sides need width = height. */
struct motion symmetry_motion(enum symmetry which, number width, number height);

/* From the frame of a unit or block, width by height as it is drawn, into the
 * top: mirrored, turned, and laid with the top left corner of what comes of it
 * at `at`. */
struct motion placing_motion(struct orientation orientation, number width,
                             number height, struct vertex at);

/* What a face is under a motion: two are the same where a and b are. */
struct face_key {
    uint64_t a, b;
};
struct face_key face_key(const struct arrangement *a,
                         const struct arranged_face *face, int fabric,
                         struct motion motion);
int face_key_compare(struct face_key a, struct face_key b);
/* A key that is built up, of rings, numbers and stretches in any order: rings
 * wherever they begin and whichever way they go round, stretches from either
 * end. */
void face_key_ring(struct face_key *key, const struct vertex *points,
                   size_t count);
void face_key_number(struct face_key *key, uint64_t value);
void face_key_stretch(struct face_key *key, uint64_t x, uint64_t y,
                      uint64_t other_x, uint64_t other_y);

/* Which symmetries map the faces with their fabrics onto themselves, as bits;
 * SYMMETRY_SAME always. The split of cloth into convex faces does not matter,
 * seams do. ensures: `*fault` with indices of seams. */
unsigned top_symmetries(struct arena *arena, const struct ground *ground,
                        struct fault *fault);

/* The first line (by index) without an image among the lines, SIZE_MAX where
 * all have one. Ends are compared to 1e-6; ends may be exchanged. Lines that
 * are cut into pieces differently are not the same: give pieces of the
 * arrangement, or whole lines. O(n log n). */
size_t line_without_image(struct arena *arena, const struct spot_line *lines,
                          size_t count, struct motion motion);

#endif
