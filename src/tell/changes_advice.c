/* What to do about changes: what can be saved of cut pieces, and what each
 * person has to do who has come so far. It asks only for what was found; where
 * nothing was, it says so. */
#include <string.h>

#include "buffer.h"
#include "changes.h"

/* ---- what can be saved ---- */

/* How many of the quilt's pieces end so. */
static size_t count_saved(const struct comparison *comparison, int quilt,
                          enum saving saving, bool anew)
{
    size_t count = 0;
    for (size_t i = 0; i < comparison->saved.count; i++) {
        const struct saved *saved = &comparison->saved.items[i];
        if (saved->quilt == quilt && saved->saving == saving &&
            (saving != SAVED_NOT || (saved->piece_of_old == NOWHERE) == anew))
            count += saved->count;
    }
    return count;
}

/* What to do with so many of one size: trim them, or cut as many anew. */
static const char *saved_line(const struct change_wording *w, int quilt,
                              const struct saved *saved)
{
    const struct revision_quilt *now =
        &w->comparison->revisions[1]->quilts.items[quilt];
    const char *count = say_count(w->arena, saved->count);
    if (saved->saving == SAVED_TRIMMED) {
        const struct revision_piece *to =
            &now->pieces.items[saved->piece_of_new];
        return say(w->arena, w->phrases, "compare.save-trim", "count", count,
                   "old", saved->old_label, "new",
                   to->label, "size", change_size(w, to->width, to->height),
                   NULL);
    }
    const struct revision_piece *to = &now->pieces.items[saved->piece_of_new];
    return say(w->arena, w->phrases, "compare.save-cut", "count", count, "new",
               to->label, "cloth", change_fabric(w, 1, to->fabric), "size",
               change_size(w, to->width, to->height), NULL);
}

/* "120 A1, 4 B2"; "" for none. */
static const char *left_over(const struct change_wording *w, int quilt)
{
    const struct comparison *of = w->comparison;
    struct buffer out = buffer_in(w->arena);
    for (size_t i = 0; i < of->saved.count; i++) {
        const struct saved *saved = &of->saved.items[i];
        if (saved->quilt == quilt && saved->piece_of_new == NOWHERE)
            buffer_printf(&out, "%s%zu %s", out.length == 0 ? "" : ", ",
                          saved->count, saved->old_label);
    }
    return buffer_string(&out);
}

/* No line where the quilt's pieces stayed. What is kept as it is needs no line
 * of its own: the sum tells how many they are. */
struct told_saving tell_saving(const struct change_wording *w, int quilt)
{
    const struct comparison *of = w->comparison;
    struct told_saving told = {.lines = {0}};
    bool any = false;
    for (size_t i = 0; i < of->saved.count; i++)
        any |= of->saved.items[i].quilt == quilt;
    if (!any)
        return told;
    *LIST_ADD(w->arena, &told.lines) = say(
        w->arena, w->phrases, "compare.save", "keep",
        say_count(w->arena, count_saved(of, quilt, SAVED_WHOLE, false)),
        "trim",
        say_count(w->arena, count_saved(of, quilt, SAVED_TRIMMED, false)),
        "cut", say_count(w->arena, count_saved(of, quilt, SAVED_NOT, true)),
        NULL);
    for (size_t i = 0; i < of->saved.count; i++)
        if (of->saved.items[i].quilt == quilt &&
            of->saved.items[i].saving != SAVED_WHOLE &&
            of->saved.items[i].piece_of_new != NOWHERE)
            *LIST_ADD(w->arena, &told.lines) =
                saved_line(w, quilt, &of->saved.items[i]);
    const char *left = left_over(w, quilt);
    if (left[0] != '\0')
        *LIST_ADD(w->arena, &told.lines) =
            say(w->arena, w->phrases, "compare.save-left", "list", left, NULL);
    return told;
}

/* ---- who is concerned ---- */

/* A change that follows from another counts with that one. */
static bool has(const struct change_wording *w, enum harm harm)
{
    return w->comparison->counts[harm] > 0;
}

/* Is there anything of the class besides other lines of quilting, which no one
 * needs before the top is done? */
static bool has_sewn(const struct change_wording *w)
{
    for (size_t i = 0; i < w->comparison->changes.count; i++) {
        const struct change *change = &w->comparison->changes.items[i];
        if (change->harm == HARM_RESULT && !change->follows &&
            change->kind != CHANGE_QUILTING)
            return true;
    }
    return false;
}

/* Whatever it comes of. */
static bool has_quilting(const struct change_wording *w)
{
    for (size_t i = 0; i < w->comparison->changes.count; i++)
        if (w->comparison->changes.items[i].harm == HARM_RESULT &&
            w->comparison->changes.items[i].kind == CHANGE_QUILTING)
            return true;
    return false;
}

