#ifndef UTIL_CRC16_H
#define UTIL_CRC16_H

#include <stdint.h>

/* As the documentation of avr-libc states it in C. */
static inline uint16_t _crc_xmodem_update(uint16_t crc, uint8_t data)
{
    crc = (uint16_t)(crc ^ (data << 8));
    for (int bit = 0; bit < 8; bit++) crc = (uint16_t)(crc & 0x8000 ? (crc << 1) ^ 0x1021 : crc << 1);
    return crc;
}

#endif
