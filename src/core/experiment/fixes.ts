import { editDistance } from '../chemistry/name-key.ts';
import type { Diagnostic } from '../diagnostic.ts';
import { unitMeant } from '../quantity/unit.ts';
import type { Names } from './names.ts';
import type { MaterialUse, VesselDeclaration } from './step.ts';

/** What a replacement is made and tried with. */
export interface FixTools {
  readonly text: string;
  readonly names: Names;
  readonly vessels: readonly VesselDeclaration[];
  readonly uses: () => readonly MaterialUse[];
  /** Whether a sentence is read. */
  readonly reads: (sentence: string) => boolean;
}

interface Marked {
  readonly text: string;
  readonly start: number;
}

type Fixer = (marked: Marked, tools: FixTools, given: string | undefined) => string | undefined;

/**
 * Adds to a diagnostic the replacement for the text that it marks, where one is plain: a name a slip
 * away from a known one, a missing or mistyped unit, a mistyped verb. None is offered that would not
 * be read. Only what has gone wrong costs anything.
 */
export function withFixes(diagnostics: readonly Diagnostic[], tools: FixTools): Diagnostic[] {
  return diagnostics.map((diagnostic) => {
    const fixer = FIXERS[diagnostic.code];
    const marked = fixer === undefined ? undefined : markedBy(diagnostic, tools.text);
    if (fixer === undefined || marked === undefined) return diagnostic;
    const { fix: given, ...rest } = diagnostic;
    const fix = fixer(marked, tools, given);
    return fix === undefined || fix === marked.text ? rest : { ...rest, fix };
  });
}

const FIXERS: Readonly<Record<string, Fixer>> = {
  'material-unknown': nearMaterial,
  'substance-unknown': ({ text }, { names }) => nearName(text, names),
  'vessel-undeclared': nearVessel,
  'amount-unreadable': ({ text }) => unitMeant(text),
  'words-not-understood': ({ text }) => unitOfFigure(text),
  'sentence-not-understood': (_marked, { reads }, given) =>
    given !== undefined && reads(given) ? given : undefined,
};

function markedBy({ at }: Diagnostic, text: string): Marked | undefined {
  if (at?.length === undefined) return undefined;
  let start = 0;
  for (let line = 1; line < at.line; line++) start = text.indexOf('\n', start) + 1;
  start += at.column - 1;
  return { text: text.slice(start, start + at.length), start };
}

const figuresIn = (name: string): string => name.replace(/\D+/g, ' ').trim();

/** One slip in a short word, two in a longer one; never in a figure, which may be a locant. */
function slips(written: string, meant: string): number {
  if (figuresIn(written) !== figuresIn(meant)) return Infinity;
  const limit = written.length < 6 ? 1 : 2;
  return editDistance(written.toLowerCase(), meant.toLowerCase(), limit);
}

/** The known name that is nearest, where it is a slip away and no other is as near. */
function nearest(written: string, known: readonly string[]): string | undefined {
  const found = known
    .map((name) => ({ name, off: slips(written, name) }))
    .filter(({ off }) => off > 0 && off < Infinity)
    .sort((a, b) => a.off - b.off);
  const [first, second] = found;
  return first === undefined || first.off === second?.off ? undefined : first.name;
}

function nearName(name: string, names: Names): string | undefined {
  const reading = names.material(name, {});
  return reading.ok || reading.kind !== 'unknown' ? undefined : nearest(name, reading.near);
}

const written = (vessels: readonly VesselDeclaration[]): string[] =>
  vessels.filter((vessel) => vessel.origin === 'written').map((vessel) => vessel.name);

function nearMaterial(
  { text, start }: Marked,
  { names, uses, vessels }: FixTools,
): string | undefined {
  const use = uses().find((each) => each.span.start === start);
  const name = use?.name;
  // A phrase that is wrapped or emphasised is left to its author
  if (name === undefined || text.split(name).length !== 2) return undefined;
  const meant = withUnit(name, names) ?? nearName(name, names) ?? nearest(name, written(vessels));
  return meant === undefined ? undefined : text.replace(name, () => meant);
}

/** "ethanol 10": a figure without a unit behind a name that is known; mL of a liquid, g of a solid. */
function withUnit(name: string, names: Names): string | undefined {
  const [, known, figure] = /^(.*\S)\s+(\d+(?:[.,]\d+)?)$/.exec(name) ?? [];
  if (known === undefined || figure === undefined) return undefined;
  const reading = names.material(known, {});
  if (!reading.ok) return undefined;
  const { substance, strength, solvent } = reading.material;
  const liquid = substance.state === 'liquid' || strength !== undefined || solvent !== undefined;
  if (!liquid && substance.state !== 'solid') return undefined;
  return `${known} ${figure} ${liquid ? 'mL' : 'g'}`;
}

function nearVessel({ text }: Marked, { vessels }: FixTools): string | undefined {
  const [, article = '', name = ''] = /^(the |an? )?(.*)$/i.exec(text) ?? [];
  const near = nearest(name, written(vessels));
  return near === undefined ? undefined : `${article}${near}`;
}

/** "to 60" in a place where only a temperature is missed, "for 10" where a time is. */
function unitOfFigure(text: string): string | undefined {
  const celsius = /^((?:to |at )?[-−–]?\d+(?:[.,]\d+)?) ?(?:C|°|º|deg\.?|degrees)?$/.exec(text);
  if (celsius) return `${celsius[1]} °C`;
  return /^for \d+(?:[.,]\d+)?$/.test(text) ? `${text} min` : undefined;
}
