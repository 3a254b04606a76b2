import { allInstruments } from '../../../../core/quantity/instrument.ts';
import type { InstrumentKind } from '../../../../core/quantity/instrument.ts';
import type { TitrationEntered } from '../../../../core/evidence/titration/schema.ts';
import type { DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField, TextField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import { Seldom } from '../layout.tsx';

/** The instruments of a kind, after what is taken where none is named. */
function listed(kind: InstrumentKind, usual: string): readonly Option[] {
  const all = allInstruments().filter((instrument) => instrument.kind === kind);
  return [['', usual], ...all.map(({ id, name }): Option => [id, name])];
}

export function ToolFields() {
  return (
    <Seldom
      summary="Burette, balance, indicator, note"
      fields={['endPoint_mL', 'indicator', 'note']}
    >
      <ChoiceField
        name="burette"
        label="Burette"
        options={listed('burette', 'a usual one, 50 mL, class B')}
      />
      <ChoiceField
        name="balance"
        label="Balance"
        options={listed('balance', 'a usual one, to the milligram')}
      />
      <NumberField
        name="endPoint_mL"
        label="End point seen to ±"
        unit="mL"
        aid="Empty: one drop is taken."
      />
      <TextField name="indicator" label="Indicator" />
      <TextField name="note" label="Note" />
    </Seldom>
  );
}

type Tools = Pick<TitrationEntered, 'burette' | 'balance' | 'endPoint_mL' | 'indicator' | 'note'>;

export function readTools(reader: DraftReader): Open<Tools> {
  return {
    burette: reader.text('burette'),
    balance: reader.text('balance'),
    endPoint_mL: reader.number('endPoint_mL', 0, 5),
    indicator: reader.text('indicator'),
    note: reader.text('note', 2000),
  };
}
