#ifndef AVR_PGMSPACE_H
#define AVR_PGMSPACE_H

#include <stdint.h>
#include <string.h>

#define PROGMEM
#define pgm_read_byte(at) (*(const uint8_t *)(at))
#define pgm_read_word(at) (*(const uint16_t *)(at))
#define memcpy_P memcpy

#endif
