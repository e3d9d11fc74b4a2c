/* Inside the sewing stage. `struct sewer` is what one quilt needs while it is
 * sewn; heaps are found by number, as the list of them moves when it grows.
 * Files call each other one way: cloth.c, press.c, bench.c, heaps.c, then the
 * crafts, craft.c with the table of them, and sew.c. Read next: craft.h. */
#ifndef SEAMWRIGHT_SEWER_H
#define SEAMWRIGHT_SEWER_H

#include "cloth.h"

/* A heap, and how its cloth lies. */
struct ref {
    size_t heap;
    unsigned turn;
};

/* What was built for a piece at a scale, in a cast, mirrored or not. Without
 * it, each of the hundred uses of a block would be compared anew. */
struct memo {
    struct rational factor; /* of the piece's definition */
    bool mirror;
    const struct cast *cast;
    struct ref ref;
    struct memo *next; /* of the same piece, later */
};

/* A place in the table from recipes to heaps. */
struct key_entry {
    const char *key; /* NULL for an empty place */
    size_t heap;
};

/* Two seams that end in one point of a joint, one on each side of it: whose
 * they are, and which way their allowances lie along the joint (below 0 for
 * left or up, 0 for open). */
struct seam_end {
    int side;
    const struct piece *piece;
    const struct operation *operation;
};
struct meeting {
    struct seam_end ends[2];
};

/* A joint folds the seams that end at it on the side to which it is pressed: how
 * many there are where it goes left or up, and where it goes right or down.
 * Where it is pressed open, `side` is 0. */
struct seam_fold {
    int side; /* to which it is pressed as it was sewn, as that of an end */
    const struct piece *piece;
    const struct operation *operation;
    size_t ends[2];
};

/* What meets in the joints of a heap of which some is pressed to the same side.
 * Where a plan gathers, nothing need be, and the folds are kept, too. */
struct collision {
    size_t heap;
    size_t count;        /* of pairs that are */
    struct vertex first; /* of them, from the heap's finished corner */
    LIST(struct meeting) meetings;
    LIST(struct seam_fold) folds;
};

/* A word of pressing that is tried on one piece, whatever it says. */
struct press_trial {
    const struct piece *piece;
    struct press press;
    const struct press_trial *next; /* tried with it */
};

/* Which way the seams of one operation of a piece go where nobody speaks of
 * them; 1 or -1. Where heaps are kept as the rules make them, 1 is as the rules
 * press. Else it is right or down as the piece lies (of a grid's rows, the
 * first of them; they go to and fro) or, between two cloths, as the rules
 * press. */
struct planned_way {
    const struct operation *operation;
    int way;
    struct planned_way *next; /* of the same piece */
};

/* How the rules lean a row or column, for its key: by scale and mirror. */
struct kept_lean {
    struct rational factor;
    bool mirror;
    const struct operation *operation;
    enum press_side side;
    struct kept_lean *next; /* of the same piece */
};

/* Ways for all seams of a quilt that no word binds. */
struct press_plan {
    struct planned_way **ways; /* by piece index; one that is not there is 1 */
    bool keeps;   /* the heaps as they are: what looks alike is pressed alike,
                     as by the rules; else each piece by itself, as by words */
    bool gathers; /* all that meets is kept; where heaps are not, each piece is
                     one of its own, so that it can be told apart */
    struct kept_lean *const *leans; /* by piece index */
    /* By piece index: as often must what the piece makes be turned to be its
     * own mirror image; NO_MIRROR where it is not. */
    const int *mirrors;
    /* By piece index: half-squares and quarter-squares that are made together
     * with others, and so are pressed as the rules have it. */
    const bool *bound;
    const struct press_graph *graph; /* that it comes from */
    int64_t pairs;                   /* that collide with it */
    const struct press_plan *next;   /* to be tried where this does not hold */
};
enum { NO_MIRROR = -1 };

struct sewer;

/* Builds a piece, its corners on it, by its craft. */
typedef struct ref build_function(struct sewer *sewer,
                                  const struct piece *piece,
                                  struct rational factor, bool mirror);

struct sewer {
    struct run *run;
    const struct sized *sized;
    build_function *build;    /* by the table of crafts */
    struct sewn_quilt *quilt; /* the one at work */
    struct memo **memos;      /* by piece index; NULL for none */
    struct kept_lean **leans; /* the same, by the rules */
    struct key_entry *keys;   /* open addressing, a power of two places */
    size_t key_capacity;
    LIST(struct collision) collisions; /* of the quilt at work */
    /* Of it, as it is pressed and with each piece apart; NULL where it was not
     * solved. */
    const struct press_graph *graph, *apart;
    const struct press_trial *trial; /* NULL where it is meant */
    const struct press_plan *plan;   /* NULL where the rules press */
    const struct cast *cast; /* of the definition at work; NULL where it has no
                                roles */
    struct arena *scratch;   /* while one heap is looked for and sewn */
    bool aside;              /* for its pressing alone: nothing is proved */
    bool counting; /* heaps for their number alone: only steps are told */
};

