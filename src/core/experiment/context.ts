import type { Diagnostic } from '../diagnostic.ts';
import type { Material, MaterialReading } from '../chemistry/material.ts';
import type { AnyAmount } from '../quantity/amount.ts';
import type { RawMaterial } from './sentence/materials.ts';
import type { RawRef, Role } from './sentence/reference.ts';
import type { MaterialUse, Portion, Ref, Span, VesselDeclaration, VesselShape } from './step.ts';
import type { LineMap } from './text.ts';
import { findVessel, freeName, readVesselPhrase } from './vessels.ts';
import type { Argument, Context } from './verbs/verb.ts';
import { whole } from './verbs/verb.ts';

/** What a role falls back on where nothing was yet called so: a phase of the vessel in hand. */
const ROLE_PORTION: Readonly<Partial<Record<Role, Portion>>> = {
  organic: { kind: 'phase', phase: 'organic' },
  extracts: { kind: 'phase', phase: 'organic' },
  aqueous: { kind: 'phase', phase: 'aqueous' },
  upper: { kind: 'phase', phase: 'upper' },
  lower: { kind: 'phase', phase: 'lower' },
};

/** Other names that a role answers to, tried in order before the vessel in hand. */
const KIN: Readonly<Partial<Record<Role, readonly Role[]>>> = {
  organic: ['extracts'],
  extracts: ['organic'],
  product: ['solid', 'residue', 'distillate', 'organic'],
  solid: ['product', 'residue'],
  residue: ['product', 'solid'],
  motherLiquor: ['filtrate'],
  washings: ['aqueous', 'filtrate'],
  distillate: ['product'],
  dryingAgent: ['solid'],
};

const EXCESS: AnyAmount = { kind: 'unquantified', word: 'excess', text: 'excess', sense: 'excess' };

const OWN_SHAPES: ReadonlySet<VesselShape> = new Set(['filter', 'filter flask', 'trap']);

export interface ContextTools {
  readonly lines: LineMap;
  /** Grows as sentences bring vessels along. */
  readonly vessels: VesselDeclaration[];
  readonly lookUp: (raw: RawMaterial) => MaterialReading;
  readonly diagnostics: Diagnostic[];
}

/** The running context of a procedure: one object for a document, told of each sentence in turn. */
export class ProcedureContext implements Context {
  focus: string | undefined;
  private readonly focuses: string[] = [];
  private step = '';
  private span: Span = { start: 0, end: 0, line: 1, column: 1 };
  private uses = 0;
  private lastName = '';
  private organicFloats = true;
  private organicVolume_mL = 0;
  /** Vessels that hold an organic layer kept apart, for "combine the organic layers". */
  private readonly organics = new Set<string>();
  private locate: (start: number, end: number) => Span = () => this.span;
  private readonly roles = new Map<Role, Ref>();
  private readonly asides = new Map<string, string>();
  private readonly places = new Map<string, string>();
  /** Names of what no liquid takes along: metals, catalysts. */
  private readonly solids = new Set<string>();

  constructor(private readonly tools: ContextTools) {}

  /** `locate` turns places in the sentence into places in the document. */
  begin(step: string, span: Span, locate: (start: number, end: number) => Span): void {
    this.step = step;
    this.span = span;
    this.locate = locate;
    this.uses = 0;
  }

  setFocus(vessel: string): void {
    if (this.focus !== undefined && this.focus !== vessel) this.focuses.push(this.focus);
    this.focus = vessel;
  }

  before(vessel: string): string | undefined {
    return this.focuses.findLast((other) => other !== vessel && !OWN_SHAPES.has(this.shape(other)));
  }

  vessel(text: string, start: number): string {
    const phrase = readVesselPhrase(text);
    const known = findVessel(phrase, this.tools.vessels, this.focus);
    if (known) return known.id;
    const name = freeName(phrase.words.join(' ') || 'vessel', this.tools.vessels, phrase.tared);
    const span = this.locate(start, start + text.length);
    const sized = phrase.capacity_mL !== undefined;
    this.tools.vessels.push({
      id: name,
      name,
      shape: phrase.shape ?? 'other',
      ...(sized && { capacity_mL: phrase.capacity_mL }),
      tared: phrase.tared,
      origin: sized ? 'sentence' : 'implied',
      span,
    });
    if (
      !sized &&
      phrase.shape !== 'filter' &&
      this.tools.vessels.some((v) => v.origin === 'written')
    )
      this.tools.diagnostics.push({
        code: 'vessel-undeclared',
        severity: 'warning',
        message: `No vessel is called “${text.trim()}”; one without a size is taken.`,
        hint: `Declare it under Vessels, for example “- ${name}: 100 mL ${phrase.shape ?? 'flask'}”, or use a name that stands there.`,
        at: { line: span.line, column: span.column, length: text.length, step: this.step },
      });
    return this.tools.vessels.at(-1)!.id;
  }

