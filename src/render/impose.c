/* Pages of a book two a side on landscape sheets, in the order in which they
 * are printed to be folded in the middle. Every item is moved by one reduction
 * and one shift; nothing is set or drawn anew. */
#include <math.h>
#include <string.h>

#include "render.h"

/* Points. Above and below the pages stays a band for the marks of the fold,
 * which must lie within what printers reach. */
enum { BAND = 26, MARK_FROM = 13, MARK_TO = 21, NOTE_SIZE = 7 };

/* From a page to its place on the sheet. */
struct reduction {
    double factor, x, y;
};

/* What all functions below share; only the new sheets change. */
struct imposing {
    struct arena *arena;
    struct typeset *typeset;
    const struct book *book;
    struct book *sheets;
    const char *not_to_scale;
};

/* ---- one page ---- */

/* The same factor both ways: squares stay square. */
static struct point reduced_point(struct reduction r, struct point p)
{
    return (struct point){p.x * r.factor + r.x, p.y * r.factor + r.y};
}

/* Lines become thinner with the drawing, or they would run into each other.
 * Hatches are counted from the sheet's corner now; within a page they still
 * fit each other. */
static struct path_item reduced_path(struct arena *arena, struct reduction r,
                                     struct path_item path)
{
    struct point *points = ARENA_ARRAY(arena, struct point, path.count);
    for (size_t i = 0; i < path.count; i++)
        points[i] = reduced_point(r, path.points[i]);
    path.points = points;
    path.stroke *= r.factor;
    if (path.hatch != NULL) {
        struct hatch *hatch = ARENA_NEW(arena, struct hatch);
        *hatch = *path.hatch;
        hatch->spacing *= r.factor;
        hatch->width *= r.factor;
        path.hatch = hatch;
    }
    for (int i = 0; i < 6; i++)
        path.dash[i] *= r.factor;
    return path;
}

/* Text that wraps keeps its lines: set in a smaller size it might break at
 * another word. Each line becomes an item that begins where it began. */
static void add_lines(const struct imposing *im, struct page *page,
                      struct reduction r, const struct text_item *text)
{
    const double turn = text->angle * acos(-1.0) / 180.0;
    const double above = typeset_baseline() * text->style.size;
    size_t count = 0;
    const struct text_line *lines =
        typeset_lines(im->typeset, im->arena, text, &count);
    for (size_t i = 0; i < count; i++) {
        const double along = lines[i].x, down = lines[i].baseline - above;
        const struct point at = reduced_point(
            r, (struct point){text->x + along * cos(turn) - down * sin(turn),
                              text->y + along * sin(turn) + down * cos(turn)});
        struct item *item = LIST_ADD(im->arena, &page->items);
        item->kind = ITEM_TEXT;
        item->as.text = *text;
        item->as.text.text =
            arena_copy(im->arena, lines[i].text, lines[i].length);
        item->as.text.x = at.x;
        item->as.text.y = at.y;
        item->as.text.width = 0.0;
        item->as.text.style.size *= r.factor;
        item->as.text.style.align = ALIGN_LEFT;
    }
}

/* The bytes are shared with the book: only the room that the photo fills
 * becomes smaller, and it prints the finer for that. */
static struct image_item reduced_image(struct reduction r,
                                       struct image_item image)
{
    const struct point at = reduced_point(r, (struct point){image.x, image.y});
    image.x = at.x;
    image.y = at.y;
    image.width *= r.factor;
    image.height *= r.factor;
    return image;
}

/* Structure stays behind: tables and lists run over pages that are far apart on
 * the sheets, and links would lead to other pages. Sheets are for paper; the
 * booklet beside them is the one to be read aloud. */
static void add_item(const struct imposing *im, struct page *page,
                     struct reduction r, const struct item *item)
{
    struct item *copy;
    switch (item->kind) {
    case ITEM_PATH:
        copy = LIST_ADD(im->arena, &page->items);
        copy->kind = ITEM_PATH;
        copy->as.path = reduced_path(im->arena, r, item->as.path);
        break;
    case ITEM_TEXT:
        add_lines(im, page, r, &item->as.text);
        break;
    case ITEM_IMAGE:
        copy = LIST_ADD(im->arena, &page->items);
        copy->kind = ITEM_IMAGE;
        copy->as.image = reduced_image(r, item->as.image);
        break;
    case ITEM_TAG_BEGIN:
    case ITEM_TAG_END:
    case ITEM_LATER: /* was made */
        break;
    }
}

/* ---- sheets ---- */

/* The page in the middle of its half, bands left free. Two pages of A4 would
 * fill a sheet of A4 to its edges, where printers do not reach; the margins of
 * the pages themselves keep the words off the fold. */
static struct reduction reduction_of(const struct imposing *im, bool right)
{
    const double half = im->sheets->width / 2.0;
    const double high = im->sheets->height - 2.0 * BAND;
    struct reduction r;
    r.factor = fmin(half / im->book->width, high / im->book->height);
    r.x = (right ? half : 0.0) + (half - r.factor * im->book->width) / 2.0;
    r.y = (im->sheets->height - r.factor * im->book->height) / 2.0;
    return r;
}

