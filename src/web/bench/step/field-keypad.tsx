import { useEffect, useState } from 'react';
import { useDraft } from '../device/stored.ts';
import { balanceLabel } from '../device/preferences.ts';
import { Keypad } from '../keypad/keypad.tsx';
import type { Slot } from '../keypad/keypad.tsx';
import { useRecord } from '../record-context.ts';
import type { Readings } from '../record/new-entry.ts';
import type { BenchField } from '../sheet.ts';
import { isMass, mayBeNegative, tareFor } from './field-kinds.ts';
import {
  draftOf,
  draftText,
  measuredBy,
  doubtOf,
  netText,
  planText,
  readingsOf,
} from './typed-field.ts';
import { KEEP_REST_ms } from './use-enter.ts';

const KEEP_IT = ' Keep it?';

/** The keypad for one field: what was planned, what is typed, and a quiet question before a doubtful number. */
export function FieldKeypad({
  place,
  field,
  title,
  enterWord,
  onEnter,
  onClose,
}: {
  /** Under which what is typed outlasts a reload. */
  readonly place: string;
  readonly field: BenchField;
  readonly title: string;
  readonly enterWord: string;
  /** Says whether it was kept. */
  readonly onEnter: (readings: Readings, measured: BenchField) => Promise<boolean>;
  readonly onClose: () => void;
}) {
  const { settings, lines } = useRecord();
  const sign = settings.decimalSign;
  const [stored, setStored] = useDraft(place);
  const [asked, setAsked] = useState<string>();
  const labels = field.kind === 'meltingRange' ? ['from', 'to'] : [field.label];
  const { texts, other } = draftOf(stored, labels.length);
  const measured = measuredBy(field, other);
  const tare = tareFor(field, lines);
  const readings = readingsOf(texts, sign);
  const slots = labels.map((label, i): Slot => ({ label, text: texts[i]! }));
  const net = readings === undefined ? undefined : netText(readings, tare, sign);
  const put = (draft: { texts: readonly string[]; other: boolean }) => {
    setAsked(undefined);
    setStored(draftText(draft));
  };
  const enter = async () => {
    if (readings === undefined) {
      setAsked('Type a number first.');
      return;
    }
    const doubt = doubtOf(readings, measured, tare, sign);
    if (doubt !== undefined && `${doubt}${KEEP_IT}` !== asked) {
      setAsked(`${doubt}${KEEP_IT}`);
      return;
    }
    if (await onEnter(readings, measured)) {
      setStored('');
      onClose();
    }
  };
  const doubted = asked?.endsWith(KEEP_IT) ?? false;
  const resting = useRest(doubted ? asked : undefined);
  return (
    <Keypad
      title={title}
      slots={slots}
      unit={measured.unit}
      typing={{ sign, minus: mayBeNegative(field) }}
      question={asked ?? (net === undefined ? '' : `That leaves ${net}.`)}
      resting={resting}
      enterWord={doubted ? 'Keep it' : enterWord}
      onText={(slot, text) => put({ other, texts: texts.map((t, i) => (i === slot ? text : t)) })}
      onEnter={() => void enter()}
      onClose={onClose}
      aside={<Aside field={measured} />}
    >
      {field.or !== undefined && (
        <button type="button" className="bench-word" onClick={() => put({ texts, other: !other })}>
          in {other ? field.unit : field.or.unit} instead
        </button>
      )}
    </Keypad>
  );
}

/** True for a moment after a question was asked. */
function useRest(question: string | undefined): boolean {
  const [rested, setRested] = useState<string>();
  useEffect(() => {
    setRested(undefined);
    const end = setTimeout(() => setRested(question), KEEP_REST_ms);
    return () => clearTimeout(end);
  }, [question]);
  return question !== undefined && rested !== question;
}

function Aside({ field }: { readonly field: BenchField }) {
  const { settings, balance } = useRecord();
  const words = [
    planText(field, settings.decimalSign),
    isMass(field) && balance !== null ? balanceLabel(balance, settings) : '',
  ];
  return words.filter((word) => word !== '').join(' · ');
}
