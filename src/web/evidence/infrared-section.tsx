import { useMemo, useState } from 'react';
import type { BandJudgement } from '../../core/evidence/spectrum/judge/expected.ts';
import type { InfraredSpectrum } from '../../core/evidence/spectrum/infrared.ts';
import type { InfraredJudgement } from '../../core/evidence/spectrum/judge/judge.ts';
import type { JudgedEvidence } from '../../core/report/evidence/report.ts';
import type { StructureDrawn } from '../../wire/structure.ts';
import type { DecimalSign } from '../bench/typed/typed-number.ts';
import { STATE_WORDS } from '../instrument/file-question.tsx';
import { Trace } from '../trace/trace.tsx';
import { spectrumViewOf, tracesShown } from '../../picture/spectrum/judged-view.ts';
import type { Overlay } from '../../picture/spectrum/judged-view.ts';
import type { TraceShown } from '../../picture/spectrum/spectrum-view.ts';
import type { Spectrum } from '../../wire/spectrum.ts';
import { Claims } from './claims.tsx';
import { LibraryChoice, useLibraryCurve } from './library-overlay.tsx';
import { StructureView } from './structure-view.tsx';
import type { DrawnGroup } from './structure-view.tsx';
import './infrared-section.css';

/** The trace of a spectrum, with its bands tied to the groups of the structure that give them. */
export function InfraredSection({
  infrared: { spectrum, judgement, claims },
  name,
  version,
  drawn,
  overlays,
  decimalSign,
  said,
}: {
  readonly infrared: NonNullable<JudgedEvidence['infrared']>;
  /** Of the substance that the sample should be. */
  readonly name: string;
  readonly version: string;
  readonly drawn: StructureDrawn | undefined;
  readonly overlays: readonly Overlay[];
  readonly decimalSign: DecimalSign;
  readonly said: (text: string) => string;
}) {
  const [selected, setSelected] = useState<string>();
  const [chosen, setChosen] = useState<Spectrum>();
  const traces = useTraces(name, spectrum, overlays, chosen);
  const view = useMemo(
    () => spectrumViewOf(traces, spectrum, judgement, selected),
    [traces, spectrum, judgement, selected],
  );
  const groups = useMemo(() => groupsOf(judgement), [judgement]);
  const { state } = spectrum;
  return (
    <div className="evidence-infrared">
      {judgement !== undefined && (
        <>
          {judgement.summary.map((sentence) => (
            <p key={sentence} className="evidence-story">
              {said(sentence)}
            </p>
          ))}
        </>
      )}
      <Trace
        view={view}
        caption={{ name, version, ...(state !== undefined && { state: STATE_WORDS[state] }) }}
        decimal={decimalSign}
        onSelectBand={setSelected}
        onSelectWindow={setSelected}
      />
      {claims !== undefined && <Claims report={claims} said={said} />}
      <LibraryChoice smiles={drawn?.smiles} chosen={chosen} onChoose={setChosen} />
      {drawn !== undefined && groups.length > 0 && (
        <div className="evidence-structure">
          <StructureView
            smiles={drawn.smiles}
            name={name}
            places={drawn.places}
            groups={groups}
            selected={selected}
            onSelect={setSelected}
          />
          <BandSaid band={judgement?.bands.find(({ id }) => id === selected)} said={said} />
        </div>
      )}
    </div>
  );
}

/** The curves that are drawn: the same objects for as long as none of them changes. */
function useTraces(
  name: string,
  spectrum: InfraredSpectrum,
  overlays: readonly Overlay[],
  chosen: Spectrum | undefined,
): readonly TraceShown[] {
  const curve = useLibraryCurve(spectrum, chosen);
  return useMemo(() => {
    if (chosen === undefined || curve === undefined) return tracesShown(name, spectrum, overlays);
    const { id } = chosen;
    const label = `${chosen.name}, library`;
    const reference = { id, label, role: 'reference' as const, spectrum: curve };
    return tracesShown(name, spectrum, [...overlays, reference]);
  }, [name, spectrum, overlays, chosen, curve]);
}

/** What was expected of the selected band, and why the trace is said to show it or not. */
function BandSaid({
  band,
  said,
}: {
  readonly band: BandJudgement | undefined;
  readonly said: (text: string) => string;
}) {
  return (
    <div role="status" className="evidence-band">
      {band !== undefined && (
        <>
          <p>
            <strong>{band.what}</strong>, expected between {band.window_percm[0]} and{' '}
            {band.window_percm[1]} cm⁻¹: {VERDICT[band.verdict]}.
          </p>
          {band.reasons.map((reason) => (
            <p key={reason}>{said(reason)}</p>
          ))}
          <p className="quiet">{band.source}</p>
        </>
      )}
    </div>
  );
}

const VERDICT = { present: 'seen', absent: 'not there', cannotTell: 'cannot be told' } as const;

/** Each telling band once, with the atoms that give it. */
function groupsOf(judgement: InfraredJudgement | undefined): DrawnGroup[] {
  const bands = (judgement?.bands ?? []).filter(
    ({ duty, atoms }) => duty === 'must' && atoms.length > 0,
  );
  return bands.map(({ id, what, atoms }) => ({ id, label: what, matches: atoms }));
}
