/* The table of embedded files, which the Makefile has made by embed.sh. */
#ifndef SEAMWRIGHT_TEMPLATES_TABLE_H
#define SEAMWRIGHT_TEMPLATES_TABLE_H

#include "templates.h"

/* Sorted by name as strcmp sorts; `template_count` rows and one of NULLs. */
extern const struct template_file template_table[];
extern const size_t template_count;

#endif
