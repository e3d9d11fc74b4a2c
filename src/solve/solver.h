/* Inside the solving stage. Two variables a piece, numbered from its index, so
 * that no table is needed to go from one to the other; take_facts tells wide
 * from high by the last bit. */
#ifndef SEAMWRIGHT_SOLVER_H
#define SEAMWRIGHT_SOLVER_H

#include "system.h"

/* The variables of a piece: its width and its height as it lies. */
static inline variable width_of(const struct piece *piece)
{
    return 2 * piece->index;
}
static inline variable height_of(const struct piece *piece)
{
    return 2 * piece->index + 1;
}

/* The piece whose width or height it is. */
static inline const struct piece *piece_of(const struct design *design,
                                           variable v)
{
    return design->pieces.items[v / 2];
}
/* The definition in which that piece stands. Facts and sums are about variables
 * of their own piece, so it is also where they were written. */
static inline const struct definition *owner_of(const struct design *design,
                                                variable v)
{
    return piece_of(design, v)->owner;
}

/* diag_report about something in `owner`, which an error makes unsound: `sound`
 * is by definition index. */
struct diagnostic *
report_in(struct run *run, bool *sound, const struct definition *owner,
          enum diag_code code, struct span span, const char *format, ...)
    __attribute__((format(printf, 6, 7)));

/* What solving knows of a kind of piece; any row may lack any of it. */
struct sizing {
    /* Adds its equalities, sums and facts. `local_grid`: lengths inside are
     * grid squares. */
    void (*sizes)(struct system *system, const struct piece *piece,
                  bool local_grid);
    /* The cloth that it is cut from, where that is not its size and two seams;
     * and how that comes from the finished size. */
    struct real_size (*cut)(const struct pattern *pattern,
                            const struct piece *piece,
                            struct real_size finished);
    const char *(*cut_note)(struct run *run, const struct pattern *pattern,
                            const struct piece *piece,
                            struct real_size finished);
    /* Looks at it when all is solved. */
    void (*check)(struct run *run, const struct sized *sized,
                  const struct piece *piece);
};

#define SIZING_ROW(kind, element, name) \
    extern const struct sizing sizing_##name;
PIECE_LIST(SIZING_ROW)
#undef SIZING_ROW
const struct sizing *sizing_of(const struct piece *piece);

/* A check of pieces whose seams lie a root of 2 away (half_square.c).
 * reports: sizes that have no common measure with seam and step, or one so fine
 * that no ruler has it: that cloth is sewn a little nearer, in fractions. */
void check_across(struct run *run, const struct sized *sized,
                  const struct piece *piece);

/* A written size in the local unit of `element`'s definition. An attribute that
 * was written but not readable silences what it fixes. */
void length_fact(struct system *system, variable v,
                 const struct element *element, const struct stated *stated);
/* Something in the piece was reported: its sums would only echo that. */
void silence_all(struct system *system, const struct piece *piece);

/* True where the lengths inside are grid squares: a block with a grid, and a
 * unit that such a block uses. */
bool *find_local_grids(struct run *run, const struct design *design);

/* By piece index: true where the piece is its definition's, or lies in a cell
 * of one that is. A map may leave pieces out, and nothing fixes those. */
bool *find_lying(struct run *run, const struct design *design);

/* What definitions measure by their own pieces: not by their grids, not by what
 * stands beside them where they are used. All by definition index. */
struct own_sizes {
    bool measuring;         /* `size` is being found, the rest is not yet */
    const bool *local_grid; /* of find_local_grids */
    const bool *lies;       /* of find_lying; by piece index */
    /* In local units; unknown where the pieces leave it open or contradict each
     * other. */
    struct real_size *size;
    bool *wrong_grid;          /* the pieces speak against it, and are right */
    struct real_size *squares; /* the grid, or what stands for a wrong one */
    bool *told;                /* a misfit of it was reported */
};
/* ensures: all of it. Reports nothing. */
struct own_sizes *find_own_sizes(struct run *run, const struct design *design);
/* ensures: the squares of a block with a grid: those that its pieces make where
 * its grid is wrong; unknown where it could not be read. */
struct real_size squares_of(const struct own_sizes *own,
                            const struct definition *definition);
/* What a use states to be finished, as its target lies before the turn; unknown
 * where it says nothing. Real. */
struct real_size asked_size(const struct design *design,
                            const struct piece *use);
/* True where one is the other, larger or smaller. */
bool same_shape(struct real_size a, struct real_size b);

/* reports: each grid that is wrong. requires: the system is solved. */
void report_grids(struct system *system);
/* reports: a use that asks for a size which its target cannot have, once for a
 * target. ensures: true where it is such a use. */
bool report_misfit(struct system *system, const struct piece *use);

/* Makes the system of all sizes of a design. requires: system->own. */
void build_system(struct system *system);
/* Makes that of one definition, of which these are the pieces, in place of what
 * was there. requires: nothing of this definition was there before. */
void build_definition(struct system *system,
                      const struct definition *definition,
                      const struct piece *const *pieces, size_t count);

/* The sizes of a quilt with each of its borders, once its center has one. */
void size_borders(struct sized *sized, const struct definition *quilt);

/* Scales of all definitions, from the quilts down. reports: squares that do
 * not cut on a ruler. */
void find_scales(struct run *run, struct sized *sized);

/* Offers the nearest sizes that so many parts of it cut on a ruler, as `what`:
 * "finished sizes". */
void help_ruler(struct run *run, struct diagnostic *d,
                const struct pattern *pattern, struct rational finished,
                struct rational squares, const char *what);

/* Checks corners, and what is stated of sizes and counts. */
void check_sizes(struct run *run, const struct sized *sized);

/* reports: lengths that no ruler has, and pieces that a corner hides. */
void check_written(struct run *run, const struct sized *sized);

#endif
