/* Booklets of another language: no English sentence stays in them, numbers have
 * the language's sign, and the PDF says which language it is. What the source
 * says itself is not translated, so it is taken out before that. */
#include "pages.h"
#include "words.h"

/* Words that English sentences can hardly do without and that are no German
 * ones. */
static const char *const english_words[] = {
    "the",     "and",     "of",      "with",    "from",  "each",
    "cut",     "sew",     "lay",     "it",      "is",    "press",
    "for",     "strip",   "strips",  "seam",    "seams", "wide",
    "high",    "page",    "wrong",   "right",   "row",   "border",
    "binding", "backing", "batting", "selvage", "fold"};

struct pieces {
    struct arena *arena;
    LIST(const char *) list;
};

static void add_piece(struct pieces *pieces, const char *text)
{
    if (text != NULL && text[0] != '\0')
        *LIST_ADD(pieces->arena, &pieces->list) = text;
}

/* What the designer wrote, with its references filled in German. */
static void add_words(struct pieces *pieces, const struct visit *visit,
                      const struct words *words, const struct heap *heap)
{
    struct wording wording = visit->wording;
    wording.phrases = phrases_load(pieces->arena, "de");
    if (words == NULL)
        return;
    const char *text =
        word_words(&wording, visit->plan->colorway, words, heap);
    add_piece(pieces, text);
    /* What stands around its numbers: a note may tell those of two sizes. */
    const char *from = text;
    for (const char *at = text; *at != '\0';) {
        const size_t word = strcspn(at, " ");
        if (strcspn(at, "0123456789") < word) {
            add_piece(pieces, arena_printf(pieces->arena, "%.*s",
                                           (int)(at - from), from));
            from = at + word;
        }
        at += word + strspn(at + word, " ");
    }
    add_piece(pieces, from);
}

/* Names and texts that are the source's. */
static struct pieces own_texts(const struct visit *visit)
{
    const struct design *design = visit->sample->design;
    struct pieces own = {.arena = visit->all->arena};
    add_words(&own, visit, design->summary, NULL);
    add_piece(&own, design->title);
    add_piece(&own, design->designer);
    add_piece(&own, design->publisher);
    add_piece(&own, visit->plan->quilt->definition->name);
    for (size_t i = 0; i < design->colorways.count; i++)
        add_piece(&own, design->colorways.items[i].name);
    for (size_t i = 0; i < design->definitions.count; i++)
        add_piece(&own, design->definitions.items[i]->name);
    for (size_t i = 0; i < design->fabrics.count; i++) {
        add_piece(&own, design->fabrics.items[i].name);
        add_piece(&own, visit->plan->colorway->bolts[i].name);
    }
    for (size_t i = 0; i < visit->plan->quilt->heaps.count; i++) {
        const struct heap *heap = &visit->plan->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->says.count; k++)
            add_words(&own, visit, heap->says.items[k], heap);
    }
    return own;
}

/* The longest of them that begins here, or 0. */
static size_t own_length(const struct pieces *own, const char *at)
{
    size_t longest = 0;
    for (size_t i = 0; i < own->list.count; i++) {
        const size_t length = strlen(own->list.items[i]);
        if (length > longest && strncmp(at, own->list.items[i], length) == 0)
            longest = length;
    }
    return longest;
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           ((unsigned char)c & 0x80) != 0;
}

static bool is_english(const char *word, size_t length)
{
    for (size_t i = 0; i < UNIT_COUNT(english_words); i++) {
        const char *english = english_words[i];
        if (strlen(english) == length &&
            (word[0] == english[0] || word[0] == english[0] - 'a' + 'A') &&
            strncmp(word + 1, english + 1, length - 1) == 0)
            return true;
    }
    return false;
}

/* The first English word of a text, or NULL. */
static const char *english_in(const struct pieces *own, const char *text)
{
    for (const char *at = text; *at != '\0';) {
        const size_t skip = own_length(own, at);
        size_t length = 0;
        while (is_letter(at[length]))
            length++;
        if (skip == 0 && length > 0 && is_english(at, length))
            return at;
        at += skip > 0 ? skip : length > 0 ? length : 1;
    }
    return NULL;
}

/* How many texts of a booklet have an English word; the first is told. */
static size_t count_english(struct visit *visit)
{
    const struct pieces own = own_texts(visit);
    size_t count = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const char *text = item->kind == ITEM_TEXT ? item->as.text.text
                               : item->kind == ITEM_TAG_BEGIN
                                   ? item->as.tag.alternative
                                   : "";
            count += english_in(&own, text == NULL ? "" : text) != NULL;
        }
    return count;
}

static void look_for_english(struct visit *visit)
{
    const struct pieces own = own_texts(visit);
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const char *text =
                item->kind == ITEM_TEXT ? item->as.text.text : "";
            if (english_in(&own, text) != NULL)
                breach(visit->breaches, "page %zu: \"%s\"", p + 1, text);
        }
    if (count_english(visit) > 0)
        breach(visit->breaches, "%zu texts", count_english(visit));
    for (size_t i = 0; i < visit->book->outline.count; i++)
        if (english_in(&own, visit->book->outline.items[i].title) != NULL)
            breach(visit->breaches, "bookmark \"%s\"",
                   visit->book->outline.items[i].title);
    if (strcmp(visit->book->language, "de") != 0)
        breach(visit->breaches, "the language is %s", visit->book->language);
}

static void test_no_english_is_left(void **state)
{
    visit_booklets(state, look_for_english);
}

