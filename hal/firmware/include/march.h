#ifndef MARCH_H
#define MARCH_H

#include <stdbool.h>
#include <stdint.h>

#define MARCH_ONE 0x55
#define MARCH_OTHER 0xAA

/* March C- over the cells from `first` up to before `end`, whose contents are lost. Inlined, and
 * without calls: it may run over the very stack that it would use. */
static inline __attribute__((always_inline)) bool march_sound(volatile uint8_t *first, volatile uint8_t *end)
{
    volatile uint8_t *cell;
    for (cell = first; cell != end; cell++) *cell = MARCH_ONE;
    for (cell = first; cell != end; cell++) {
        if (*cell != MARCH_ONE) return false;
        *cell = MARCH_OTHER;
    }
    for (cell = first; cell != end; cell++) {
        if (*cell != MARCH_OTHER) return false;
        *cell = MARCH_ONE;
    }
    while (cell != first) {
        if (*--cell != MARCH_ONE) return false;
        *cell = MARCH_OTHER;
    }
    for (cell = end; cell != first;) {
        if (*--cell != MARCH_OTHER) return false;
        *cell = MARCH_ONE;
    }
    for (cell = first; cell != end; cell++) {
        if (*cell != MARCH_ONE) return false;
    }
    return true;
}

#endif
