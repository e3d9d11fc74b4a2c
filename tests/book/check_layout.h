/* Rules of whole pages: how much of them figures take, how far words lie from
 * their figures, what is told twice, how many pages there are. Functions that
 * look at one booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_LAYOUT_H
#define SEAMWRIGHT_TESTS_CHECK_LAYOUT_H

#include "known.h"
#include "look.h"

/* ---- what a page is for ---- */

enum page_kind {
    PAGE_COVER,
    PAGE_CUTTING,
    PAGE_SEWING,
    PAGE_FINISHING,
    PAGE_OTHER
};

static inline enum page_kind kind_of_head(const struct visit *visit,
                                          const char *head)
{
    static const char *const keys[] = {[PAGE_CUTTING] = "cutting.title",
                                       [PAGE_SEWING] = "step.title",
                                       [PAGE_FINISHING] = "finishing.title"};
    for (int kind = PAGE_CUTTING; kind <= PAGE_FINISHING; kind++)
        if (strcmp(head, say(visit->all->arena, visit->all->phrases, keys[kind],
                             NULL)) == 0)
            return (enum page_kind)kind;
    return PAGE_OTHER;
}

/* The head at its top, or the one that it follows. */
static inline enum page_kind kind_of_page(const struct visit *visit,
                                          size_t page)
{
    enum page_kind kind = PAGE_COVER;
    for (size_t p = 1; p <= page; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        bool text = false;
        for (size_t i = 0; i < items->count; i++) {
            const struct item *item = &items->items[i];
            if (is_section(item) && (p < page || !text))
                kind = kind_of_head(visit, item->as.text.text);
            text |= item->kind == ITEM_TEXT;
        }
    }
    return kind;
}

/* ---- boxes ---- */

struct mark_box {
    struct point low, high;
};

static inline void extend(struct mark_box *extent, struct point p)
{
    extent->low =
        (struct point){fmin(extent->low.x, p.x), fmin(extent->low.y, p.y)};
    extent->high =
        (struct point){fmax(extent->high.x, p.x), fmax(extent->high.y, p.y)};
}

static inline void extend_item(const struct visit *visit,
                               struct mark_box *extent, const struct item *item)
{
    if (item->kind == ITEM_PATH)
        for (size_t k = 0; k < item->as.path.count; k++)
            extend(extent, item->as.path.points[k]);
    if (item->kind == ITEM_TEXT) {
        const struct quad quad =
            text_quad(visit->all->typeset, &item->as.text, true);
        for (int k = 0; k < 4; k++)
            extend(extent, quad.corner[k]);
    }
    if (item->kind == ITEM_IMAGE) {
        const struct image_item *image = &item->as.image;
        extend(extent, (struct point){image->x, image->y});
        extend(extent, (struct point){image->x + image->width,
                                      image->y + image->height});
    }
}

/* What lies in each figure of a page, and what in each text beside them. */
struct page_boxes {
    LIST(struct mark_box) figures, words;
};

static inline bool opens(const struct item *item, const char *name)
{
    return item->kind == ITEM_TAG_BEGIN && strcmp(item->as.tag.name, name) == 0;
}

static inline bool closes(const struct item *item, const char *name)
{
    return item->kind == ITEM_TAG_END && strcmp(item->as.tag.name, name) == 0;
}

/* Words are those of sentences; heads, names and the foot are none. */
static inline struct page_boxes boxes_of_page(struct visit *visit, size_t page)
{
    const struct mark_box none = {{1e9, 1e9}, {-1e9, -1e9}};
    const struct item_list *items = &visit->book->pages.items[page]->items;
    struct page_boxes extents = {.figures = {0}};
    bool inside = false;
    for (size_t i = 0; i < items->count; i++) {
        const struct item *item = &items->items[i];
        if (opens(item, "Figure"))
            *LIST_ADD(visit->scratch, &extents.figures) = none;
        inside |= opens(item, "Figure");
        inside &= !closes(item, "Figure");
        if (inside) {
            extend_item(
                visit, &extents.figures.items[extents.figures.count - 1], item);
        } else if (is_caption(item)) {
            struct mark_box *words = LIST_ADD(visit->scratch, &extents.words);
            *words = none;
            extend_item(visit, words, item);
        }
    }
    return extents;
}

