#ifndef DISPLAY_H
#define DISPLAY_H

#include <stdbool.h>
#include <stdint.h>

/* Sets a row's text to TEXT_COLUMNS codes, drawn from now on in the background. */
void display_text(uint8_t row, const uint8_t *codes);

/* One programmable character: LETTER_ROWS rows from the top. `code` is below LETTER_SLOTS. */
void display_letter(uint8_t code, const uint8_t *rows);

/* Whether the display acknowledged the last write. */
bool display_answers(void);

/* Call once a tick: sends at most one character. */
void display_tick(uint32_t nowMs);

#endif
