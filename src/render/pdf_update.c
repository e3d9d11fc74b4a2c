/* The objects of a finished PDF, written once more: most as they are, some with
 * keys that Cairo does not know, right behind their "<<". An update appended
 * behind the file would do as well (ISO 32000-1, 7.5.6), but the operators of
 * every page change, and then lay in the file twice.
 * Objects are found by the cross-reference table and never by searching the
 * file, where the words of a page could look like an object.
 * Most objects are elements of the structure, small and alike: they go into
 * one deflated stream (7.5.7), found by a table that is a stream itself
 * (7.5.8). That makes a booklet of many figures a third smaller. */
#include "pdf_update.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "pdf_content.h"
#include "pdf_deflate.h"

/* Of the old cross-reference table (7.5.4). */
enum { ENTRY_BYTES = 20 };

/* Between the dictionary of a stream and its bytes. */
static const char STREAM[] = ">>\nstream\n";

/* An object as Cairo wrote it, and what becomes of it. */
struct object {
    size_t start, end; /* in the old file; both 0 where there is none */
    const char *text;  /* the same, up to the first byte of 0 */
    size_t offset;     /* in the new file, or in `packed` */
    bool packed;       /* lies in the stream of objects */
    size_t index;      /* there */
    const struct tag_item *element; /* of a structure element, or NULL */
    const char *contents;           /* of a link's annotation, or NULL */
    bool page;
    bool outlines;  /* the root of the bookmarks */
    bool cid_font;  /* a TrueType font by numbers of glyphs */
    bool operators; /* a page's stream */
    size_t length;  /* of such a stream, new: the object is this number */
};

/* One run of pdf_update. The old bytes are only read; all that is written goes
 * to `out`. */
struct pdf_file {
    struct buffer *pdf;   /* as it was written */
    struct buffer *out;   /* what is written to: `whole`, or `packed` */
    struct buffer whole;  /* the file as it will be */
    struct buffer packed; /* the objects that lie in a stream */
    struct buffer places; /* the number and offset of each of them */
    size_t packed_count;
    size_t table;        /* where the cross-reference table starts */
    const char *entries; /* its first entry, of object 0 */
    size_t size;         /* number of objects, with object 0 */
    size_t root, info;
    struct object *objects; /* by number */
    const struct pdf_additions *additions;
};

/* The number behind `key` in `text`, or 0: no object that is asked for here
 * has this number. */
static size_t number_behind(const char *text, const char *key)
{
    const char *found = text == NULL ? NULL : strstr(text, key);
    return found == NULL ? 0 : strtoul(found + strlen(key), NULL, 10);
}

/* The last "startxref" of the file, or NULL. The streams before it may hold
 * any byte, so this looks from the end. */
static const char *find_end(const struct buffer *pdf)
{
    static const char WORD[] = "startxref";
    const size_t length = sizeof WORD - 1;
    for (size_t at = pdf->length; at >= length; at--)
        if (memcmp(pdf->bytes + at - length, WORD, length) == 0)
            return pdf->bytes + at - length;
    return NULL;
}

/* Only the form that Cairo writes is read: one section from object 0 on, and
 * the trailer right behind it. Everything is checked, so that a new version
 * of the library leads to a message and not to a broken file.
 * ensures: true, and the numbers of the file filled in. */
static bool read_table(struct pdf_file *file)
{
    file->table = number_behind(find_end(file->pdf), "startxref");
    if (file->table == 0 || file->table >= file->pdf->length)
        return false;
    const char *table = file->pdf->bytes + file->table;
    file->size = number_behind(table, "xref\n0 ");
    const char *trailer = strstr(table, "trailer");
    if (strncmp(table, "xref\n0 ", 7) != 0 || trailer == NULL)
        return false;
    file->entries = strchr(table + 5, '\n') + 1;
    file->root = number_behind(trailer, "/Root ");
    file->info = number_behind(trailer, "/Info ");
    return file->root > 0 && file->root < file->size && file->info > 0 &&
           file->info < file->size &&
           trailer == file->entries + file->size * ENTRY_BYTES;
}

/* For qsort and bsearch. */
static int compare_offsets(const void *a, const void *b)
{
    const size_t one = *(const size_t *)a, other = *(const size_t *)b;
    return one < other ? -1 : one > other;
}

/* An object ends where the next one begins. ensures: false for a table that
 * points elsewhere: each object names itself. */
