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

/* Marks an answer as due; two requests before it is sent give one answer. */
void answers_ask(enum answer answer);
void answers_ask_pin(uint8_t pin);

/* Sends the answers that are due and have room. */
void answers_poll(void);

#endif
