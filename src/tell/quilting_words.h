/* What the section on quilting calls lines, lengths and threads. Texts lie in
 * the wording's arena. */
#ifndef SEAMWRIGHT_QUILTING_WORDS_H
#define SEAMWRIGHT_QUILTING_WORDS_H

#include "contents.h"

/* A length that was measured: to 1/8 in, from 20 in on to whole inches; or to
 * millimetres and centimetres. */
const char *word_measured(const struct wording *w, double length);
/* A distance that was told, to 1/64 in or 1/10 mm. */
const char *word_apart(const struct wording *w, double length);
/* Of thread, as shops sell it, never less. */
const char *word_thread_length(const struct wording *w, double length);

/* "Extended seams: Star, Reed" */
const char *word_line_of(const struct wording *w,
                         const struct quilting_plan *plan,
                         const struct told_item *item);
/* "grid, 1 in apart"; what a kind of area is filled with. */
const char *word_filler(const struct wording *w,
                        const struct quilted_kind *kind);
/* "ruler, 1 in from the seam"; how a row of lines is found. */
const char *word_found(const struct wording *w, const struct quilted_row *row);
/* "color of Still water", or the spool that a colorway names for it. */
const char *word_thread_color(const struct wording *w,
                              const struct quilting_plan *plan, size_t colorway,
                              size_t thread);

/* ---- parts of the section ---- */

/* What is told, of which plan, in which colorway. */
struct teller {
    const struct wording *w;
    struct contents *contents;
    const struct cutplan *cut;
    const struct quilting_plan *plan;
    size_t colorway; /* its index */
};

/* Swirls and pebbles alone leave no line that must be found. */
bool quilting_has_lines(const struct quilting_plan *plan);
/* As word_found, and where the first of lines begins that are found from each
 * other. */
const char *quilting_found(const struct teller *t,
                           const struct quilted_row *row);
/* Which areas have no figure of their path, and why; "" for none. */
const char *quilting_plain_areas(const struct teller *t);
/* Size and spaces; what to take care of. Both are added under their headings. */
void quilting_add_facts(const struct teller *t);
void quilting_add_cautions(const struct teller *t);

#endif
