/* Places of elements, attribute names and values. Sources are written at
 * random by a writer that counts lines and columns as it goes, and the reader
 * has to find every place again. */
#include "reading.h"

#include "buffer.h"

/* ---- a writer that knows where it is ---- */

struct noted {
    enum attribute_id id;
    struct place name, value, behind; /* of the value: behind it */
    const char *raw;                  /* between the quotes */
    const char *text;                 /* what it means */
};

struct noted_element {
    enum element_kind kind;
    struct place tag, name;
    LIST(struct noted) attributes;
};

struct writer {
    struct arena *arena;
    struct buffer out;
    struct place at;
    const char *line_end;
    struct unit_random random;
    LIST(struct noted_element) elements;
};

/* Columns of the few characters that the texts here use: the width that a
 * terminal gives them (Unicode Standard Annex 11: 雨 is wide, and U+0301
 * combines with the character before it). */
static size_t columns_of(const char *character)
{
    if (strncmp(character, "\u96e8", 3) == 0)
        return 2;
    return strncmp(character, "\u0301", 2) == 0 ? 0 : 1;
}

static void put(struct writer *w, const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '\n') {
            buffer_text(&w->out, w->line_end);
            w->at = (struct place){w->at.line + 1, 1};
            continue;
        }
        buffer_char(&w->out, *c);
        if (*c == '\t')
            w->at.column += 8 - (w->at.column - 1) % 8;
        else if (((unsigned char)*c & 0xC0) != 0x80)
            w->at.column += columns_of(c);
    }
}

static const char *one_of(struct writer *w, const char *const *texts,
                          size_t count)
{
    return texts[unit_below(&w->random, count)];
}

#define ONE_OF(w, texts) one_of(w, texts, UNIT_COUNT(texts))

static void put_blank(struct writer *w)
{
    static const char *const blanks[] = {" ",    "  ",     "\n",   "\t",
                                         " \t ", "\n    ", "\t\n "};
    put(w, ONE_OF(w, blanks));
}

/* What may stand between elements without being read. */
static void put_between(struct writer *w)
{
    static const char *const between[] = {"",
                                          "",
                                          "",
                                          " ",
                                          "\n",
                                          "\t",
                                          "\n\n  ",
                                          "<!-- a comment, <row/> \u96e8 -->",
                                          "<!--\n\n-->",
                                          "<?note a \"b\" <c>?>",
                                          "<?note\n?>",
                                          "<![CDATA[ \n]]>",
                                          "&#x20;"};
    put(w, ONE_OF(w, between));
}

struct sample_value {
    const char *raw, *text; /* `text` NULL where it is the same */
};

static struct sample_value random_value(struct writer *w, enum attribute_id id)
{
    static const struct sample_value texts[] = {
        {"Foam", NULL},
        {"Marsh caf\u00e9 \u96e8", NULL},
        {"e\u0301 and\tthen", "e\u0301 and then"},
        {"Salt &amp; Foam", "Salt & Foam"},
        {"a &lt; b > c / d = e", "a < b > c / d = e"},
        {"it's &quot;it&quot;", "it's \"it\""},
        {"two\nlines", "two lines"},
        {"&#x96E8;&#233;", "\u96e8\u00e9"},
        {"  blanks  ", NULL}};
    static const struct sample_value ids[] = {{"foam", NULL},
                                              {"\u96e8", NULL},
                                              {"f&#x6f;am", "foam"},
                                              {"a.b-c", NULL}};
    static const struct sample_value lengths[] = {{"2 1/2", NULL},
                                                  {"2\u00bd", NULL},
                                                  {"4", NULL},
                                                  {"2&#x20;1/2", "2 1/2"},
                                                  {"2\n1/2", "2 1/2"}};
    if (id == ATTR_NAME || id == ATTR_CODE)
        return texts[unit_below(&w->random, UNIT_COUNT(texts))];
    if (id == ATTR_WIDTH || id == ATTR_HEIGHT)
        return lengths[unit_below(&w->random, UNIT_COUNT(lengths))];
    if (id == ATTR_COLOR)
        return (struct sample_value){"#d9552b", NULL};
    return ids[unit_below(&w->random, UNIT_COUNT(ids))];
}

/* Attributes that are not the pattern's own shift nothing. */
static void put_sometimes(struct writer *w, const char *text)
{
    if (unit_below(&w->random, 5) == 0)
        put(w, text);
}

