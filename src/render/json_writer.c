#include "json_writer.h"

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

void json_open(struct json *json, const char *key, char bracket)
{
    begin(json, key);
    buffer_char(&json->out, bracket);
    json->depth++;
    json->first = true;
}

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

void json_raw(struct json *json, const char *key, const char *raw)
{
    begin(json, key);
    buffer_text(&json->out, raw);
}
