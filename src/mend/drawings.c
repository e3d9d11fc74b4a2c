/* What may be wrong in how a picture is written: two rows or two cells
 * exchanged, a cell too many or too few in a row, a cell that cannot be read,
 * the count of cells; of rows of triangles, how many places a word covers and
 * which way the first one points. Read next: lacking.c. */
#include <string.h>

#include "mender.h"

enum { WORDS_MOST = 40, KINDS_MOST = 24, ROW_WORDS_MOST = 1000 };

/* ---- triangles ---- */

void offer_row_places(struct mender *mender, const struct element *map,
                      struct span row)
{
    static const char *const places[] = {"", ".2", ".3"};
    uint32_t at = row.start;
    struct span word;
    size_t lines;
    while (map->parent->kind == ELEMENT_TRIANGLES &&
           next_word(mender->run->source, row, &at, &word, &lines)) {
        const char *now = span_text(mender, word);
        for (size_t i = 0; i < 3; i++)
            if (strcmp(now + 1, places[i]) != 0)
                offer(mender,
                      (struct candidate){
                          .manner = MANNER_VALUE,
                          .kind = KIND_WORD,
                          .element = map,
                          .number = rational_unknown(),
                          .place = word,
                          .edit = {word, arena_printf(mender->arena, "%c%s",
                                                      now[0], places[i])}});
    }
}

/* The words of a map of triangles, and how many places each row covers. */
struct row_words {
    struct span words[ROW_WORDS_MOST];
    size_t row[ROW_WORDS_MOST];
    size_t count;
    long covered[ROW_WORDS_MOST]; /* by row */
    size_t rows;
};

static long places_of_word(const struct mender *mender, struct span word)
{
    const char *text = span_text(mender, word);
    return strcmp(text + 1, ".2") == 0   ? 2
           : strcmp(text + 1, ".3") == 0 ? 3
                                         : 1;
}

/* ensures: false for maps that are too long to be looked at. */
static bool read_row_words(const struct mender *mender,
                           const struct element *map, struct row_words *found)
{
    uint32_t at = map->content.start;
    struct span word;
    size_t lines;
    while (next_word(mender->run->source, map->content, &at, &word, &lines)) {
        if (found->count == ROW_WORDS_MOST)
            return false;
        found->rows += found->count == 0 || lines > 0;
        found->words[found->count] = word;
        found->row[found->count++] = found->rows - 1;
        found->covered[found->rows - 1] += places_of_word(mender, word);
    }
    return true;
}

/* Two rows are off, one by as many places as the other lacks: a word of the one
 * may stand in the other, and one of that in this. The picture decides. */
void offer_row_exchanges(struct mender *mender, const struct element *map)
{
    const struct value *across = written(map->parent, ATTR_ACROSS);
    struct row_words *all = ARENA_NEW(mender->arena, struct row_words);
    size_t off[2], count = 0;
    if (map->parent->kind != ELEMENT_TRIANGLES || across == NULL ||
        !read_row_words(mender, map, all))
        return;
    for (size_t row = 0; row < all->rows; row++) {
        if (all->covered[row] == across->whole)
            continue;
        if (count == 2)
            return;
        off[count++] = row;
    }
    if (count < 2 ||
        all->covered[off[0]] + all->covered[off[1]] != 2 * across->whole)
        return;
    const long more = all->covered[off[0]] - across->whole;
    for (size_t i = 0; i < all->count; i++)
        for (size_t k = 0; k < all->count; k++)
            if (all->row[i] == off[0] && all->row[k] == off[1] &&
                places_of_word(mender, all->words[i]) -
                        places_of_word(mender, all->words[k]) ==
                    more)
                offer_exchange(mender, map, all->words[i], all->words[k]);
}

/* The picture's own word for the way in which the first one points; a fabric
 * for the halves where none is told. */
