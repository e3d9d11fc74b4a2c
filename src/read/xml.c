/* The only file that knows libxml2. A SAX handler makes our elements directly;
 * no libxml2 tree is kept. Places come from our own reading of each tag's
 * bytes, because libxml2 has no columns and loses lines past 65,535. */
#include "reader.h"

#include <ctype.h>
#include <libxml/catalog.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <string.h>

#include "buffer.h"
#include "shortage.h"

static const char pattern_namespace[] = "urn:seamwright:pattern:1";

struct reader {
    struct run *run;
    struct source_reader *all;            /* of all files */
    const struct opened *file;            /* that is read here */
    xmlParserCtxtPtr context;             /* ours, freed where it was made */
    struct element *root;                 /* what is handed on */
    struct element *open;                 /* innermost, NULL outside */
    struct buffer texts[LIMIT_DEPTH + 1]; /* content of each open element */
    struct span stray[LIMIT_DEPTH + 1];   /* first text that has no place */
    size_t depth;                         /* of `open`, 0 outside */
    size_t skipping;    /* depth inside an unknown element, 0 for none */
    const xmlChar *uri; /* namespace of the root, and so of all elements */
    uint32_t byte_order_mark; /* its length; the parser starts behind it */
    bool stopped;             /* nothing after this is listened to */
};

/* Where the parser stands, as an offset into the source. */
static uint32_t parser_offset(const struct reader *reader)
{
    const xmlParserInputPtr input = reader->context->input;
    if (input == NULL)
        return reader->file->part.start;
    const size_t offset =
        (size_t)input->consumed + (size_t)(input->cur - input->base);
    return reader->file->part.start + (uint32_t)offset +
           reader->byte_order_mark;
}

/* Of its bytes in the source. */
static size_t file_end(const struct reader *reader)
{
    return reader->file->part.start + reader->file->part.length;
}

static struct span clamped(const struct reader *reader, size_t start,
                           size_t end)
{
    const size_t last = file_end(reader);
    start = start > last ? last : start;
    end = end > last ? last : end;
    return (struct span){(uint32_t)start,
                         (uint32_t)(end < start ? start : end)};
}

/* In a hook for a start tag the parser stands on its '>' or '/'. A raw '<'
 * cannot occur inside a tag, so the first one before is the tag's own. */
static struct span start_tag_span(const struct reader *reader)
{
    const char *bytes = reader->run->source->bytes;
    size_t end = parser_offset(reader);
    size_t start = end;
    while (start > reader->file->part.start && bytes[start] != '<')
        start--;
    while (end < file_end(reader) && bytes[end] != '>')
        end++;
    return clamped(reader, start, end + 1);
}

/* ---- elements ---- */

static bool allowed_here(const struct reader *reader, enum element_kind kind)
{
    return kind != ELEMENT_COUNT &&
           set_has(&grammar_row(reader->open->kind)->children, kind);
}

static enum element_kind root_kind(const struct reader *reader)
{
    return reader->file->by == NULL             ? reader->all->root
           : reader->all->root == ELEMENT_ORDER ? ELEMENT_SHELF
                                                : ELEMENT_SHARED;
}

/* A file of the other kind has its own help. */
static const char *root_help(enum element_kind root, const char *name)
{
    if (root == ELEMENT_SHARED && strcmp(name, "pattern") == 0)
        return "put what both patterns share into a file whose root is "
               "`shared`";
    if (root == ELEMENT_PATTERN && strcmp(name, "shared") == 0)
        return "a `shared` file is read where a pattern names it in an "
               "`include`";
    if (root == ELEMENT_PATTERN && strcmp(name, "order") == 0)
        return "an order of kits is read by `seamwright kit` and by `check`";
    if (root == ELEMENT_ORDER && strcmp(name, "pattern") == 0)
        return "kits of one pattern: add --quilt, --colorway and --kits";
    return NULL;
}

static void report_namespace(struct reader *reader, const char *name,
                             struct span span)
{
    struct run *run = reader->run;
    const enum element_kind root = root_kind(reader);
    const bool other = strcmp(name, element_name(root)) != 0;
    struct diagnostic *d =
        other ? diag_report(run, DIAG_NAMESPACE, span,
                            "the root element is %s where `%s` is expected",
                            quoted(run->arena, name), element_name(root))
              : diag_report(run, DIAG_NAMESPACE, span,
                            "the root element is not in the namespace %s",
                            pattern_namespace);
    note_include(run, d, reader->file);
    const char *help = root_help(root, name);
    if (help != NULL)
        diag_help(run, d, "%s", help);
    else if (!other)
        diag_help(run, d, "write <%s xmlns=\"%s\"%s>", name, pattern_namespace,
                  root == ELEMENT_SHARED || root == ELEMENT_SHELF ? "" : " ...");
}

