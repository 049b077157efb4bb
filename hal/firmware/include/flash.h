#ifndef FLASH_H
#define FLASH_H

#include <stdbool.h>

/* Whether the whole image has the check that the build put behind it. */
bool flash_sound(void);

/* Goes on by one slice; false when a pass has just ended with another check. */
bool flash_slice_sound(void);

/* Whether the last slice ended a pass. */
bool flash_through(void);

#endif
