/* What is said of a mistake that was found, or of what is left of the search.
 * Read next: mend.c. */
#include <string.h>

#include "buffer.h"
#include "mender.h"

/* ---- words ---- */

/* For sentences that name a place besides the one that the caret shows. */
static size_t line_of(const struct mender *mender, struct span span)
{
    return source_line(mender->run->source, span.start);
}

/* An attribute that is put into a tag begins with the blank before it; an edit
 * of a value has the value alone. */
static const char *attribute_text(const struct mender *mender,
                                  const struct candidate *candidate)
{
    const char *text = candidate->edit.text;
    return text[0] == ' '
               ? text + 1 /* written anew */
               : arena_printf(mender->arena, "%s=\"%s\"",
                              attribute_name(candidate->attribute), text);
}

/* On which side of its neighbor a piece lacks. */
static const char *side_text(const struct candidate *candidate)
{
    return candidate->kind == KIND_PIECE_BEFORE ? "before" : "behind";
}

/* Without the blank that parts it from its neighbor. */
static const char *piece_text(const struct mender *mender,
                              const struct candidate *candidate)
{
    const char *text = candidate->edit.text;
    return candidate->kind == KIND_PIECE_BEHIND
               ? text + 1
               : arena_copy(mender->arena, text, strlen(text) - 1);
}

/* The word that is put behind another, or before it; NULL where none is. */
static const char *word_behind(const struct mender *mender,
                               const struct candidate *one)
{
    const char *beside = span_text(mender, one->place);
    const size_t length = strlen(beside);
    const char *text = one->edit.text;
    return strncmp(text, beside, length) == 0 && text[length] == ' '
               ? text + length + 1
               : NULL;
}

static const char *word_before(const struct mender *mender,
                               const struct candidate *one)
{
    const char *beside = span_text(mender, one->place);
    const char *text = one->edit.text;
    const size_t length = strcspn(text, " ");
    return text[length] == ' ' && strcmp(text + length + 1, beside) == 0
               ? arena_copy(mender->arena, text, length)
               : NULL;
}

/* "one more `a` behind", or NULL where no word is put beside another. */
static const char *more_text(const struct mender *mender,
                             const struct candidate *one)
{
    const char *behind = word_behind(mender, one);
    const char *before = word_before(mender, one);
    if (behind == NULL && before == NULL)
        return NULL;
    return arena_printf(mender->arena, "one more %s %s",
                        quoted(mender->arena, behind != NULL ? behind : before),
                        behind != NULL ? "behind" : "before");
}

/* The word that comes, or goes. */
static const char *word_of(const struct mender *mender,
                           const struct candidate *one)
{
    const char *behind = word_behind(mender, one);
    const char *before = word_before(mender, one);
    return behind != NULL   ? behind
           : before != NULL ? before
                            : span_text(mender, one->place);
}

/* A word for another, one more, or one less. */
static const char *word_change(const struct mender *mender,
                               const struct candidate *one)
{
    struct arena *arena = mender->arena;
    const char *found = quoted(arena, span_text(mender, one->place));
    const char *more = more_text(mender, one);
    if (one->edit.text[0] == '\0')
        return arena_printf(arena, "leaving out %s", found);
    if (more != NULL)
        return arena_printf(arena, "%s this %s", more, found);
    return arena_printf(arena, "%s for %s", quoted(arena, one->edit.text),
                        found);
}

/* Rows of a map or of a picture that are too long or too short. */
static bool changes_length(const struct mender *mender,
                           const struct candidate *one)
{
    return one->kind == KIND_WORD &&
           (one->edit.text[0] == '\0' || more_text(mender, one) != NULL);
}