static void offer_rows(struct mender *mender, const struct definition *drawn)
{
    enum { FABRICS_FEW = 12 };
    const struct design *design = mender->sized->design;
    const struct element *rows = drawn->root->element;
    const enum diag_code code = mender->errors[0]->code;
    if (code == DIAG_WRONG_DIRECTION) {
        offer_value(mender, drawn->picture, ATTR_TRIANGLE_CELLS,
                    drawn->picture_down ? "up" : "down", rational_unknown());
        /* As likely as what the search found. */
        mender->candidates.items[mender->candidates.count - 1].program = true;
    }
    if (code != DIAG_PICTURE || rows->kind != ELEMENT_TRIANGLES ||
        written(rows, ATTR_ENDS) != NULL)
        return;
    for (size_t i = 0; i < design->fabrics.count && i < FABRICS_FEW; i++)
        offer_value(mender, rows, ATTR_ENDS, design->fabrics.items[i].id,
                    rational_unknown());
}

static void offer_pictured_rows(struct mender *mender)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; mender->error_count > 0 && i < design->definitions.count;
         i++)
        if (design->definitions.items[i]->picture_triangles &&
            design->definitions.items[i]->root != NULL)
            offer_rows(mender, design->definitions.items[i]);
}

/* ---- exchanged ---- */

/* The cells that differ, all of one picture. */
struct differing {
    const struct definition *definition;
    size_t rows[2]; /* of the picture; 0 for none */
    size_t in_row[2];
    const struct picture_cell *cells[2];
    size_t count;
    bool more_rows;
};

static const struct picture_cell *cell_at(const struct mender *mender,
                                          uint32_t at,
                                          const struct definition **owner)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i];
        for (size_t k = 0; k < one->cells.count; k++)
            if (one->cells.items[k].span.start == at) {
                *owner = one;
                return &one->cells.items[k];
            }
    }
    return NULL;
}

static void add_cell(struct differing *all, const struct picture_cell *cell)
{
    size_t i = 0;
    if (all->count < 2)
        all->cells[all->count] = cell;
    all->count++;
    while (i < 2 && all->rows[i] != 0 && all->rows[i] != cell->row)
        i++;
    if (i == 2) {
        all->more_rows = true;
        return;
    }
    all->rows[i] = cell->row;
    all->in_row[i]++;
}

/* ensures: a definition of NULL where they are of several pictures. */
static struct differing cells_differing(const struct mender *mender)
{
    enum { CELLS_MANY = 128 }; /* one slip of the pen makes fewer differ */
    struct differing all = {.definition = NULL};
    if (mender->before.count > CELLS_MANY)
        return all;
    for (size_t i = 0; i < mender->before.count; i++) {
        const struct definition *owner = NULL;
        if (mender->before.items[i].code != DIAG_PICTURE)
            continue;
        const struct picture_cell *cell =
            cell_at(mender, mender->before.items[i].at, &owner);
        if (cell == NULL || (all.definition != NULL && owner != all.definition))
            return (struct differing){.definition = NULL};
        all.definition = owner;
        add_cell(&all, cell);
    }
    return all;
}

/* From its first cell to its last. */
static struct span row_span(const struct definition *definition, size_t row)
{
    struct span span = {0, 0};
    for (size_t i = 0; i < definition->cells.count; i++) {
        const struct picture_cell *cell = &definition->cells.items[i];
        if (cell->row != row)
            continue;
        if (span.end == 0)
            span.start = cell->span.start;
        span.end = cell->span.end;
    }
    return span;
}

void offer_picture_exchanges(struct mender *mender)
{
    const struct differing all = cells_differing(mender);
    offer_pictured_rows(mender);
    if (all.definition == NULL || all.count < 2)
        return;
    if (all.count == 2)
        offer_exchange(mender, all.definition->picture, all.cells[0]->span,
                       all.cells[1]->span);
    if (!all.more_rows && all.rows[1] != 0 && all.in_row[0] == all.in_row[1])
        offer_exchange(mender, all.definition->picture,
                       row_span(all.definition, all.rows[0]),
                       row_span(all.definition, all.rows[1]));
}

const struct definition *differing_picture(const struct mender *mender)
{
    return cells_differing(mender).definition;
}

/* ---- places of a map ---- */

/* Where the words of a map or picture stand, as they are written; each once. */
struct drawn_place {
    uint32_t start;
    size_t row, column;
};

