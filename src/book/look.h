/* What all pages look like: a grid, four sizes of type, three widths of lines,
 * few colors. Nothing else in this folder has a number of its own for any of
 * them. Lengths are points. */
#ifndef SEAMWRIGHT_LOOK_H
#define SEAMWRIGHT_LOOK_H

#include "book.h"

/* Millimetres in points. */
#define MM(millimetres) ((millimetres)*72.0 / 25.4)

/* ---- grid: 12 columns of 11.5 mm with gutters of 4 mm, on both papers ---- */

#define GRID_WIDTH MM(182.0)
#define GRID_GUTTER MM(4.0)
/* How wide so many columns are, with the gutters between them. */
double columns_wide(int columns);

/* ---- color ---- */

extern const struct color ink;  /* text, outlines */
extern const struct color grey; /* second ink: foot, heads of tables, sizes */
extern const struct color rule_grey;   /* lines of tables */
extern const struct color pencil_grey; /* lines to color along */
extern const struct color pale; /* panel behind a result, the legend, a map */
extern const struct color white;
extern const struct color action_red; /* what hands do: sew, cut, press, turn */

/* 0xrrggbb */
struct color color_of(long number);

/* ---- type: 24, 13, 9.5 and 7.5 points ---- */

struct text_style style_section(void); /* heads of sections, numerals */
struct text_style style_step(void);    /* titles of steps and cloths */
struct text_style style_body(void);
struct text_style style_bold(void);
struct text_style style_small(void);  /* heads of tables, notes to them, foot */
struct text_style style_figure(void); /* names of parts in figures */
struct text_style style_size(void);   /* dimensions in figures */
/* Only the cover is fitted to its measure. */
struct text_style style_cover(double size);

/* ---- lines: 0.18, 0.35 and 0.7 mm, the series 1 : 2 : 4 of ISO 128 ---- */

#define LINE_FINE MM(0.18)
#define LINE_MIDDLE MM(0.35)
#define LINE_BROAD MM(0.7)
struct path_item outline_wide(void);   /* of a part as it lies */
struct path_item outline_narrow(void); /* seams, leaders, dimensions */
/* White under a line that crosses cloth, broader by the broad line. */
struct path_item casing(double stroke);

/* ---- space ---- */

#define SPACE_QUARTER MM(1.2)
#define SPACE_HALF MM(2.2)
#define SPACE_LINE MM(4.4)
#define SPACE_STEP MM(8.8)
#define SPACE_MOST MM(13.2)

#endif
