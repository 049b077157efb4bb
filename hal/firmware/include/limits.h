#ifndef LIMITS_H
#define LIMITS_H

#include <stdbool.h>
#include <stdint.h>

#include "protocol.h"

#define NO_OFFENDER 127

/* Limits of the protection, in the order of protocol.h's LIMIT_ numbers. */
struct limits {
    uint16_t value[LIMIT_COUNT];
};

/* Puts the compiled limits in force: no longer a host's. */
void limits_restore(void);

/* A VERDICT_ on limits that a host requests, and the index of the first unacceptable one. */
uint8_t limits_judge(const struct limits *asked, uint8_t *offender);

/* Puts accepted limits in force. */
void limits_store(const struct limits *accepted);

/* All limits in force. */
void limits_read(struct limits *inForce);

/* One limit in force. Call with interrupts off, or from an interrupt. */
uint16_t limits_of(uint8_t index);

/* Whether the limits in force are a host's. */
bool limits_of_host(void);

/* Whether the copy in RAM is unchanged. Call with interrupts off, or from an interrupt. */
bool limits_intact(void);

#endif
