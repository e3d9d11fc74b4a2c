/* The PDF back end: Cairo writes to memory, with the time of the run kept
 * out, and a small update adds what it cannot say. */
#include <cairo-pdf.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "buffer.h"
#include "draw.h"
#include "pdf_update.h"
#include "render.h"

/* Any fixed date serves a pattern that tells none. */
static const char FIXED_DATE[] = "2000-01-01";

enum { DATE_LENGTH = 10, EPOCH_DIGITS_LIMIT = 12 };

/* Receives the file in parts. Running out of memory ends the program, so this
 * never fails. */
static cairo_status_t add_bytes(void *closure, const unsigned char *bytes,
                                unsigned int length)
{
    buffer_add(closure, (const char *)bytes, length);
    return CAIRO_STATUS_SUCCESS;
}

/* The agreed way of telling every build tool which time to write, for packages
 * that must come out the same. Cairo does not read it.
 * ensures: the seconds that SOURCE_DATE_EPOCH tells, or -1. */
static int64_t source_date_epoch(void)
{
    const char *text = getenv("SOURCE_DATE_EPOCH");
    if (text == NULL || *text == '\0' || strlen(text) > EPOCH_DIGITS_LIMIT)
        return -1;
    int64_t seconds = 0;
    for (; *text != '\0'; text++) {
        if (*text < '0' || *text > '9')
            return -1;
        seconds = seconds * 10 + (*text - '0');
    }
    return seconds;
}

/* Only the shape: whether there is such a day was checked in the source. Cairo
 * would copy any text into the file. */
static bool is_date(const char *text)
{
    static const char SHAPE[] = "dddd-dd-dd";
    if (text == NULL || strlen(text) != DATE_LENGTH)
        return false;
    for (int i = 0; i < DATE_LENGTH; i++) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (SHAPE[i] == 'd' ? !digit : text[i] != SHAPE[i])
            return false;
    }
    return true;
}

/* When the file says it was made: never "now", for then two runs would
 * differ. */
static const char *creation_date(struct arena *arena, const char *date)
{
    const int64_t seconds = source_date_epoch();
    struct tm tm;
    const time_t time = (time_t)seconds;
    if (seconds >= 0 && gmtime_r(&time, &tm) != NULL && tm.tm_year < 8100)
        return arena_printf(arena, "%04d-%02d-%02dT%02d:%02d:%02dZ",
                            tm.tm_year + 1900, tm.tm_mon + 1, tm.tm_mday,
                            tm.tm_hour, tm.tm_min, tm.tm_sec);
    return arena_printf(arena, "%sT00:00:00Z",
                        is_date(date) ? date : FIXED_DATE);
}

/* Unset and empty are the same: nothing is asked for. */
bool render_date_holds(void)
{
    const char *text = getenv("SOURCE_DATE_EPOCH");
    const int64_t seconds = source_date_epoch();
    struct tm tm;
    const time_t time = (time_t)seconds;
    return text == NULL || *text == '\0' ||
           (seconds >= 0 && gmtime_r(&time, &tm) != NULL && tm.tm_year < 8100);
}

static void set_metadata(cairo_surface_t *surface, struct arena *arena,
                         const struct book *book)
{
    /* A fact that the book does not tell is left out of the file. */
    const struct {
        cairo_pdf_metadata_t key;
        const char *value;
    } facts[] = {
        {CAIRO_PDF_METADATA_TITLE, book->title},
        {CAIRO_PDF_METADATA_AUTHOR, book->author},
        {CAIRO_PDF_METADATA_SUBJECT, book->subject},
        {CAIRO_PDF_METADATA_CREATOR, "seamwright"},
        {CAIRO_PDF_METADATA_CREATE_DATE, creation_date(arena, book->date)},
        {CAIRO_PDF_METADATA_MOD_DATE, creation_date(arena, book->date)},
    };
    for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++)
        if (facts[i].value != NULL)
            cairo_pdf_surface_set_metadata(surface, facts[i].key,
                                           facts[i].value);
}

