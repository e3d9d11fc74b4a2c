/* Sewing a quilt for the sake of its pressing alone, and the plan that comes of
 * it. Read next: nest.c, which tells where no plan helps. */
#ifndef SEAMWRIGHT_PRESS_PLAN_H
#define SEAMWRIGHT_PRESS_PLAN_H

#include "press_graph.h"
#include "sewer.h"

/* No quilt of more faces is sewn again: it would take longer than it is worth.
 */
enum { FACES_MOST = 60000 };

/* The quilt at work sewn once more, in an arena of its own: its center and what
 * lies in the corners of borders, which is all where seams can meet. */
struct aside {
    struct arena *arena;
    struct sewn_quilt quilt;
    struct sewer sewer;
    size_t *places; /* of each heap: how often it lies in the quilt */
};

/* `plan` and `trial` may be NULL. */
void sew_aside(struct aside *aside, const struct sewer *like,
               const struct press_trial *trial, const struct press_plan *plan);
void end_aside(struct aside *aside);

/* Pairs of seams of the whole quilt that meet pressed to the same side. */
int64_t aside_collisions(const struct aside *aside);

/* The same of a quilt that is sewn for good. requires: its whole. */
int64_t quilt_collisions(const struct sewer *sewer);

/* Of all heaps: what sewing a quilt costs. */
size_t quilt_faces(const struct sewer *sewer);

/* Plans for a quilt that was sewn by the rules, with the same trial. First
 * comes one that keeps its heaps, where no other has fewer collisions; then one
 * that presses each piece by itself. All that is made lies in `arena`. ensures:
 * the first. */
const struct press_plan *make_plans(struct arena *arena,
                                    const struct sewer *ruled,
                                    const struct press_trial *trial);

/* The plans for the quilt at work, which was sewn by the rules.
 * ensures: its graph in the sewer; NULL where nothing collides, where no plan
 * is better, or where the quilt is too large. */
const struct press_plan *plan_quilt(struct sewer *sewer);

#endif
