/* Rules of a printed page about terms, conditions, lists and choices. Functions
 * that look at one booklet; what is about words knows English. */
#ifndef SEAMWRIGHT_TESTS_CHECK_TERMS_H
#define SEAMWRIGHT_TESTS_CHECK_TERMS_H

#include <ctype.h>

#include "check_words.h"

/* ---- F4: one term for one thing ---- */

static inline bool is_letter(char c)
{
    return isalpha((unsigned char)c) || c == '-';
}

/* Does the text go on with this term, in one or many, small or large? */
static inline bool goes_on_with(const char *text, const char *term)
{
    for (; *term != '\0'; text++, term++)
        if (tolower((unsigned char)*text) != tolower((unsigned char)*term))
            return false;
    text += *text == 's';
    return !is_letter(*text);
}

/* What a fabric or a publisher is called is no word of the booklet's. */
static inline bool is_name(const struct visit *visit, const char *text)
{
    const char *publisher = visit->sample->design->publisher;
    if (publisher[0] != '\0' && strstr(text, publisher) != NULL)
        return true;
    for (size_t f = 0; f < visit->sample->design->fabrics.count; f++) {
        const struct bolt *bolt = &visit->plan->colorway->bolts[f];
        const char *const names[] = {bolt->name, bolt->code};
        for (size_t k = 0; k < UNIT_COUNT(names); k++)
            if (names[k] != NULL && strcmp(text, names[k]) == 0)
                return true;
    }
    return false;
}

struct two_terms {
    const char *kept, *other;
};

/* Where the kept term stands, or the other one. Of two that begin alike it is
 * the longer that is read. */
static inline const char *find_term(const char *text,
                                    const struct two_terms *terms, bool other)
{
    const bool longer = strlen(terms->other) > strlen(terms->kept);
    for (const char *at = text; *at != '\0'; at++) {
        if (at != text && is_letter(at[-1]))
            continue;
        const bool at_kept = goes_on_with(at, terms->kept);
        const bool at_other = goes_on_with(at, terms->other);
        if (other ? at_other && (longer || !at_kept)
                  : at_kept && !(longer && at_other))
            return at;
    }
    return NULL;
}

/* The first text of the booklet that says so, or NULL. */
static inline const char *text_with(const struct visit *visit,
                                    const struct two_terms *terms, bool other)
{
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        for (size_t i = 0; i < items->count; i++) {
            const struct item *item = &items->items[i];
            if (item->kind != ITEM_TEXT || is_name(visit, item->as.text.text))
                continue;
            const char *at = find_term(item->as.text.text, terms, other);
            if (at != NULL)
                return at;
        }
    }
    return NULL;
}

/* Of two terms for one thing, a booklet has one (the glossary of its words). */
static inline void look_at_terms(struct visit *visit)
{
    static const struct two_terms terms[] = {
        {"fabric", "cloth"},        {"fabric", "ware"},
        {"selvage", "selvedge"},    {"toward", "towards"},
        {"press", "iron the"},      {"half-square triangle", "half-square"},
        {"leftover", "left over"},  {"leftover", "waste"},
        {"stack of", "heap of"},    {"in wide", "in high"},
        {"miter", "mitre"},         {"mitering", "mitring"},
        {"quilt top", "quilt-top"}, {"batting", "wadding"},
        {"quilter", "sewer"},       {"gray", "grey"},
        {"neighbor", "neighbour"},  {"color", "colour"},
    };
    for (size_t i = 0; i < UNIT_COUNT(terms); i++) {
        const char *kept = text_with(visit, &terms[i], false);
        const char *other = text_with(visit, &terms[i], true);
        if (kept != NULL && other != NULL)
            breach(visit->breaches, "\"%.40s\" and \"%.40s\"", kept, other);
    }
}

/* ---- sentences ---- */

/* The end of the sentence that begins there. */
static inline const char *sentence_end(const char *text)
{
    const char *end = strstr(text, ". ");
    return end == NULL ? text + strlen(text) : end + 1;
}

/* Running text of any size, notes to tables too. */
static inline bool is_running(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.width > 0.0 &&
           item->as.text.style.face == FACE_REGULAR;
}

typedef void sentence_visitor(struct visit *visit, size_t page,
                              const char *text, size_t length);

static inline void each_sentence(struct visit *visit, sentence_visitor *look)
{
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        for (size_t i = 0; i < items->count; i++) {
            if (!is_running(&items->items[i]))
                continue;
            const char *text = items->items[i].as.text.text;
            while (*text != '\0') {
                const char *end = sentence_end(text);
                look(visit, p, text, (size_t)(end - text));
                text = end + strspn(end, " ");
            }
        }
    }
}

/* ---- F7: conditions first ---- */

static inline void look_at_condition(struct visit *visit, size_t page,
                                     const char *text, size_t length)
{
    static const char *const words[] = {" if ", " unless ", " when "};
    for (size_t k = 0; k < UNIT_COUNT(words); k++) {
        const char *found = strstr(text, words[k]);
        if (found != NULL && found < text + length)
            breach(visit->breaches, "page %zu: \"%.*s\"", page + 1, (int)length,
                   text);
    }
}

/* Who reads it knows whether it is for them before they do it. */
static inline void look_at_conditions(struct visit *visit)
{
    each_sentence(visit, look_at_condition);
}

