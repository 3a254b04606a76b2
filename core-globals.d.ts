/** The two standards beyond the language that the core uses: text as UTF-8, and SHA-256 over it. */
declare class TextEncoder {
  encode(text: string): Uint8Array<ArrayBuffer>;
}
declare const crypto: {
  readonly subtle: { digest(name: string, bytes: Uint8Array<ArrayBuffer>): Promise<ArrayBuffer> };
};
