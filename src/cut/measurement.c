/* Finds measurements in prose: a number with a unit or an inch mark, or two
 * numbers with a cross between. Numbers are read by the reader of lengths, so
 * that prose may write them as an attribute does. What is not surely a
 * measurement is none: a remark about "2 in each corner" would be noise. */
#include "measurement.h"

#include <ctype.h>
#include <string.h>

/* Longer than any number that a person writes; bounds the tries. */
enum { NUMBER_BYTES = 40 };

/* One number with what stands behind it. */
struct number {
    size_t start, end; /* with its unit */
    struct rational value;
    bool whole, has_unit;
    enum length_unit unit;
    struct rational place; /* half of its last place, in its unit */
    bool sure; /* it stands behind "2 1/2 x", so that `in` is a unit */
};

/* Never past the end of the run. */
static bool begins(const struct text_run *run, size_t at, const char *text)
{
    const size_t length = strlen(text);
    return run->length - at >= length &&
           memcmp(run->text + at, text, length) == 0;
}

/* ensures: the length of the first of the texts that stands there, or 0. */
static size_t any_of(const struct text_run *run, size_t at,
                     const char *const *texts)
{
    for (size_t i = 0; texts[i] != NULL; i++)
        if (begins(run, at, texts[i]))
            return strlen(texts[i]);
    return 0;
}

/* Blanks as typed, and the fixed and narrow ones. */
static size_t blank_at(const struct text_run *run, size_t at)
{
    static const char *const blanks[] = {" ", "\u00a0", "\u2009", "\u202f",
                                         NULL};
    return any_of(run, at, blanks);
}

/* The reader folds the blanks of XML only; fixed ones may still stand several
 * in a row. */
static size_t skip_blanks(const struct text_run *run, size_t at)
{
    for (size_t size; (size = blank_at(run, at)) > 0;)
        at += size;
    return at;
}

/* What a number begins with. */
static size_t digit_at(const struct text_run *run, size_t at)
{
    static const char *const digits[] = {"0", "1", "2", "3", "4", "5", "6", "7",
                                         "8", "9", "½", "⅓", "⅔", "¼", "¾", "⅛",
                                         "⅜", "⅝", "⅞", "⅕", "⅖", "⅗", "⅘", "⅙",
                                         "⅚", "⅐", "⅑", "⅒", "√", NULL};
    return any_of(run, at, digits);
}

/* What else may stand inside it. */
static size_t joint_at(const struct text_run *run, size_t at)
{
    static const char *const joints[] = {".", "/",      "-",
                                         "+", "\u2044", "\u2212", NULL};
    return any_of(run, at, joints);
}

/* Plain digits only: a fraction sign ends a number. */
static bool ascii_digit(const struct text_run *run, size_t at)
{
    return at < run->length && isdigit((unsigned char)run->text[at]);
}

/* "6r2", where the sign of the root was hard to type: an r at its number. */
static size_t root_letter_at(const struct text_run *run, size_t at)
{
    static const char *const roots[] = {"r2", "r3", "r6", NULL};
    const size_t size = any_of(run, at, roots);
    const unsigned char before = at > 0 ? (unsigned char)run->text[at - 1] : ' ';
    const unsigned char behind =
        at + size < run->length ? (unsigned char)run->text[at + size] : ' ';
    return size > 0 && (isdigit(before) || before >= 0x80) && !isalnum(behind)
               ? size
               : 0;
}

/* Sums and differences are one measurement only where they have a root:
 * "5 - 3 in" is from 5 to 3. A hyphen without blanks makes a mixed number, or
 * the reader refuses it. */
static bool is_one_number(const struct text_run *run, size_t start, size_t end,
                          struct rational value)
{
    static const char *const signs[] = {"+", "- ", "\u2212", NULL};
    if (rational_is_irrational(value))
        return true;
    for (size_t at = start; at < end; at++)
        if (any_of(run, at, signs) > 0 || begins(run, at, " -"))
            return false;
    return true;
}

/* A number in the middle of a word or of a longer number is none: "A1",
 * "1,000", "v2.5". */
static bool may_start(const struct text_run *run, size_t at)
{
    static const char *const signs[] = {"\u00a0", "\u2009", "\u202f",
                                        "\u2013", "\u2014", "\u00d7",
                                        "\u201c", "\u201e", NULL};
    if (at == 0)
        return true;
    const unsigned char before = (unsigned char)run->text[at - 1];
    if (before < 0x80)
        return !isalnum(before) && strchr("./,_#$&", before) == NULL;
    return (at >= 2 && any_of(run, at - 2, signs) == 2) ||
           (at >= 3 && any_of(run, at - 3, signs) == 3);
}

