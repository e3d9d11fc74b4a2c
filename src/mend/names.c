/* Other words: choices, names of fabrics and of units and blocks, keys, words
 * of a map. Read next: casts.c. */
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "mender.h"

/* Words are neither coarse nor fine, hence no number. */
static void offer_word(struct mender *mender, const struct element *element,
                       enum attribute_id id, const char *word)
{
    offer_value(mender, element, id, word, rational_unknown());
}

/* ---- choices ---- */

/* Each but that which is there, or which is meant where nothing is. */
static void offer_each(struct mender *mender, const struct element *element,
                       enum attribute_id id, const char *choices)
{
    while (*choices != '\0') {
        const size_t length = strcspn(choices, " ");
        const char *word = arena_copy(mender->arena, choices, length);
        const bool meant = written(element, id) == NULL &&
                           (strcmp(word, "0") == 0 || strcmp(word, "no") == 0 ||
                            strcmp(word, "up") == 0);
        if (!meant)
            offer_word(mender, element, id, word);
        choices += length;
        choices += strspn(choices, " ");
    }
}

/* Which cloth lies where only a picture tells, and sizes through the method:
 * never the steps. */
bool only_steps(struct mender *mender)
{
    if (mender->steps == STEPS_UNKNOWN) {
        mender->steps = STEPS_ALONE;
        for (size_t i = 0; i < mender->error_count; i++)
            if (!of_steps(mender->errors[i]->code))
                mender->steps = STEPS_NOT_ALONE;
    }
    return mender->steps == STEPS_ALONE;
}

/* Only what something else in the source tells of, too. */
static bool can_be_checked(struct mender *mender, enum attribute_id id)
{
    if (only_steps(mender))
        return id == ATTR_MIRROR || id == ATTR_TURN;
    return id == ATTR_UNITS || id == ATTR_TURN || id == ATTR_MIRROR ||
           id == ATTR_AT || id == ATTR_LINE || id == ATTR_PLAIN ||
           id == ATTR_METHOD || id == ATTR_QUARTER_METHOD ||
           id == ATTR_GOOSE_METHOD || id == ATTR_SQUARE_METHOD ||
           id == ATTR_POINTS_TO || id == ATTR_CORNERS || id == ATTR_PRESS ||
           id == ATTR_EQUAL || id == ATTR_OUTER;
}

/* What says something by being there may be too much. */
static void offer_omission(struct mender *mender, const struct element *element,
                           enum attribute_id id)
{
    const struct value *value = written(element, id);
    const char *bytes = mender->run->source->bytes;
    if (value == NULL)
        return;
    uint32_t start = value->span.start;
    while (start > element->name.end &&
           strchr(" \t\r\n", bytes[start - 1]) == NULL)
        start--; /* name, sign and quote, if they stand together */
    if (start == element->name.end || bytes[start] != attribute_name(id)[0])
        return;
    offer(mender,
          (struct candidate){.manner = MANNER_REMOVE,
                             .kind = KIND_OMISSION,
                             .element = element,
                             .attribute = id,
                             .number = rational_unknown(),
                             .place = value->span,
                             .edit = {{start - 1, value->span.end + 1}, ""}});
}

/* Attributes that take one of a few words. Written ones are changed; a turn, a
 * mirror and the way that geese point may also have been forgotten, so that
 * they are offered where they are not written. */
void offer_choices(struct mender *mender, const struct element *element)
{
    mender->rank = 1;
#define CHOICES_OF(id, name, type, choices) [id] = choices,
    static const char *const choices[ATTRIBUTE_COUNT] = {
        ATTRIBUTE_LIST(CHOICES_OF)};
#undef CHOICES_OF
    for (int id = 0; id < ATTRIBUTE_COUNT; id++)
        if (can_be_checked(mender, (enum attribute_id)id) &&
            written(element, (enum attribute_id)id) != NULL)
            offer_each(mender, element, (enum attribute_id)id, choices[id]);
    if (!only_steps(mender))
        offer_omission(mender, element, ATTR_PLAIN);
    if (element->kind == ELEMENT_USE && written(element, ATTR_TURN) == NULL)
        offer_each(mender, element, ATTR_TURN, choices[ATTR_TURN]);
    if ((element->kind == ELEMENT_USE || element->kind == ELEMENT_STEP) &&
        written(element, ATTR_MIRROR) == NULL)
        offer_each(mender, element, ATTR_MIRROR, choices[ATTR_MIRROR]);
    if (element->kind == ELEMENT_FLYING_GEESE &&
        written(element, ATTR_POINTS_TO) == NULL)
        offer_each(mender, element, ATTR_POINTS_TO, choices[ATTR_POINTS_TO]);
    if (element->kind == ELEMENT_SASHING &&
        written(element, ATTR_OUTER) == NULL && !only_steps(mender))
        offer_each(mender, element, ATTR_OUTER, choices[ATTR_OUTER]);
    mender->rank = 0;
}

