/* Interrupts come while the program sleeps, from chip.c, and at no other time. */
#ifndef AVR_INTERRUPT_H
#define AVR_INTERRUPT_H

#define ISR(vector) void vector(void)
#define sei() ((void)0)
#define cli() ((void)0)

#endif
