import { VERBS } from '../../core/experiment/verbs/index.ts';
import type { VerbKind } from '../../core/experiment/verbs/kind.ts';
import { inTerms } from '../ui/terms.ts';
import { GROUP_OF, GROUP_TITLE, GROUPS } from './groups.ts';
import type { Group } from './groups.ts';

/** One way of writing an operation. */
export interface Way {
  readonly about: string;
  readonly forms: readonly string[];
  readonly examples: readonly string[];
}

export interface Operation {
  readonly kind: VerbKind;
  readonly title: string;
  readonly ways: readonly Way[];
  /** What else a sentence may begin with. */
  readonly heads: readonly string[];
}

export interface OperationGroup {
  readonly group: Group;
  readonly title: string;
  readonly operations: readonly Operation[];
}

/** "washSolid" -> "Wash solid"; the names of methods as they are spoken. */
const SPOKEN: Readonly<Partial<Record<VerbKind, string>>> = {
  tlc: 'Thin-layer chromatogram',
  backExtract: 'Back-extract',
  airDry: 'Air-dry',
  washSolid: 'Wash a solid',
  washLayer: 'Wash a layer',
  takePlace: 'A reaction takes place',
  blanket: 'Inert gas and apparatus',
  bubble: 'Bubble a gas in',
};

function titleOf(kind: VerbKind): string {
  const words = kind.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return SPOKEN[kind] ?? words.charAt(0).toUpperCase() + words.slice(1);
}

/** Every operation as the verb files describe it, in the order of the work and in these terms. */
export function operationGroups(terms: 'us' | 'uk'): OperationGroup[] {
  const kinds = [...new Set(VERBS.map(({ kind }) => kind))];
  return GROUPS.map((group) => ({
    group,
    title: GROUP_TITLE[group],
    operations: kinds
      .filter((kind) => GROUP_OF[kind] === group)
      .map((kind) => operationOf(kind, terms)),
  }));
}

function operationOf(kind: VerbKind, terms: 'us' | 'uk'): Operation {
  const verbs = VERBS.filter((verb) => verb.kind === kind);
  const heads = verbs.flatMap((verb) => verb.heads.map((head) => inTerms(head, terms)));
  return {
    kind,
    title: inTerms(titleOf(kind), terms),
    ways: verbs.map(({ about, forms, examples }) => ({
      about: inTerms(about, terms),
      forms: forms.map((form) => inTerms(form, terms)),
      examples: examples.map((example) => `${inTerms(example, terms)}.`),
    })),
    heads: [...new Set(heads)],
  };
}

/** Only what has every word of the question; groups that have nothing left are left out. */
export function found(groups: readonly OperationGroup[], question: string): OperationGroup[] {
  const words = question.toLowerCase().split(/\s+/).filter(Boolean);
  return groups.flatMap((group) => {
    const operations = group.operations.filter((operation) => {
      const text = textOf(operation);
      return words.every((word) => text.includes(word));
    });
    return operations.length === 0 ? [] : [{ ...group, operations }];
  });
}

function textOf({ title, ways, heads }: Operation): string {
  const written = ways.flatMap(({ about, forms, examples }) => [about, ...forms, ...examples]);
  return [title, ...heads, ...written].join(' ').toLowerCase();
}
