/* A quilt of whose size nothing but its own `finished` tells: that another size
 * is meant is one explanation, a strip that lacks or is one too many is
 * another. Read next: apart.c. */
#include "mender.h"

/* The side that differs: 0 for widths, 1 for heights, -1 where none or both do,
 * or by less than a strip that can be sewn. */
static int side_of(const struct mender *mender, const struct diagnostic *d)
{
    const struct pattern *pattern = mender->sized->design->pattern;
    const int side = rational_sign(d->off[0]) != 0 ? 0 : 1;
    struct rational off = d->off[side];
    if (!rational_known(d->off[0]) || !rational_known(d->off[1]) ||
        rational_sign(d->off[1 - side]) != 0)
        return -1;
    if (rational_sign(off) < 0)
        off = rational_sub(rational_whole(0), off);
    return rational_compare(off, rational_times(pattern->seam, 2)) < 0 ? -1
                                                                       : side;
}

/* What strips of the quilt lie in along that side, or NULL. */
static const struct piece *strips_of(const struct mender *mender,
                                     const struct element *quilt, int side)
{
    const struct definition *definition = defined_by(mender, quilt);
    const enum piece_kind kind = side == 0 ? PIECE_ROW : PIECE_COLUMN;
    return definition != NULL && definition->root != NULL &&
                   definition->root->kind == kind &&
                   definition->root->cells.count > 0
               ? definition->root
               : NULL;
}

static bool makes_agree(struct mender *mender, struct span span,
                        const char *text)
{
    const struct outcome outcome = try_edit(mender, &(struct edit){span, text});
    return outcome.left + outcome.fresh == 0;
}

/* A strip of any cloth, behind the last. ensures: its words, or NULL. */
static const char *strip_lacking(struct mender *mender,
                                 const struct piece *strips, int side,
                                 struct rational size)
{
    const struct design *design = mender->sized->design;
    const struct element *parent = strips->element;
    if (design->fabrics.count == 0 || design->fabrics.items[0].id == NULL)
        return NULL;
    const char *text =
        length_written(mender->arena, size, design->pattern->units);
    const uint32_t end =
        whole_element(mender,
                      parent->children.items[parent->children.count - 1])
            .end;
    const char *patch = arena_printf(
        mender->arena, " <patch fabric=\"%s\" %s=\"%s\"/>",
        design->fabrics.items[0].id, side == 0 ? "width" : "height", text);
    if (!makes_agree(mender, (struct span){end, end}, patch))
        return NULL;
    return arena_printf(
        mender->arena, "a piece %s %s that lacks in the `%s` in line %zu", text,
        side == 0 ? "wide" : "high", element_name(parent->kind),
        source_line(mender->run->source, parent->name.start));
}

/* One of just the size that is too much. ensures: its words, or NULL. */
static const char *strip_too_many(struct mender *mender,
                                  const struct piece *strips, int side,
                                  struct rational size)
{
    const struct rational *sizes =
        side == 0 ? mender->sized->width : mender->sized->height;
    for (size_t i = 0; i < strips->cells.count; i++) {
        const struct piece *strip = strips->cells.items[i].piece;
        if (rational_known(sizes[strip->index]) &&
            rational_equal(sizes[strip->index], size) &&
            makes_agree(mender, whole_element(mender, strip->element), ""))
            return arena_printf(
                mender->arena, "leaving out the `%s` in line %zu",
                element_name(strip->element->kind),
                source_line(mender->run->source, strip->element->name.start));
    }
    return NULL;
}

/* ---- sashing ---- */

static const struct element *sashing_of(const struct mender *mender,
                                        const struct element *quilt)
{
    const struct definition *definition = defined_by(mender, quilt);
    const struct element *grid = definition != NULL &&
                                         definition->root != NULL &&
                                         definition->root->kind == PIECE_GRID
                                     ? definition->root->element
                                     : NULL;
    for (size_t i = 0; grid != NULL && i < grid->children.count; i++)
        if (grid->children.items[i]->kind == ELEMENT_SASHING)
            return grid->children.items[i];
    return NULL;
}

/* Another width of the sashing, or of a strip in it, by which the size would
 * hold. ensures: its words, or NULL. */
static const char *width_of_sashing(struct mender *mender,
                                    const struct element *element,
                                    struct rational off)
{
    const struct value *width = written(element, ATTR_WIDTH);
    const struct rational to = width == NULL || !width->usable
                                   ? rational_unknown()
                                   : rational_sub(width->number, off);
    if (rational_known(to) && rational_sign(to) > 0) {
        const char *text = length_written(mender->arena, to,
                                        mender->sized->design->pattern->units);
        if (makes_agree(mender, width->span, text))
            return arena_printf(
                mender->arena, "width=\"%s\" for the `%s` in line %zu", text,
                element_name(element->kind),
                source_line(mender->run->source, width->span.start));
    }
    for (size_t i = 0; i < element->children.count; i++) {
        const char *found =
            width_of_sashing(mender, element->children.items[i], off);
        if (found != NULL)
            return found;
    }
    return NULL;
}

/* ensures: the words of another sashing, or NULL. */
static const char *other_sashing(struct mender *mender,
                                 const struct element *quilt,
                                 const struct diagnostic *d)
{
    const struct element *sashing = sashing_of(mender, quilt);
    const struct value *across =
        sashing == NULL ? NULL : written(sashing->parent, ATTR_ACROSS);
    const struct value *outer =
        sashing == NULL ? NULL : written(sashing, ATTR_OUTER);
    if (across == NULL || !rational_known(d->off[0]))
        return NULL;
    const long strips =
        across->whole + (outer != NULL && outer->choice == 1 ? 1 : -1);
    return strips < 1 ? NULL
                      : width_of_sashing(
                            mender, sashing,
                            rational_div(d->off[0], rational_whole(strips)));
}

bool ask_for_strip(struct mender *mender)
{
    struct diagnostic *d = mender->errors[0];
    const struct element *quilt = element_at(mender, d->span.start);
    if (mender->error_count != 1 || d->code != DIAG_STATEMENT ||
        d->replacement == NULL || quilt->kind != ELEMENT_QUILT)
        return false;
    const int side = side_of(mender, d);
    const struct piece *strips =
        side < 0 ? NULL : strips_of(mender, quilt, side);
    const char *other =
        strips == NULL ? other_sashing(mender, quilt, d)
        : rational_sign(d->off[side]) < 0
            ? strip_lacking(mender, strips, side,
                            rational_sub(rational_whole(0), d->off[side]))
            : strip_too_many(mender, strips, side, d->off[side]);
    if (other == NULL)
        return false;
    diag_help(mender->run, d, "which is meant: finished=\"%s\" here, or %s?",
              d->replacement, other);
    d->replacement = NULL;
    return true;
}
