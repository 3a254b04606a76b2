/** A text as its version counts it: no byte order mark, line ends as LF and one at the end. */
export function normalText(text: string): string {
  return `${text
    .replace(/^\uFEFF/, '')
    .replace(/\r\n?/g, '\n')
    .replace(/\n+$/, '')}\n`;
}

/**
 * The id of a version: the SHA-256 of its normal text in hexadecimal, so that the same handout saved
 * on two systems is one version.
 */
export async function versionOf(text: string): Promise<string> {
  const bytes = new TextEncoder().encode(normalText(text));
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
