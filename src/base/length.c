/* Reading lengths: one pass over the bytes with a cursor, which keeps the
 * first fault and its place. After a fault the other steps do nothing, so the
 * grammar below reads without checks in between. */
#include "length.h"

#include <stdbool.h>
#include <string.h>

#include "vulgar.h"

enum { FINEST = 10000, DECIMAL_PLACES = 4 };

/* Digits beyond this value are not told apart: whatever the unit, and even
 * over a denominator of 10000, it is more than the largest length. */
static const int64_t HUGE_NUMBER = INT64_C(1000000000000);

/* Where the reading stands, and the first fault with its bytes. `begin` is
 * only kept to tell the range of a text that is blank throughout. */
struct cursor {
    const char *begin, *at, *end;
    enum length_fault fault;
    const char *fault_start, *fault_end;
};

/* Exact by the agreed yard: 1 in is 2.54 cm, so 1 cm is 50/127 in. */
struct unit_row {
    const char *name;
    int64_t num, den; /* inches in one of it */
};

static const struct unit_row units[] = {
    [UNIT_IN] = {"in", 1, 1},    [UNIT_CM] = {"cm", 50, 127},
    [UNIT_MM] = {"mm", 5, 127},  [UNIT_YD] = {"yd", 36, 1},
    [UNIT_M] = {"m", 5000, 127},
};
enum { UNIT_COUNT = sizeof units / sizeof units[0] };

const char *length_unit_name(enum length_unit unit)
{
    return units[unit].name;
}

static struct rational inches_in(enum length_unit unit)
{
    return rational_make(units[unit].num, units[unit].den);
}

struct rational length_factor(enum length_unit from, enum length_unit to)
{
    return rational_div(inches_in(from), inches_in(to));
}

/* Keeps the first fault only. */
static void fail(struct cursor *c, enum length_fault fault, const char *start,
                 const char *end)
{
    if (c->fault != LENGTH_OK)
        return;
    c->fault = fault;
    c->fault_start = start;
    c->fault_end = end;
}

static bool at_digit(const struct cursor *c)
{
    return c->at < c->end && *c->at >= '0' && *c->at <= '9';
}

/* The texts asked for are a few bytes, so that comparing them anew at each
 * step costs nothing that can be measured. */
static bool at_text(const struct cursor *c, const char *text)
{
    const size_t length = strlen(text);
    return (size_t)(c->end - c->at) >= length &&
           memcmp(c->at, text, length) == 0;
}

/* ensures: true and the cursor behind `text`, where it stands at `text`. */
static bool take(struct cursor *c, const char *text)
{
    if (!at_text(c, text))
        return false;
    c->at += strlen(text);
    return true;
}

/* Blanks as typed, and the fixed and narrow ones that are pasted from pages. */
static bool take_blank(struct cursor *c)
{
    static const char *const blanks[] = {" ",      "\t",     "\n",    "\r",
                                         "\u00a0", "\u2009", "\u202f"};
    for (size_t i = 0; i < sizeof blanks / sizeof blanks[0]; i++) {
        if (take(c, blanks[i]))
            return true;
    }
    return false;
}

/* Blanks matter nowhere but between a whole number and its fraction, and
 * there only in that they may stand. */
static void skip_blanks(struct cursor *c)
{
    while (take_blank(c))
        continue;
}

/* The end of the text without the blanks there: a range to point at should
 * not reach into nothing. */
static const char *without_blanks(struct cursor c)
{
    const char *last = c.at;
    while (c.at < c.end) {
        if (!take_blank(&c))
            last = ++c.at;
    }
    return last;
}

/* The end of the run of bytes that are no blanks. */
static const char *word_end(struct cursor c)
{
    while (c.at < c.end) {
        const char *before = c.at;
        if (take_blank(&c))
            return before;
        c.at++;
    }
    return c.at;
}

/* A range never cuts a UTF-8 character in two. Bytes that are no UTF-8 are
 * one character each, with what follows them as its rest. */
static const char *character_end(const struct cursor *c)
{
    const char *next = c->at + (c->at < c->end);
    while (next < c->end && ((unsigned char)*next & 0xC0) == 0x80)
        next++;
    return next;
}

/* requires: at a digit.
 * ensures: the number, at most HUGE_NUMBER: it stays there however many
 * digits follow, so that no length of text overflows. */
