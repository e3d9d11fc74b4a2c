/* owner: compare
 *
 * Two revisions of one pattern, compared for a person who holds the old one.
 *
 * Both are read from the solved model as JSON (what `render_json` writes), so
 * that a source and the data of an earlier build are compared alike. What
 * differs becomes changes, each in the one class of harm that it falls into:
 * pieces, cloth, sewing and words are compared apart, by what things make and
 * not by what they are called. Texts are UTF-8; lengths in the unit of the
 * pattern.
 *
 * Where a difference goes:
 *
 *     a size or a cloth of a piece, another in its place      HARM_CUT
 *     a one-way print that was none                           HARM_CUT
 *     another number of a size that both have, one size more,
 *       one less                                              HARM_COUNT
 *     amount, width or form of a cloth, backing, batting, the
 *       pieces being the same                                 HARM_CLOTH
 *     parts, places, turns, lines; the cloth itself           HARM_RESULT
 *     the same, and the cloth is the same                     HARM_WAY
 *     pressing, craft, order, how cloth is cut                HARM_WAY
 *     all else that a booklet says or shows                   HARM_WORDS
 *
 * Nothing here is printed: sentences are told in src/tell (told_changes.h).
 * Nothing is kept outside the arena, and neither revision is changed.
 */
#ifndef SEAMWRIGHT_COMPARE_H
#define SEAMWRIGHT_COMPARE_H

#include "sewn.h"
#include "spot.h"

/* No such thing in the other revision, or none at all. */
enum { NOWHERE = -1 };

/* ---- the facts of one revision ---- */

/* All lists are in the order of the data, which is that of the source; numbers
 * of pieces, steps and fabrics below are places in these lists. Texts are never
 * NULL: what the data do not tell is "". */

/* A role of the design; `letter` is that of labels. */
struct revision_fabric {
    const char *id, *letter, *name;
    bool one_way;
};

/* A rectangle that is cut, or the strips of a binding (`strip`: only the width
 * counts, how many are needed follows from the quilt). */
struct revision_piece {
    const char *label;
    const char *purpose; /* what takes it, by names; or "" */
    int fabric;
    struct rational width, height;                   /* as it is cut */
    struct rational finished_width, finished_height; /* unknown if not told */
    size_t count;
    size_t from_each;  /* triangles that come from one such square; else 1 */
    const char *shape; /* of what has slanted edges; else "" */
    size_t border; /* a strip of it, from 1; or 0 */
    bool strip;
};

/* What a step takes, and where it lies in what the step makes: the top left
 * corner of its finished cloth, after the turn. */
struct revision_part {
    const char *name; /* as the booklet calls it */
    int piece, step;  /* one of them; the other is NOWHERE */
    long turn;       /* degrees */
    bool slanted;    /* in a diagonal row; place and turn are the row's */
    struct rational x, y;
};

/* Where a seam of the finished cloth lies, and the word for the way it goes. */
struct revision_seam {
    const char *way;
    struct vertex from, to;
};

/* One thing that hands do. `kind` is the name of its operation. */
struct revision_action {
    const char *kind, *line, *at; /* the last two may be "" */
    const char *pressed;          /* "left right", by seams */
    const char *press, *text;     /* as the booklet tells them, in one language */
    LIST(struct revision_seam) seams; /* none where not told, or too many */
};

/* All that one entry of `steps` says. */
struct revision_step {
    size_t number, count;
    const char *makes, *part;
    const char *id, *name; /* of a unit or block; else "" */
    const char *cast;      /* what plays its roles, or "" */
    bool mirrored;
    struct rational width, height; /* finished */
    LIST(struct revision_part) parts;
    LIST(struct revision_action) actions;
    LIST(const char *) says;
    const char *result;        /* digest of its cloth; "" where not told */
    const struct cloth *cloth; /* its faces alone; NULL where not told */
};

/* What is bought of one fabric for one quilt in one colorway. */
struct revision_cloth {
    int fabric;
    const char *name, *code, *color, *price, *sold; /* "" where not told */
    const char *amount;                             /* with its unit */
    struct rational bought; /* yardage; unknown where sheets are counted */
    size_t sheets;
    struct rational width;
    const char *plan; /* how it is cut, without labels */
};

/* Backing or batting. */
struct revision_layer {
    bool wanted;
    int fabric;         /* of a backing; NOWHERE where not told */
    const char *amount; /* with its unit; "" where it is in another cloth's */
    struct rational width, height;
    struct rational gap; /* of a batting: how far lines may lie apart */
};

/* Where the booklet tells of something; `page` as it is printed there. */
struct revision_page {
    int fabric; /* of a cloth, or NOWHERE: */
    size_t step;
    const char *page;
};

/* Of one quilt: each has colorways of its own in the data, as amounts differ. */
struct revision_colorway {
    const char *id, *name;
    LIST(struct revision_cloth) cloths;
    struct revision_layer backing, batting;
    LIST(struct revision_page) pages; /* of its booklet; none where not told */
    const char *layers_page; /* of backing and batting; "" where not told */
};

/* A line of quilting on the finished top, or the outline of an area. Places are
 * to a millionth of the unit, as data have many of them: they are drawn and
 * compared, and no size comes of them. */
struct revision_line {
    const struct spot *points; /* two or more */
    size_t count;
    bool closed; /* it goes back to the first */
    const char *fill; /* of an area, all that covers it; or "" */
};

/* Steps stand behind all that they are made of, so that a walk from the first
 * on meets parts before what takes them. */
