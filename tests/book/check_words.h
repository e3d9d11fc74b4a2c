/* Rules of a printed page about words, feet and free space. Functions that look
 * at one booklet; what is about sentences knows English. */
#ifndef SEAMWRIGHT_TESTS_CHECK_WORDS_H
#define SEAMWRIGHT_TESTS_CHECK_WORDS_H

#include "check_layout.h"

typedef void text_visitor(struct visit *visit, size_t page,
                          const struct item *item);

static inline void each_text(struct visit *visit, text_visitor *look)
{
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++)
            if (visit->book->pages.items[p]->items.items[i].kind == ITEM_TEXT)
                look(visit, p, &visit->book->pages.items[p]->items.items[i]);
}

/* ---- words ---- */

/* Any of the words, or none. */
static inline const char *found_of(const char *text, const char *const *words,
                                   size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strstr(text, words[i]) != NULL)
            return words[i];
    return NULL;
}

static inline void look_at_reference(struct visit *visit, size_t page,
                                     const struct item *item)
{
    static const char *const words[] = {"see page", "See page", "on page ",
                                        "overleaf"};
    const enum page_kind kind = kind_of_page(visit, page);
    const char *found = found_of(item->as.text.text, words, UNIT_COUNT(words));
    if (found != NULL && (kind == PAGE_SEWING || kind == PAGE_FINISHING))
        breach(visit->breaches, "page %zu: \"%s\"", page + 1,
               item->as.text.text);
}

/* No step sends its reader to another page. */
static inline void look_at_references(struct visit *visit)
{
    each_text(visit, look_at_reference);
}

/* "Seams that are sewn alike" tells which seams, not what to do. */
static inline void look_at_voice_of(struct visit *visit, size_t page,
                                    const struct item *item)
{
    static const char *const words[] = {
        " is sewn",     " are sewn",  " is pressed",
        " are pressed", " is joined", " are joined",
        " should be",   " will be",   " has been"};
    static const char which[] = " that";
    const size_t length = strlen(which);
    const char *text = item->as.text.text;
    for (size_t i = 0; i < UNIT_COUNT(words) && is_caption(item); i++) {
        const char *found = strstr(text, words[i]);
        if (found != NULL && ((size_t)(found - text) < length ||
                              strncmp(found - length, which, length) != 0))
            breach(visit->breaches, "page %zu: \"%s\" in \"%.50s\"", page + 1,
                   words[i], text);
    }
}

/* Who sews is told to sew; nothing "is sewn". */
static inline void look_at_voice(struct visit *visit)
{
    each_text(visit, look_at_voice_of);
}

static inline void look_at_plain_words(struct visit *visit, size_t page,
                                       const struct item *item)
{
    static const char *const words[] = {" shall ", "and/or", "either/or"};
    const char *found = found_of(item->as.text.text, words, UNIT_COUNT(words));
    if (found != NULL)
        breach(visit->breaches, "page %zu: \"%s\"", page + 1, found);
}

static inline void look_at_plainness(struct visit *visit)
{
    each_text(visit, look_at_plain_words);
}

/* At most 20 words a sentence under a frame, 25 elsewhere, and six sentences a
 * paragraph. */
static inline void look_at_sentences_of(struct visit *visit, size_t page,
                                        const struct item *item)
{
    const enum page_kind kind = kind_of_page(visit, page);
    const size_t most = kind == PAGE_SEWING || kind == PAGE_FINISHING ? 20 : 25;
    size_t words = 1, sentences = 1;
    if (!is_caption(item))
        return;
    for (const char *c = item->as.text.text; *c != '\0'; c++) {
        const bool ends = (*c == '.' || *c == ':' || *c == ';') && c[1] == ' ';
        words += *c == ' ';
        sentences += *c == '.' && c[1] == ' ';
        if (words > most) {
            breach(visit->breaches, "page %zu: more than %zu words: \"%.60s\"",
                   page + 1, most, item->as.text.text);
            return;
        }
        words = ends ? 0 : words;
    }
    if (sentences > 6)
        breach(visit->breaches, "page %zu: %zu sentences: \"%.60s\"", page + 1,
               sentences, item->as.text.text);
}

static inline void look_at_sentences(struct visit *visit)
{
    each_text(visit, look_at_sentences_of);
}