/* ---- attributes ---- */

/* requires: `written`, with its places and text, which becomes a value. */
static void add_attribute(struct reader *reader, struct element *element,
                          const char *name, struct value written)
{
    written.id = attribute_in(element->kind, name);
    if (written.id == ATTRIBUTE_COUNT) {
        report_unknown_attribute(reader->run, element, name, written.name);
        return;
    }
    if (element->parent == NULL && written.id == ATTR_UNITS &&
        strcmp(written.text, "cm") == 0)
        reader->all->units = UNIT_CM;
    read_value(reader->run, &written, reader->all->units);
    if (!written.usable)
        mark_faulty(element);
    element->values[element->value_count++] = written;
}

/* Where no tree is built the parser leaves an ampersand as a reference. */
static char *unescaped(struct arena *arena, const char *text, size_t length)
{
    char *copy = arena_copy(arena, text, length);
    char *out = copy;
    for (const char *in = copy; *in != '\0'; in++) {
        *out++ = *in;
        if (strncmp(in, "&#38;", 5) == 0)
            in += 4;
    }
    *out = '\0';
    return copy;
}

static void read_attributes(struct reader *reader, struct element *element,
                            int count, const xmlChar **attributes)
{
    const char *bytes = reader->run->source->bytes;
    struct arena *arena = reader->run->arena;
    size_t at = element->name.end;
    /* Room for all, so that a value never moves. */
    element->values = ARENA_ARRAY(arena, struct value, (size_t)count);
    for (int i = 0; i < count; i++) {
        struct span name, span;
        do {
            if (!next_attribute(bytes, &at, element->tag.end, &name, &span))
                return;
        } while (declares_namespace(bytes, name));
        const xmlChar **fields = attributes + 5 * (size_t)i;
        if (fields[1] != NULL) { /* xml:lang and the like are not ours */
            if (strcmp((const char *)fields[1], "xml") != 0)
                report_unknown_attribute(reader->run, element,
                                         arena_copy(arena, bytes + name.start,
                                                    name.end - name.start),
                                         name);
            continue;
        }
        char *text = unescaped(arena, (const char *)fields[3],
                               (size_t)(fields[4] - fields[3]));
        add_attribute(reader, element, (const char *)fields[0],
                      (struct value){.name = name, .span = span, .text = text});
    }
}

/* The units of a pattern or an order must be known before its lengths are read. */
static void find_units(struct reader *reader, int count,
                       const xmlChar **attributes)
{
    for (int i = 0; i < count; i++) {
        const xmlChar **fields = attributes + 5 * (size_t)i;
        if (strcmp((const char *)fields[0], "units") == 0 &&
            fields[4] - fields[3] == 2 && memcmp(fields[3], "cm", 2) == 0)
            reader->all->units = UNIT_CM;
    }
}

static struct element *add_element(struct reader *reader,
                                   enum element_kind kind, struct span tag,
                                   struct span name)
{
    struct element *element = ARENA_NEW(reader->run->arena, struct element);
    element->kind = kind;
    element->tag = tag;
    element->name = name;
    element->content = (struct span){tag.end, tag.end};
    element->text = "";
    element->parent = reader->open;
    if (reader->open == NULL)
        reader->root = element;
    else
        *LIST_ADD(reader->run->arena, &reader->open->children) = element;
    return element;
}