/* ---- names ---- */

/* All attributes whose value is the id of a fabric; an exchange of two of them
 * is a likely slip. */
bool names_fabric(enum attribute_id id)
{
    return id == ATTR_FABRIC || id == ATTR_LEFT || id == ATTR_RIGHT ||
           id == ATTR_TOP || id == ATTR_BOTTOM || id == ATTR_GOOSE ||
           id == ATTR_SKY || id == ATTR_CENTER || id == ATTR_CORNER_FABRIC ||
           id == ATTR_STAR_POINTS || id == ATTR_SECOND || id == ATTR_SIDES ||
           id == ATTR_TOWARD;
}

/* A colorway lists its cloths in the order of the fabrics, if all others stand
 * where they do. */
static size_t place_of_cloth(const struct element *cloth)
{
    size_t place = 0;
    const struct element *parent = cloth->parent;
    while (place < parent->children.count &&
           parent->children.items[place] != cloth)
        place++;
    return place;
}

/* Any fabric of the pattern, and any role of the unit or block but for its
 * roles themselves. Of a cloth all are far but the one whose place in the list
 * it has. */
static void offer_fabrics(struct mender *mender, const struct element *element,
                          enum attribute_id id)
{
    const struct design *design = mender->sized->design;
    const bool cloth = element->kind == ELEMENT_CLOTH;
    const size_t count = element->kind == ELEMENT_ROLE ? design->fabrics.count
                                                       : fabric_numbers(design);
    for (size_t i = 0; i < count; i++) {
        const char *name = fabric_name(mender, element, i);
        mender->far = cloth && place_of_cloth(element) != i;
        if (name != NULL)
            offer_word(mender, element, id, name);
    }
    mender->far = false;
}

static void offer_definitions(struct mender *mender,
                              const struct element *element,
                              enum attribute_id id)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i];
        const bool fits = id == ATTR_UNIT    ? one->kind == DEFINE_UNIT
                          : id == ATTR_BLOCK ? one->kind == DEFINE_BLOCK
                                             : true;
        if (fits && one->id != NULL)
            offer_word(mender, element, id, one->id);
    }
    for (size_t i = 0; id == ATTR_MAKE && i < design->pieces.count; i++)
        if (design->pieces.items[i]->id != NULL)
            offer_word(mender, element, id, design->pieces.items[i]->id);
}

/* A name that something asks for and nothing has. */
static void offer_asked_names(struct mender *mender,
                              const struct element *element)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        if (d->code == DIAG_UNKNOWN_FABRIC || d->code == DIAG_UNKNOWN_PIECE ||
            d->code == DIAG_MISSING_CLOTH)
            offer_word(mender, element, ATTR_ID, span_text(mender, d->span));
    }
}

/* A key that a picture or a map asks for and nothing has. */
static void offer_asked_keys(struct mender *mender,
                             const struct element *element)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        if (d->code != DIAG_PICTURE_TOKEN && d->code != DIAG_MAP)
            continue;
        for (const char *c = span_text(mender, d->span); *c != '\0'; c++)
            if (isalnum((unsigned char)*c))
                offer_word(mender, element, ATTR_KEY,
                           arena_copy(mender->arena, c, 1));
    }
}

void offer_names(struct mender *mender, const struct element *element,
                 const struct value *value)
{
    mender->rank = 2;
    if (names_fabric(value->id) && !only_steps(mender))
        offer_fabrics(mender, element, value->id);
    else if (value->id == ATTR_UNIT || value->id == ATTR_BLOCK ||
             value->id == ATTR_MAKE ||
             (value->id == ATTR_OF && element->kind == ELEMENT_ASSEMBLY))
        offer_definitions(mender, element, value->id);
    else if (value->id == ATTR_ID)
        offer_asked_names(mender, element);
    else if (value->id == ATTR_KEY)
        offer_asked_keys(mender, element);
    mender->rank = 0;
}

/* ---- exchanges ---- */

