import type { MainModule, Mol } from '@rdkit/rdkit';
import { compositionOf } from '../core/chemistry/composition.ts';
import type { Composition } from '../core/chemistry/composition.ts';
import { symbolOf } from '../core/chemistry/element.ts';
import { readSmiles } from '../core/chemistry/smiles.ts';
import type { DrawnPlaces, DrawingOptions, Refused, SchemePart, StructureKit } from './port.ts';
import { compilePattern, matchesIn, patternSetOf } from './pattern-set.ts';
import { layScheme, written } from './scheme.ts';
import type { Picture, SchemeItem } from './scheme.ts';
import { page } from './svg.ts';

/** Characters. A chain of 900 atoms overruns the toolkit's memory, and 500 take it a second. */
const LONGEST = 500;
const MOST_PARTS = 12;
/** px a bond where a drawing takes its own size; in schemes all molecules share it. */
const BOND = 26;
const MOST_PX = 4000;

const refuse = (message: string): Refused => ({ ok: false, message });

/** Why a structure could not be read: our own reader names the place where it can. */
function whyNot(smiles: string): Refused {
  const reading = readSmiles(smiles);
  if (!reading.ok) return refuse(`${reading.message} (column ${reading.column + 1} of the SMILES)`);
  return refuse('The structure toolkit cannot read this structure.');
}

/** Lends out a molecule and takes it back: the toolkit's memory is not collected by itself. */
function withMolecule<T>(
  module: MainModule,
  smiles: string,
  use: (molecule: Mol) => T,
): T | Refused {
  if (smiles.trim() === '') return refuse('Here a structure is missing.');
  if (smiles.length > LONGEST) return refuse(`A SMILES of more than ${LONGEST} characters.`);
  let molecule: Mol | null = null;
  try {
    molecule = module.get_mol(smiles.trim());
    return molecule === null ? whyNot(smiles) : use(molecule);
  } catch (error) {
    if (!(error instanceof WebAssembly.RuntimeError)) return whyNot(smiles);
    // Its memory is spoilt, for whatever else it is asked: whoever comes next loads it afresh.
    molecule = null;
    loading = undefined;
    return refuse('This structure is more than the structure toolkit can hold.');
  } finally {
    molecule?.delete();
  }
}

function withPattern<T>(module: MainModule, smarts: string, use: (pattern: Mol) => T): T | Refused {
  const pattern = compilePattern(module, smarts);
  if (pattern === null) return refuse(`${smarts} is no pattern in SMARTS.`);
  try {
    return use(pattern);
  } catch {
    return refuse(`${smarts} is no pattern in SMARTS.`);
  } finally {
    pattern.delete();
  }
}

interface JsonAtom {
  readonly z?: number;
  readonly impHs?: number;
  readonly chg?: number;
  readonly isotope?: number;
}

/** Counts the atoms of the toolkit's own description; hydrogen-2 and -3 are D and T. */
function compositionIn(molecule: Mol): Composition {
  const described = JSON.parse(molecule.get_json()) as {
    defaults: { atom: JsonAtom };
    molecules: readonly { atoms: readonly JsonAtom[] }[];
  };
  const counts: [string, number][] = [];
  let charge = 0;
  for (const written of described.molecules[0]?.atoms ?? []) {
    const atom = { ...described.defaults.atom, ...written };
    const z = atom.z ?? 6;
    const symbol =
      z === 1 && atom.isotope === 2 ? 'D' : z === 1 && atom.isotope === 3 ? 'T' : symbolOf(z);
    if (symbol === undefined) throw new Error(`no element ${z}`);
    counts.push([symbol, 1], ['H', atom.impHs ?? 0]);
    charge += atom.chg ?? 0;
  }
  return compositionOf(counts, charge);
}

