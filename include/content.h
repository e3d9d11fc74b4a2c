/* owner: tell
 *
 * What the sections of a booklet say: headings, paragraphs, tables, lists,
 * figures and steps, as values in the order of reading. A figure says what is
 * drawn, not how; a part says what belongs together, not where it stands. So
 * pages are made from it (src/book), and other outputs may be. Texts are UTF-8
 * and never NULL but where it is said. Read next: told_step.h.
 */
#ifndef SEAMWRIGHT_CONTENT_H
#define SEAMWRIGHT_CONTENT_H

#include "exploded.h"
#include "kits.h"
#include "name_table.h"
#include "told_cutting.h"

/* Words, and where they lead. */
struct told_text {
    const char *text;
    const char *place; /* of the booklet, or NULL for plain words */
    const char *told;  /* where that is, in words; with a place only */
};

/* A cloth of an order, which is in no colorway. */
struct told_swatch {
    bool there;
    long color;         /* 0xrrggbb */
    const char *letter; /* on it, "" for none */
};

/* Below the section's own heading, of level 1, there is level 2 alone. */
struct told_heading {
    int level;
    const char *title, *lead; /* the lead is a sentence, or "" */
    struct told_swatch swatch;
};

/* Runs follow each other without a blank between. */
struct told_paragraph {
    const struct told_text *runs;
    size_t count;
};

/* Signs that figures have, in the order in which they are explained. */
enum told_sign {
    SIGN_NONE,
    SIGN_RIGHT_SIDE,
    SIGN_WRONG_SIDE,
    SIGN_DRAWN, /* lines */
    SIGN_SEWN,
    SIGN_CUT,
    SIGN_DOT, /* where a seam ends */
    SIGN_PRESSED, /* to one side */
    SIGN_PRESSED_OPEN,
    SIGN_TURNED_OVER, /* a flap */
    SIGN_TURNED,      /* a part that lies turned */
    SIGN_SEAM_NUMBER,
    SIGN_PRINT, /* the way that it runs */
    SIGN_COUNT
};

struct told_point {
    const char *label; /* before the text, or "" */
    const char *text;
    /* The label is the letter of this fabric, on its swatch; NULL for none. */
    const struct colorway *colorway;
    int fabric;
    enum told_sign sign; /* that the text explains */
};
struct told_list {
    LIST(struct told_point) items;
};

/* ---- tables ---- */

/* Amounts and numbers stand at the right, amounts strong. */
enum column_kind { COLUMN_WORDS, COLUMN_CLOTH, COLUMN_AMOUNT, COLUMN_NUMBER };

struct told_column {
    enum column_kind kind;
    const char *head; /* or "" */
};
struct told_cell {
    struct told_text text;
    LIST(const char *) others; /* below the text, of less weight */
    /* The cell has the swatch of this fabric; NULL for none. */
    const struct colorway *colorway;
    int fabric;
    /* With a colorway: the cell has a sample of this thread instead; NULL for
     * none. */
    const struct quilting_plan *quilting;
    size_t thread;
    size_t more; /* columns beside its own that it takes, too */
    struct told_swatch swatch; /* beside its words */
    size_t ticks;              /* boxes to tick, in place of words */
};
/* A cell for each column that none reaches into. */
struct told_row {
    LIST(struct told_cell) cells;
};
struct told_table {
    LIST(struct told_column) columns;
    LIST(struct told_row) rows;
};

/* ---- rolls of an order ---- */

enum told_stretch_kind {
    STRETCH_CUT,
    STRETCH_KEPT, /* goes back to the shelf */
    STRETCH_LOST, /* an end that is too short, squaring */
    STRETCH_FLAW
};
/* A part of a roll; of cuts `count` alike, one behind the other. */
struct told_stretch {
    enum told_stretch_kind kind;
    size_t count;
    struct rational from, to; /* from the end of the roll */
    const char *label;        /* that fits or is left out */
};
struct told_roll {
    long color;                      /* of its cloth, 0xrrggbb */
    struct rational length, longest; /* its own; what is as wide as the page */
    const char *begin, *end;         /* labels of its ends */
    LIST(struct told_stretch) stretches;
};

/* ---- figures ---- */

