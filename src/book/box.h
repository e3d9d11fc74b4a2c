/* A box is a part of a page that stays together: items placed relative to its
 * top left corner, and its size. Pages are made by putting boxes under each
 * other (flow.h). Lengths are points. Boxes are built from the inside out;
 * nothing is moved after it was put. Read next: flow.h. */
#ifndef SEAMWRIGHT_BOX_H
#define SEAMWRIGHT_BOX_H

#include "design.h"
#include "look.h"
#include "typeset.h"

struct box;

/* A box inside another, behind so many of its items. */
struct box_part {
    const struct box *box;
    double x, y;
    size_t behind;
};

/* What is drawn into a box only where it is asked for: most figures are laid
 * out in more sizes than pages take. */
struct late_drawing {
    void (*draw)(struct box *box, const void *what);
    const void *what;  /* stays as it is as long as the booklet is composed */
    struct box *drawn; /* NULL before that */
};

struct box {
    double width, height;    /* what a row takes of it */
    double space_before;     /* dropped at the top of a page */
    bool keep_with_next;     /* no page ends behind it */
    bool half;               /* stands in one of two columns */
    const struct box *again; /* what is put above it where it starts a column
                                or page, or NULL */
    bool starts_page;        /* a section's first, unless there is much room */
    bool turns_page;         /* in any case */
    bool true_to_scale;      /* something in it is meant to be measured */
    bool bare;               /* its page has no foot */
    struct item_list items;  /* its own; `parts` come between them */
    LIST(struct box_part) parts;
    struct late_drawing *late; /* what lies below all of these, or NULL */
    const char *outline;       /* a bookmark to here, or NULL */
    int outline_depth;
    /* Names by which links lead to here, or NULL. */
    const char *place, *also;
    char *page_label; /* of PAGE_LABEL bytes: gets the label of the page that
                         the box comes to lie on, as texts that stand for it
                         are drawn only then; or NULL */
    /* Boxes of one table or list, in a row: "Table", "L", or NULL. */
    const char *group;
    bool group_begins; /* its first, even behind another of its kind */
    enum tag_role group_role;
};

enum { PAGE_LABEL = 24 };

/* So many paths in a row are made later (book.h). */
enum { BOX_MANY = 16384 };

struct canvas {
    struct arena *arena;
    struct typeset *typeset;
    double width;        /* of the column that boxes fill */
    bool hatched;        /* finished cloth is hatched, for print in grey */
    struct color accent; /* of headings */
    const struct design *design; /* tells which prints have a way; or NULL */
};

/* ensures: an empty box of that size, in the arena. What is put into it may
 * reach beyond. */
struct box *box_new(const struct canvas *canvas, double width, double height);
/* Puts `part` into `box` at (x, y); the box does not grow. The part is not
 * copied: nothing is drawn into it from then on. */
void box_put(const struct canvas *canvas, struct box *box,
             const struct box *part, double x, double y);
/* What `draw` will put below the items of the box (late_drawing). */
void box_draw_late(const struct canvas *canvas, struct box *box,
                   void (*draw)(struct box *box, const void *what),
                   const void *what);
/* ensures: what lies below the items of the box, drawn by now; or NULL. */
const struct box *box_below(const struct canvas *canvas, const struct box *box);
/* Adds all items of a box and its parts, in their order, as they lie where the
 * box lies at (x, y). Thousands of paths in a row become one item that makes
 * them later, from the box. */
void box_flatten(const struct canvas *canvas, const struct box *box, double x,
                 double y, struct item_list *items);
/* The same into a box, and nothing later: for who changes the items. */
void box_copy(const struct canvas *canvas, struct box *box,
              const struct box *part, double x, double y);
/* Under each other, `gap` between. As wide as the widest, as high as all with
 * the gaps. */
struct box *box_stack(const struct canvas *canvas, struct box *const *parts,
                      size_t count, double gap);
/* Side by side, tops aligned. As wide as all with the gaps, as high as the
 * highest. */
struct box *box_row(const struct canvas *canvas, struct box *const *parts,
                    size_t count, double gap);

/* A paragraph of `width`; its height is measured. */
struct box *box_text(const struct canvas *canvas, const char *text,
                     struct text_style style, double width);
/* The same as a heading of the structure: "H1", "H2". */
struct box *box_heading(const struct canvas *canvas, const char *text,
                        struct text_style style, double width, const char *tag);
/* A number and its unit stay on one line, and all of a size: "\u00bc in",
 * "6 \u00d7 2 in". */
const char *box_bind_units(const struct canvas *canvas, const char *text);
/* The text, or as much of it as fits `width` on one line and dots. */
const char *box_fitted(const struct canvas *canvas, const char *text,
                       struct text_style style, double width);
/* The same where a column may be narrower than a short text. */
const char *box_cut(const struct canvas *canvas, const char *text,
                    struct text_style style, double width);
/* One line, as wide as it is. */
struct box *box_line(const struct canvas *canvas, const char *text,
                     struct text_style style);

/* Drawing into a box. Closed; `like` gives fill, hatch and stroke. Points are
 * copied. */
void box_polygon(const struct canvas *canvas, struct box *box,
                 const struct point *points, size_t count,
                 struct path_item like);
void box_rectangle(const struct canvas *canvas, struct box *box, double x,
                   double y, double width, double height,
                   struct path_item like);
/* One straight line. */
void box_stroke(const struct canvas *canvas, struct box *box, double x1,
                double y1, double x2, double y2, struct path_item like);
/* One line of text at (x, y), turned by `angle` degrees clockwise; on a white
 * plate where it must be read over a figure. */
void box_label(const struct canvas *canvas, struct box *box, double x, double y,
               const char *text, struct text_style style, double angle,
               bool plate);
/* Lines of text inside a figure: wrapped at `width`, and no element of their
 * own. ensures: their height. */
double box_words(const struct canvas *canvas, struct box *box, double x,
                 double y, const char *text, struct text_style style,
                 double width);
/* Opens an element of the document's structure; each needs its end. */
void box_tag(const struct canvas *canvas, struct box *box, const char *name,
             const char *alternative);
void box_tag_end(const struct canvas *canvas, struct box *box,
                 const char *name);

#endif
