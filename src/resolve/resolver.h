/* Inside the resolving stage. What the files of this folder tell each other.
 * Everything is written into the one design, which is const for all others. */
#ifndef SEAMWRIGHT_RESOLVER_H
#define SEAMWRIGHT_RESOLVER_H

#include "design.h"

/* Pieces of cloth in one quilt, block or unit, in all quilts, and in all blocks
 * and units together; in all quilts times colorways; rows, columns, grids and
 * uses inside each other, whatever definitions they stand in; and assemblies
 * and their steps, all together. */
enum {
    LIMIT_PIECES = 200000,
    LIMIT_DRAWN = 500000,
    LIMIT_NEST = 200,
    LIMIT_STEPS = 1000
};

/* Roles of one unit or block and of all; casts of all units and blocks, each
 * once. */
enum { LIMIT_ROLES = 100, LIMIT_ALL_ROLES = 2000, LIMIT_CASTS = 2000 };

/* Of pictures told as polygons. */
enum {
    LIMIT_SHAPES = 5000,
    LIMIT_CORNERS = 100,      /* of a shape */
    LIMIT_ALL_CORNERS = 20000 /* of all shapes of all pictures */
};

/* Cells of a grid, its sashing included: 200 by 200, more than any quilt; each
 * becomes a part of a figure. */
enum { LIMIT_CELLS = 40000 };

/* Elements that tell of one quilt's quilting, threads with them. */
enum { LIMIT_QUILTING = 1000 };

struct resolver {
    struct run *run;           /* where names that are missing are reported */
    struct design *design;     /* the one that is filled */
    struct name_table unknown; /* names that were told to be nowhere */
    struct name_table pieces;  /* pieces by their ids, the first of each */
    size_t corners;            /* of all shapes so far */
    bool roles_told;           /* that there are too many in all */
    const struct definition
        *within; /* whose roles can be named; NULL for none */
};

/* ---- values of elements ---- */

/* What is written there, as a fact of the design. */
struct stated stated_of(const struct element *element, enum attribute_id id);
/* ensures: the length or number, or unknown. */
struct rational length_of(const struct element *element, enum attribute_id id);
/* ensures: the whole number, or 0. */
long whole_of(const struct element *element, enum attribute_id id);
/* ensures: the place of a word in its list, which enums in design.h follow. */
int choice_of(const struct element *element, enum attribute_id id,
              int otherwise);
struct stated_amounts amounts_of(const struct element *element,
                                 enum attribute_id id);

/* ---- names ---- */

/* ensures: the fabric's index, or NO_FABRIC. reports: a name that is not
 * there. */
int bind_fabric(struct resolver *resolver, const struct element *element,
                enum attribute_id id);

/* The same for a name that stands at `span` of the element. */
int bind_fabric_text(struct resolver *resolver, const struct element *element,
                     const char *text, struct span span);

/* ---- roles (roles.c) ---- */

/* Reads the roles of a unit or block. requires: fabrics. reports: names and
 * keys that stand twice, fabrics that are not there. */
void resolve_roles(struct resolver *resolver, struct definition *definition);
/* ensures: the number of the definition's role of that id, or NO_FABRIC. */
int role_named(const struct design *design, const struct definition *definition,
               const char *id);
/* Something names the role. */
void use_role(struct resolver *resolver, int role);
/* reports: roles that nothing names. requires: all pieces. */
void check_roles_used(struct resolver *resolver);
/* reports: more casts than anyone could sew. requires: all pieces; nothing
 * where there was an error. */
void check_casts(struct resolver *resolver);
/* Fills the cast of a use whose target is bound. requires: the roles of all
 * definitions. reports: roles that its target has not, or that are cast twice.
 */
void bind_casts(struct resolver *resolver, struct piece *use);

/* ---- what is not sound ---- */

/* What stands in a definition, or a definition, is not sound: that was
 * reported. Of other elements nothing is kept. */
