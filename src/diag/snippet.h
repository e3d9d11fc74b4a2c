/* owner: diag
 *
 * The source line below a message, with the place in it pointed at.
 */
#ifndef SEAMWRIGHT_DIAG_SNIPPET_H
#define SEAMWRIGHT_DIAG_SNIPPET_H

#include <stdbool.h>

#include "buffer.h"
#include "source.h"

#define STYLE_CARET "\033[1;32m" /* green */
#define STYLE_OFF "\033[0m"

struct snippet {
    const struct source *source;
    struct span span;
    const char *label; /* behind the carets, or NULL */
    bool color;
};

/* Adds the line that holds the start of the span, and the carets below it.
 * Neither is wider than 100 columns, and the work does not grow with the
 * length of the line. */
void add_snippet(struct buffer *buffer, const struct snippet *snippet);

#endif
