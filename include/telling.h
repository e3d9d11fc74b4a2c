/* owner: tell
 *
 * How a technique is told: a row each, in a file of its own (tell_*.c), found
 * by the list of techniques in sewn.h. Read next: tell_corners.c. */
#ifndef SEAMWRIGHT_TELLING_H
#define SEAMWRIGHT_TELLING_H

#include "wording.h"

/* What hands do in one action, a sentence or more for each move, in their
 * order;
 * "" for a move that there is not. Pressing and measuring follow. */
struct told_action {
    const char *lay;  /* what is laid on what */
    const char *draw; /* a line */
    const char *sew;
    const char *cut;  /* along or beside the seam */
    const char *trim; /* what was made, once it is pressed */
    /* What is laid and drawn, in short, where an earlier step tells the rest;
     * "" where that takes the long way. */
    const char *again;
};

struct telling {
    /* Title of a heap that has no name of its own. */
    const char *(*title)(const struct wording *w, const struct heap *heap);
    /* NULL for what is not sewn. */
    struct told_action (*action)(const struct wording *w,
                                 const struct heap *heap,
                                 const struct action *action);
    /* A second way of the same action, where it has one; else NULL. */
    struct told_action (*other)(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action);
    /* What is cut before it is laid; NULL where nothing is. */
    const char *(*parting)(const struct wording *w, const struct heap *heap,
                           const struct action *action);
    /* Under the figure of what lies there before an action. Says what is seen,
     * not what to do: that is the text's part. Lines are told as they lie. */
    const char *(*before)(const struct wording *w, const struct heap *heap,
                          const struct action *action);
    /* The key of the sentence for seams that are pressed towards the corner;
     * NULL for the one of flaps. */
    const char *outward;
    /* The key of its name in lists of what a quilt uses: "half-square
     * triangles"; NULL for what every quilt has. */
    const char *named;
    /* In which of its ways the heap is sewn, so that one is told once; NULL
     * where there is one way only. */
    int (*method)(const struct heap *heap);
};

#define TELLING_ROW(kind, row) extern const struct telling telling_##row;
TECHNIQUE_LIST(TELLING_ROW)
#undef TELLING_ROW

const struct telling *telling_of(const struct heap *heap);
const struct telling *telling_of_technique(enum technique technique);
/* "Block row" or "Sashing row", of a grid with sashing; NULL for all else. */
const char *sashed_row_title(const struct wording *w, const struct heap *heap);
/* What is cut before it is laid; "" where nothing is. */
const char *told_parting(const struct wording *w, const struct heap *heap,
                         const struct action *action);
/* All moves of one way, one sentence behind the other. */
const char *told_in_order(const struct wording *w, struct told_action told);

/* What to measure before the strips of a mitred border's set are cut. */
const char *set_measured(const struct wording *w, const struct heap *set);

/* The part that is input number `input`. */
const char *part_of_heap(const struct wording *w, const struct heap *heap,
                         size_t input);
/* A square turns over a diagonal: what lies upright comes to lie sideways. Says
 * so where the print of that input has a direction, else "". */
const char *print_hint(const struct wording *w, const struct heap *heap,
                       size_t input);
/* "rising" or "falling". */
const char *line_word(const struct wording *w, enum line_direction line);
/* The language's words for a corner. */
const char *word_place(const struct wording *w, enum corner_place at);
/* The caption of corners that are cut before they are sewn: the second way of
 * an action, or its only one. */
const char *other_caption(const struct wording *w, const struct action *action);
/* The caption of what is laid to be sewn across. */
const char *laid_caption(const struct wording *w, const struct heap *heap,
                         const struct action *action);

#endif
