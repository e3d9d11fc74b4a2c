/* What a designer states of sizes and counts, and whether it holds. A piece may
 * be sewn at several scales; a statement must hold at one of them. All lengths
 * here are real, each at one scale of the definition. Statements never move a
 * size: by now the sizes are what they are, and the words are right or wrong.
 * May assume that scales are found. */
#include "solver.h"

#include "buffer.h"

/* A statement under test: which words, on what, saying what. */
struct statement {
    const struct definition *owner;
    const struct element *element;
    const struct piece *piece; /* NULL for a corner */
    enum attribute_id id;
    const struct stated *stated;
    const char *what; /* "cut" */
};

/* Unfinished is finished and a seam on either side. */
static struct rational both_seams(const struct sized *sized)
{
    return rational_times(sized->design->pattern->seam, 2);
}

/* The real size of a piece's cloth in the sense of the attribute. */
static struct real_size real_size(const struct sized *sized,
                                  const struct piece *piece,
                                  enum attribute_id id, struct rational factor)
{
    struct real_size size = {rational_mul(sized->width[piece->index], factor),
                             rational_mul(sized->height[piece->index], factor)};
    const struct pattern *pattern = sized->design->pattern;
    /* As it was before its turn: a statement speaks of the unit itself. */
    if (piece->orientation.turn % 2 == 1)
        size = (struct real_size){size.height, size.width};
    if (id == ATTR_CUT && sizing_of(piece)->cut != NULL) {
        size = sizing_of(piece)->cut(pattern, piece, size);
    } else if (id == ATTR_CUT) {
        size.width = cut_length(pattern, size.width);
        size.height = cut_length(pattern, size.height);
    } else if (id == ATTR_UNFINISHED) {
        size.width = rational_add(size.width, both_seams(sized));
        size.height = rational_add(size.height, both_seams(sized));
    }
    return size;
}

/* A cut piece may be stated either way round: it is turned on the mat. A
 * finished one may not: it has a place. */
static bool holds(const struct statement *statement, struct real_size size)
{
    const struct stated *stated = statement->stated;
    if (!rational_known(size.width) || !rational_known(size.height))
        return true; /* reported where it arose */
    const bool straight = rational_equal(stated->value, size.width) &&
                          rational_equal(stated->second, size.height);
    const bool turned = rational_equal(stated->value, size.height) &&
                        rational_equal(stated->second, size.width);
    return straight || (statement->id == ATTR_CUT && turned);
}

/* Without a unit, as a mend writes it. */
static const char *size_written(struct run *run, const struct sized *sized,
                                struct real_size size)
{
    const enum length_unit units = sized->design->pattern->units;
    return arena_printf(run->arena, "%s x %s",
                        length_written(run->arena, size.width, units),
                        length_written(run->arena, size.height, units));
}

/* The same in words of a message. */
static const char *size_text(struct run *run, const struct sized *sized,
                             struct real_size size)
{
    const enum length_unit units = sized->design->pattern->units;
    return arena_printf(run->arena, "%s x %s",
                        length_plain(run->arena, size.width, units),
                        length_plain(run->arena, size.height, units));
}

/* A corner square stated smaller than its corner needs would, flipped, leave
 * the corner bare: that is worth its own words. ensures: false where this is
 * not such a case. */
static bool report_short_flap(struct run *run, const struct sized *sized,
                              const struct statement *statement,
                              struct real_size size)
{
    const enum length_unit units = sized->design->pattern->units;
    const struct stated *stated = statement->stated;
    if (statement->element->kind != ELEMENT_CORNER ||
        rational_compare(rational_min(stated->value, stated->second),
                         size.width) >= 0)
        return false;
    const char *right = length_written(run->arena, size.width, units);
    struct diagnostic *d = report_in(
        run, sized->sound, statement->owner, DIAG_FLAP_SHORT, stated->span,
        "a square of %s does not cover this corner: it needs %s", stated->text,
        length_plain(run->arena, size.width, units));
    diag_note(run, d, (struct span){0, 0},
              "flipped over its diagonal, the square must reach both outer "
              "edges, seam allowances included");
    diag_mend(run, d, stated->span, right, "cut=\"%s\" covers it", right);
    return true;
}

/* reports: what the size is instead, and how it comes from the finished size.
 * `scales` is how many were tried. */
