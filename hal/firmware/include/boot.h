#ifndef BOOT_H
#define BOOT_H

#include <stdbool.h>

/* Whether the watchdog caused the last reset. */
bool boot_after_watchdog(void);

#endif