static bool read_objects(struct pdf_file *file)
{
    struct arena *arena = file->pdf->arena;
    size_t *starts = ARENA_ARRAY(arena, size_t, file->size);
    file->objects = ARENA_ARRAY(arena, struct object, file->size + 3);
    starts[0] = file->table;
    for (size_t i = 1; i < file->size; i++) {
        starts[i] = strtoul(file->entries + i * ENTRY_BYTES, NULL, 10);
        file->objects[i].start = starts[i];
        if (starts[i] >= file->table)
            return false;
    }
    qsort(starts, file->size, sizeof *starts, compare_offsets);
    for (size_t i = 1; i < file->size; i++) {
        struct object *object = &file->objects[i];
        if (object->start == 0)
            continue;
        const size_t *at = bsearch(&object->start, starts, file->size,
                                   sizeof *starts, compare_offsets);
        object->end = at[1];
        object->text = arena_copy(arena, file->pdf->bytes + object->start,
                                  object->end - object->start);
        if (strtoul(object->text, NULL, 10) != i)
            return false;
    }
    return true;
}

/* Behind "7 0 obj\n", or "" for what is no dictionary. */
static const char *dictionary(const struct object *object)
{
    const char *found =
        object->text == NULL ? NULL : strstr(object->text, " 0 obj\n<<");
    return found == NULL ? "" : found + 7;
}

/* The object of that number, or object 0, which is none. */
static struct object *object_at(const struct pdf_file *file, size_t number)
{
    return &file->objects[number < file->size ? number : 0];
}

/* Elements are numbered in the order in which their tags were opened. Cairo
 * drops the tags of a page without a mark; then words would go to the wrong
 * elements, so each must have the name that was asked for. */
static bool is_element(const char *text, const struct tag_item *wanted)
{
    const char *name = strstr(text, "/S /") + 4;
    const size_t length = strlen(wanted->name);
    return strncmp(name, wanted->name, length) == 0 && name[length] == '\n';
}

/* ensures: NULL, or what is wrong with this object. */
static const char *classify(struct pdf_file *file, struct object *object,
                            size_t *elements)
{
    static const char ELEMENT[] = "<< /Type /StructElem\n   /S /";
    static const char PAGE[] = "<< /Type /Page ";
    static const char OUTLINES[] = "<< /Type /Outlines\n";
    static const char FONT[] = "<< /Type /Font\n   /Subtype /CIDFontType2\n";
    const char *text = dictionary(object);
    object->outlines = strncmp(text, OUTLINES, sizeof OUTLINES - 1) == 0;
    object->cid_font = strncmp(text, FONT, sizeof FONT - 1) == 0;
    if (strncmp(text, PAGE, sizeof PAGE - 1) == 0) {
        object->page = true;
        object_at(file, number_behind(text, "/Contents "))->operators = true;
    }
    if (strncmp(text, ELEMENT, sizeof ELEMENT - 1) != 0)
        return NULL;
    if (*elements == file->additions->count)
        return "the PDF library made an element of its own";
    object->element = file->additions->elements[(*elements)++];
    if (!is_element(text, object->element))
        return arena_printf(file->pdf->arena,
                            "the PDF library lost a %s from the structure",
                            object->element->name);
    object_at(file, number_behind(text, "/OBJR /Obj "))->contents =
        object->element->alternative;
    return NULL;
}

/* The elements that were asked for are those that are there: none lost at the
 * end, either. */
static const char *classify_all(struct pdf_file *file)
{
    size_t elements = 0;
    for (size_t i = 1; i < file->size; i++) {
        const char *problem = classify(file, &file->objects[i], &elements);
        if (problem != NULL)
            return problem;
    }
    if (elements == file->additions->count)
        return NULL;
    return arena_printf(file->pdf->arena,
                        "the PDF library lost a %s from the structure",
                        file->additions->elements[elements]->name);
}

/* ---- what is added ---- */

/* A key with a text string, or nothing for no text. */
static void add_words(struct pdf_file *file, const char *key, const char *text)
{
    if (text == NULL)
        return;
    buffer_printf(file->out, " %s ", key);
    pdf_add_text_string(file->out, text);
}