static void report_stated(struct run *run, const struct sized *sized,
                          const struct statement *statement,
                          struct real_size size, struct real_size finished,
                          size_t scales)
{
    const enum length_unit units = sized->design->pattern->units;
    const struct stated *stated = statement->stated;
    if (report_short_flap(run, sized, statement, size))
        return;
    const char *right = size_written(run, sized, size);
    struct diagnostic *d = report_in(
        run, sized->sound, statement->owner, DIAG_STATEMENT, stated->span,
        "`%s` is %s %s, not %s", element_name(statement->element->kind),
        size_text(run, sized, size), statement->what, stated->text);
    diag_off(d, rational_sub(size.width, stated->value),
             rational_sub(size.height, stated->second));
    if (statement->piece != NULL && statement->id == ATTR_CUT &&
        sizing_of(statement->piece)->cut_note != NULL)
        diag_note(run, d, (struct span){0, 0}, "%s",
                  sizing_of(statement->piece)
                      ->cut_note(run, sized->design->pattern, statement->piece,
                                 finished));
    else if (statement->id != ATTR_FINISHED)
        diag_note(
            run, d, (struct span){0, 0},
            "%s finished, and a seam of %s on each side",
            size_text(run, sized, finished),
            length_plain(run->arena, sized->design->pattern->seam, units));
    if (scales > 1)
        diag_note(run, d, (struct span){0, 0},
                  "it is sewn at %zu sizes; at none of them is it %s", scales,
                  stated->text);
    diag_mend(run, d, stated->span, right, "%s=\"%s\" holds",
              attribute_name(statement->id), right);
}

/* The message tells the first scale. What no quilt uses has no scale, and is
 * not checked. */
static void check_stated(struct run *run, const struct sized *sized,
                         const struct piece *piece, struct statement statement)
{
    const struct definition_scales *scales =
        &sized->scales[piece->owner->index];
    if (!statement.stated->usable || scales->items.count == 0)
        return;
    for (size_t i = 0; i < scales->items.count; i++)
        if (holds(&statement, real_size(sized, piece, statement.id,
                                        scales->items.items[i].factor)))
            return;
    if (scales->open)
        return;
    const struct rational factor = scales->items.items[0].factor;
    report_stated(
        run, sized, &statement, real_size(sized, piece, statement.id, factor),
        real_size(sized, piece, ATTR_FINISHED, factor), scales->items.count);
}

/* `size` and `width` are not here: they fix sizes, and a contradiction was a
 * sum's. */
static void check_piece_statements(struct run *run, const struct sized *sized,
                                   const struct piece *piece)
{
    const struct element *element = piece->element;
    check_stated(run, sized, piece,
                 (struct statement){piece->owner, element, piece, ATTR_CUT,
                                    &piece->cut, "cut"});
    if (sized->misfit[piece->index])
        return;
    check_stated(run, sized, piece,
                 (struct statement){piece->owner, element, piece, ATTR_FINISHED,
                                    &piece->finished, "finished"});
    check_stated(run, sized, piece,
                 (struct statement){piece->owner, element, piece,
                                    ATTR_UNFINISHED, &piece->unfinished,
                                    "unfinished"});
}

/* A corner must lie inside its piece, and its own statements must hold. Two
 * corners may overlap, if the designer wants; one that is larger than the piece
 * cannot be laid. */
