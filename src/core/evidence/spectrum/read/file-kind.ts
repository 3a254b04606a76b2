/** What a file is that is no text from an instrument: by its first bytes, or by how the text begins. */

interface Kind {
  readonly what: string;
  readonly hint: string;
}

const EXPORT = 'Export the spectrum on the instrument as JCAMP-DX (.jdx, .dx) or as a table (CSV).';

const picture: Kind = { what: 'a picture', hint: `A picture holds no numbers. ${EXPORT}` };
const archive: Kind = {
  what: 'a packed folder or an office document',
  hint: 'Unpack it, or save the sheet as CSV.',
};
const own: Kind = { what: 'an instrument’s or program’s own binary file', hint: EXPORT };

/** First bytes as their formats publish them. */
const BEGINNINGS: readonly (readonly [bytes: readonly number[], kind: Kind])[] = [
  [
    [0x25, 0x50, 0x44, 0x46],
    { what: 'a PDF document', hint: `A report holds no numbers. ${EXPORT}` },
  ],
  [[0x89, 0x50, 0x4e, 0x47], picture],
  [[0xff, 0xd8, 0xff], picture],
  [[0x47, 0x49, 0x46, 0x38], picture],
  [[0x42, 0x4d], picture],
  [[0x49, 0x49, 0x2a, 0x00], picture],
  [[0x4d, 0x4d, 0x00, 0x2a], picture],
  [[0x50, 0x4b, 0x03, 0x04], archive],
  [[0x1f, 0x8b], archive],
  [[0xd0, 0xcf, 0x11, 0xe0], { what: 'an old office document', hint: 'Save the sheet as CSV.' }],
  [
    [0x43, 0x44, 0x46, 0x01],
    {
      what: 'a netCDF file, as chromatographs write',
      hint: 'Export the trace as CSV or JCAMP-DX.',
    },
  ],
  [
    [0x43, 0x44, 0x46, 0x02],
    {
      what: 'a netCDF file, as chromatographs write',
      hint: 'Export the trace as CSV or JCAMP-DX.',
    },
  ],
  [[0x89, 0x48, 0x44, 0x46], own],
];

const TEXTS: readonly (readonly [beginning: RegExp, kind: Kind])[] = [
  [
    /^<!doctype\s+html|^<(?:html|head|body|script|table|div)\b/i,
    {
      what: 'a web page',
      hint: 'The download brought a page instead of the data. Fetch the file itself again.',
    },
  ],
  [/^<[?!a-z]/i, { what: 'an XML file', hint: EXPORT }],
  [/^\{\\rtf/, { what: 'a text document with layout', hint: EXPORT }],
  [/^[{[]\s*["{[\]}]/, { what: 'a JSON file', hint: EXPORT }],
];

/** Share of control characters above which it is no text: common practice. */
const CONTROL_SHARE = 0.02;

function isBinary(text: string): boolean {
  const seen = Math.min(text.length, 4096);
  let controls = 0;
  for (let at = 0; at < seen; at++) {
    const code = text.charCodeAt(at);
    if (code === 0) return true;
    if (code < 32 && code !== 9 && code !== 10 && code !== 12 && code !== 26) controls++;
  }
  return controls > CONTROL_SHARE * seen + 1;
}

/** By the bytes; `BM` alone also begins words, so that a bitmap must have a zero byte soon after. */
export function kindOfBytes(bytes: Uint8Array): Kind | undefined {
  for (const [beginning, kind] of BEGINNINGS) {
    if (!beginning.every((byte, at) => bytes[at] === byte)) continue;
    if (beginning.length > 2 || beginning[0] === 0x1f || bytes.subarray(0, 16).includes(0))
      return kind;
  }
  return undefined;
}

export function kindOfText(text: string): Kind | undefined {
  const beginning = text.slice(0, 512).trimStart();
  for (const [pattern, kind] of TEXTS) if (pattern.test(beginning)) return kind;
  return isBinary(text) ? own : undefined;
}
