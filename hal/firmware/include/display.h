#ifndef DISPLAY_H
#define DISPLAY_H

#include <stdbool.h>
#include <stdint.h>

/* What a row shall show: TEXT_COLUMNS codes. Drawn from now on in the background. */
void display_text(uint8_t row, const uint8_t *codes);

/* Whether the display acknowledged the last that was sent to it. */
bool display_answers(void);

/* Once a tick: sends at most one character. */
void display_tick(uint32_t nowMs);

#endif
