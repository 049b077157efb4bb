#ifndef BUTTONS_H
#define BUTTONS_H

#include <stdint.h>

/* Call once a tick, with the ladder's counts. */
void buttons_tick(uint16_t counts);

/* Press count of each button, modulo 4, at its PRESS_SHIFT_. */
uint8_t buttons_presses(void);

#endif
