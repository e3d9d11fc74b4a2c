/* Inside the comparison: which thing of the old revision is which of the new
 * one, and who looks for changes of each class. */
#ifndef SEAMWRIGHT_COMPARE_PARTS_H
#define SEAMWRIGHT_COMPARE_PARTS_H

#include "compare.h"

/* The order of two lengths of data, where some may lack: those come first, and
 * are equal. */
static inline int compare_lengths(struct rational a, struct rational b)
{
    const bool known[2] = {rational_known(a), rational_known(b)};
    return known[0] && known[1] ? rational_compare(a, b)
                                : (int)known[0] - (int)known[1];
}

/* By an index of one revision, that of the same thing in the other, or NOWHERE.
 * [0] is asked by old indexes, [1] by new ones. */
struct pairs {
    int *of[2];
    size_t counts[2];
};
struct pairs pairs_new(struct arena *arena, size_t old, size_t changed);
void pair_up(struct pairs *pairs, size_t old, size_t changed);

/* What is compared at a time: a quilt in both revisions. */
struct quilt_pair {
    struct arena *arena;
    struct comparison *comparison;
    int index[2];
    const struct revision_quilt *quilt[2];
    const struct pairs *fabrics;
    struct pairs pieces, steps;
    size_t first;        /* of the list's changes that is the quilt's */
    bool pieces_changed; /* sizes, cloths or counts */
};

/* ensures: a change of that kind, in the list; its indexes are NOWHERE, but for
 * the quilts. `pair` may be NULL for the pattern itself. */
struct change *add_change(struct arena *arena, struct comparison *comparison,
                          const struct quilt_pair *pair, enum harm harm,
                          enum change_kind kind);
/* The same for one text that differs; adds nothing where they are equal. */
struct change *compare_text(struct arena *arena, struct comparison *comparison,
                            const struct quilt_pair *pair, enum harm harm,
                            enum change_kind kind, const char *what,
                            const char *old, const char *changed);

/* Is there, from that change on, one of a class as bad as `most` or worse that
 * others may come of? */
bool has_own(const struct quilt_pair *pair, size_t from, enum harm most);

/* ---- who is who ---- */

/* Fabrics by id, then by what is cut from them. */
struct pairs match_fabrics(struct arena *arena, const struct revision *old,
                           const struct revision *changed);
/* Quilts by id, then in their order. */
struct pairs match_quilts(struct arena *arena, const struct revision *old,
                          const struct revision *changed);
/* Pieces of the same size, cloth and use; the rest as compare_pieces finds. */
void match_pieces(struct quilt_pair *pair);
/* Steps by what they make, then by id, then by what is most alike. */
void match_steps(struct quilt_pair *pair);
/* The best assignment: of `gain`, by old then new, as a matrix; pairs without
 * gain are not made. ensures: by old, the new one or NOWHERE. */
int *assign_best(struct arena *arena, const long *gain, size_t old,
                 size_t changed);
/* What a pair would gain; 0 for one that must not be. */
typedef long gain_between(const void *context, size_t old, size_t changed);
/* The same, asking for each gain; of many, each old one in its turn takes the
 * best that is left. */
int *assign_by(struct arena *arena, gain_between *gain, const void *context,
               size_t old, size_t changed);
/* So many that nothing is kept by pairs of them: each has over 1,400. */
bool are_many(size_t old, size_t changed);
/* Is the size of one the size of the other in the same cloth and use? */
bool same_piece(const struct quilt_pair *pair, size_t old, size_t changed);

/* ---- what changed, by class ---- */

/* In the order in which they are called: each may ask what those before it have
 * found. All of them add to the list of the comparison and sort nothing. */

void compare_pieces(struct quilt_pair *pair);
void compare_cloths(struct quilt_pair *pair);
void compare_sewing(struct quilt_pair *pair);
void compare_quilt_words(struct quilt_pair *pair);
void compare_pattern_words(struct arena *arena, struct comparison *comparison,
                           const struct pairs *fabrics);
/* Adds what can be saved of the old quilt's pieces. requires: they were
 * compared. */
void save_pieces(struct quilt_pair *pair);

#endif
