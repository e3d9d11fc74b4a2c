/* owner: book
 *
 * Text measured and drawn with the project's own fonts and no others, so that
 * a page is the same on every machine. The only place that knows Pango.
 */
#ifndef SEAMWRIGHT_TYPESET_H
#define SEAMWRIGHT_TYPESET_H

#include "book.h"

struct typeset;
struct font; /* design.h */
typedef struct _cairo cairo_t;

/* ensures: a typesetter over the bundled fonts, which lie inside the program
 * itself; no file of the machine is read. */
struct typeset *typeset_create(void);
/* The same, with the designer's own face for FACE_DISPLAY, or NULL: its
 * capitals become as high as those of the bundled one, and a text that it lacks
 * a letter of is set in that. The font must outlive the typesetter. */
struct typeset *typeset_create_with(const struct font *display);
/* Frees it, and what Cairo and Fontconfig keep for the whole process.
 * requires: no other typesetter and nothing made by Cairo is alive. */
void typeset_destroy(struct typeset *typeset);

struct text_extent {
    double width, height; /* logical size in points */
    double baseline;      /* of the first line, from the top */
    int lines;
};

/* A line is 1.3 times the size high, whatever stands in it, and digits and
 * capitals stand in its middle. */

/* Measures `text` set in `style`, wrapped at `width` points (0: not). */
struct text_extent typeset_measure(struct typeset *typeset, const char *text,
                                   struct text_style style, double width);

/* Where a byte of a text stands, from the top left of its box, and the byte
 * at which its line ends. */
struct text_place {
    double x, y; /* y is the top of the line */
    size_t line_end;
};
/* requires: `at` is the first byte of a character of `text`. */
struct text_place typeset_place(struct typeset *typeset, const char *text,
                                struct text_style style, double width,
                                size_t at);

/* How many characters of `text` no bundled font has; they would print as
 * boxes. */
int typeset_missing_glyphs(struct typeset *typeset, const char *text);

/* One line of a text item as typeset_draw sets it, seen from the item's place
 * and before it is turned. */
struct text_line {
    const char *text; /* not ended by NUL; a blank at the end belongs to it */
    size_t length;
    double x, baseline; /* where the pen begins */
    double width;       /* without blanks at the end */
    /* The white plate behind it; no width where nothing is printed. */
    double plate_x, plate_y, plate_width, plate_height;
};

/* ensures: the lines of the item, in the arena, and how many there are. */
const struct text_line *typeset_lines(struct typeset *typeset,
                                      struct arena *arena,
                                      const struct text_item *text,
                                      size_t *count);

/* How far below the top of a line its baseline lies, for a size of 1. */
double typeset_baseline(void);

/* Draws a text item onto a cairo context (used by the back ends). */
void typeset_draw(struct typeset *typeset, cairo_t *cairo,
                  const struct text_item *text);

#endif
