/* What is asked before anything is bought: what there is to make, by what
 * techniques, with which tools, from which cloths. Cover, page 2 and back cover
 * tell it by the same functions, so that none contradicts another. */
#ifndef SEAMWRIGHT_SHOP_H
#define SEAMWRIGHT_SHOP_H

#include "section.h"

struct texts {
    LIST(const char *) items;
};

/* ensures: each sewn block with its count and size. */
struct texts blocks_made(const struct booklet *booklet);
/* ensures: how many sewn blocks the quilt has. */
size_t blocks_counted(const struct booklet *booklet);
/* ensures: how many pieces are cut for the center. */
size_t pieces_cut(const struct booklet *booklet);
/* ensures: "half-square triangles", ..., as the quilt uses them; perhaps none.
 */
struct texts techniques_used(const struct booklet *booklet);
struct texts tools_needed(const struct booklet *booklet);
/* "A, B and C"; "" for none. */
const char *texts_listed(const struct wording *w, const struct texts *texts);

/* A list with dashes; `width` points wide. */
struct box *texts_box(const struct canvas *canvas, const struct texts *texts,
                      double width);
/* A heading of the second rank, and what it heads, below it. */
struct box *headed_box(const struct canvas *canvas, const char *title,
                       struct text_style style, struct box *below);

/* The first sewn block, and the next of another name; NULL where there is none.
 */
const struct heap *sewn_block(const struct booklet *booklet, size_t number);

/* A row of a table: cells side by side, a line below. Cells are boxes with
 * their own text; `tag` is TD, or TH in the head. */
struct row {
    struct box *box;
    double x; /* where the next cell begins */
};
struct row row_begin(const struct canvas *canvas, double width);
/* Text in a cell; "" leaves it empty. */
void row_text(const struct canvas *canvas, struct row *row, double width,
              const char *text, struct text_style style, bool head);
/* Swatch with its letter, the cloth's name and behind it, or below where there
 * is no room, its code; the swatch stands above the name in a narrow cell. */
void row_cloth(const struct canvas *canvas, struct row *row, double width,
               const struct colorway *colorway, int fabric,
               struct text_style name);
/* An amount in bold, and below it what others need in its place. */
void row_amount(const struct canvas *canvas, struct row *row, double width,
                const char *amount, const struct texts *others);
struct box *row_end(const struct canvas *canvas, const struct row *row,
                    bool head);
/* Rows as one box, a table of its own. */
struct box *table_box(const struct canvas *canvas, struct box *const *rows,
                      size_t count);

#endif
