/* What the options choose: quilts, paper, the place of the output. */
#ifndef SEAMWRIGHT_SELECTION_H
#define SEAMWRIGHT_SELECTION_H

#include "driver.h"
#include "render.h"

/* ensures: what the options choose; or false, and a message that names what
 * there is. requires: plans. */
bool select_outputs(const struct compiled *compiled,
                    const struct options *options, struct selection *selection);

/* Paper follows the units unless it is chosen: centimetres are sewn where A4 is
 * sold. */
bool paper_is_a4(const struct compiled *compiled,
                 const struct options *options);

/* Where build writes: -o, or the source's name without folder and ending. */
const char *output_folder(struct arena *arena, const struct options *options);

/* Whether SOURCE_DATE_EPOCH can be the date of a file. ensures: told where not.
 */
bool date_holds(struct arena *arena);

#endif
