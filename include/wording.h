/* owner: tell
 *
 * Facts of the sewn quilt as words: names of what is made, sizes, directions.
 * Shared by the booklet, the tables and the data.
 */
#ifndef SEAMWRIGHT_WORDING_H
#define SEAMWRIGHT_WORDING_H

#include "cutplan.h"
#include "phrase.h"

struct wording {
    struct arena *arena;
    const struct design *design;
    const struct sewn_quilt *quilt;
    bool glyphs;                   /* "2½" for a page, else "2 1/2" */
    const struct phrases *phrases; /* the language; always there */
};

/* "2½", and "6½ × 2½" or "2½ square". */
const char *word_length(const struct wording *w, struct rational value);
const char *word_size(const struct wording *w, struct rational width,
                      struct rational height);
/* To the nearest mark of a ruler, a sixteenth of an inch or a millimetre, with
 * its unit; then "about ⅛ in" where that is not exact. */
const char *word_length_mark(const struct wording *w, struct rational value);
const char *word_length_near(const struct wording *w, struct rational value);
/* ensures: true where that mark is 0. */
bool is_no_length(const struct wording *w, struct rational value);
/* With the unit behind it: "6½ × 2½ in". */
const char *word_size_unit(const struct wording *w, struct rational width,
                           struct rational height);
/* "quilt center", or "quilt top" where nothing is sewn around it. */
const char *word_center(const struct wording *w);
/* Of a cut piece: the shorter side first wherever it is told, so that list,
 * label and step agree; as it lies where its cloth is a one-way print. */
const char *word_cut_size(const struct wording *w, int fabric,
                          struct rational width, struct rational height);
/* "2½ in" */
const char *word_length_unit(const struct wording *w, struct rational value);
const char *word_unit(const struct wording *w); /* "in" or "cm" */
/* A number of another unit than the pattern's. */
const char *word_length_in(const struct wording *w, struct rational value,
                           enum length_unit unit);

/* What is made: "Wing", "Wing (mirrored)", "A1 with corners B2". */
const char *word_heap(const struct wording *w, size_t heap);
/* The short name in figures and lists of parts: "A1", "Wing", "(4)". */
const char *word_part(const struct wording *w, size_t heap);
/* A unit or block that the heap is told as, with what tells it from others of
 * that name: its size where the quilt has several, the mirror; as a name also
 * the fabrics of its cast where there are several. */
const char *word_kind(const struct wording *w, const struct heap *heap,
                      const struct definition *definition, bool mirror);
const char *word_name(const struct wording *w, const struct heap *heap,
                      const struct definition *definition, bool mirror);
/* Is the role played by different fabrics in the quilt? */
bool role_varies(const struct wording *w, const struct cast *cast, size_t role);
/* "Gold, Red": what plays the roles in which one cast differs from another.
 * NULL where the quilt has one cast, or `cast` is NULL. */
const char *word_cast(const struct wording *w, const struct cast *cast);
/* Is the heap told as the mirror image of one that the quilt has, too? */
bool told_mirrored(const struct wording *w, const struct heap *heap);
/* The shortest name: "A1", or the number of the step that made it, "(4)". */
const char *word_mark(const struct wording *w, size_t heap);
/* The number of its step, "7"; "7.1" for the first that is sewn on the way to
 * what step 7 makes. */
const char *word_step(const struct wording *w, size_t heap);
/* "Make 4." */
const char *word_make(const struct wording *w, size_t count);

/* What the hands do in one action, as short sentences. */
const char *word_action(const struct wording *w, const struct heap *heap,
                        const struct action *action);
/* "Press the seam toward A (Slate cotton)." By the cloth of a colorway, as lists of
 * parts name it; in data, which has none (NULL), by the pattern's fabric. */
const char *word_press(const struct wording *w, const struct colorway *colorway,
                       const struct heap *heap, const struct action *action);
/* The size to measure afterwards. */
const char *word_measure(const struct wording *w, const struct heap *heap);
/* A side with its seam allowances. Strips of a border that are as long as what
 * is joined from them are rounded as they are cut, so that one strip has one
 * length in the booklet. */
struct rational unfinished_side(const struct wording *w,
                                const struct heap *heap, bool across);
/* A line's direction by mark and word: "╱ rising"; the word alone in data. */
const char *word_line(const struct wording *w, enum line_direction line);

/* How often each distinct input is taken for one: "4 × A1, 1 × Wing". */
const char *word_parts(const struct wording *w, const struct heap *heap);

/* ---- of the cutting plan ---- */

/* What a cut is for: "Wing, Lantern; trim to 3 by 2", "border 1, sides". */
const char *word_purpose(const struct wording *w, const struct cut_item *item);
/* "60-degree triangle, 5 3/4 in high", as cut. requires: a shape that is angled. */
const char *word_shape(const struct wording *w, enum patch_shape shape,
                       struct rational high);
/* "7 A2, 1 A3": what such strips give, each so many times. */
const char *word_shaped_strip(const struct wording *w,
                              const struct cut_item *item,
                              const struct shaped_strip *strip, size_t times);
/* "fat quarter" or "fat quarters", as the count asks for; not of yardage. */
const char *word_sheets(const struct wording *w, enum sold_as sold,
                        size_t count);
/* Widths and sizes of what is bought: "70 × 70 in", in languages whose shops know no
 * inches with centimetres behind, rounded up to whole ones and to 5. Cut sizes have
 * none. */
const char *word_bought_length(const struct wording *w, struct rational length);
const char *word_bought_size(const struct wording *w, struct rational width,
                             struct rational height);
/* requires: a cloth that is sold in sheets. */
const char *word_sheet_size(const struct wording *w,
                            const struct fabric_plan *plan);
/* A length as a shop cuts it: "1⅞ yd", "1.7 m". */
const char *word_yardage(const struct wording *w, struct rational length);
/* How much more than `bought`; in metres what the rounded amounts differ by, as both
 * stand on the page. */
const char *word_yardage_more(const struct wording *w, struct rational bought,
                              struct rational more);
/* What amounts are rounded up to, in the shop's unit alone. */
const char *word_sold_step(const struct wording *w);
/* What would leave a reserve on all strips and sheets; "" where the plan does,
 * or no such amount is known. */
const char *word_reserved(const struct wording *w,
                          const struct fabric_plan *plan);
/* What is bought of a cloth: "1⅞ yd", "5 fat quarters". */
const char *word_amount(const struct wording *w,
                        const struct fabric_plan *plan);

/* The same of the backing; that it is in the amount of another, where both are
 * bought together. */
const char *word_backing_amount(const struct wording *w,
                                const struct backing_plan *backing);

/* ---- putting together ---- */

/* A decimal number, cut after `places` digits; with the language's sign. */
const char *word_decimal(const struct wording *w, struct rational value,
                         int places);
/* "A, B and C". requires: one part at least. */
const char *word_list(const struct wording *w, const char *const *parts,
                      size_t count);
/* Two whole sentences, one behind the other; either may be "". */
const char *word_then(const struct wording *w, const char *first,
                      const char *second);

#endif