const char *change_text(const struct mender *mender,
                        const struct candidate *candidate)
{
    struct arena *arena = mender->arena;
    const char *name = candidate->element == NULL
                           ? ""
                           : element_name(candidate->element->kind);
    switch (candidate->kind) {
    case KIND_ATTRIBUTE:
        return attribute_text(mender, candidate);
    case KIND_OMISSION:
        return arena_printf(arena, "leaving out `%s`",
                            attribute_name(candidate->attribute));
    case KIND_WORD:
        return word_change(mender, candidate);
    case KIND_EXCHANGE:
        return arena_printf(
            arena, "%s and %s exchanged",
            candidate->place.start == candidate->element->tag.start
                ? arena_printf(arena, "this `%s`", name)
                : quoted(arena, span_text(mender, candidate->place)),
            candidate->place.start == candidate->element->tag.start
                ? arena_printf(arena, "the one in line %zu",
                               line_of(mender, candidate->other))
                : quoted(arena, span_text(mender, candidate->other)));
    case KIND_MOVE:
        return arena_printf(arena, "moving it %s the one in line %zu",
                            candidate->other.start < candidate->place.start
                                ? "before"
                                : "behind",
                            line_of(mender, candidate->other));
    case KIND_CORNER:
        return candidate->edit.text + strspn(candidate->edit.text, "> ");
    case KIND_STONE:
        return strchr(candidate->edit.text, '<');
    case KIND_COPY:
        return arena_printf(arena, "one more `%s` like it", name);
    case KIND_REMOVAL:
        return arena_printf(arena, "leaving out this `%s`", name);
    case KIND_PIECE_BEFORE:
    case KIND_PIECE_BEHIND:
        return arena_printf(arena, "%s %s this `%s`",
                            piece_text(mender, candidate), side_text(candidate),
                            name);
    case KIND_RENAME:
        return candidate->said;
    case KIND_OWN:
        return candidate->own->help;
    }
    return "";
}

/* A word that is one too many, that lacks, or that is another one. */
static const char *word_mistake(const struct mender *mender,
                                const struct candidate *one)
{
    struct arena *arena = mender->arena;
    const char *found = quoted(arena, span_text(mender, one->place));
    if (one->edit.text[0] == '\0')
        return arena_printf(arena, "%s is one too many", found);
    if (more_text(mender, one) != NULL)
        return arena_printf(
            arena, "%s lacks %s this %s", quoted(arena, word_of(mender, one)),
            word_behind(mender, one) != NULL ? "behind" : "before", found);
    return arena_printf(arena, "%s does not agree with the rest, %s would",
                        found, quoted(arena, one->edit.text));
}

/* What is wrong, at the place of the change. */
static const char *mistake_text(const struct mender *mender,
                                const struct candidate *candidate)
{
    struct arena *arena = mender->arena;
    const char *name = element_name(candidate->element->kind);
    const char *found = quoted(arena, span_text(mender, candidate->place));
    switch (candidate->kind) {
    case KIND_ATTRIBUTE:
        if (candidate->edit.span.end > candidate->edit.span.start)
            return arena_printf(arena,
                                "%s=%s does not agree with the rest, %s would",
                                attribute_name(candidate->attribute), found,
                                quoted(arena, candidate->edit.text));
        return arena_printf(arena, "this `%s` agrees with the rest with %s",
                            name, candidate->edit.text + 1);
    case KIND_OMISSION:
        return arena_printf(arena, "%s=%s does not agree with the rest",
                            attribute_name(candidate->attribute), found);
    case KIND_RENAME:
        return arena_printf(arena, "%s does not agree with the rest", found);
    case KIND_WORD:
        return word_mistake(mender, candidate);
    case KIND_OWN:
        return arena_printf(arena, "%s does not agree with the rest, %s would",
                            found, quoted(arena, candidate->edit.text));
    case KIND_EXCHANGE:
        if (candidate->place.start != candidate->element->tag.start)
            return arena_printf(
                arena, "%s and %s are in each other's place", found,
                quoted(arena, span_text(mender, candidate->other)));
        return arena_printf(
            arena,
            "this `%s` and the one in line %zu are in each other's place", name,
            line_of(mender, candidate->other));
    case KIND_MOVE:
        return arena_printf(
            arena, "this `%s` belongs %s the one in line %zu", name,
            candidate->other.start < candidate->place.start ? "before"
                                                            : "behind",
            line_of(mender, candidate->other));
    case KIND_CORNER:
        return candidate->place.start == candidate->element->name.start
                   ? arena_printf(arena, "this `%s` lacks a corner", name)
                   : "a corner lacks behind this one";
    case KIND_STONE:
        return "cornerstones lack where the strips cross";
    case KIND_COPY:
        return arena_printf(arena, "a second `%s` like this one lacks", name);
    case KIND_REMOVAL:
        return candidate->manner == MANNER_REPEAT
                   ? arena_printf(arena, "this `%s` repeats the one before it",
                                  name)
                   : arena_printf(arena, "this `%s` is one too many", name);
    case KIND_PIECE_BEFORE:
    case KIND_PIECE_BEHIND:
        return arena_printf(arena, "a piece lacks %s this `%s`",
                            side_text(candidate), name);
    }
    return "";
}

