#ifndef PINS_FIRMATA_H
#define PINS_FIRMATA_H

#include <stdbool.h>
#include <stdint.h>

#define NO_MODE 0x7F

/* Resolution in bits of a pin in a mode; 0 where the pin does not have the mode. */
uint8_t pins_resolution(uint8_t pin, uint8_t mode);

void pins_reset(void);
void pins_set_mode(uint8_t pin, uint8_t mode);

/* For PIN_STATE_QUERY; NO_MODE for a pin without one. */
uint8_t pins_mode(uint8_t pin);
uint8_t pins_state(uint8_t pin);

/* Only status lamp and buzzer take a level, and nothing takes a duty: one for an actuator is counted
 * as a bad message. */
void pins_write_level(uint8_t pin, bool high);
void pins_refuse_duty(uint8_t pin);

/* Writes eight pins at once; only signals in output mode take part. */
void pins_write_port(uint8_t port, uint16_t levels);

#endif
