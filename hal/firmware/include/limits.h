#ifndef LIMITS_H
#define LIMITS_H

#include <stdbool.h>
#include <stdint.h>

#include "protocol.h"

#define NO_OFFENDER 127

/* Limits of the protection, in the order of the LIMIT_ numbers of protocol.h. */
struct limits {
    uint16_t value[LIMIT_COUNT];
};

/* Puts the compiled limits in force. */
void limits_restore(void);

/* A VERDICT_ on limits that a host asks for, and the index of the first that is not acceptable. */
uint8_t limits_judge(const struct limits *asked, uint8_t *offender);

/* Puts accepted limits in force. */
void limits_store(const struct limits *accepted);

/* All limits in force. */
void limits_read(struct limits *inForce);

/* One limit in force; with interrupts off, or from one. */
uint16_t limits_of(uint8_t index);

/* Whether the copy in RAM still is what was stored; with interrupts off, or from one. */
bool limits_intact(void);

#endif