enum drawing_kind {
    DRAWING_BLOCK,   /* `heap` taken apart, its parts named */
    DRAWING_BORDERS, /* the top; `labels` name its borders from the inside */
    DRAWING_STEPS,   /* from parts to quilt; a label may name the borders */
    DRAWING_QUILT,   /* the top of `quilt`, in `colorway` */
    DRAWING_PHOTO,   /* the designer's */
    DRAWING_BLOCK_LINES, /* all seams of `heap`, to color */
    DRAWING_TOP_LINES,
    DRAWING_INCH,        /* a square of it */
    DRAWING_CENTIMETRES, /* a square of two */
    /* The seam of `width`, beside it one of `height`; labels of the edge and of
     * both, the last of them where there is one. */
    DRAWING_SEAM,
    DRAWING_SHAPE,        /* of `width` and `height`, with its label */
    DRAWING_FOLD,         /* how cloth is folded, and a strip cut from it */
    DRAWING_FOLDED_STRIP, /* of `strip`, what is cut folded */
    DRAWING_OPENED_STRIP,
    DRAWING_SHAPES,
    DRAWING_LENGTHWISE, /* `sheet`, along the selvage */
    DRAWING_SHEET,      /* `sheet`, one layer */
    DRAWING_MOVE,       /* `state`, with some kinds of its marks */
    DRAWING_MADE,       /* the same when all is done */
    DRAWING_APART,      /* what `exploded` holds, laid out */
    DRAWING_JOINED,
    DRAWING_BORDER_MEASURED, /* around what `heap` is sewn */
    DRAWING_BORDER_APART,
    DRAWING_BORDERED, /* all of them sewn on */
    DRAWING_BACKING,  /* its panels */
    DRAWING_LAYERS,
    DRAWING_QUILTING,
    DRAWING_BINDING_JOIN, /* in the order of the work */
    DRAWING_BINDING_FOLD,
    DRAWING_BINDING_START, /* one label: how long the end stays loose */
    DRAWING_BINDING_STOP,
    DRAWING_BINDING_UP,
    DRAWING_BINDING_DOWN,
    DRAWING_BINDING_CLOSE,
    DRAWING_BINDING_BACK,
    DRAWING_QUILTING_MAP,      /* its areas, by letters, and all lines */
    DRAWING_QUILTING_STAGE,    /* lines of `stage`, over those before it */
    DRAWING_QUILTING_SEQUENCE, /* the path in an area of `kind` */
    DRAWING_QUILTING_MARKS,    /* what is drawn on the cloth, in true size */
    DRAWING_ROLL,              /* `roll`, to scale */
    DRAWING_KIT                /* the quilt of `kit`, as it is kept */
};

/* Only what the kind of drawing asks for is there, else 0 or NULL. What it
 * points to is the design's, the plan's or the sewn quilt's. */
struct told_figure {
    enum drawing_kind drawing;
    size_t heap; /* its index in the quilt */
    const struct sewn_quilt *quilt;
    const struct colorway *colorway;
    struct rational width, height;
    const struct strip_shape *shape; /* within them; NULL: the rectangle */
    const struct strip *strip; /* of a cutting plan */
    const struct sheet *sheet;
    const struct state *state; /* of an action, with these marks: */
    bool drawn, sewn, cut;
    bool close; /* only a part of the work, drawn larger than the rest */
    const struct exploded *exploded;
    const struct quilting_plan *quilting; /* of it: */
    enum quilting_stage stage;
    size_t kind;
    const struct told_roll *roll;
    const struct kit_facts *kit;
    const char *caption;       /* or "" */
    const char *told;          /* what is drawn, in words */
    LIST(const char *) labels; /* of the drawing, beside names of parts */
    bool result;               /* of a step: what was made */
    bool wide;                 /* of so many parts that it takes a whole row */
};

/* ---- steps ---- */

enum picture_kind { PICTURE_NONE, PICTURE_SWATCH, PICTURE_CLOTH };

/* What a step takes. */
struct told_entry {
    enum picture_kind picture; /* of `fabric`, or of the sewn `heap` */
    int fabric;
    size_t heap;
    struct told_text label; /* leads where it comes from */
    const char *words;      /* cloth and size */
    const char *count;      /* "× 36", or "" */
};
struct told_note {
    const char *lead; /* before the text, or "" */
    const char *text;
};

/* A step of the work. */
struct told_work {
    size_t number;
    const char *title, *made;     /* "Make 36", or "" */
    const char *place;            /* by which links lead here, or NULL */
    const struct told_step *step; /* or NULL, where nothing is sewn up */
    size_t told_in; /* the step that tells the technique in full; this one where
                       they are equal, 0 for none */
    LIST(struct told_entry) parts;
    LIST(struct told_note) before;
    LIST(struct told_note) ahead;    /* about the frames */
    LIST(struct told_figure) frames; /* in the order of the work */
    const char *other; /* what leads from them to another way, or "" */
    LIST(struct told_figure) others;
    LIST(struct told_table) tables;
    LIST(struct told_note) after;
};

