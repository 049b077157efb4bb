#ifndef BUTTONS_H
#define BUTTONS_H

#include <stdint.h>

/* Call once a tick, with the ladder's counts. */
void buttons_tick(uint16_t counts);

/* Press count of each button, modulo 4, at its PRESS_SHIFT_. */
uint16_t buttons_presses(void);

/* The LADDER_ step that the ladder has stayed on last. */
uint8_t buttons_ladder(void);

#endif
