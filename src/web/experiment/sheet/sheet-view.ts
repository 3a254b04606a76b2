import type { FlowSheetParts } from '../../../picture/flow-sheet/flow-sheet.ts';
import { patchOf } from './patch.ts';
import { partAt } from './row-at.ts';
import type { Part, PatchStep } from './patch.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** A drawing that is changed in place: what stays the same stays the same node. */
export interface SheetView {
  readonly svg: SVGSVGElement;
  readonly show: (picture: FlowSheetParts, current: string | undefined) => void;
  readonly rowOf: (step: string) => SVGGElement | undefined;
  readonly steps: () => readonly string[];
  /** The step in whose row a point lies, be there anything drawn at it or not. */
  readonly stepAt: (clientY: number) => string | undefined;
}

export function sheetView(label: string): SheetView {
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('class', 'flow-sheet');
  svg.setAttribute('role', 'list');
  svg.setAttribute('aria-label', label);
  const defs = svg.appendChild(document.createElementNS(SVG, 'defs'));
  const nodes = new Map<string, SVGGElement>();
  let shown: readonly Part[] = [];
  let rows: readonly { readonly step: string; readonly key: string }[] = [];
  let defined = '';
  let marked = new Map<SVGGElement, string>();

  /**
   * One row can be reached with Tab; the arrows lead on from it. Only rows whose marks differ, and
   * those that are new, are written to: every write asks the browser for a new layout.
   */
  function mark(current: string | undefined): void {
    const reached = rows.some(({ step }) => step === current) ? current : rows[0]?.step;
    const marks = new Map<SVGGElement, string>();
    for (const { step, key } of rows) {
      const node = nodes.get(key)!;
      const tabindex = step === reached ? '0' : '-1';
      const now = step === current ? `${tabindex} current` : tabindex;
      marks.set(node, now);
      if (marked.get(node) === now) continue;
      node.setAttribute('tabindex', tabindex);
      if (step === current) node.setAttribute('aria-current', 'step');
      else node.removeAttribute('aria-current');
    }
    marked = marks;
  }

  return {
    svg,
    show(picture, current) {
      const { width, height, viewBox, parts } = picture;
      write(svg, 'width', String(Math.round(width)));
      write(svg, 'height', String(Math.ceil(height)));
      write(svg, 'viewBox', viewBox);
      if (picture.defs !== defined) defs.innerHTML = defined = picture.defs;
      patch(svg, nodes, patchOf(shown, parts));
      shown = parts;
      rows = parts.flatMap(({ step, key }) => (step === undefined ? [] : [{ step, key }]));
      mark(current);
    },
    rowOf(step) {
      const row = rows.find((each) => each.step === step);
      return row === undefined ? undefined : nodes.get(row.key);
    },
    steps: () => rows.map(({ step }) => step),
    stepAt(clientY) {
      const { top, height } = svg.getBoundingClientRect();
      const y = ((clientY - top) / height) * svg.viewBox.baseVal.height;
      const ranked = shown.filter(
        ({ key }) => key === 'foot' || rows.some((row) => row.key === key),
      );
      const key = partAt(ranked, y)?.key;
      return rows.find((row) => row.key === key)?.step;
    },
  };
}

function write(svg: SVGSVGElement, attribute: string, value: string): void {
  if (svg.getAttribute(attribute) !== value) svg.setAttribute(attribute, value);
}

const maker = document.createElementNS(SVG, 'g');

function made({ svg, y }: Part): SVGGElement {
  maker.innerHTML = svg;
  const node = maker.firstElementChild as SVGGElement;
  node.remove();
  shift(node, y);
  return node;
}

function shift(node: SVGGElement, y: number): void {
  node.setAttribute('transform', `translate(0 ${y})`);
}

function patch(
  svg: SVGSVGElement,
  nodes: Map<string, SVGGElement>,
  steps: readonly PatchStep[],
): void {
  const before = (key: string | null) => (key === null ? null : (nodes.get(key) ?? null));
  for (const step of steps) {
    if (step.kind === 'remove') {
      nodes.get(step.key)?.remove();
      nodes.delete(step.key);
    } else if (step.kind === 'move') svg.insertBefore(nodes.get(step.key)!, before(step.before));
    else if (step.kind === 'shift') shift(nodes.get(step.key)!, step.y);
    else {
      const node = made(step.part);
      svg.insertBefore(node, before(step.before));
      nodes.get(step.part.key)?.remove();
      nodes.set(step.part.key, node);
    }
  }
}
