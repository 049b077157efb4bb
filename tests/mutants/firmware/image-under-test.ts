/**
 * Builds images in a scratch folder from a copy of the firmware's sources, one of which may be
 * changed, with the firmware's own Makefile. Warnings are not errors there: a test must detect a
 * change, not the compiler.
 */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { IMAGE_FILE, imageFacts } from '../../../hal/firmware/make/image-facts.ts';

export interface Built {
  readonly hexText: string;
  /** Where the image lies with its facts. */
  readonly folder: string;
}

export interface Workshop {
  /** Text of each .c file by its name. */
  readonly sources: ReadonlyMap<string, string>;
  /** Text of all other files that go into an image. */
  readonly rest: string;
  /** Builds with `text` in place of one source; null when it does not build. */
  readonly build: (change?: { readonly file: string; readonly text: string }) => Built | null;
  readonly close: () => void;
}

export function compilerVersion(): string | null {
  const { stdout, error } = spawnSync('avr-gcc', ['--version'], { encoding: 'utf8' });
  return error === undefined ? (stdout.split('\n')[0] ?? '') : null;
}

/** Headers and tools, at any depth. */
const restOf = (folder: string): string =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.endsWith('.c'))
    .map(({ parentPath, name }) => readFileSync(join(parentPath, name), 'utf8'))
    .join('');

export function openWorkshop(firmwareFolder: string): Workshop {
  const folder = mkdtempSync(join(tmpdir(), 'mutants-'));
  const names = readdirSync(firmwareFolder).filter((name) =>
    /^(?:.+\.c|include|make|selftest|Makefile)$/.test(name),
  );
  const text = (name: string) => readFileSync(join(firmwareFolder, name), 'utf8');
  for (const name of names)
    cpSync(join(firmwareFolder, name), join(folder, name), { recursive: true });
  writeFileSync(join(folder, 'Makefile'), text('Makefile').replace(' -Werror', ''));
  const compiler = compilerVersion() ?? '';
  const ownTests = readdirSync(join(firmwareFolder, 'selftest')).map((name) => `selftest/${name}`);
  const sources = new Map(
    [...names, ...ownTests].filter((name) => name.endsWith('.c')).map((n) => [n, text(n)]),
  );

  const rest = restOf(folder);
  let images = 0;

  function make(): Built | null {
    const { status } = spawnSync('make', ['-s'], { cwd: folder, stdio: 'ignore' });
    if (status !== 0) return null;
    const hexText = readFileSync(join(folder, 'build', IMAGE_FILE), 'utf8');
    const symbols = spawnSync('avr-nm', ['build/meniscus.elf'], { cwd: folder, encoding: 'utf8' });
    const facts = imageFacts(hexText, compiler, symbols.stdout);
    images += 1;
    const imageFolder = join(folder, `image-${images}`);
    mkdirSync(imageFolder);
    writeFileSync(join(imageFolder, IMAGE_FILE), hexText);
    writeFileSync(join(imageFolder, 'image.json'), JSON.stringify(facts));
    return { hexText, folder: imageFolder };
  }

  return {
    sources,
    rest,
    build: (change) => {
      if (change === undefined) return make();
      const path = join(folder, change.file);
      writeFileSync(path, change.text);
      try {
        return make();
      } finally {
        writeFileSync(path, sources.get(change.file) ?? '');
      }
    },
    close: () => rmSync(folder, { recursive: true, force: true }),
  };
}