void mark_definition(struct resolver *resolver, const struct element *element);
/* diag_report about the element, which an error makes unsound. */
struct diagnostic *
report_about(struct resolver *resolver, const struct element *element,
             enum diag_code code, struct span span, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* In the order in which resolve.c calls them; each reports what its names lack.
 */
void resolve_fabrics(struct resolver *resolver);
void resolve_colorways(struct resolver *resolver);
void resolve_definitions(struct resolver *resolver);
/* reports: booklets that would have one file name, or too long a one. requires:
 * colorways and definitions. */
void check_file_names(struct resolver *resolver);
/* Behind it each use has a target that leads nowhere in a circle, and chains of
 * at most LIMIT_NEST pieces. requires: all pieces. */
void check_uses(struct resolver *resolver);
void resolve_assemblies(struct resolver *resolver);
/* What is told of the quilting of each quilt, and the spools of colorways.
 * requires: all pieces and their ids. reports: threads, lines and places that
 * are not there, names that stand twice, attributes that exclude each other. */
void resolve_quilting(struct resolver *resolver);
/* The designer's words: the summary and what steps say. */
void resolve_words(struct resolver *resolver);

/* Which unit, block or quilt, or else which piece with an id, an attribute
 * names. `pieces` is false where pieces cannot be meant. reports: a name of
 * none of them, with `what` it should be. */
struct named {
    const struct definition *definition;
    const struct piece *piece;
};
struct named bind_named(struct resolver *resolver,
                        const struct element *element, enum attribute_id id,
                        bool pieces, const char *what);

/* The photo and the logo that `about` names, or NULL. reports: a file that is
 * none. */
const struct photo *resolve_photo(struct run *run, const struct element *about);
const struct photo *resolve_logo(struct run *run, const struct element *about);
/* The font of headings that `about` names, or NULL. requires: the design's
 * title. reports: a file that is none, that may not be embedded, or that lacks
 * letters of the title or of the booklet's headings. */
const struct font *resolve_display_face(struct run *run,
                                        const struct design *design,
                                        const struct element *about);
/* reports: a color of headings that is too pale to be read. */
struct accent resolve_accent(struct run *run, const struct element *about);
/* Two digits of #rrggbb from `at` on, 0 to 1. */
double color_part(const char *text, size_t at);
/* What the bytes of a file are. ensures: NULL and the photo filled, or what is
 * wrong with them, as the end of a sentence. */
const char *photo_of_bytes(const char *bytes, size_t length,
                           struct photo *photo);

/* Makes the pieces of one definition. */
const struct piece *resolve_piece(struct resolver *resolver,
                                  const struct definition *owner,
                                  const struct element *element);
/* What all kinds have; a border gets its cells in borders.c. */
struct piece *new_piece(struct resolver *resolver,
                        const struct definition *owner,
                        const struct element *element);
/* The same for a piece that the element does not tell by its name. */
struct piece *new_piece_of_kind(struct resolver *resolver,
                                const struct definition *owner,
                                const struct element *element,
                                enum piece_kind kind);
/* Rows that lie on each other are pressed in turns, so that they nest. */
void link_rows(struct resolver *resolver, const struct piece *whole);
/* Puts the sashing of a grid, if it has one, between its cells. requires: as
 * many cells as it is across times down, else nothing is done. reports: a
 * sashing of nothing, or of two things. */
void add_sashing(struct resolver *resolver, struct piece *grid);
/* Puts the blocks of a setting on point, which its children or its map told,
 * into diagonal rows, with its sashing and its triangles. reports: what cannot
 * be set so. */
void set_on_point(struct resolver *resolver, struct piece *piece);
/* Puts what the children or the map of rows of triangles told into rows, with
 * halves at their ends. reports: rows that are not as long as all. */
void set_triangles(struct resolver *resolver, struct piece *piece);
/* Rows of a map, its cells in one of them, counted from 0, and all of them. */
size_t map_rows(const struct piece *piece);
size_t map_row_cells(const struct piece *piece, size_t row);
size_t map_cells(const struct piece *piece);
/* reports: `times` on the root of a definition, or at a border's corner. */
void reject_times_alone(struct resolver *resolver,
                        const struct element *element);
/* Binds a fabric of the piece. ensures: it, or NO_FABRIC. */
int add_fabric(struct resolver *resolver, struct piece *piece,
               enum attribute_id id);
/* ensures: the cell at the end of the list. `span` is what a message about this
 * cell points at: the child's name, or the word in the map. */
struct cell *add_cell(struct resolver *resolver, struct piece *piece,
                      const struct piece *child, struct span span);
/* More cells come of repeats. ensures: false where they are more than anybody
 * sews, in all the pattern. reports: that, once. */
bool may_repeat(struct resolver *resolver, const struct element *element,
                struct span span, size_t more);
/* What is wrong with its cells was said: sizes would only echo it. */
void break_piece(struct resolver *resolver, struct piece *piece);
/* The grid's children are the stock that the map draws from: they leave the
 * list of cells and come back as often as the map names them. reports: keys
 * that stand twice, words that name none, another number of cells than the grid
 * has, children that no cell names. */
void read_map(struct resolver *resolver, struct piece *piece,
              const struct element *map);
/* Reads a map or a picture, told as `what`. ensures: false where that is not
 * possible. reports: counts and groups that say nothing, with this code; more
 * repeats than the pattern may have. */
bool resolve_drawing(struct resolver *resolver, const struct element *element,
                     enum diag_code code, struct drawn_text *drawing);
/* Reads a border; makes the borders of a definition pieces, once its root is
 * there. */
void read_border(struct resolver *resolver, struct definition *definition,
                 const struct element *element);
void place_borders(struct resolver *resolver, struct definition *definition);
/* True for elements that make cloth. */
bool is_piece(enum element_kind kind);
/* reports: `press` and `toward` on one element. */
struct press resolve_press(struct resolver *resolver,
                           const struct element *element);

/* Reports a name or key that stands in `id` of two elements: at the second,
 * with a note at the first. */
void report_second(struct resolver *resolver, const struct element *second,
                   const struct element *first, enum attribute_id id,
                   const char *text);

/* Reports a name of which there is none, with what is near. `names` are the
 * ones that there are. */
void report_unknown_name(struct resolver *resolver, enum diag_code code,
                         const struct element *element, enum attribute_id id,
                         const char *what, const char *const *names,
                         size_t count);

/* The same for a name that stands at `span` of the element. */
void report_unknown(struct resolver *resolver, enum diag_code code,
                    const struct element *element, const char *text,
                    struct span span, const char *what,
                    const char *const *names, size_t count);

/* How a piece lies that a map or a picture names: what stands behind its key,
 * "", ".90", ".m" or ".m90"; the mirror before the turn, the order in which they
 * act. ensures: false where it is none of them. */
bool read_lie(const char *text, size_t length, struct orientation *lie);

/* Fills what the definition knows of its picture. requires: of a quilt, its
 * pieces. */
void resolve_picture(struct resolver *resolver, struct definition *definition,
                     const struct element *picture);

#endif
