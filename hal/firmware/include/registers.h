#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdbool.h>

/* Sets the chip up, at the start and again in every tick. False when a register differed from
 * what it should hold. Call with interrupts off, or from an interrupt. */
bool registers_hold(void);

#endif