  implied(name: string, shape: VesselShape, fresh = true): string {
    const same = this.tools.vessels.find((v) => v.id === name);
    if (same && !fresh) return same.id;
    // A declared Büchner funnel, filter flask or trap is what such a sentence uses
    const declared = OWN_SHAPES.has(shape)
      ? this.tools.vessels.find((v) => v.shape === shape && v.origin === 'written')
      : undefined;
    if (declared) return declared.id;
    const id = freeName(name, this.tools.vessels);
    this.tools.vessels.push({
      id,
      name: id,
      shape,
      tared: false,
      origin: 'implied',
      span: this.span,
    });
    return id;
  }

  ref(raw: RawRef, start: number): Ref {
    const { role } = raw;
    if (raw.vesselPhrase !== undefined) {
      const vessel = this.vessel(raw.vesselPhrase, start);
      const phase = role ? ROLE_PORTION[role] : undefined;
      if (phase && raw.portion.kind === 'all') return { vessel, portion: phase };
      if (role === 'solid' && raw.portion.kind === 'all' && this.shape(vessel) !== 'filter')
        return { vessel, portion: { kind: 'phase', phase: 'solid' } };
      return { vessel, portion: raw.portion };
    }
    const lies = raw.named === undefined ? undefined : this.whereIs(raw.named);
    if (lies !== undefined) return { vessel: lies, portion: raw.portion };
    const called =
      raw.noun === undefined ? undefined : this.asideCalled(raw.noun, role === 'product');
    if (called !== undefined) return { vessel: called, portion: raw.portion };
    const found =
      role && role !== 'mixture' && role !== 'it' && role !== 'solvent'
        ? this.role(role)
        : undefined;
    if (found)
      return raw.portion.kind === 'all' ? found : { vessel: found.vessel, portion: raw.portion };
    const vessel = this.focus ?? this.vessel('the flask', start);
    const phase = role ? ROLE_PORTION[role] : undefined;
    return { vessel, portion: phase && raw.portion.kind === 'all' ? phase : raw.portion };
  }

  refOf(argument: Argument | undefined): Ref | undefined {
    if (argument?.kind === 'ref') return this.ref(argument.ref, argument.start);
    if (argument?.kind === 'refs' && argument.refs[0])
      return this.ref(argument.refs[0], argument.start);
    if (argument?.kind === 'vessel') return whole(this.vessel(argument.phrase, argument.start));
    return this.focus !== undefined ? whole(this.focus) : undefined;
  }

  vesselOf(argument: Argument | undefined): string | undefined {
    return argument === undefined ? undefined : this.refOf(argument)?.vessel;
  }

  role(role: Role): Ref | undefined {
    const own = this.roles.get(role);
    if (own) return own;
    for (const kin of KIN[role] ?? []) {
      const ref = this.roles.get(kin);
      if (ref) return ref;
    }
    return undefined;
  }

  setRole(role: Role, ref: Ref): void {
    this.roles.delete(role);
    this.roles.set(role, ref);
  }

  forget(role: Role): void {
    this.roles.delete(role);
  }

  shape(vessel: string): VesselShape {
    return this.tools.vessels.find((v) => v.id === vessel)?.shape ?? 'other';
  }

  aside(name: string): string | undefined {
    return this.asides.get(name.toLowerCase());
  }

  setAside(name: string, vessel: string): void {
    this.asides.set(name.toLowerCase(), vessel);
  }

  placed(uses: readonly MaterialUse[], vessel: string): void {
    for (const use of uses) {
      const stays = use.material?.substance.phase === 'insoluble';
      for (const name of [use.name, use.material?.substance.name]) {
        if (name === undefined) continue;
        this.places.set(name.toLowerCase(), vessel);
        if (stays) this.solids.add(name.toLowerCase());
      }
    }
  }

  /** "the dichromate solution": where something of that name was put, or a vessel called so. */
  private asideCalled(noun: string, onlyAside: boolean): string | undefined {
    for (const [name, vessel] of [...this.asides, ...(onlyAside ? [] : this.places)].reverse())
      if (name.includes(noun)) return vessel;
    if (onlyAside) return undefined;
    return this.tools.vessels.find((v) => v.name.toLowerCase().includes(noun))?.id;
  }

  moved(from: string, liquidTo: string, solidTo = liquidTo): void {
    if (this.organics.delete(from)) this.organics.add(liquidTo);
    for (const places of [this.places, this.asides])
      for (const [name, vessel] of places)
        if (vessel === from) places.set(name, this.solids.has(name) ? solidTo : liquidTo);
  }

