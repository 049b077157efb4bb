/** The parts of firmata-io 2.3 that the driver uses; the package brings no types of its own. */
declare module 'firmata-io' {
  import type { EventEmitter } from 'node:events';

  namespace firmata {
    interface Transport extends EventEmitter {
      readonly write: (bytes: Buffer, done?: () => void) => void;
    }

    interface Options {
      /** Milliseconds. */
      readonly reportVersionTimeout: number;
      /** Milliseconds. */
      readonly samplingInterval?: number;
    }

    class Firmata extends EventEmitter {
      constructor(transport: Transport, options: Options);
      readonly firmware: {
        readonly name?: string;
        readonly version?: { readonly major: number; readonly minor: number };
      };
      readonly pins: readonly { readonly supportedModes: readonly number[] }[];
      /** Firmata pin of each analogue channel. */
      readonly analogPins: readonly number[];
      /** Bytes of the incomplete message. */
      readonly buffer: number[];
      readonly reportVersionTimeoutId: NodeJS.Timeout;
      sysexResponse(command: number, handler: (this: Firmata, data: number[]) => void): this;
      sysexCommand(message: readonly number[]): this;
      setSamplingInterval(intervalMs: number): void;
    }
  }
  export = firmata;
}
