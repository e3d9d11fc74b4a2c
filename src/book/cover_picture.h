/* Pictures of cover and back: the quilt as it will lie there, the strip of its
 * first unit, photo and logo. Lengths are points. */
#ifndef SEAMWRIGHT_COVER_PICTURE_H
#define SEAMWRIGHT_COVER_PICTURE_H

#include "section.h"

/* The first unit that is sewn, side by side over `width`; about `height` high,
 * so that whole units fill the width. */
struct box *ornament(const struct booklet *booklet, double width,
                     double height);

/* A ground in a pale shade of the quilt's middle cloth. */
struct box *ground_box(const struct booklet *booklet, double width,
                       double height);
/* The same, with the quilt upon it: its binding, its shadow, and where it has a
 * backing, a corner that is turned up. `cloth` is the drawing of the top. */
struct box *quilt_on_ground(const struct booklet *booklet, double width,
                            double height, const struct box *cloth);
/* The box that the top's drawing may fill on such a ground. */
struct figure_size quilt_room(double width, double height);

/* The same cloth of light and dark, in the middle of those that are used. */
struct color middle_cloth(const struct booklet *booklet);

/* A photo or logo, as large as fits into `width` by `height`. */
struct box *photo_box(const struct canvas *canvas, const struct photo *photo,
                      double width, double height);
/* The logo as a figure told in words. requires: a logo. */
struct box *logo_box(struct booklet *booklet, double width, double height);

#endif
