/* The quilting of one quilt in the data. */
#ifndef SEAMWRIGHT_QUILTING_JSON_H
#define SEAMWRIGHT_QUILTING_JSON_H

#include "json_writer.h"
#include "quilting.h"
#include "wording.h"

/* Writes the object `quilting`. */
void write_quilting(struct json *json, const struct wording *w,
                    const struct quilting_plan *plan);

/* A length in floating point, rounded, as text: "12.346". */
const char *decimal_text(struct arena *arena, double length, int places);

#endif
