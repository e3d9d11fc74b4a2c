/* The looks of the booklet, in one place. */
#include "look.h"

const struct color ink = {0.122, 0.141, 0.169};
/* 6.4 : 1 on white and 5.7 : 1 on the panel (WCAG 2.2). */
const struct color grey = {0.337, 0.373, 0.408};
const struct color rule_grey = {0.706, 0.733, 0.757};
/* Vanishes beside a pencil, and is still 3.5 : 1 on white. */
const struct color pencil_grey = {0.549, 0.549, 0.549};
const struct color pale = {0.933, 0.945, 0.941};
const struct color white = {1.0, 1.0, 1.0};
/* 5.8 : 1 on white; on cloth it has a white casing. */
const struct color action_red = {0.761, 0.153, 0.106};

struct color color_of(long number)
{
    return (struct color){(double)(number >> 16 & 255) / 255.0,
                          (double)(number >> 8 & 255) / 255.0,
                          (double)(number & 255) / 255.0};
}

double columns_wide(int columns)
{
    return MM(11.5) * columns + GRID_GUTTER * (columns - 1);
}

static struct text_style style(enum text_face face, double size,
                               struct color color)
{
    return (struct text_style){face, size, ALIGN_LEFT, color};
}

/* What the bookmarks name. */
struct text_style style_section(void)
{
    return style(FACE_DISPLAY, 24.0, ink);
}

struct text_style style_step(void)
{
    return style(FACE_BOLD, 13.0, ink);
}

/* Small letters of 1.8 mm: read at arm's length, beside a sewing machine. */
struct text_style style_body(void)
{
    return style(FACE_REGULAR, 9.5, ink);
}

struct text_style style_bold(void)
{
    return style(FACE_BOLD, 9.5, ink);
}

struct text_style style_small(void)
{
    return style(FACE_REGULAR, 7.5, grey);
}

/* Capitals of 1.9 mm, the least that is still read on paper. */
struct text_style style_figure(void)
{
    return style(FACE_BOLD, 7.5, ink);
}

struct text_style style_size(void)
{
    return style(FACE_REGULAR, 7.5, grey);
}

struct text_style style_cover(double size)
{
    return style(FACE_DISPLAY, size, ink);
}

struct path_item outline_wide(void)
{
    return (struct path_item){
        .stroke = LINE_MIDDLE, .stroke_color = ink, .role = ROLE_OUTLINE};
}

struct path_item outline_narrow(void)
{
    return (struct path_item){.stroke = LINE_FINE, .stroke_color = ink};
}

struct path_item casing(double stroke)
{
    return (struct path_item){.stroke = stroke + LINE_BROAD,
                              .stroke_color = white};
}