/* What hands do, as the first word under a frame says it. */
static inline bool is_action(const char *text)
{
    static const char *const verbs[] = {
        "Attach", "Center", "Cut",    "Do",      "Draw", "Fold",  "Join",
        "Lay",    "Mark",   "Match",  "Measure", "Pin",  "Press", "Quilt",
        "Sew",    "Start",  "Stitch", "Stop",    "Trim", "Turn",  "Unfold"};
    for (size_t i = 0; i < UNIT_COUNT(verbs); i++)
        if (strncmp(text, verbs[i], strlen(verbs[i])) == 0 &&
            text[strlen(verbs[i])] == ' ')
            return true;
    return false;
}

/* Words under a frame begin with what to do. */
static inline void look_at_imperatives(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const enum page_kind kind = kind_of_page(visit, p);
        const struct item_list *items = &visit->book->pages.items[p]->items;
        bool letter = false;
        for (size_t i = 0; i < items->count; i++) {
            const struct item *item = &items->items[i];
            if (item->kind != ITEM_TEXT ||
                (kind != PAGE_SEWING && kind != PAGE_FINISHING))
                continue;
            if (letter && is_caption(item) && !is_action(item->as.text.text))
                breach(visit->breaches, "page %zu: \"%.50s\"", p + 1,
                       item->as.text.text);
            letter = is_frame_letter(item);
        }
    }
}

/* What to avoid is told in one caption of ten at most. */
static inline void look_at_avoiding(struct visit *visit)
{
    static const char *const words[] = {" not ", "n't ", "Never ", " never "};
    size_t captions = 0, avoiding = 0;
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (!is_caption(item))
                continue;
            captions++;
            avoiding +=
                found_of(item->as.text.text, words, UNIT_COUNT(words)) != NULL;
        }
    if (10 * avoiding > captions)
        breach(visit->breaches, "%zu of %zu captions tell what to avoid",
               avoiding, captions);
}

/* A note to a step stands before its first frame, not behind the work. */
static inline void look_at_notes(struct visit *visit)
{
    bool step = false, figure = false, letter = false, table = false;
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (is_section(item))
                step = false;
            if (opens(item, "TR") || opens(item, "P"))
                table = opens(item, "TR");
            if (heading_number(item) > 0) {
                step = told_step(visit, heading_number(item)) != NULL;
                figure = false;
            }
            figure |= opens(item, "Figure");
            if (item->kind != ITEM_TEXT)
                continue;
            if (step && figure && !letter && !table && is_caption(item) &&
                item->as.text.width > MM(60.0))
                breach(visit->breaches,
                       "page %zu: \"%.60s\" stands behind "
                       "its figures",
                       p + 1, item->as.text.text);
            letter = is_frame_letter(item);
        }
}

/* ---- sizes in words ---- */

static inline bool is_figure_of(char c)
{
    return c >= '0' && c <= '9';
}

/* Vulgar fractions have one look: no "1/2" and no decimals of an inch. */
static inline void look_at_fraction(struct visit *visit, size_t page,
                                    const struct item *item)
{
    const char *text = item->as.text.text;
    for (size_t i = 1; text[0] != '\0' && text[i] != '\0'; i++)
        if ((text[i] == '/' ||
             (text[i] == '.' && strstr(text, "\u00a0in") != NULL)) &&
            is_figure_of(text[i - 1]) && is_figure_of(text[i + 1]))
            breach(visit->breaches, "page %zu: \"%.60s\"", page + 1, text);
}

static inline void look_at_fractions(struct visit *visit)
{
    each_text(visit, look_at_fraction);
}

/* Inches or centimetres in a figure, but for the squares to measure. */
static inline void look_at_units(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        bool inches = false, metric = false;
        for (size_t i = 0; i < page->items.count && !page->true_to_scale; i++) {
            const struct item *item = &page->items.items[i];
            if (opens(item, "Figure"))
                inches = metric = false;
            if (item->kind == ITEM_TEXT) {
                inches |= strstr(item->as.text.text, "\u00a0in") != NULL;
                metric |= strstr(item->as.text.text, "\u00a0cm") != NULL;
            }
            if (closes(item, "Figure") && inches && metric)
                breach(visit->breaches, "page %zu: two units", p + 1);
        }
    }
}

/* ---- pages ---- */

/* Which booklet, which revision, which page of how many; but on the cover. */
static inline void look_at_feet(struct visit *visit)
{
    const size_t count = visit->book->pages.count;
    for (size_t p = 1; p < count; p++) {
        const char *number =
            arena_printf(visit->scratch, "%zu / %zu", p + 1, count);
        bool numbered = false, named = false;
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_TEXT ||
                item->as.text.y < visit->book->height - 45.0)
                continue;
            numbered |= strcmp(item->as.text.text, number) == 0;
            named |= strstr(item->as.text.text, visit->sample->design->title) !=
                         NULL &&
                     strstr(item->as.text.text, "evision") != NULL;
        }
        if (!numbered || !named)
            breach(visit->breaches, "page %zu has no foot", p + 1);
    }
}