struct drawn_places {
    LIST(struct drawn_place) words;
    size_t rows, columns;
};

static struct drawn_places places_of(const struct mender *mender,
                                     const struct element *element)
{
    struct drawn_places places = {0};
    uint32_t at = element->content.start;
    struct span word;
    size_t lines, column = 0;
    while (
        next_word(mender->run->source, element->content, &at, &word, &lines)) {
        if (lines > 0 || places.rows == 0) {
            places.rows++;
            column = 0;
        }
        *LIST_ADD(mender->arena, &places.words) =
            (struct drawn_place){word.start, places.rows - 1, column++};
        if (column > places.columns)
            places.columns = column;
    }
    return places;
}

/* requires: words in the order of their places. ensures: NULL for none. */
static const struct drawn_place *place_at(const struct drawn_places *places,
                                          uint32_t start)
{
    size_t low = 0, high = places->words.count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (places->words.items[middle].start < start)
            low = middle + 1;
        else
            high = middle;
    }
    return low < places->words.count && places->words.items[low].start == start
               ? &places->words.items[low]
               : NULL;
}

/* A cell of the picture lies in that word of the map which is as far along and
 * as far down. That is so where the map is all that the picture shows;
 * elsewhere words are only tried in another order. */
const bool *places_differing(const struct mender *mender,
                             const struct element *map, size_t count)
{
    bool *flags = ARENA_ARRAY(mender->arena, bool, count + 1);
    const struct definition *owner = defined_by(mender, top_of(mender, map));
    if (owner == NULL || owner->picture == NULL)
        return flags;
    const struct drawn_places words = places_of(mender, map);
    const struct drawn_places cells = places_of(mender, owner->picture);
    bool *differs =
        ARENA_ARRAY(mender->arena, bool, words.rows *words.columns + 1);
    for (size_t i = 0; i < mender->before.count; i++) {
        const struct drawn_place *cell =
            mender->before.items[i].code == DIAG_PICTURE
                ? place_at(&cells, mender->before.items[i].at)
                : NULL;
        if (cell != NULL)
            differs[cell->row * words.rows / cells.rows * words.columns +
                    cell->column * words.columns / cells.columns] = true;
    }
    for (size_t i = 0; i < count && i < words.words.count; i++) {
        const struct drawn_place *word = &words.words.items[i];
        flags[i] = differs[word->row * words.columns + word->column];
    }
    return flags;
}

/* ---- cells too many or too few ---- */

/* The words of the row that is reported. */
struct drawn_row {
    const struct element *picture;
    struct span words[WORDS_MOST];
    size_t count;
    const char *kinds[KINDS_MOST]; /* of words in the picture */
    size_t kind_count;
};

static void add_kind(struct drawn_row *row, const char *word)
{
    for (size_t i = 0; i < row->kind_count; i++)
        if (strcmp(row->kinds[i], word) == 0)
            return;
    if (row->kind_count < KINDS_MOST)
        row->kinds[row->kind_count++] = word;
}

/* requires: a span within the picture. */
static struct drawn_row row_of(const struct mender *mender, struct span span)
{
    struct drawn_row row = {.picture = element_at(mender, span.start)};
    uint32_t at = row.picture->content.start;
    struct span word;
    size_t lines;
    while (row.picture->kind == ELEMENT_PICTURE &&
           next_word(mender->run->source, row.picture->content, &at, &word,
                     &lines)) {
        add_kind(&row, span_text(mender, word));
        if (word.start >= span.start && word.end <= span.end &&
            row.count < WORDS_MOST)
            row.words[row.count++] = word;
    }
    return row;
}

static struct candidate *offer_cell(struct mender *mender,
                                    const struct drawn_row *row,
                                    struct span word, const char *text)
{
    return offer(mender, (struct candidate){.manner = MANNER_VALUE,
                                            .kind = KIND_WORD,
                                            .element = row->picture,
                                            .number = rational_unknown(),
                                            .place = word,
                                            .edit = {word, text}});
}

