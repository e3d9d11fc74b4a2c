#include "buffer.h"

#include <string.h>

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

void buffer_printf(struct buffer *buffer, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    buffer_text(buffer, arena_vprintf(buffer->arena, format, arguments));
    va_end(arguments);
}

void buffer_json(struct buffer *buffer, const char *text)
{
    buffer_char(buffer, '"');
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '"' || *c == '\\')
            buffer_printf(buffer, "\\%c", *c);
        else if ((unsigned char)*c < 0x20)
            buffer_printf(buffer, "\\u%04x", (unsigned)(unsigned char)*c);
        else
            buffer_char(buffer, *c);
    }
    buffer_char(buffer, '"');
}

const char *buffer_string(const struct buffer *buffer)
{
    return buffer->bytes == NULL ? "" : buffer->bytes;
}
