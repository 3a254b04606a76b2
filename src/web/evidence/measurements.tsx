import { useMemo, useState } from 'react';
import type { InfraredEntered } from '../../core/evidence/spectrum/schema.ts';
import type { JudgedEvidence } from '../../core/report/evidence/report.ts';
import type { RunOpened } from '../../wire/run.ts';
import type { Settings } from '../../wire/settings.ts';
import type { Figures } from '../result/figures.ts';
import { InfraredSection } from './infrared-section.tsx';
import type { OpenForm } from './add-measurement.tsx';
import { ClaimsForm } from './claims-form.tsx';
import { Measurement } from './measurement.tsx';
import { Strike } from './strike.tsx';
import { Button } from '../ui/button.tsx';
import type { Overlay } from '../../picture/spectrum/judged-view.ts';
import type { RunEvidenceShown } from './use-evidence.ts';

/** Every measurement of the record, the last first: that is the one that was just made. */
export function Measurements({
  run,
  by,
  shown,
  figures,
  settings,
  onWorkUp,
}: {
  readonly run: RunOpened;
  /** Whose name stands under a line that is struck here. */
  readonly by: string;
  readonly onWorkUp: (open: OpenForm) => void;
  readonly shown: RunEvidenceShown;
  readonly figures: Figures;
  readonly settings: Settings;
}) {
  const { report, structures } = shown;
  const { measurements, subjects } = report;
  const overlays = useMemo(() => overlaysOf(measurements), [measurements]);
  if (measurements.length === 0) return null;
  const version = `${run.title}, version ${run.versionNumber} (${run.document.slice(0, 8)})`;
  return (
    <section aria-labelledby="evidence-measured">
      <h2 id="evidence-measured">What was measured</h2>
      {measurements.toReversed().map((measured) => {
        const { entry, evidence, infrared } = measured;
        const subject = subjectOf(measured, report);
        const smiles = subject?.substance.smiles;
        return (
          <Measurement
            key={entry.id}
            measured={measured}
            said={figures.said}
            actions={
              <>
                <WorkUp measured={measured} shown={shown} onWorkUp={onWorkUp} />
                {infrared?.judgement !== undefined && (
                  <Assign {...{ run, by, entry, evidence }} sign={settings.decimalSign} />
                )}
                <Strike run={run} by={by} entry={entry.id} />
              </>
            }
            picture={
              infrared !== undefined && evidence.technique === 'infrared' ? (
                <InfraredSection
                  infrared={infrared}
                  name={nameOf(
                    evidence,
                    subject?.substance.name ?? subjects.product?.substance.name,
                  )}
                  version={version}
                  drawn={smiles === undefined ? undefined : structures.get(smiles)}
                  overlays={evidence.of === 'product' ? overlays : []}
                  decimalSign={settings.decimalSign}
                  said={figures.said}
                />
              ) : undefined
            }
          />
        );
      })}
    </section>
  );
}

/** A file that was only kept becomes a measurement in the form of its technique. */
function WorkUp({
  measured: { entry, evidence },
  shown: { files },
  onWorkUp,
}: {
  readonly measured: JudgedEvidence;
  readonly shown: RunEvidenceShown;
  readonly onWorkUp: (open: OpenForm) => void;
}) {
  const hash = entry.attachments?.[0];
  const reading = hash === undefined ? undefined : files.get(hash);
  if (evidence.technique !== 'file' || evidence.kind === 'other') return null;
  if (hash === undefined || reading === undefined) return null;
  const { kind: technique, file: name } = evidence;
  return (
    <Button onClick={() => onWorkUp({ technique, file: { hash, name, reading } })}>
      Work it up
    </Button>
  );
}

/** The table of assignments of a spectrum, to be entered or gone on with. */
function Assign({
  evidence,
  ...rest
}: Omit<Parameters<typeof ClaimsForm>[0], 'entered' | 'onDone'> & {
  readonly evidence: JudgedEvidence['evidence'];
}) {
  const [open, setOpen] = useState(false);
  if (evidence.technique !== 'infrared') return null;
  if (open) return <ClaimsForm {...rest} entered={evidence} onDone={() => setOpen(false)} />;
  const words = evidence.claims === undefined ? 'Check a table of assignments' : 'Change the table';
  return <Button onClick={() => setOpen(true)}>{words}</Button>;
}

/** The substance that a spectrum should be of. */
function subjectOf({ evidence }: JudgedEvidence, { subjects }: RunEvidenceShown['report']) {
  if (evidence.technique !== 'infrared') return undefined;
  if (evidence.of === 'product' || evidence.of === 'reference') return subjects.product;
  if (evidence.of !== 'startingMaterial') return undefined;
  const starting = subjects.others.filter(({ role }) => role === 'startingMaterial');
  return starting.find(({ substance }) => substance.name === evidence.substance) ?? starting[0];
}

function nameOf({ of, substance, file }: InfraredEntered, name: string | undefined): string {
  if (of === 'polystyrene') return 'polystyrene film';
  if (of === 'other') return substance ?? file ?? 'sample';
  const known = substance ?? name ?? 'product';
  return of === 'reference' ? `${known}, known sample` : known;
}

/** The last spectrum of the starting material and of a known sample: laid over the product's. */
function overlaysOf(measurements: readonly JudgedEvidence[]): Overlay[] {
  const last = (of: InfraredEntered['of']) =>
    measurements.findLast(
      ({ evidence, infrared }) =>
        evidence.technique === 'infrared' && evidence.of === of && infrared !== undefined,
    )?.infrared?.spectrum;
  const startingMaterial = last('startingMaterial');
  const reference = last('reference');
  return [
    ...(startingMaterial === undefined
      ? []
      : [
          {
            id: 'startingMaterial',
            label: 'starting material',
            role: 'startingMaterial' as const,
            spectrum: startingMaterial,
          },
        ]),
    ...(reference === undefined
      ? []
      : [
          {
            id: 'reference',
            label: 'known sample',
            role: 'reference' as const,
            spectrum: reference,
          },
        ]),
  ];
}
