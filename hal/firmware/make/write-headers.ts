/**
 * Writes pins.h and protocol.h into include/ of the folder it is run in: the Makefile's `headers` target, after
 * the pin map or the protocol changed. What they hold is decided in headers.ts.
 */
import { writeFileSync } from 'node:fs';
import { pinsHeader, protocolHeader } from './headers.ts';

writeFileSync('include/pins.h', pinsHeader());
writeFileSync('include/protocol.h', protocolHeader());
