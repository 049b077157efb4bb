#ifndef UNIT_H
#define UNIT_H

#include <stdint.h>

/* Handles one of the unit's own messages, given from its kind to its check. */
void unit_message(const uint8_t *bytes, uint8_t length);

/* Counts, for the frame, a message that was not accepted. */
void unit_count_bad(void);
uint8_t unit_bad_messages(void);

/* Sends pending answers that now have room. */
void unit_poll(void);

#endif
