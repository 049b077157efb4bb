/**
 * The private key with which a unit signs its entries: made at first use, readable by its account
 * only, and kept outside every folder of records, so that a copy of the records cannot sign. It is
 * never replaced: a file that cannot be read is reported and left as it is. Whoever can use the
 * account that runs the unit can also use its key.
 */
import { createPrivateKey, generateKeyPairSync, type KeyObject, randomBytes } from 'node:crypto';
import { existsSync, linkSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Checked } from '../../core/settings.ts';
import { closeToOthers, makePrivateFolder, writePrivate } from '../../journal/private-file.ts';
import { type Signer, signerOf } from './signature.ts';

export interface Unit {
  /** Where key and remembered heads lie. */
  readonly folder: string;
  readonly signer: Signer;
}

export const KEY_FILE = 'unit-key.pem';

export const keyPath = (folder: string): string => join(folder, KEY_FILE);

/** Makes the key where there is none. */
export function openUnit(folder: string): Checked<Unit> {
  const path = keyPath(folder);
  try {
    if (!existsSync(path)) makeKey(folder);
    closeToOthers(path);
    return { ok: true, value: { folder, signer: signerOf(readKey(path)) } };
  } catch (error) {
    const value = `not usable (${error instanceof Error ? error.message : String(error)})`;
    const accepted = 'an Ed25519 private key in PEM, or a folder in which one can be made';
    return { ok: false, problems: [{ file: path, path: '', value, accepted }] };
  }
}

/** The key, where there is one; nothing is made. */
export const knownUnit = (folder: string): Unit | null => {
  const opened = existsSync(keyPath(folder)) ? openUnit(folder) : null;
  return opened?.ok === true ? opened.value : null;
};

function readKey(path: string): KeyObject {
  const key = createPrivateKey(readFileSync(path));
  if (key.asymmetricKeyType === 'ed25519') return key;
  throw new Error(`a key of type ${key.asymmetricKeyType}`);
}

/** Written under another name first, and never over a key that another program just made. */
function makeKey(folder: string): void {
  makePrivateFolder(folder);
  const { privateKey } = generateKeyPairSync('ed25519');
  const fresh = `${keyPath(folder)}.${randomBytes(6).toString('hex')}.part`;
  writePrivate(fresh, privateKey.export({ format: 'pem', type: 'pkcs8' }), 'wx');
  try {
    linkSync(fresh, keyPath(folder));
  } catch (error) {
    if (!existsSync(keyPath(folder))) throw error;
  } finally {
    rmSync(fresh, { force: true });
  }
}
