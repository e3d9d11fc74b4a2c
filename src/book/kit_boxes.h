/* Papers of an order, put together from what the booklet is made of. Begin with
 * kit_papers.c. */
#ifndef SEAMWRIGHT_KIT_BOXES_H
#define SEAMWRIGHT_KIT_BOXES_H

#include "compose_kits.h"
#include "place.h"

/* A booklet has what placers ask for; one of an order has no design. */
struct kit_book {
    struct booklet booklet;
    const struct kits *kits;
};

/* The bar of a roll, its caption above. */
struct box *kit_roll_box(struct kit_book *book,
                         const struct told_figure *figure);
/* A card of the shelf. */
struct box *kit_card_box(struct kit_book *book,
                         const struct contents *contents);
/* The outlines of a sheet, on a page of their own. requires: labels. */
void add_label_outlines(struct kit_book *book);
/* Pages of labels, without feet. requires: labels. */
void put_labels(struct kit_book *book);

#endif