static void check_corner(struct run *run, const struct sized *sized,
                         const struct piece *piece, const struct corner *corner)
{
    const struct rational width = sized->width[piece->index];
    const struct rational height = sized->height[piece->index];
    const enum length_unit units = sized->design->pattern->units;
    if (!rational_known(width) || !rational_known(height) ||
        !rational_known(corner->size))
        return;
    const struct rational most = rational_min(width, height);
    if (rational_compare(corner->size, most) > 0) {
        struct diagnostic *d =
            report_in(run, sized->sound, piece->owner, DIAG_CORNER_SIZE,
                      value_span(corner->element, ATTR_SIZE),
                      "a corner of %s does not fit a `%s` of %s x %s",
                      length_plain(run->arena, corner->size, units),
                      element_name(piece->element->kind),
                      length_plain(run->arena, width, units),
                      length_plain(run->arena, height, units));
        diag_help(run, d, "a corner is at most %s here",
                  length_plain(run->arena, most, units));
        return;
    }
    const struct definition_scales *scales =
        &sized->scales[piece->owner->index];
    const struct statement statement = {piece->owner, corner->element, NULL,
                                        ATTR_CUT,     &corner->cut,    "cut"};
    struct real_size first = {rational_unknown(), rational_unknown()};
    for (size_t i = 0; corner->cut.usable && i < scales->items.count; i++) {
        const struct rational cut = cut_length(
            sized->design->pattern,
            rational_mul(corner->size, scales->items.items[i].factor));
        const struct real_size size = {cut, cut};
        if (holds(&statement, size))
            return;
        if (i == 0)
            first = size;
    }
    if (scales->open)
        return;
    if (rational_known(first.width)) {
        const struct real_size finished = {
            rational_mul(corner->size, scales->items.items[0].factor),
            rational_mul(corner->size, scales->items.items[0].factor)};
        report_stated(run, sized, &statement, first, finished,
                      scales->items.count);
    }
}

/* More than any definition may take. */
enum { OCCURRENCES_MOST = 1000000 };

/* How often a piece stands in its own definition; at most one more than the
 * most. A grid counts each of its cells. Uses are not entered: a statement
 * speaks of one unit or block. */
static long occurrences(const struct piece *root, const struct piece *piece)
{
    if (root->first == piece)
        return 1;
    long count = 0, each = 0;
    const struct piece *last = NULL;
    for (size_t i = 0; i < root->cells.count && count <= OCCURRENCES_MOST;
         i++) {
        if (root->cells.items[i].piece->first != last)
            each = occurrences(root->cells.items[i].piece, piece);
        last = root->cells.items[i].piece->first;
        count += each;
    }
    return count > OCCURRENCES_MOST ? OCCURRENCES_MOST + 1 : count;
}

/* reports: a count that is not the one in its own unit or block. 0 is a piece
 * that a map never names; of too many the limit was told. */
static void check_count(struct run *run, const struct sized *sized,
                        const struct piece *piece)
{
    const struct stated *stated = &piece->count;
    if (!stated->usable || piece->owner->whole == NULL)
        return;
    const long count = occurrences(piece->owner->whole, piece);
    if (count == 0 || count > OCCURRENCES_MOST ||
        rational_equal(rational_whole(count), stated->value))
        return;
    struct diagnostic *d =
        report_in(run, sized->sound, piece->owner, DIAG_STATEMENT, stated->span,
                  "one `%s` takes %ld of these, not %s", piece->owner->id,
                  count, length_plain(run->arena, stated->value, UNIT_IN));
    diag_mend(run, d, stated->span, arena_printf(run->arena, "%ld", count),
              "count=\"%ld\" holds", count);
}

/* Known in grid squares, but at a scale at which it cannot be told exactly.
 * Numbers go on beyond 64 bits; where a part passes 1,024, or a cut size is more
 * cutting steps than 64 bits count, it is refused, never rounded. */
static void check_exact(struct run *run, const struct sized *sized,
                        const struct piece *piece)
{
    const struct definition_scales *scales =
        &sized->scales[piece->owner->index];
    const struct rational sides[2] = {sized->width[piece->index],
                                      sized->height[piece->index]};
    for (size_t i = 0; i < 2 * scales->items.count; i++) {
        const struct rational factor = scales->items.items[i / 2].factor;
        if (!rational_known(sides[i % 2]) ||
            rational_known(cut_length(sized->design->pattern,
                                      rational_mul(sides[i % 2], factor))))
            continue;
        report_in(run, sized->sound, piece->owner, DIAG_LIMIT,
                  piece->element->name,
                  "the size of `%s` is too fine to be told exactly",
                  element_name(piece->element->kind));
        return;
    }
}

/* "60 + 2 x 3 = 66" The terms as a designer would add them up. */
static const char *quilt_sum(struct run *run, const struct sized *sized,
                             const struct definition *quilt,
                             struct rational centre, struct rational total)
{
    const enum length_unit units = sized->design->pattern->units;
    struct buffer text = buffer_in(run->arena);
    buffer_text(&text, length_plain(run->arena, centre, units));
    for (size_t i = 0; i < quilt->borders.count; i++)
        buffer_printf(
            &text, " + 2 x %s",
            length_plain(run->arena, quilt->borders.items[i].width, units));
    buffer_printf(&text, " = %s", length_plain(run->arena, total, units));
    return buffer_string(&text);
}