/* ---- 2: figures first ---- */

/* The letter of a frame, which its caption follows. */
static inline bool is_frame_letter(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size == 9.5 &&
           item->as.text.style.face == FACE_BOLD &&
           strlen(item->as.text.text) == 1 && item->as.text.text[0] >= 'a' &&
           item->as.text.text[0] <= 'z';
}

/* A figure, and where the letter of its caption stands. */
struct frame_box {
    struct mark_box box;
    bool lettered;
    double x, y;
};
struct frame_boxes {
    LIST(struct frame_box) items;
};

static inline struct frame_boxes frames_of(struct visit *visit, size_t page)
{
    const struct mark_box none = {{1e9, 1e9}, {-1e9, -1e9}};
    const struct item_list *items = &visit->book->pages.items[page]->items;
    struct frame_boxes frames = {.items = {0}};
    struct frame_box *last = NULL;
    bool inside = false;
    for (size_t i = 0; i < items->count; i++) {
        const struct item *item = &items->items[i];
        inside &= !closes(item, "Figure");
        if (inside)
            extend_item(visit, &last->box, item);
        if (opens(item, "Figure")) {
            last = LIST_ADD(visit->scratch, &frames.items);
            last->box = none;
            inside = true;
        } else if (!inside && last != NULL && is_frame_letter(item)) {
            last->lettered = true;
            last->x = item->as.text.x;
            last->y = item->as.text.y;
        } else if (!inside && last != NULL && last->lettered &&
                   is_caption(item) && item->as.text.y == last->y) {
            /* As wide as its column of the grid. */
            last->box.low.x = fmin(last->box.low.x, last->x);
            last->box.high.x =
                fmax(last->box.high.x, item->as.text.x + item->as.text.width);
        }
    }
    return frames;
}

/* Frames of one row are as high as the highest of them. */
static inline void level_rows(struct frame_boxes *frames)
{
    for (size_t i = 0; i < frames->items.count; i++)
        for (size_t k = 0; k < frames->items.count; k++) {
            struct frame_box *a = &frames->items.items[i];
            const struct frame_box *b = &frames->items.items[k];
            if (!a->lettered || !b->lettered || a->y != b->y)
                continue;
            a->box.low.y = fmin(a->box.low.y, b->box.low.y);
            a->box.high.y = fmax(a->box.high.y, b->box.high.y);
        }
}

/* Of 182 by 247 mm, by the boxes of figures: a frame's is its column of the
 * grid as high as its row, any other's what is drawn. */
static inline double figure_share(struct visit *visit, size_t page)
{
    struct frame_boxes frames = frames_of(visit, page);
    double area = 0.0;
    level_rows(&frames);
    for (size_t i = 0; i < frames.items.count; i++) {
        const struct mark_box *box = &frames.items.items[i].box;
        if (box->high.x > box->low.x)
            area += (box->high.x - box->low.x) * (box->high.y - box->low.y);
    }
    return area / (MM(182.0) * MM(247.0));
}

static inline void look_at_figure_area(struct visit *visit)
{
    static const double least[] = {[PAGE_COVER] = 0.60,
                                   [PAGE_CUTTING] = 0.35,
                                   [PAGE_SEWING] = 0.35,
                                   [PAGE_FINISHING] = 0.35,
                                   [PAGE_OTHER] = 0.0};
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const double share = figure_share(visit, p);
        if (share < least[kind_of_page(visit, p)])
            breach_at(visit, 2, p + 1, "figures take %.0f %%, not %.0f %%",
                      100.0 * share, 100.0 * least[kind_of_page(visit, p)]);
    }
}