/* ---- names of messages ---- */

/* Of more errors than there are bits, only that none is left is known. */
static bool stays(const struct candidate *candidate, size_t number)
{
    return number < 64 ? (candidate->outcome.which >> number & 1) != 0
                       : candidate->outcome.left > 0;
}

/* Was the error there before, and is it not with the change? Pictures are told
 * otherwise on trial, so any part of one will do. */
static bool is_mended(const struct mender *mender, const struct diagnostic *d,
                      const struct candidate *candidate)
{
    const bool picture = of_picture(d->code);
    for (size_t i = 0; i < mender->before.count; i++) {
        const struct problem *problem = &mender->before.items[i];
        const bool same =
            picture ? problem->code == DIAG_PICTURE
                    : problem->code == d->code && problem->at == d->span.start;
        if (same && !stays(candidate, i))
            return true;
    }
    return false;
}

/* The name of the first error that goes, or, where a picture found it, that of
 * the slip. */
static enum diag_code code_of(const struct mender *mender,
                              const struct candidate *candidate)
{
    enum diag_code first = mender->errors[0]->code;
    for (size_t i = mender->error_count; i-- > 0;)
        if (is_mended(mender, mender->errors[i], candidate))
            first = mender->errors[i]->code;
    if (!of_picture(first))
        return first;
    if (candidate->kind == KIND_EXCHANGE)
        return DIAG_SWAPPED;
    if (candidate->kind != KIND_ATTRIBUTE)
        return DIAG_PICTURE;
    switch ((int)candidate->attribute) {
    case ATTR_TURN:
    case ATTR_MIRROR:
        return DIAG_USE_TURN;
    case ATTR_LINE:
        return DIAG_LINE_DIRECTION;
    case ATTR_AT:
        return DIAG_CORNER_PLACE;
    case ATTR_POINTS_TO:
        return DIAG_WRONG_DIRECTION;
    case ATTR_FABRIC:
    case ATTR_LEFT:
    case ATTR_RIGHT:
    case ATTR_TOP:
    case ATTR_BOTTOM:
    case ATTR_GOOSE:
    case ATTR_SKY:
    case ATTR_CENTER:
    case ATTR_CORNER_FABRIC:
    case ATTR_STAR_POINTS:
    case ATTR_SECOND:
    case ATTR_SIDES:
    case ATTR_WITH:
        return DIAG_WRONG_FABRIC;
    default:
        return DIAG_PICTURE;
    }
}

/* ---- messages ---- */

/* A warning that the change makes go away. */
static bool goes_with(const struct mender *mender, const struct diagnostic *d,
                      const struct candidate *candidate)
{
    for (size_t i = 0; i < mender->before.count && i < 64; i++)
        if (mender->before.items[i].code == d->code &&
            mender->before.items[i].at == d->span.start)
            return (candidate->outcome.which >> i & 1) == 0;
    return false;
}

/* What goes away with the mistake would only confuse beside it. The warnings
 * stand behind the errors in `seeds`. */
void drop_warnings(struct mender *mender, const struct candidate *candidate)
{
    for (size_t i = mender->error_count; i < mender->seed_count; i++)
        if (goes_with(mender, mender->seeds[i], candidate))
            diag_drop(mender->run, mender->seeds[i]);
}

