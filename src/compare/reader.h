/* Inside reading data: values of an object, each with what is wrong with it. A
 * value that is not there is "" or 0 or unknown. */
#ifndef SEAMWRIGHT_READER_H
#define SEAMWRIGHT_READER_H

#include <jansson.h>

#include "buffer.h"
#include "compare.h"

struct reader {
    struct arena *arena;
    struct revision *revision;
    const char *problem; /* the first; NULL for none */
};

/* Notes a problem; the first stays. */
void note_flaw(struct reader *reader, const char *words);
const char *data_text(struct reader *reader, const json_t *object,
                    const char *key);
const char *data_needed(struct reader *reader, const json_t *object,
                        const char *key);
size_t data_count(struct reader *reader, const json_t *object, const char *key);
struct rational data_length(struct reader *reader, const json_t *object,
                          const char *key);
void data_size(struct reader *reader, const json_t *object, const char *key,
             struct rational *width, struct rational *height);
const json_t *data_list(struct reader *reader, const json_t *object,
                      const char *key);
int data_fabric(struct reader *reader, const json_t *object, const char *key);
/* ensures: the value as one text that is the same for equal values, without
 * what stands under some keys; `without` ends with NULL, or is NULL. */
const char *data_all(struct reader *reader, const json_t *value,
                   const char *const *without);

/* Adds a quilt to the revision; reads its steps; its colorways. */
void read_quilt(struct reader *reader, const json_t *quilt);
void read_steps(struct reader *reader, const json_t *steps,
                struct revision_quilt *quilt);
void read_colorways(struct reader *reader, const json_t *colorways,
                    struct revision_quilt *quilt);

#endif
