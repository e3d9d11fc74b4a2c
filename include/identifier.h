/* owner: base
 *
 * Identifiers: the names by which the parts of a pattern name each other.
 *
 * Letters and digits of any script with - _ and . between, a letter first, in
 * Unicode normalization form C (UAX 15). General categories are those of the
 * Unicode Character Database, as GLib has them. Letters are L*, digits Nd
 * and Nl; marks (Mn, Mc) belong to the letter before them. No format
 * characters, and none of the letters and marks that nothing is drawn for.
 */
#ifndef SEAMWRIGHT_IDENTIFIER_H
#define SEAMWRIGHT_IDENTIFIER_H

#include "arena.h"

/* ensures: how many bytes from the start may stand in an identifier; its length
 * where it is one. */
size_t identifier_length(const char *text);

/* requires: UTF-8. ensures: the text in normalization form C. */
const char *identifier_composed(struct arena *arena, const char *text);

/* requires: UTF-8. ensures: equal for identifiers that a file system that
 * passes over case would hold for one name. */
const char *identifier_folded(struct arena *arena, const char *text);

#endif
