/* What is written in letters: maps, and pictures told in cells. Words with
 * blanks between; a count and `*` before a word, or before a group of them in
 * parentheses, stands for so many. Words keep their places in the source, each
 * time that they are repeated. Knows nothing of what a word means. */
#include "pattern.h"

#include <string.h>

/* ---- marks ---- */

enum sign { SIGN_END, SIGN_WORD, SIGN_OPEN, SIGN_CLOSE };

/* What stands next in the text. */
struct mark {
    enum sign sign;
    struct span span;  /* of the word, empty behind a count without one; of the
                          parenthesis */
    bool counted;      /* a count and `*` stand before it */
    struct span count; /* what stands before `*` */
    size_t times;      /* 1 without a count; 0 for a count that is none */
    size_t lines;      /* ends of lines before it */
    size_t other;      /* of a parenthesis: the number of the other one */
    bool several;      /* of `(`: its group holds the end of a line */
};

enum { TIMES_MOST = 10000 };

/* ensures: the number, or 0 for none from 1 to TIMES_MOST. */
static size_t read_times(const char *digits, size_t length)
{
    size_t times = 0;
    for (size_t i = 0; i < length; i++) {
        if (digits[i] < '0' || digits[i] > '9')
            return 0;
        times = times * 10 + (size_t)(digits[i] - '0');
        if (times > TIMES_MOST)
            return 0;
    }
    return times;
}

/* Blanks and comments. */
static void pass_blanks(const char *bytes, struct span content, uint32_t *at,
                        size_t *lines)
{
    while (*at < content.end) {
        if (strncmp(bytes + *at, "<!--", 4) == 0) {
            const char *end = strstr(bytes + *at, "-->");
            *at = end == NULL ? content.end : (uint32_t)(end - bytes) + 3;
        } else if (strchr(" \t\r\n", bytes[*at]) != NULL) {
            *lines += bytes[*at] == '\n' ||
                      (bytes[*at] == '\r' && bytes[*at + 1] != '\n');
            (*at)++;
        } else {
            break;
        }
    }
}

/* Takes the count from the front of what was read. Digits and `*` before a
 * word; before a parenthesis whatever stands there is meant as a count. */
static void take_count(const char *bytes, struct mark *mark, bool group)
{
    const char *word = bytes + mark->span.start;
    const size_t length = mark->span.end - mark->span.start;
    const char *star = memchr(word, '*', length);
    if (star == NULL)
        return;
    const size_t digits = (size_t)(star - word);
    if (digits == 0 || strspn(word, "0123456789") < digits) {
        if (!group || digits + 1 < length)
            return; /* a word like any other */
    }
    mark->count =
        (struct span){mark->span.start, mark->span.start + (uint32_t)digits};
    mark->counted = true;
    mark->times = read_times(word, digits);
    mark->span.start += (uint32_t)digits + 1;
}

static struct mark next_mark(const struct source *source, struct span content,
                             uint32_t *at)
{
    const char *bytes = source->bytes;
    struct mark mark = {.sign = SIGN_END, .times = 1};
    pass_blanks(bytes, content, at, &mark.lines);
    mark.span = (struct span){*at, *at};
    if (*at >= content.end)
        return mark;
    while (*at < content.end && strchr(" \t\r\n<()", bytes[*at]) == NULL)
        (*at)++;
    mark.span.end = *at;
    const bool group = *at < content.end && bytes[*at] == '(';
    mark.sign = SIGN_WORD;
    if (mark.span.end > mark.span.start) {
        take_count(bytes, &mark, group);
        if (!group || !mark.counted || mark.span.end > mark.span.start)
            return mark;
    }
    /* A stray < that opens no comment is a word of its own. */
    mark.sign = bytes[*at] == '('   ? SIGN_OPEN
                : bytes[*at] == ')' ? SIGN_CLOSE
                                    : SIGN_WORD;
    mark.span = (struct span){*at, *at + 1};
    (*at)++;
    return mark;
}