static void on_start(void *user, const xmlChar *local, const xmlChar *prefix,
                     const xmlChar *uri, int namespace_count,
                     const xmlChar **namespaces, int attribute_count,
                     int default_count, const xmlChar **attributes)
{
    (void)prefix, (void)namespace_count, (void)namespaces, (void)default_count;
    struct reader *reader = ((xmlParserCtxtPtr)user)->_private;
    const char *name = (const char *)local;
    if (reader->stopped || reader->skipping > 0) {
        reader->skipping += reader->skipping > 0;
        return;
    }
    /* A tag that never ends is about to be reported as that. */
    const char stop = reader->run->source->bytes[parser_offset(reader)];
    if (stop != '>' && stop != '/')
        return;
    const struct span tag = start_tag_span(reader);
    const struct span name_span =
        word_at(reader->run->source->bytes, tag.start + 1);
    enum element_kind kind = element_in(reader->open, name);
    if (reader->root == NULL) {
        reader->uri = uri;
        const bool ours =
            uri != NULL && strcmp((const char *)uri, pattern_namespace) == 0;
        if (!ours || kind != root_kind(reader))
            report_namespace(reader, name, name_span);
        reader->stopped = kind != root_kind(reader);
        if (reader->file->by == NULL)
            find_units(reader, attribute_count, attributes);
    } else if (!xmlStrEqual(uri, reader->uri) || !allowed_here(reader, kind)) {
        report_unknown_element(reader->run, reader->open, name, name_span,
                               reader->run->source->bytes[tag.end - 2] == '/');
        mark_faulty(reader->open);
        reader->skipping = 1;
        return;
    }
    if (reader->stopped)
        return;
    struct element *element = add_element(reader, kind, tag, name_span);
    reader->open = element;
    reader->depth++;
    reader->texts[reader->depth] = buffer_in(reader->run->arena);
    reader->stray[reader->depth] = (struct span){0, 0};
    read_attributes(reader, element, attribute_count, attributes);
}

/* Blanks folded to single ones, none at the ends. */
static char *folded(struct arena *arena, const char *text)
{
    struct buffer out = buffer_in(arena);
    for (const char *c = text; *c != '\0'; c++) {
        if (!isspace((unsigned char)*c))
            buffer_char(&out, *c);
        else if (out.length > 0 && out.bytes[out.length - 1] != ' ')
            buffer_char(&out, ' ');
    }
    if (out.length > 0 && out.bytes[out.length - 1] == ' ')
        out.bytes[--out.length] = '\0';
    return arena_copy(arena, buffer_string(&out), out.length);
}

static void on_end(void *user, const xmlChar *local, const xmlChar *prefix,
                   const xmlChar *uri)
{
    (void)local, (void)prefix, (void)uri;
    struct reader *reader = ((xmlParserCtxtPtr)user)->_private;
    if (reader->skipping > 0) {
        reader->skipping--;
        return;
    }
    if (reader->stopped || reader->open == NULL)
        return;
    struct element *element = reader->open;
    const char *bytes = reader->run->source->bytes;
    /* The parser stands behind the end tag, perhaps on the next one. */
    size_t end = parser_offset(reader);
    do
        end -= end > element->tag.end;
    while (end > element->tag.end && strncmp(bytes + end, "</", 2) != 0);
    element->content.end = (uint32_t)end;
    element->text = folded(reader->run->arena,
                           buffer_string(&reader->texts[reader->depth]));
    const struct span stray = reader->stray[reader->depth];
    if (stray.end > stray.start) {
        diag_report(reader->run, DIAG_STRAY_TEXT, stray,
                    "`%s` holds elements, but there is text between them",
                    element_name(element->kind));
        mark_unsound(element);
    }
    reader->open = element->parent;
    reader->depth--;
    if (element->kind == ELEMENT_INCLUDE)
        include_file(reader->all, reader->file, element);
}

/* Of the open element, in this file: what an `include` brought in lies in
 * another. */
static const struct element *last_child(const struct reader *reader)
{
    const struct element *open = reader->open;
    size_t i = open->children.count;
    while (i > 0 &&
           (open->children.items[i - 1]->tag.start < open->tag.end ||
            open->children.items[i - 1]->tag.start >= file_end(reader)))
        i--;
    return i == 0 ? NULL : open->children.items[i - 1];
}

/* The first word behind the last child of the open element: the parser has
 * passed it when it hands out the text. */
static struct span first_text(const struct reader *reader)
{
    const char *bytes = reader->run->source->bytes;
    const struct element *open = reader->open;
    size_t at = open->tag.end;
    const struct element *last = last_child(reader);
    if (last != NULL) {
        at = last->content.end;
        if (strncmp(bytes + at, "</", 2) == 0)
            at += strcspn(bytes + at, ">") + 1;
    }
    for (;;) {
        at += strspn(bytes + at, " \t\r\n");
        const char *end = strncmp(bytes + at, "<!--", 4) == 0 ? "-->"
                          : strncmp(bytes + at, "<?", 2) == 0 ? "?>"
                                                              : NULL;
        const char *found = end == NULL ? NULL : strstr(bytes + at, end);
        if (found == NULL)
            break;
        at = (size_t)(found - bytes) + strlen(end);
    }
    if (strncmp(bytes + at, "<![CDATA[", 9) == 0)
        at += 9;
    const size_t length = strcspn(bytes + at, " \t\r\n<]");
    return clamped(reader, at, at + (length == 0 ? 1 : length));
}

