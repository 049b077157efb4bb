#ifndef OUTPUTS_H
#define OUTPUTS_H

#include <stdbool.h>
#include <stdint.h>

/* The whole picture of the actuators. `flags`: FLAG_SELECTOR_PRESSURE, _VENT_OPEN, _LAMP_ENABLED. */
struct outputs {
    uint8_t flags;
    uint8_t pump;
    uint8_t lamp;
};

void outputs_start(void);

/* Puts the actuators' pins where `asked` says; for the gate alone. */
void outputs_drive(const struct outputs *asked);

/* Whether the lamp would burn, and whether nothing could do harm. */
bool outputs_lamp_on(const struct outputs *outputs);
bool outputs_are_safe(const struct outputs *outputs);

/* The harmless outputs: status lamp and buzzer, by their Firmata pin. */
void outputs_signal(uint8_t pin, bool high);

#endif
