#ifndef RAM_H
#define RAM_H

#include <stdbool.h>

/* Tests the next slice of the RAM and puts its contents back. */
bool ram_slice_sound(void);

/* Whether the last slice ended a pass. */
bool ram_through(void);

#endif