static void on_text(void *user, const xmlChar *text, int length)
{
    struct reader *reader = ((xmlParserCtxtPtr)user)->_private;
    if (reader->stopped || reader->skipping > 0 || reader->open == NULL)
        return;
    buffer_add(&reader->texts[reader->depth], (const char *)text,
               (size_t)length);
    if (grammar_row(reader->open->kind)->content == CONTENT_TEXT ||
        reader->stray[reader->depth].end > 0)
        return;
    int first = 0;
    while (first < length && isspace(text[first]))
        first++;
    if (first == length)
        return;
    reader->stray[reader->depth] = first_text(reader);
}

static void on_doctype(void *user, const xmlChar *name, const xmlChar *external,
                       const xmlChar *system)
{
    (void)name, (void)external, (void)system;
    struct reader *reader = ((xmlParserCtxtPtr)user)->_private;
    const char *bytes = reader->run->source->bytes;
    const char *found = strstr(bytes + reader->file->part.start, "<!DOCTYPE");
    const size_t start = found == NULL ? 0 : (size_t)(found - bytes);
    struct diagnostic *d = diag_report(reader->run, DIAG_DOCTYPE,
                                       clamped(reader, start, start + 9),
                                       "a pattern has no DOCTYPE");
    note_include(reader->run, d, reader->file);
    diag_help(reader->run, d,
              "delete the declaration; nothing in a pattern needs it");
    reader->stopped = true;
    xmlStopParser(reader->context);
}

/* ---- mistakes in the XML itself ---- */

static const char *syntax_text(struct reader *reader, const xmlError *error)
{
    struct arena *arena = reader->run->arena;
    switch (error->code) {
    case XML_ERR_TAG_NAME_MISMATCH:
        return arena_printf(arena, "`%s` of line %d is closed by `</%s>`",
                            error->str1 == NULL ? "?" : error->str1,
                            error->int1,
                            error->str2 == NULL ? "?" : error->str2);
    case XML_ERR_ATTRIBUTE_WITHOUT_VALUE:
        return arena_printf(arena, "the attribute `%s` has no value",
                            error->str1 == NULL ? "?" : error->str1);
    case XML_ERR_ATTRIBUTE_REDEFINED: /* str1 is the prefix, if there is one */
        return arena_printf(arena, "the attribute `%s%s%s` stands twice",
                            error->str1 == NULL ? "?" : error->str1,
                            error->str2 == NULL ? "" : ":",
                            error->str2 == NULL ? "" : error->str2);
    case XML_ERR_TAG_NOT_FINISHED:
        return reader->open == NULL
                   ? "the file ends inside an element"
                   : arena_printf(arena, "`%s` is never closed",
                                  element_name(reader->open->kind));
    case XML_ERR_UNDECLARED_ENTITY:
        return arena_printf(arena, "the name `&%s;` stands for nothing",
                            error->str1 == NULL ? "?" : error->str1);
    default: {
        const char *words = syntax_words(
            error->code, reader->run->source->bytes, parser_offset(reader));
        if (words != NULL)
            return words;
        const char *text = error->message == NULL ? "not XML" : error->message;
        char *copy = folded(arena, text);
        copy[0] = (char)tolower((unsigned char)copy[0]);
        return copy;
    }
    }
}

/* The second attribute of one name in the tag that ends at `at`; the parser tells
 * it only there. ensures: false where the names differ by their prefix. */
static bool find_second(const struct reader *reader, size_t at,
                        struct span *first, struct span *second)
{
    const char *bytes = reader->run->source->bytes;
    size_t tag = at;
    while (tag > reader->file->part.start && bytes[tag] != '<')
        tag--;
    size_t next = word_at(bytes, tag + 1).end;
    LIST(struct span) names = {0};
    struct span value;
    while (next_attribute(bytes, &next, at, second, &value)) {
        const size_t length = second->end - second->start;
        for (size_t i = 0; i < names.count; i++) {
            *first = names.items[i];
            if (first->end - first->start == length &&
                strncmp(bytes + first->start, bytes + second->start, length) ==
                    0)
                return true;
        }
        *LIST_ADD(reader->run->arena, &names) = *second;
    }
    return false;
}

/* The most useful place: for a closing tag, the tag; for an attribute too many,
 * its name; else where it stands. */