/* ---- cutting ---- */

enum told_weight { WEIGHT_PLAIN, WEIGHT_STRONG, WEIGHT_SMALL };
struct told_warning {
    const char *text;
    enum told_weight weight;
};

/* A numbered line, by its number from 1. */
struct told_cutting {
    struct told_line words;
    LIST(struct told_figure) figures; /* before and after it is opened */
};

/* How one cloth is cut. */
struct told_cloth {
    int fabric;
    const char *place; /* by which links lead here */
    const char *name, *amount;
    LIST(struct told_warning) warnings; /* before the first cut */
    LIST(struct told_cutting) lines;
    const char *count; /* what all lines give */
    /* What is cut from strips that are joined. */
    LIST(const char *) joined;
    const char *notes; /* of the plan, or "" */
};

/* ---- all of it ---- */

enum content_kind {
    CONTENT_HEADING,
    CONTENT_PARAGRAPH,
    CONTENT_LIST,
    CONTENT_TABLE,
    CONTENT_FIGURE,
    CONTENT_CLOTH,   /* how one is cut */
    CONTENT_WORK,    /* a step */
    CONTENT_SECTIONS /* the headings of the booklet's sections, as a list */
};

/* What belongs together in a section. Pages may set parts beside each other,
 * and give each its looks. */
enum content_part {
    PART_MAIN,
    PART_DESIGNER,
    PART_PUBLISHER,
    PART_PICTURE,
    PART_FACTS,
    PART_COLORWAYS,
    PART_PRINTING,
    PART_FIGURES,
    PART_WAY, /* through the steps */
    PART_MATERIALS,
    PART_TOOLS,
    PART_TERMS, /* words that are used */
    PART_CAUTIONS,
    PART_SIZES,
    PART_TECHNIQUES,
    PART_SECTIONS,
    PART_BLOCKS,
    PART_SQUARES, /* to measure by */
    PART_GAUGE,
    PART_SHAPES,
    PART_CLOTHS,
    PART_LABELS, /* of heaps of cut pieces */
    PART_LEGEND,
    PART_STEPS,
    PART_LAYERS,
    PART_BINDING,
    PART_AREAS, /* of quilting */
    PART_STAGES,
    PART_LINES,
    PART_SEQUENCES,
    PART_THREADS,
    PART_MARKS,
    PART_IMPRINT, /* what the booklet is */
    PART_PRICE,
    PART_PURCHASE, /* of papers of an order */
    PART_REASONS,  /* why not less is bought */
    PART_COSTS,
    PART_ROLLS,
    PART_LAYERS_CUT, /* strips that are cut in layers */
    PART_PICKS,
    PART_SLIP,
    PART_HELD, /* what is in the kit, and what not */
    PART_COUNT
};

struct content {
    enum content_kind kind;
    enum content_part part;
    union {
        struct told_heading heading;
        struct told_paragraph paragraph;
        struct told_list list;
        struct told_table table;
        struct told_figure figure;
        struct told_cloth cloth;
        struct told_work work;
    } as;
};

/* A section. */
struct contents {
    LIST(struct content) items;
};

/* ensures: the first of that kind and part, or NULL. */
const struct content *content_of(const struct contents *contents,
                                 enum content_part part,
                                 enum content_kind kind);
/* ensures: the paragraph's words alone, without its links. */
const char *content_words(struct arena *arena,
                          const struct told_paragraph *paragraph);

/* ---- places and links ---- */

/* ensures: names of places: the cutting of a cloth, a step, the binding. */
const char *place_cloth(struct arena *arena, int fabric);
const char *place_step(struct arena *arena, size_t step);
const char *place_binding(void);
const char *place_layers(void); /* where backing and batting are told */

/* Where a part of a step comes from: a step, or the cutting of its cloth. */
struct told_text link_to_step(const struct wording *w, size_t heap);
struct told_text link_to_cutting(const struct wording *w, size_t heap);
/* By the label of a cut piece: the first step that takes it. */
struct name_table steps_using(const struct wording *w);
/* The label of a cut piece, which leads to where it goes: a step, a border or
 * the binding; or to none of them. `steps` are those of the same quilt. */
