/* Inside the mending stage. A candidate is one edit of the source text; a trial
 * compiles the text with it, up to sewing, in an arena of its own. Files call
 * each other one way: trial.c, offer.c, then drawings.c, lengths.c, names.c,
 * casts.c, children.c and exchanges.c, which know what may be written instead,
 * parts.c, lacking.c, rings.c, amounts.c, choose.c, say.c, strips.c, apart.c,
 * several.c, mend.c.
 */
#ifndef SEAMWRIGHT_MENDER_H
#define SEAMWRIGHT_MENDER_H

#include "mend.h"

/* `text` in place of the bytes of `span`. */
struct edit {
    struct span span;
    const char *text;
};

/* An error or a warning of a trial. */
struct problem {
    enum diag_code code;
    uint32_t at;       /* in the source as it is written */
    uint32_t end;      /* of what is pointed at */
    const char *shown; /* of a cell: what the cloth shows; else NULL */
};

typedef LIST(struct problem) problem_list;

/* Which errors hide which: words and names, counts of cells, sizes, cells of
 * pictures, steps. */
enum stage { STAGE_NAMES, STAGE_COUNTS, STAGE_SIZES, STAGE_CELLS, STAGE_STEPS };

/* A cell of a picture that differs, and what the cloth shows there. */
struct cell_seen {
    uint32_t at, end; /* in the source as it is written */
    uint32_t shown;   /* a sum of it */
};

enum { CELLS_SEEN = 8 };

/* What a trial found, told by the errors before it. */
struct outcome {
    size_t left;     /* errors that are still there ... */
    uint64_t which;  /* ... of the first 64, a bit each */
    size_t fresh;    /* errors and warnings that were not there */
    size_t warnings; /* in all */
    bool uncut;      /* one of them is of a size that no ruler cuts */
    bool onward;     /* what is fresh was hidden behind the errors before */
    bool hides;      /* what is fresh may hide all errors before */
    struct cell_seen cells[CELLS_SEEN]; /* that are fresh, the first of them */
    size_t cell_count;
    int stage; /* of fresh errors, the first; INT_MAX for none */
};

enum { LAST_RANK = 5 };

/* So many errors have one cause in something that all share, such as a key. */
enum { ERRORS_MANY = 60 };

/* In the order in which they are likely. */
enum manner {
    MANNER_REPEAT, /* a child that repeats the one before it goes */
    MANNER_VALUE,  /* a value, a word, two exchanged */
    MANNER_INSERT, /* something is written that was not there */
    MANNER_REMOVE  /* something goes */
};

/* What it is called in a message. */
enum kind {
    KIND_ATTRIBUTE,
    KIND_OMISSION, /* of an attribute */
    KIND_WORD,
    KIND_EXCHANGE,
    KIND_MOVE,
    KIND_COPY,
    KIND_CORNER, /* one more, unlike all others */
    KIND_STONE,  /* a cornerstone that sashing lacks */
    KIND_REMOVAL,
    KIND_RENAME,       /* a name in several places */
    KIND_PIECE_BEFORE, /* a piece that lacks, ... */
    KIND_PIECE_BEHIND, /* ... beside the element */
    KIND_OWN /* told by the message that offers it, and by nothing else */
};

struct candidate {
    struct edit edit;
    enum manner manner;
    enum kind kind;
    const struct element *element; /* NULL for a mend of unknown place */
    enum attribute_id attribute;   /* of KIND_ATTRIBUTE */
    struct span place;             /* what to point at ... */
    struct span other;             /* ... and the other of an exchange */
    struct rational number;        /* that is written; unknown for none */
    const char *said;              /* of KIND_RENAME: what it makes where */
    bool twofold; /* two changes in one, which do not end the search */
    bool far;   /* less likely than its like: a word that differs in two ways */
    bool guess; /* a piece that does not show what its place is asked for */
    bool made_somehow; /* a piece whose method nothing tells, where others
                          state theirs */
    bool regular;      /* the words of a map alternate with it, and did not */
    unsigned ring;
    unsigned rank;          /* how early it is tried in its ring; from 0 */
    bool program;           /* offered by the program itself */
    struct diagnostic *own; /* the message that offers the same, or NULL */
    size_t alike; /* of those with its sum: 1 + the number of the one before */
    bool tried;
    struct outcome outcome;
};