/* By the worst class: who is concerned by that is concerned by all. */
const char *tell_concerned(const struct change_wording *w)
{
    const char *key = has(w, HARM_CUT)      ? "compare.who-cut"
                      : has(w, HARM_CLOTH)  ? "compare.who-cloth"
                      : has(w, HARM_COUNT)  ? "compare.who-count"
                      : has_sewn(w)         ? "compare.who-result"
                      : has(w, HARM_RESULT) ? "compare.who-quilting"
                      : has(w, HARM_WAY)    ? "compare.who-way"
                                            : "compare.who-words";
    return say(w->arena, w->phrases, key, NULL);
}

/* ---- where are you ---- */

/* The order is that of the work. */
const char *tell_progress(const struct change_wording *w, enum progress at)
{
    static const char *const keys[PROGRESS_COUNT] = {
        "compare.at-start", "compare.at-bought", "compare.at-cut",
        "compare.at-sewn", "compare.at-done"};
    return say(w->arena, w->phrases, keys[at], NULL);
}

/* A line more. */
static void advise(const struct change_wording *w, struct told_advice *advice,
                   const char *line)
{
    *LIST_ADD(w->arena, &advice->lines) = line;
}

/* How much more or less of a cloth, where both are lengths. */
static const char *difference(const struct change_wording *w,
                              const struct change *change,
                              const char **key)
{
    const struct revision_cloth *cloth[2] = {NULL, NULL};
    for (int side = 0; side < 2; side++) {
        const struct revision_colorway *colorway =
            &w->comparison->revisions[side]
                 ->quilts.items[change->quilt[side]]
                 .colorways.items[change->colorway[side]];
        for (size_t i = 0; i < colorway->cloths.count; i++)
            if (colorway->cloths.items[i].fabric == change->fabric[side])
                cloth[side] = &colorway->cloths.items[i];
    }
    if (cloth[0] == NULL || cloth[1] == NULL ||
        !rational_known(cloth[0]->bought) || !rational_known(cloth[1]->bought))
        return NULL;
    const struct rational more =
        rational_sub(cloth[1]->bought, cloth[0]->bought);
    const bool less = rational_sign(more) < 0;
    *key = less ? "compare.buy-less" : "compare.buy-more";
    const struct rational amount =
        less ? rational_times(more, -1) : more;
    /* As a shop cuts it: yards, or metres. */
    return w->comparison->revisions[1]->unit == UNIT_CM
               ? arena_printf(w->arena, "%s m",
                              length_plain(w->arena,
                                           rational_mul(amount,
                                                        rational_make(1, 100)),
                                           UNIT_M))
               : arena_printf(
                     w->arena, "%s yd",
                     (w->glyphs ? length_glyphs : length_plain)(
                         w->arena,
                         rational_mul(amount, rational_make(1, 36)), UNIT_YD));
}

/* "Slate cotton: buy \u00bc yd more, 2\u215c yd in all." */
static const char *buying(const struct change_wording *w,
                          const struct change *change)
{
    const struct told_change told = tell_change(w, change);
    const char *key = "compare.buy";
    const char *amount =
        change->kind == CHANGE_AMOUNT ? difference(w, change, &key) : NULL;
    return say(w->arena, w->phrases, key, "name",
               change->what[0] == '\0' ? told.title : change->what, "was",
               told.was[0] == '\0' ? "0" : told.was, "is",
               told.is[0] == '\0' ? "0" : told.is, "difference",
               amount == NULL ? "" : amount, NULL);
}

/* What was bought for one booklet is another thing than for another. */
static bool same_booklet(const struct change *a, const struct change *b)
{
    return a->quilt[1] == b->quilt[1] && a->colorway[1] == b->colorway[1];
}

static bool is_bought(const struct change *change)
{
    return change->harm == HARM_CLOTH && change->kind != CHANGE_SOLD;
}

/* All sentences of one booklet; "" for none. */
static const char *booklet_text(const struct change_wording *w, int quilt,
                                int colorway)
{
    const struct comparison *of = w->comparison;
    struct buffer out = buffer_in(w->arena);
    for (size_t i = 0; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        if (is_bought(change) && change->quilt[1] == quilt &&
            change->colorway[1] == colorway)
            buffer_printf(&out, "%s%s", out.length == 0 ? "" : " ",
                          buying(w, change));
    }
    return buffer_string(&out);
}

/* A line for each booklet of the quilt, behind its name; one for all of them
 * where all say the same. */
static void advise_booklets(const struct change_wording *w,
                            struct told_advice *advice, int quilt)
{
    const struct revision_quilt *now =
        &w->comparison->revisions[1]->quilts.items[quilt];
    const char **texts =
        ARENA_ARRAY(w->arena, const char *, now->colorways.count + 1);
    bool same = now->colorways.count > 0;
    for (size_t c = 0; c < now->colorways.count; c++) {
        texts[c] = booklet_text(w, quilt, (int)c);
        same &= strcmp(texts[c], texts[0]) == 0;
    }
    if (same && texts[0][0] != '\0')
        advise(w, advice,
               say(w->arena, w->phrases, "compare.for-quilt", "quilt",
                   now->name, "text", texts[0], NULL));
    for (size_t c = 0; !same && c < now->colorways.count; c++)
        if (texts[c][0] != '\0')
            advise(w, advice,
                   say(w->arena, w->phrases, "compare.for-booklet", "quilt",
                       now->name, "colorway", now->colorways.items[c].name,
                       "text", texts[c], NULL));
}

