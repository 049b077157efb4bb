#ifndef COMMANDS_H
#define COMMANDS_H

#include <stdint.h>

/* Number of data bytes after a command byte; 0 for one that stands alone or is unknown. */
uint8_t command_data_bytes(uint8_t command);

/* Runs a complete plain message. */
void command_run(uint8_t command, const uint8_t *data);

/* Runs a complete sysex message, without its start and end bytes. */
void sysex_run(uint8_t command, const uint8_t *data, uint8_t length);

#endif
