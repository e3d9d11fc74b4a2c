/* Tables of claims, summed up: rows become answers of a claim, one for each
 * tester. The first row of all says of which printing they are. Read next:
 * gather_sums.c. */
#include "gather_parts.h"

#include <string.h>

#include "buffer.h"

enum {
    MOST_CLAIMS = 20000, /* of a booklet: the largest samples have 1,000 */
    MOST_BOOKS = 200,
    MOST_TESTERS = 99 /* as --testers has it */
};

struct gathering {
    struct run *run;
    struct gathered *all;
    size_t part; /* of the source that is read */
    struct csv_text first[CLAIMS_COLUMNS]; /* of the first row */
    bool begun;
};

/* A row once its numbers are read. */
struct read_row {
    struct claims_row cells;
    size_t number, count;
    struct testers testers;
    enum claim_kind kind;
    enum claim_answer answer;
    struct claim_measure measures;
    double measured;
};

/* ---- the same printing ---- */

/* Reports that a cell is not as it was at a place before. */
static bool differs(const struct claims_row *row, enum claims_column column,
                    const char *before, struct span place, const char *what)
{
    struct run *run = row->run;
    const struct csv_text *cell = &row->cells[column];
    struct diagnostic *d =
        diag_report(run, DIAG_CLAIMS_PRINTING, cell->span, "%s", what);
    diag_note(run, d, place, "%s is %s here", claims_column_name(column),
              quoted(run->arena, before));
    diag_help(run, d,
              "gather tables of one printing; where a spreadsheet changed the "
              "cell, write it as before");
    return false;
}

/* Pattern and revision alone: a date is rewritten by spreadsheets, and where
 * claims are others, their texts tell. */
static bool same_printing(struct gathering *g, const struct read_row *row)
{
    static const struct {
        enum claims_column column;
        const char *what;
    } held[] = {{CLAIMS_PATTERN, "these are not claims of the same pattern"},
                {CLAIMS_REVISION, "these are claims of another revision"}};
    if (!g->begun) {
        memcpy(g->first, row->cells.cells, sizeof g->first);
        g->all->pattern = g->first[CLAIMS_PATTERN].text;
        g->all->revision = g->first[CLAIMS_REVISION].text;
        g->all->date = g->first[CLAIMS_DATE].text;
        g->begun = true;
    }
    for (size_t i = 0; i < sizeof held / sizeof held[0]; i++) {
        const struct csv_text *first = &g->first[held[i].column];
        if (strcmp(row->cells.cells[held[i].column].text, first->text) != 0)
            return differs(&row->cells, held[i].column, first->text,
                           first->span, held[i].what);
    }
    return true;
}

/* ---- testers, booklets, claims ---- */

/* Two packets may have one number, as where there is one packet for all: the
 * file says whose it is. */
static size_t tester_of(struct gathering *g, struct testers of)
{
    struct arena *arena = g->run->arena;
    struct gathered *all = g->all;
    size_t in_file = 0;
    for (size_t i = all->testers.count;
         i-- > 0 && all->testers.items[i].part == g->part; in_file++)
        if (all->testers.items[i].of.tester == of.tester)
            return i;
    const char *file = g->run->source->parts.items[g->part].name;
    struct gathered_tester *one = LIST_ADD(arena, &all->testers);
    *one = (struct gathered_tester){
        in_file == 0
            ? file
            : arena_printf(arena, "%s, tester %zu", file, of.tester),
        g->part, of};
    return all->testers.count - 1;
}

/* A pattern has some dozens at most; this bounds the work of what is hostile.
 */
static bool too_many_books(const struct claims_row *row)
{
    diag_report(row->run, DIAG_CLAIMS_ROW, row->cells[CLAIMS_QUILT].span,
                "claims of more than %d booklets", MOST_BOOKS);
    return false;
}

