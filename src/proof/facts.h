/* Facts on their way: the list, and what finds one that is there. Shared by the
 * files of this folder. Read next: facts.c. */
#ifndef SEAMWRIGHT_FACTS_H
#define SEAMWRIGHT_FACTS_H

#include "least.h"

struct facts {
    const struct wording *w;
    LIST(struct sew_fact) items;
    struct name_table numbers; /* by what makes a fact the same */
};

/* The numbers of facts that a heap or a trial brings; some stand twice. */
struct fact_list {
    LIST(size_t) items;
};

/* What hands do to make the heap from its parts. A join has only the fact of
 * its size and of the mirror here: the rest lies between its cells. */
void heap_facts(struct facts *facts, size_t heap, struct fact_list *list);

/* What lies between cells of a join: turns, seams, meetings. */
struct window {
    size_t heap, row, column, across, down;
};
void window_facts(struct facts *facts, const struct window *window,
                  struct fact_list *list);
/* The seam between two cells of a window of two, as it is pressed. */
void joint_facts(struct facts *facts, const struct window *window,
                 struct fact_list *list);
/* The same of a border's corner; all of them for a border without pieces. */
void border_facts(struct facts *facts, size_t heap, size_t corner,
                  struct fact_list *list);
void turn_fact(struct facts *facts, size_t heap, size_t input,
               struct fact_list *list);

/* Where cells of the window meet along its seams. */
void meeting_facts(struct facts *facts, const struct window *window,
                   struct fact_list *list);
/* Cells along a joint, placed as they lie in the whole, and which way the seams
 * between them are pressed, along it. */
struct joint_side {
    const struct input *cells;
    size_t count;
    int scrap; /* the cell that is none, so that no seam of it ends there; -1 */
    LIST(int) seams;
};
/* Where both sides of a joint meet; `line`: where it lies. */
void joint_meeting(struct facts *facts, size_t heap, bool level,
                   struct rational line, const struct joint_side sides[2],
                   struct fact_list *list);
void add_meeting(struct facts *facts, size_t heap, enum meeting_kind kind,
                 struct fact_list *list);

/* The seam between a cell and the one at its left; below a row of cells. */
const struct seam *seam_beside(const struct heap *heap, size_t cell);
const struct seam *seam_below(const struct heap *heap, size_t row);

/* A join without a name has no size to be right; of others the whole is sewn
 * in any case, so that neighbors in them are no trial. */
bool has_windows(const struct heap *heap);

/* Parts cut out of two neighbors, where one of them is a row or column without
 * a name: trials, and the facts between their cells. */
struct cutout {
    struct trial trial;
    struct fact_list facts;
};
struct cutouts {
    LIST(struct cutout) items;
};
struct cutouts cutouts_of(struct facts *facts, const struct window *window);

/* ensures: all that may be sewn by itself, with facts, seams and cloth; equal
 * ones once. */
void find_trials(struct facts *facts, struct least *least);

/* Adds to `made`, by heap, what a trial makes; inputs of a batch are counted
 * once a batch. ensures: the seams of it; the cloth that is cut. */
size_t make_trial(const struct wording *w, const struct trial *trial,
                  size_t *made, struct rational *cloth);
/* The same of the whole quilt. */
size_t make_quilt(const struct wording *w, struct rational *cloth);

#endif
