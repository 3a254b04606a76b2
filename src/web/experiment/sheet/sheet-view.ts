import type { FlowSheetParts } from '../../../picture/flow-sheet/flow-sheet.ts';
import { patchOf } from './patch.ts';
import { partAt } from './row-at.ts';
import type { Part } from './patch.ts';

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
  const maker = document.createElementNS(SVG, 'g');
  const nodes = new Map<string, SVGGElement>();
  let shown: readonly Part[] = [];
  let rows: readonly { readonly step: string; readonly key: string }[] = [];
  let defined = '';

  const made = ({ svg: drawn }: Part): SVGGElement => {
    maker.innerHTML = drawn;
    const node = maker.firstElementChild as SVGGElement;
    node.remove();
    return node;
  };
  const shift = (node: SVGGElement, y: number) =>
    node.setAttribute('transform', `translate(0 ${y})`);
  const before = (key: string | null) => (key === null ? null : (nodes.get(key) ?? null));

  function patch(parts: readonly Part[]): void {
    for (const step of patchOf(shown, parts)) {
      if (step.kind === 'remove') {
        nodes.get(step.key)?.remove();
        nodes.delete(step.key);
      } else if (step.kind === 'move') svg.insertBefore(nodes.get(step.key)!, before(step.before));
      else if (step.kind === 'shift') shift(nodes.get(step.key)!, step.y);
      else {
        const { part } = step;
        const node = made(part);
        shift(node, part.y);
        svg.insertBefore(node, before(step.before));
        nodes.get(part.key)?.remove();
        nodes.set(part.key, node);
      }
    }
    shown = parts;
  }

  /** One row can be reached with Tab; the arrows lead on from it. */
  function mark(current: string | undefined): void {
    const reached = rows.some(({ step }) => step === current) ? current : rows[0]?.step;
    for (const { step, key } of rows) {
      const node = nodes.get(key);
      node?.setAttribute('tabindex', step === reached ? '0' : '-1');
      if (step === current) node?.setAttribute('aria-current', 'step');
      else node?.removeAttribute('aria-current');
    }
  }

  return {
    svg,
    show(picture, current) {
      const { width, height, viewBox, parts } = picture;
      svg.setAttribute('width', String(Math.round(width)));
      svg.setAttribute('height', String(Math.ceil(height)));
      svg.setAttribute('viewBox', viewBox);
      if (picture.defs !== defined) defs.innerHTML = defined = picture.defs;
      patch(parts);
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