/* ensures: the booklet of the row, or NULL, and reported. */
static struct gathered_book *book_of(struct gathering *g,
                                     const struct read_row *row)
{
    struct arena *arena = g->run->arena;
    const char *quilt = row->cells.cells[CLAIMS_QUILT].text;
    const char *colorway = row->cells.cells[CLAIMS_COLORWAY].text;
    for (size_t i = 0; i < g->all->books.count; i++) {
        struct gathered_book *book = &g->all->books.items[i];
        if (strcmp(book->quilt, quilt) != 0 ||
            strcmp(book->colorway, colorway) != 0)
            continue;
        if (book->count == row->count)
            return book;
        differs(&row->cells, CLAIMS_CLAIMS,
                arena_printf(arena, "%zu", book->count),
                book->claims.items[0].text,
                "these are claims of another printing: there are more or "
                "fewer");
        return NULL;
    }
    if (g->all->books.count == MOST_BOOKS) {
        too_many_books(&row->cells);
        return NULL;
    }
    struct gathered_book *book = LIST_ADD(arena, &g->all->books);
    *book = (struct gathered_book){
        .quilt = quilt,
        .colorway = colorway,
        .count = row->count,
        .place = ARENA_ARRAY(arena, size_t, row->count + 1)};
    return book;
}

/* What a guard against formulas has put before a text is not part of it. */
static const char *unguarded(const char *text)
{
    return text[0] == '\'' && text[1] != '\0' ? text + 1 : text;
}

/* ensures: the claim of the row, or NULL where an earlier row has it in other
 * words. */
static struct gathered_claim *claim_of(struct gathering *g,
                                       struct gathered_book *book,
                                       const struct read_row *row)
{
    const struct csv_text *text = &row->cells.cells[CLAIMS_TEXT];
    if (book->place[row->number] == 0) {
        struct gathered_claim *claim =
            LIST_ADD(g->run->arena, &book->claims);
        *claim = (struct gathered_claim){
            {row->number, row->kind,
             unguarded(row->cells.cells[CLAIMS_SECTION].text),
             unguarded(text->text), row->measures},
            row->cells.cells[CLAIMS_UNIT].text,
            text->span,
            {0}};
        book->place[row->number] = book->claims.count;
        return claim;
    }
    struct gathered_claim *claim =
        &book->claims.items[book->place[row->number] - 1];
    if (claim->claim.kind == row->kind &&
        strcmp(claim->claim.text, unguarded(text->text)) == 0)
        return claim;
    differs(&row->cells, CLAIMS_TEXT, claim->claim.text, claim->text,
            arena_printf(g->run->arena,
                         "claim %zu is that of another printing",
                         row->number));
    return NULL;
}

/* A second row of one claim is told with the place of the first, as either may be
 * the one that is meant. */
static bool add_answer(struct gathering *g, struct gathered_claim *claim,
                       const struct read_row *row)
{
    const size_t tester = tester_of(g, row->testers);
    for (size_t i = claim->answers.count; i-- > 0;) {
        const struct gathered_answer *other = &claim->answers.items[i];
        if (other->tester != tester)
            continue;
        struct diagnostic *d = diag_report(
            g->run, DIAG_CLAIMS_TWICE, row->cells.cells[CLAIMS_CLAIM].span,
            "claim %zu of tester %zu stands twice", row->number,
            row->testers.tester);
        diag_note(g->run, d, other->span, "it stands here, too");
        diag_help(g->run, d, "keep the row with the answer");
        return false;
    }
    *LIST_ADD(g->run->arena, &claim->answers) = (struct gathered_answer){
        .tester = tester,
        .answer = row->answer,
        .measure = row->cells.cells[CLAIMS_MEASURE].text,
        .span = row->cells.cells[CLAIMS_CLAIM].span,
        .measured = row->measured};
    return true;
}

/* ---- rows ---- */

static bool is_measured(enum claim_kind kind)
{
    return kind == CLAIM_STRIPS || kind == CLAIM_SIZE;
}

/* Not more than was meant is read: a cell at fault ends its row. */
static bool read_values(struct read_row *row)
{
    const struct claims_row *cells = &row->cells;
    return read_row_number(cells, CLAIMS_TESTERS, MOST_TESTERS,
                           &row->testers.count) &&
           read_row_number(cells, CLAIMS_TESTER, row->testers.count,
                           &row->testers.tester) &&
           read_row_number(cells, CLAIMS_CLAIMS, MOST_CLAIMS, &row->count) &&
           read_row_number(cells, CLAIMS_CLAIM, row->count, &row->number) &&
           read_row_kind(cells, &row->kind) &&
           read_row_answer(cells, &row->answer) &&
           (!is_measured(row->kind) ||
            (read_row_measures(cells, &row->measures) &&
             (cells->cells[CLAIMS_MEASURE].text[0] == '\0' ||
              read_row_measure(cells, row->kind, &row->measures,
                               &row->measured))));
}

