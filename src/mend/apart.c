/* What is said where no change makes all agree: each error by itself, with what
 * mends it, and no more than was tried. Read next: several.c. */
#include <string.h>

#include "buffer.h"
#include "mender.h"

/* NULL where the message proposed nothing. */
static const struct candidate *own_of(const struct mender *mender,
                                      const struct diagnostic *d)
{
    for (size_t i = 0; i < mender->candidates.count; i++)
        if (mender->candidates.items[i].own == d)
            return &mender->candidates.items[i];
    return NULL;
}

/* A change is good for the errors of one definition where all of them go and no
 * other comes. Of the mistakes in one picture, each mends a part of it. */
static bool holds_apart(const struct mender *mender, const struct diagnostic *d,
                        const struct candidate *own)
{
    if (own == NULL || !own->tried || own->outcome.fresh > 0 ||
        own->outcome.left >= mender->error_total)
        return false;
    if (mender->root == NULL || of_picture(d->code))
        return true;
    const struct element *top =
        top_of(mender, element_at(mender, d->span.start));
    for (size_t i = 0; i < mender->before.count && i < 64; i++)
        if ((own->outcome.which >> i & 1) != 0 &&
            top_of(mender, element_at(mender, mender->before.items[i].at)) ==
                top)
            return false;
    return mender->before.count <= 64;
}

/* From the first of the edits to the last, as one. requires: in the order of
 * their places, apart, and in one file. */
static struct edit joined_edit(const struct mender *mender,
                               const struct candidate *const *all, size_t count)
{
    struct buffer text = buffer_in(mender->arena);
    uint32_t at = all[0]->edit.span.start;
    for (size_t i = 0; i < count; i++) {
        const struct edit *edit = &all[i]->edit;
        buffer_text(&text,
                    span_text(mender, (struct span){at, edit->span.start}));
        buffer_text(&text, edit->text);
        at = edit->span.end;
    }
    return (struct edit){{all[0]->edit.span.start, at}, buffer_string(&text)};
}

static bool in_one_file(const struct mender *mender, const struct candidate *a,
                        const struct candidate *b)
{
    return source_together(mender->run->source, a->edit.span.start,
                           b->edit.span.start);
}

/* ensures: true where all of them together leave nothing to say. */
static bool hold_together(struct mender *mender, const struct candidate **all,
                          size_t count)
{
    for (size_t i = 1; i < count; i++)
        for (size_t k = i;
             k > 0 && all[k]->edit.span.start < all[k - 1]->edit.span.start;
             k--) {
            const struct candidate *later = all[k - 1];
            all[k - 1] = all[k];
            all[k] = later;
        }
    for (size_t i = 1; i < count; i++)
        if (all[i]->edit.span.start < all[i - 1]->edit.span.end)
            return false;
    struct edit *edits = ARENA_ARRAY(mender->arena, struct edit, count);
    size_t files = 0;
    for (size_t i = 0, next; i < count; i = next) {
        next = i + 1;
        while (next < count && in_one_file(mender, all[i], all[next]))
            next++;
        edits[files++] = joined_edit(mender, all + i, next - i);
    }
    return count > 0 && holds_whole(mender, edits, files);
}

bool asks(const struct diagnostic *d)
{
    const size_t length = d->help == NULL ? 0 : strlen(d->help);
    return length > 0 && d->help[length - 1] == '?';
}

/* The size that the message points at is not what is wrong: it is told of what
 * does not add up. */
static void tell_about(struct mender *mender, size_t error)
{
    struct diagnostic *d = mender->errors[error];
    struct diagnostic *moved =
        diag_report(mender->run, d->code, d->about, "%s", d->message);
    moved->notes = d->notes;
    moved->help = d->help;
    diag_drop(mender->run, d);
    mender->errors[error] = moved;
}

/* Too few parts are said to be in it. */
static bool lacks_parts(const struct diagnostic *d)
{
    return d->code == DIAG_GRID_COUNT ||
           (d->code == DIAG_SEAM_SUM && d->about.end > 0 &&
            rational_sign(d->off[0]) < 0);
}

