/* The incremental update. Each object that gains a key is written again at
 * the end of the file, with the key right behind its "<<"; a small table then
 * tells a reader where the new versions are. The old bytes stay as they are.
 * Objects are found by the cross-reference table and never by searching the
 * file, where the words of a page could look like an object. */
#include "pdf_update.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { ENTRY_BYTES = 20, OFFSET_DIGITS = 10 };

/* A new version of an object. */
struct revision {
    size_t number;
    size_t offset;
};

/* The PDF as it was written, and what has been added to it. */
struct pdf_file {
    struct buffer *pdf;
    size_t table;        /* where the cross-reference table starts */
    const char *entries; /* its first entry, of object 0 */
    size_t size;         /* number of objects, with object 0 */
    size_t root, info;
    LIST(struct revision) revisions;
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

/* The dictionary of an object, from its "<<" on; NULL where the object is
 * none. */
static const char *dictionary(const struct pdf_file *file, size_t number)
{
    const size_t offset =
        strtoul(file->entries + number * ENTRY_BYTES, NULL, 10);
    if (offset == 0 || offset >= file->table)
        return NULL;
    /* The object names itself; a table that points elsewhere shows here. */
    char *rest = NULL;
    const char *object = file->pdf->bytes + offset;
    if (strtoul(object, &rest, 10) != number ||
        strncmp(rest, " 0 obj\n<<", 9) != 0)
        return NULL;
    return rest + 7;
}

/* Cairo begins each structure element with these very words. */
static bool is_figure(const struct pdf_file *file, size_t number)
{
    static const char FIGURE[] = "<< /Type /StructElem\n   /S /Figure\n";
    const char *object = dictionary(file, number);
    return object != NULL && strncmp(object, FIGURE, sizeof FIGURE - 1) == 0;
}

/* One character of UTF-8; U+FFFD for bytes that are none. The text has been
 * checked when the source was read, so this only must not run astray. */
static uint32_t next_character(const char **text)
{
    static const unsigned char LEAD[] = {0, 0xC0, 0xE0, 0xF0};
    static const unsigned char MASK[] = {0x7F, 0x1F, 0x0F, 0x07};
    const unsigned char first = (unsigned char)*(*text)++;
    const int more = first < 0x80 ? 0 : first < 0xE0 ? 1 : first < 0xF0 ? 2 : 3;
    if (first >= 0xF8 || (first >= 0x80 && first < 0xC0))
        return 0xFFFD;
    uint32_t character = (uint32_t)(first - LEAD[more]) & MASK[more];
    for (int i = 0; i < more; i++) {
        const unsigned char next = (unsigned char)**text;
        if ((next & 0xC0) != 0x80)
            return 0xFFFD;
        character = character << 6 | (next & 0x3F);
        (*text)++;
    }
    return character;
}

/* ensures: true where ASCII and PDFDocEncoding agree on each character. */
static bool is_plain(const char *text)
{
    for (; *text != '\0'; text++)
        if (*text < ' ' || *text > '~')
            return false;
    return true;
}

/* UTF-16BE with its byte order mark, in hexadecimal: nothing to escape, and
 * the file stays readable in a text editor. */
static void add_utf16(struct buffer *out, const char *text)
{
    buffer_text(out, "<FEFF");
    while (*text != '\0') {
        const uint32_t character = next_character(&text);
        if (character < 0x10000)
            buffer_printf(out, "%04X", (unsigned)character);
        else
            /* Beyond U+FFFF: a pair of surrogates. */
            buffer_printf(out, "%04X%04X",
                          (unsigned)(0xD800 + ((character - 0x10000) >> 10)),
                          (unsigned)(0xDC00 + (character & 0x3FF)));
    }
    buffer_char(out, '>');
}

/* A text string (7.9.2.2): plain ASCII as it is, else UTF-16BE. */
static void add_text_string(struct buffer *out, const char *text)
{
    if (!is_plain(text)) {
        add_utf16(out, text);
        return;
    }
    buffer_char(out, '(');
    for (; *text != '\0'; text++) {
        if (*text == '(' || *text == ')' || *text == '\\')
            buffer_char(out, '\\');
        buffer_char(out, *text);
    }
    buffer_char(out, ')');
}

/* Begins a new version of the object, up to behind its "<<".
 * ensures: the rest of the old version, for end_revision. */
static const char *begin_revision(struct pdf_file *file, size_t number)
{
    const char *old = dictionary(file, number);
    struct revision *revision = LIST_ADD(file->pdf->arena, &file->revisions);
    revision->number = number;
    revision->offset = file->pdf->length;
    buffer_printf(file->pdf, "%zu 0 obj\n<<", number);
    return old + 2;
}

/* The "endobj" that ends an object. Strings are stepped over, for a book may
 * well have a title with this word in it. */
static const char *object_end(const char *text)
{
    int depth = 0; /* of parentheses; strings may hold balanced ones */
    for (; depth > 0 || strncmp(text, "endobj", 6) != 0; text++) {
        if (*text == '\\' && text[1] != '\0')
            text++;
        else if (*text == '(')
            depth++;
        else if (*text == ')')
            depth--;
        else if (*text == '\0')
            break;
    }
    return text;
}

/* Copies the rest of the old version. */
static void end_revision(struct pdf_file *file, const char *rest)
{
    buffer_add(file->pdf, rest, (size_t)(object_end(rest) - rest));
    buffer_text(file->pdf, "endobj\n");
}

/* Elements are numbered in the order in which their tags were opened. */
static void revise_figures(struct pdf_file *file,
                           const struct pdf_additions *additions)
{
    size_t figure = 0;
    for (size_t i = 1; i < file->size; i++) {
        if (!is_figure(file, i))
            continue;
        const char *alternative = additions->alternatives[figure++];
        if (alternative == NULL)
            continue;
        const char *rest = begin_revision(file, i);
        buffer_text(file->pdf, " /Alt ");
        add_text_string(file->pdf, alternative);
        end_revision(file, rest);
    }
}

/* A viewer then shows the title, not the name of the file, and a reader aloud
 * knows the language. */
static void revise_catalog(struct pdf_file *file, const char *language)
{
    /* Cairo 1.16 marks a tagged file as that only where its first tag is a
     * whole document's. */
    const char *root = dictionary(file, file->root);
    const char *marked = strstr(root, "/MarkInfo");
    const char *tree = strstr(root, "/StructTreeRoot");
    const char *end = object_end(root);
    const char *rest = begin_revision(file, file->root);
    if (tree != NULL && tree < end && (marked == NULL || marked > end))
        buffer_text(file->pdf, " /MarkInfo << /Marked true >>");
    if (language != NULL) {
        buffer_text(file->pdf, " /Lang ");
        add_text_string(file->pdf, language);
    }
    buffer_text(file->pdf, " /ViewerPreferences << /DisplayDocTitle true >>");
    end_revision(file, rest);
}

/* A date string begins with "D:" (7.9.4); Cairo 1.16 leaves that out. */
static void revise_date(struct pdf_file *file)
{
    static const char KEY[] = "/CreationDate (";
    const char *info = dictionary(file, file->info);
    const char *date = strstr(info, KEY);
    /* In a title, the parenthesis would be escaped or written as a number. */
    if (date == NULL || date > object_end(info) || date[sizeof KEY - 1] == 'D')
        return;
    const char *rest = begin_revision(file, file->info);
    /* The rest begins inside the string, which ends at the first ")". */
    const char *digits = date + sizeof KEY - 1;
    const char *after = strchr(digits, ')') + 1;
    buffer_add(file->pdf, rest, (size_t)(digits - rest));
    buffer_text(file->pdf, "D:");
    buffer_add(file->pdf, digits, (size_t)(after - digits));
    end_revision(file, after);
}

/* Each entry is 20 bytes long, its line end of two bytes included; that is
 * why a blank stands before the line feed. */
static void add_table(struct pdf_file *file)
{
    struct buffer *pdf = file->pdf;
    const size_t start = pdf->length;
    buffer_text(pdf, "xref\n");
    for (size_t i = 0; i < file->revisions.count; i++)
        buffer_printf(pdf, "%zu 1\n%0*zu 00000 n \n",
                      file->revisions.items[i].number, OFFSET_DIGITS,
                      file->revisions.items[i].offset);
    buffer_printf(pdf,
                  "trailer\n<< /Size %zu\n   /Root %zu 0 R\n"
                  "   /Info %zu 0 R\n   /Prev %zu\n>>\n"
                  "startxref\n%zu\n%%%%EOF\n",
                  file->size, file->root, file->info, file->table, start);
}

/* Cairo drops the tags of a page without a mark. The words would then go to
 * the wrong figures, so the counts are compared first. */
static size_t count_figures(const struct pdf_file *file)
{
    size_t figures = 0;
    for (size_t i = 1; i < file->size; i++)
        figures += is_figure(file, i) ? 1 : 0;
    return figures;
}

const char *pdf_update(struct buffer *pdf,
                       const struct pdf_additions *additions)
{
    struct pdf_file file = {.pdf = pdf};
    if (!read_table(&file) || dictionary(&file, file.root) == NULL ||
        dictionary(&file, file.info) == NULL)
        return "the PDF library wrote a file of an unknown form";
    if (count_figures(&file) != additions->figures)
        return "the PDF library lost a figure from the structure";
    revise_figures(&file, additions);
    revise_catalog(&file, additions->language);
    revise_date(&file);
    add_table(&file);
    return NULL;
}