static struct span syntax_span(struct reader *reader, const xmlError *error)
{
    const char *bytes = reader->run->source->bytes;
    size_t at = parser_offset(reader);
    if (error->code == XML_ERR_TAG_NAME_MISMATCH) {
        size_t start = at;
        while (start > reader->file->part.start &&
               strncmp(bytes + start, "</", 2) != 0)
            start--;
        return clamped(reader, start, at + 1 > start ? at + 1 : start + 2);
    }
    if (error->code == XML_ERR_TAG_NOT_FINISHED && reader->open != NULL)
        return reader->open->name;
    struct span first, second;
    if (error->code == XML_ERR_ATTRIBUTE_REDEFINED &&
        find_second(reader, at, &first, &second))
        return second;
    return clamped(reader, at, at + 1);
}

static void on_error(void *user, xmlErrorPtr error)
{
    xmlParserCtxtPtr context = user;
    struct reader *reader = context->_private;
    /* Told by the allocator before, but where that is a sanitizer's. */
    if (error->code == XML_ERR_NO_MEMORY)
        end_out_of_memory(NULL);
    if (reader == NULL || reader->stopped)
        return; /* what follows the first mistake is a cascade */
    reader->stopped = true;
    struct diagnostic *d =
        diag_report(reader->run, DIAG_XML_SYNTAX, syntax_span(reader, error),
                    "%s", syntax_text(reader, error));
    note_include(reader->run, d, reader->file);
    if (error->code == XML_ERR_TAG_NAME_MISMATCH && reader->open != NULL) {
        diag_note(reader->run, d, reader->open->name, "`%s` is opened here",
                  element_name(reader->open->kind));
        diag_help(reader->run, d, "close `%s` with </%s> first",
                  element_name(reader->open->kind),
                  element_name(reader->open->kind));
        return;
    }
    struct span first, second;
    if (error->code == XML_ERR_ATTRIBUTE_REDEFINED &&
        find_second(reader, parser_offset(reader), &first, &second))
        diag_note(reader->run, d, first, "it stands here before");
    const char *help = syntax_help(error->code, reader->run->source->bytes,
                                   parser_offset(reader));
    if (help != NULL)
        diag_help(reader->run, d, "%s", help);
}

static xmlParserInputPtr load_nothing(const char *url, const char *id,
                                      xmlParserCtxtPtr context)
{
    (void)url, (void)id, (void)context;
    return NULL;
}

static void stay_silent(void *user, const char *format, ...)
{
    (void)user, (void)format;
}

static void set_handlers(xmlParserCtxtPtr context)
{
    memset(context->sax, 0, sizeof *context->sax);
    context->sax->initialized = XML_SAX2_MAGIC;
    context->sax->startElementNs = on_start;
    context->sax->endElementNs = on_end;
    context->sax->characters = on_text;
    context->sax->cdataBlock = on_text;
    context->sax->ignorableWhitespace = on_text;
    context->sax->internalSubset = on_doctype;
    context->sax->serror = on_error;
}

struct element *parse_elements(struct source_reader *all,
                               const struct opened *file)
{
    struct run *run = all->run;
    xmlInitParser();
    xmlCatalogSetDefaults(XML_CATA_ALLOW_NONE);
    xmlSetExternalEntityLoader(load_nothing);
    xmlSetGenericErrorFunc(NULL, stay_silent);
    struct reader *reader = ARENA_NEW(run->arena, struct reader);
    reader->run = run;
    reader->all = all;
    reader->file = file;
    reader->context = xmlNewParserCtxt();
    if (reader->context == NULL)
        end_out_of_memory(NULL);
    set_handlers(reader->context);
    reader->context->_private = reader;
    const char *bytes = run->source->bytes + file->part.start;
    if (strncmp(bytes, "\xEF\xBB\xBF", 3) == 0)
        reader->byte_order_mark = 3;
    /* Blanks behind the root mean nothing, and libxml2 takes megabytes of them
     * for an attack. */
    size_t length = file->part.length;
    while (length > reader->byte_order_mark &&
           strchr(" \t\r\n", bytes[length - 1]) != NULL)
        length--;
    xmlFreeDoc(xmlCtxtReadMemory(reader->context,
                                 bytes + reader->byte_order_mark,
                                 (int)(length - reader->byte_order_mark), NULL,
                                 NULL, XML_PARSE_NONET | XML_PARSE_BIG_LINES));
    xmlFreeParserCtxt(reader->context);
    return reader->stopped ? NULL : reader->root;
}
