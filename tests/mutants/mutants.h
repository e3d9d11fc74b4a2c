/* The proof of the checker: every sample with one mistake at a time, and what
 * the compiler says of it. */
#ifndef SEAMWRIGHT_TESTS_MUTANTS_H
#define SEAMWRIGHT_TESTS_MUTANTS_H

#include <geos_c.h>

#include "driver.h"

/* Kinds of mistake. */
#define KIND_LIST(X)                                 \
    X(KIND_CORNER, "corner moved to another place")  \
    X(KIND_LINE, "line flipped")                     \
    X(KIND_TURN, "turn changed")                     \
    X(KIND_MIRROR, "mirror added or dropped")        \
    X(KIND_LENGTH, "length off by one cutting step") \
    X(KIND_CLOTH, "cloth width off by one step")     \
    X(KIND_SQUARE, "length off by one grid square")  \
    X(KIND_SWAP, "two fabrics swapped")              \
    X(KIND_FABRIC, "another fabric")                 \
    X(KIND_CHILDREN, "two children swapped")         \
    X(KIND_STEP_MOVED, "step moved")                 \
    X(KIND_STEP_DROPPED, "step dropped")             \
    X(KIND_STEP_DOUBLED, "step doubled")             \
    X(KIND_METHOD, "another method")                 \
    X(KIND_PLAIN, "another plain half")              \
    X(KIND_COUNT, "count off by one")                \
    X(KIND_CELL, "picture cell changed")             \
    X(KIND_POINTS, "goose pointed elsewhere")        \
    X(KIND_DROPPED, "child dropped")                 \
    X(KIND_DOUBLED, "child doubled")                 \
    X(KIND_NAME, "name misspelt")                    \
    X(KIND_MAKE, "step of another name")             \
    X(KIND_MAP, "map word dropped or too many")      \
    X(KIND_USE, "another unit or block")             \
    X(KIND_UNITS, "other units")                     \
    X(KIND_CAST_FABRIC, "another fabric in a cast")  \
    X(KIND_CAST_SWAP, "two casts exchanged")         \
    X(KIND_CAST_DROPPED, "role of a cast left out")  \
    X(KIND_ROLE_NAME, "name in a cast misspelt")     \
    X(KIND_ROLE_OTHER, "another role in a cast")     \
    X(KIND_ROLE_DEFAULT, "another default")          \
    X(KIND_ROLE_KEY, "another key of a role")        \
    X(KIND_ROLE_PIECE, "piece of another role")      \
    X(KIND_OUTER, "outer left out or added")         \
    X(KIND_STONE_DROPPED, "cornerstone dropped")     \
    X(KIND_SASHING_DROPPED, "sashing dropped")       \
    X(KIND_PLAN_NAME, "name in quilting misspelt")   \
    X(KIND_PLAN_FABRIC, "another fabric quilted")    \
    X(KIND_PLAN_DROPPED, "line of quilting dropped") \
    X(KIND_PLAN_DOUBLED, "line of quilting doubled")

#define KIND_ENUM(kind, name) kind,
enum kind { KIND_LIST(KIND_ENUM) KIND_TOTAL };
#undef KIND_ENUM

/* Things that a source states once, so that another value is another
 * consistent quilt: the whole list of what is left out. */
#define RULE_LIST(X)                                                         \
    X(RULE_NONE, "")                                                         \
    X(RULE_LAYERS, "overage and max-gap of backing and batting, the fabric " \
                   "of the backing: nothing else tells of the layers below") \
    X(RULE_BINDING, "width of the binding: it is outside the top, and only " \
                    "an amount of cloth that it changes could tell")         \
    X(RULE_SETTING,                                                          \
      "in a quilt's own setting, which way a block lies and "                \
      "which of two pieces stands where: a quilt has no picture (counts, "   \
      "sizes and mirrors stay in, but for the piece of a map that is as "    \
      "often "                                                               \
      "plain as mirrored, where no count would change)")                     \
    X(RULE_METHOD,                                                           \
      "the method where no cut size is stated: each sews the same cloth")    \
    X(RULE_PLAIN,                                                            \
      "a plain half that is added or dropped where its triangles are of "    \
      "one fabric in any case: only the cutting differs")                    \
    X(RULE_UNITS,                                                            \
      "the units: all numbers are in them, only amounts of cloth tell")      \
    X(RULE_CLOTH,                                                            \
      "two cloths that change roles, where the colorway states no "          \
      "amount of it")                                                        \
    X(RULE_PLAN,                                                             \
      "another fabric, or an element more or less, in the words of "         \
      "quilting: another plan that fits the top; what is not found there, "  \
      "a place that lies open and lost symmetry stay in by being caught")

#define RULE_ENUM(rule, text) rule,
enum rule { RULE_LIST(RULE_ENUM) RULE_TOTAL };
#undef RULE_ENUM

struct edit {
    struct span span; /* of the sample; empty where text is put in */
    const char *text;
};

struct line_range {
    size_t first, last;
};

enum { EDITS_AT_MOST = 4 };

struct mutant {
    enum kind kind;
    enum rule rule;
    const char *text;
    size_t length;
    const char *bare;                   /* without blanks, to find doubles */
    uint64_t hash;                      /* of that */
    size_t line;                        /* of the first edit, in the sample */
    struct edit changes[EDITS_AT_MOST]; /* of the sample */
    struct line_range lines[EDITS_AT_MOST]; /* of the edits, in the mutant */
    uint32_t places[EDITS_AT_MOST];         /* where they begin, in it */
    unsigned mistakes[EDITS_AT_MOST];       /* of a pair: 0 or 1 */
    size_t edits;
    const struct mutant *pair[2]; /* what a pair is made of; else NULL */
    const char *from, *to;
};

