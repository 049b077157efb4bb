#ifndef ANSWERS_H
#define ANSWERS_H

#include <stdint.h>

enum answer {
    ANSWER_VERSION,
    ANSWER_FIRMWARE,
    ANSWER_CAPABILITY,
    ANSWER_ANALOG_MAPPING,
    ANSWER_NO_I2C_READS,
    ANSWER_I2C_FULL,
    ANSWER_TOTAL
};

/* Notes that an answer is due; asked twice before it is sent, it is sent once. */
void answers_ask(enum answer answer);
void answers_ask_pin(uint8_t pin);

/* Sends what is due and finds room. */
void answers_poll(void);

#endif
