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

#endif
