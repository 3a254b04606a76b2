/**
 * The id of a version: the SHA-256 of its text in hexadecimal, line ends as LF and one at the end, so
 * that the same handout saved on two systems is one version.
 */
export async function versionOf(text: string): Promise<string> {
  const normal = `${text
    .replace(/^\uFEFF/, '')
    .replace(/\r\n?/g, '\n')
    .replace(/\n+$/, '')}\n`;
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(normal));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
