/* Slips in the map of rows of triangles. Each triangle has its own place in the
 * picture, so that no search is needed to know which words are wrong and what
 * they should be: what is tried is another patch there, of the fabric that the
 * picture shows, two words exchanged, and rows that begin the other way. Read
 * next: design_triangles.c. */
#include "blame.h"

/* More words than this are no slips; one of them is tried for each exchange. */
enum { WORDS_MOST = 24 };

/* A row of the picture begins with a half, as one of cells does, but only
 * there the half is a place. */
static const struct painted *part_at(const struct blame *blame, size_t row,
                                     size_t place)
{
    return &blame->wanted->painted
                .items[row * blame->wanted->across + 1 + place];
}

static bool differs_at(const struct blame *blame, size_t row, size_t place)
{
    return blame->differs[row * blame->wanted->across + 1 + place];
}

/* Looks at the places of a cell; the last is before the next cell, or before
 * the half at the end. ensures: the fabric that the picture shows in all of
 * them, NO_FABRIC where there are two; whether any differs. */
static int fabric_meant(const struct blame *blame, const struct piece *piece,
                        size_t row, size_t i, bool *differs)
{
    const struct triangle_rows *rows = piece->triangles;
    const size_t end =
        i + 2 == rows->first[row + 1] ? rows->across : rows->place[i + 1];
    int fabric = part_at(blame, row, rows->place[i])->face.fabric;
    *differs = false;
    for (size_t place = rows->place[i]; place < end; place++) {
        *differs |= differs_at(blame, row, place);
        if (part_at(blame, row, place)->face.fabric != fabric)
            fabric = NO_FABRIC;
    }
    return fabric;
}

/* Another patch of the rows, which may stand here. */
static bool has_patch(const struct piece *piece, int fabric)
{
    for (size_t i = 0; i < piece->cells.count; i++)
        if (piece->cells.items[i].piece->fabrics.items[0].fabric == fabric)
            return true;
    return false;
}

/* Two words for each other, before each by itself: one slip, not two. */
static void try_exchanged(struct blame *blame, const struct piece *piece,
                          const size_t *words, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (size_t k = i + 1; k < count; k++)
            blame->slips.try_change(&blame->slips,
                                    (struct change){.kind = CHANGE_SWAP,
                                                    .piece = piece,
                                                    .first = words[i],
                                                    .second = words[k]});
}

void try_places(struct blame *blame, const struct piece *piece)
{
    const struct triangle_rows *rows = piece->triangles;
    size_t words[WORDS_MOST], count = 0;
    int meant[WORDS_MOST];
    /* Nothing is known of places where the rows are a part of the picture. */
    if (!blame->wanted->triangles || pictured_piece(blame->block) != piece ||
        rows->across + 2 != blame->wanted->across ||
        rows->rows != blame->wanted->down)
        return;
    for (size_t row = 0; row < rows->rows; row++)
        for (size_t i = rows->first[row] + 1; i + 1 < rows->first[row + 1];
             i++) {
            bool differs;
            const int fabric = fabric_meant(blame, piece, row, i, &differs);
            if (!differs || count == WORDS_MOST ||
                piece->cells.items[i].line == 0)
                continue;
            words[count] = i;
            meant[count++] = fabric;
        }
    try_exchanged(blame, piece, words, count);
    for (size_t i = 0; i < count; i++)
        if (meant[i] != NO_FABRIC && has_patch(piece, meant[i]))
            blame->slips.try_change(&blame->slips,
                                    (struct change){.kind = CHANGE_PATCH,
                                                    .piece = piece,
                                                    .first = words[i],
                                                    .fabric = meant[i]});
}

/* The key of the patch, and as many places as before. */
static const char *word_meant(const struct blame *blame,
                              const struct change *change)
{
    const struct piece *piece = change->piece;
    const struct cell *cell = &piece->cells.items[change->first];
    const char *bytes = blame->run->source->bytes;
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *other = &piece->cells.items[i];
        if (other->piece->fabrics.items[0].fabric == change->fabric &&
            other->piece->shape != PATCH_END_LEFT &&
            other->piece->shape != PATCH_END_RIGHT)
            return arena_printf(blame->run->arena, "%c%.*s",
                                bytes[other->span.start],
                                (int)(cell->span.end - cell->span.start - 1),
                                bytes + cell->span.start + 1);
    }
    return NULL;
}