  called(noun: string): string | undefined {
    return this.asideCalled(noun, false);
  }

  private whereIs(name: string): string | undefined {
    const key = name.toLowerCase();
    const bare = key.replace(
      /\s+(?:solution|suspension|residues?|powder|dust|turnings|crystals|flakes|pieces)$/,
      '',
    );
    return (
      this.asides.get(key) ?? this.asides.get(bare) ?? this.places.get(key) ?? this.places.get(bare)
    );
  }

  remark(code: string, message: string, hint: string): void {
    this.tools.diagnostics.push({ code, severity: 'warning', message, hint, at: this.place() });
  }

  materials(
    argument: Argument | undefined,
    options: { readonly excess?: boolean } = {},
  ): MaterialUse[] {
    if (argument?.kind !== 'materials') return [];
    return argument.materials.map((raw) => {
      const named = raw.name === '' ? { ...raw, name: this.lastName } : raw;
      const counted =
        options.excess && named.amounts.length === 0 ? { ...named, amounts: [EXCESS] } : named;
      return this.use(counted);
    });
  }

  substance(name: string): string | undefined {
    const reading = this.tools.lookUp({
      name,
      start: 0,
      end: 0,
      amounts: [],
      repeat: 1,
      definite: true,
    });
    return reading.ok ? reading.material.substance.id : undefined;
  }

  lies(name: string): Ref | undefined {
    const vessel = this.whereIs(name);
    return vessel === undefined ? this.role('product') : whole(vessel);
  }

  /** The solvent that there is most of decides which layer floats. */
  private noteSolvent(raw: RawMaterial, density_g_mL: number): void {
    const volume = raw.amounts.find((a) => a.kind === 'volume');
    const volume_mL = volume?.kind === 'volume' ? volume.value * raw.repeat : 0;
    if (volume_mL < 0.5 * this.organicVolume_mL) return;
    this.organicVolume_mL = volume_mL;
    this.organicFloats = density_g_mL < 1;
  }

  solventGone(): void {
    this.organicVolume_mL = 0;
  }

  organicLayers(): readonly string[] {
    return [...this.organics];
  }

  holdsDryingAgent(vessel: string): boolean {
    return this.roles.get('dryingAgent')?.vessel === vessel;
  }

  setLayers(organic: Ref, aqueous: Ref): void {
    this.organics.delete(aqueous.vessel);
    this.organics.add(organic.vessel);
    this.setRole('organic', organic);
    this.setRole('aqueous', aqueous);
    this.setRole('upper', this.organicFloats ? organic : aqueous);
    this.setRole('lower', this.organicFloats ? aqueous : organic);
  }

  disturb(): void {
    this.roles.delete('upper');
    this.roles.delete('lower');
  }

  layerIs(layer: 'upper' | 'lower'): 'organic' | 'aqueous' {
    return (layer === 'upper') === this.organicFloats ? 'organic' : 'aqueous';
  }

  private use(raw: RawMaterial): MaterialUse {
    this.lastName = raw.name;
    const span = this.locate(raw.start, raw.end);
    const reading = this.tools.lookUp(raw);
    let material: Material | undefined;
    const at = {
      line: span.line,
      column: span.column,
      length: raw.end - raw.start,
      step: this.step,
    };
    if (reading.ok) {
      material = reading.material;
      const { substance, density_g_mL } = material;
      if (
        substance.phase === 'organic' &&
        density_g_mL !== undefined &&
        raw.amounts.some((a) => a.kind === 'volume')
      )
        this.noteSolvent(raw, density_g_mL);
    } else
      this.tools.diagnostics.push({
        code: reading.kind === 'ambiguous' ? 'material-ambiguous' : 'material-unknown',
        severity: 'error',
        message: reading.message,
        hint: reading.hint,
        at,
      });
    if (reading.ok && raw.amounts.length === 0 && this.aside(raw.name) === undefined) {
      const { substance, strength, solvent } = reading.material;
      const liquid =
        substance.state === 'liquid' || strength !== undefined || solvent !== undefined;
      this.tools.diagnostics.push({
        code: 'amount-missing',
        severity: 'warning',
        message: `How much ${raw.name} is not said; it is not counted.`,
        hint: `Write its amount beside it, for example “${raw.name} ${liquid ? '5 mL' : '1.0 g'}”, or “excess ${raw.name}”.`,
        at,
      });
    }
    return {
      id: `${this.step}.${++this.uses}`,
      name: raw.name,
      ...(material && { material }),
      amounts: raw.amounts,
      span,
      repeat: raw.repeat,
    };
  }

  private place(): NonNullable<Diagnostic['at']> {
    const { line, column, start, end } = this.span;
    return { line, column, length: end - start, step: this.step };
  }
}
