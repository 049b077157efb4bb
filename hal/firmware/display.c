/*
 * Draws text on the 20 x 4 character display (HD44780-compatible, 4-bit bus, behind a port
 * expander), one changed character a tick, never waiting. The display is initialised at the first
 * text, and again from the start whenever it answers after a silence: it may have lost power. Letters
 * of its own are loaded before text. The host decides what it shows.
 */
#include "display.h"

#include <avr/pgmspace.h>
#include <string.h>

#include "pins.h"
#include "protocol.h"
#include "twi.h"

#define CELLS (TEXT_ROWS * TEXT_COLUMNS)
#define BLANK ' '
#define NOWHERE CELLS

#define REGISTER_SELECT (1 << DISPLAY_BIT_REGISTER_SELECT)
#define ENABLE (1 << DISPLAY_BIT_ENABLE)
#define BACKLIGHT (1 << DISPLAY_BIT_BACKLIGHT)
#define HIGH_NIBBLE 0xF0
#define SET_ADDRESS 0x80
#define SET_LETTER_ADDRESS 0x40

/* The controller's data sheet requires 40 ms after power-up. */
#define SUPPLY_UP_MS 50
#define RETRY_MS 500
/* An idle display is probed this often. */
#define PROBE_MS 500

/* Initialisation by instruction, with the data sheet's waits; `whole` is false for a single
 * nibble. */
static const struct {
    uint8_t value;
    bool whole;
    uint8_t waitMs;
} setUp[] PROGMEM = {
    {0x30, false, 6}, /* 8 bits, three times: a known state from any other */
    {0x30, false, 2},
    {0x30, false, 2},
    {0x20, false, 2}, /* 4 bits */
    {0x28, true, 1},  /* two lines of memory, shown as four rows */
    {0x0C, true, 1},  /* display on, no cursor */
    {0x01, true, 4},  /* clear */
    {0x06, true, 1},  /* cursor moves right */
};
#define SET_UP_STEPS (sizeof setUp / sizeof setUp[0])

static const uint8_t rowOffsets[TEXT_ROWS] PROGMEM = {0x00, 0x40, 0x14, 0x54};

static uint8_t wanted[CELLS];
static uint8_t shown[CELLS];
/* Programmable characters: their rows, which of them the host gave, and which are not loaded. */
static uint8_t letters[LETTER_SLOTS * LETTER_ROWS];
static uint8_t given;
static uint8_t unloaded;
static uint8_t letterRow;
static bool used;
static bool answers;
static uint8_t step;
/* The cell that the next character goes to. */
static uint8_t cursor;
static uint8_t looked;
static uint32_t nextMs = SUPPLY_UP_MS;

/* Expander bytes of one write: a command and a character at most. */
static uint8_t bytes[10];
static uint8_t count;

void display_text(uint8_t row, const uint8_t *codes)
{
    if (!used) memset(wanted, BLANK, CELLS);
    used = true;
    memcpy(wanted + row * TEXT_COLUMNS, codes, TEXT_COLUMNS);
}

void display_letter(uint8_t code, const uint8_t *rows)
{
    memcpy(letters + code * LETTER_ROWS, rows, LETTER_ROWS);
    given = (uint8_t)(given | (1 << code));
    unloaded = (uint8_t)(unloaded | (1 << code));
    letterRow = 0;
}

bool display_answers(void)
{
    return answers;
}

/* The display latches a nibble on the falling edge of `enable`. */
static void add_nibble(uint8_t value, uint8_t lines)
{
    const uint8_t byte = (uint8_t)((value & HIGH_NIBBLE) | lines | BACKLIGHT);
    bytes[count++] = byte | ENABLE;
    bytes[count++] = byte;
}

/* The register is selected before `enable` rises. */
static void add_byte(uint8_t value, uint8_t lines)
{
    bytes[count++] = (uint8_t)((value & HIGH_NIBBLE) | lines | BACKLIGHT);
    add_nibble(value, lines);
    add_nibble((uint8_t)(value << 4), lines);
}

static bool send(void)
{
    return twi_write(DISPLAY_ADDRESS, bytes, count, TWI_FOR_DISPLAY);
}

static void set_up(uint32_t nowMs)
{
    const uint8_t value = pgm_read_byte(&setUp[step].value);
    count = 0;
    if (pgm_read_byte(&setUp[step].whole)) add_byte(value, 0);
    else add_nibble(value, 0);
    if (!send()) return;
    nextMs = nowMs + pgm_read_byte(&setUp[step].waitMs) + 1;
    if (++step < SET_UP_STEPS) return;
    memset(shown, BLANK, CELLS);
    cursor = NOWHERE;
    unloaded = given;
    letterRow = 0;
}

/* One row of the first letter that is not loaded. */
static void load_letter(void)
{
    uint8_t code = 0;
    while (!(unloaded & (1 << code))) code++;
    const uint8_t place = (uint8_t)(code * LETTER_ROWS + letterRow);
    count = 0;
    add_byte((uint8_t)(SET_LETTER_ADDRESS | place), 0);
    add_byte(letters[place], REGISTER_SELECT);
    if (!send()) return;
    cursor = NOWHERE;
    if (++letterRow < LETTER_ROWS) return;
    unloaded &= (uint8_t)~(1 << code);
    letterRow = 0;
}

/* The next cell that differs, from where the last search ended; NOWHERE when there is none. */
static uint8_t next_change(void)
{
    for (uint8_t i = 0; i < CELLS; i++) {
        if (wanted[looked] != shown[looked]) return looked;
        if (++looked == CELLS) looked = 0;
    }
    return NOWHERE;
}

static void draw(uint8_t cell)
{
    const uint8_t row = cell / TEXT_COLUMNS;
    const uint8_t column = (uint8_t)(cell - row * TEXT_COLUMNS);
    count = 0;
    if (cell != cursor) add_byte((uint8_t)(SET_ADDRESS | (pgm_read_byte(&rowOffsets[row]) + column)), 0);
    add_byte(wanted[cell], REGISTER_SELECT);
    if (!send()) return;
    shown[cell] = wanted[cell];
    /* The display orders its rows differently: the end of one does not lead to the next. */
    cursor = column + 1 < TEXT_COLUMNS ? (uint8_t)(cell + 1) : NOWHERE;
}

static void probe(uint32_t nowMs)
{
    bytes[0] = BACKLIGHT;
    count = 1;
    if (send()) nextMs = nowMs + PROBE_MS;
}

void display_tick(uint32_t nowMs)
{
    const enum twi_result result = twi_display_result();
    if (!used || result == TWI_PENDING) return;
    if (result == TWI_NO_ANSWER && step > 0) {
        answers = false;
        step = 0;
        nextMs = nowMs + RETRY_MS;
    }
    if (step == 0) {
        if ((int32_t)(nowMs - nextMs) >= 0) set_up(nowMs);
        return;
    }
    answers = true;
    if (step < SET_UP_STEPS) {
        if ((int32_t)(nowMs - nextMs) >= 0) set_up(nowMs);
        return;
    }
    if (unloaded) {
        load_letter();
        return;
    }
    const uint8_t cell = next_change();
    if (cell != NOWHERE) draw(cell);
    else if ((int32_t)(nowMs - nextMs) >= 0) probe(nowMs);
}