static int64_t digits(struct cursor *c)
{
    int64_t value = 0;
    for (; at_digit(c); c->at++) {
        value = value * 10 + (*c->at - '0');
        if (value > HUGE_NUMBER)
            value = HUGE_NUMBER;
    }
    return value;
}

/* Could the byte begin a unit that is only misspelt? Letters, characters
 * beyond ASCII, and the marks for feet and inches. */
static bool unit_like(char byte)
{
    const unsigned char lower = (unsigned char)byte | 0x20;
    return (lower >= 'a' && lower <= 'z') || (unsigned char)byte >= 0x80 ||
           byte == '"' || byte == '\'';
}

/* Is the number over here, so that what is missing was left out? */
static bool at_stop(const struct cursor *c)
{
    return c->at == c->end ||
           (unit_like(*c->at) && vulgar_at(c->at, c->end) == NULL);
}

/* The digits behind a decimal point. Noughts at the end say nothing, so that
 * they do not make a number too fine. `begin` is where the number begins. */
static struct rational decimals(struct cursor *c, struct rational whole,
                                const char *begin)
{
    const char *start = c->at;
    const char *last = c->at;
    int64_t value = 0;
    int64_t scale = 1;
    for (; at_digit(c); c->at++) {
        if (*c->at != '0')
            last = c->at + 1;
        if (c->at - start < DECIMAL_PLACES) {
            value = value * 10 + (*c->at - '0');
            scale *= 10;
        }
    }
    if (c->at == start)
        fail(c, LENGTH_UNFINISHED, begin, start);
    if (last - start > DECIMAL_PLACES)
        fail(c, LENGTH_TOO_FINE, start, last);
    return rational_add(whole, rational_make(value, scale));
}

/* requires: at a slash. What stands behind a numerator: the slash and the
 * denominator. `start` is where the numerator begins. */
static struct rational denominator(struct cursor *c, int64_t num,
                                   const char *start)
{
    c->at += at_text(c, "/") ? strlen("/") : strlen("\u2044");
    const char *behind = c->at;
    skip_blanks(c);
    const char *below = c->at;
    if (at_stop(c))
        fail(c, LENGTH_UNFINISHED, start, behind);
    else if (!at_digit(c))
        fail(c, LENGTH_NOT_A_NUMBER, c->at, character_end(c));
    if (c->fault != LENGTH_OK)
        return rational_unknown();
    const int64_t den = digits(c);
    if (den == 0)
        fail(c, LENGTH_ZERO_DENOMINATOR, below, c->at);
    if (den > FINEST)
        fail(c, LENGTH_TOO_FINE, below, c->at);
    return rational_make(num, den);
}

/* Pages print U+2044, and what they print can be read back. */
static bool at_slash(const struct cursor *c)
{
    return at_text(c, "/") || at_text(c, "\u2044");
}

/* The fraction behind a whole number: "1/2" or "½". Where the slash does not
 * come, the digits before are left dangling: in "2 1 in" the "1" is at fault,
 * and not the unit behind it. */
static struct rational fraction(struct cursor *c)
{
    const char *start = c->at;
    const struct vulgar *vulgar = vulgar_at(c->at, c->end);
    if (vulgar != NULL) {
        take(c, vulgar->glyph);
        return rational_make(vulgar->num, vulgar->den);
    }
    const int64_t num = digits(c);
    const char *behind = c->at;
    skip_blanks(c);
    if (at_stop(c) && !at_slash(c))
        fail(c, LENGTH_UNFINISHED, start, behind);
    else if (!at_slash(c))
        fail(c, LENGTH_NOT_A_NUMBER, c->at, character_end(c));
    if (c->fault != LENGTH_OK)
        return rational_unknown();
    const struct rational part = denominator(c, num, start);
    if (c->fault == LENGTH_OK && rational_compare(part, rational_whole(1)) >= 0)
        fail(c, LENGTH_IMPROPER, start, c->at);
    return part;
}

/* Digits may be a numerator; what follows them decides that. */
static bool at_fraction(const struct cursor *c)
{
    return at_digit(c) || vulgar_at(c->at, c->end) != NULL;
}

/* "√" and "r" are one: not every keyboard has the sign. */
static bool at_root(const struct cursor *c)
{
    return at_text(c, "√") || at_text(c, "r");
}

/* Is the hyphen at the cursor a minus: before a root, or before how often it is
 * taken off? Before a fraction it makes a mixed number. */
static bool at_root_behind(struct cursor c)
{
    c.at += strlen("-");
    digits(&c);
    skip_blanks(&c);
    return at_root(&c);
}

