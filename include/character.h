/* owner: base
 *
 * One character of UTF-8 text: how many bytes it takes, how many columns, and
 * how it is shown on a terminal that must not be led astray by it.
 */
#ifndef SEAMWRIGHT_CHARACTER_H
#define SEAMWRIGHT_CHARACTER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "buffer.h"

struct character {
    uint32_t code; /* Unicode scalar value; the byte where malformed */
    unsigned size; /* bytes taken, at least 1 */
    bool malformed;
};

/* requires: length > 0. ensures: the character at the start of `bytes`; a
 * byte that starts no well-formed sequence (RFC 3629) is one by itself. */
struct character character_at(const char *bytes, size_t length);

/* How many characters the bytes are. */
size_t character_count(const char *bytes, size_t length);

/* The columns it takes as written: 0, 1 or 2. Tabs are the caller's affair. */
size_t character_width(struct character c);

/* True where it would act on the terminal, or on the reader's eye, instead of
 * being seen: controls, bidirectional marks, invisible format characters. */
bool character_hidden(struct character c);

/* True for controls and the separators of lines and paragraphs: one line of
 * text has none of them. */
bool character_breaks(struct character c);

/* Adds it as it is shown: hidden ones as U+XXXX, malformed bytes as U+FFFD. */
void add_shown(struct buffer *buffer, const char *bytes, struct character c);

/* Adds the whole text as it is shown, which is one line. */
void add_shown_text(struct buffer *buffer, const char *text);

/* The columns that add_shown and add_shown_text take. */
size_t shown_width(struct character c);
size_t shown_text_width(const char *text);

#endif
