import { titreOf } from '../../../../core/evidence/titration/reckon.ts';
import type { TitrationVolume } from '../../../../core/evidence/titration/schema.ts';
import { numberText } from '../../../bench/typed/typed-number.ts';
import { readDraft, useForm } from '../draft.ts';
import type { DraftReader, Open } from '../draft.ts';
import { NumberField } from '../fields.tsx';
import { Line } from '../layout.tsx';

/** `readings`: before and after, from the scale; `titre`: the difference, as a digital burette has it. */
export type Reading = 'readings' | 'titre';

const LEAST_mL = -1;
const MOST_mL = 1000;

/** A volume from the burette, with its difference worked out while both readings are typed. */
export function VolumeFields({ reading }: { readonly reading: Reading }) {
  if (reading === 'titre') return <NumberField name="titre_mL" label="Titre" unit="mL" />;
  return (
    <Line>
      <NumberField name="start_mL" label="Burette before" unit="mL" />
      <NumberField name="end_mL" label="after" unit="mL" />
      <Titre />
    </Line>
  );
}

function Titre() {
  const { draft, sign } = useForm();
  const reader = readDraft(draft, sign);
  const [start_mL, end_mL] = [reader.number('start_mL'), reader.number('end_mL')];
  if (start_mL === undefined || end_mL === undefined || end_mL < start_mL) return null;
  const titre_mL = titreOf({ start_mL, end_mL }) ?? 0;
  const value = Number(titre_mL.toFixed(2));
  return <p className="evidence-reckoned">Titre {numberText({ value, decimals: 2 }, sign)} mL</p>;
}

export function readVolume(row: DraftReader, reading: Reading): Open<TitrationVolume> {
  if (reading === 'titre') return { titre_mL: row.need('titre_mL', 0, MOST_mL) };
  const [start, end] = [row.number('start_mL'), row.number('end_mL')];
  if (start !== undefined && end !== undefined && end < start)
    row.say('end_mL', 'This is below the reading before.');
  return {
    start_mL: row.need('start_mL', LEAST_mL, MOST_mL),
    end_mL: row.need('end_mL', LEAST_mL, MOST_mL),
  };
}
