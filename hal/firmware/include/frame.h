#ifndef FRAME_H
#define FRAME_H

#include "adc.h"

/* Sends one frame, or skips it whole when the line has no room; its number is used up either
 * way. */
void frame_send(const struct scan *scan);

#endif
