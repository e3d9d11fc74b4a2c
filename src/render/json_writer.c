/* No state but a depth and a flag; the caller closes what it opens. Keys come
 * in the order of the calls, so files can be compared as text. */
#include "json_writer.h"

/* A comma after what came before, a line of its own, the key. */
static void begin(struct json *json, const char *key)
{
    if (!json->first)
        buffer_char(&json->out, ',');
    if (json->out.length > 0) {
        buffer_char(&json->out, '\n');
        for (int i = 0; i < json->depth; i++)
            buffer_text(&json->out, "  ");
    }
    json->first = false;
    if (key != NULL) {
        buffer_json(&json->out, key);
        buffer_text(&json->out, ": ");
    }
}

/* `bracket` is { or [; the caller closes with its mate. */
void json_open(struct json *json, const char *key, char bracket)
{
    begin(json, key);
    buffer_char(&json->out, bracket);
    json->depth++;
    json->first = true;
}

/* An empty object or array stays on one line. */
void json_close(struct json *json, char bracket)
{
    json->depth--;
    if (!json->first) {
        buffer_char(&json->out, '\n');
        for (int i = 0; i < json->depth; i++)
            buffer_text(&json->out, "  ");
    }
    buffer_char(&json->out, bracket);
    json->first = false;
}

void json_text(struct json *json, const char *key, const char *text)
{
    begin(json, key);
    buffer_json(&json->out, text);
}

/* Programs that want no roots take the second key. It is there only where the
 * first is no fraction, so that all other data are as they ever were. */
void json_length(struct json *json, const char *key, struct rational value,
                 enum length_unit unit)
{
    struct arena *arena = json->out.arena;
    json_text(json, key, length_exact(arena, value, unit));
    if (rational_known(value) && !rational_is_fraction(value))
        json_text(json, arena_printf(arena, "%sOnRuler", key),
                  length_on_ruler(arena, value, unit));
}

/* Counts only. Lengths go through json_text, as they are fractions. */
void json_number(struct json *json, const char *key, size_t number)
{
    begin(json, key);
    buffer_printf(&json->out, "%zu", number);
}

void json_flag(struct json *json, const char *key, bool flag)
{
    begin(json, key);
    buffer_text(&json->out, flag ? "true" : "false");
}

/* requires: valid JSON. Its own lines are not indented anew. */
void json_raw(struct json *json, const char *key, const char *raw)
{
    begin(json, key);
    buffer_text(&json->out, raw);
}