/* Half of the last place that was written: "16.5" is good to 0.05. What has a
 * root is exact. */
static struct rational last_place(const struct text_run *run, size_t start,
                                  size_t end, struct rational value)
{
    if (!rational_is_fraction(value))
        return rational_whole(0);
    const char *point = memchr(run->text + start, '.', end - start);
    int64_t den = value.den;
    if (point != NULL) {
        den = 1;
        for (const char *c = point + 1; c < run->text + end; c++)
            den *= 10; /* at most four: the reader takes no more */
    }
    return rational_make(1, 2 * den);
}

/* The longest text from here that reads as a number. ensures: false where
 * there is none; number->end is then where to go on. */
static bool read_number(const struct text_run *run, size_t at,
                        enum length_unit units, struct number *number)
{
    size_t limit = at;
    for (size_t size = 1; size > 0 && limit - at < NUMBER_BYTES;
         limit += size) {
        size = digit_at(run, limit);
        size = size > 0 ? size : joint_at(run, limit);
        size = size > 0 ? size : root_letter_at(run, limit);
        size = size > 0 ? size : blank_at(run, limit);
    }
    for (size_t end = limit; end > at; end--) {
        if (ascii_digit(run, end - 1) && ascii_digit(run, end))
            continue; /* not half of the digits */
        const struct length_result read =
            length_parse(run->text + at, end - at, units);
        if (read.fault != LENGTH_OK || run->text[end - 1] == ' ' ||
            !is_one_number(run, at, end, read.value))
            continue;
        *number = (struct number){
            .start = at,
            .end = end,
            .value = read.value,
            .whole = read.value.den == 1 &&
                     memchr(run->text + at, '.', end - at) == NULL,
            .place = last_place(run, at, end, read.value)};
        return rational_sign(read.value) > 0;
    }
    number->end = limit > at ? limit : at + 1;
    return false;
}

/* A unit's word is over where no letter follows. */
static bool word_ends(const struct text_run *run, size_t at)
{
    static const char *const signs[] = {"\u00d7", "\u00a0", "\u2009",
                                        "\u202f", "\u2013", "\u2014",
                                        "\u2026", "\u201d", NULL};
    if (at == run->length)
        return true;
    const unsigned char next = (unsigned char)run->text[at];
    return next < 0x80 ? !isalnum(next) : any_of(run, at, signs) > 0;
}

/* "6 in a row" is no measurement. Behind a whole number the word `in` is a unit
 * only before what is said of a size, or where the words stop. */
static bool in_is_unit(const struct text_run *run, size_t at)
{
    static const char *const sizes[] = {
        "square",     "wide",   "high",  "long",  "tall",   "deep",  "finished",
        "unfinished", "cut",    "strip", "seam",  "border", "block", "binding",
        "unit",       "patch",  "piece", "apart", "from",   "and ",  "or ",
        "x ",         "\u00d7", "by ",   "of ",   "beyond", NULL};
    const size_t next = skip_blanks(run, at);
    return next == at || next == run->length || any_of(run, next, sizes) > 0;
}

/* Matched as they stand, in small letters: "In" and "M" begin other things. */
struct unit_word {
    const char *word;
    enum length_unit unit;
};

/* ensures: number->end behind the word, where there is one. Longer words come
 * first. */
static bool word_unit_at(const struct text_run *run, size_t at,
                         struct number *number)
{
    static const struct unit_word words[] = {
        {"inches", UNIT_IN}, {"inch", UNIT_IN},  {"in", UNIT_IN},
        {"cm", UNIT_CM},     {"mm", UNIT_MM},    {"metres", UNIT_M},
        {"meters", UNIT_M},  {"metre", UNIT_M},  {"meter", UNIT_M},
        {"m", UNIT_M},       {"yards", UNIT_YD}, {"yard", UNIT_YD},
        {"yds", UNIT_YD},    {"yd", UNIT_YD}};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        const size_t end = at + strlen(words[i].word);
        if (!begins(run, at, words[i].word) || !word_ends(run, end))
            continue;
        /* `in` is the one of them that is also a common word. */
        if (i == 2 && number->whole && !number->sure && at > number->end &&
            !in_is_unit(run, end))
            return false;
        number->end = end;
        number->unit = words[i].unit;
        return true;
    }
    return false;
}

/* The sign for inches stands at the number; where quotation marks are open it
 * closes them. */
static bool mark_at(const struct scanner *scanner, struct number *number)
{
    static const char *const marks[] = {"\"", "\u2033", "\u201d", "''", NULL};
    const size_t size = any_of(scanner->run, number->end, marks);
    const bool prime = size > 0 && begins(scanner->run, number->end, "\u2033");
    if (size == 0 || (scanner->in_quotes && !prime))
        return false;
    number->end += size;
    number->unit = UNIT_IN;
    return true;
}

