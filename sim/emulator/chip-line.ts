/**
 * The serial line at the chip's pins, at the host's own rate: bytes arrive one after the other
 * whether or not the program is ready, and leave with their last bit. It models the receiver (two
 * bytes and one in its shift register, which the next one overruns, as on silicon) and a line at
 * another rate, which carries nothing. Bytes that arrive while the receiver is off are lost.
 */
import { type AVRUSART, type CPU, usart0Config } from 'avr8js';

export interface ChipLine {
  readonly receive: (bytes: Iterable<number>) => void;
  /** The processor was reset, and its clock events with it: the host keeps sending. */
  readonly resume: () => void;
}

const BITS_PER_BYTE = 10;
/** Start to stop bit must fit; the usual rule for both ends together (common practice). */
const TOLERATED_RATIO = 0.04;
const RXC = 0x80;
const OVERRUN = 0x08;
const HELD_BEHIND = 2;

export function createLine(
  cpu: CPU,
  usart: AVRUSART,
  { clockHz, hostBaud }: { readonly clockHz: number; readonly hostBaud: number },
  onTransmit: (byte: number) => void,
): ChipLine {
  const cyclesPerByte = (BITS_PER_BYTE * clockHz) / hostBaud;
  const readable = (): boolean => Math.abs(usart.baudRate / hostBaud - 1) < TOLERATED_RATIO;
  const queue: number[] = [];
  let sent = 0;
  let arrivesAtCycle: number | null = null;
  /** Waits behind the byte that the program can read. */
  const waiting: number[] = [];

  const setFlag = (flag: number, up: boolean): void => {
    const flags = cpu.data[usart0Config.UCSRA] ?? 0;
    cpu.data[usart0Config.UCSRA] = up ? flags | flag : flags & ~flag;
  };
  const offer = (byte: number): void => {
    if (!usart.rxEnable || !readable()) return;
    const isEmpty = ((cpu.data[usart0Config.UCSRA] ?? 0) & RXC) === 0;
    if (isEmpty) {
      usart.writeByte(byte, true);
      return;
    }
    const isOverrun = waiting.length === HELD_BEHIND;
    if (isOverrun) waiting.pop();
    waiting.push(byte);
    setFlag(OVERRUN, isOverrun);
  };
  const arrive = (): void => {
    offer(queue[sent++] ?? 0);
    if (sent >= queue.length) {
      queue.length = 0;
      sent = 0;
      arrivesAtCycle = null;
      return;
    }
    expectNext(arrivesAtCycle ?? cpu.cycles);
  };
  const expectNext = (afterCycle: number): void => {
    arrivesAtCycle = Math.max(afterCycle + cyclesPerByte, cpu.cycles);
    cpu.addClockEvent(arrive, Math.ceil(arrivesAtCycle) - cpu.cycles);
  };
  afterRead(cpu, () => {
    setFlag(OVERRUN, false);
    const next = waiting.shift();
    if (next !== undefined) usart.writeByte(next, true);
  });
  usart.onByteTransmit = (byte) => {
    if (!usart.txEnable || !readable()) return;
    cpu.addClockEvent(() => onTransmit(byte), Math.round(cyclesPerByte));
  };
  return {
    receive: (bytes) => {
      queue.push(...bytes);
      if (arrivesAtCycle === null && sent < queue.length) expectNext(cpu.cycles);
    },
    resume: () => {
      waiting.length = 0;
      if (arrivesAtCycle !== null) expectNext(arrivesAtCycle - cyclesPerByte);
    },
  };
}

/** The program has read a byte: the next one moves up. */
function afterRead(cpu: CPU, moveUp: () => void): void {
  const read = cpu.readHooks[usart0Config.UDR];
  cpu.readHooks[usart0Config.UDR] = (address) => {
    const byte = read?.(address) ?? 0;
    moveUp();
    return byte;
  };
}
