#ifndef TRIPS_H
#define TRIPS_H

#include <stdint.h>

#include "protocol.h"

/* Trips as a set, one bit each. */
typedef uint32_t trip_set;

#define TRIP(NAME) ((trip_set)1 << TRIP_##NAME)

#endif