/* reports: a quilt whose stated size is not that of its centre and borders. */
static void check_quilt(struct run *run, const struct sized *sized,
                        const struct definition *quilt)
{
    const struct stated *stated = &quilt->finished;
    const struct real_size size = {quilt_width(sized, quilt),
                                   quilt_height(sized, quilt)};
    if (!stated->usable || quilt->element->faulty || quilt->root == NULL ||
        !rational_known(size.width) || !rational_known(size.height))
        return;
    const bool wide = rational_equal(stated->value, size.width);
    if (wide && rational_equal(stated->second, size.height))
        return;
    const char *right = size_written(run, sized, size);
    struct diagnostic *d = report_in(
        run, sized->sound, quilt, DIAG_STATEMENT, stated->span,
        "`%s` is %s finished, not %s", quilt->id,
        size_text(run, sized, size), stated->text);
    diag_off(d, rational_sub(size.width, stated->value),
             rational_sub(size.height, stated->second));
    diag_note(run, d, quilt->root->element->name,
              "%s: the center and its borders make %s",
              wide ? "height" : "width",
              wide ? quilt_sum(run, sized, quilt,
                               sized->height[quilt->root->index], size.height)
                   : quilt_sum(run, sized, quilt,
                               sized->width[quilt->root->index], size.width));
    diag_mend(run, d, stated->span, right, "finished=\"%s\" holds", right);
}

/* Quilts first, then pieces in the order of the source; the collector sorts
 * messages by place anyway. Runs on what could be solved: unknown sizes pass.
 */
/* A border states the top's size when it is on. */
static void check_border(struct run *run, const struct sized *sized,
                         const struct definition *quilt,
                         const struct stated *stated, struct real_size top,
                         enum attribute_id id)
{
    const bool finished = id == ATTR_FINISHED;
    if (!stated->usable || !rational_known(top.width) ||
        !rational_known(top.height))
        return;
    if (!finished) {
        top.width = rational_add(top.width, both_seams(sized));
        top.height = rational_add(top.height, both_seams(sized));
    }
    if (rational_equal(stated->value, top.width) &&
        rational_equal(stated->second, top.height))
        return;
    const char *right = size_written(run, sized, top);
    struct diagnostic *d =
        report_in(run, sized->sound, quilt, DIAG_STATEMENT, stated->span,
                  "with this border the top is %s %s, not %s",
                  size_text(run, sized, top),
                  finished ? "finished" : "unfinished", stated->text);
    diag_mend(run, d, stated->span, right, "%s=\"%s\" holds",
              attribute_name(id), right);
}

static void check_borders(struct run *run, const struct sized *sized,
                          const struct definition *quilt)
{
    if (quilt->root == NULL)
        return;
    struct real_size top = {sized->width[quilt->root->index],
                            sized->height[quilt->root->index]};
    for (size_t i = 0; i < quilt->borders.count; i++) {
        const struct border *border = &quilt->borders.items[i];
        top.width = rational_add(top.width, rational_times(border->width, 2));
        top.height = rational_add(top.height, rational_times(border->width, 2));
        check_border(run, sized, quilt, &border->finished, top, ATTR_FINISHED);
        check_border(run, sized, quilt, &border->unfinished, top,
                     ATTR_UNFINISHED);
    }
}

void check_sizes(struct run *run, const struct sized *sized)
{
    const struct design *design = sized->design;
    for (size_t i = 0; i < design->definitions.count; i++)
        if (design->definitions.items[i]->kind == DEFINE_QUILT) {
            check_quilt(run, sized, design->definitions.items[i]);
            check_borders(run, sized, design->definitions.items[i]);
        }
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->first != piece)
            continue; /* states nothing of its own */
        check_piece_statements(run, sized, piece);
        check_exact(run, sized, piece);
        check_count(run, sized, piece);
        if (sizing_of(piece)->check != NULL)
            sizing_of(piece)->check(run, sized, piece);
        for (size_t k = 0; k < piece->corners.count; k++)
            check_corner(run, sized, piece, &piece->corners.items[k]);
    }
}