/** One stroke or letter of the toolkit's SVG in our ink, with attributes in place of a style. */
function inInk(path: string): string {
  const style = new Map(
    [...path.matchAll(/([a-z-]+):([^;']+)[;']/g)].map((match) => [match[1]!, match[2]!]),
  );
  const outline = / d='([^']*)'/.exec(path)?.[1] ?? '';
  const filled = style.size === 0 || style.get('fill') !== 'none';
  const width = Number.parseFloat(style.get('stroke-width') ?? '0');
  const dashes = style.get('stroke-dasharray');
  return (
    `<path d="${outline.trim().replace(/\s+/g, ' ')}"${filled ? ' fill="currentColor"' : ''}` +
    `${width > 0 ? ` stroke="currentColor" stroke-width="${width}"` : ''}` +
    `${dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`}/>`
  );
}

const TURNS: readonly ((molecule: Mol) => void)[] = [
  (molecule) => molecule.straighten_depiction(true),
  (molecule) => molecule.straighten_depiction(false),
  (molecule) => {
    molecule.normalize_depiction(1);
    molecule.straighten_depiction(true);
  },
];

/** How tall the drawing stands: the spread of its atoms up the page. */
function heightOf(molecule: Mol): number {
  const lines = molecule.get_molblock().split('\n');
  const atoms = lines.slice(4, 4 + Number.parseInt(lines[3] ?? '0', 10));
  const ys = atoms.map((atom) => Number.parseFloat(atom.slice(10, 20)));
  return ys.length < 2 ? 0 : Math.max(...ys) - Math.min(...ys);
}

/**
 * Gives a molecule fresh coordinates with its bonds at the usual angles, turned so that it lies
 * along the line of the scheme: of three ways to turn it, the flattest.
 */
function lieDown(molecule: Mol): void {
  const turned = (turn: (molecule: Mol) => void): number => {
    molecule.set_new_coords();
    turn(molecule);
    return heightOf(molecule);
  };
  const heights = TURNS.map(turned);
  // A turn must save a tenth of a bond to be worth leaving the first.
  const best = heights.reduce((b, height, i) => (height < heights[b]! - 0.15 ? i : b), 0);
  turned(TURNS[best]!);
}

/**
 * The toolkit's drawing without its frame, in one ink. Its letters are outlines, so that no font
 * is asked for; its colours say nothing that the letters do not.
 */
function pictureOf(molecule: Mol, size?: { width: number; height: number }): Picture {
  lieDown(molecule);
  const svg = drawn(molecule, size);
  const { width, height } = sizeIn(svg);
  const strokes = [...svg.matchAll(/<path [^>]*>/g)].map((match) => inInk(match[0]));
  const body = `<g fill="none" stroke-linecap="round" stroke-linejoin="round">${strokes.join('')}</g>`;
  return { width, height, body };
}

function sizeIn(svg: string): { readonly width: number; readonly height: number } {
  const [, width, height] = /width='(\d+)px' height='(\d+)px'/.exec(svg) ?? [];
  return { width: Number(width), height: Number(height) };
}

/** As the toolkit draws it; `atoms` are ringed. */
function drawn(
  molecule: Mol,
  size?: { readonly width: number; readonly height: number },
  atoms: readonly number[] = [],
): string {
  return molecule.get_svg_with_highlights(
    JSON.stringify({
      width: size?.width ?? -1,
      height: size?.height ?? -1,
      fixedBondLength: BOND,
      bondLineWidth: 1.5,
      fixedFontSize: 16,
      additionalAtomLabelPadding: 0.06,
      clearBackground: false,
      atomColourPalette: 'bw',
      padding: 0.04,
      ...(atoms.length > 0 && { atoms }),
    }),
  );
}

/**
 * Where the atoms stand in the drawing without a size of its own: the middles of the rings that the
 * toolkit would draw around them. Rings widen its frame, and are taken off the atoms again.
 */
function placesOf(molecule: Mol): DrawnPlaces {
  lieDown(molecule);
  const plain = drawn(molecule);
  const count = molecule.get_num_atoms();
  const ringed = drawn(
    molecule,
    undefined,
    Array.from({ length: count }, (_, i) => i),
  );
  const rings = [
    ...ringed.matchAll(/<ellipse cx='([-\d.]+)' cy='([-\d.]+)'[^>]*class='atom-(\d+)'/g),
  ];
  const at = new Map(
    rings.map(([, x, y, atom]) => [Number(atom), [Number(x), Number(y)] as const]),
  );
  const [dx, dy] = shiftBetween(ringed, plain);
  const atoms = Array.from({ length: count }, (_, i) => {
    const [x, y] = at.get(i) ?? [0, 0];
    return { x: x + dx, y: y + dy };
  });
  return { ...sizeIn(plain), atoms };
}

/** How far the second drawing stands from the first: by the first point of its first bond. */
function shiftBetween(from: string, to: string): readonly [number, number] {
  const pointIn = (svg: string) => {
    const [, x, y] = /<path class='(?:bond|atom)[^']*' d='M ([-\d.]+)[ ,]([-\d.]+)/.exec(svg) ?? [];
    return [Number(x ?? 0), Number(y ?? 0)] as const;
  };
  const [x1, y1] = pointIn(from);
  const [x2, y2] = pointIn(to);
  return [x2 - x1, y2 - y1];
}

function sizeOf({ width, height }: DrawingOptions): { width: number; height: number } | undefined {
  if (width === undefined || height === undefined) return undefined;
  const bounded = (n: number): number => Math.round(Math.min(MOST_PX, Math.max(20, n)));
  return { width: bounded(width), height: bounded(height) };
}

function itemOf(module: MainModule, part: SchemePart): SchemeItem | Refused {
  const { smiles, text, caption, coefficient } =
    typeof part === 'string'
      ? { smiles: part, text: undefined, caption: undefined, coefficient: undefined }
      : part;
  if (text !== undefined) return { picture: written(text), caption, coefficient };
  const picture = withMolecule(module, smiles ?? '', (molecule) => pictureOf(molecule));
  return 'ok' in picture ? picture : { picture, caption, coefficient };
}

/** The toolkit behind the port. */
export function rdkitStructures(module: MainModule): StructureKit {
  return {
    name: `RDKit ${module.version()}`,
    composition: (smiles) =>
      withMolecule(module, smiles, (molecule) => ({
        ok: true,
        composition: compositionIn(molecule),
      })),
    canonical: (smiles) =>
      withMolecule(module, smiles, (molecule) => ({ ok: true, smiles: molecule.get_smiles() })),
    inchi: (smiles) =>
      withMolecule(module, smiles, (molecule) => {
        const inchi = molecule.get_inchi();
        if (inchi === '') return refuse('No InChI can be written for this structure.');
        return { ok: true, inchi, inchiKey: module.get_inchikey_for_inchi(inchi) };
      }),
    drawing: (smiles, options = {}) =>
      withMolecule(module, smiles, (molecule) => {
        const { width, height, body } = pictureOf(molecule, sizeOf(options));
        return {
          ok: true,
          svg: page({ width, height, dark: options.dark, label: options.label ?? smiles, body }),
        };
      }),
    places: (smiles) =>
      withMolecule(module, smiles, (molecule) => ({ ok: true, places: placesOf(molecule) })),
    hasSubstructure: (smiles, smarts) =>
      withMolecule(module, smiles, (molecule) =>
        withPattern(module, smarts, (pattern) => ({
          ok: true,
          found: molecule.get_substruct_match(pattern) !== '{}',
        })),
      ),
    matches: (smiles, smarts) =>
      withMolecule(module, smiles, (molecule) =>
        withPattern(module, smarts, (pattern) => ({
          ok: true,
          matches: matchesIn(molecule, pattern),
        })),
      ),
    patternSet: (patterns) =>
      patternSetOf(module, patterns, (smiles, use) => withMolecule(module, smiles, use)),
    schemeDrawing: (reactants, products, conditions, options = {}) => {
      if (reactants.length === 0 || products.length === 0)
        return refuse('A scheme has a reactant and a product at least.');
      if (reactants.length + products.length > MOST_PARTS)
        return refuse(`More than ${MOST_PARTS} substances in one scheme.`);
      const items = [...reactants, ...products].map((part) => itemOf(module, part));
      const refused = items.find((item) => 'ok' in item);
      if (refused !== undefined && 'ok' in refused) return refused;
      const ready = items as SchemeItem[];
      const svg = layScheme(
        ready.slice(0, reactants.length),
        ready.slice(reactants.length),
        conditions,
        options,
      );
      return { ok: true, svg };
    },
  };
}

let loading: Promise<StructureKit> | undefined;

/**
 * Loads the toolkit once, on first use (about 0.1 s in Node, 2.4 MB over a network). In Node it
 * finds its WebAssembly beside the package; a browser says with `wasmUrl` where it is served from.
 */
export function loadStructureKit(
  options: { readonly wasmUrl?: string } = {},
): Promise<StructureKit> {
  loading ??= (async () => {
    const { default: initialise } = await import('@rdkit/rdkit');
    const { wasmUrl } = options;
    const module = await initialise({
      // Refusals are told by value; the toolkit would print them as well.
      print: () => undefined,
      printErr: () => undefined,
      ...(wasmUrl === undefined ? {} : { locateFile: () => wasmUrl }),
    });
    return rdkitStructures(module);
  })();
  loading.catch(() => {
    loading = undefined;
  });
  return loading;
}
