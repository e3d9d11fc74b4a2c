/* Inside the errata sheet: its figures. */
#ifndef SEAMWRIGHT_ERRATA_H
#define SEAMWRIGHT_ERRATA_H

#include "box.h"
#include "told_changes.h"

/* What was and what is, beside each other in one scale, what differs outlined;
 * NULL where the change has no figure, or one of the two is not at hand. */
struct box *errata_figure(const struct canvas *canvas,
                          const struct change_wording *w,
                          const struct change *change);

struct face_list {
    struct face *items;
    size_t count, capacity;
};

/* The finished cloth of a step, drawn and compared. Each face has a mark, a
 * polygon that is outlined where the face differs: itself, or the box of the
 * block that it lies in. */
struct errata_cloth {
    const struct cloth *cloth;
    struct face_list marks;
    LIST(size_t) mark_of; /* by face */
};

/* ensures: the cloth, in the arena; NULL where neither its faces nor those of
 * all its parts are told, or where there are too many of them. */
const struct errata_cloth *errata_cloth(struct arena *arena,
                                        const struct revision_quilt *quilt,
                                        const struct revision_step *step);
/* ensures: the marks of the faces that the other of the two has not; each once.
 * `side`: whose. */
struct face_list errata_differing(struct arena *arena,
                                  const struct comparison *of, int side,
                                  const struct errata_cloth *const cloths[2]);

#endif