/* A square of a side, by its outer edges, is on the page. */
static inline bool has_square(const struct visit *visit,
                              const struct page *page, double side)
{
    for (size_t i = 0; i < page->items.count; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        struct mark_box box = {{1e9, 1e9}, {-1e9, -1e9}};
        if (page->items.items[i].kind != ITEM_PATH || path->count != 4)
            continue;
        extend_item(visit, &box, &page->items.items[i]);
        if (fabs(box.high.x - box.low.x + path->stroke - side) < 0.01 &&
            fabs(box.high.y - box.low.y + path->stroke - side) < 0.01)
            return true;
    }
    return false;
}

/* A page in true size has an inch and two centimetres to measure, and some page
 * is one. */
static inline void look_at_true_size(struct visit *visit)
{
    size_t seen = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        seen += page->true_to_scale;
        if (page->true_to_scale && (!has_square(visit, page, 72.0) ||
                                    !has_square(visit, page, MM(20.0))))
            breach(visit->breaches, "page %zu has no squares", p + 1);
    }
    if (seen == 0)
        breach(visit->breaches, "no page is in true size");
}

/* Of tiles of 10 mm in the column, those that hold a mark. */
static inline double tile_share(struct visit *visit, size_t page)
{
    enum { ACROSS = 18, DOWN = 24 };
    bool held[DOWN][ACROSS] = {{false}};
    const double left = (visit->book->width - MM(182.0)) / 2.0;
    size_t count = 0;
    for (size_t i = 0; i < visit->book->pages.items[page]->items.count; i++) {
        struct mark_box box = {{1e9, 1e9}, {-1e9, -1e9}};
        const struct item *item =
            &visit->book->pages.items[page]->items.items[i];
        extend_item(visit, &box, item);
        for (int y = 0; y < DOWN; y++)
            for (int x = 0; x < ACROSS; x++)
                held[y][x] |= box.low.x < left + MM(10.0) * (x + 1) &&
                              box.high.x > left + MM(10.0) * x &&
                              box.low.y < MM(15.0) + MM(10.0) * (y + 1) &&
                              box.high.y > MM(15.0) + MM(10.0) * y;
    }
    for (int y = 0; y < DOWN; y++)
        for (int x = 0; x < ACROSS; x++)
            count += held[y][x];
    return (double)count / (ACROSS * DOWN);
}

/* A page of steps leaves 8 % of its tiles free: more lies inside of the others
 * (section 15 of the design, check 1). */
static inline void look_at_free_space(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++)
        if (kind_of_page(visit, p) == PAGE_SEWING &&
            tile_share(visit, p) > 0.92)
            breach(visit->breaches, "page %zu: %.0f %% of its tiles are used",
                   p + 1, 100.0 * tile_share(visit, p));
}

/* ---- swatches ---- */

static inline bool is_swatch(const struct item *item, const struct bolt *bolt)
{
    return item->kind == ITEM_PATH && item->as.path.count == 4 &&
           item->as.path.role == ROLE_CLOTH &&
           fabs(item->as.path.fill.red - bolt->red) < 0.001 &&
           fabs(item->as.path.fill.green - bolt->green) < 0.001 &&
           fabs(item->as.path.fill.blue - bolt->blue) < 0.001;
}

/* The second page shows each cloth beside its figures, 8 mm wide. */
static inline void look_at_swatches(struct visit *visit)
{
    const struct item_list *items = &visit->book->pages.items[1]->items;
    for (size_t f = 0; f < visit->sample->design->fabrics.count; f++) {
        double most = 0.0;
        bool inside = false;
        for (size_t i = 0; i < items->count; i++) {
            struct mark_box box = {{1e9, 1e9}, {-1e9, -1e9}};
            inside |= opens(&items->items[i], "Figure");
            inside &= !closes(&items->items[i], "Figure");
            if (inside ||
                !is_swatch(&items->items[i], &visit->plan->colorway->bolts[f]))
                continue;
            extend_item(visit, &box, &items->items[i]);
            most = fmax(most, box.high.x - box.low.x);
        }
        if (most < MM(8.0))
            breach(visit->breaches, "cloth %zu: a swatch of %.1f mm", f,
                   most / MM(1.0));
    }
}

#endif
