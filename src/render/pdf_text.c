/* Strings and metadata. Every text has been checked when the source was read;
 * here it only is written so that nothing in it can end its string. */
#include "pdf_text.h"

#include <stdbool.h>
#include <stdint.h>

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

/* Plain text stays readable in the file. Only what could end the string early
 * is escaped (7.3.4.2). */
void pdf_add_text_string(struct buffer *out, const char *text)
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

/* ---- metadata ---- */

/* Text of an XML element. */
static void add_escaped(struct buffer *out, const char *text)
{
    for (; *text != '\0'; text++) {
        if (*text == '&')
            buffer_text(out, "&amp;");
        else if (*text == '<')
            buffer_text(out, "&lt;");
        else if (*text == '>')
            buffer_text(out, "&gt;");
        else
            buffer_char(out, *text);
    }
}

/* A fact that is not told has no element. */
static void add_fact(struct buffer *out, const char *before, const char *text,
                     const char *after)
{
    if (text == NULL || text[0] == '\0')
        return;
    buffer_text(out, before);
    add_escaped(out, text);
    buffer_text(out, after);
}

/* Titles and descriptions come in languages, authors in an order, and the
 * languages of a document in none: so XMP asks for three kinds of list. */
void pdf_add_xmp(struct buffer *out, const struct pdf_facts *facts)
{
    /* The identifier is the same in every packet there is. */
    buffer_text(out,
                "<?xpacket begin=\"\xEF\xBB\xBF\" "
                "id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
                "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
                "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/"
                "22-rdf-syntax-ns#\">\n"
                "<rdf:Description rdf:about=\"\"\n"
                " xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n"
                " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">\n"
                "<dc:format>application/pdf</dc:format>\n");
    add_fact(out, "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">",
             facts->title, "</rdf:li></rdf:Alt></dc:title>\n");
    add_fact(out, "<dc:creator><rdf:Seq><rdf:li>", facts->author,
             "</rdf:li></rdf:Seq></dc:creator>\n");
    add_fact(out, "<dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">",
             facts->subject, "</rdf:li></rdf:Alt></dc:description>\n");
    add_fact(out, "<dc:language><rdf:Bag><rdf:li>", facts->language,
             "</rdf:li></rdf:Bag></dc:language>\n");
    add_fact(out, "<xmp:CreateDate>", facts->date, "</xmp:CreateDate>\n");
    add_fact(out, "<xmp:ModifyDate>", facts->date, "</xmp:ModifyDate>\n");
    buffer_text(out, "<xmp:CreatorTool>seamwright</xmp:CreatorTool>\n"
                     "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n"
                     "<?xpacket end=\"r\"?>\n");
}