/* Alt (14.9.3); scope and numbering are attributes of their owners (14.8.5). */
static void add_to_element(struct pdf_file *file, const struct tag_item *tag)
{
    if (strcmp(tag->name, "Figure") == 0)
        add_words(file, "/Alt", tag->alternative);
    switch (tag->role) {
    case ROLE_NONE:
        break;
    case ROLE_COLUMN_HEAD:
        buffer_text(file->out, " /A << /O /Table /Scope /Column >>");
        break;
    case ROLE_NUMBERED:
        buffer_text(file->out, " /A << /O /List /ListNumbering /Decimal >>");
        break;
    case ROLE_LETTERED:
        buffer_text(file->out, " /A << /O /List /ListNumbering /UpperAlpha >>");
        break;
    case ROLE_BULLETED:
        buffer_text(file->out, " /A << /O /List /ListNumbering /Disc >>");
        break;
    }
}

/* A viewer then shows the title, not the name of the file; a reader aloud knows
 * the language; a printer keeps the scale of templates. The metadata is the one
 * object more, at the end. */
static void add_to_catalog(struct pdf_file *file, const char *catalog)
{
    /* Cairo 1.16 marks a tagged file as that only where its first tag is a
     * whole document's. */
    if (strstr(catalog, "/StructTreeRoot") != NULL &&
        strstr(catalog, "/MarkInfo") == NULL)
        buffer_text(file->out, " /MarkInfo << /Marked true >>");
    add_words(file, "/Lang", file->additions->facts.language);
    buffer_printf(file->out,
                  " /ViewerPreferences << /DisplayDocTitle true%s >>"
                  " /Metadata %zu 0 R",
                  file->additions->true_scale ? " /PrintScaling /None" : "",
                  file->size);
}

/* A date string begins with "D:" (7.9.4); Cairo 1.16 leaves that out. In a
 * title, the parenthesis would be escaped or written as a number. */
static void write_information(struct pdf_file *file, const char *text)
{
    static const char KEY[] = "Date (";
    for (const char *date; (date = strstr(text, KEY)) != NULL;) {
        const char *digits = date + sizeof KEY - 1;
        buffer_add(file->out, text, (size_t)(digits - text));
        if (*digits != 'D')
            buffer_text(file->out, "D:");
        text = digits;
    }
    buffer_text(file->out, text);
}

/* Whether Cairo deflated the stream whose bytes begin at `start`: photos lie in
 * a form of their own. */
static bool is_deflated(const char *dictionary, const char *start)
{
    const char *filter = strstr(dictionary, "/Filter /FlateDecode");
    return filter != NULL && start != NULL && filter < start;
}

/* Operators of a page are marked, all else stays as it was. Cairo writes no
 * page without operators, so such a one is of an unknown form, too.
 * ensures: false for a stream that cannot be read. */
static bool deflate_anew(struct buffer *out, const char *deflated,
                         size_t length, bool operators)
{
    struct arena *scratch = arena_create();
    struct buffer plain = buffer_in(scratch), marked = buffer_in(scratch);
    bool read = length > 0 && pdf_inflate(&plain, deflated, length);
    if (read && operators)
        read = plain.length > 0 &&
               content_mark_artifacts(&marked, plain.bytes, plain.length);
    if (read && operators)
        plain = marked;
    if (read)
        pdf_deflate(out, plain.bytes, plain.length);
    arena_destroy(scratch);
    return read;
}

/* A stream's length is an object of its own, behind it; it gets the new one.
 * ensures: false for a stream of another form. */
static bool write_stream_anew(struct pdf_file *file,
                              const struct object *object, const char *start)
{
    const char *text = dictionary(object);
    struct object *length = object_at(file, number_behind(text, "/Length "));
    if (length->text == NULL || length <= object)
        return false;
    const size_t at = object->start + (size_t)(start - object->text);
    const size_t old = number_behind(length->text, " 0 obj\n");
    if (at + old > object->end)
        return false;
    buffer_add(file->out, file->pdf->bytes + object->start, at - object->start);
    const size_t before = file->out->length;
    if (!deflate_anew(file->out, file->pdf->bytes + at, old, object->operators))
        return false;
    length->length = file->out->length - before;
    buffer_text(file->out, "\nendstream\nendobj\n");
    return true;
}

