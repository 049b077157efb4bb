#ifndef OUTPUTS_H
#define OUTPUTS_H

#include <stdbool.h>
#include <stdint.h>

/* The complete actuator state. `flags`: FLAG_SELECTOR_PRESSURE, _VENT_OPEN, _LAMP_ENABLED. */
struct outputs {
    uint8_t flags;
    uint8_t pump;
    uint8_t lamp;
};

/* Sets the actuator pins to `asked`; only the gate may call this. */
void outputs_drive(const struct outputs *asked);

/* Whether the pins, and the timer behind them, do what they were last set to. */
bool outputs_obeyed(const struct outputs *driven);

/* Whether the lamp would burn, and whether the outputs could do no harm. */
bool outputs_lamp_on(const struct outputs *outputs);
bool outputs_are_safe(const struct outputs *outputs);

/* Sets a harmless output, status lamp or buzzer, by its Firmata pin. */
void outputs_signal(uint8_t pin, bool high);

#endif