/* A number and its unit, with a blank or a hyphen between. */
static bool read_measure(const struct scanner *scanner, size_t at, bool sure,
                         struct number *number)
{
    const struct text_run *run = scanner->run;
    if (!read_number(run, at, scanner->units, number))
        return false;
    number->unit = scanner->units;
    number->sure = sure;
    size_t next = number->end;
    if (begins(run, next, "-"))
        next++;
    else
        next += blank_at(run, next);
    number->has_unit =
        mark_at(scanner, number) || word_unit_at(run, next, number);
    return true;
}

/* The number behind a cross, if there is one. */
static bool read_second(const struct scanner *scanner,
                        const struct number *first, struct number *number)
{
    static const char *const crosses[] = {"x", "\u00d7", NULL};
    const struct text_run *run = scanner->run;
    size_t at = skip_blanks(run, first->end);
    const size_t cross = any_of(run, at, crosses);
    at = skip_blanks(run, at + cross);
    return cross > 0 && digit_at(run, at) > 0 &&
           read_measure(scanner, at, !first->whole, number);
}

/* Of the two systems. */
static bool metric(enum length_unit unit)
{
    return unit == UNIT_CM || unit == UNIT_MM || unit == UNIT_M;
}

/* What a ruler leaves open of a size with roots: half an eighth or half a
 * millimetre, and less where more places were written. */
static struct rational ruler_miss(enum length_unit units, struct rational place)
{
    const struct rational half =
        metric(units)
            ? rational_mul(rational_make(1, 2), length_factor(UNIT_MM, units))
            : rational_mul(rational_make(1, 16), length_factor(UNIT_IN, units));
    return rational_min(half, place);
}

/* One unit serves for both numbers. A length of the other system was rounded
 * when it was written; one of the pattern's is exact. */
static struct measurement measured(const struct scanner *scanner,
                                   const struct number *first,
                                   const struct number *second)
{
    const enum length_unit two = second->has_unit ? second->unit : first->unit;
    const enum length_unit one = first->has_unit ? first->unit : two;
    const struct rational factor = length_factor(one, scanner->units);
    const bool foreign = metric(one) != metric(scanner->units);
    const struct rational place =
        rational_mul(rational_max(first->place, second->place), factor);
    return (struct measurement){
        .start = first->start,
        .end = second->end,
        .pair = first != second,
        .counts = !first->has_unit && !second->has_unit && first->whole &&
                  second->whole,
        .first = rational_mul(first->value, factor),
        .second =
            rational_mul(second->value, length_factor(two, scanner->units)),
        .rounding = foreign ? place : rational_whole(0),
        .on_ruler = ruler_miss(scanner->units, place)};
}

/* Tells a quotation mark that opens from one that closes. Marks that end a
 * number were taken with it and do not come here. */
static void pass_character(struct scanner *scanner)
{
    const struct text_run *run = scanner->run;
    const size_t at = scanner->at;
    const bool start = at == 0 || strchr(" ([", run->text[at - 1]) != NULL;
    if (begins(run, at, "\""))
        scanner->in_quotes = start && !scanner->in_quotes;
    else if (begins(run, at, "\u201c"))
        scanner->in_quotes = true;
    else if (begins(run, at, "\u201d"))
        scanner->in_quotes = false;
    scanner->at++;
}

/* Each turn moves on: past a character, a number, or a measurement. So it ends
 * for every text, however strange. */
bool next_measurement(struct scanner *scanner, struct measurement *found)
{
    const struct text_run *run = scanner->run;
    while (scanner->at < run->length) {
        const bool point =
            begins(run, scanner->at, ".") && ascii_digit(run, scanner->at + 1);
        if ((digit_at(run, scanner->at) == 0 && !point) ||
            !may_start(run, scanner->at)) {
            pass_character(scanner);
            continue;
        }
        struct number first, second;
        const bool number = read_measure(scanner, scanner->at, false, &first);
        scanner->at = first.end;
        if (!number)
            continue;
        const bool pair = read_second(scanner, &first, &second);
        /* "4 x 2 1/2 x 6 1/2 in" are four of a size. */
        struct number third;
        if (pair && read_second(scanner, &second, &third)) {
            first = second;
            second = third;
        }
        if (pair)
            scanner->at = second.end;
        if (!pair && !first.has_unit)
            continue;
        *found = measured(scanner, &first, pair ? &second : &first);
        return true;
    }
    return false;
}