/* ---- 3: short captions ---- */

static inline double lines_of(struct visit *visit, const struct text_item *text)
{
    return round(
        typeset_measure(visit->all->typeset, text->text, text->style,
                        text->width)
            .height /
        typeset_measure(visit->all->typeset, "x", text->style, 0.0).height);
}

/* At most three lines under a frame, four in German, whose words are longer. */
static inline void look_at_caption_lines(struct visit *visit)
{
    const double most = strcmp(visit->book->language, "de") == 0 ? 4.0 : 3.0;
    size_t seen = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        bool letter = false;
        for (size_t i = 0; i < items->count; i++) {
            const struct item *item = &items->items[i];
            if (item->kind != ITEM_TEXT)
                continue;
            if (letter && is_caption(item)) {
                const double lines = lines_of(visit, &item->as.text);
                seen++;
                if (lines > most)
                    breach_at(visit, 3, p + 1, "%.0f lines: \"%.60s\"", lines,
                              item->as.text.text);
            }
            letter = is_frame_letter(item);
        }
    }
    if (seen == 0)
        breach_at(visit, 3, 0, "no captions");
}

/* ---- 4: words at their figure ---- */

/* How far words are below or right of a figure, or above it on a page of
 * cutting, where a strip lies under its words (section 10 of the design). */
static inline double gap_to(const struct mark_box *figure,
                            const struct mark_box *words, bool above)
{
    const double slack = MM(2.0);
    const bool beside =
        words->low.y < figure->high.y && words->high.y > figure->low.y;
    const bool over =
        words->low.x < figure->high.x && words->high.x > figure->low.x;
    double gap = 1e9;
    if (beside && words->low.x >= figure->high.x - slack)
        gap = fmin(gap, words->low.x - figure->high.x);
    if (over && words->low.y >= figure->high.y - slack)
        gap = fmin(gap, words->low.y - figure->high.y);
    if (over && above && words->high.y <= figure->low.y + slack)
        gap = fmin(gap, figure->low.y - words->high.y);
    return gap;
}

static inline void look_at_nearness(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const enum page_kind kind = kind_of_page(visit, p);
        const struct page_boxes extents = boxes_of_page(visit, p);
        for (size_t f = 0; f < extents.figures.count; f++) {
            const struct mark_box *figure = &extents.figures.items[f];
            double least = 1e9;
            for (size_t w = 0; w < extents.words.count; w++)
                least = fmin(least, gap_to(figure, &extents.words.items[w],
                                           kind == PAGE_CUTTING));
            if (kind != PAGE_OTHER && least > MM(20.0))
                breach_at(visit, 4, p + 1,
                          "a figure at %.0f, %.0f has its words %.0f mm away",
                          figure->low.x, figure->low.y,
                          least > 1e8 ? -1.0 : least / MM(1.0));
        }
    }
}

/* ---- 10: told once ---- */

/* Words of one sentence, one paragraph after the other. */
struct told_words {
    size_t page, paragraph;
    const char *word;
    size_t length;
};
struct all_words {
    LIST(struct told_words) items;
};

/* Pressing and measuring close every step, so they come again. */
static inline bool comes_again(const struct visit *visit, const char *sentence,
                               size_t length)
{
    static const char *const english[] = {"Press", "press", "measures"};
    static const char *const german[] = {"\u00fcgel", "\u00fcgl", "misst"};
    const char *const *words =
        strcmp(visit->book->language, "de") == 0 ? german : english;
    for (size_t k = 0; k < UNIT_COUNT(english); k++) {
        const char *found = strstr(sentence, words[k]);
        if (found != NULL && found < sentence + length)
            return true;
    }
    return false;
}