/* The look finds what it looks for: an English booklet is full of it. */
static void test_english_would_be_found(void **state)
{
    struct booklets *all = *state;
    struct booklets english = {.arena = all->arena,
                               .typeset = all->typeset,
                               .phrases = phrases_load(all->arena, "en")};
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        struct sample *sample = ARENA_NEW(all->arena, struct sample);
        *sample = sample_file(SAMPLES[s]);
        add_visits(&english, sample);
    }
    for (size_t i = 0; i < english.visits.count; i++)
        assert_true(count_english(&english.visits.items[i]) > 100);
}

/* ---- branches that no sample takes ---- */

/* Centimetres, shrinkage, a one-way print, corners of two cloths, borders whole
 * and joined, and sheets. */
static const char shore[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"shore\" "
    "title=\"Shore\" units=\"cm\" language=\"de\"><fabrics>"
    "<fabric id=\"kelp\" key=\"k\" name=\"Tang\"/>"
    "<fabric id=\"sand\" key=\"s\" name=\"Sand\" print=\"one-way\"/>"
    "<fabric id=\"foam\" key=\"f\" name=\"Gischt\"/></fabrics>"
    "<colorway id=\"ebb\" name=\"Ebbe\">"
    "<cloth fabric=\"kelp\" name=\"Moos\" color=\"#224433\" width=\"106\" "
    "selvage=\"1\" shrinkage=\"4.5\"/>"
    "<cloth fabric=\"sand\" name=\"Dune\" color=\"#ccbb88\" width=\"110\"/>"
    "<cloth fabric=\"foam\" name=\"Kreide\" color=\"#f4f4f0\" "
    "width=\"110\" sold=\"fat-quarter\"/></colorway>"
    "<unit id=\"reef\" name=\"Riff\"><patch fabric=\"kelp\" width=\"10\" "
    "height=\"10\"><corner at=\"top-left\" fabric=\"sand\" size=\"5\"/>"
    "<corner at=\"bottom-right\" fabric=\"foam\" size=\"5\"/></patch></unit>"
    "<block id=\"cove\" name=\"Bucht\"><column><row press=\"open\">"
    "<use unit=\"reef\"/><patch fabric=\"foam\" width=\"10\" height=\"10\">"
    "<corner at=\"top-right\" fabric=\"kelp\" size=\"2.5\"/>"
    "<corner at=\"bottom-left\" fabric=\"kelp\" size=\"2.5\"/></patch>"
    "<half-square line=\"falling\" left=\"sand\" right=\"foam\" "
    "method=\"two\" size=\"10\"/></row>"
    "<grid across=\"3\" down=\"2\" press=\"left\">"
    "<patch fabric=\"sand\" width=\"10\" height=\"10\"/></grid>"
    "<diagonal width=\"30\" line=\"falling\">"
    "<patch fabric=\"kelp\" height=\"35\"/>"
    "<patch fabric=\"sand\" height=\"35\"/></diagonal></column></block>"
    "<quilt id=\"mat\" name=\"Matte\"><grid across=\"2\" down=\"2\">"
    "<use block=\"cove\"/></grid>"
    "<border fabric=\"kelp\" width=\"5\" grain=\"lengthwise\"/>"
    "<border fabric=\"sand\" width=\"5\"/>"
    "<border fabric=\"kelp\" width=\"5\"/><backing fabric=\"kelp\"/>"
    "<batting max-gap=\"10\"/><binding fabric=\"kelp\"/></quilt></pattern>";

static bool book_has(const struct book *book, const char *words)
{
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++) {
            const struct item *item = &book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT &&
                strstr(item->as.text.text, words) != NULL)
                return true;
        }
    return false;
}

static void test_metric_pages_have_a_comma(void **state)
{
    struct booklets *all = *state;
    struct booklets own = {
        .arena = all->arena, .typeset = all->typeset, .phrases = all->phrases};
    const struct sample sample = sample_text(all->arena, shore);
    assert_string_equal(sample.design->pattern->language, "de");
    add_visits(&own, &sample);
    void *owner = &own;
    visit_booklets(&owner, look_for_english);
    const struct book *book = own.visits.items[0].book;
    /* The backing's seam, the allowance, the shrinkage. */
    assert_true(book_has(book, "1,25\u00a0cm") || book_has(book, "1,25 cm"));
    assert_true(book_has(book, "0,75\u00a0cm") || book_has(book, "0,75 cm"));
    assert_true(book_has(book, "4,5 %"));
    assert_false(book_has(book, "0.75") || book_has(book, "1.25"));
}

/* ---- the same languages everywhere ---- */

/* What a pattern may ask for is what there are wordings for. */
static void test_a_pattern_may_ask_for_each_language(void **state)
{
    (void)state;
#define CHOICES(id, name, type, words) [id] = words,
    static const char *const all[] = {ATTRIBUTE_LIST(CHOICES)};
#undef CHOICES
    const char *choices = all[ATTR_LANGUAGE];
    size_t length = 0;
    for (const char *const *language = phrase_languages(); *language != NULL;
         language++) {
        const size_t one = strlen(*language);
        assert_int_equal(strncmp(choices + length, *language, one), 0);
        length += one;
        assert_true(choices[length] == (language[1] == NULL ? '\0' : ' '));
        length++;
    }
}

static int german_setup(void **state)
{
    return booklets_in(state, "de");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_english_is_left),
        cmocka_unit_test(test_english_would_be_found),
        cmocka_unit_test(test_metric_pages_have_a_comma),
        cmocka_unit_test(test_a_pattern_may_ask_for_each_language),
    };
    return cmocka_run_group_tests(tests, german_setup, booklets_teardown);
}