/* What one top shows of each fabric, as GEOS sees it. */
struct top_view {
    GEOSGeometry **fabrics; /* two for each: right side and wrong side */
    size_t count;
};

struct sample {
    const char *path;
    struct arena *arena;
    const struct source *source;
    struct compiled compiled;
    const char *bare;
    uint64_t hash;
    LIST(struct mutant) mutants;
    size_t doubles;        /* dropped: a text that was there before */
    struct top_view *tops; /* one for each quilt */
};

/* Adds the sample with these edits, in the order of their places, unless the
 * same text is there already. */
void mutant_add(struct sample *sample, enum kind kind, enum rule rule,
                const struct edit *edits, size_t count);
/* Both mistakes in one text. requires: they do not overlap. */
struct mutant mutant_pair(struct sample *sample, const struct mutant *a,
                          const struct mutant *b);
/* The same, for one edit and for two spans that change places. */
void mutant_replace(struct sample *sample, enum kind kind, enum rule rule,
                    struct span span, const char *text);
void mutant_swap(struct sample *sample, enum kind kind, enum rule rule,
                 struct span a, struct span b);
/* Two sources that differ in blanks alone are one mistake. */
char *without_blanks(struct arena *arena, const char *text, size_t length);
/* Sets `bare` and `hash` of the sample itself. */
void sample_fingerprint(struct sample *sample);
const char *sample_text(const struct sample *sample, struct span span);

/* All mistakes of the kinds above. */
void make_mutants(struct sample *sample);
void mutate_attributes(struct sample *sample, const struct element *element);
void mutate_lengths(struct sample *sample, const struct element *element);
void mutate_fabrics(struct sample *sample, const struct element *element);
void mutate_order(struct sample *sample, const struct element *element);
void mutate_cells(struct sample *sample, const struct element *element);
void mutate_structure(struct sample *sample, const struct element *element);
void mutate_casts(struct sample *sample, const struct element *element);
void mutate_plans(struct sample *sample, const struct element *element);

/* The unit, block or quilt around an element, or NULL. */
const struct definition *owner_of(const struct sample *sample,
                                  const struct element *element);
/* Of rows of triangles: RULE_SETTING where no picture tells them. */
enum rule row_rule(const struct sample *sample, const struct element *element);
/* RULE_SETTING where the element lies in a quilt, else RULE_NONE. */
enum rule setting_rule(const struct sample *sample,
                       const struct element *element);

enum verdict { VERDICT_NONE, CAUGHT, HARMLESS, ESCAPED, DIED };

struct outcome {
    enum verdict verdict;
    int code;          /* of the error that points at the mistake, else first */
    bool first_there;  /* the first error lies on a mutated line */
    bool first_near;   /* ... or in the element that was changed */
    bool any_there;    /* some error does */
    bool named[2];     /* of a pair: an error of its own for each mistake */
    bool right, wrong; /* the help gives the sample back; a fix does not */
    size_t errors, fixes, clean; /* fixes that leave nothing to say */
    size_t trials;
    double seconds;
    char why[160]; /* what differs where it escaped */
};

struct job {
    const struct sample *sample;
    const struct mutant *mutant;
};

struct outcome judge(GEOSContextHandle_t geos, const struct job *job);

/* Judges every job in child processes, two at a time: a mistake that ends the
 * compiler is an outcome too. */
void judge_all(GEOSContextHandle_t geos, const struct job *jobs, size_t count,
               struct outcome *outcomes);

/* ---- pairs.c ---- */

/* Two mistakes at a time: has each an error of its own? */
enum { PAIRS = 210 }; /* of some, one mistake is none */
struct outcome judge_pair(const struct job *job);
/* Makes every Nth of the pairs and judges them. ensures: false where fewer
 * are both told than is held there. */
bool judge_pairs(GEOSContextHandle_t geos, struct sample *samples, size_t count,
                 size_t every, uint64_t seed);
/* Does the message lie on a line of the mistake, or in the element? */
bool lies_there(const struct run *run, const struct mutant *mutant,
                struct span span, unsigned mistake);
bool lies_near(const struct compiled *compiled, const struct mutant *mutant,
               struct span span, unsigned mistake);
/* A diagnostic's mend, applied as an editor would. */
const char *mended_text(struct arena *arena, const struct mutant *mutant,
                        const struct diagnostic *d);
bool same_source(struct arena *arena, const char *bare, const char *text);

/* What differs between what was made of two sources, in words, in `why`.
 * ensures: false where nothing does. */
bool products_differ(GEOSContextHandle_t geos, const struct sample *sample,
                     const struct compiled *other, char *why, size_t room);
struct top_view *view_tops(GEOSContextHandle_t geos, struct arena *arena,
                           const struct sewn *sewn);
void destroy_tops(GEOSContextHandle_t geos, struct top_view *tops,
                  const struct sewn *sewn);
/* The area where two tops show different fabrics; negative on a failure. */
double tops_difference(GEOSContextHandle_t geos, const struct top_view *a,
                       const struct top_view *b);
/* ensures: true where the fabrics cover the finished rectangle once, and the
 * oracle tells the top from the same with two fabrics exchanged. */
bool oracle_sees(GEOSContextHandle_t geos, struct top_view *top,
                 const struct sewn_quilt *quilt);

#endif
