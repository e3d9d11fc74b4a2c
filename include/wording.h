/* owner: book
 *
 * Facts of the sewn quilt as words: names of what is made, sizes, directions.
 * Shared by the booklet and the tables.
 */
#ifndef SEAMWRIGHT_WORDING_H
#define SEAMWRIGHT_WORDING_H

#include "cutplan.h"
#include "phrase.h"

struct wording {
    struct arena *arena;
    const struct design *design;
    const struct sewn_quilt *quilt;
    bool glyphs; /* "2½" for a page, else "2 1/2" */
    const struct phrases *phrases; /* the language */
};

/* "2½", and "6½ × 2½" or "2½ square". */
const char *word_length(const struct wording *w, struct rational value);
const char *word_size(const struct wording *w, struct rational width,
                      struct rational height);
/* With the unit behind it: "6½ × 2½ in". */
const char *word_size_unit(const struct wording *w, struct rational width,
                           struct rational height);
const char *word_unit(const struct wording *w); /* "in" or "cm" */

/* What is made: "Wing", "Wing (mirrored)", "A1 with corners B2". */
const char *word_heap(const struct wording *w, size_t heap);
/* The short name in figures and lists of parts: "A1", "Wing", "(4)". */
const char *word_part(const struct wording *w, size_t heap);
/* The shortest name: "A1", or the number of the step that made it, "(4)". */
const char *word_mark(const struct wording *w, size_t heap);
/* "Make 4." */
const char *word_make(const struct wording *w, size_t count);

/* What the hands do in one action, as short sentences. */
const char *word_action(const struct wording *w, const struct heap *heap,
                        const struct action *action);
/* "Press towards the darker cloth, Night sky." */
const char *word_press(const struct wording *w, const struct heap *heap,
                       const struct action *action);
/* The size to measure afterwards. */
const char *word_measure(const struct wording *w, const struct heap *heap);
/* "runs from the bottom left to the top right (rising)" */
const char *word_line(const struct wording *w, enum line_direction line);

/* How often each distinct input is taken for one: "4 × A1, 1 × Wing". */
const char *word_parts(const struct wording *w, const struct heap *heap);

#endif