/* What may follow a whole number: nothing, a fraction behind blanks or a
 * hyphen or nothing, a decimal part, or the lower half of a fraction. */
static struct rational behind_whole(struct cursor *c, int64_t whole,
                                    const char *start)
{
    const struct rational value = rational_whole(whole);
    if (take(c, "."))
        return decimals(c, value, start);
    if (at_text(c, "-") && !at_root_behind(*c) && take(c, "-")) {
        if (!at_fraction(c))
            fail(c, LENGTH_UNFINISHED, start, c->at);
        return rational_add(value, fraction(c));
    }
    skip_blanks(c);
    if (at_slash(c))
        return denominator(c, whole, start);
    if (at_fraction(c))
        return rational_add(value, fraction(c));
    return value;
}

/* A minus sign is understood, to be told apart from what is no number: then
 * the message can say that lengths are not negative. */
static struct rational number(struct cursor *c)
{
    const char *start = c->at;
    if (at_text(c, "-") || at_text(c, "\u2212")) {
        fail(c, LENGTH_NEGATIVE, start, word_end(*c));
        return rational_unknown();
    }
    if (at_digit(c)) {
        const int64_t whole = digits(c);
        return behind_whole(c, whole, start);
    }
    if (take(c, "."))
        return decimals(c, rational_whole(0), start);
    if (vulgar_at(c->at, c->end) != NULL)
        return fraction(c);
    fail(c, LENGTH_NOT_A_NUMBER, start, word_end(*c));
    return rational_unknown();
}

/* The root at the cursor; of another number than the trade has, the sign and
 * what it is of are no number. */
static struct rational root(struct cursor *c)
{
    const char *start = c->at;
    if (!take(c, "√"))
        take(c, "r");
    const int of = at_digit(c) ? *c->at - '0' : 0;
    const int64_t all = digits(c);
    if (all == of && (of == 2 || of == 3 || of == 6))
        return rational_root(of);
    fail(c, LENGTH_NOT_A_NUMBER, start, word_end(*c));
    return rational_unknown();
}

/* A number, a root, or so often a root: "3√2" and "1/2r3" are three times and
 * half a root. */
static struct rational term(struct cursor *c)
{
    if (at_root(c))
        return root(c);
    const struct rational times = number(c);
    struct cursor behind = *c;
    skip_blanks(&behind);
    if (c->fault != LENGTH_OK || !at_root(&behind))
        return times;
    *c = behind;
    return rational_mul(times, root(c));
}

/* 1 before what is added, -1 before what is taken off; 0 where neither
 * follows. */
static int take_sign(struct cursor *c)
{
    struct cursor behind = *c;
    skip_blanks(&behind);
    const int sign = take(&behind, "+")                              ? 1
                     : take(&behind, "-") || take(&behind, "\u2212") ? -1
                                                                     : 0;
    if (sign != 0)
        *c = behind;
    return sign;
}

/* Terms, one after the other. What is left must be more than nothing. */
static struct rational sum(struct cursor *c)
{
    const char *start = c->at;
    struct rational total = term(c);
    for (int sign; c->fault == LENGTH_OK && (sign = take_sign(c)) != 0;) {
        skip_blanks(c);
        if (c->at == c->end)
            fail(c, LENGTH_UNFINISHED, start, c->end);
        else
            total = rational_add(total, rational_times(term(c), sign));
    }
    if (c->fault == LENGTH_OK && rational_known(total) &&
        rational_sign(total) < 0)
        fail(c, LENGTH_NEGATIVE, start, c->at);
    return total;
}

/* ensures: the unit at the rest of the text; *given says whether there is
 * one; `wanted` where there is none. */
static enum length_unit unit(struct cursor *c, enum length_unit wanted,
                             bool *given)
{
    skip_blanks(c);
    const char *end = without_blanks(*c);
    const size_t length = (size_t)(end - c->at);
    *given = length > 0;
    if (length == 0)
        return wanted;
    for (size_t i = 0; i < UNIT_COUNT; i++) {
        if (length == strlen(units[i].name) && at_text(c, units[i].name))
            return (enum length_unit)i;
    }
    if (at_fraction(c) || !unit_like(*c->at))
        fail(c, LENGTH_NOT_A_NUMBER, c->at, word_end(*c));
    fail(c, LENGTH_UNKNOWN_UNIT, c->at, end);
    return wanted;
}

/* A number with what stands behind it, not yet brought into a unit: in a size
 * the first number may have to wait for the unit of the second. */
