/* The areas that lines leave, and which of them are alike. */
#ifndef SEAMWRIGHT_AREAS_H
#define SEAMWRIGHT_AREAS_H

#include "shape.h"
#include "symmetry.h"

/* From how many sides an area is seen: four turns, each mirrored as well. */
enum { AREA_VIEWS = 8 };

struct area {
    size_t face; /* of the arrangement of all that bounds areas */
    int fabric;  /* of the cloth under it */
    int apart;   /* areas of one kind have it in common: the fabric, unless
                    someone sets another number before they are sorted */
    size_t kind; /* areas that are alike have one, from 0 */
    double area;
    struct spot_line box; /* around it */
    struct face_key views[AREA_VIEWS];
};
struct area_kind {
    size_t first; /* its first area, as a map is read */
    size_t count;
};
struct areas {
    struct area *items; /* by face */
    size_t count;
    const struct area_kind *kinds; /* in the order of their first areas, from
                                      the top down and from the left */
    size_t kind_count;
};

/* Areas are alike where they are of one fabric and one is the other turned,
 * mirrored and shifted: so are those that a symmetry of the top or the places
 * of a block take to each other.
 * requires: an arrangement without fault, whose faces each lie on one fabric
 *   (seams between two fabrics are among its segments). */
struct areas find_areas(struct arena *arena, const struct ground *ground,
                        const struct arrangement *arrangement);

/* What tells areas of one form apart: a number, and stretches that lie in them,
 * whichever way they are seen. Ends are compared to 1e-6. Then sort_areas finds
 * the kinds anew. */
void area_add_number(struct area *area, uint64_t value);
void area_add_stretch(struct area *area, struct spot from, struct spot to);
void sort_areas(struct arena *arena, struct areas *areas);

/* The rings of an area in doubles, for fillers, echoes and drawing. */
spot_rings area_spots(struct arena *arena, const struct arrangement *a,
                      const struct area *area);
/* The area as a shape, for echoes. */
struct shape area_shape(struct arena *arena, const struct arrangement *a,
                        const struct area *area);

/* Which faces have a stretch in common with one of these sources (`source[i]`
 * for segment i of the arrangement)? What ends inside of one counts, too. By
 * face. */
const bool *faces_touching(struct arena *arena, const struct arrangement *a,
                           const bool *source);

#endif
