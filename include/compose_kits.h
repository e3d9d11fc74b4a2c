/* owner: book
 *
 * A planned order becomes papers, each a book of its own: who fetches, who cuts
 * and who packs take their own sheets, costs stay with the owner, and labels go
 * into the printer on other stock.
 */
#ifndef SEAMWRIGHT_COMPOSE_KITS_H
#define SEAMWRIGHT_COMPOSE_KITS_H

#include "book.h"
#include "kit_papers.h"
#include "typeset.h"

/* requires: `kits` outlive the book. `a4`: the paper; labels have that of their
 * sheet. ensures: the pages in the phrases' language; NULL where the order has
 * nothing for such a paper: no labels. */
struct book *compose_kit_paper(struct arena *arena, struct typeset *typeset,
                               const struct phrases *phrases,
                               const struct kits *kits, enum kit_paper paper,
                               bool a4);

#endif
