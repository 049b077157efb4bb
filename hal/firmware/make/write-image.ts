/**
 * Puts a freshly built image and its facts into image/: the Makefile's `image` target, run in this
 * folder with the build folder as argument. What the facts are is decided in image-facts.ts.
 */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { IMAGE_FILE, imageFacts } from './image-facts.ts';

const build = process.argv[2] ?? 'build';
const run = (tool: string, ...options: string[]) => execFileSync(tool, options).toString();

const hexText = readFileSync(`${build}/meniscus.hex`, 'utf8');
const [compiler = ''] = run('avr-gcc', '--version').split('\n');
const facts = imageFacts(hexText, compiler, run('avr-nm', `${build}/meniscus.elf`));
writeFileSync(`image/${IMAGE_FILE}`, hexText);
writeFileSync('image/image.json', `${JSON.stringify(facts, null, 2)}\n`);
