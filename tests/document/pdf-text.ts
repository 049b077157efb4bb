/**
 * Reads a PDF back, as far as this program writes them: how many pages, and which text stands where
 * a font's own table says what its glyphs mean. Written from ISO 32000-1, 9.10.3, apart from the code
 * that writes.
 */
import { inflateSync } from 'node:zlib';

interface ReadPdf {
  readonly pages: number;
  readonly text: string;
}

interface PdfObject {
  readonly head: string;
  readonly stream: Buffer | null;
}

export function readPdf(bytes: Uint8Array): ReadPdf {
  const objects = objectsOf(Buffer.from(bytes));
  const all = [...objects.values()];
  const pages = all.filter(({ head }) => /\/Type \/Page\b(?!s)/.test(head));
  return { pages: pages.length, text: pages.map((page) => textOf(page, objects)).join('\n') };
}

function objectsOf(file: Buffer): ReadonlyMap<string, PdfObject> {
  const text = file.toString('latin1');
  const objects = new Map<string, PdfObject>();
  for (const { 1: number = '', index } of text.matchAll(/^(\d+) 0 obj$/gm)) {
    const end = text.indexOf('endobj', index);
    const body = text.slice(index, end);
    const at = body.indexOf('\nstream\n');
    if (at < 0) {
      objects.set(number, { head: body, stream: null });
      continue;
    }
    const head = body.slice(0, at);
    const length = Number(/\/Length (\d+)/.exec(head)?.[1]);
    const from = index + at + '\nstream\n'.length;
    const raw = file.subarray(from, from + length);
    const flat = head.includes('/FlateDecode') && !head.includes('/XObject');
    objects.set(number, { head, stream: flat ? inflateSync(raw) : raw });
  }
  return objects;
}

function textOf({ head }: PdfObject, objects: ReadonlyMap<string, PdfObject>): string {
  const at = (name: string, inside: string): PdfObject | undefined =>
    objects.get(new RegExp(`/${name} (\\d+) 0 R`).exec(inside)?.[1] ?? '');
  const resources = at('Resources', head)?.head ?? head;
  const meanings = new Map<string, ReadonlyMap<number, string>>();
  for (const [, name = '', number = ''] of resources.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
    const font = objects.get(number)?.head ?? '';
    meanings.set(name, meaningsOf(at('ToUnicode', font)?.stream?.toString('latin1') ?? ''));
  }
  const content = at('Contents', head)?.stream?.toString('latin1') ?? '';
  return linesOf(content, meanings).join('\n');
}

function meaningsOf(map: string): ReadonlyMap<number, string> {
  const meanings = new Map<number, string>();
  for (const [, first = '0', list = ''] of map.matchAll(
    /<([0-9a-f]+)> <[0-9a-f]+> \[([^\]]*)\]/gi,
  )) {
    [...list.matchAll(/<([^>]*)>/g)].forEach(([, codes = ''], offset) => {
      const letters = codes
        .split(' ')
        .map((code) => String.fromCharCode(Number.parseInt(code, 16)));
      meanings.set(Number.parseInt(first, 16) + offset, letters.join(''));
    });
  }
  return meanings;
}

function linesOf(
  content: string,
  meanings: ReadonlyMap<string, ReadonlyMap<number, string>>,
): readonly string[] {
  let font = '';
  const lines: string[] = [];
  let single = '';
  // Drawings are written glyph by glyph, and end with ET.
  const parts = /\/(F\d+) [\d.]+ Tf|\[([^\]]*)\] TJ|<([0-9a-f]{4})> Tj|\b(ET)\b/gi;
  for (const [, name, shown, glyph, end] of content.matchAll(parts)) {
    if (name !== undefined) font = name;
    if (glyph !== undefined) single += meanings.get(font)?.get(Number.parseInt(glyph, 16)) ?? '?';
    if (end !== undefined && single !== '') {
      lines.push(single);
      single = '';
    }
    if (shown === undefined) continue;
    const glyphs = [...shown.matchAll(/<([0-9a-f]*)>/gi)].flatMap(([, hex = '']) =>
      (hex.match(/.{4}/g) ?? []).map((glyph) => Number.parseInt(glyph, 16)),
    );
    lines.push(glyphs.map((glyph) => meanings.get(font)?.get(glyph) ?? '?').join(''));
  }
  return lines;
}

/** Without spaces and line ends: a renderer may break a text anywhere between its words. */
export const squeezed = (text: string): string => text.replaceAll(/\s/g, '');
