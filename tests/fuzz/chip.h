#ifndef CHIP_H
#define CHIP_H

#include <stddef.h>
#include <stdint.h>

/* First bytes of an input: bytes that come in a millisecond, quiet milliseconds after them, and what
 * surrounds the board. The rest is what comes on the line. */
#define HEADER_BYTES 3

enum surroundings {
    SHIELD_OPENS = 1,
    PRESSURE_SWITCH_OPENS = 2,
    STOP_PRESSED = 4,
    HOST_DOES_NOT_READ = 8,
    DISPLAY_ABSENT = 16,
    BUS_HANGS = 32,
    CONVERTER_STALLS = 64,
};

/* Runs the firmware from power-up until the input has come and a little time has passed. */
void chip_run(const uint8_t *input, size_t size);

/* Milliseconds since each was so without a break. */
extern unsigned shieldOpenMs, pressureSwitchOpenMs, stopPressedMs;

#endif
