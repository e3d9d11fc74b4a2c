/* For those who make contents: adding to them, and what several sections tell,
 * so that none contradicts another. */
#ifndef SEAMWRIGHT_CONTENTS_H
#define SEAMWRIGHT_CONTENTS_H

#include "content.h"

/* ---- lists of texts ---- */

struct texts {
    LIST(const char *) items;
};

/* The text is not copied. */
void texts_add(const struct wording *w, struct texts *texts, const char *text);
/* The same, where it is not there yet. */
void texts_add_once(const struct wording *w, struct texts *texts,
                    const char *text);
/* "A, B and C"; "" for none. */
const char *texts_listed(const struct wording *w, const struct texts *texts);

/* ---- adding ---- */

/* `title` and the like are not copied. The heading of level 1 has the lead. */
void add_heading(const struct wording *w, struct contents *contents,
                 enum content_part part, const char *title);
void add_title(const struct wording *w, struct contents *contents,
               const char *title, const char *lead);
/* Plain words. */
void add_paragraph(const struct wording *w, struct contents *contents,
                   enum content_part part, const char *text);
/* Items without labels. ensures: the list, good until the next is added. */
struct told_list *add_list(const struct wording *w, struct contents *contents,
                           enum content_part part, const struct texts *texts);
/* ensures: the figure, to add labels to; good until the next is added. */
struct told_figure *add_figure(const struct wording *w,
                               struct contents *contents,
                               enum content_part part,
                               struct told_figure figure);

void add_table(const struct wording *w, struct contents *contents,
               enum content_part part, struct told_table table);
/* The list of the booklet's sections stands here. */
void add_sections(const struct wording *w, struct contents *contents);

/* ensures: a step, to add to; good until the next is added. */
struct told_work *add_work(const struct wording *w, struct contents *contents,
                           enum content_part part, size_t number,
                           const char *title);
/* ensures: a cloth to be cut, to add to; good until the next is added. */
struct told_cloth *add_cloth(const struct wording *w,
                             struct contents *contents);
/* Squares to measure a print by. */
void add_squares(const struct wording *w, struct contents *contents);
/* The signs of the figures of the wording's quilt. */
void add_legend(const struct wording *w, struct contents *contents);

/* ---- cells ---- */

void add_column(const struct wording *w, struct told_table *table,
                enum column_kind kind, const char *head);
/* ensures: an empty row, good until the next is added. */
struct told_row *add_row(const struct wording *w, struct told_table *table);
/* Plain words. ensures: the cell, good until the next is added. */
struct told_cell *add_words_cell(const struct wording *w, struct told_row *row,
                                 const char *text);
/* A cloth with its name, and its code below. */
void add_cloth_cell(const struct wording *w, struct told_row *row,
                    const struct colorway *colorway, int fabric);

/* ---- what several sections tell ---- */

/* ensures: how many sewn blocks the quilt has. */
size_t blocks_counted(const struct wording *w);
/* ensures: how many pieces are cut for the center. */
size_t pieces_cut(const struct wording *w, const struct cutplan *plan);
/* ensures: each sewn block with its count and size. */
struct texts blocks_made(const struct wording *w);
/* The first sewn block, and the next of another name; NULL where there is none.
 */
const struct heap *sewn_block(const struct wording *w, size_t number);
/* ensures: "half-square triangles", ..., as the quilt uses them; perhaps none.
 */
struct texts techniques_used(const struct wording *w);
struct texts tools_needed(const struct wording *w);
/* "For a confident sewer"; "" where no skill is stated. */
const char *skill_text(const struct wording *w);
/* How close the batting of a plan asks to be quilted. */
const char *batting_words(const struct wording *w, const struct cutplan *plan);
/* Heading, table and notes of what is bought. */
void add_materials(const struct wording *w, struct contents *contents,
                   const struct cutplan *plan);

#endif