/* The dictionary with what is new in it. */
static void write_dictionary(struct pdf_file *file, size_t number)
{
    const struct object *object = &file->objects[number];
    const char *text = dictionary(object);
    buffer_printf(file->out, "%zu 0 obj\n<<", number);
    if (number == file->root)
        add_to_catalog(file, text);
    if (object->element != NULL)
        add_to_element(file, object->element);
    add_words(file, "/Contents", object->contents);
    /* The tabulator goes from link to link in the order of reading. */
    if (object->page && strstr(text, "/Annots") != NULL &&
        strstr(text, "/Tabs") == NULL)
        buffer_text(file->out, " /Tabs /S");
    if (object->cid_font && strstr(text, "/CIDToGIDMap") == NULL)
        buffer_text(file->out, " /CIDToGIDMap /Identity");
    /* Cairo 1.16 counts open bookmarks below zero at the root, too, which
     * 12.3.3 forbids. */
    const char *count = object->outlines ? strstr(text, "/Count -") : NULL;
    const char *rest = text + 2;
    if (count != NULL) {
        buffer_add(file->out, rest, (size_t)(count + 7 - rest));
        rest = count + 8;
    }
    buffer_text(file->out, rest);
}

/* What gains a key, or a better value. */
static bool gains(const struct pdf_file *file, size_t number)
{
    const struct object *object = &file->objects[number];
    return number == file->root || object->element != NULL || object->page ||
           object->contents != NULL || object->outlines || object->cid_font;
}

/* Streams stand by themselves, and so does a stream's length: a reader needs it
 * before it has found its way (7.5.7). */
static bool can_be_packed(const struct object *object)
{
    return strncmp(dictionary(object), "<<", 2) == 0 &&
           strstr(object->text, STREAM) == NULL;
}

/* ensures: false for a page whose operators cannot be read. */
static bool write_object(struct pdf_file *file, size_t number)
{
    struct object *object = &file->objects[number];
    const char *stream = strstr(dictionary(object), STREAM);
    const char *start = stream == NULL ? NULL : stream + sizeof STREAM - 1;
    if (is_deflated(dictionary(object), start))
        return write_stream_anew(file, object, start);
    if (object->operators)
        return false;
    if (object->length > 0)
        buffer_printf(file->out, "%zu 0 obj\n   %zu\nendobj\n", number,
                      object->length);
    else if (number == file->info)
        write_information(file, object->text);
    else if (gains(file, number))
        write_dictionary(file, number);
    else
        buffer_add(file->out, file->pdf->bytes + object->start,
                   object->end - object->start);
    return true;
}

/* In the stream an object stands without "7 0 obj" and "endobj".
 * ensures: false for an object that ends in another way. */
static bool pack_object(struct pdf_file *file, size_t number)
{
    static const char END[] = "endobj\n";
    struct object *object = &file->objects[number];
    struct buffer written = buffer_in(file->pdf->arena);
    file->out = &written;
    const bool done = write_object(file, number);
    file->out = &file->whole;
    const size_t tail = sizeof END - 1;
    if (!done || written.length < tail ||
        memcmp(written.bytes + written.length - tail, END, tail) != 0)
        return false;
    const size_t head =
        (size_t)(strchr(written.bytes, '\n') + 1 - written.bytes);
    object->packed = true;
    object->index = file->packed_count++;
    object->offset = file->packed.length;
    buffer_printf(&file->places, "%zu %zu ", number, object->offset);
    buffer_add(&file->packed, written.bytes + head,
               written.length - head - tail);
    return true;
}

static bool place_object(struct pdf_file *file, size_t number)
{
    struct object *object = &file->objects[number];
    if (can_be_packed(object))
        return pack_object(file, number);
    object->offset = file->out->length;
    return write_object(file, number);
}

/* A stream of its own at the end, with that number. `keys` stand in its
 * dictionary. */
static void write_stream(struct pdf_file *file, size_t number, const char *keys,
                         const struct buffer *plain)
{
    struct buffer deflated = buffer_in(file->pdf->arena);
    pdf_deflate(&deflated, plain->bytes, plain->length);
    buffer_printf(file->out,
                  "%zu 0 obj\n<< %s\n   /Filter /FlateDecode\n"
                  "   /Length %zu\n>>\nstream\n",
                  number, keys, deflated.length);
    buffer_add(file->out, deflated.bytes, deflated.length);
    buffer_text(file->out, "\nendstream\nendobj\n");
}

/* Not deflated, so that programs find it that know no PDF. */
static void write_metadata(struct pdf_file *file, size_t number)
{
    struct buffer xmp = buffer_in(file->pdf->arena);
    pdf_add_xmp(&xmp, &file->additions->facts);
    file->objects[number].offset = file->out->length;
    buffer_printf(file->out,
                  "%zu 0 obj\n<< /Type /Metadata\n   /Subtype /XML\n"
                  "   /Length %zu\n>>\nstream\n",
                  number, xmp.length);
    buffer_add(file->out, xmp.bytes, xmp.length);
    buffer_text(file->out, "\nendstream\nendobj\n");
}

