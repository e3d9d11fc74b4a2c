/* mutate sample SEED COUNT FILE...: single changes to C sources.
 * mutate all FILE...: each of them, without a name.
 * mutate apply FILE OFFSET LENGTH TEXT: the source with one of them.
 *
 * A sample is a line for each mutant, with tabs between its fields: a name that
 * stays the same while the line does, file, line, offset and length in bytes,
 * what stands there instead, kind, and the line before and after. A line of
 * source that can be changed is taken at most once, and each is as likely as
 * another, so that folders are taken in proportion to their length; which ones
 * are taken depends on the seed and on the lines themselves, not on where they
 * stand. judge.sh runs the tests on each. Read next: find.c. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "files.h"
#include "find.h"

enum { KIND_LIMIT = 8 };

/* FNV-1a, mixed at the end, as the last bytes change the low bits alone. */
static uint64_t hash_text(uint64_t hash, const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        hash = (hash ^ (unsigned char)text[i]) * 1099511628211u;
    hash ^= hash >> 32;
    hash *= 0xd6e8feb86659fd93u;
    return hash ^ hash >> 32;
}

/* A line that can be changed, and the change that was chosen. */
struct candidate {
    const struct code *code;
    struct mutant mutant;
    uint64_t name, order;
};
struct candidates {
    LIST(struct candidate) items;
};

struct line {
    const char *text;
    size_t length;
};

static struct line line_at(const struct code *code, size_t offset)
{
    size_t start = offset, end = offset;
    while (start > 0 && code->bytes[start - 1] != '\n')
        start--;
    while (end < code->length && code->bytes[end] != '\n')
        end++;
    while (start < end && code->bytes[start] == ' ')
        start++;
    return (struct line){code->bytes + start, end - start};
}

/* How many lines above read the same. */
static size_t twins_above(const struct code *code, struct line line)
{
    size_t twins = 0;
    for (const char *at = code->bytes; at < line.text; at++)
        twins += (size_t)(line.text - at) >= line.length &&
                 memcmp(at, line.text, line.length) == 0;
    return twins;
}

/* One of the changes to a line, `first` to `end`: first a kind, as there are
 * many pairs of arguments and few comparisons, then one of it. */
static size_t pick(const struct mutants *mutants, size_t first, size_t end,
                   uint64_t hash)
{
    const char *kinds[KIND_LIMIT];
    size_t kind_count = 0, count = 0;
    for (size_t i = first; i < end; i++) {
        size_t k = 0;
        while (k < kind_count && strcmp(kinds[k], mutants->items[i].kind) != 0)
            k++;
        if (k == kind_count && kind_count < KIND_LIMIT)
            kinds[kind_count++] = mutants->items[i].kind;
    }
    const char *kind = kinds[hash % kind_count];
    for (size_t i = first; i < end; i++)
        count += strcmp(mutants->items[i].kind, kind) == 0;
    size_t nth = hash / kind_count % count;
    for (size_t i = first; i < end; i++)
        if (strcmp(mutants->items[i].kind, kind) == 0 && nth-- == 0)
            return i;
    return first;
}

static void choose(struct arena *arena, const struct code *code,
                   const struct mutants *mutants, size_t first, size_t end,
                   uint64_t seed, struct candidates *candidates)
{
    const struct line line = line_at(code, mutants->items[first].offset);
    const size_t twins = twins_above(code, line);
    uint64_t hash = hash_text(seed, code->path, strlen(code->path));
    hash = hash_text(hash, line.text, line.length);
    hash = hash_text(hash, (const char *)&twins, sizeof twins);
    struct candidate *candidate = LIST_ADD(arena, &candidates->items);
    *candidate = (struct candidate){
        code, mutants->items[pick(mutants, first, end, hash)], 0,
        hash_text(hash, "order", 5)};
    const struct mutant *mutant = &candidate->mutant;
    const char *what = arena_printf(
        arena, "%s %.*s %zu %zu %s", code->path, (int)line.length, line.text,
        twins, mutant->offset - (size_t)(line.text - code->bytes),
        mutant->text);
    candidate->name = hash_text(14695981039346656037u, what, strlen(what));
}

