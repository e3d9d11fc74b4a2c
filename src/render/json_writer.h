/* A small writer of JSON with stable key order. */
#ifndef SEAMWRIGHT_JSON_WRITER_H
#define SEAMWRIGHT_JSON_WRITER_H

#include <stdbool.h>

#include "buffer.h"
#include "length.h"

struct json {
    struct buffer out;
    int depth;
    bool first; /* nothing was written at this depth yet */
};

/* `key` is NULL inside an array. */
void json_open(struct json *json, const char *key, char bracket);
void json_close(struct json *json, char bracket);
void json_text(struct json *json, const char *key, const char *text);
/* A length in full, "2 1/2" or "6√2". ensures: beside one that is no fraction of
 * 64 bits, the nearest on a ruler as KEYOnRuler, "8 1/2". */
void json_length(struct json *json, const char *key, struct rational value,
                 enum length_unit unit);
void json_number(struct json *json, const char *key, size_t number);
void json_flag(struct json *json, const char *key, bool flag);
/* Text that is JSON already. */
void json_raw(struct json *json, const char *key, const char *raw);

#endif