struct mender {
    struct arena *arena;   /* of the run */
    struct arena *scratch; /* of one trial, emptied behind it */
    struct run *run;
    const struct element *root; /* NULL where the source is not read */
    const struct sized *sized;  /* NULL with it */
    struct diagnostic **errors; /* that were reported, in their order */
    size_t error_count;
    /* Whether all of them are of steps: asked of each word of each tag. */
    enum { STEPS_UNKNOWN, STEPS_ALONE, STEPS_NOT_ALONE } steps;
    struct diagnostic **seeds; /* the same, then the warnings */
    size_t seed_count;
    problem_list before; /* what a trial without a change finds */
    size_t error_total;  /* how many of those are errors */
    bool steps_wrong;    /* some of them are of steps ... */
    bool sewn_before;    /* ... or all are, so that all was sewn */
    size_t second; /* one mistake was found, and its mend is in the source: so
                    * many trials for what is left; else 0 */
    LIST(struct candidate) candidates;
    size_t *sums; /* of edits: 1 + the number of the last candidate with each */
    uint64_t aim; /* which of those before must go; a bit each */
    size_t tried, most; /* trials, and how many there may be */
    unsigned ring;      /* that is being offered ... */
    unsigned rank;      /* ... and how early it is to be tried */
    bool far;           /* ... and is less likely than its like */
};

/* ---- trial.c ---- */

/* ensures: the errors of the source as it is, as a trial sees them. */
void begin_trials(struct mender *mender);
/* Compiles the source with the edit. */
struct outcome try_edit(struct mender *mender, const struct edit *edit);

/* The whole way, amounts of cloth included: with the edits nothing new is left
 * to say. Takes as long as a check of the source. requires: edits in the order
 * of their places, and apart, each within one file. */
bool holds_whole(struct mender *mender, const struct edit *edits, size_t count);

/* The source with the edit, compiled as the driver does, in the memory of the
 * run. ensures: `sized` NULL where it cannot be read. */
struct run *run_with(const struct mender *mender, const struct edit *edit,
                     const struct sized **sized);
/* Where a place of the changed text lies in the source. */
uint32_t place_before(const struct edit *edit, uint32_t at);

/* ---- offer.c ---- */

/* More candidates than trials will ever reach: nothing more need be offered. */
bool has_plenty(const struct mender *mender);
/* ensures: a candidate more, unless the same text was offered or nothing
 * changes; else the one that offers it. */
struct candidate *offer(struct mender *mender, struct candidate candidate);
/* Another text of an attribute, put into the tag where it is not written. */
void offer_value(struct mender *mender, const struct element *element,
                 enum attribute_id id, const char *text,
                 struct rational number);
/* Two places change places. requires: they do not overlap. */
void offer_exchange(struct mender *mender, const struct element *element,
                    struct span a, struct span b);

/* The element from its start tag to its end tag. */
struct span whole_element(const struct mender *mender,
                          const struct element *element);
/* The bytes of the source. */
const char *span_text(const struct mender *mender, struct span span);
bool same_text(const struct mender *mender, struct span a, struct span b);
/* The innermost element that holds the byte. */
const struct element *element_at(const struct mender *mender, uint32_t at);
/* The unit, block, quilt or other child of the root around it. */
const struct element *top_of(const struct mender *mender,
                             const struct element *element);
/* What the element defines, or NULL. */
const struct definition *defined_by(const struct mender *mender,
                                    const struct element *element);
/* What is written for the attribute, or NULL. */
const struct value *written(const struct element *element,
                            enum attribute_id id);

/* ---- what may be written instead ---- */

/* lengths.c: other lengths, sizes and counts. */
void offer_numbers(struct mender *mender, const struct element *element,
                   const struct value *value);
/* lengths.c: a width or a height, where nothing fixes one. */
void offer_sizes(struct mender *mender, const struct element *element);
/* names.c: other choices, names and keys. */
void offer_names(struct mender *mender, const struct element *element,
                 const struct value *value);
void offer_choices(struct mender *mender, const struct element *element);
/* maps.c: other words of a map. */
void offer_map_words(struct mender *mender, const struct element *map);
/* maps.c: a word too many or too few in the rows that an error points at. */
void offer_drawing_counts(struct mender *mender, const struct element *element);
void offer_map_counts(struct mender *mender, const struct element *map,
                      struct span rows);