static size_t try_cell(struct mender *mender, struct candidate *one)
{
    if (one == NULL)
        return SIZE_MAX;
    if (!one->tried) {
        one->outcome = try_edit(mender, &one->edit);
        one->tried = true;
    }
    return one->outcome.left > 0 || one->outcome.stage < STAGE_CELLS
               ? SIZE_MAX
               : one->outcome.fresh;
}

/* A word more behind word `at`; before the first for `at` of -1. */
static size_t try_more(struct mender *mender, const struct drawn_row *row,
                       size_t at, const char *more)
{
    const bool first = at == (size_t)-1;
    const struct span word = row->words[first ? 0 : at];
    const char *beside = span_text(mender, word);
    const size_t next = at + 1;
    if (next < row->count &&
        strcmp(span_text(mender, row->words[next]), more) == 0)
        return SIZE_MAX; /* the same as behind that one */
    return try_cell(
        mender,
        offer_cell(mender, row, word,
                   first ? arena_printf(mender->arena, "%s %s", more, beside)
                         : arena_printf(mender->arena, "%s %s", beside, more)));
}

/* Any word shows the place that lacks one, where the others fit again: the last
 * of several that are alike. */
static void search_row(struct mender *mender, const struct drawn_row *row,
                       size_t most)
{
    size_t least = SIZE_MAX, place = 0;
    for (size_t i = 0; i < row->count && mender->tried < most; i++)
        if (i + 1 == row->count ||
            !same_text(mender, row->words[i], row->words[i + 1]))
            try_cell(mender, offer_cell(mender, row, row->words[i], ""));
    for (size_t i = 0; i <= row->count && mender->tried < most; i++)
        for (size_t k = 0; k < 2 && k < row->kind_count; k++) {
            const size_t left = try_more(mender, row, i - 1, row->kinds[k]);
            if (left <= least && left < SIZE_MAX) {
                least = left;
                place = i;
            }
        }
    for (size_t k = 2;
         least < SIZE_MAX && k < row->kind_count && mender->tried < most; k++)
        try_more(mender, row, place - 1, row->kinds[k]);
}

void search_drawings(struct mender *mender, size_t most)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        if (d->code != DIAG_PICTURE_SIZE)
            continue;
        const struct drawn_row row = row_of(mender, d->span);
        if (row.count == 0 || row.count == WORDS_MOST)
            continue;
        search_row(mender, &row, most);
        return;
    }
}

/* ---- what cannot be read, and the count ---- */

void offer_drawn_words(struct mender *mender)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        if (d->code != DIAG_PICTURE_TOKEN && d->code != DIAG_PICTURE_SIZE)
            continue;
        const struct drawn_row row = row_of(mender, d->span);
        if (row.picture->kind != ELEMENT_PICTURE)
            continue;
        for (size_t k = 0; d->code == DIAG_PICTURE_TOKEN && k < row.kind_count;
             k++)
            offer_cell(mender, &row, d->span, row.kinds[k]);
        if (d->code == DIAG_PICTURE_SIZE)
            offer_drawing_counts(mender, row.picture);
        if (d->code == DIAG_PICTURE_SIZE && row.count > 0)
            offer_value(mender, row.picture, ATTR_CELLS,
                        arena_printf(mender->arena, "%zu", row.count),
                        rational_whole(1));
    }
}

/* Words that differ, where nobody knows what the cloth shows in one: the other
 * words of the picture. Of many, none is single. */
void offer_shown_words(struct mender *mender)
{
    enum { WORDS_DIFFERING = 4 };
    struct span words[WORDS_DIFFERING];
    size_t count = 0;
    for (size_t i = 0; i < mender->before.count; i++) {
        const struct problem *cell = &mender->before.items[i];
        size_t k = 0;
        if (cell->code != DIAG_PICTURE || cell->shown != NULL)
            continue;
        while (k < count && words[k].start != cell->at)
            k++;
        if (k == WORDS_DIFFERING)
            return;
        words[k] = (struct span){cell->at, cell->end};
        count += k == count;
    }
    for (size_t i = 0; i < count; i++) {
        const struct drawn_row row = row_of(mender, words[i]);
        for (size_t k = 0; k < row.kind_count; k++)
            offer_cell(mender, &row, words[i], row.kinds[k]);
    }
}
