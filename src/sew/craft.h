/* A craft is how the pieces of one technique are made: one file each, one row
 * each, and nothing about the technique elsewhere in this folder but its second
 * telling in design_faces.c. Here are the row and what crafts share to build
 * heaps. Read next: heaps.c, then patch.c, the shortest craft. */
#ifndef SEAMWRIGHT_CRAFT_H
#define SEAMWRIGHT_CRAFT_H

#include "buffer.h"
#include "design_faces.h"
#include "sewer.h"

struct bench;

/* A search for a slip of the pen: try_change tries one, and keeps it if it is
 * the best so far. */
struct slips {
    const struct sized *sized;
    void (*try_change)(struct slips *slips, struct change change);
};

struct craft {
    const char *name; /* begins the keys of its heaps */
    /* The piece without its corners. */
    build_function *build;
    /* Writes what is the same for heaps that look and are made the same, when
     * both lie as they do after `turn` quarter turns. */
    void (*key)(struct sewer *sewer, struct buffer *key,
                const struct heap *heap, unsigned turn);
    /* Sews the heap on the bench from its inputs: fills its cloth, its actions
     * and their seams. */
    void (*sew)(const struct bench *bench);
    /* The single slips that a piece may hold; NULL for none. */
    void (*slips)(struct slips *slips, const struct piece *piece);
    /* The pressing words that some seam of the piece can follow, as bits; NULL
     * for a piece without a seam of its own. */
    unsigned (*presses)(const struct piece *piece);
};

/* A row for each kind of piece, and for the corners that come on any. */
#define CRAFT_ROW(kind, element, name) extern const struct craft craft_##name;
PIECE_LIST(CRAFT_ROW)
#undef CRAFT_ROW
extern const struct craft craft_corners;

/* craft.c: */
build_function build_piece;
const struct craft *craft_of(const struct piece *piece);
/* The pressing words that some seam of the piece, its corners included, can
 * follow, as bits. */
unsigned piece_presses(const struct piece *piece);
/* reports: words that no seam of their piece or step can follow. */
void check_presses(struct run *run, const struct design *design);

/* mitre.c: borders whose corners are mitred, and the strips of several that are
 * joined first. A heap of the one is a border, of the other a join. */
extern const struct craft craft_mitred, craft_strip_set;
build_function build_mitred;
/* The pressing words that some seam of a mitred border can follow. */
unsigned mitred_presses(void);
/* Adds the borders that are sewn in the heap to those of the quilt, from the
 * inside out: of mitred ones, and (border.c) of any. */
void list_mitred(const struct sewer *sewer, struct sewn_quilt *quilt,
                 size_t index);
void list_border(const struct sewer *sewer, struct sewn_quilt *quilt,
                 size_t index);

/* patch.c: slips that any piece with fabrics may hold: another fabric in one
 * place, two exchanged. */
void try_fabrics(struct slips *slips, const struct piece *piece);
void try_exchanges(struct slips *slips, const struct piece *piece);

/* corners.c: the base with the piece's corners sewn on. */
struct ref build_corners(struct sewer *sewer, const struct piece *piece,
                         struct rational factor, bool mirror, struct ref base);
/* A square of this finished size on a corner of the recipe's rectangle, as its
 * next input; the base is its first. */
struct input *add_corner(struct sewer *sewer, struct heap *recipe, int fabric,
                         struct rational size, enum corner_place at);
/* angled.c: the outline of a shape whose row is so high, finished, and the way
 * in which it is cut from a strip, one seam larger on each side. Whole tips: a
 * triangle's strip is three seams higher than its row (J. Wickell, Quilting,
 * 60-degree triangles: finished height and 3/4 in), all others' two (half
 * hexagons: common practice; diamonds: Rotary cutting, part 6, 2015). requires: a
 * shape that is angled. */
struct outline angled_outline(struct arena *arena, enum patch_shape shape,
                              struct rational height);
const struct strip_shape *angled_strip(struct arena *arena,
                                       enum patch_shape shape,
                                       struct rational height,
                                       struct rational seam);
/* The cloth of one, as cut, where its finished outline begins at 0, 0. */
struct outline angled_cut(struct arena *arena, enum patch_shape shape,
                          struct rational height, struct rational seam);
/* patch.c: the heap of a rectangle of this finished size. `recipe` gives piece
 * and scale, for messages. */
struct ref build_cut(struct sewer *sewer, struct heap recipe, int fabric,
                     struct rational width, struct rational height);
/* The same for a strip of border number `border`, which is a heap of its own
 * even where a piece has its size. */
struct ref build_strip(struct sewer *sewer, struct heap recipe, int fabric,
                       size_t border, struct rational width,
                       struct rational height);
/* Those of a star: a diamond, its upper edge level, and a triangle with legs of
 * this finished length at its top left corner, cut from a square with three
 * others. */
struct ref build_diamond(struct sewer *sewer, struct heap recipe, int fabric,
                         const struct star_cut *of);
struct ref build_side_triangle(struct sewer *sewer, struct heap recipe,
                               int fabric, struct rational legs);

/* half_square.c: the heap of a half-square of this finished width. `recipe` has
 * no inputs yet and gives piece, scale and mirror; `half` is as it lies, its
 * slack found here. */
struct ref build_half(struct sewer *sewer, struct heap recipe,
                      struct half_square half, struct rational width);

/* ---- heaps.c: recipes, which become heaps where there is none like them ----
 */

/* What all kinds of heap share. Sizes are those of the piece as it lies in its
 * definition. */
struct heap recipe_for(const struct sewer *sewer, const struct piece *piece,
                       struct rational factor, bool mirror,
                       enum technique technique, const struct craft *craft);
/* (x, y) is the finished corner in the finished rectangle of the heap. */
struct input *add_input(struct sewer *sewer, struct heap *recipe,
                        struct ref ref, struct rational x, struct rational y);
/* A cell's heap, as it lies in a container that is seen mirrored or not. */
struct ref build_cell(struct sewer *sewer, const struct cell *cell,
                      struct rational factor, bool mirror);
/* The heap that looks like `recipe`, perhaps turned; a new one, sewn, if there
 * is none. A recipe of one input without a seam is that input. */
struct ref find_or_add(struct sewer *sewer, struct heap *recipe);

/* Equal numbers have equal texts. */
void key_number(struct buffer *key, struct rational value);
/* ensures: the inputs as they lie after the whole was turned, in an array of
 * their own, in the heap's order. */
struct input *turned_inputs(struct sewer *sewer, const struct heap *heap,
                            unsigned turn);
/* The order of reading. */
void sort_inputs(struct input *inputs, size_t count);
void key_inputs(struct sewer *sewer, struct buffer *key,
                const struct input *inputs, size_t count);
/* What the designer says of the seams of an operation. What the rules choose is
 * not told apart: else a block that looks the same from all sides would be a
 * heap a side. */
void key_press(const struct sewer *sewer, struct buffer *key,
               const struct heap *heap, unsigned turn,
               const struct operation *operation);

#endif
