/* owner: tell
 *
 * The designer's own words, their references filled with what this booklet's
 * quilt is. Part of the booklet's words for facts; kept apart from wording.c,
 * which has sentences of ours. */
#ifndef SEAMWRIGHT_WORDS_H
#define SEAMWRIGHT_WORDS_H

#include "wording.h"

/* `heap` is the one that the words stand with, or NULL: a size that the quilt
 * has in several is the one in that heap. ensures: one line of text; "" for
 * `words` NULL. */
const char *word_words(const struct wording *w, const struct colorway *colorway,
                       const struct words *words, const struct heap *heap);

#endif