bool next_word(const struct source *source, struct span content, uint32_t *at,
               struct span *word, size_t *lines)
{
    *lines = 0;
    for (;;) {
        const struct mark mark = next_mark(source, content, at);
        *lines += mark.lines;
        *word = mark.span;
        if (mark.sign == SIGN_END)
            return false;
        if (mark.sign == SIGN_WORD && word->end > word->start)
            return true;
    }
}

bool next_count(const struct source *source, struct span content, uint32_t *at,
                struct span *count)
{
    for (;;) {
        const struct mark mark = next_mark(source, content, at);
        *count = mark.count;
        if (mark.sign == SIGN_END)
            return false;
        if (mark.counted && mark.times > 0)
            return true;
    }
}

/* ---- what is wrong ---- */

/* Groups that are open, and what stands outside of all. */
struct group {
    size_t open;  /* the number of its parenthesis */
    size_t words; /* in it so far, repeats written out; bounded */
    bool several; /* the end of a line lies in it */
};

struct reading {
    const struct source *source;
    struct arena *arena;
    struct drawn_text *drawing;
    LIST(struct mark) marks;
    struct group groups[DRAWING_DEPTH + 1];
    size_t depth;
    struct span first; /* the first count; empty for none */
};

static bool fault(struct reading *reading, struct span span, const char *what,
                  const char *help)
{
    reading->drawing->fault = what;
    reading->drawing->span = span;
    reading->drawing->help = help;
    return false;
}

/* The text that would mend it, in the place of `edited`. */
static bool fault_edit(struct reading *reading, struct span edited,
                       const char *text)
{
    reading->drawing->edited = edited;
    reading->drawing->text = text;
    return false;
}

/* `8*`, and then a blank. */
static bool nothing_follows(struct reading *reading, const struct mark *mark)
{
    const char *bytes = reading->source->bytes;
    const uint32_t behind = mark->span.end;
    const uint32_t next = behind + (uint32_t)strspn(bytes + behind, " \t\r\n");
    fault(reading, (struct span){mark->count.start, behind},
          "nothing follows this count",
          "the word or the group stands right behind `*`");
    if (next > behind && strchr("<)", bytes[next]) == NULL)
        fault_edit(reading, (struct span){behind, next}, "");
    return false;
}

/* `8(A s)`, or no count at all. */
static bool lacks_count(struct reading *reading, const struct mark *mark)
{
    const char *bytes = reading->source->bytes;
    fault(reading, mark->span, "this group has no count before it",
          "write a number and `*` right before `(`");
    if (mark->span.start > 0 && bytes[mark->span.start - 1] >= '0' &&
        bytes[mark->span.start - 1] <= '9')
        fault_edit(reading, (struct span){mark->span.start, mark->span.start},
                   "*");
    return false;
}

static bool check_count(struct reading *reading, const struct mark *mark)
{
    if (reading->first.end == 0)
        reading->first = mark->count;
    if (mark->counted && mark->times == 0)
        return fault(
            reading,
            mark->count.end > mark->count.start
                ? mark->count
                : (struct span){mark->count.start, mark->count.start + 1},
            "this is no count",
            "a whole number from 1 to 10000 stands before `*`");
    if (mark->sign == SIGN_OPEN && !mark->counted)
        return lacks_count(reading, mark);
    if (mark->sign == SIGN_WORD && mark->span.end == mark->span.start)
        return nothing_follows(reading, mark);
    return true;
}

/* ---- measuring ---- */

static void add_words(struct group *group, size_t words, size_t most)
{
    group->words += words;
    if (group->words > most)
        group->words = most + 1;
}

static bool open_group(struct reading *reading, const struct mark *mark)
{
    if (reading->depth == DRAWING_DEPTH)
        return fault(reading, mark->span,
                     "groups lie more than 20 deep inside each other",
                     "write some of them out");
    reading->groups[++reading->depth] =
        (struct group){.open = reading->marks.count - 1};
    return true;
}

