/** The fonts for PDF files: Source Sans 3, SIL Open Font Licence 1.1, from its package. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { PageFonts } from '../../document/pdf-pen.ts';

const PACKAGE = '@expo-google-fonts/source-sans-3';

export function readPageFonts(): PageFonts {
  const { resolve } = createRequire(import.meta.url);
  const read = (name: string): Uint8Array => readFileSync(resolve(`${PACKAGE}/${name}.ttf`));
  return {
    regular: read('400Regular/SourceSans3_400Regular'),
    bold: read('600SemiBold/SourceSans3_600SemiBold'),
  };
}