/* The entry's parent: the nearest one before it that is less deep. */
static int outline_parent(const struct book *book, const int *identifiers,
                          size_t entry)
{
    for (size_t i = entry; i-- > 0;)
        if (book->outline.items[i].depth < book->outline.items[entry].depth)
            return identifiers[i];
    return CAIRO_PDF_OUTLINE_ROOT;
}

static void add_outline(cairo_surface_t *surface, struct arena *arena,
                        const struct book *book)
{
    int *identifiers = ARENA_ARRAY(arena, int, book->outline.count);
    for (size_t i = 0; i < book->outline.count; i++) {
        const struct outline_entry *entry = &book->outline.items[i];
        /* Whole points are near enough, and free of decimal signs. */
        const char *place = arena_printf(arena, "page=%zu pos=[0 %ld]",
                                         entry->page + 1, (long)entry->y);
        identifiers[i] = cairo_pdf_surface_add_outline(
            surface, outline_parent(book, identifiers, i), entry->title, place,
            entry->depth == 0 ? CAIRO_PDF_OUTLINE_FLAG_OPEN : 0);
    }
}

/* Cairo keeps its first error; asking once a page tells where it was.
 * ensures: NULL, or the page and the library's words. */
static const char *draw_pages(cairo_surface_t *surface, struct typeset *typeset,
                              struct arena *arena, const struct book *book)
{
    const char *problem = NULL;
    cairo_t *cairo = cairo_create(surface);
    for (size_t i = 0; i < book->pages.count && problem == NULL; i++) {
        const struct page *page = book->pages.items[i];
        if (page->label != NULL)
            cairo_pdf_surface_set_page_label(surface, page->label);
        draw_page(cairo, typeset, page);
        /* Tags are only looked at now, when the page is written. */
        cairo_show_page(cairo);
        const char *words = drawing_problem(cairo_status(cairo));
        if (words != NULL)
            problem = arena_printf(arena, "page %zu: %s", i + 1, words);
    }
    cairo_destroy(cairo);
    return problem;
}

/* The tags that are open at some place of the book, outermost first. They may
 * run over many pages. */
struct open_tags {
    struct arena *arena;
    LIST(const char *) names;
};

/* Opens or closes one tag. ensures: NULL, or what is wrong with it. */
static const char *follow_tag(struct open_tags *open, const struct item *item)
{
    const char *name = item->as.tag.name;
    if (item->kind == ITEM_TAG_BEGIN)
        *LIST_ADD(open->arena, &open->names) = name;
    if (item->kind != ITEM_TAG_END)
        return NULL;
    if (open->names.count == 0)
        return arena_printf(open->arena, "tag %s was not begun", name);
    /* Structure is a tree: the tag that was opened last must end first. */
    const char *last = open->names.items[--open->names.count];
    if (strcmp(last, name) != 0)
        return arena_printf(open->arena, "tag %s ends where %s is open", name,
                            last);
    return NULL;
}

/* Cairo keeps silent about a tag that stays open, and about all tags of a page
 * on which nothing is drawn. */
static const char *check_tags(struct arena *arena, const struct book *book)
{
    struct open_tags open = {.arena = arena};
    for (size_t i = 0; i < book->pages.count; i++) {
        const struct page *page = book->pages.items[i];
        for (size_t j = 0; j < page->items.count; j++) {
            const char *problem = follow_tag(&open, &page->items.items[j]);
            if (problem != NULL)
                return arena_printf(arena, "page %zu: %s", i + 1, problem);
        }
    }
    if (open.names.count > 0)
        return arena_printf(arena, "tag %s is left open", open.names.items[0]);
    return NULL;
}

/* Cairo writes an entry without a place where its page is missing. */
static const char *check_outline(struct arena *arena, const struct book *book)
{
    for (size_t i = 0; i < book->outline.count; i++)
        if (book->outline.items[i].page >= book->pages.count)
            return arena_printf(arena, "outline: `%s` is on no page",
                                book->outline.items[i].title);
    return NULL;
}