struct naming {
    const struct element *element;
    struct span span;
};
typedef LIST(struct naming) naming_list;

static void collect(struct mender *mender, const struct element *element,
                    bool keys, naming_list *list)
{
    for (size_t i = 0; i < element->value_count; i++) {
        const struct value *value = &element->values[i];
        if (keys ? value->id == ATTR_KEY : names_fabric(value->id))
            *LIST_ADD(mender->arena, list) =
                (struct naming){element, value->span};
    }
    for (size_t i = 0; i < element->children.count; i++)
        collect(mender, element->children.items[i], keys, list);
}

/* Left for right, goose for sky: two fabrics within one tag. */
void offer_own_exchanges(struct mender *mender, const struct element *element)
{
    mender->rank = 3;
    for (size_t i = 0; i < element->value_count; i++)
        for (size_t k = i + 1; k < element->value_count; k++)
            if (names_fabric(element->values[i].id) &&
                names_fabric(element->values[k].id) && !only_steps(mender))
                offer_exchange(mender, element, element->values[i].span,
                               element->values[k].span);
    mender->rank = 0;
}

/* The nearer two are, the likelier they were exchanged. */
static void offer_pairs(struct mender *mender, const struct element *top,
                        bool keys, unsigned rank)
{
    enum { NAMES_MOST = 40 };
    naming_list list = {0};
    mender->rank = rank;
    collect(mender, top, keys, &list);
    const size_t count = list.count < NAMES_MOST ? list.count : NAMES_MOST;
    for (size_t by = 1; by < count; by++)
        for (size_t i = 0; i + by < count; i++)
            offer_exchange(mender, list.items[i].element, list.items[i].span,
                           list.items[i + by].span);
    mender->rank = 0;
}

/* Keys are the letters that maps are written with. */
void offer_key_exchanges(struct mender *mender, const struct element *top,
                         unsigned rank)
{
    offer_pairs(mender, top, true, rank);
}

/* The last that is tried, as there are many pairs: first keys, then names.
 * Steps name no fabrics, so nothing is offered where only steps are wrong. */
void offer_name_exchanges(struct mender *mender, const struct element *top)
{
    if (only_steps(mender))
        return;
    offer_pairs(mender, top, true, LAST_RANK - 1);
    offer_cast_exchanges(mender, top);
    offer_pairs(mender, top, false, LAST_RANK);
}

/* ---- maps ---- */

typedef LIST(struct span) span_list;

/* The words of a map in the order they are written, line by line. */
static span_list words_in(struct mender *mender, const struct element *element)
{
    span_list words = {0};
    uint32_t at = element->content.start;
    struct span word;
    size_t lines;
    while (next_word(mender->run->source, element->content, &at, &word, &lines))
        *LIST_ADD(mender->arena, &words) = word;
    return words;
}

/* One word of a map by another. The struct tells what `far` and `regular` mean;
 * they weigh only between changes that all make the pattern agree. */
static void offer_map_word(struct mender *mender, const struct element *map,
                           struct span span, const char *text, bool far,
                           bool regular)
{
    offer(mender, (struct candidate){.manner = MANNER_VALUE,
                                     .kind = KIND_WORD,
                                     .element = map,
                                     .number = rational_unknown(),
                                     .far = far,
                                     .regular = regular,
                                     .place = span,
                                     .edit = {span, text}});
}

/* Mirrored or not: `a` and `a.m`, `a.90` and `a.m90`. */
static const char *other_hand(struct mender *mender, const char *word)
{
    if (strncmp(word + 1, ".m", 2) == 0)
        return arena_printf(mender->arena, "%c%s%s", word[0],
                            word[3] == '\0' ? "" : ".", word + 3);
    return arena_printf(mender->arena, "%c.m%s", word[0],
                        word[1] == '.' ? word + 2 : word + 1);
}

/* One of: another letter, another hand, another turn. */
static bool differ_once(const char *a, const char *b)
{
    const char *words[2] = {a, b};
    bool mirror[2];
    const char *turn[2];
    for (int i = 0; i < 2; i++) {
        mirror[i] = strncmp(words[i] + 1, ".m", 2) == 0;
        turn[i] = words[i][1] == '\0' ? "" : words[i] + (mirror[i] ? 3 : 2);
    }
    return (a[0] != b[0]) + (mirror[0] != mirror[1]) +
               (strcmp(turn[0], turn[1]) != 0) ==
           1;
}

