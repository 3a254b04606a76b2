export interface Paper {
  readonly size: 'a4' | 'letter';
  /** At the foot of every page: which version of which experiment. */
  readonly foot: string;
}

const quoted = (text: string) => `"${text.replace(/[\\"]/g, '\\$&').replace(/[\n\r\f]/g, ' ')}"`;

/** How the pages lie: words upright, the flow sheet across, and the version at the foot of each. */
export function pageRules({ size, foot }: Paper): string {
  const box = `@bottom-left { content: ${quoted(foot)}; font-size: 8pt } @bottom-right { content: counter(page) " / " counter(pages); font-size: 8pt }`;
  return [
    `@page { size: ${size} portrait; margin: 16mm 16mm 18mm; ${box} }`,
    `@page across { size: ${size} landscape; margin: 14mm 14mm 18mm; ${box} }`,
  ].join('\n');
}

/** Which version a print is of, by number, the beginning of its hash, and whether it is that. */
export function footOf(of: {
  readonly title: string;
  readonly number: number;
  readonly name: string | null;
  readonly document: string;
  readonly kept: boolean;
}): string {
  const { title, number, name, document, kept } = of;
  const called = name === null ? '' : ` “${name}”`;
  const version = kept
    ? `version ${number}${called} (${document.slice(0, 12)})`
    : `changed after version ${number}${called}, not kept as a version yet`;
  return `${title} · ${version} · Weighboat`;
}