/* The small line below a page that is true to scale in the book. */
static void add_note(const struct imposing *im, struct page *side, bool right)
{
    const struct text_style style = {
        FACE_REGULAR, NOTE_SIZE, ALIGN_CENTER, {0.36, 0.38, 0.42}};
    const double half = im->sheets->width / 2.0;
    struct item *item = LIST_ADD(im->arena, &side->items);
    item->kind = ITEM_TEXT;
    item->as.text = (struct text_item){im->not_to_scale,
                                       half * (right ? 1.5 : 0.5),
                                       im->sheets->height - MARK_TO,
                                       0.0,
                                       0.0,
                                       style,
                                       false};
}

/* How many pages the sheets have room for. */
static size_t places(const struct imposing *im)
{
    return (im->book->pages.count + 3) / 4 * 4;
}

/* Where the last page goes: it is what is seen of the folded booklet from
 * behind, so blanks stand before it. A single page is its front. */
static size_t last_place(const struct imposing *im)
{
    return im->book->pages.count > 1 ? places(im) : 1;
}

/* The number of the page at a place, both from 1; 0 for a blank. */
static size_t page_at(const struct imposing *im, size_t place)
{
    const size_t count = im->book->pages.count;
    return place == last_place(im) ? count : place < count ? place : 0;
}

/* And back. */
static size_t place_of(const struct imposing *im, size_t number)
{
    return number == im->book->pages.count ? last_place(im) : number;
}

/* A page that was true to scale says that it is not any more: somebody might
 * lay cloth on it. */
static void add_page(const struct imposing *im, struct page *side, size_t place,
                     bool right)
{
    const size_t number = page_at(im, place);
    if (number == 0)
        return;
    const struct page *page = im->book->pages.items[number - 1];
    const struct reduction r = reduction_of(im, right);
    const struct item_list items = page_items(im->arena, page);
    for (size_t i = 0; i < items.count; i++)
        add_item(im, side, r, &items.items[i]);
    if (page->true_to_scale)
        add_note(im, side, right);
}

/* Faint and short, beyond the pages: they go with the fold. */
static void add_fold_marks(const struct imposing *im, struct page *side)
{
    const double x = im->sheets->width / 2.0, high = im->sheets->height;
    const double ends[2][2] = {{MARK_FROM, MARK_TO},
                               {high - MARK_TO, high - MARK_FROM}};
    for (int i = 0; i < 2; i++) {
        struct point *points = ARENA_ARRAY(im->arena, struct point, 2);
        points[0] = (struct point){x, ends[i][0]};
        points[1] = (struct point){x, ends[i][1]};
        struct item *item = LIST_ADD(im->arena, &side->items);
        item->kind = ITEM_PATH;
        item->as.path = (struct path_item){.points = points,
                                           .count = 2,
                                           .stroke = 0.7,
                                           .stroke_color = {0.6, 0.6, 0.6},
                                           .role = ROLE_MARK};
    }
}

/* "12|1" as its label; a blank has no number. Viewers show it beside the side,
 * so that a page can be found without counting. */
static const char *side_label(const struct imposing *im, size_t left,
                              size_t right)
{
    const char *numbers[2];
    for (int i = 0; i < 2; i++) {
        const size_t number = page_at(im, i == 0 ? left : right);
        numbers[i] = number == 0 ? "" : arena_printf(im->arena, "%zu", number);
    }
    return arena_printf(im->arena, "%s|%s", numbers[0], numbers[1]);
}

/* Pages first, left before right, so that they are read in this order. */
static void add_side(const struct imposing *im, size_t left, size_t right)
{
    struct page *side = ARENA_NEW(im->arena, struct page);
    *LIST_ADD(im->arena, &im->sheets->pages) = side;
    side->label = side_label(im, left, right);
    add_page(im, side, left, false);
    add_page(im, side, right, true);
    add_fold_marks(im, side);
}

/* Bookmarks in the order of the book lead to the sides that hold their pages.
 * Sheet k holds 2k+1 and 2k+2 and as many from the end. */
static void add_outline(const struct imposing *im, size_t padded)
{
    for (size_t i = 0; i < im->book->outline.count; i++) {
        struct outline_entry entry = im->book->outline.items[i];
        const size_t place = place_of(im, entry.page + 1) - 1;
        const size_t from_end = padded - 1 - place;
        const bool right = place % 2 == 0;
        entry.page = place < from_end ? place : from_end;
        entry.y = entry.y * reduction_of(im, right).factor +
                  reduction_of(im, right).y;
        *LIST_ADD(im->arena, &im->sheets->outline) = entry;
    }
}

/* Saddle order: the outermost sheet first, its outer side before its inner. The
 * sheets lie in each other, so what is left of the fold on one side counts down
 * from the end while what is right of it counts up. The book itself is left as
 * it is, for it is written beside the sheets. */
struct book *impose_folding(struct arena *arena, struct typeset *typeset,
                            const struct book *book, const char *not_to_scale)
{
    struct book *sheets = ARENA_NEW(arena, struct book);
    *sheets = *book;
    sheets->width = fmax(book->width, book->height);
    sheets->height = fmin(book->width, book->height);
    memset(&sheets->pages, 0, sizeof sheets->pages);
    memset(&sheets->outline, 0, sizeof sheets->outline);
    sheets->true_scale = false;
    const struct imposing im = {arena, typeset, book, sheets, not_to_scale};
    const size_t padded = places(&im);
    for (size_t k = 0; 4 * k < padded; k++) {
        add_side(&im, padded - 2 * k, 2 * k + 1);
        add_side(&im, 2 * k + 2, padded - 2 * k - 1);
    }
    add_outline(&im, padded);
    return sheets;
}
