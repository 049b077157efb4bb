#ifndef BUTTONS_H
#define BUTTONS_H

#include <stdint.h>

/* Once a tick, with the ladder's counts. */
void buttons_tick(uint16_t counts);

/* How often each button has gone down, modulo 4, at its PRESS_SHIFT_. */
uint8_t buttons_presses(void);

#endif