static void put_attribute(struct writer *w, struct noted_element *element,
                          enum attribute_id id)
{
    const struct sample_value value = random_value(w, id);
    struct noted *noted = LIST_ADD(w->arena, &element->attributes);
    const bool apostrophe = strchr(value.raw, '\'') != NULL;
    const char *quote =
        apostrophe || unit_below(&w->random, 2) == 0 ? "\"" : "'";
    if (element->attributes.count == 2)
        put_sometimes(w, "\nxml:lang = 'en'");
    put_blank(w);
    *noted =
        (struct noted){.id = id,
                       .name = w->at,
                       .raw = value.raw,
                       .text = value.text == NULL ? value.raw : value.text};
    put(w, attribute_name(id));
    put(w, unit_below(&w->random, 4) == 0 ? " =\n" : "=");
    put(w, quote);
    noted->value = w->at;
    put(w, value.raw);
    noted->behind = w->at;
    put(w, quote);
    if (element->attributes.count == 1)
        put_sometimes(w, " xmlns:x='urn:nothing'");
}

/* `attributes` end with ATTRIBUTE_COUNT; they come in a random order. */
static void put_start(struct writer *w, enum element_kind kind,
                      const enum attribute_id *attributes, const char *end)
{
    enum attribute_id order[8];
    size_t count = 0;
    for (; attributes[count] != ATTRIBUTE_COUNT; count++) {
        const size_t k = (size_t)unit_below(&w->random, count + 1);
        order[count] = order[k];
        order[k] = attributes[count];
    }
    put_between(w);
    struct noted_element *element = LIST_ADD(w->arena, &w->elements);
    *element = (struct noted_element){.kind = kind, .tag = w->at};
    put(w, "<");
    element->name = w->at;
    put(w, element_name(kind));
    for (size_t i = 0; i < count; i++)
        put_attribute(w, element, order[i]);
    put_sometimes(w, " xml:space=\"default\"");
    if (unit_below(&w->random, 3) == 0)
        put_blank(w);
    put(w, end);
}

static void put_end(struct writer *w, enum element_kind kind)
{
    put_between(w);
    put(w, "</");
    put(w, element_name(kind));
    put(w, unit_below(&w->random, 4) == 0 ? " \n>" : ">");
}

static const enum attribute_id no_attributes[] = {ATTRIBUTE_COUNT};
static const enum attribute_id patch_attributes[] = {
    ATTR_FABRIC, ATTR_WIDTH, ATTR_HEIGHT, ATTR_ID, ATTRIBUTE_COUNT};
static const enum attribute_id cloth_attributes[] = {
    ATTR_FABRIC, ATTR_COLOR, ATTR_NAME, ATTR_CODE, ATTRIBUTE_COUNT};
static const enum attribute_id id_attributes[] = {ATTR_ID, ATTR_NAME,
                                                  ATTRIBUTE_COUNT};

static void put_row(struct writer *w, size_t depth)
{
    put_start(w, ELEMENT_ROW, no_attributes, ">");
    for (int64_t i = unit_below(&w->random, 4); i >= 0; i--) {
        if (depth > 0 && unit_below(&w->random, 2) == 0)
            put_row(w, depth - 1);
        else
            put_start(w, ELEMENT_PATCH, patch_attributes, "/>");
    }
    put_end(w, ELEMENT_ROW);
}

static void put_pattern(struct writer *w, size_t cloths)
{
    struct noted_element *root = LIST_ADD(w->arena, &w->elements);
    *root = (struct noted_element){.kind = ELEMENT_PATTERN, .tag = w->at};
    put(w, "<");
    root->name = w->at;
    put(w, "pattern id='tide' title=\"Tide \u96e8\"\n"
           "  xmlns=\"urn:seamwright:pattern:1\">");
    put_start(w, ELEMENT_FABRICS, no_attributes, ">");
    put_start(w, ELEMENT_FABRIC, id_attributes, "/>");
    put_end(w, ELEMENT_FABRICS);
    put_start(w, ELEMENT_COLORWAY, id_attributes, ">");
    for (size_t i = 0; i < cloths; i++)
        put_start(w, ELEMENT_CLOTH, cloth_attributes, "></cloth\n>");
    put_end(w, ELEMENT_COLORWAY);
    put_start(w, ELEMENT_QUILT, id_attributes, ">");
    put_row(w, 4);
    put_end(w, ELEMENT_QUILT);
    put_end(w, ELEMENT_PATTERN);
}

