/* Boxes become pages. A box that does not fit goes to the next page, and takes
 * with it those before it that want to stay with it. */
#ifndef SEAMWRIGHT_FLOW_H
#define SEAMWRIGHT_FLOW_H

#include "box.h"
#include "phrase.h"

struct flow {
    struct canvas canvas;
    struct book *book;          /* gets pages and bookmarks */
    double margin, top, bottom; /* of the page, in points */
    LIST(struct box *) boxes;   /* in the order of reading */
    const struct box *icon;     /* beside heads of sections, or NULL */
    const char *foot;           /* at the left below each page but the cover */
    bool uncovered;             /* there is no cover: page 1 has a foot, too */
    const struct phrases *phrases; /* for the number of a page */
};

struct flow flow_for(struct arena *arena, struct typeset *typeset,
                     struct book *book);
/* Adds a box under the last one. */
struct box *flow_add(struct flow *flow, struct box *box, double space_before);
/* The canvas of one of two columns. Boxes that are made on it are marked
 * `half`; those in a row fill the left column to its end, then the right one.
 */
struct canvas flow_column(const struct flow *flow);
/* Free height of one page. */
double flow_page_height(const struct flow *flow);
/* The page on which the last box that was added will be, from 1, and the free
 * height behind it. */
struct flow_end {
    size_t page;
    double room;
};
struct flow_end flow_end(struct flow *flow);
/* Puts all boxes on pages, and the foot and page number on each. */
void flow_finish(struct flow *flow);

/* A heading that stays with what follows and gets a bookmark; `lead` is a
 * sentence below it, or "". The box is not added. */
struct box *flow_head(const struct flow *flow, const char *title,
                      const char *lead, bool new_page);
/* Adds one. */
void flow_section(struct flow *flow, const char *title, const char *lead,
                  bool new_page);
void flow_heading(struct flow *flow, const char *title);
#endif