/* The other errors become notes of the one that tells the cause. */
static void join_errors(struct mender *mender, struct diagnostic *kept,
                        const struct candidate *candidate)
{
    enum { NOTES_MOST = 4 };
    size_t notes = 0;
    for (size_t i = 0; i < mender->error_count; i++) {
        struct diagnostic *d = mender->errors[i];
        if (d == kept)
            continue;
        if (notes++ < NOTES_MOST)
            diag_note(mender->run, kept, d->span, "%s", d->message);
        for (size_t k = 0; notes == 1 && k < d->notes.count; k++)
            diag_note(mender->run, kept, d->notes.items[k].span, "%s",
                      d->notes.items[k].text);
        diag_drop(mender->run, d);
    }
    drop_warnings(mender, candidate);
}

/* What goes, or changes its place, is told anywhere in its tag. */
static bool in_moved_tag(const struct candidate *candidate, struct span span)
{
    const struct element *element = candidate->element;
    return candidate->kind != KIND_ATTRIBUTE && candidate->kind != KIND_WORD &&
           candidate->kind != KIND_OWN && element != NULL &&
           span.start >= element->tag.start && span.start < element->tag.end;
}

/* Of what lacks, nothing was told. */
static bool is_insertion(const struct mender *mender,
                         const struct candidate *candidate)
{
    return changes_length(mender, candidate) ||
           candidate->kind == KIND_PIECE_BEFORE ||
           candidate->kind == KIND_PIECE_BEHIND;
}

/* Today's message at the place of the change, unless it promises another one.
 */
static struct diagnostic *message_at(const struct mender *mender,
                                     const struct candidate *candidate)
{
    for (size_t i = 0;
         !is_insertion(mender, candidate) && i < mender->error_count; i++) {
        struct diagnostic *d = mender->errors[i];
        const bool there = d->span.start == candidate->place.start ||
                           d->span.start == candidate->edit.span.start ||
                           in_moved_tag(candidate, d->span);
        if (there && (!of_picture(d->code) || d->code == DIAG_SWAPPED))
            return d;
    }
    return NULL;
}

/* Where nothing was reported at the place of the mistake: the errors were its
 * consequences, elsewhere. */
static struct diagnostic *new_message(struct mender *mender,
                                      const struct candidate *candidate)
{
    struct diagnostic *d =
        diag_report(mender->run, code_of(mender, candidate), candidate->place,
                    "%s", mistake_text(mender, candidate));
    if (candidate->kind == KIND_EXCHANGE)
        diag_note(mender->run, d, candidate->other, "the other one");
    return d;
}

/* The message that the mistake is told by: the one that proposed the change,
 * else one at its place, else a new one. The first has its mend already. */
struct diagnostic *message_of(struct mender *mender,
                              const struct candidate *candidate)
{
    struct run *run = mender->run;
    struct diagnostic *d = candidate->own;
    if (d != NULL)
        return d;
    d = message_at(mender, candidate);
    if (d == NULL)
        d = new_message(mender, candidate);
    diag_mend(run, d, candidate->edit.span, candidate->edit.text,
              candidate->kind == KIND_EXCHANGE ? "%s, all agrees"
                                               : "%s makes all agree",
              change_text(mender, candidate));
    if (candidate->made_somehow) {
        diag_help(run, d, "is %s meant, and with which method?",
                  change_text(mender, candidate));
        d->replacement = NULL;
    }
    return d;
}

/* All other errors are told as what came of this one. */
void say_mistake(struct mender *mender, const struct candidate *candidate)
{
    join_errors(mender, message_of(mender, candidate), candidate);
}

/* Any place of a map may be the one that lacks a word, or has one too many, but
 * few words do. */
static void ask_for_word(struct mender *mender, struct diagnostic *d,
                         const struct candidate *best)
{
    enum { WORDS_MOST = 4 };
    const char *words[WORDS_MOST + 1];
    size_t count = 0;
    struct buffer text = buffer_in(mender->arena);
    for (size_t i = 0; i < mender->candidates.count; i++) {
        const struct candidate *one = &mender->candidates.items[i];
        if (!hits(mender, one) || one->kind != KIND_WORD ||
            one->element != best->element ||
            (one->edit.text[0] == '\0') != (best->edit.text[0] == '\0'))
            continue;
        const char *word = word_of(mender, one);
        size_t k = 0;
        while (k < count && strcmp(words[k], word) != 0)
            k++;
        if (k == count && count <= WORDS_MOST)
            words[count++] = word;
    }
    if (count > WORDS_MOST)
        return;
    for (size_t i = 0; i < count; i++)
        buffer_printf(&text, "%s%s",
                      i == 0           ? ""
                      : i + 1 == count ? " or "
                                       : ", ",
                      quoted(mender->arena, words[i]));
    if (best->edit.text[0] == '\0')
        diag_help(mender->run, d, "which is one too many: %s?",
                  buffer_string(&text));
    else
        diag_help(mender->run, d, "where does one more %s belong?",
                  buffer_string(&text));
}