static struct writer writer_for(void **state, const char *line_end,
                                uint64_t seed)
{
    struct writer w = {.arena = *state,
                       .out = buffer_in(*state),
                       .at = {1, 1},
                       .line_end = line_end,
                       .random = {seed}};
    return w;
}

/* ---- comparing ---- */

static void assert_place(struct reading reading, uint32_t offset,
                         struct place wanted, const char *what)
{
    const struct place found = source_place(reading.run->source, offset);
    if (found.line != wanted.line || found.column != wanted.column)
        fail_msg("%s at %zu:%zu, not %zu:%zu", what, found.line, found.column,
                 wanted.line, wanted.column);
}

static void assert_attribute(struct reading reading, const struct value *value,
                             const struct noted *noted)
{
    assert_non_null(value);
    assert_true(value->usable);
    assert_place(reading, value->name.start, noted->name, "attribute");
    assert_int_equal(value->name.end - value->name.start,
                     strlen(attribute_name(noted->id)));
    assert_place(reading, value->span.start, noted->value, noted->raw);
    assert_place(reading, value->span.end, noted->behind, noted->raw);
    assert_string_equal(value->text, noted->text);
}

/* Goes over the tree in the order of the source. */
static void assert_elements(struct reading reading,
                            const struct element *element,
                            const struct writer *w, size_t *index)
{
    assert_true(*index < w->elements.count);
    const struct noted_element *noted = &w->elements.items[(*index)++];
    assert_int_equal(element->kind, noted->kind);
    assert_place(reading, element->tag.start, noted->tag, "tag");
    assert_place(reading, element->name.start, noted->name, "name");
    assert_int_equal(element->name.end - element->name.start,
                     strlen(element_name(noted->kind)));
    assert_int_equal(reading.run->source->bytes[element->tag.end - 1], '>');
    for (size_t i = 0; i < noted->attributes.count; i++) {
        const struct noted *attribute = &noted->attributes.items[i];
        assert_attribute(reading, written_value(element, attribute->id),
                         attribute);
    }
    for (size_t i = 0; i < element->children.count; i++)
        assert_elements(reading, element->children.items[i], w, index);
}

static void assert_all_found(const struct writer *w)
{
    const struct reading reading =
        read_bytes(w->arena, w->out.bytes, w->out.length);
    assert_sound(reading);
    size_t index = 0;
    assert_elements(reading, reading.pattern->root, w, &index);
    assert_int_equal(index, w->elements.count);
}

static void check_line_end(void **state, const char *line_end)
{
    for (uint64_t seed = 1; seed <= 200; seed++) {
        struct arena *arena = arena_create();
        void *own = arena;
        struct writer w = writer_for(&own, line_end, seed);
        put_pattern(&w, 5);
        assert_all_found(&w);
        arena_destroy(arena);
    }
    (void)state;
}

static void test_places_with_lf(void **state)
{
    check_line_end(state, "\n");
}

static void test_places_with_crlf(void **state)
{
    check_line_end(state, "\r\n");
}

static void test_places_with_lone_cr(void **state)
{
    check_line_end(state, "\r");
}

/* A byte order mark is no character of the first line. */
static void test_places_behind_byte_order_mark(void **state)
{
    struct writer w = writer_for(state, "\n", 7);
    buffer_text(&w.out, "\xEF\xBB\xBF");
    put(&w, "<?xml version='1.0' encoding='utf-8'?>");
    put_pattern(&w, 5);
    assert_all_found(&w);
}

/* libxml2 alone counts lines in 16 bits. */
static void test_places_past_line_65535(void **state)
{
    struct writer w = writer_for(state, "\n", 11);
    for (int i = 0; i < 70000; i++)
        put(&w, "\n");
    put_pattern(&w, 2000);
    assert_true(w.at.line > 72000);
    assert_all_found(&w);
}

/* The parser lets go of what it has read of a large source. */
static void test_places_past_a_megabyte(void **state)
{
    struct writer w = writer_for(state, "\r\n", 13);
    put_pattern(&w, 15000);
    assert_true(w.out.length > 1000000);
    assert_all_found(&w);
}

/* ---- content ---- */

#define HEAD \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\">\n"
#define TAIL                                                                  \
    "<fabrics><fabric id=\"f\"/></fabrics>\n"                                 \
    "<colorway id=\"c\"><cloth fabric=\"f\" color=\"#000000\"/></colorway>\n" \
    "<quilt id=\"q\"><patch fabric=\"f\"/></quilt></pattern>\n"

