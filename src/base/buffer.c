#include "buffer.h"

#include <stdio.h>
#include <string.h>

#include "character.h"

struct buffer buffer_in(struct arena *arena)
{
    return (struct buffer){.arena = arena};
}

static void buffer_room(struct buffer *buffer, size_t more)
{
    const size_t need = buffer->length + more + 1;
    if (need <= buffer->capacity)
        return;
    const size_t larger = need * 2 < 256 ? 256 : need * 2;
    buffer->bytes =
        arena_grow(buffer->arena, buffer->bytes, buffer->capacity, larger);
    buffer->capacity = larger;
}

void buffer_add(struct buffer *buffer, const char *bytes, size_t length)
{
    buffer_room(buffer, length);
    if (length > 0)
        memcpy(buffer->bytes + buffer->length, bytes, length);
    buffer->length += length;
    buffer->bytes[buffer->length] = '\0';
}

void buffer_text(struct buffer *buffer, const char *text)
{
    buffer_add(buffer, text, strlen(text));
}

void buffer_char(struct buffer *buffer, char c)
{
    buffer_add(buffer, &c, 1);
}

/* Straight into the room that there is; a second time where that was too
 * little. */
void buffer_printf(struct buffer *buffer, const char *format, ...)
{
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    buffer_room(buffer, 0);
    const size_t room = buffer->capacity - buffer->length;
    const int length =
        vsnprintf(buffer->bytes + buffer->length, room, format, arguments);
    if (length >= 0 && (size_t)length >= room) {
        buffer_room(buffer, (size_t)length);
        vsnprintf(buffer->bytes + buffer->length, (size_t)length + 1, format,
                  again);
    }
    if (length > 0)
        buffer->length += (size_t)length;
    buffer->bytes[buffer->length] = '\0';
    va_end(again);
    va_end(arguments);
}

void buffer_json(struct buffer *buffer, const char *text)
{
    buffer_char(buffer, '"');
    for (size_t left = strlen(text); left > 0;) {
        const struct character c = character_at(text, left);
        if (c.code == '"' || c.code == '\\')
            buffer_printf(buffer, "\\%c", (char)c.code);
        else if (character_hidden(c) && c.code > 0xFFFF)
            buffer_printf(buffer, "\\u%04x\\u%04x",
                          (unsigned)(0xD7C0 + (c.code >> 10)),
                          (unsigned)(0xDC00 + (c.code & 0x3FF)));
        else if (character_hidden(c))
            buffer_printf(buffer, "\\u%04x", (unsigned)c.code);
        else
            add_shown(buffer, text, c);
        text += c.size;
        left -= c.size;
    }
    buffer_char(buffer, '"');
}

const char *buffer_string(const struct buffer *buffer)
{
    return buffer->bytes == NULL ? "" : buffer->bytes;
}