/* The definition whose parts the steps put together, or NULL. */
static const struct element *made_by(const struct mender *mender,
                                     const struct diagnostic *step)
{
    const struct element *element = element_at(mender, step->span.start);
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->assemblies.count; i++)
        if (design->assemblies.items[i].of != NULL &&
            design->assemblies.items[i].element == element->parent)
            return design->assemblies.items[i].of->element;
    return NULL;
}

/* Where a definition lacks parts, its steps count otherwise: that tells what
 * lacks, but is no mistake of its own. */
static void join_steps(struct mender *mender)
{
    size_t kept = 0;
    for (size_t i = 0; i < mender->error_count; i++) {
        struct diagnostic *step = mender->errors[i];
        struct diagnostic *cause = NULL;
        const struct element *made =
            step->code == DIAG_STEP_COUNT || step->code == DIAG_STEP_UNUSED
                ? made_by(mender, step)
                : NULL;
        for (size_t k = 0; made != NULL && k < mender->error_count; k++) {
            struct diagnostic *d = mender->errors[k];
            const uint32_t at =
                d->about.end > 0 ? d->about.start : d->span.start;
            if (lacks_parts(d) &&
                top_of(mender, element_at(mender, at)) == made)
                cause = d;
        }
        if (cause == NULL) {
            mender->errors[kept++] = step;
            continue;
        }
        diag_note(mender->run, cause, step->span, "%s", step->message);
        diag_drop(mender->run, step);
    }
    mender->error_count = kept;
}

/* The cells that differ, a bit each. */
static uint64_t picture_bits(const struct mender *mender)
{
    uint64_t bits = 0;
    for (size_t i = 0; i < mender->before.count && i < 64; i++)
        if (mender->before.items[i].code == DIAG_PICTURE)
            bits |= UINT64_C(1) << i;
    return bits;
}

static size_t bits_in(uint64_t bits)
{
    size_t count = 0;
    for (; bits != 0; bits &= bits - 1)
        count++;
    return count;
}

/* A cause that mends few of many cells, which all causes together do not mend,
 * is chance: only the cells are told. */
static void drop_chances(struct mender *mender)
{
    enum { CELLS_MANY = 8, PART = 4 };
    const uint64_t all = picture_bits(mender);
    uint64_t mended = 0;
    size_t kept = 0, pictures = 0;
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct candidate *own = own_of(mender, mender->errors[i]);
        if (own != NULL && own->tried && own->outcome.fresh == 0 &&
            of_picture(mender->errors[i]->code))
            mended |= all & ~own->outcome.which;
        pictures += mender->errors[i]->code == DIAG_PICTURE;
    }
    if (mended == all || pictures == 0 || bits_in(all) < CELLS_MANY)
        return;
    for (size_t i = 0; i < mender->error_count; i++) {
        struct diagnostic *d = mender->errors[i];
        const struct candidate *own = own_of(mender, d);
        const bool chance =
            of_picture(d->code) && d->code != DIAG_PICTURE && own != NULL &&
            own->tried && 2 * bits_in(all & ~own->outcome.which) < bits_in(all);
        if (chance)
            diag_drop(mender->run, d);
        else
            mender->errors[kept++] = d;
    }
    mender->error_count = kept;
}

/* Each mend that clears its definition is told, in words. As mends that a
 * program may apply they are offered where all together were tried, and leave
 * nothing. */
void say_apart(struct mender *mender)
{
    const struct candidate **all = ARENA_ARRAY(
        mender->arena, const struct candidate *, mender->error_count + 1);
    size_t count = 0;
    if (mender->root != NULL)
        join_steps(mender);
    drop_chances(mender);
    for (size_t i = 0; i < mender->error_count; i++) {
        struct diagnostic *d = mender->errors[i];
        const struct candidate *own = own_of(mender, d);
        if (d->replacement == NULL)
            continue;
        if (holds_apart(mender, d, own)) {
            all[count++] = own;
            continue;
        }
        d->replacement = NULL;
        if (!asks(d))
            d->help = NULL;
        if (d->about.end > 0)
            tell_about(mender, i);
    }
    if (hold_together(mender, all, count))
        return;
    for (size_t i = 0; i < count; i++)
        all[i]->own->replacement = NULL;
}
