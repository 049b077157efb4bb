/** Lets a test process import the sources as they stand: Node 20 runs no TypeScript. */
import { register } from 'node:module';

register('./load.js', import.meta.url);
