#ifndef SWITCHES_H
#define SWITCHES_H

#include <stdint.h>

/* Current state of the safety switches, as SWITCH_ bits of the frame. */
uint8_t switches_read(void);

#endif
