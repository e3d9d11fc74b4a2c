/* Inside photo_file.c and photo_jpeg.c. */
#ifndef SEAMWRIGHT_PHOTO_FILE_H
#define SEAMWRIGHT_PHOTO_FILE_H

#include "design.h"

#define PHOTO_DAMAGED "is damaged or cut short"

/* A part of the file, its bytes unsigned. */
struct photo_bytes {
    const unsigned char *at;
    size_t length;
};

/* requires: width and height as the file claims them. Ends the program where
 * they do not fit memory.
 * ensures: NULL, or why a photo of that size is refused. */
const char *photo_size(const struct photo *photo);

/* ensures: NULL and the photo's size and turn, or what is wrong. */
const char *photo_of_jpeg(struct photo_bytes file, struct photo *photo);

#endif
