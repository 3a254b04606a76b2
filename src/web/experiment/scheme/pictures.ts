import type { Enacted } from '../enacted.ts';

/** All that a drawing of the reactions shows: a change of anything else needs no new one. */
export function schemeKey({ experiment, plan }: Pick<Enacted, 'experiment' | 'plan'>): string {
  const terms = experiment.reactions.flatMap(({ text, reactants, products }) => [
    text,
    ...[...reactants, ...products].map(
      ({ coefficient, name, substance }) => `${coefficient} ${name} ${substance.smiles ?? ''}`,
    ),
  ]);
  const ofReactions = new Set(
    experiment.reactions.flatMap(({ reactants }) => reactants.map(({ substance }) => substance.id)),
  );
  const charged = plan.charges
    .filter(({ material }) => ofReactions.has(material.substance.id))
    .map(({ material, amount_mmol = 0 }) => `${material.substance.id} ${amount_mmol.toFixed(4)}`);
  return [...terms, ...charged].join('\n');
}

/** Several reactions stand a little smaller, all to one scale. */
const SCALE_OF_SEVERAL = 0.8;

/** A drawing of several reactions, one below the other, parted into one of each. */
export function picturesIn(svg: string): readonly string[] {
  const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  if (root.nodeName !== 'svg') return [];
  const parts = [...root.children].filter((child) => child.nodeName === 'svg');
  return (parts.length > 0 ? parts : [root]).map((part) => {
    part.removeAttribute('x');
    part.removeAttribute('y');
    part.removeAttribute('color');
    if (parts.length > 1)
      for (const side of ['width', 'height'])
        part.setAttribute(side, String(Number(part.getAttribute(side)) * SCALE_OF_SEVERAL));
    return part.outerHTML;
  });
}