/* Without its sentences that come again. */
static inline void add_paragraph(struct visit *visit, struct all_words *all,
                                 const char *text, size_t page, size_t number)
{
    while (*text != '\0') {
        const char *end = strstr(text, ". ");
        const size_t length =
            end == NULL ? strlen(text) : (size_t)(end - text) + 2;
        const bool again = comes_again(visit, text, length);
        for (size_t at = 0; at < length && !again;) {
            const size_t word = strcspn(text + at, " ");
            const size_t ends = word < length - at ? word : length - at;
            if (ends > 0)
                *LIST_ADD(visit->scratch, &all->items) =
                    (struct told_words){page, number, text + at, ends};
            at += ends + 1;
        }
        text += length;
    }
}

static inline struct all_words words_of_work(struct visit *visit)
{
    struct all_words all = {.items = {0}};
    size_t number = 0;
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const enum page_kind kind = kind_of_page(visit, p);
        const struct item_list *items = &visit->book->pages.items[p]->items;
        if (kind != PAGE_SEWING && kind != PAGE_FINISHING)
            continue;
        for (size_t i = 0; i < items->count; i++)
            if (is_caption(&items->items[i]))
                add_paragraph(visit, &all, items->items[i].as.text.text, p,
                              ++number);
    }
    return all;
}

enum { SHINGLE = 8 };

static inline bool same_shingle(const struct told_words *a,
                                const struct told_words *b)
{
    for (size_t n = 0; n < SHINGLE; n++)
        if (a[n].length != b[n].length || a[n].paragraph != a->paragraph ||
            b[n].paragraph != b->paragraph ||
            strncmp(a[n].word, b[n].word, a[n].length) != 0)
            return false;
    return true;
}

/* Eight words one after the other are nowhere told twice. */
static inline void look_at_repeats(struct visit *visit)
{
    const struct all_words all = words_of_work(visit);
    size_t told = 0;
    for (size_t k = 1; k + SHINGLE <= all.items.count; k++)
        for (size_t i = 0; i < k; i++) {
            const struct told_words *a = &all.items.items[i];
            const struct told_words *b = &all.items.items[k];
            if (b->paragraph == told || !same_shingle(a, b))
                continue;
            told = b->paragraph;
            breach_at(
                visit, 10, b->page + 1, "as on page %zu: \"%.*s\"", a->page + 1,
                (int)(b[SHINGLE - 1].word + b[SHINGLE - 1].length - b->word),
                b->word);
        }
    if (all.items.count == 0)
        breach_at(visit, 10, 0, "no words");
}

/* ---- 16: how many pages ---- */

static inline bool has_two_sizes(const struct visit *visit)
{
    for (size_t i = 0; i < visit->steps.items.count; i++)
        if (visit->steps.items.items[i].sizes.count > 0)
            return true;
    return false;
}

/* The step that joins the largest cloth: all blocks. */
static inline size_t layout_step(const struct visit *visit)
{
    size_t step = 0;
    double most = 0.0;
    for (size_t i = 0; i < visit->steps.items.count; i++) {
        const size_t number = visit->steps.items.items[i].number;
        const struct heap *heap = heap_of_step(visit, number);
        const double size =
            rational_double(heap->width) * rational_double(heap->height);
        if (heap->technique != TECHNIQUE_JOIN || size <= most)
            continue;
        most = size;
        step = number;
    }
    return step;
}

/* 8 to 12 pages, 14 with two sizes of one block. The layout of the quilt lies
 * on a left, even page. */
static inline void look_at_page_count(struct visit *visit)
{
    const size_t count = visit->book->pages.count;
    const size_t most = has_two_sizes(visit) ? 14 : 12;
    if (count > most || count < 8)
        breach_at(visit, 16, 0, "%zu pages, not 8 to %zu", count, most);
    for (size_t p = 0; p < count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++)
            if (heading_number(&visit->book->pages.items[p]->items.items[i]) ==
                    layout_step(visit) &&
                p % 2 == 0)
                breach_at(visit, 16, p + 1,
                          "the quilt is laid out on a right "
                          "page");
}

#endif