/* ---- F8: lists for parts, tables for sizes ---- */

/* "A12" at a place in a text; what is joined to a label before it is no other
 * part: "A1+B2", "A4/A5". */
static inline bool is_label_at(const char *whole, size_t at)
{
    const char *text = whole + at;
    size_t digits = 0;
    if (at > 0 && (isalnum((unsigned char)whole[at - 1]) ||
                   strchr("+/", whole[at - 1]) != NULL))
        return false;
    while (is_figure_of(text[1 + digits]))
        digits++;
    return text[0] >= 'A' && text[0] <= 'Z' && digits > 0 &&
           !is_letter(text[1 + digits]);
}

static inline void look_at_string(struct visit *visit, size_t page,
                                  const char *text, size_t length)
{
    enum { STRING = 3 };
    static const char *const units[] = {"\u00a0in", "\u00a0cm"};
    size_t labels = 0, sizes = 0;
    for (size_t i = 0; i < length; i++) {
        labels += is_label_at(text, i);
        for (size_t u = 0; u < UNIT_COUNT(units); u++)
            sizes += strncmp(text + i, units[u], strlen(units[u])) == 0 &&
                     !is_letter(text[i + strlen(units[u])]);
    }
    if (labels >= STRING || sizes >= STRING)
        breach(visit->breaches, "page %zu: %zu labels and %zu sizes: \"%.*s\"",
               page + 1, labels, sizes, (int)length, text);
}

/* Three and more are a list or a table, not a sentence. */
static inline void look_at_strings(struct visit *visit)
{
    each_sentence(visit, look_at_string);
}

/* ---- A14: which of several alike ---- */

/* How many of a heap the quilt's steps take, each in the line of its parts. */
static inline size_t taken_in_all(const struct visit *visit, size_t heap)
{
    size_t taken = 0;
    for (size_t s = 0; s < visit->steps.items.count; s++) {
        const struct told_step *step = &visit->steps.items.items[s];
        for (size_t i = 0; i < step->parts.items.count; i++)
            if (step->parts.items.items[i].heap == heap)
                taken += step->parts.items.items[i].count;
        for (size_t z = 0; z < step->sizes.count; z++)
            for (size_t i = 0; i < step->sizes.items[z].parts.items.count;
                 i++) {
                const struct told_part *part =
                    &step->sizes.items[z].parts.items.items[i];
                /* What is shared stands in the line for all. */
                if (part->heap == heap && !step->parts.items.items[i].shared)
                    taken += part->count;
            }
    }
    return taken;
}

static inline bool ends_with(const char *text, const char *end)
{
    const size_t length = strlen(text), wanted = strlen(end);
    return length >= wanted && strcmp(text + length - wanted, end) == 0;
}

/* Does the step say the name and, at once behind it, how many? */
static inline bool tells_how_many(const struct visit *visit, size_t step,
                                  const char *name, const char *count)
{
    enum { BEHIND = 3 };
    size_t number = 0, since = BEHIND;
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        for (size_t i = 0; i < items->count; i++) {
            const struct item *item = &items->items[i];
            if (heading_number(item) > 0 || is_section(item))
                number = heading_number(item);
            if (item->kind != ITEM_TEXT || number != step)
                continue;
            if (since < BEHIND && ends_with(item->as.text.text, count))
                return true;
            since = strcmp(item->as.text.text, name) == 0 ? 0 : since + 1;
        }
    }
    return false;
}

/* Do two piles of cut pieces look the same? */
static inline bool look_alike(const struct heap *a, const struct heap *b)
{
    return a->technique == TECHNIQUE_CUT && b->technique == TECHNIQUE_CUT &&
           a->of.cut.fabric == b->of.cut.fabric &&
           rational_compare(a->width, b->width) == 0 &&
           rational_compare(a->height, b->height) == 0;
}

/* A step that takes some of the parts that are alike says how many, and all
 * are taken somewhere. Parts that only look alike have names that differ. */
static inline void look_at_choices(struct visit *visit)
{
    const struct heap *heaps = visit->plan->quilt->heaps.items;
    for (size_t s = 0; s < visit->steps.items.count; s++) {
        const struct told_step *step = &visit->steps.items.items[s];
        for (size_t i = 0; i < step->parts.items.count; i++) {
            const struct told_part *part = &step->parts.items.items[i];
            const char *name = word_part(&visit->wording, part->heap);
            const char *count =
                say(visit->scratch, visit->all->phrases, "step.part-count",
                    "count", say_count(visit->scratch, part->count), NULL);
            if (!tells_how_many(visit, step->number, name, count))
                breach(visit->breaches, "step %zu: not told: %s %s",
                       step->number, name, count);
            if (taken_in_all(visit, part->heap) != heaps[part->heap].count)
                breach(visit->breaches, "%s: %zu are taken, not %zu", name,
                       taken_in_all(visit, part->heap),
                       heaps[part->heap].count);
            for (size_t k = 0; k < i; k++) {
                const size_t other = step->parts.items.items[k].heap;
                if (look_alike(&heaps[other], &heaps[part->heap]) &&
                    strcmp(word_part(&visit->wording, other), name) == 0)
                    breach(visit->breaches, "step %zu: two are %s",
                           step->number, name);
            }
        }
    }
}

#endif
