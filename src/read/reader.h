/* Inside the reading stage. What the files of this folder tell each other; all
 * of it ends with `struct pattern`. */
#ifndef SEAMWRIGHT_READER_H
#define SEAMWRIGHT_READER_H

#include "grammar.h"

/* Far beyond any pattern that a person writes, and little enough for the
 * recursive walks of all stages and for the tables of allowed attributes. */
enum { LIMIT_DEPTH = 64, LIMIT_ATTRIBUTES = 256 };

/* Far more than a shelf of shared blocks, and few enough to be told as a chain.
 */
enum { LIMIT_INCLUDED = 100, LIMIT_INCLUDED_DEPTH = 8 };

/* In characters. A text of an attribute is set as a line or two (a title is set
 * large); a text of an element as a paragraph, which must fit a page; what is
 * named by an identifier stands in tables and file names. */
enum { LIMIT_TEXT = 200, LIMIT_PROSE = 3000, LIMIT_IDENTIFIER = 64 };

/* One file that is read, and how it came in. */
struct opened {
    const char *path;        /* from the folder of the source */
    struct source_part part; /* where its bytes are */
    const struct opened *by; /* the file that includes it; NULL for the first */
    struct span href;        /* where that names it */
};

/* All files of one source. */
struct source_reader {
    struct run *run;
    enum element_kind root;      /* of the first file */
    enum length_unit units;      /* what a length without a unit is in */
    LIST(struct opened *) files; /* in the order in which they come in */
    bool incomplete;             /* one could not be read */
};

/* Looks for what libxml2 must not meet: bytes that are not UTF-8, NUL, tags
 * with hundreds of attributes, nesting without end.
 * ensures: true where the text may be parsed. reports: what it found. */
bool prescan(struct run *run, const struct opened *file);

/* Parses a file into elements of the grammar, and all that it includes.
 * ensures: the root, or NULL. reports: XML mistakes, unknown names, stray
 * text, values that cannot be read. */
struct element *parse_elements(struct source_reader *all,
                               const struct opened *file);

/* Opens the source's own file. */
struct opened *open_first(struct source_reader *all);
/* Reads what the element names, and puts it behind the element. `from`: the
 * file that it stands in. reports: what cannot be read. */
void include_file(struct source_reader *all, const struct opened *from,
                  struct element *include);
/* Adds to a message about a file that cannot be read where it is included. */
void note_include(struct run *run, struct diagnostic *d,
                  const struct opened *file);

/* The name that begins here. */
struct span word_at(const char *bytes, size_t start);
/* Reads the next `name="value"` of a tag from *at on. False at the tag's end.
 */
bool next_attribute(const char *bytes, size_t *at, size_t end,
                    struct span *name, struct span *value);
/* Is it `xmlns`, or begins it so? */
bool declares_namespace(const char *bytes, struct span name);

/* reports: a name that no child of `parent` has; `empty` where its tag closes
 * itself. */
void report_unknown_element(struct run *run, const struct element *parent,
                            const char *name, struct span span, bool empty);
/* reports: a name that no attribute of the element has. ensures: it is marked.
 */
void report_unknown_attribute(struct run *run, struct element *element,
                              const char *name, struct span span);

/* Words for a mistake in the XML, by the parser's number and the byte where it
 * stopped. ensures: NULL where there are none for it. */
const char *syntax_words(int code, const char *bytes, size_t at);
/* What would mend it, or NULL. */
const char *syntax_help(int code, const char *bytes, size_t at);

/* An error was reported about the element: it and all that it stands in are
 * not sound. */
void mark_unsound(struct element *element);
/* The same, of what it has: it may lack what others need. */
void mark_faulty(struct element *element);

/* reports: a required attribute that lacks. */
void check_attributes(struct run *run, struct element *element);

/* Looks at each element of the finished tree for what is missing. */
void check_structure(struct run *run, struct element *root);

/* Fills `runs` of an element that mixes text and references, from the bytes of
 * the source, so that each character keeps its place.
 * requires: a tree that was parsed. */
void read_runs(struct run *run, struct element *element);

/* The place of some bytes of a value's text; all of it where it was written
 * with references. */
struct span value_part(const struct value *value, size_t start, size_t end);

/* reports: that the value is not what was `expected`; marks it. */
struct diagnostic *value_not_usable(struct run *run, const char *name,
                                    struct value *value, const char *expected);

/* One line of text for people, and a name of a part of the pattern.
 * reports: what cannot be one; the value is then not usable. */
void read_line_of_text(struct run *run, const char *name, struct value *value);
void read_identifier(struct run *run, const char *name, struct value *value);

/* Which fabrics play roles. reports: what is no list of them; the value is then
 * not usable. */
void read_casts(struct run *run, const char *name, struct value *value);

/* Names with blanks between. reports: what is no list of them; the value is
 * then not usable. */
void read_names(struct run *run, const char *name, struct value *value);

/* Reads the text of the attribute `value->id` into `value`.
 * reports: a text that cannot be read; the value is then not usable. */
void read_value(struct run *run, struct value *value, enum length_unit units);

#endif
