/* owner: proof
 *
 * The least to sew before a whole quilt is: which units, blocks and neighbors
 * have all that a person must get right in it. Facts of the sewn quilt, and the
 * cover that brings each of them once (cover.h).
 */
#ifndef SEAMWRIGHT_LEAST_H
#define SEAMWRIGHT_LEAST_H

#include "cover.h"
#include "told_step.h"

/* What a person must get right, each kind once for a quilt. */
enum sew_fact_kind {
    FACT_TECHNIQUE, /* and its method */
    FACT_LINE,      /* a drawn line, as it lies */
    FACT_CORNER,    /* the corner that a square lies on */
    FACT_SIZE,      /* a unit or block in one size */
    FACT_MIRROR,    /* a unit or block as its mirror image */
    FACT_TURN,      /* how a unit lies in what it becomes a part of */
    FACT_PRESS,     /* a kind of seam, and the way it is pressed */
    FACT_MEETING,   /* how seams meet in a point */
    FACT_PRINT,     /* a one-way cloth, and the way it runs */
    FACT_KINDS
};

enum meeting_kind {
    MEET_NESTED,
    MEET_OPEN,
    MEET_SAME_SIDE,
    MEET_EIGHT,
    MEET_SET_IN /* three in a dot, where a piece is set in */
};

struct sew_fact {
    enum sew_fact_kind kind;
    size_t heap;   /* where it was met first */
    size_t parent; /* of FACT_TURN: what the heap becomes a part of */
    unsigned turn; /* of FACT_TURN and FACT_PRINT */
    bool slanted;  /* of FACT_PRINT */
    int fabric;    /* of FACT_PRINT */
    enum line_direction line;
    enum corner_place at;
    const struct operation *operation; /* of FACT_PRESS */
    enum press_side side; /* of FACT_PRESS: a word, or the way it goes */
    enum meeting_kind meeting;
};

/* What may be sewn by itself, one of it. */
enum trial_kind {
    TRIAL_HEAP,      /* a unit, block or row */
    TRIAL_NEIGHBORS, /* of a join: `across` by `down` cells from row, column */
    TRIAL_CUTOUT,    /* of two such neighbors that are rows or columns: some
                        cells of each along the seam between them */
    TRIAL_BORDER     /* a corner of a border, on a scrap */
};

struct trial {
    enum trial_kind kind;
    size_t heap;        /* itself, the join, the border */
    size_t row, column; /* from 0 */
    size_t across, down;
    size_t corner;      /* of a border with pieces there, from the top left */
    size_t place;       /* of a cutout: its first cell in the first of both */
    LIST(size_t) cells; /* of a cutout: what they are, as heaps */
    bool has_scrap;     /* of a cutout: a cell that is longer than what lies
                           across from it is any scrap, cut to so much */
    struct rational scrap_width, scrap_height;
    LIST(size_t) facts; /* as their numbers rise */
    size_t seams;
    struct rational cloth; /* area of what is cut for it */
};

/* Cut pieces of one label, from scraps. */
struct least_cut {
    size_t heap;
    size_t count;
};

struct least {
    LIST(struct sew_fact) facts;
    LIST(struct trial) trials;
    struct cover_plan plan;      /* its candidates are the trials */
    LIST(struct least_cut) cuts; /* of all that is chosen, in their order */
    size_t seams, all_seams;     /* chosen, and in the whole quilt */
    struct rational cloth, all_cloth;
};

/* What is sewn as a batch counts as batches; nothing that one trial has to
 * spare goes into another. Strips of a border's corner are three times as long
 * as they are wide and are sewn to a square of that side (our choice).
 * requires: a quilt with all its cloth. ensures: all facts are brought, as the
 * quilt's top and the corners of its borders are trials, too. */
struct least least_to_sew(const struct wording *w);

/* ensures: how much the corner of a border takes of each strip: its side. */
struct rational corner_length(const struct wording *w, const struct heap *heap);

/* How many squares so many triangles are cut from; of all else, as many
 * batches as make so many. */
size_t pieces_to_cut(const struct heap *heap, size_t count);

/* The heaps of the strips that are sewn on in a border, from the inside out:
 * one, or where several are mitred together one for each of them. */
struct strips {
    LIST(const struct heap *) items;
};
struct strips border_strips(const struct wording *w, const struct heap *border);
/* ensures: how wide such a strip is cut. */
struct rational strip_width(const struct heap *strip);
/* How long the strips on the two sides of a trial's corner are. */
struct strip_lengths {
    struct rational first, second;
};
struct strip_lengths corner_lengths(const struct wording *w,
                                    const struct heap *heap);

/* ensures: what a trial is, with its number: "1 Wing (mirrored)"; what a fact
 * is, in words; the part in whole percent, rounded up. */
const char *word_trial(const struct wording *w, const struct trial *trial);
const char *word_fact(const struct wording *w, const struct sew_fact *fact);
/* ensures: what is cut from scraps for it all, a line for each label, then for
 * the strips of each border, then for what any scrap does. */
struct scrap_lines {
    LIST(const char *) items;
};
struct scrap_lines word_scraps(const struct wording *w,
                               const struct least *least);
/* ensures: what facts of a kind are called together. */
const char *word_fact_kind(const struct wording *w, enum sew_fact_kind kind);
size_t least_percent(const struct least *least);

#endif
