/* What two revisions are compared by: how a cloth comes out, which way seams
 * go, the designer's own words. */
#ifndef SEAMWRIGHT_JSON_CLOTH_H
#define SEAMWRIGHT_JSON_CLOTH_H

#include "json_writer.h"
#include "wording.h"

/* "result": a digest of the faces, in whatever order they were sewn: 32
 * hexadecimal digits. */
void write_result(struct json *json, const struct design *design,
                  const struct cloth *cloth);
/* "faces": each as "FABRIC X,Y X,Y ...", where there are not too many to
 * be drawn. */
void write_faces(struct json *json, const struct wording *w,
                 const struct cloth *cloth);
/* "pressed": where the seams of an action go, in their order; what goes on the
 * same way is told once. */
void write_pressed(struct json *json, const struct action *action);
/* "seams": each as "WAY X,Y X,Y", where there are not too many to be drawn. */
void write_seams(struct json *json, const struct action *action);
/* "says": the designer's words with the step; a reference stands as "{qty}",
 * "{size}" or "{cloth}", as what it tells is told elsewhere. */
void write_says(struct json *json, const struct heap *heap);
/* ensures: the words with their references so. */
const char *plain_words(struct arena *arena, const struct words *words);
/* ensures: 16 hexadecimal digits for the bytes of all that only adorns: photo,
 * logo, display face, accent, paper, language. */
const char *looks_digest(struct arena *arena, const struct design *design);

#endif
