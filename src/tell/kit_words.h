/* Facts of an order as words, for all of its papers. Begin with
 * section_kit_purchase.c. */
#ifndef SEAMWRIGHT_KIT_WORDS_H
#define SEAMWRIGHT_KIT_WORDS_H

#include "contents.h"
#include "kit_papers.h"

/* What each of these functions needs. */
struct kit_telling {
    const struct wording *w;
    const struct kits *kits;
};

/* ---- numbers ---- */

/* "81½ in", in the unit of the order. */
const char *kit_length(const struct kit_telling *t, struct rational length);
/* "18½ × 21 in" */
const char *kit_size(const struct kit_telling *t, struct rational width,
                     struct rational height);
/* As a shop cuts it, with the ruler's length behind it: "3½ yd (126 in)"; the
 * latter alone where yards or metres have no plain fraction. */
const char *kit_yardage(const struct kit_telling *t, struct rational length);
/* "995.10 EUR"; where it is not known, that a price lacks. */
const char *kit_money(const struct kit_telling *t, struct rational value);
/* "54.1 %", or "" for unknown. */
const char *kit_percent(const struct kit_telling *t, struct rational part);

/* ---- names ---- */

/* "Lantern Walk, Throw in Dusk" */
const char *kit_line_name(const struct kit_telling *t, size_t line);
/* Who takes a cut: a line by number and name, spare, pieces. */
const char *kit_taker(const struct kit_telling *t, size_t line,
                      enum kits_cut_kind kind);
/* "Ink cotton, DC-104" */
const char *kit_cloth_name(const struct kit_telling *t,
                           const struct kits_cloth *cloth);
/* "Bolt 3 of the shelf, lot 7", "New bolt 1", "New length". */
const char *kit_roll_name(const struct kit_telling *t,
                          const struct kits_cloth *cloth,
                          const struct kits_roll *roll);

/* ---- cells ---- */

/* A swatch, the cloth's name, its code below; `letter` may be "". */
void add_kit_cloth(const struct kit_telling *t, struct told_row *row,
                   const struct kits_cloth *cloth, const char *letter);
/* So many boxes to tick. */
void add_ticks(const struct kit_telling *t, struct told_row *row, size_t ticks);
/* A cell over several columns. */
void add_wide_cell(const struct kit_telling *t, struct told_row *row,
                   const char *text, size_t columns);

/* ---- what a kit holds ---- */

struct kit_held {
    const struct kits_content *content; /* NULL: no cloth */
    const char *what;                   /* "length", "A1", "Booklet" */
    const char *size;                   /* or "" */
    size_t count;
};
struct kit_holding {
    LIST(struct kit_held) items;
};
/* ensures: all that a content is, each size by itself. */
struct kit_holding kit_content_held(const struct kit_telling *t,
                                    const struct kits_content *content);
/* ensures: what is no cloth: batting, thread, extras. */
struct kit_holding kit_things_held(const struct kit_telling *t, size_t line);
/* ensures: of backing, binding, batting and thread whether each is in the kit:
 * a whole sentence each. */
struct texts kit_told_parts(const struct kit_telling *t, size_t line);
/* ensures: how many pieces of cloth a content has. */
size_t kit_pieces_of(const struct kits_content *content);
/* ensures: what its cloths are of, each said once: "Ink cotton: 100 % cotton".
 */
struct texts kit_fibers(const struct kit_telling *t, size_t line);

#endif
