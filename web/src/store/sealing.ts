/** Sealing bytes with a passphrase: PBKDF2 with SHA-256, then AES-GCM of 256
 * bits. The passphrase itself is nowhere kept: while the page is open there is
 * only a key that cannot be read out, from which the key of each write is made.
 */

/** Bytes as WebCrypto takes them. */
export type Bytes = Uint8Array<ArrayBuffer>;

/** The figure that the OWASP Password Storage Cheat Sheet asks of PBKDF2 with
 * HMAC-SHA-256 (600,000 or more, since 2023). */
export const kRounds = 600_000;

/** A store asking for more rounds than this was not written by this page, and
 * would only keep the machine busy. */
const kMostRounds = 10 * kRounds;

const kVersion = 1;
const kSaltBytes = 16;
/** As NIST SP 800-38D advises for GCM: 96 bits. */
const kNonceBytes = 12;

/** What is stored: nothing in it can be read without the passphrase. */
export interface Sealed {
  version: number;
  rounds: number;
  salt: Bytes;
  nonce: Bytes;
  cipher: ArrayBuffer;
}

/** The passphrase does not open it, or it was changed since. AES-GCM does not
 * tell these two apart, and so neither does the sentence. */
export class WrongPassphrase extends Error {
  constructor() {
    super('That passphrase does not open what is kept here, or what is kept was damaged.');
    this.name = 'WrongPassphrase';
  }
}

/** What may be used for sealing while the page is open. */
export async function keyOf(passphrase: string): Promise<CryptoKey> {
  // The same passphrase typed on another keyboard may come in another form of
  // Unicode, so it is brought to one.
  const bytes = new TextEncoder().encode(passphrase.normalize('NFKC'));
  return crypto.subtle.importKey('raw', bytes, 'PBKDF2', false, ['deriveKey']);
}

async function writeKey(key: CryptoKey, salt: Bytes, rounds: number): Promise<CryptoKey> {
  return crypto.subtle.deriveKey(
    { name: 'PBKDF2', hash: 'SHA-256', salt, iterations: rounds }, key,
    { name: 'AES-GCM', length: 256 }, false, ['encrypt', 'decrypt']);
}

/** The figures beside the cipher are sealed with it: who changes them, breaks it. */
function figures(version: number, rounds: number): Bytes {
  return new TextEncoder().encode(`sheaf ${version} ${rounds}`);
}

/** Every write has a salt and a nonce of its own. */
export async function seal(key: CryptoKey, bytes: Bytes, rounds = kRounds): Promise<Sealed> {
  const salt = crypto.getRandomValues(new Uint8Array(kSaltBytes));
  const nonce = crypto.getRandomValues(new Uint8Array(kNonceBytes));
  const cipher = await crypto.subtle.encrypt(
    { name: 'AES-GCM', iv: nonce, additionalData: figures(kVersion, rounds) },
    await writeKey(key, salt, rounds), bytes);
  return { version: kVersion, rounds, salt, nonce, cipher };
}

/** Throws WrongPassphrase where it cannot be opened. */
export async function unseal(key: CryptoKey, sealed: Sealed): Promise<Bytes> {
  if (sealed.version !== kVersion || sealed.rounds > kMostRounds || sealed.rounds < 1) {
    throw new WrongPassphrase();
  }
  try {
    return new Uint8Array(await crypto.subtle.decrypt(
      { name: 'AES-GCM', iv: sealed.nonce,
        additionalData: figures(sealed.version, sealed.rounds) },
      await writeKey(key, sealed.salt, sealed.rounds), sealed.cipher));
  } catch {
    throw new WrongPassphrase();
  }
}

/** Whether what the browser gave back has the shape of what was stored. */
export function isSealed(value: unknown): value is Sealed {
  if (typeof value !== 'object' || value === null) return false;
  const v = value as Partial<Record<keyof Sealed, unknown>>;
  return typeof v.version === 'number' && typeof v.rounds === 'number' &&
    Number.isInteger(v.rounds) && v.salt instanceof Uint8Array &&
    v.nonce instanceof Uint8Array && v.cipher instanceof ArrayBuffer;
}