/* All amounts that differ, whatever they come of: a line for each, or for each
 * booklet where there are several. */
static void advise_cloth(const struct change_wording *w,
                         struct told_advice *advice)
{
    const struct comparison *of = w->comparison;
    const struct change *first = NULL;
    bool several = false;
    for (size_t i = 0; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        if (is_bought(change) && first == NULL)
            first = change;
        several |= is_bought(change) && !same_booklet(change, first);
    }
    for (size_t i = 0; !several && i < of->changes.count; i++)
        if (is_bought(&of->changes.items[i]))
            advise(w, advice, buying(w, &of->changes.items[i]));
    for (size_t q = 0; several && q < of->revisions[1]->quilts.count; q++)
        advise_booklets(w, advice, (int)q);
    if (advice->lines.count == 0)
        advise(w, advice, say(w->arena, w->phrases, "compare.do-bought", NULL));
}

/* Of several quilts each begins with its name. */
static void advise_saving(const struct change_wording *w,
                          struct told_advice *advice)
{
    const struct revision *now = w->comparison->revisions[1];
    bool several = false;
    for (size_t i = 1; i < w->comparison->saved.count; i++)
        several |= w->comparison->saved.items[i].quilt !=
                   w->comparison->saved.items[0].quilt;
    for (size_t q = 0; q < now->quilts.count; q++) {
        const struct told_saving saving = tell_saving(w, (int)q);
        for (size_t i = 0; i < saving.lines.count; i++)
            advise(w, advice,
                   several && i == 0
                       ? say(w->arena, w->phrases, "compare.for-quilt",
                             "quilt", now->quilts.items[q].name, "text",
                             saving.lines.items[i], NULL)
                       : saving.lines.items[i]);
    }
}

/* What was cut and changed has a line; without any, that it serves is the
 * advice. */
static void advise_cut(const struct change_wording *w,
                       struct told_advice *advice)
{
    advise_saving(w, advice);
    /* The strips of a binding are long, and wider ones can be trimmed. */
    for (size_t i = 0; i < w->comparison->changes.count; i++)
        if (w->comparison->changes.items[i].kind == CHANGE_PIECE &&
            w->comparison->changes.items[i].what[0] == '\0')
            advise(w, advice,
                   say(w->arena, w->phrases, "compare.do-strips", NULL));
    if (has(w, HARM_CUT) && advice->lines.count == 0)
        advise(w, advice, say(w->arena, w->phrases, "compare.do-print", NULL));
    if (advice->lines.count == 0)
        advise(w, advice, say(w->arena, w->phrases, "compare.do-cut", NULL));
}

/* Who has the top made still buys what goes under it, and quilts it. */
static void advise_done(const struct change_wording *w,
                        struct told_advice *advice, bool otherwise)
{
    bool layers = false;
    for (size_t i = 0; i < w->comparison->changes.count; i++) {
        const struct change *change = &w->comparison->changes.items[i];
        layers |= !change->follows && (change->kind == CHANGE_BACKING ||
                                       change->kind == CHANGE_BATTING);
    }
    if (otherwise)
        advise(w, advice, say(w->arena, w->phrases, "compare.do-done", NULL));
    else if (layers)
        advise(w, advice, say(w->arena, w->phrases, "compare.do-layers", NULL));
    if (has_quilting(w))
        advise(w, advice, say(w->arena, w->phrases, "compare.do-quilt", NULL));
    if (advice->lines.count == 0)
        advise(w, advice,
               say(w->arena, w->phrases, "compare.do-nothing", NULL));
}

/* Each asks what harms at that point: what is bought matters to who has not
 * cut, the way of sewing only to who sews still. Of a finished top nothing is
 * asked but to measure it. */
struct told_advice tell_advice(const struct change_wording *w, enum progress at)
{
    struct told_advice advice = {.lines = {0}};
    const bool pieces = has(w, HARM_CUT) || has(w, HARM_COUNT);
    const bool otherwise = pieces || has_sewn(w);
    switch (at) {
    case NOT_BOUGHT:
        advise(w, &advice, say(w->arena, w->phrases, "compare.do-start", NULL));
        break;
    case BOUGHT:
        advise_cloth(w, &advice);
        break;
    case CUT:
        advise_cut(w, &advice);
        break;
    case UNITS_SEWN:
        advise(w, &advice,
               say(w->arena, w->phrases,
                   has(w, HARM_CUT)    ? "compare.do-sewn-cut"
                   : has_sewn(w)       ? "compare.do-sewn-result"
                   : pieces              ? "compare.do-sewn-count"
                   : has(w, HARM_WAY)  ? "compare.do-sewn-way"
                                       : "compare.do-nothing",
                   NULL));
        break;
    case TOP_DONE:
    case PROGRESS_COUNT:
        advise_done(w, &advice, otherwise);
        break;
    }
    return advice;
}