static bool close_group(struct reading *reading, struct mark *mark, size_t most)
{
    if (reading->depth == 0) {
        fault(reading, mark->span, "this `)` closes no group",
              "leave it out, or write a count and `*(` where the group begins");
        return fault_edit(reading, mark->span, "");
    }
    const struct group *group = &reading->groups[reading->depth--];
    struct mark *open = &reading->marks.items[group->open];
    if (group->words == 0)
        return fault(reading, (struct span){open->count.start, mark->span.end},
                     "this group is empty",
                     "write what is repeated, or delete it");
    open->other = reading->marks.count - 1;
    open->several = group->several;
    mark->other = group->open;
    reading->groups[reading->depth].several |= group->several;
    add_words(&reading->groups[reading->depth], group->words * open->times,
              most);
    return true;
}

/* Counts all words before any is made. */
static bool measure(struct reading *reading, struct span content, size_t most)
{
    uint32_t at = content.start;
    for (;;) {
        const struct mark read = next_mark(reading->source, content, &at);
        struct mark *mark = LIST_ADD(reading->arena, &reading->marks);
        *mark = read;
        struct group *group = &reading->groups[reading->depth];
        group->several |= mark->lines > 0;
        if (mark->sign == SIGN_END)
            break;
        if (!check_count(reading, mark))
            return false;
        if (mark->sign == SIGN_WORD)
            add_words(group, mark->times, most);
        else if (!(mark->sign == SIGN_OPEN ? open_group(reading, mark)
                                           : close_group(reading, mark, most)))
            return false;
    }
    if (reading->depth > 0) {
        const struct mark *open =
            &reading->marks.items[reading->groups[reading->depth].open];
        const uint32_t end =
            reading->marks.items[reading->marks.count - 2].span.end;
        fault(reading, open->span, "this `(` is never closed",
              "write `)` where the group ends");
        return fault_edit(reading, (struct span){end, end}, ")");
    }
    /* Words that are all written are left to whoever knows how many may be. */
    if (reading->first.end > 0 && reading->groups[0].words > most)
        return fault(reading, reading->first,
                     "counts make more than 40000 cells here",
                     "no quilt has so many");
    return true;
}

/* ---- writing out ---- */

/* A line is a row; a group of several lines begins a row each time. */
static void write_out(struct reading *reading)
{
    struct drawn_text *drawing = reading->drawing;
    size_t left[DRAWING_DEPTH], depth = 0, row = 0;
    bool begins = true;
    for (size_t i = 0; i < reading->marks.count; i++) {
        const struct mark *mark = &reading->marks.items[i];
        begins |= mark->lines > 0;
        if (mark->sign == SIGN_OPEN)
            left[depth++] = mark->times;
        for (size_t k = 0; mark->sign == SIGN_WORD && k < mark->times; k++) {
            row += begins;
            begins = false;
            *LIST_ADD(reading->arena, &drawing->words) =
                (struct drawn_word){mark->span, row};
        }
        if (mark->sign != SIGN_CLOSE)
            continue;
        if (--left[depth - 1] == 0) {
            depth--;
        } else {
            begins |= reading->marks.items[mark->other].several;
            i = mark->other;
        }
    }
}

bool read_drawing(struct arena *arena, const struct source *source,
                  struct span content, struct drawn_text *drawing)
{
    struct arena *scratch = arena_create();
    struct reading reading = {
        .source = source, .arena = scratch, .drawing = drawing};
    *drawing = (struct drawn_text){.fault = NULL};
    const bool sound = measure(&reading, content, DRAWING_MOST);
    reading.arena = arena;
    if (sound)
        write_out(&reading);
    for (size_t i = 0; i < reading.marks.count; i++)
        drawing->written += reading.marks.items[i].sign == SIGN_WORD;
    arena_destroy(scratch);
    return sound;
}