/* Each word once. */
static span_list kinds_of(struct mender *mender, const span_list *words)
{
    span_list kinds = {0};
    for (size_t i = 0; i < words->count; i++) {
        bool new = true;
        for (size_t k = 0; k < kinds.count; k++)
            new &= !same_text(mender, kinds.items[k], words->items[i]);
        if (new)
            *LIST_ADD(mender->arena, &kinds) = words->items[i];
    }
    return kinds;
}

/* Plain and mirrored ones, in turns. */
static bool take_turns(struct mender *mender, const char *const *words,
                       size_t count)
{
    enum { WORDS_LEAST = 4 };
    for (size_t i = 2; i < count; i++)
        if (strcmp(words[i], words[i - 2]) != 0)
            return false;
    return count >= WORDS_LEAST &&
           strcmp(other_hand(mender, words[0]), words[1]) == 0;
}

/* Two letters like the squares of a chessboard, whichever way their pieces lie.
 * A single row is one, too. */
static bool letters_take_turns(const char *const *words, size_t count,
                               size_t across)
{
    enum { WORDS_LEAST = 4 };
    if (count < WORDS_LEAST || across < 2 || words[0][0] == words[1][0])
        return false;
    for (size_t i = 2; i < count; i++)
        if (words[i][0] != words[(i / across + i % across) % 2][0])
            return false;
    return true;
}

/* The words with `text` in place of word `at`. A text of several words counts
 * as several, an empty one as none. ensures: how many they are. */
static size_t words_with(struct mender *mender, const span_list *words,
                         size_t at, const char *text, const char **changed)
{
    size_t count = 0;
    for (size_t i = 0; i < words->count; i++) {
        const char *word = i == at ? text : span_text(mender, words->items[i]);
        const size_t length = strcspn(word, " ");
        if (length > 0)
            changed[count++] = arena_copy(mender->arena, word, length);
        if (word[length] != '\0')
            changed[count++] = word + length + 1;
    }
    return count;
}

/* Do plain and mirrored words alternate, with `text` in place of word `at`? */
static bool alternate(struct mender *mender, const span_list *words, size_t at,
                      const char *text)
{
    const char **changed =
        ARENA_ARRAY(mender->arena, const char *, words->count + 2);
    return take_turns(mender, changed,
                      words_with(mender, words, at, text, changed));
}

/* The same, or two letters. */
static bool alternate_at_all(struct mender *mender, const struct element *map,
                             const span_list *words, size_t at,
                             const char *text)
{
    const char **changed =
        ARENA_ARRAY(mender->arena, const char *, words->count + 2);
    const size_t count = words_with(mender, words, at, text, changed);
    const struct value *across = written(map->parent, ATTR_ACROSS);
    return take_turns(mender, changed, count) ||
           (across != NULL && across->usable &&
            letters_take_turns(changed, count, (size_t)across->whole));
}

/* Plain and mirrored ones alternate, or did but for one word. */
static bool should_alternate(struct mender *mender, const span_list *words)
{
    for (size_t i = 0; i < words->count; i++) {
        const char *word = span_text(mender, words->items[i]);
        if (alternate(mender, words, i, word) ||
            alternate(mender, words, i, other_hand(mender, word)))
            return true;
    }
    return false;
}

/* Few trials for a usual mistake: the one word that keeps plain and mirrored
 * ones from alternating. */
void offer_odd_word(struct mender *mender, const struct element *map)
{
    const span_list words = words_in(mender, map);
    for (size_t i = 0; i < words.count; i++) {
        const char *hand =
            other_hand(mender, span_text(mender, words.items[i]));
        if (alternate(mender, &words, i, hand))
            offer_map_word(mender, map, words.items[i], hand, false, true);
    }
}

/* Each word of the map, mirrored or replaced by another that the map has. Words
 * that it has not are not tried, as letters, hands and turns make too many of
 * them. Where words alternate, only the other hand is likely. */
void offer_map_words(struct mender *mender, const struct element *map)
{
    mender->rank = 1;
    const span_list words = words_in(mender, map);
    const span_list kinds = kinds_of(mender, &words);
    const bool alternating = should_alternate(mender, &words);
    for (size_t i = 0; i < words.count; i++) {
        const char *word = span_text(mender, words.items[i]);
        const char *hand = other_hand(mender, word);
        const bool regular = alternate(mender, &words, i, hand);
        offer_map_word(mender, map, words.items[i], hand,
                       alternating && !regular, regular);
        for (size_t k = 0; k < kinds.count; k++)
            offer_map_word(
                mender, map, words.items[i], span_text(mender, kinds.items[k]),
                alternating ||
                    !differ_once(word, span_text(mender, kinds.items[k])),
                false);
    }
    mender->rank = 0;
}

