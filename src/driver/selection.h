/* --quilt and --colorway. */
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

#endif