static bool in_one_line(const struct mender *mender, const struct candidate *a,
                        const struct candidate *b)
{
    return line_of(mender, a->place) == line_of(mender, b->place) &&
           source_together(mender->run->source, a->place.start, b->place.start);
}

/* Several changes do, so none is made the mend: a mend that is a guess would be
 * taken over unread. The question stands at the common place of the changes
 * where they have one, else at the first error. Of many changes two are
 * examples. */
void say_question(struct mender *mender, const struct candidate *const *best,
                  size_t count)
{
    struct diagnostic *d = mender->errors[0];
    struct buffer text = buffer_in(mender->arena);
    const size_t told = count > TOLD_AT_MOST ? 2 : count;
    bool one_place = best[0]->element != NULL, told_there = false;
    /* A word of a map is likelier mirrored by a slip than a step is missing. */
    for (size_t i = 1; i < told; i++)
        one_place &= in_one_line(mender, best[i], best[0]) ||
                     (best[i]->twofold && best[0]->kind == KIND_WORD);
    for (size_t k = 0; k < mender->error_count; k++)
        if (mender->errors[k]->span.start == best[0]->place.start) {
            d = mender->errors[k];
            told_there = true;
        }
    if (one_place && !told_there && best[0]->manner == MANNER_VALUE)
        d = diag_report(
            mender->run, code_of(mender, best[0]), best[0]->place,
            "%s does not agree with the rest",
            quoted(mender->arena, span_text(mender, best[0]->place)));
    for (size_t i = 0; i < told; i++)
        buffer_printf(&text, "%s%s in %s",
                      i == 0          ? ""
                      : i + 1 == told ? " or "
                                      : ", ",
                      change_text(mender, best[i]),
                      source_line_words(mender->arena, mender->run->source,
                                        best[i]->place.start, d->span.start));
    const bool advice = d->help != NULL && d->replacement == NULL;
    d->replacement = NULL;
    if (count > 1 && best[0]->kind == KIND_WORD &&
        best[0]->manner != MANNER_VALUE)
        ask_for_word(mender, d, best[0]);
    else if (count > TOLD_AT_MOST && advice)
        ; /* what is said already is clearer than two of many */
    else if (count > TOLD_AT_MOST)
        diag_help(mender->run, d,
                  "many single changes make all agree, such as %s; which is "
                  "meant?",
                  buffer_string(&text));
    else
        diag_help(mender->run, d, "which is meant: %s?", buffer_string(&text));
    join_errors(mender, d, best[0]);
}

/* The same amount told of two cloths: one slip of the pen would be in one. */
static bool told_of_two(const struct mender *mender)
{
    for (size_t i = 0; i < mender->error_count; i++)
        for (size_t k = i + 1; k < mender->error_count; k++)
            if (mender->errors[i]->code == DIAG_YARDAGE &&
                mender->errors[k]->code == DIAG_YARDAGE &&
                strcmp(mender->errors[i]->message,
                       mender->errors[k]->message) == 0)
                return true;
    return false;
}

/* No change of a cloth makes the amounts agree, but several colorways say that
 * they are off: then it is what they share that may be wrong. */
void say_amounts(struct mender *mender)
{
    const struct candidate nothing = {.outcome = {.which = UINT64_MAX}};
    if (!told_of_two(mender))
        return;
    struct diagnostic *d = mender->errors[0];
    diag_help(mender->run, d,
              "more than one colorway says so: is a size, a count, a cloth of "
              "the quilt or `units` another one?");
    join_errors(mender, d, &nothing);
}
