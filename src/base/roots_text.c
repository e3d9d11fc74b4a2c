/* Exact numbers as text, and back: for keys, for data, for messages. A term for
 * each root that is there, "3/2+6√2-1/4√6": the fraction stands before its
 * root. The first term is one to be added, where there is any. */
#include <string.h>

#include "buffer.h"
#include "roots.h"

static const char *const root_digits[UNDER] = {"", "2", "3", "6"};

/* "+1/2√3"; the first has no plus. */
static void add_term(struct buffer *out, const char *coefficient, int sign,
                     int i, bool first, const char *root)
{
    buffer_text(out, sign < 0 ? "-" : first ? "" : "+");
    if (i == ONE || strcmp(coefficient, "1") != 0)
        buffer_text(out, coefficient);
    if (i != ONE)
        buffer_printf(out, "%s%s", root, root_digits[i]);
}

/* In the order of the roots, but that one to be added comes first where there
 * is one: "√2-1". So a size, which is above 0, never begins with a minus, and
 * a source can write it as it is printed. */
static void add_terms(struct buffer *out, struct rational a, const char *root)
{
    const char *coefficient[UNDER];
    int sign[UNDER], leader = UNDER;
    for (int i = UNDER - 1; i >= 0; i--) {
        coefficient[i] = wide_coefficient(out->arena, a, i, &sign[i]);
        leader = sign[i] > 0 ? i : leader;
    }
    if (leader < UNDER)
        add_term(out, coefficient[leader], 1, leader, true, root);
    for (int i = 0; i < UNDER; i++)
        if (i != leader && sign[i] != 0)
            add_term(out, coefficient[i], sign[i], i, false, root);
}

static void add_number(struct buffer *out, struct rational a, const char *root)
{
    if (a.den < 0)
        add_terms(out, a, root);
    else if (a.den == 0)
        buffer_char(out, '?');
    else if (a.den == 1)
        buffer_printf(out, "%lld", (long long)a.num);
    else
        rational_key(out, a);
}

char *rational_text(struct arena *arena, struct rational a)
{
    struct buffer out = buffer_in(arena);
    add_number(&out, a, "\u221a");
    return out.bytes;
}

char *rational_plain(struct arena *arena, struct rational a)
{
    struct buffer out = buffer_in(arena);
    add_number(&out, a, "r");
    return out.bytes;
}

void rational_key(struct buffer *key, struct rational a)
{
    if (a.den < 0)
        add_terms(key, a, "\u221a");
    else
        buffer_printf(key, "%lld/%lld", (long long)a.num, (long long)a.den);
}

/* ---- reading ---- */

static bool at_digit(const char *at, const char *end)
{
    return at < end && *at >= '0' && *at <= '9';
}

/* ensures: *at behind the digits; unknown where there are none. */
static struct rational digits(const char **at, const char *end)
{
    if (!at_digit(*at, end))
        return rational_unknown();
    struct rational value = rational_whole(0);
    for (; at_digit(*at, end); ++*at)
        value = rational_add(rational_times(value, 10),
                             rational_whole(**at - '0'));
    return value;
}

static bool take(const char **at, const char *end, const char *text)
{
    const size_t length = strlen(text);
    if ((size_t)(end - *at) < length || memcmp(*at, text, length) != 0)
        return false;
    *at += length;
    return true;
}

/* "3/2√6", "√6", "3": without a sign. */
static struct rational term(const char **at, const char *end)
{
    const bool bare = !at_digit(*at, end);
    struct rational value = bare ? rational_whole(1) : digits(at, end);
    if (!bare && take(at, end, "/"))
        value = rational_div(value, digits(at, end));
    if (!take(at, end, "\u221a"))
        return bare ? rational_unknown() : value;
    for (int i = ROOT2; i < UNDER; i++)
        if (take(at, end, root_digits[i]))
            return rational_mul(value,
                                rational_root((int)roots_squared[i]));
    return rational_unknown();
}

struct rational rational_read(const char *text, size_t length)
{
    const char *at = text, *end = text + length;
    struct rational value = rational_whole(0);
    do {
        const int sign = take(&at, end, "-") ? -1 : 1;
        if (sign > 0 && at > text && !take(&at, end, "+"))
            return rational_unknown();
        value = rational_add(value, rational_times(term(&at, end), sign));
    } while (at < end && rational_known(value));
    return value;
}
