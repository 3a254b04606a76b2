/** The first 32 bits of the fractional parts of the cube roots of the first 64 primes (FIPS 180-4). */
const K = roots(64, 1 / 3);
/** Of the square roots of the first 8 primes. */
const START = roots(8, 1 / 2);

function roots(count: number, power: number): Uint32Array {
  const found: number[] = [];
  for (let n = 2; found.length < count; n++)
    if (!found.some((prime) => n % prime === 0)) found.push(n);
  return Uint32Array.from(found, (prime) => (prime ** power % 1) * 2 ** 32);
}

/**
 * SHA-256 after FIPS 180-4, in lower-case hexadecimal. `crypto.subtle` does it where there is one:
 * an address of the laboratory's own network without https has none.
 */
export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const { subtle } = crypto as { readonly subtle?: SubtleCrypto };
  if (subtle === undefined) return sha256Here(bytes);
  return hexOf(new Uint8Array(await subtle.digest('SHA-256', bytes)));
}

export function sha256Here(bytes: Uint8Array): string {
  const blocks = padded(bytes);
  const state = Uint32Array.from(START);
  for (let at = 0; at < blocks.byteLength; at += 64) digestBlock(state, blocks, at);
  const digest = new DataView(new ArrayBuffer(32));
  state.forEach((word, i) => digest.setUint32(4 * i, word));
  return hexOf(new Uint8Array(digest.buffer));
}

const hexOf = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');

/** A one bit, noughts, and the length in bits at the end of a whole block. */
function padded(bytes: Uint8Array): DataView {
  const length = Math.ceil((bytes.length + 9) / 64) * 64;
  const all = new Uint8Array(length);
  all.set(bytes);
  all[bytes.length] = 0x80;
  const view = new DataView(all.buffer);
  view.setBigUint64(length - 8, BigInt(bytes.length) * 8n);
  return view;
}

const turned = (word: number, bits: number): number => (word >>> bits) | (word << (32 - bits));

function digestBlock(state: Uint32Array, blocks: DataView, at: number): void {
  const w = new Uint32Array(64);
  for (let t = 0; t < 64; t++) {
    if (t < 16) w[t] = blocks.getUint32(at + 4 * t);
    else {
      const a = w[t - 15]!;
      const b = w[t - 2]!;
      const s0 = turned(a, 7) ^ turned(a, 18) ^ (a >>> 3);
      const s1 = turned(b, 17) ^ turned(b, 19) ^ (b >>> 10);
      w[t] = w[t - 16]! + s0 + w[t - 7]! + s1;
    }
  }
  let [a, b, c, d, e, f, g, h] = state as unknown as Eight;
  for (let t = 0; t < 64; t++) {
    const s1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
    const t1 = (h + s1 + ((e & f) ^ (~e & g)) + K[t]! + w[t]!) | 0;
    const s0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
    const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + t1) | 0, c, b, a, (t1 + t2) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => (state[i] = state[i]! + word));
}

type Eight = [number, number, number, number, number, number, number, number];
