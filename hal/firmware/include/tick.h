#ifndef TICK_H
#define TICK_H

#include <stdint.h>

/* Board time in milliseconds, counted by the tick interrupt. */
uint32_t tick_now_ms(void);

#endif
