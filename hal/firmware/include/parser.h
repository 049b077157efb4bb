#ifndef PARSER_H
#define PARSER_H

#include <stdint.h>

/* One byte from the host; a complete message is acted on before this returns. */
void parser_byte(uint8_t byte);

#endif