/* Numbers and offsets first, the objects behind them. */
static void write_packed(struct pdf_file *file, size_t number)
{
    struct buffer plain = buffer_in(file->pdf->arena);
    buffer_add(&plain, file->places.bytes, file->places.length);
    buffer_add(&plain, file->packed.bytes, file->packed.length);
    file->objects[number].offset = file->out->length;
    write_stream(file, number,
                 arena_printf(file->pdf->arena,
                              "/Type /ObjStm\n   /N %zu\n   /First %zu",
                              file->packed_count, file->places.length),
                 &plain);
}

static void add_big_endian(struct buffer *out, size_t value, int bytes)
{
    while (bytes-- > 0) {
        const char byte = (char)(value >> 8 * bytes & 0xFF);
        buffer_add(out, &byte, 1);
    }
}

/* An entry: its kind, then where in the file and 0, or in which stream and the
 * index there (table 18); kind 0 for what is not there. */
static void add_entry(struct buffer *table, const struct object *object,
                      size_t stream)
{
    const bool there = object->packed || object->offset > 0;
    add_big_endian(table, object->packed ? 2 : there ? 1 : 0, 1);
    add_big_endian(table, object->packed ? stream : object->offset, 4);
    add_big_endian(table,
                   object->packed ? object->index
                   : there        ? 0
                                  : 65535,
                   4);
}

/* `number` is the table's own; the stream of objects is the one before. */
static void write_table(struct pdf_file *file, size_t number)
{
    const size_t start = file->out->length;
    file->objects[number].offset = start;
    struct buffer table = buffer_in(file->pdf->arena);
    for (size_t i = 0; i <= number; i++)
        add_entry(&table, &file->objects[i], number - 1);
    const char *keys = arena_printf(
        file->pdf->arena,
        "/Type /XRef\n   /Size %zu\n   /W [1 4 4]\n   /Root %zu 0 R\n"
        "   /Info %zu 0 R",
        number + 1, file->root, file->info);
    write_stream(file, number, keys, &table);
    buffer_printf(file->out, "startxref\n%zu\n%%%%EOF\n", start);
}

/* Cairo's header, of the first version that has streams of objects. */
static void write_header(struct pdf_file *file, size_t first)
{
    static const char VERSION[] = "%PDF-1.5";
    const size_t length = sizeof VERSION - 1;
    buffer_text(file->out, VERSION);
    buffer_add(file->out, file->pdf->bytes + length, first - length);
}

/* The header is what stands before the first object. Objects keep their order,
 * so that the length of a stream is written behind it, when it is known. */
static bool write_file(struct pdf_file *file)
{
    size_t first = file->table;
    for (size_t i = 1; i < file->size; i++)
        if (file->objects[i].start > 0 && file->objects[i].start < first)
            first = file->objects[i].start;
    write_header(file, first);
    for (size_t i = 1; i < file->size; i++)
        if (file->objects[i].start > 0 && !place_object(file, i))
            return false;
    write_metadata(file, file->size);
    write_packed(file, file->size + 1);
    write_table(file, file->size + 2);
    return true;
}

/* `pdf` is replaced at the very end, when all has been read and written: where
 * there is a problem, the caller still has the file as it was. */
const char *pdf_update(struct buffer *pdf,
                       const struct pdf_additions *additions)
{
    /* A new version of the library, or a page that it drew in another way. */
    static const char UNKNOWN[] =
        "the PDF library wrote a file of an unknown form";
    struct pdf_file file = {.pdf = pdf,
                            .whole = buffer_in(pdf->arena),
                            .packed = buffer_in(pdf->arena),
                            .places = buffer_in(pdf->arena),
                            .additions = additions};
    file.out = &file.whole;
    if (!read_table(&file) || !read_objects(&file) ||
        dictionary(&file.objects[file.root])[0] == '\0' ||
        file.objects[file.info].text == NULL)
        return UNKNOWN;
    const char *problem = classify_all(&file);
    if (problem != NULL)
        return problem;
    if (!write_file(&file))
        return UNKNOWN;
    *pdf = file.whole;
    return NULL;
}
