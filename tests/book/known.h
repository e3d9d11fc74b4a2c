/* Breaches that are known. A check asks as much as the design of the pages
 * does, and what is broken today stands in a table of its test, each with its
 * place: so anything new fails, and nothing is asked less because of it. */
#ifndef SEAMWRIGHT_TESTS_KNOWN_H
#define SEAMWRIGHT_TESTS_KNOWN_H

#include "pages.h"

struct known {
    int rule;             /* of the eighteen checks */
    const char *language; /* of the booklet */
    const char *where;    /* how the booklet's name begins */
    const char *pages;    /* "3 4 11", from 1; 0 for the booklet */
    const char *what;     /* what is broken there, or what would mend it */
};

static inline bool lists_page(const char *pages, size_t page)
{
    while (*pages != '\0') {
        size_t one = 0;
        sscanf(pages, "%zu", &one);
        if (one == page)
            return true;
        pages += strcspn(pages, " ");
        pages += strspn(pages, " ");
    }
    return false;
}

/* requires: a table that ends with a rule of 0. */
static inline bool is_known(const struct visit *visit, int rule, size_t page)
{
    const struct known *known = visit->all->known;
    for (; known != NULL && known->rule != 0; known++)
        if (known->rule == rule && lists_page(known->pages, page) &&
            strcmp(visit->book->language, known->language) == 0 &&
            strncmp(visit->where, known->where, strlen(known->where)) == 0)
            return true;
    return false;
}

/* A breach of a rule on a page, from 1, unless it is known. */
__attribute__((format(printf, 4, 5))) static inline void
breach_at(struct visit *visit, int rule, size_t page, const char *format, ...)
{
    if (is_known(visit, rule, page))
        return;
    va_list arguments;
    va_start(arguments, format);
    char text[400];
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    breach(visit->breaches, "rule %d, page %zu: %s", rule, page, text);
}

#endif
