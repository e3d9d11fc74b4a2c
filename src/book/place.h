/* What a section says (content.h) becomes boxes: a placer for each kind of
 * content. Where boxes stand on a page is the section's own matter. */
#ifndef SEAMWRIGHT_PLACE_H
#define SEAMWRIGHT_PLACE_H

#include "section.h"

struct boxes {
    LIST(struct box *) items;
};

/* requires: contents of that kind and part. */
const struct told_heading *heading_of(const struct contents *contents,
                                      enum content_part part);

/* A paragraph with its links, `width` points wide. */
struct box *place_paragraph(const struct canvas *canvas,
                            const struct told_paragraph *paragraph,
                            struct text_style style, double width);
/* With dashes; labels are left out. */
struct box *place_list(const struct canvas *canvas,
                       const struct told_list *list, double width);
/* The first list or paragraph of the part, below its heading. */
struct box *place_part(const struct canvas *canvas,
                       const struct contents *contents, enum content_part part,
                       struct text_style style, double width);
/* A heading of the second rank, as wide as what it heads, and that below it. */
struct box *headed_box(const struct canvas *canvas, const char *title,
                       struct text_style style, struct box *below);

/* How a table with swatches looks. */
struct table_look {
    const double *widths; /* of its columns, gaps included */
    struct text_style cloth;
    bool apart; /* an amount, and others below it, are texts of their own */
};
/* The head first; rows may go on over a page, but not behind the head. */
struct boxes place_rows(const struct canvas *canvas,
                        const struct told_table *table,
                        const struct table_look *look);
/* Rows of words alone, the head first; links stay. */
struct boxes plain_rows(const struct canvas *canvas,
                        const struct told_table *table, const double *widths);
/* Rows as one box, a table of its own. */
struct box *table_box(const struct canvas *canvas, const struct boxes *rows);

#endif
