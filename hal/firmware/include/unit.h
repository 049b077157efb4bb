#ifndef UNIT_H
#define UNIT_H

#include <stdint.h>

/* A message of the unit's own: from its kind to its check. */
void unit_message(const uint8_t *bytes, uint8_t length);

/* Something arrived that could not be taken; counted for the frame. */
void unit_count_bad(void);
uint8_t unit_bad_messages(void);

/* Sends the answers that wait for room. */
void unit_poll(void);

#endif
