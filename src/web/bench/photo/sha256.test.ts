import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { sha256, sha256Here } from './sha256.ts';

const bytesOf = (text: string) => new TextEncoder().encode(text);

afterEach(() => void vi.unstubAllGlobals());

describe('SHA-256', () => {
  // FIPS 180-2, appendix B, and the empty message.
  it.each([
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
  ])('of a published message', (text, hash) => {
    expect(sha256Here(bytesOf(text))).toBe(hash);
  });

  it('is what another implementation gives, for every length', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        expect(sha256Here(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
      }),
    );
  });

  it('is the same with and without the browser’s own', async () => {
    const own = await sha256(bytesOf('abc'));
    vi.stubGlobal('crypto', {});
    expect(await sha256(bytesOf('abc'))).toBe(own);
  });
});