/* maps.c: the one word that keeps plain and mirrored ones from alternating. */
void offer_odd_word(struct mender *mender, const struct element *map);
/* maps.c: words that are mirrored, where few are. */
void offer_map_hands(struct mender *mender, const struct element *map);
/* names.c: its value is the id of a fabric. */
bool names_fabric(enum attribute_id id);
/* names.c: two fabrics of one tag exchanged. */
void offer_own_exchanges(struct mender *mender, const struct element *element);
/* names.c: two fabrics of a definition, or two keys, exchanged. */
void offer_name_exchanges(struct mender *mender, const struct element *top);
/* names.c: two keys exchanged. */
void offer_key_exchanges(struct mender *mender, const struct element *top,
                         unsigned rank);
/* children.c: repeated, exchanged, moved, copied, left out. */
void offer_children(struct mender *mender, const struct element *parent);
/* children.c: one that repeats the one before it is left out. */
void offer_repeats(struct mender *mender, const struct element *parent);

/* children.c: what is sewn: a patch, a row, a use, ... but a border. */
bool is_part(const struct element *element);
/* children.c: one more like child `i`. */
void offer_copy(struct mender *mender, const struct element *parent, size_t i);
/* children.c: a corner that the patch has not. */
void offer_corners(struct mender *mender, const struct element *patch);

/* casts.c: the name that the fabric or role has where the element stands; NULL
 * where it has none. requires: below fabric_numbers. */
const char *fabric_name(const struct mender *mender,
                        const struct element *element, size_t fabric);
/* casts.c: this fabric for this role in a use; `lacking`: how likely, where the
 * use tells none. */
void offer_cast(struct mender *mender, const struct element *use,
                const char *role, const char *fabric, enum manner lacking);
/* casts.c: other fabrics and roles in a use. */
void offer_casts(struct mender *mender, const struct element *use);
/* casts.c: the same in the block whose picture alone differs. */
void offer_drawn_casts(struct mender *mender);
/* casts.c: two casts of a definition exchanged. */
void offer_cast_exchanges(struct mender *mender, const struct element *top);
/* What the use gives to the role; NULL where it keeps its default. */
typedef void visit_cast(void *context, const struct element *use,
                        const struct role *role, const struct cast_text *given);
/* casts.c: each role of what is used. Nothing where the element is no use. */
void each_cast(const struct mender *mender, const struct element *use,
               visit_cast *visit, void *context);
/* casts.c: cornerstones that sashing has not. */
void offer_stone(struct mender *mender, const struct element *sashing);

/* All that may be written instead in one tag. */
void offer_tag(struct mender *mender, const struct element *element);

/* drawings.c: a word of this row of a map as one triangle, two or three. */
void offer_row_places(struct mender *mender, const struct element *map,
                      struct span row);
/* drawings.c: two words of two such rows that cover too much and too little. */
void offer_row_exchanges(struct mender *mender, const struct element *map);
/* drawings.c: two rows or two cells of a picture, where no others differ. */
void offer_picture_exchanges(struct mender *mender);
/* drawings.c: of `count` words of a map, those that lie where its picture
 * differs, a flag each. */
const bool *places_differing(const struct mender *mender,
                             const struct element *map, size_t count);
/* drawings.c: what the cells that differ are a picture of; NULL where they are
 * of several. */
const struct definition *differing_picture(const struct mender *mender);
/* drawings.c: other words for one that cannot be read; another count of cells.
 */
void offer_drawn_words(struct mender *mender);
/* drawings.c: other words for a few that differ, of pictures whose cells do not
 * tell what the cloth shows. */
void offer_shown_words(struct mender *mender);
/* drawings.c: offers and tries a word more or less in a row of a picture. */
void search_drawings(struct mender *mender, size_t most);
/* exchanges.c: a name that is misspelt alike in several places. */
void offer_renames(struct mender *mender);
/* exchanges.c: one more of what steps count more of than there are. */
void offer_counted_uses(struct mender *mender);
/* exchanges.c: units and blocks of which steps count one too many and another
 * too few. */
void offer_counted_names(struct mender *mender);
/* exchanges.c: two widths or two heights in what a picture shows. */
void offer_size_exchanges(struct mender *mender);

