/* Sources of tops to quilt, as large as is asked for: the top of lattice_top.h
 * as a designer writes it. A block is pieced where its row and column in the
 * setting are even together, and plain between, so that the seams of the one go
 * on through the other. Pieced blocks are 7 x 7 squares with both diagonals. */
#ifndef SEAMWRIGHT_TESTS_QUILTING_LATTICE_SOURCE_H
#define SEAMWRIGHT_TESTS_QUILTING_LATTICE_SOURCE_H

#include "buffer.h"

/* Both blocks, 14 wide. Fabrics are those of resolve/small.h. */
static inline void lattice_blocks(struct buffer *text)
{
    buffer_text(text, "<block id=\"lattice\" grid=\"7\"><grid across=\"7\" "
                      "down=\"7\"><quarter-square key=\"q\" top=\"flame\" "
                      "right=\"glow\" bottom=\"flame\" left=\"glow\"/><map>");
    for (int row = 0; row < 7; row++)
        buffer_text(text, "q q q q q q q\n");
    buffer_text(text, "</map></grid></block>\n<block id=\"plain\" width=\"14\" "
                      "height=\"14\"><patch fabric=\"night\"/></block>\n");
}

/* The quilt of `across` by `down` blocks and what is told of its quilting; a
 * border of glow or none. */
static inline void lattice_quilt(struct buffer *text, size_t across,
                                 size_t down, bool bordered,
                                 const char *quilting)
{
    buffer_printf(text,
                  "<quilt id=\"q\"><grid across=\"%zu\" down=\"%zu\">"
                  "<use key=\"s\" block=\"lattice\" finished=\"14\"/>"
                  "<use key=\"o\" block=\"plain\"/><map>",
                  across, down);
    for (size_t row = 0; row < down; row++)
        for (size_t column = 0; column < across; column++)
            buffer_printf(text, "%c%c", (row + column) % 2 == 0 ? 's' : 'o',
                          column + 1 == across ? '\n' : ' ');
    buffer_printf(text, "</map></grid>%s%s</quilt>",
                  bordered ? "<border fabric=\"glow\" width=\"6\"/>" : "",
                  quilting);
}

#endif
