#ifndef PINS_FIRMATA_H
#define PINS_FIRMATA_H

#include <stdbool.h>
#include <stdint.h>

#define NO_MODE 0x7F

/* Whether a pin can be in a mode, and with how many bits; 0 where it cannot. */
uint8_t pins_resolution(uint8_t pin, uint8_t mode);

void pins_reset(void);
void pins_set_mode(uint8_t pin, uint8_t mode);

/* For PIN_STATE_QUERY; NO_MODE where a pin has none. */
uint8_t pins_mode(uint8_t pin);
uint8_t pins_state(uint8_t pin);

void pins_write_level(uint8_t pin, bool high);
void pins_write_duty(uint8_t pin, uint16_t duty);

/* Eight pins at once; only those whose mode is output take part. */
void pins_write_port(uint8_t port, uint16_t levels);

#endif
