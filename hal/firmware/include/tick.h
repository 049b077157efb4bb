#ifndef TICK_H
#define TICK_H

#include <stdint.h>

void tick_start(void);

/* Milliseconds of board time; the tick interrupt counts them. */
uint32_t tick_now_ms(void);

#endif
