#ifndef SWITCHES_H
#define SWITCHES_H

#include <stdint.h>

void switches_start(void);

/* The safety switches now, as SWITCH_ bits of the frame. */
uint8_t switches_read(void);

#endif
