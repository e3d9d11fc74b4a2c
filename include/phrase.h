/* owner: tell
 *
 * Wording: the sentences of a language, from templates/wording/LANGUAGE.txt.
 *
 * A file holds `key: sentence` lines; a line that begins with blanks goes on
 * with the one before it, `#` begins a comment. `{name}` stands for a value,
 * `{name|one|many}` for the form that goes with the number `name`. Which form
 * that is tells the line `plural: n=1` (the first form for 1 alone) or `plural:
 * n<2` (for 0 and 1).
 */
#ifndef SEAMWRIGHT_PHRASE_H
#define SEAMWRIGHT_PHRASE_H

#include <stdbool.h>

#include "arena.h"

struct phrases;

/* The languages there are wordings for, ended by NULL: "en", ... */
const char *const *phrase_languages(void);

/* requires: one of those languages; a template that cannot be read is a fault of
 * ours. */
const struct phrases *phrases_load(struct arena *arena, const char *language);

/* "en" */
const char *phrases_language(const struct phrases *phrases);

/* The sentence of a key, filled with pairs of name and text, ended by NULL:
 * say(arena, phrases, "cut.strips", "count", "4", "height", "2½ in", NULL). A
 * key or a name that is not there is a fault of ours. */
const char *say(struct arena *arena, const struct phrases *phrases,
                const char *key, ...);

/* ensures: a number as text, for `say`. */
const char *say_count(struct arena *arena, size_t count);

/* For tests: all keys in the order of the file; the sentence as it is written. */
size_t phrases_count(const struct phrases *phrases);
const char *phrases_key(const struct phrases *phrases, size_t index);
const char *phrases_text(const struct phrases *phrases, size_t index);

#endif
