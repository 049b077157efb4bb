#ifndef MESSAGE_H
#define MESSAGE_H

#include <stdbool.h>
#include <stdint.h>

#include "protocol.h"

/* Room in the transmit ring that everything but a frame leaves free, so that answers to a flood of
 * questions cannot push frames out. */
#define FRAME_RESERVE (FRAME_BODY_BYTES + 7)

/* Bytes of a whole message of ours on the line. */
#define MESSAGE_BYTES(body) ((body) + 7)

/* Fields in groups of seven bits, lowest first; the check runs along. Ask serial_room() first. */
void message_begin(uint8_t kind);
void message_field(uint32_t value, uint8_t groups);
void message_end(void);

/* A field of a received message. */
uint16_t message_read(const uint8_t *bytes, uint8_t groups);

/* Whether the last three of `length` bytes are the check of those before them. */
bool message_check(const uint8_t *bytes, uint8_t length);

#define CHECK_GROUPS 3

#endif