typedef LIST(const struct tag_item *) tag_list;

/* All tags in the order in which they are opened: places, or elements, which is
 * the order of these in the file. */
static tag_list find_tags(struct arena *arena, const struct book *book,
                          bool places)
{
    tag_list found = {0};
    for (size_t i = 0; i < book->pages.count; i++) {
        const struct page *page = book->pages.items[i];
        for (size_t j = 0; j < page->items.count; j++) {
            const struct item *item = &page->items.items[j];
            if (item->kind == ITEM_TAG_BEGIN &&
                (strcmp(item->as.tag.name, TAG_PLACE) == 0) == places)
                *LIST_ADD(arena, &found) = &item->as.tag;
        }
    }
    return found;
}

/* The length of the first quoted name in a tag's attributes, with its quotes,
 * which starts at `*name`; 0 for none. */
static size_t quoted_name(const struct tag_item *tag, const char **name)
{
    *name = strchr(tag->attributes, '\'');
    const char *end = *name == NULL ? NULL : strchr(*name + 1, '\'');
    return end == NULL ? 0 : (size_t)(end + 1 - *name);
}

/* The attribute of a place begins with its name, that of a link is the name. */
static bool same_place(const struct tag_item *link,
                       const struct tag_item *place)
{
    const char *wanted, *name;
    const size_t length = quoted_name(link, &wanted);
    return length > 0 && quoted_name(place, &name) == length &&
           memcmp(wanted, name, length) == 0;
}

/* Cairo keeps silent about a link to a place that is nowhere. */
static const char *check_links(struct arena *arena, const struct book *book)
{
    const tag_list places = find_tags(arena, book, true);
    const tag_list elements = find_tags(arena, book, false);
    for (size_t i = 0; i < elements.count; i++) {
        bool found = strcmp(elements.items[i]->name, "Link") != 0;
        for (size_t j = 0; j < places.count && !found; j++)
            found = same_place(elements.items[i], places.items[j]);
        if (!found)
            return arena_printf(arena, "a link to no place: %s",
                                elements.items[i]->attributes);
    }
    return NULL;
}

/* Draws the book and closes the file, which then lies in the buffer. */
static const char *write_pdf(struct buffer *pdf, struct typeset *typeset,
                             const struct book *book)
{
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
        add_bytes, pdf, book->width, book->height);
    cairo_pdf_surface_restrict_to_version(surface, CAIRO_PDF_VERSION_1_4);
    set_metadata(surface, pdf->arena, book);
    const char *problem = draw_pages(surface, typeset, pdf->arena, book);
    add_outline(surface, pdf->arena, book);
    cairo_surface_finish(surface);
    /* Finishing writes fonts, structure and outline, and may fail as well. */
    const char *words = drawing_problem(cairo_surface_status(surface));
    if (problem == NULL)
        problem = words;
    cairo_surface_destroy(surface);
    return problem;
}

/* What the library would pass over in silence is checked before drawing, what
 * only the finished file can tell after it. */
struct rendered render_pdf(struct arena *arena, struct typeset *typeset,
                           const struct book *book)
{
    struct buffer pdf = buffer_in(arena);
    const tag_list elements = find_tags(arena, book, false);
    const struct pdf_additions additions = {{book->title, book->author,
                                             book->subject, book->language,
                                             creation_date(arena, book->date)},
                                            elements.items,
                                            elements.count,
                                            book->true_scale};
    const char *problem = check_tags(arena, book);
    if (problem == NULL)
        problem = check_links(arena, book);
    if (problem == NULL)
        problem = check_outline(arena, book);
    if (problem == NULL)
        problem = write_pdf(&pdf, typeset, book);
    if (problem == NULL)
        problem = pdf_update(&pdf, &additions);
    if (problem != NULL)
        return (struct rendered){.problem = problem};
    return (struct rendered){.bytes = pdf.bytes, .length = pdf.length};
}