struct told_text link_to_use(const struct wording *w,
                             const struct name_table *steps,
                             const struct cut_item *item);

/* ---- titles ---- */

/* What figures are called that stand alone: the quilt; the figures of the step
 * that makes `heap`; a cloth to be cut (0), or a line of it; a finished unit or
 * block. */
const char *title_of_quilt(const struct wording *w);
const char *title_of_step(const struct wording *w, size_t heap);
const char *title_of_cutting(const struct wording *w,
                             const struct colorway *colorway, int fabric,
                             size_t number);
const char *title_of_cloth(const struct wording *w, const struct heap_name *of);
/* Of quilting: its areas; a stage; an area of one kind, or the path in it; the
 * largest places without stitching. */
const char *title_of_quilting(const struct wording *w);
const char *title_of_stage(const struct wording *w, enum quilting_stage stage);
const char *title_of_area(const struct wording *w,
                          const struct quilted_kind *kind, bool sequence);
const char *title_of_gaps(const struct wording *w);

/* Tells two printings apart; "" where neither revision nor date is stated. */
const char *word_printing(const struct wording *w);

/* A sentence about one length, whose number and unit stay on one line. */
const char *word_true_length(const struct wording *w, const char *key,
                             struct rational length);

/* ---- the sections ---- */

/* All of them tell of the wording's quilt; the plan is one of it. Contents lie
 * in the wording's arena, and begin with the section's heading; on the cover,
 * with who made the pattern. */

/* A stage without any path has no figure. */
bool quilting_has_stage(const struct quilting_plan *plan,
                        enum quilting_stage stage);
/* How many have one; the last of them, if there is any, goes into `last`. */
size_t quilting_stages(const struct quilting_plan *plan,
                       enum quilting_stage *last);
/* Is the stage stitched over the whole top, in so many turns that no small
 * figure shows them? It then has one as wide as the page. */
bool quilting_way_is_long(const struct quilting_plan *plan,
                          enum quilting_stage stage);
/* Is it stitched so, and has even a map room for its turns? */
bool quilting_way_is_short(const struct quilting_plan *plan,
                           enum quilting_stage stage);
/* One or two stages, and nothing to mark: it is told between the layers and the
 * binding, as a part of finishing. A longer plan is a section of its own.
 * requires: a plan. */
bool quilting_is_short(const struct cutplan *plan);
/* Has the kind a letter in the booklet? Where nothing is stitched for an area
 * alone and nothing is marked in it, a letter would only hide it. */
bool quilting_kind_shown(const struct quilting_plan *plan, size_t kind);
/* Is its path so short that the map shows it: up to five legs in one go, or a
 * single place that is filled by eye? Numbers would tell nothing of it. */
bool quilting_path_plain(const struct quilted_kind *kind);
/* Who made the pattern; the quilt, its size and its colorways. */
struct contents tell_cover(const struct wording *w, const struct cutplan *plan);
/* Page 2: its figures, the way through, what to buy, tools, terms, cautions. */
struct contents tell_glance(const struct wording *w,
                            const struct cutplan *plan);
/* How cloth is folded, each cloth that is cut, a label for each heap. */
struct contents tell_cutting(const struct wording *w,
                             const struct cutplan *plan);
/* What is drawn in true size. */
struct contents tell_scale(const struct wording *w);
/* Line drawings. */
struct contents tell_coloring(const struct wording *w);
/* As many pages a booklet may have before it leaves out what nobody needs to
 * sew: three sheets for folding, and room for the tables of a block that is
 * sewn in two sizes. */
size_t most_pages(const struct wording *w);
/* The signs of the figures, and the steps up to the whole top. */
struct contents tell_sewing(const struct wording *w,
                            const struct cutplan *plan);
/* Backing, layers and binding, as steps; nothing where none is asked for. */
struct contents tell_finishing(const struct wording *w,
                               const struct cutplan *plan);
/* How the quilt is quilted: its areas, stages, lines, paths and threads;
 * nothing where no quilting is planned. */
struct contents tell_quilting(const struct wording *w,
                              const struct cutplan *plan);
/* What of it is drawn on the cloth, in true size, by kinds of area; nothing
 * where all is found without a mark. */
struct contents tell_quilting_marks(const struct wording *w,
                                    const struct cutplan *plan);
/* The back cover: what to buy for each size and colorway of the pattern. */
struct contents tell_back(const struct wording *w, const struct cutplan *plan);

#endif