static void choose_in(struct arena *arena, const struct code *code,
                      uint64_t seed, struct candidates *candidates)
{
    const struct mutants mutants = find_mutants(arena, code);
    for (size_t i = 0; i < mutants.count;) {
        size_t end = i;
        while (end < mutants.count &&
               mutants.items[end].line == mutants.items[i].line)
            end++;
        choose(arena, code, &mutants, i, end, seed, candidates);
        i = end;
    }
}

static int by_order(const void *a, const void *b)
{
    const struct candidate *x = a, *y = b;
    return (x->order > y->order) - (x->order < y->order);
}

/* Of a change over several lines, all of them in one. */
static void print_candidate(struct arena *arena,
                            const struct candidate *candidate)
{
    const struct mutant *mutant = &candidate->mutant;
    const struct code *code = candidate->code;
    const struct line first = line_at(code, mutant->offset);
    const struct line last = line_at(code, mutant->offset + mutant->length);
    const size_t start = (size_t)(first.text - code->bytes);
    const size_t behind = mutant->offset + mutant->length;
    const size_t end = (size_t)(last.text - code->bytes) + last.length;
    const char *head =
        one_line(arena, code->bytes + start, mutant->offset - start);
    const char *tail = one_line(arena, code->bytes + behind, end - behind);
    printf("%016llx\t%s\t%zu\t%zu\t%zu\t%s\t%s\t%s\t%s%s%s\n",
           (unsigned long long)candidate->name, code->path, mutant->line,
           mutant->offset, mutant->length, mutant->text, mutant->kind,
           one_line(arena, code->bytes + start, end - start), head,
           mutant->text, tail);
}

static const struct code *read_code(struct arena *arena, const char *path)
{
    const struct file_content file = file_read(arena, path);
    if (file.fault != FILE_OK) {
        fprintf(stderr, "mutate: cannot read %s\n", path);
        exit(2);
    }
    struct code *code = ARENA_NEW(arena, struct code);
    *code = (struct code){path, file.bytes, file.length};
    return code;
}

static void sample(struct arena *arena, char **words, int count)
{
    const uint64_t seed = strtoull(words[2], NULL, 10) + 1;
    const size_t wanted = strtoull(words[3], NULL, 10);
    struct candidates candidates = {{NULL, 0, 0}};
    for (int i = 4; i < count; i++)
        choose_in(arena, read_code(arena, words[i]), seed, &candidates);
    if (candidates.items.count > 0)
        qsort(candidates.items.items, candidates.items.count,
              sizeof *candidates.items.items, by_order);
    for (size_t i = 0; i < candidates.items.count && i < wanted; i++)
        print_candidate(arena, &candidates.items.items[i]);
}

static void print_all(struct arena *arena, char **words, int count)
{
    for (int i = 2; i < count; i++) {
        const struct code *code = read_code(arena, words[i]);
        const struct mutants mutants = find_mutants(arena, code);
        for (size_t k = 0; k < mutants.count; k++)
            print_candidate(
                arena, &(const struct candidate){code, mutants.items[k], 0, 0});
    }
}

static void apply(struct arena *arena, char **words)
{
    const struct code *code = read_code(arena, words[2]);
    const size_t offset = strtoull(words[3], NULL, 10);
    const size_t behind = offset + strtoull(words[4], NULL, 10);
    if (behind > code->length || behind < offset) {
        fprintf(stderr, "mutate: %s has no such place\n", words[2]);
        exit(2);
    }
    fwrite(code->bytes, 1, offset, stdout);
    fputs(words[5], stdout);
    fwrite(code->bytes + behind, 1, code->length - behind, stdout);
}

int main(int count, char **words)
{
    struct arena *arena = arena_create();
    if (count >= 5 && strcmp(words[1], "sample") == 0) {
        sample(arena, words, count);
    } else if (count >= 3 && strcmp(words[1], "all") == 0) {
        print_all(arena, words, count);
    } else if (count == 6 && strcmp(words[1], "apply") == 0) {
        apply(arena, words);
    } else {
        fprintf(stderr, "usage: mutate sample SEED COUNT FILE...\n"
                        "       mutate all FILE...\n"
                        "       mutate apply FILE OFFSET LENGTH TEXT\n");
        return 2;
    }
    arena_destroy(arena);
    return fflush(stdout) == 0 ? 0 : 1;
}
