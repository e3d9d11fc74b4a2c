/* owner: tell
 *
 * The lines of a cutting plan in words: values, apart from where they stand on
 * a page.
 */
#ifndef SEAMWRIGHT_TOLD_CUTTING_H
#define SEAMWRIGHT_TOLD_CUTTING_H

#include "wording.h"

/* A cut of a line. Sheets and rests have a letter for each of their strips,
 * which stands in their drawing, too. */
struct told_cut {
    const char *letter; /* "a", or NULL behind the first cut of a strip */
    const char *text;   /* "A2: 8 cuts of 2⅜, to 19." */
};

struct told_cuts {
    struct told_cut *items;
    size_t count, capacity;
};

/* A numbered line. */
struct told_line {
    const char *head;        /* "3 strips, 5⅜ in wide." */
    const char *gives;       /* all that it gives: "18 A1, 12 A2" */
    struct told_cuts cuts;   /* through folded cloth, or of a sheet */
    struct told_cuts opened; /* where something is opened; that first */
    struct told_cuts last;   /* of the last strip, where that differs */
};

/* Pieces of all strips of an item: "12 A2, 2 A3". requires: shapes. */
const char *word_shapes(const struct wording *w, const struct cut_item *item);
/* Adds how its strips are cut: by what lengths, and what each of them gives. */
void tell_shapes(const struct wording *w, const struct cut_item *item,
                 struct told_line *line);

struct told_line tell_strip_line(const struct wording *w,
                                 const struct fabric_plan *plan,
                                 const struct strip *strip);
struct told_line tell_lengthwise_line(const struct wording *w,
                                      const struct fabric_plan *plan,
                                      const struct sheet *sheet);
struct told_line tell_rest_line(const struct wording *w,
                                const struct fabric_plan *plan,
                                const struct sheet *sheet);
/* The number of a rest, from 1. requires: a sheet of the plan. */
size_t rest_number(const struct fabric_plan *plan, const struct sheet *rest);
struct told_line tell_sheet_line(const struct wording *w,
                                 const struct fabric_plan *plan,
                                 const struct sheet *sheet);
/* All words of a line, one behind the other. */
const char *whole_line(const struct wording *w, const struct told_line *line);

/* "a" to "z", then "aa". */
const char *strip_letter(struct arena *arena, size_t index);
/* "18 A1, 108 A2": what all lines of a cloth give. */
const char *tell_count(const struct wording *w, const struct fabric_plan *plan);
/* "8 strips, 3½ in wide (4 A1, 3 A5 each; trim A5 to 2½)": in a sentence. */
const char *tell_strips(const struct wording *w, const struct fabric_plan *plan,
                        const struct strip *strip);
/* How to begin; which is said of all cloths. */
const char *tell_intro(const struct wording *w, const struct cutplan *plan);
/* Where there is less of the length for squaring up than that; else "". */
const char *tell_squaring(const struct wording *w,
                          const struct fabric_plan *plan);
/* Lines that have little or nothing of the width to spare, and what would ease
 * that; "" where there is none. Of yardage. */
const char *tell_tight(const struct wording *w, const struct fabric_plan *plan);
/* How narrow the fabric may be for the plan for narrower fabric, reckoned as
 * `width_needed` is. requires: such a plan. */
struct rational reserved_width(const struct wording *w,
                               const struct fabric_plan *plan);
/* The width of fabric that the cutting plan takes, by its widest line, and by
 * what strips that are joined have to spare; in whole cutting steps. 0 where
 * nothing is cut. */
struct rational width_needed(const struct wording *w,
                             const struct fabric_plan *plan);
/* The same of fat quarters and eighths. */
const char *tell_tight_sheets(const struct wording *w,
                              const struct fabric_plan *plan);
/* What is left when all is cut, with its size; "" where nothing of use is. */
const char *tell_left_over(const struct wording *w,
                           const struct fabric_plan *plan);

/* "8 strips, 3½ in wide (4 A1 each); 2 strips, ...". */
const char *tell_strip_list(const struct wording *w,
                            const struct fabric_plan *plan,
                            const struct strip *strips, size_t count);
/* The lines in place of all others where the fabric is narrower than they ask
 * for; "" where none are planned, or needed. */
const char *tell_reserved(const struct wording *w,
                          const struct fabric_plan *plan);
/* What a border's joined strips leave, where that is less than a reserve on
 * each; else "". */
const char *tell_tight_join(const struct wording *w,
                            const struct fabric_plan *plan,
                            const struct cut_item *item);

/* Where border strips are cut before the top is measured, which is along the
 * cloth: one sentence for each step that measures; else "". */
const char *tell_late(const struct wording *w, const struct fabric_plan *plan);
/* "A1"; "A4/A5" of a strip that is joined first and gives both. */
const char *label_of_item(const struct wording *w, const struct cut_item *item);
/* The heap that takes a border's strips first: the border, or what joins them
 * to those of others that are mitred with them. */
size_t strip_taker(const struct sewn_quilt *quilt, const struct cut_item *item);
/* The number of the step that measures the top for this border and cuts it. */
const char *measuring_step(const struct wording *w,
                           const struct cut_item *item);
/* What is cut from strips that are joined first. requires: such an item. */
const char *tell_joined(const struct wording *w, const struct cutplan *plan,
                        const struct cut_item *item);
/* That some sizes were planned simply; "" where none were. */
const char *tell_simply(const struct wording *w,
                        const struct fabric_plan *plan);
/* A simpler plan for a little more cloth; "" where there is none. */
const char *tell_offer(const struct wording *w, const struct fabric_plan *plan);

#endif
