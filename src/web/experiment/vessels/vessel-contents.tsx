import type { GlassPhase, GlassState } from '../../../core/report/glass/glass.ts';
import { Figure } from '../../ui/figure.tsx';
import { inTerms } from '../../ui/terms.ts';
import type { Words } from '../../words/use-words.ts';
import type { GlassPicture } from './glass-pictures.ts';

const PHASE: Readonly<Record<GlassPhase['phase'], string>> = {
  organic: 'Organic layer',
  aqueous: 'Aqueous layer',
  solid: 'Solid',
  vapour: 'Gas',
};

/** Less than this is on no balance of a teaching laboratory. */
const LEAST_g = 0.00005;

export function VesselContents({
  state,
  picture,
  words,
  tempered,
}: {
  readonly state: GlassState;
  readonly picture: GlassPicture;
  readonly words: Words;
  /** The step says how warm. */
  readonly tempered: boolean;
}) {
  const { name, shape, capacity_mL, volume_mL, mass_g, temperature_C, phases } = state;
  const { quantity, number } = words;
  const size = capacity_mL === null ? '' : ` of ${quantity(capacity_mL, 'volume')}`;
  return (
    <figure className="experiment-vessel">
      <svg
        className="flow-sheet"
        viewBox={picture.viewBox}
        width={picture.width}
        height={picture.height}
        aria-hidden="true"
        dangerouslySetInnerHTML={{ __html: picture.svg }}
      />
      <div>
        <figcaption>
          <strong>{name}</strong>{' '}
          <span className="quiet">
            {shape !== 'other' && shape !== name && `${inTerms(shape, words.terms)}, `}
            {phases.length === 0
              ? 'empty'
              : `${quantity(volume_mL, 'volume', 2)}${size}, ${quantity(mass_g, 'mass', 3)}${tempered ? `, ${number(temperature_C, 2)} °C` : ''}`}
          </span>
        </figcaption>
        {phases.length > 0 && (
          <table>
            <thead className="spoken">
              <tr>
                <th scope="col">Substance</th>
                <th scope="col">Amount</th>
                <th scope="col">Mass</th>
                <th scope="col">Volume</th>
              </tr>
            </thead>
            {phases.map((phase) => (
              <PhaseRows
                key={phase.phase}
                phase={phase}
                words={words}
                several={phases.length > 1}
              />
            ))}
          </table>
        )}
      </div>
    </figure>
  );
}

function PhaseRows({
  phase: { phase, volume_mL, mass_g, contents },
  words: { quantity, said },
  several,
}: {
  readonly phase: GlassPhase;
  readonly words: Words;
  readonly several: boolean;
}) {
  const sums = [
    ...(volume_mL === null ? [] : [quantity(volume_mL, 'volume', 2)]),
    quantity(mass_g, 'mass', 3),
  ];
  const seen = contents.filter((each) => each.mass_g >= LEAST_g);
  return (
    <tbody>
      <tr>
        <th scope="rowgroup" colSpan={4} data-phase={phase} className="experiment-phase">
          {PHASE[phase]}
          {several && <span className="quiet"> {sums.join(', ')}</span>}
        </th>
      </tr>
      {seen.map((each) => (
        <tr key={each.substance}>
          <th scope="row">{said(each.name)}</th>
          <td className="number">
            {each.amount_mmol !== null && (
              <Figure basis={each.basis}>{quantity(each.amount_mmol, 'amount', 3)}</Figure>
            )}
          </td>
          <td className="number">
            <Figure basis={each.basis}>{quantity(each.mass_g, 'mass', 3)}</Figure>
          </td>
          <td className="number">
            {each.volume_mL !== null && (
              <Figure basis={each.basis}>{quantity(each.volume_mL, 'volume', 2)}</Figure>
            )}
          </td>
        </tr>
      ))}
    </tbody>
  );
}
