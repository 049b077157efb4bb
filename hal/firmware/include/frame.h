#ifndef FRAME_H
#define FRAME_H

#include "adc.h"

/* Sends one frame, or leaves it out whole where the line has no room: its number is used up. */
void frame_send(const struct scan *scan);

#endif