/* Numbers count from 1; a 0 is read as a number and is none. */
static bool counts_from_one(const struct read_row *row)
{
    static const enum claims_column columns[] = {CLAIMS_TESTER, CLAIMS_CLAIM};
    const size_t values[] = {row->testers.tester, row->number};
    for (size_t i = 0; i < 2; i++)
        if (values[i] == 0) {
            return tell_changed(
                &row->cells, columns[i],
                arena_printf(row->cells.run->arena, "%s counts from 1",
                             claims_column_name(columns[i])));
        }
    return true;
}

/* ensures: false where the rest of the file is of something else, so that one
 * message tells it. */
static bool take_row(struct gathering *g, const struct read_row *row)
{
    if (!same_printing(g, row))
        return false;
    struct gathered_book *book = book_of(g, row);
    struct gathered_claim *claim = book == NULL ? NULL : claim_of(g, book, row);
    if (claim == NULL)
        return false;
    add_answer(g, claim, row);
    return true;
}

/* A comma that was typed into a cell makes two of it. */
static void tell_length(const struct csv_reader *reader, size_t wanted)
{
    struct run *run = reader->run;
    const size_t count = reader->cells.count;
    const struct csv_text *last = &reader->cells.items[count - 1];
    struct diagnostic *d = diag_report(
        run, DIAG_CLAIMS_TABLE,
        count > wanted ? reader->cells.items[wanted].span : last->span,
        "the row has %zu cells, the first row %zu", count, wanted);
    if (count > wanted)
        diag_help(run, d,
                  "a cell that has `%c` in it is written in quotes",
                  reader->separator);
    else
        diag_help(run, d, "cells that are empty are written, too");
}

/* Each row by itself, so that all mistakes of a file are told at once. */
static void read_rows(struct gathering *g, struct csv_reader *reader,
                      const size_t *columns)
{
    const size_t wanted = reader->cells.count;
    bool goes_on = true;
    const struct span end = {reader->row.end, reader->row.end};
    while (goes_on && csv_next(reader)) {
        if (reader->cells.count != wanted) {
            tell_length(reader, wanted);
            continue;
        }
        struct read_row row = {.cells = {.run = g->run}};
        for (int i = 0; i < CLAIMS_COLUMNS; i++)
            row.cells.cells[i] = reader->cells.items[columns[i]];
        if (read_values(&row) && counts_from_one(&row))
            goes_on = take_row(g, &row);
    }
    if (reader->rows == 1 && !reader->failed) {
        struct diagnostic *d =
            diag_report(g->run, DIAG_CLAIMS_TABLE, end,
                        "no claims stand below the first row");
        diag_help(g->run, d,
                  "name the claims.csv of a packet, as testers filled it in");
    }
}

/* Handed in twice, one tester would count as two. Empty packets may be alike. */
static bool told_before(struct gathering *g)
{
    const struct source *source = g->run->source;
    const struct source_part *part = &source->parts.items[g->part];
    for (size_t i = 0; i < g->part; i++) {
        const struct source_part *other = &source->parts.items[i];
        if (other->length != part->length ||
            memcmp(source->bytes + other->start, source->bytes + part->start,
                   part->length) != 0)
            continue;
        struct diagnostic *d = diag_report(
            g->run, DIAG_CLAIMS_TWICE, (struct span){part->start, part->start},
            "%s is the same table as %s, byte for byte", part->name,
            other->name);
        diag_help(g->run, d, "name the table of each tester once");
        return true;
    }
    return false;
}

/* A file that is no table leaves the others to be read, so that a run tells the
 * mistakes of all of them. */
const struct gathered *gather_claims(struct run *run)
{
    struct gathered *all = ARENA_NEW(run->arena, struct gathered);
    struct gathering g = {.run = run, .all = all};
    for (g.part = 0; g.part < run->source->parts.count; g.part++) {
        size_t columns[CLAIMS_COLUMNS];
        struct csv_reader reader =
            csv_open(run, &run->source->parts.items[g.part]);
        if (!reader.failed && !told_before(&g) &&
            read_claims_head(&reader, columns))
            read_rows(&g, &reader, columns);
    }
    for (size_t i = 0; i < all->books.count; i++)
        sum_book(run->arena, all, &all->books.items[i]);
    return all;
}