static void test_text_is_folded(void **state)
{
    const struct reading reading = read_text(
        state, HEAD "<about><summary>  Waves\r\n <!-- not this -->&amp; "
                    "<![CDATA[<foam>]]>\t&#x96E8; </summary></about>\n" TAIL);
    assert_sound(reading);
    const struct element *about = reading.pattern->root->children.items[0];
    const struct element *summary = about->children.items[0];
    assert_string_equal(summary->text, "Waves & <foam> \u96e8");
    const char *content = reading.run->source->bytes + summary->content.start;
    assert_memory_equal(content, "  Waves", 7);
    assert_memory_equal(reading.run->source->bytes + summary->content.end,
                        "</summary>", 10);
}

/* Stray text in a row that stands in a quilt, at line 2. */
static void assert_stray(void **state, const char *row, size_t column)
{
    const char *text =
        arena_printf(*state,
                     HEAD "%s\n<fabrics><fabric id=\"f\"/></fabrics>\n"
                          "<colorway id=\"c\"><cloth fabric=\"f\" "
                          "color=\"#000000\"/></colorway></pattern>\n",
                     row);
    assert_one_error(read_text(state, text), DIAG_STRAY_TEXT, 2, column);
}

static void test_stray_text_is_found_in_its_place(void **state)
{
    assert_stray(
        state, "<quilt id=\"q\"><row> left <patch fabric=\"f\"/></row></quilt>",
        21);
    assert_stray(
        state, "<quilt id=\"q\"><row><patch fabric=\"f\"/> last</row></quilt>",
        40);
    assert_stray(state,
                 "<quilt id=\"q\"><row><!-- left --> left <patch fabric=\"f\"/>"
                 "</row></quilt>",
                 34);
    assert_stray(state,
                 "<quilt id=\"q\"><row><row><patch fabric=\"f\"/></row> row"
                 "</row></quilt>",
                 51);
}

/* A mistake inside a value is shown at its own bytes, where the value was
 * written without references. */
static void test_mistake_inside_a_value(void **state)
{
    const struct reading plain = read_text(
        state,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\"\n"
        "  seam=\"1/4 inch\">\n" TAIL);
    assert_one_error(plain, DIAG_LENGTH, 2, 13);
    const struct reading referred = read_text(
        state,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\"\n"
        "  seam=\"1&#x2F;4 inch\">\n" TAIL);
    assert_one_error(referred, DIAG_LENGTH, 2, 9);
}

/* Lengths without a unit are in the pattern's, wherever `units` stands. */
static void test_units_are_known_before_lengths(void **state)
{
    const struct reading reading = read_text(
        state, "<pattern xmlns=\"urn:seamwright:pattern:1\" seam=\"10mm\" "
               "units=\"cm\" id=\"t\" title=\"T\">\n" TAIL);
    assert_non_null(reading.pattern);
    assert_int_equal(reading.pattern->units, UNIT_CM);
    assert_true(rational_equal(reading.pattern->seam, rational_whole(1)));
}

/* Only elements of the pattern's namespace are the pattern's. */
static void test_foreign_elements_are_not_ours(void **state)
{
    const struct reading reading =
        read_text(state, HEAD "<x:about xmlns:x=\"urn:elsewhere\"/>\n" TAIL);
    assert_one_error(reading, DIAG_UNKNOWN_ELEMENT, 2, 2);
    const struct reading attribute =
        read_text(state, HEAD
                  "<about xmlns:x=\"urn:elsewhere\" x:date=\"soon\"/>\n" TAIL);
    assert_one_error(attribute, DIAG_UNKNOWN_ATTRIBUTE, 2, 32);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_places_with_lf),
        cmocka_unit_test(test_places_with_crlf),
        cmocka_unit_test(test_places_with_lone_cr),
        cmocka_unit_test(test_places_behind_byte_order_mark),
        cmocka_unit_test(test_places_past_line_65535),
        cmocka_unit_test(test_places_past_a_megabyte),
        cmocka_unit_test(test_text_is_folded),
        cmocka_unit_test(test_stray_text_is_found_in_its_place),
        cmocka_unit_test(test_mistake_inside_a_value),
        cmocka_unit_test(test_units_are_known_before_lengths),
        cmocka_unit_test(test_foreign_elements_are_not_ours),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
