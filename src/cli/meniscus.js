#!/usr/bin/env node
// Starts the TypeScript sources as they are; there is no build step.
import { register } from 'tsx/esm/api';

register();
await import('./main.ts');
