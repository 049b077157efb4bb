/*
 * The CRC-16/XMODEM of the image, against the one that make/seal-image.mjs puts behind it: whole at
 * the start, and again and again in slices. selftest.c decides what follows.
 */
#include "flash.h"

#include <avr/pgmspace.h>
#include <stdint.h>
#include <util/crc16.h>

#define SLICE_BYTES 32

/* The linker's: the end of code and initial values, where the check lies, lowest byte first. */
extern const uint8_t __data_load_end[];

static uint16_t at;
static uint16_t crc;

static uint16_t image_end(void)
{
    return (uint16_t)__data_load_end;
}

static bool is_the_builds(uint16_t found)
{
    return pgm_read_byte(image_end()) == (found & 0xFF) && pgm_read_byte(image_end() + 1) == found >> 8;
}

bool flash_sound(void)
{
    uint16_t whole = 0;
    for (uint16_t byte = 0; byte < image_end(); byte++) whole = _crc_xmodem_update(whole, pgm_read_byte(byte));
    return is_the_builds(whole);
}

bool flash_slice_sound(void)
{
    if (at == image_end()) at = crc = 0;
    for (uint8_t i = 0; i < SLICE_BYTES && at != image_end(); i++) crc = _crc_xmodem_update(crc, pgm_read_byte(at++));
    return at != image_end() || is_the_builds(crc);
}

bool flash_through(void)
{
    return at == image_end();
}
