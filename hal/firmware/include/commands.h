#ifndef COMMANDS_H
#define COMMANDS_H

#include <stdint.h>

/* Data bytes that follow a command byte; 0 for one that stands alone or is unknown. */
uint8_t command_data_bytes(uint8_t command);

/* A complete plain message. */
void command_run(uint8_t command, const uint8_t *data);

/* A complete sysex message, without its frame. */
void sysex_run(uint8_t command, const uint8_t *data, uint8_t length);

#endif