struct revision_quilt {
    const char *id, *name;
    struct rational width, height; /* finished */
    const char *result;
    LIST(struct revision_piece) pieces;
    LIST(struct revision_step) steps;
    LIST(struct revision_colorway) colorways;
    const char *quilting; /* all of it in one text, without names; or "" */
    const char *quilting_words;
    /* Areas by the rings of their outlines and holes. */
    LIST(struct revision_line) quilting_lines;
    LIST(struct revision_line) quilting_areas;
};

/* Two of these are all that a comparison sees. */
struct revision {
    long version; /* of the data */
    bool whole;   /* it has all that a comparison asks for */
    enum length_unit unit;
    const char *id, *title, *designer, *publisher, *revision, *date, *skill;
    const char *summary, *looks, *allowance, *cutting_step;
    LIST(struct revision_fabric) fabrics;
    LIST(struct revision_quilt) quilts;
};

/* How many are cut: of triangles, the squares that they come from. */
size_t cut_by_hand(const struct revision_piece *piece);

/* Reads the data of a build.
 * ensures: the facts, in the arena; or NULL, and *problem says why it is none:
 *   no JSON (with line and column), not the data of a pattern, a version that
 *   this program does not know. */
struct revision *read_revision(struct arena *arena, const char *bytes,
                               size_t length, const char **problem);

/* ---- what changed ---- */

/* Worst first. */
enum harm {
    HARM_CUT,    /* cut cloth is wrong */
    HARM_CLOTH,  /* cloth bought is short, or too much */
    HARM_COUNT,  /* pieces serve, counts differ */
    HARM_RESULT, /* what is sewn comes out otherwise */
    HARM_WAY,    /* the same result by another way */
    HARM_WORDS,  /* words, labels, looks */
    HARM_KINDS
};
/* "cut", "cloth", "count", "result", "way", "words" */
const char *harm_name(enum harm harm);

enum change_kind {
    CHANGE_PIECE,       /* another size or cloth */
    CHANGE_PIECE_COUNT, /* also from none, or to none */
    CHANGE_PRINT,       /* a cloth gains or loses a way */
    CHANGE_AMOUNT,
    CHANGE_CLOTH_WIDTH,
    CHANGE_SOLD,
    CHANGE_BACKING,
    CHANGE_BATTING,
    CHANGE_PLAN, /* the same pieces, laid otherwise */
    CHANGE_STEP, /* its parts, their places and turns, or what is done */
    CHANGE_STEP_ADDED,
    CHANGE_STEP_REMOVED,
    CHANGE_ORDER, /* of steps */
    CHANGE_QUILTING,
    CHANGE_ID,
    CHANGE_NAME,
    CHANGE_LABEL,
    CHANGE_SAY,
    CHANGE_TEXT, /* of the pattern: title, summary, ... */
    CHANGE_COLOR,
    CHANGE_PRICE,
    CHANGE_CODE,
    CHANGE_LOOKS,
    CHANGE_PLAN_RULE, /* the allowance or cutting step that is told */
    CHANGE_QUILT_ADDED,
    CHANGE_QUILT_REMOVED,
    CHANGE_COLORWAY_ADDED,
    CHANGE_COLORWAY_REMOVED,
    CHANGE_KINDS
};
/* "piece", "piece-count", ... */
const char *change_name(enum change_kind kind);

/* One thing that differs. Indexes are of the old and of the new revision;
 * NOWHERE where the change is not about such a thing. */
struct change {
    enum harm harm;
    enum change_kind kind;
    int quilt[2], colorway[2], piece[2], step[2], fabric[2];
    int beside[2];      /* of an order: the step that it came after, and now before */
    const char *what;   /* a word for it: "title", a label, an id */
    const char *was[2]; /* as told, old and new; "" for nothing */
    bool follows; /* it comes of another change, with which it is told, and is no
                     change by itself */
};

/* What becomes of pieces that were cut by the old sheet. */
enum saving { SAVED_WHOLE, SAVED_TRIMMED, SAVED_NOT };
struct saved {
    enum saving saving;
    int quilt;             /* of the new revision */
    int piece_of_old;      /* NOWHERE where cut anew */
    int piece_of_new;      /* NOWHERE where it is left over */
    const char *old_label; /* "" where cut anew */
    size_t count;
};

struct comparison {
    /* Index 0 is always the old one, 1 the new one; so in all pairs here. */
    const struct revision *revisions[2];
    const char *names[2];                /* of their files */
    LIST(struct change) changes;         /* worst first, in a quilt's order */
    LIST(struct saved) saved;            /* of quilts whose pieces changed */
    size_t counts[HARM_KINDS];           /* without what follows */
    size_t total;                        /* of them; 0: nothing changed */
    bool same_pattern; /* else nothing was compared */
    bool partly;       /* one of the two lacks facts: told as far as it goes */
};

/* ensures: what changed; the revisions' numbers and dates tell the two apart
 * and are no change. Not the same pattern are two with another id of which less
 * than half the pieces are the same. */
struct comparison *compare_revisions(struct arena *arena,
                                     const struct revision *old,
                                     const struct revision *changed);

/* Do the data tell of each seam of the step by itself? Older data do not. */
bool tells_seams(const struct revision_step *step);

/* ensures: the label of the page of the first booklet of the quilt on which a
 * step (by its number) or a cloth (by its fabric) is told; NULL where not
 * known. */
const char *page_of_step(const struct revision_quilt *quilt, size_t number);
const char *page_of_cloth(const struct revision_quilt *quilt, int fabric);
/* The same for backing and batting. */
const char *page_of_layers(const struct revision_quilt *quilt);

#endif