/* A booklet tells each cut size and each step on its pages: of all booklets of
 * a pattern, so many together. */
enum { LIMIT_TOLD = 15000 };

/* Begins with no heap at all. requires: run, sized and build. */
void begin_heaps(struct sewer *sewer, struct sewn_quilt *quilt);

/* The cast of the unit or block around changes to that of what the use shows.
 * ensures: the one before, which goes back into `sewer->cast`. */
const struct cast *enter_use(struct sewer *sewer, const struct piece *use);
/* The same for a definition by itself, whose roles keep their defaults. */
const struct cast *enter_definition(struct sewer *sewer,
                                    const struct definition *definition);
/* ensures: the fabric that plays the role of that number; a fabric itself. */
int fabric_in(const struct design *design, const struct cast *cast, int fabric);
int cast_fabric(const struct sewer *sewer, int fabric);
/* Do both name the same fabrics? Of one definition, or NULL. */
bool same_cast(const struct cast *a, const struct cast *b);
/* What the same piece was sewn as in the cast that came first; the heap itself
 * where there is none. All casts of a unit are laid and pressed alike, or each
 * would need its own steps; the first decides for all. */
const struct heap *cast_twin(const struct sewer *sewer,
                             const struct heap *heap);
/* The fabrics that pieces of a cut or a sewn piece name, as they are cast. */
int fabric_of(const struct sewer *sewer, const struct piece *piece, size_t i);

/* Finds or makes the heap of a piece whose definition is sewn at `factor` in
 * the cast at work, seen mirrored or not. Everything it is made from comes
 * first. */
struct ref build_heap(struct sewer *sewer, const struct piece *piece,
                      struct rational factor, bool mirror);

/* Looks at where the parts of a join meet, and keeps what collides. reports:
 * ends that nearly meet, points where many seams meet. */
void check_joints(struct sewer *sewer, const struct heap *heap,
                  const struct cloth *const *joined);

/* reports: seams that are pressed to the same side, once a heap, with a mend
 * that was tried. requires: all heaps of the quilt at work. */
void report_collisions(struct sewer *sewer);

/* A part of a number passed 1,024 bits on the way. reports: that, once; what is made
 * of such cloth is as little known. */
void report_too_fine(const struct sewer *sewer, const struct element *element);

/* The cloth of a heap fills its unfinished outline once: each next seam
 * finds the edge that it needs. Anything else is this program's fault. reports:
 * numbers on the way that became unknown, here and in verify_design. */
void verify_outline(const struct sewer *sewer, const struct heap *heap);

/* The cloth of a heap, inside its seams, is what the source draws, and what
 * its picture shows. Anything else is this program's fault: a source that does
 * not come out was reported before. */
void verify_design(const struct sewer *sewer, const struct heap *heap);

/* Both show the same fabrics in the same places.
 * requires: two that fill one rectangle. */
bool same_cloth(struct arena *arena, const struct cloth *a,
                const struct cloth *b);

/* reports: one-way prints that do not lie upright everywhere. */
void check_prints(struct sewer *sewer);

/* reports: fabrics that share a seam and whose cloths in a colorway can hardly
 * be told apart; one message a pair and colorway, the first 100. Of more than
 * 200 fabrics, nothing. requires: all quilts sewn. */
void check_contrast(struct run *run, const struct sewn *sewn);

/* Fills what the quilt at work takes of pieces and definitions. */
void count_taken(struct sewer *sewer);
/* Fills what a quilt knows of those that it does not take. */
void count_elsewhere(struct sewer *sewer, struct sewn *sewn);
/* reports: sizes in the designer's words of what no quilt takes.
 * requires: all quilts sewn. */
void check_references(struct sewer *sewer, const struct sewn_quilt *quilt);

/* Takes the steps of the assembly of `definition` in their order. */
void follow_assembly(struct sewer *sewer, const struct definition *definition,
                     struct rational factor, bool mirror);

/* Checks all assemblies: order, completeness, counts. Where errors were
 * reported, those that tell nothing of steps: see check_steps. */
void check_assemblies(struct sewer *sewer);

/* ensures: for each definition, whether it and all that it is made from has all
 * names, and has all sizes as well. */
const bool *named_throughout(struct arena *arena, const struct design *design);
const bool *sound_throughout(struct arena *arena, const struct sized *sized);

static inline struct heap *heap_at(const struct sewer *sewer, size_t index)
{
    return &sewer->quilt->heaps.items[index];
}

/* Size of an input as it lies in the heap that takes it: a quarter turn
 * exchanges the sides. */
static inline struct rational input_width(const struct sewer *sewer,
                                          const struct input *input)
{
    const struct heap *heap = heap_at(sewer, input->heap);
    return input->turn % 2 == 1 ? heap->height : heap->width;
}
static inline struct rational input_height(const struct sewer *sewer,
                                           const struct input *input)
{
    const struct heap *heap = heap_at(sewer, input->heap);
    return input->turn % 2 == 1 ? heap->width : heap->height;
}

#endif
