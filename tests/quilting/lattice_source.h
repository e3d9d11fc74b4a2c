/* Sources of tops to quilt, as large as is asked for: the top of lattice_top.h
 * as a designer writes it. A block is pieced where its row and column in the
 * setting are even together, and plain between, so that the seams of the one go
 * on through the other. Pieced blocks are 7 x 7 squares with both diagonals. */
#ifndef SEAMWRIGHT_TESTS_QUILTING_LATTICE_SOURCE_H
#define SEAMWRIGHT_TESTS_QUILTING_LATTICE_SOURCE_H

#include <string.h>

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

/* A star of half-squares and patches on plain cloth, 12 wide, and plain cloth.
 */
static inline void star_blocks(struct buffer *text)
{
    buffer_text(
        text,
        "<block id=\"star\" grid=\"8\"><grid across=\"8\" down=\"8\">"
        "<patch key=\"n\" fabric=\"night\"/>"
        "<patch key=\"f\" fabric=\"flame\"/><patch key=\"g\" "
        "fabric=\"glow\"/>"
        "<half-square key=\"r\" line=\"rising\" left=\"night\" "
        "right=\"flame\"/>"
        "<half-square key=\"s\" line=\"rising\" left=\"flame\" "
        "right=\"night\"/>"
        "<half-square key=\"t\" line=\"falling\" left=\"night\" "
        "right=\"flame\"/>"
        "<half-square key=\"u\" line=\"falling\" left=\"flame\" "
        "right=\"night\"/><map>"
        "n n r u t s n n\nn r f g g f u n\nr f g f f g f u\nt g f g g f g s\n"
        "r g f g g f g u\nt f g f f g f s\nn t f g g f s n\nn n t s r u n n\n"
        "</map></grid></block>\n<block id=\"plain\" width=\"12\" "
        "height=\"12\"><patch fabric=\"night\"/></block>\n");
}

/* The quilt of `across` by `down` blocks and what is told of its quilting; a
 * border of glow or none. */
static inline void lattice_quilt(struct buffer *text, const char *block,
                                 size_t across, size_t down, bool bordered,
                                 const char *quilting)
{
    buffer_printf(text,
                  "<quilt id=\"q\"><grid across=\"%zu\" down=\"%zu\">"
                  "<use key=\"s\" block=\"%s\" finished=\"%s\"/>"
                  "<use key=\"o\" block=\"plain\"/><map>",
                  across, down, block,
                  strcmp(block, "star") == 0 ? "12" : "14");
    for (size_t row = 0; row < down; row++)
        for (size_t column = 0; column < across; column++)
            buffer_printf(text, "%c%c", (row + column) % 2 == 0 ? 's' : 'o',
                          column + 1 == across ? '\n' : ' ');
    buffer_printf(text, "</map></grid>%s%s</quilt>",
                  bordered ? "<border fabric=\"glow\" width=\"6\"/>" : "",
                  quilting);
}

#endif
