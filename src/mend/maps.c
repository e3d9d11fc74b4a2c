/* Words of a map: another word in a place, one too many or too few. Where plain
 * and mirrored words take turns, or two letters do, the word that breaks the
 * order is the likely one. Maps have up to tens of thousands of words, so their
 * order is found once, and each change asks only at its place. Read next:
 * casts.c. */
#include <stdlib.h>
#include <string.h>

#include "mender.h"

typedef LIST(struct span) span_list;

/* The words of a map, or of some of its rows, and where their order breaks. */
struct map_words {
    const struct element *map;
    span_list spans;
    const char **texts;
    size_t count;
    size_t across; /* of the grid; 0 where it is not told */
    /* The first and the last word that is not the one two before it; the count
     * and 0 where each is. */
    size_t first_break, last_break;
    /* The same of words whose letter is not that of its square on a chessboard;
     * the last where all words lie one place earlier, as they are, or later. */
    size_t first_odd, last_odd[3];
};

/* No word, one or two in place of a word. */
struct word_change {
    size_t at, count;
    const char *words[2];
};

/* The letter that square `i` of a chessboard has, whose first two words are
 * given. */
static char square_letter(const struct map_words *words,
                          const char *const first[2], size_t i)
{
    return first[(i / words->across + i % words->across) % 2][0];
}

static void find_order(struct map_words *words)
{
    words->first_break = words->first_odd = words->count;
    for (size_t i = words->count; i-- > 2;) {
        if (strcmp(words->texts[i], words->texts[i - 2]) == 0)
            continue;
        words->first_break = i;
        if (words->last_break == 0)
            words->last_break = i;
    }
    for (size_t i = words->count; words->across > 1 && i-- > 2;) {
        if (words->texts[i][0] != square_letter(words, words->texts, i))
            words->first_odd = i;
        for (size_t shift = 0; shift < 3; shift++)
            if (words->last_odd[shift] == 0 &&
                words->texts[i][0] !=
                    square_letter(words, words->texts, i + shift - 1))
                words->last_odd[shift] = i;
    }
}

/* In the order they are written, line by line: those within `rows`, or all
 * where that lies before the map. */
static struct map_words words_of_rows(struct mender *mender,
                                      const struct element *map,
                                      struct span rows)
{
    const struct value *across = written(map->parent, ATTR_ACROSS);
    struct map_words words = {.map = map};
    uint32_t at = map->content.start;
    struct span word;
    size_t lines;
    while (next_word(mender->run->source, map->content, &at, &word, &lines))
        if (rows.start < map->content.start ||
            (word.start >= rows.start && word.end <= rows.end))
            *LIST_ADD(mender->arena, &words.spans) = word;
    words.count = words.spans.count;
    words.texts = ARENA_ARRAY(mender->arena, const char *, words.count + 1);
    for (size_t i = 0; i < words.count; i++)
        words.texts[i] = span_text(mender, words.spans.items[i]);
    if (across != NULL && across->usable && across->whole > 0)
        words.across = (size_t)across->whole;
    find_order(&words);
    return words;
}

