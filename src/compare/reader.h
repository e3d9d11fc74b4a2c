/* Inside reading data: values of an object, each with what is wrong with it. A
 * value that is not there is "" or 0 or unknown. */
#ifndef SEAMWRIGHT_READER_H
#define SEAMWRIGHT_READER_H

#include <jansson.h>

#include "buffer.h"
#include "compare.h"
#include "name_table.h"

struct reader {
    struct arena *arena;
    struct revision *revision;
    const char *problem; /* the first; NULL for none */
    struct name_table fabrics, quilts; /* by id, those that were read */
    size_t things;                     /* pieces and steps that were read */
};

/* What data of a pattern within the limits have at most, in all quilts. */
enum { THINGS_MOST = 30000 };

/* Notes a problem; the first stays. */
void note_flaw(struct reader *reader, const char *words);
/* Notes an id that stands twice: what is compared by it would be one thing or
 * the other. */
void note_id(struct reader *reader, struct name_table *table, const char *what,
             const char *id, size_t number);
/* Counts another piece or step, and notes too many. */
void note_thing(struct reader *reader);
const char *data_text(struct reader *reader, const json_t *object,
                    const char *key);
const char *data_needed(struct reader *reader, const json_t *object,
                        const char *key);
size_t data_count(struct reader *reader, const json_t *object, const char *key);
struct rational data_length(struct reader *reader, const json_t *object,
                          const char *key);
/* The same of a text that stands under `key`; "" is unknown. */
struct rational length_told(struct reader *reader, const char *key,
                            const char *text);
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
/* Where lines of quilting lie, and what fills its areas. */
void read_quilting(struct reader *reader, const json_t *quilting,
                   struct revision_quilt *quilt);

#endif
