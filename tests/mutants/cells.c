/* Mistakes in text drawings: the cells of a picture and of a map. */
#include <string.h>

#include "mutants.h"

typedef LIST(struct span) span_list;

static span_list words_of(struct sample *sample, const struct element *element)
{
    span_list words = {0};
    uint32_t at = element->content.start;
    struct span word;
    size_t lines;
    while (next_word(sample->source, element->content, &at, &word, &lines))
        *LIST_ADD(sample->arena, &words) = word;
    return words;
}

/* ---- a picture ---- */

static void put_cell(struct sample *sample, struct span word, char left,
                     char line, char right)
{
    char text[4] = {left, line, right, '\0'};
    if (line == '\0' || left == right)
        text[1] = '\0';
    mutant_replace(sample, KIND_CELL, RULE_NONE, word,
                   arena_copy(sample->arena, text, strlen(text)));
}

/* A plain cell: every other fabric, or a half of it on one side. */
static void mutate_plain(struct sample *sample, struct span word, char key)
{
    const struct design *design = sample->compiled.design;
    for (size_t i = 0; i < design->fabrics.count; i++) {
        const char other = design->fabrics.items[i].key;
        const size_t next = (i + 1) % design->fabrics.count;
        if (other != key) {
            put_cell(sample, word, other, '\0', '\0');
        } else {
            put_cell(sample, word, key, '/', design->fabrics.items[next].key);
            put_cell(sample, word, design->fabrics.items[next].key, '\\', key);
        }
    }
}

/* A cell of two halves: the line, the sides, both; another fabric on a side. */
static void mutate_halves(struct sample *sample, struct span word,
                          const char *token)
{
    const struct design *design = sample->compiled.design;
    const char left = token[0], line = token[1], right = token[2];
    const char flipped = line == '/' ? '\\' : '/';
    put_cell(sample, word, left, flipped, right);
    put_cell(sample, word, right, line, left);
    put_cell(sample, word, right, flipped, left);
    for (size_t i = 0; i < design->fabrics.count; i++) {
        const char other = design->fabrics.items[i].key;
        put_cell(sample, word, other, line, right);
        put_cell(sample, word, left, line, other);
    }
}

static void mutate_picture(struct sample *sample, const struct element *picture)
{
    const span_list words = words_of(sample, picture);
    for (size_t i = 0; i < words.count; i++) {
        const char *token = sample_text(sample, words.items[i]);
        if (strlen(token) == 1)
            mutate_plain(sample, words.items[i], token[0]);
        else if (strlen(token) == 3)
            mutate_halves(sample, words.items[i], token);
    }
}

/* ---- a map ---- */

/* A cell is L, L.90, L.m or L.m90. */
static void mutate_map_cell(struct sample *sample, enum rule turn_rule,
                            struct span word)
{
    static const char *const turns[] = {"", "90", "180", "270"};
    const char *token = sample_text(sample, word);
    const bool mirror = strncmp(token + 1, ".m", 2) == 0;
    const char *turn = token[1] == '\0' ? "" : token + (mirror ? 3 : 2);
    for (size_t i = 0; i < 8; i++) {
        const bool turned = strcmp(turns[i % 4], turn) != 0;
        const bool mirrored = (i >= 4) != mirror;
        if (turned == mirrored)
            continue; /* nothing or two things changed */
        mutant_replace(sample, mirrored ? KIND_MIRROR : KIND_TURN,
                       mirrored ? RULE_NONE : turn_rule, word,
                       arena_printf(sample->arena, "%c%s%s%s", token[0],
                                    i > 0 ? "." : "", i >= 4 ? "m" : "",
                                    turns[i % 4]));
    }
}

/* In rows of triangles: another patch of as many places, another shape of the
 * same patch, and both. */
static void mutate_row_cell(struct sample *sample, enum rule rule,
                            const struct element *rows, struct span word)
{
    static const char *const shapes[] = {"", ".2", ".3"};
    const char *token = sample_text(sample, word);
    for (size_t i = 0; i < rows->children.count; i++) {
        const struct element *patch = rows->children.items[i];
        const char *key = text_of(patch, ATTR_KEY, "");
        for (size_t k = 0; key[0] != '\0' && k < 3; k++)
            if (key[0] != token[0] || strcmp(token + 1, shapes[k]) != 0)
                mutant_replace(
                    sample, KIND_MAP,
                    strcmp(token + 1, shapes[k]) == 0 ? rule : RULE_NONE, word,
                    arena_printf(sample->arena, "%s%s", key, shapes[k]));
    }
}

static void mutate_map(struct sample *sample, const struct element *map)
{
    const span_list words = words_of(sample, map);
    const bool triangles = map->parent->kind == ELEMENT_TRIANGLES;
    const enum rule rule =
        triangles ? row_rule(sample, map) : setting_rule(sample, map);
    for (size_t i = 0; i < words.count; i++) {
        if (triangles)
            mutate_row_cell(sample, rule, map->parent, words.items[i]);
        else
            mutate_map_cell(sample, rule, words.items[i]);
        for (size_t k = i + 1; k < words.count; k++)
            mutant_swap(sample, KIND_CHILDREN, rule, words.items[i],
                        words.items[k]);
    }
}

void mutate_cells(struct sample *sample, const struct element *element)
{
    if (element->kind == ELEMENT_PICTURE)
        mutate_picture(sample, element);
    else if (element->kind == ELEMENT_MAP)
        mutate_map(sample, element);
}