/* ---- lacking.c ---- */

/* A use of the key that a map asks for and no piece has. */
void offer_keyed_uses(struct mender *mender);
/* Offers and tries pieces of other kinds than their neighbors where too few are
 * said to be. `most`: the count of trials to stop at. */
void search_pieces(struct mender *mender, size_t most);

/* ---- rings.c ---- */

/* Errors about how a thing is written, which it alone can mend. */
bool of_form(enum diag_code code);
/* Errors that a picture found. */
bool of_picture(enum diag_code code);
/* Errors about steps and what they make. */
bool of_steps(enum diag_code code);
/* All errors are. */
bool only_steps(struct mender *mender);

/* It mends all that is aimed at, and brings nothing. */
bool hits(const struct mender *mender, const struct candidate *candidate);

/* Offers and tries, from the element of the errors outwards, until a change
 * that leaves nothing out makes all agree. */
void search_rings(struct mender *mender);

/* ---- amounts.c ---- */

/* Where a trial sees no error, as only amounts of cloth are wrong: offers and
 * tries fabrics that no picture shows. ensures: false where there are none, or
 * too many to plan the cloth for each. */
bool search_amounts(struct mender *mender);

/* ---- choose.c ---- */

enum { TOLD_AT_MOST = 5 };

/* ensures: how many candidates do equally well and better than all others, in
 * `best`; at most TOLD_AT_MOST + 1 are counted. */
size_t choose(const struct mender *mender,
              const struct candidate *best[TOLD_AT_MOST + 1]);
/* True where all errors are of a size that must only be small or large enough,
 * and several sizes do: they tell nothing. */
bool size_is_open(const struct mender *mender,
                  const struct candidate *const *best, size_t count);

/* ensures: negative where `a` is the likelier one. */
int compare_candidates(const struct mender *mender, const struct candidate *a,
                       const struct candidate *b);

/* ---- several.c ---- */

/* Searches once more for the errors of one kind alone, as if there were no
 * others. ensures: false where there are no others. */
bool search_apart(struct mender *mender, size_t most);

enum { FIRSTS_AT_MOST = 3 };

/* Changes that may mend one of two mistakes, the likeliest first. ensures: how
 * many are in `firsts`. */
size_t choose_firsts(const struct mender *mender,
                     const struct candidate *firsts[FIRSTS_AT_MOST]);
/* The same change, with as many lines as there were. */
struct candidate *with_lines(const struct mender *mender,
                             const struct candidate *one);
/* Only another single change behind it makes it likely. */
bool needs_cause(const struct mender *mender, const struct candidate *one);
/* It can be told although nothing is known of what is left; `count`: how many
 * do as well. */
bool is_sure(const struct mender *mender, const struct candidate *one,
             size_t count);
/* What is left with the change is told elsewhere. */
bool tells_apart(const struct mender *mender, const struct candidate *first,
                 const struct run *second);
/* Tells the mistake that `first` mends, and what `second` says of the source
 * with it. */
void say_both(struct mender *mender, const struct candidate *first,
              const struct run *second);

/* ---- say.c ---- */

/* The change as the subject of "makes all agree". */
const char *change_text(const struct mender *mender,
                        const struct candidate *candidate);
/* The message at the place of the change, with the mend. */
struct diagnostic *message_of(struct mender *mender,
                              const struct candidate *candidate);
/* Warnings go that are not there with the change. */
void drop_warnings(struct mender *mender, const struct candidate *candidate);
/* The same, the others as notes. */
void say_mistake(struct mender *mender, const struct candidate *candidate);
/* Today's first message, and the changes as a question. */
void say_question(struct mender *mender, const struct candidate *const *best,
                  size_t count);
/* Amounts of cloth that do not hold, where a trial sees nothing else: as one,
 * where several colorways tell it. */
void say_amounts(struct mender *mender);

/* ---- strips.c ---- */

/* The only error is what a quilt states as its size, and a strip that lacks or
 * is one too many explains it as well: asks for it. ensures: false elsewhere.
 */
bool ask_for_strip(struct mender *mender);

/* ---- apart.c ---- */

/* A question promises nothing. */
bool asks(const struct diagnostic *d);
/* Takes back the mends that do not hold; words them as a question. */
void say_apart(struct mender *mender);

#endif