struct measure {
    struct rational number;
    const char *start, *end; /* of the number */
    enum length_unit unit;
    bool unit_given;
};

/* Reads to the end of the text, whatever comes; a fault stands in the
 * cursor. */
static struct measure measure(struct cursor *c, enum length_unit wanted)
{
    struct measure m = {.unit = wanted};
    skip_blanks(c);
    m.start = c->at;
    if (c->at == c->end)
        fail(c, LENGTH_EMPTY, c->begin, c->end);
    else
        m.number = sum(c);
    m.end = c->at;
    if (c->fault == LENGTH_OK)
        m.unit = unit(c, wanted, &m.unit_given);
    return m;
}

/* Brings a measure into `wanted`, and checks its size. The limit is one of
 * inches in every unit: more than any quilt, and far from what 64 bits hold,
 * so that sums of lengths have room. */
static struct rational converted(struct cursor *c, struct measure m,
                                 enum length_unit wanted)
{
    if (c->fault != LENGTH_OK)
        return rational_unknown();
    const struct rational inches =
        rational_mul(m.number, length_factor(m.unit, UNIT_IN));
    const struct rational limit = rational_whole(LENGTH_LIMIT_INCHES);
    if (!rational_known(inches) || rational_compare(inches, limit) > 0)
        fail(c, LENGTH_TOO_LARGE, m.start,
             without_blanks((struct cursor){.at = m.start, .end = m.end}));
    return rational_mul(m.number, length_factor(m.unit, wanted));
}

struct length_result length_parse(const char *text, size_t length,
                                  enum length_unit wanted)
{
    struct cursor c = {.begin = text, .at = text, .end = text + length};
    const struct measure m = measure(&c, wanted);
    const struct rational value = converted(&c, m, wanted);
    if (c.fault == LENGTH_OK)
        return (struct length_result){.value = value};
    return (struct length_result){.fault = c.fault,
                                  .value = rational_unknown(),
                                  .start = (size_t)(c.fault_start - text),
                                  .end = (size_t)(c.fault_end - text)};
}

/* ensures: the first "x" or "×" at or behind the cursor, or the end. No
 * unit's name has an x in it. */
static struct cursor find_times(struct cursor c)
{
    while (c.at < c.end && !at_text(&c, "x") && !at_text(&c, "×"))
        c.at++;
    return c;
}

/* The two sides of a size that has a "x". Both are read before any fault is
 * handed on, as the unit of the second is needed for the first; then faults
 * go from left to right. */
static void two_sides(struct cursor *c, struct cursor times,
                      enum length_unit wanted, struct size_result *size)
{
    struct cursor across = {.begin = c->begin, .at = c->at, .end = times.at};
    struct cursor down = times;
    const char *sign = down.at;
    down.at = down.begin = character_end(&times);
    const struct cursor again = find_times(down);
    struct measure width = measure(&across, wanted);
    const struct measure height = measure(&down, wanted);
    if (width.unit_given && !height.unit_given)
        fail(&down, LENGTH_UNFINISHED, height.start, height.end);
    if (!width.unit_given)
        width.unit = height.unit;
    size->width = converted(&across, width, wanted);
    size->height = converted(&down, height, wanted);
    if (across.fault != LENGTH_EMPTY)
        fail(c, across.fault, across.fault_start, across.fault_end);
    if (across.fault == LENGTH_EMPTY || down.fault == LENGTH_EMPTY)
        fail(c, LENGTH_UNFINISHED, sign, down.begin);
    if (again.at < again.end)
        fail(c, LENGTH_NOT_A_NUMBER, again.at, character_end(&again));
    fail(c, down.fault, down.fault_start, down.fault_end);
}

struct size_result size_parse(const char *text, size_t length,
                              enum length_unit wanted)
{
    struct cursor c = {.begin = text, .at = text, .end = text + length};
    struct size_result size = {.fault = LENGTH_OK};
    const struct cursor times = find_times(c);
    if (times.at < times.end) {
        two_sides(&c, times, wanted, &size);
    } else {
        const struct measure side = measure(&c, wanted);
        size.width = size.height = converted(&c, side, wanted);
    }
    if (c.fault == LENGTH_OK)
        return size;
    return (struct size_result){.fault = c.fault,
                                .width = rational_unknown(),
                                .height = rational_unknown(),
                                .start = (size_t)(c.fault_start - text),
                                .end = (size_t)(c.fault_end - text)};
}
