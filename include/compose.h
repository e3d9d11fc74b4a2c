/* owner: book
 *
 * One sewn quilt and its cutting plan become a booklet.
 */
#ifndef SEAMWRIGHT_COMPOSE_H
#define SEAMWRIGHT_COMPOSE_H

#include "book.h"
#include "claims.h"
#include "compare.h"
#include "cutplan.h"
#include "phrase.h"
#include "typeset.h"

/* What a booklet is made for, as bits. */
enum book_form {
    FORM_LETTER = 0,
    FORM_A4 = 1,
    FORM_GREY = 2,   /* finished cloth is hatched, for print without color */
    FORM_PREVIEW = 4 /* cover, page 2 and first step: for a shop */
};

/* ensures: the pages in the phrases' language; `form` holds bits of book_form.
 */
struct book *compose_book(struct arena *arena, struct typeset *typeset,
                          const struct phrases *phrases,
                          const struct design *design,
                          const struct cutplan *plan, unsigned form);

/* ensures: the packet for a tester of that booklet. */
struct book *compose_proof(struct arena *arena, struct typeset *typeset,
                           const struct phrases *phrases,
                           const struct design *design,
                           const struct cutplan *plan, unsigned form,
                           struct testers testers);
/* On which page of a booklet something stands: the name by which links lead
 * there, and the page's label. */
struct place_page {
    const char *place, *page;
};
struct booklet_pages {
    const struct cutplan *plan; /* of the booklet */
    LIST(struct place_page) places;
};
/* ensures: all places of the book, in the arena, which may outlive it. */
struct booklet_pages find_pages(struct arena *arena, const struct book *book,
                                const struct cutplan *plan);

/* ensures: the errata sheet of two revisions, for those who hold the old one:
 * who is concerned, what to do from where one is, and what changed. `form`
 * holds FORM_A4 or not. requires: something changed. */
struct book *compose_errata(struct arena *arena, struct typeset *typeset,
                            const struct phrases *phrases,
                            const struct comparison *comparison,
                            unsigned form);

/* A figure of the booklet by itself: the same box, on one page of its size.
 * Names are `quilt`, `unit-ID` and `block-ID` (finished cloth), `step-N` (all
 * figures of a step), `cutting-A` and `cutting-A-3` (a cloth, a line of it);
 * where quilting is planned `quilting`, `quilting-STAGE`, `quilting-area-a`,
 * `quilting-area-a-sequence` and `quilting-gaps`. */
struct named_figure {
    const char *name, *title;
    const struct book *book;
};
struct figures {
    LIST(struct named_figure) items; /* no name stands twice */
};
/* ensures: all of them, in the order of the booklet; its paper sets the sizes.
 */
struct figures compose_figures(struct arena *arena, struct typeset *typeset,
                               const struct phrases *phrases,
                               const struct design *design,
                               const struct cutplan *plan, unsigned form);
/* ensures: only `quilting-gaps`, where the quilting is refused and nothing else
 * can be drawn. */
struct figures compose_gaps(struct arena *arena, struct typeset *typeset,
                            const struct phrases *phrases,
                            const struct design *design,
                            const struct quilting_plan *quilting,
                            const struct colorway *colorway);
/* ensures: the figure of that name, or NULL. */
const struct named_figure *compose_figure(const struct figures *figures,
                                          const char *name);

#endif
