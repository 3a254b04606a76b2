import { clampFar, lineOf } from '../../picture/spectrum/draw-curves.ts';
import type { Layout } from '../../picture/spectrum/layout.ts';
import type { TraceRole } from '../../picture/spectrum/spectrum-view.ts';
import type { Stroke } from '../../picture/spectrum/strokes.ts';

export type RoleColours = Readonly<Record<TraceRole, string>>;

const PROPERTIES: RoleColours = {
  sample: '--ink',
  startingMaterial: '--line-organic',
  reference: '--line-aqueous',
  product: '--quiet',
};

/** What the roles are coloured with where an element stands, now. */
export function coloursAt(element: Element): RoleColours {
  const style = getComputedStyle(element);
  const colour = (name: string) => style.getPropertyValue(name).trim() || 'currentColor';
  return {
    sample: colour(PROPERTIES.sample),
    startingMaterial: colour(PROPERTIES.startingMaterial),
    reference: colour(PROPERTIES.reference),
    product: colour(PROPERTIES.product),
  };
}

/** The curves of a layout, at `density` dots to the px, the one that is judged on top. */
export function paintCurves(
  context: CanvasRenderingContext2D,
  layout: Layout,
  strokes: ReadonlyMap<string, Stroke>,
  colours: RoleColours,
  density: number,
): void {
  const { plot, axis, series } = layout;
  context.setTransform(density, 0, 0, density, 0, 0);
  context.clearRect(0, 0, layout.width, layout.height);
  context.save();
  context.beginPath();
  context.rect(plot.left, plot.top - 1, plot.right - plot.left, plot.bottom - plot.top + 2);
  context.clip();
  // Round joins cost twice as much where the processor draws, and are not seen at this width.
  context.lineJoin = 'bevel';
  for (const trace of layout.traces.toReversed()) {
    const own = series.get(trace.id);
    const stroke = strokes.get(trace.id);
    if (own === undefined || stroke === undefined) continue;
    context.beginPath();
    context.lineWidth = stroke.width;
    context.strokeStyle = colours[trace.role];
    context.setLineDash([...stroke.dashes]);
    const line = lineOf(layout, own, density);
    if (axis.sticks) drawSticks(context, line, layout.heightOf(0));
    else drawLine(context, line);
    context.stroke();
  }
  context.restore();
}

function drawLine(context: CanvasRenderingContext2D, line: Float64Array): void {
  let lifted = true;
  for (let i = 0; i < line.length; i += 2) {
    const x = line[i]!;
    if (Number.isNaN(x)) {
      lifted = true;
      continue;
    }
    const y = clampFar(line[i + 1]!);
    if (lifted) context.moveTo(x, y);
    else context.lineTo(x, y);
    lifted = false;
  }
}

function drawSticks(context: CanvasRenderingContext2D, tips: Float64Array, base: number): void {
  for (let i = 0; i < tips.length; i += 2) {
    context.moveTo(tips[i]!, base);
    context.lineTo(tips[i]!, clampFar(tips[i + 1]!));
  }
}
