#ifndef SERIAL_H
#define SERIAL_H

#include <stdbool.h>
#include <stdint.h>

/* Takes the next byte from the host; false when there is none. */
bool serial_take(uint8_t *byte);
bool serial_waiting(void);

/* Bytes that serial_put() accepts now. */
uint8_t serial_room(void);

/* Ask serial_room() first: a byte without room is lost. */
void serial_put(uint8_t byte);

#endif
