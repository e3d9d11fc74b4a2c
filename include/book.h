/* owner: book
 *
 * A finished booklet: pages of drawing items, with nothing left to decide.
 * Lengths are PostScript points (1/72 in); the origin is the top left corner
 * of the page, x to the right, y down. A back end walks the items in order.
 */
#ifndef SEAMWRIGHT_BOOK_H
#define SEAMWRIGHT_BOOK_H

#include <stdbool.h>
#include <stddef.h>

#include "arena.h"

struct point {
    double x, y;
};

struct color {
    double red, green, blue; /* 0 to 1, sRGB */
};

enum item_kind {
    ITEM_PATH,      /* polygon or polyline: fill, then hatch, then stroke */
    ITEM_TEXT,      /* one laid-out paragraph */
    ITEM_IMAGE,     /* a photo */
    ITEM_TAG_BEGIN, /* opens a structure element ("P", "Table", "Figure") */
    ITEM_TAG_END,
    ITEM_LATER /* thousands of paths, see page_items */
};

/* What a path stands for, for back ends that can say so. */
enum path_role {
    ROLE_DRAWING, /* nothing special */
    ROLE_CLOTH,   /* the right side */
    ROLE_WRONG_SIDE,
    ROLE_OUTLINE, /* of a part as it lies */
    ROLE_MARK,    /* a line that is drawn, sewn or cut; an arrow */
    ROLE_WASTE
};

/* Lines of hatching across a path, clipped to it. */
struct hatch {
    double angle;   /* degrees, 0 = horizontal, 45 = rising */
    double spacing; /* points */
    double width;   /* of each line */
    bool dotted;    /* dots instead of lines */
    struct color color;
};

struct path_item {
    const struct point *points;
    size_t count;
    bool closed;
    bool filled;
    struct color fill;
    const struct hatch *hatch; /* or NULL: few paths have one */
    double stroke; /* line width, 0 for none */
    struct color stroke_color;
    double dash[6]; /* lengths, 0 ends the list */
    bool round_ends;
    enum path_role role;
};

enum text_face {
    FACE_REGULAR,
    FACE_BOLD,
    FACE_ITALIC,
    FACE_DISPLAY /* heads of sections, numerals of steps, the cover */
};
enum text_align { ALIGN_LEFT, ALIGN_CENTER, ALIGN_RIGHT };

struct text_style {
    enum text_face face;
    double size; /* points */
    enum text_align align;
    struct color color;
};

struct text_item {
    const char *text; /* UTF-8, no mark-up */
    double x, y;      /* top left of the box before it is turned */
    double width;     /* the box's width: wraps there; 0 = one line, x is the
                         left end, middle or right end as `align` says */
    double angle;     /* degrees clockwise about (x, y) */
    struct text_style style;
    bool plate; /* a white plate behind the text */
};

/* What the name of an element leaves open. */
enum tag_role {
    ROLE_NONE,
    ROLE_COLUMN_HEAD, /* of a TH: it heads the cells below */
    ROLE_NUMBERED,    /* of an L: what its labels are */
    ROLE_LETTERED,
    ROLE_BULLETED
};

/* Beside the types of ISO 32000-1, 14.8.4: "Link" leads to the place of its
 * attribute "dest='NAME'"; TAG_PLACE with "name='NAME' x=X y=Y" is such a
 * place and no element. Text and drawings belong to the innermost element;
 * where that holds others too, or there is none, they are an artifact. */
#define TAG_PLACE "cairo.dest"

/* The bytes of a PNG or JPEG file, stretched to the box. */
struct image_item {
    bool jpeg; /* else PNG */
    const char *bytes;
    size_t length;
    unsigned pixels_across, pixels_down;
    unsigned turn;              /* clockwise quarter turns */
    double x, y, width, height; /* points, from the top left corner */
};

struct tag_item {
    const char *name;       /* a PDF structure type or TAG_PLACE */
    const char *attributes; /* as cairo_tag_begin takes them; may be "" */
    /* what a figure tells, in words, or where a link leads, or NULL */
    const char *alternative;
    enum tag_role role;
};

/* A LIST by name, as boxes hold one, too. */
struct item;
struct item_list {
    struct item *items;
    size_t count;
    size_t capacity;
};

/* Paths that are made each time the page is walked: many pages show the cloth
 * of a large quilt, and all its faces on all of them would fill the memory.
 * `make` adds them; they are then moved by each of the moves in turn. */
struct later_item {
    void (*make)(const void *what, struct arena *arena,
                 struct item_list *items);
    const void *what;
    const struct point *moves;
    size_t move_count;
};

struct item {
    enum item_kind kind;
    union {
        struct path_item path;
        struct text_item text;
        struct image_item image;
        struct tag_item tag;
        struct later_item later;
    } as;
};

struct page {
    struct item_list items;
    const char *label;  /* page label, as printed */
    bool true_to_scale; /* something on it is meant to be measured on paper */
    bool bare;          /* without a foot: a drawing takes all of it */
};

/* ensures: the items of the page, with what is made later in its place: in the
 * arena where there is such, else the page's own. */
struct item_list page_items(struct arena *arena, const struct page *page);

struct outline_entry {
    const char *title;
    size_t page; /* from 0 */
    double y;    /* where on the page */
    int depth;   /* 0 for a section, 1 below it, ... */
};

struct book {
    double width, height; /* of the paper, in points */
    const char *title, *author, *subject;
    const char *language; /* "en" */
    const char *date;     /* ISO 8601 date of the pattern, or NULL */
    bool true_scale;      /* some page is drawn in its real size */
    LIST(struct page *) pages;
    LIST(struct outline_entry) outline;
};

#endif