static struct map_words words_of(struct mender *mender,
                                 const struct element *map)
{
    return words_of_rows(mender, map, (struct span){0, 0});
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
static span_list kinds_of(struct mender *mender, const struct map_words *words)
{
    span_list kinds = {0};
    for (size_t i = 0; i < words->count; i++) {
        bool new = true;
        for (size_t k = 0; k < kinds.count; k++)
            new &= !same_text(mender, kinds.items[k], words->spans.items[i]);
        if (new)
            *LIST_ADD(mender->arena, &kinds) = words->spans.items[i];
    }
    return kinds;
}

/* ---- words that take turns ---- */

/* `text` in place of word `at`: no word, one, or two with a blank between. */
static struct word_change change_of(struct mender *mender, size_t at,
                                    const char *text)
{
    const size_t length = strcspn(text, " ");
    struct word_change change = {.at = at};
    if (length > 0)
        change.words[change.count++] = arena_copy(mender->arena, text, length);
    if (text[length] != '\0')
        change.words[change.count++] = text + length + 1;
    return change;
}

/* Word `i` once the change is made. */
static const char *word_after(const struct map_words *words,
                              const struct word_change *change, size_t i)
{
    if (i < change->at)
        return words->texts[i];
    if (i < change->at + change->count)
        return change->words[i - change->at];
    return words->texts[i + 1 - change->count];
}

enum { WORDS_LEAST = 4 };

/* Plain and mirrored ones, in turns. Words before the change and behind it are
 * as they were, so only those that it lies between are looked at. */
static bool take_turns(struct mender *mender, const struct map_words *words,
                       const struct word_change *change)
{
    const size_t count = words->count + change->count - 1;
    if (count < WORDS_LEAST || words->first_break < change->at ||
        words->last_break > change->at + 2)
        return false;
    for (size_t i = change->at > 2 ? change->at : 2;
         i < count && i < change->at + change->count + 2; i++)
        if (strcmp(word_after(words, change, i),
                   word_after(words, change, i - 2)) != 0)
            return false;
    return strcmp(other_hand(mender, word_after(words, change, 0)),
                  word_after(words, change, 1)) == 0;
}

/* Two letters like the squares of a chessboard, whichever way their pieces lie.
 * A single row is one, too. A change of the first two words is another board,
 * of which all is looked at. */
static bool letters_take_turns(const struct map_words *words,
                               const struct word_change *change)
{
    const size_t count = words->count + change->count - 1;
    if (count < WORDS_LEAST || words->across < 2)
        return false;
    const char *const first[2] = {word_after(words, change, 0),
                                  word_after(words, change, 1)};
    const bool anew = change->at < 2;
    if (first[0][0] == first[1][0] ||
        (!anew && (words->first_odd < change->at ||
                   words->last_odd[change->count] > change->at)))
        return false;
    for (size_t i = anew ? 2 : change->at;
         i < (anew ? count : change->at + change->count); i++)
        if (word_after(words, change, i)[0] != square_letter(words, first, i))
            return false;
    return true;
}

/* Do plain and mirrored words alternate, with `text` in place of word `at`? */
static bool alternate(struct mender *mender, const struct map_words *words,
                      size_t at, const char *text)
{
    const struct word_change change = change_of(mender, at, text);
    return take_turns(mender, words, &change);
}

/* The same, or two letters. */
static bool alternate_at_all(struct mender *mender,
                             const struct map_words *words, size_t at,
                             const char *text)
{
    const struct word_change change = change_of(mender, at, text);
    return take_turns(mender, words, &change) ||
           letters_take_turns(words, &change);
}

/* Plain and mirrored ones alternate, or did but for one word. */
static bool should_alternate(struct mender *mender,
                             const struct map_words *words)
{
    for (size_t i = 0; i < words->count; i++)
        if (alternate(mender, words, i, words->texts[i]) ||
            alternate(mender, words, i, other_hand(mender, words->texts[i])))
            return true;
    return false;
}

/* ---- what is offered ---- */

/* Few trials for a usual mistake: the one word that keeps plain and mirrored
 * ones from alternating. */
void offer_odd_word(struct mender *mender, const struct element *map)
{
    const struct map_words words = words_of(mender, map);
    for (size_t i = 0; i < words.count; i++) {
        const char *hand = other_hand(mender, words.texts[i]);
        if (alternate(mender, &words, i, hand))
            offer_map_word(mender, map, words.spans.items[i], hand, false,
                           true);
    }
}

/* One place of a map: its other hand, and each other word that the map has. */
static void offer_place(struct mender *mender, const struct map_words *words,
                        size_t at, const span_list *kinds, bool alternating)
{
    const char *word = words->texts[at];
    const struct span span = words->spans.items[at];
    const char *hand = other_hand(mender, word);
    const bool regular = alternate(mender, words, at, hand);
    offer_map_word(mender, words->map, span, hand, alternating && !regular,
                   regular);
    for (size_t k = 0; k < kinds->count; k++) {
        const char *kind = span_text(mender, kinds->items[k]);
        offer_map_word(mender, words->map, span, kind,
                       alternating || !differ_once(word, kind), false);
    }
}

/* Each word of the map, mirrored or replaced by another that the map has. Words
 * that it has not are not tried, as letters, hands and turns make too many of
 * them. Where words alternate, only the other hand is likely. The places that
 * the picture shows otherwise come first, as large maps are not tried to the
 * end. */
void offer_map_words(struct mender *mender, const struct element *map)
{
    const struct map_words words = words_of(mender, map);
    const span_list kinds = kinds_of(mender, &words);
    const bool alternating = should_alternate(mender, &words);
    const bool *drawn = places_differing(mender, map, words.count);
    for (unsigned rank = 0; rank < 2; rank++) {
        mender->rank = rank;
        for (size_t i = 0; i < words.count && !has_plenty(mender); i++)
            if (drawn[i] == (rank == 0))
                offer_place(mender, &words, i, &kinds, alternating);
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
static void offer_map_more(struct mender *mender, const struct map_words *words,
                           size_t at, const char *more, bool first)
{
    const struct span word = words->spans.items[at];
    const char *text = words->texts[at];
    const char *behind = arena_printf(mender->arena, "%s %s", text, more);
    const char *before = arena_printf(mender->arena, "%s %s", more, text);
    const bool like_next =
        at + 1 < words->count && strcmp(words->texts[at + 1], more) == 0;
    if (first && strcmp(more, text) != 0)
        offer_map_count(mender, words->map, MANNER_INSERT, word, before,
                        alternate_at_all(mender, words, at, before));
    if (!like_next)
        offer_map_count(mender, words->map, MANNER_INSERT, word, behind,
                        alternate_at_all(mender, words, at, behind));
}

/* A row that has one word too many or too few. Of some that are alike, the last
 * is left out. */
void offer_map_counts(struct mender *mender, const struct element *map,
                      struct span rows)
{
    enum { KINDS_MOST = 8 };
    const struct map_words all = words_of(mender, map);
    const struct map_words words = words_of_rows(mender, map, rows);
    const span_list kinds = kinds_of(mender, &all);
    for (size_t i = 0; i < words.count && !has_plenty(mender); i++) {
        const char *word = words.texts[i];
        const bool repeats = i > 0 && strcmp(words.texts[i - 1], word) == 0;
        if (i + 1 == words.count || strcmp(word, words.texts[i + 1]) != 0)
            offer_map_count(mender, map,
                            repeats ? MANNER_REPEAT : MANNER_REMOVE,
                            words.spans.items[i], "",
                            alternate_at_all(mender, &words, i, ""));
        for (size_t k = 0; k < kinds.count && k < KINDS_MOST; k++)
            offer_map_more(mender, &words, i, span_text(mender, kinds.items[k]),
                           i == 0);
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
    const struct map_words words = words_of(mender, map);
    size_t mirrored = 0;
    for (size_t i = 0; i < words.count; i++)
        if (strncmp(words.texts[i] + 1, ".m", 2) == 0 &&
            mirrored++ < MIRRORED_MOST)
            offer_map_word(mender, map, words.spans.items[i],
                           other_hand(mender, words.texts[i]), false, false);
}
