/* Drawing a page of items with Cairo, the same for every back end. */
#ifndef SEAMWRIGHT_DRAW_H
#define SEAMWRIGHT_DRAW_H

#include <cairo.h>

#include "book.h"
#include "typeset.h"

/* Draws all items of the page, in order, in points from the top left corner.
 * Tags are passed on; a surface without structure ignores them. A mistake
 * stays in cairo_status. */
void draw_page(cairo_t *cairo, struct typeset *typeset,
               const struct page *page);

/* ensures: NULL where all is well, else the library's words. Ends the program
 * where there is no memory. */
const char *drawing_problem(cairo_status_t status);

#endif
