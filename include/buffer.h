/* owner: base
 *
 * Text that grows in an arena, for everything that is written as bytes.
 */
#ifndef SEAMWRIGHT_BUFFER_H
#define SEAMWRIGHT_BUFFER_H

#include "arena.h"

struct buffer {
    struct arena *arena;
    char *bytes; /* NUL-terminated once anything was added */
    size_t length;
    size_t capacity;
};

struct buffer buffer_in(struct arena *arena);
void buffer_add(struct buffer *buffer, const char *bytes, size_t length);
void buffer_text(struct buffer *buffer, const char *text);
void buffer_char(struct buffer *buffer, char c);
void buffer_printf(struct buffer *buffer, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Adds the text as a JSON string, quotes included (RFC 8259). What a terminal
 * would act on is escaped, which tells a program the same; bytes that are no
 * UTF-8 have no place in JSON and become U+FFFD. */
void buffer_json(struct buffer *buffer, const char *text);
/* ensures: the text so far, never NULL. */
const char *buffer_string(const struct buffer *buffer);

#endif
