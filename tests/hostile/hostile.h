/* Sources, orders, lists and data that mean harm, or were harmed. Each is made from a seed, its kind
 * and its number alone, so that one that fails can be made again. */
#ifndef SEAMWRIGHT_TESTS_HOSTILE_H
#define SEAMWRIGHT_TESTS_HOSTILE_H

#include <stdbool.h>

#include "../unit.h"
#include "buffer.h"

/* What a file is made from: chance, and sound sources to harm. */
struct making {
    struct arena *arena;
    struct unit_random random;
    const char *const *samples; /* texts of sound sources */
    size_t sample_count;
    const char *const *data; /* and what a build tells of some of them */
    size_t data_count;
};

/* What a file is taken for, which says by what commands it is judged. */
enum hostile_file {
    HOSTILE_SOURCE, /* check and build */
    HOSTILE_LIST,   /* plan */
    HOSTILE_ORDER,  /* check and kit */
    HOSTILE_DATA    /* compare, both ways, with a sound one */
};

typedef void maker(struct making *making, struct buffer *out);

struct kind {
    const char *name;
    maker *make;
    enum hostile_file file;
};

/* ensures: the kinds of the file, and how many. */
const struct kind *harmed_kinds(size_t *count);
const struct kind *invented_kinds(size_t *count);
const struct kind *several_kinds(size_t *count);
const struct kind *order_kinds(size_t *count);
const struct kind *data_kinds(size_t *count);

/* Begins another file that the source includes, or names; behind it stand its
 * name, a line end and its bytes. */
#define FILE_MARK "\n\v\v file "

/* Elements and attributes of the grammar, put together by no rule. */
void random_tree(struct making *making, struct buffer *out, size_t depth);
/* The pattern that orders name, which is sound. */
extern const char order_pattern[];
/* The other side of a comparison. */
#define DATA_SOUND "sound.json"

/* ensures: one of the texts. */
const char *pick(struct making *making, const char *const *texts, size_t count);
#define PICK(making, texts) pick(making, texts, UNIT_COUNT(texts))

/* ensures: a number from 0 to limit - 1. */
size_t below(struct making *making, size_t limit);

/* ensures: a value that no attribute is glad of. */
const char *hostile_value(struct making *making);
/* Words, numbers and lengths, each at an edge of what may be written. */
const char *hostile_number(struct making *making);
const char *hostile_text(struct making *making);
/* A letter again and again, up to the limits of names and beyond. */
const char *long_name(struct making *making);

/* How one file fared. */
struct verdict {
    const char *problem; /* or NULL */
    bool clean;          /* the source was taken without a mistake */
};

/* Runs the program on the file in a folder of its own below `work`, by the
 * commands for what it is, each within SECONDS and, unless it is sanitized,
 * MEGABYTES. */
struct verdict judge(struct arena *arena, const char *program, const char *work,
                     const struct buffer *source, enum hostile_file file);

#endif
