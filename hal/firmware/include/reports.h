#ifndef REPORTS_H
#define REPORTS_H

#include <stdbool.h>
#include <stdint.h>

void reports_analog(uint8_t channel, bool on);
void reports_digital(uint8_t port, bool on);

/* Sets the sampling interval; the first time, frames begin. */
void reports_interval(uint16_t intervalMs);

/* No frames and no reports until asked again. */
void reports_stop(void);

/* Once a tick. */
void reports_tick(uint32_t nowMs);

#endif