/* An empty text removes the word, two words in its place insert one. */
static void offer_map_count(struct mender *mender, const struct element *map,
                            enum manner manner, struct span word,
                            const char *text, bool regular)
{
    offer(mender, (struct candidate){.manner = manner,
                                     .kind = KIND_WORD,
                                     .element = map,
                                     .number = rational_unknown(),
                                     .regular = regular,
                                     .place = word,
                                     .edit = {word, text}});
}

/* A word more beside word `at`. Beside its like it goes behind it, so that no
 * text is tried twice. */
static void offer_map_more(struct mender *mender, const struct element *map,
                           const span_list *words, size_t at, const char *more,
                           bool first)
{
    const struct span word = words->items[at];
    const char *text = span_text(mender, word);
    const char *behind = arena_printf(mender->arena, "%s %s", text, more);
    const char *before = arena_printf(mender->arena, "%s %s", more, text);
    const bool like_next =
        at + 1 < words->count &&
        strcmp(span_text(mender, words->items[at + 1]), more) == 0;
    if (first && strcmp(more, text) != 0)
        offer_map_count(mender, map, MANNER_INSERT, word, before,
                        alternate_at_all(mender, map, words, at, before));
    if (!like_next)
        offer_map_count(mender, map, MANNER_INSERT, word, behind,
                        alternate_at_all(mender, map, words, at, behind));
}

/* The words of the rows that were reported; a span before the map means all. */
static span_list words_of_rows(struct mender *mender, const struct element *map,
                               struct span rows)
{
    const span_list words = words_in(mender, map);
    span_list inside = {0};
    for (size_t i = 0; i < words.count; i++)
        if (rows.start < map->content.start ||
            (words.items[i].start >= rows.start &&
             words.items[i].end <= rows.end))
            *LIST_ADD(mender->arena, &inside) = words.items[i];
    return inside;
}

/* A row that has one word too many or too few. Of some that are alike, the last
 * is left out. */
void offer_map_counts(struct mender *mender, const struct element *map,
                      struct span rows)
{
    enum { KINDS_MOST = 8 };
    const span_list all = words_in(mender, map);
    const span_list words = words_of_rows(mender, map, rows);
    const span_list kinds = kinds_of(mender, &all);
    for (size_t i = 0; i < words.count; i++) {
        const struct span word = words.items[i];
        const bool repeats =
            i > 0 && same_text(mender, words.items[i - 1], word);
        if (i + 1 == words.count ||
            !same_text(mender, word, words.items[i + 1]))
            offer_map_count(mender, map,
                            repeats ? MANNER_REPEAT : MANNER_REMOVE, word, "",
                            alternate_at_all(mender, map, &words, i, ""));
        for (size_t k = 0; k < kinds.count && k < KINDS_MOST; k++)
            offer_map_more(mender, map, &words, i,
                           span_text(mender, kinds.items[k]), i == 0);
    }
}

/* One more or less of what a count repeats. */
void offer_drawing_counts(struct mender *mender, const struct element *element)
{
    struct span count;
    for (uint32_t at = element->content.start;
         next_count(mender->run->source, element->content, &at, &count);) {
        const long now = strtol(span_text(mender, count), NULL, 10);
        for (long by = -1; by <= 1; by += 2)
            if (now + by > 0)
                offer(mender,
                      (struct candidate){
                          .manner = MANNER_VALUE,
                          .kind = KIND_WORD,
                          .element = element,
                          .number = rational_whole(1),
                          .place = count,
                          .edit = {count, arena_printf(mender->arena, "%ld",
                                                       now + by)}});
    }
}

/* Few mirrored words in a map are likely slips, many are meant; four are tried.
 */
void offer_map_hands(struct mender *mender, const struct element *map)
{
    enum { MIRRORED_MOST = 4 };
    const span_list words = words_in(mender, map);
    size_t mirrored = 0;
    for (size_t i = 0; i < words.count; i++) {
        const char *word = span_text(mender, words.items[i]);
        if (strncmp(word + 1, ".m", 2) == 0 && mirrored++ < MIRRORED_MOST)
            offer_map_word(mender, map, words.items[i],
                           other_hand(mender, word), false, false);
    }
}
