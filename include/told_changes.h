/* owner: tell
 *
 * What changed between two revisions, in words: for the terminal, for data and
 * for the errata sheet. Texts are never NULL.
 */
#ifndef SEAMWRIGHT_TOLD_CHANGES_H
#define SEAMWRIGHT_TOLD_CHANGES_H

#include "compare.h"
#include "phrase.h"

/* What sentences are made with. The language may be another one than that of
 * the revisions, whose own texts stay as they are. */
struct change_wording {
    struct arena *arena;
    const struct phrases *phrases;
    const struct comparison *comparison;
    bool glyphs; /* "2½" for a page, else "2 1/2" */
};

/* One change: what it is about, how it was told and how it is told now ("" for
 * not at all), and where the old booklet has it ("" where not known). */
struct told_change {
    const char *title, *was, *is, *where;
};
struct told_change tell_change(const struct change_wording *w,
                               const struct change *change);

/* "Cut cloth is wrong", the heading of a class. */
const char *tell_harm(const struct change_wording *w, enum harm harm);
/* "revision 3, 2026-11-02"; `side` is 0 for the old one. */
const char *tell_revision(const struct change_wording *w, int side);
/* ensures: by change, the first that is told in the same words of another quilt
 * or colorway; itself where there is none. In the arena. */
const size_t *changes_alike(const struct change_wording *w);
/* Its title; of a step that differs in all its casts, without naming one. */
const char *tell_title(const struct change_wording *w, const size_t *alike,
                       size_t index);
/* Where it is told, in all booklets that share it: "Throw, page 3 of the old
 * booklet; Lap quilt, Dusk"; "" where it is of no quilt and on no page.
 * requires: the first of those that are alike. */
const char *tell_places(const struct change_wording *w, const size_t *alike,
                        size_t index);

/* What becomes of pieces that were cut: a line for each quilt with its numbers,
 * then one for each size that is trimmed, cut anew or left over. */
struct told_saving {
    LIST(const char *) lines;
};
struct told_saving tell_saving(const struct change_wording *w, int quilt);

/* Who is concerned, in one sentence: by the worst class that there is. requires:
 * something changed. */
const char *tell_concerned(const struct change_wording *w);

/* How far the work may have come, and what to do then. */
enum progress {
    NOT_BOUGHT,
    BOUGHT,
    CUT,
    UNITS_SEWN,
    TOP_DONE,
    PROGRESS_COUNT
};
/* ensures: the head of a row: "Fabric bought". */
const char *tell_progress(const struct change_wording *w, enum progress at);
/* What to do for who has come so far, in whole sentences; one at least. It asks
 * for nothing that no change asks for, and promises nothing of a top that is
 * done: whoever made it measures it. */
struct told_advice {
    LIST(const char *) lines;
};
struct told_advice tell_advice(const struct change_wording *w,
                               enum progress at);

#endif
