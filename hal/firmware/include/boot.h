#ifndef BOOT_H
#define BOOT_H

#include "trips.h"

/* The trips that the last reset is a cause for. */
trip_set boot_causes(void);

/* The program has run for long enough: earlier restarts are no longer counted. */
void boot_forget_restarts(void);

#endif
