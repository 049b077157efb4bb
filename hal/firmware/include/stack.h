#ifndef STACK_H
#define STACK_H

#include <stdbool.h>

/* The canary at the end of the stack's room, above the program's data. */
void stack_paint(void);
bool stack_sound(void);

#endif
