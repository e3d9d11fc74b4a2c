/* owner: book
 *
 * One sewn quilt and its cutting plan become a booklet.
 */
#ifndef SEAMWRIGHT_COMPOSE_H
#define SEAMWRIGHT_COMPOSE_H

#include "book.h"
#include "cutplan.h"
#include "typeset.h"

/* ensures: the pages, on A4 or on US letter paper. */
struct book *compose_book(struct arena *arena, struct typeset *typeset,
                          const struct design *design,
                          const struct cutplan *plan, bool a4);

#endif