struct diagnostic *say_patch(struct blame *blame, const struct change *change)
{
    struct run *run = blame->run;
    const struct design *design = blame->sized->design;
    const struct cell *cell = &change->piece->cells.items[change->first];
    struct diagnostic *d =
        diag_report(run, DIAG_WRONG_FABRIC, cell->span,
                    "the patch here is of `%s`, but the picture needs `%s`",
                    fabric_id(design, cell->piece->fabrics.items[0].fabric),
                    fabric_id(design, change->fabric));
    const char *word = word_meant(blame, change);
    if (word != NULL)
        diag_mend(run, d, cell->span, word, "%s makes the picture", word);
    return d;
}

/* What the cloth shows in a part, with the mistakes found so far mended. */
static int shown_at(const struct blame *blame, size_t part)
{
    struct arena *scratch = arena_create();
    const struct cloth *cloth =
        design_faces(scratch, blame->sized, pictured_piece(blame->block),
                     blame->changes, blame->change_count);
    const int fabric =
        fabric_shown(scratch, cloth, blame->wanted->painted.items[part].face);
    arena_destroy(scratch);
    return fabric;
}

static const char *shown_text(const struct blame *blame, int fabric)
{
    return fabric == NO_FABRIC
               ? "more than one cloth"
               : arena_printf(blame->run->arena, "`%s`",
                              fabric_id(blame->sized->design, fabric));
}

/* A half mostly differs with the triangle beside it, which is what is told. */
static size_t worded(const struct blame *blame, size_t part)
{
    const size_t across = blame->wanted->across, place = part % across;
    const size_t beside = place == 0            ? part + 1
                          : place + 1 == across ? part - 1
                                                : part;
    return blame->differs[beside] ? beside : part;
}

void note_row_part(struct blame *blame, struct diagnostic *d, size_t part)
{
    part = worded(blame, part);
    const struct painted *wanted = &blame->wanted->painted.items[part];
    diag_note(blame->run, d, wanted->span,
              "the picture of `%s` asks for `%s` in %s; the cloth shows %s",
              blame->block->id,
              fabric_id(blame->sized->design, wanted->face.fabric),
              row_place(blame->run->arena, blame->wanted, part),
              shown_text(blame, shown_at(blame, part)));
}

/* A word of the picture as the cloth is; not where it stands for a half, too,
 * that it does not name. */
void mend_row_part(struct blame *blame, struct diagnostic *d, size_t part)
{
    const struct picture *wanted = blame->wanted;
    const size_t place = part % wanted->across;
    const int shown = shown_at(blame, part);
    const char key =
        shown == NO_FABRIC ? '\0' : fabric_key(blame->sized->design, shown);
    if (key == '\0' ||
        (!wanted->ends && (place == 0 || place + 1 == wanted->across)))
        return;
    diag_mend(blame->run, d, wanted->painted.items[part].span,
              arena_printf(blame->run->arena, "%c", key),
              "if the cloth is right, write %c in the picture", key);
}

/* One word may stand for a triangle and the half beside it. */
static bool one_word(const struct blame *blame, size_t first)
{
    const struct picture *wanted = blame->wanted;
    for (size_t i = first; i < wanted->painted.count; i++)
        if (blame->differs[i] && wanted->painted.items[i].span.start !=
                                     wanted->painted.items[first].span.start)
            return false;
    return true;
}

void say_row_part(struct blame *blame, size_t part)
{
    struct run *run = blame->run;
    part = worded(blame, part);
    const struct painted *wanted = &blame->wanted->painted.items[part];
    size_t count = 0;
    for (size_t i = 0; i < blame->wanted->painted.count; i++)
        count += blame->differs[i];
    struct diagnostic *d =
        diag_report(run, DIAG_PICTURE, wanted->span,
                    "the picture asks for `%s` in %s, but the cloth shows %s",
                    fabric_id(blame->sized->design, wanted->face.fabric),
                    row_place(run->arena, blame->wanted, part),
                    shown_text(blame, shown_at(blame, part)));
    diag_note(run, d, (struct span){0, 0},
              "%zu triangle%s of `%s` differ%s, and no single change to a "
              "piece mends %s",
              count, count == 1 ? "" : "s", blame->block->id,
              count == 1 ? "s" : "", count == 1 ? "it" : "them all");
    if (one_word(blame, part))
        mend_row_part(blame, d, part);
}
