import { useState } from 'react';
import type { SampleState } from '../../core/evidence/spectrum/infrared.ts';
import type { Spectrum } from '../../wire/spectrum.ts';
import { useSession, useSettings } from '../api/queries.ts';
import { useDrop } from '../instrument/use-drop.ts';
import { useFiles } from '../instrument/use-files.ts';
import '../instrument/instrument.css';
import { usePrinting } from '../print/use-printing.ts';
import { DEFAULT_SETTINGS_SHOWN } from '../result/settings-shown.ts';
import { Button } from '../ui/button.tsx';
import { Page } from '../ui/page.tsx';
import { Waiting } from '../ui/waiting.tsx';
import { Incoming } from './incoming.tsx';
import type { Asked } from './incoming.tsx';
import { Matches } from './matches.tsx';
import { countText } from './question.ts';
import { SpectrumList } from './spectrum-list.tsx';
import { SpectrumRow } from './spectrum-row.tsx';
import { useLibrary } from './use-library.ts';
import type { LibraryNotice } from './use-library.ts';
import { useSpectra } from './use-spectra.ts';
import './library.css';

/** The reference spectra of the laboratory: what there is, what is in it, what a file is most like. */
export function LibraryPage() {
  const spectra = useSpectra();
  return (
    <Page title="Spectra">
      <Waiting of={spectra}>{(all) => <Library all={all} />}</Waiting>
    </Page>
  );
}

function Library({ all }: { readonly all: readonly Spectrum[] }) {
  const settings = useSettings().data ?? DEFAULT_SETTINGS_SHOWN;
  const mayKeep = useSession().data?.role !== 'bench';
  usePrinting({ size: settings.paper, foot: 'Reference spectra · Weighboat' });
  const deeds = useLibrary();
  const [asked, setAsked] = useState<Asked>();
  const here = all.filter(({ putAway }) => !putAway);
  const away = all.filter(({ putAway }) => putAway);
  const rows = { decimal: settings.decimalSign, deeds: mayKeep ? deeds : undefined };
  return (
    <div className="library">
      <h1>
        {here.length === 0 ? 'No reference spectrum here yet.' : `${countText(here.length)}.`}
      </h1>
      <Files mayKeep={mayKeep} add={deeds.add} onCompare={setAsked} />
      <Notice notice={deeds.notice} />
      {asked !== undefined && (
        <Matches
          key={`${asked.file} ${asked.state}`}
          asked={asked}
          spectra={all}
          decimal={settings.decimalSign}
          onClose={() => setAsked(undefined)}
        />
      )}
      {here.length > 0 && <SpectrumList all={here} {...rows} />}
      {away.length > 0 && (
        <details className="library-away">
          <summary>{away.length} put away</summary>
          <ul className="library-rows">
            {away.map((spectrum) => (
              <SpectrumRow key={spectrum.id} spectrum={spectrum} {...rows} />
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

/** Files dropped anywhere on the page or chosen, one asked about after the other. */
function Files({
  mayKeep,
  add,
  onCompare,
}: {
  readonly mayKeep: boolean;
  readonly add: ReturnType<typeof useLibrary>['add'];
  readonly onCompare: (asked: Asked) => void;
}) {
  const files = useFiles();
  const [lastState, setLastState] = useState<SampleState | null>(null);
  const over = useDrop((dropped) => void files.take(dropped));
  const { current } = files;
  return (
    <section className="screen-only" aria-label="Files">
      {over && <p className="instrument-over">Let go, and you are asked what it is.</p>}
      {files.refused.map((said) => (
        <p key={said} role="alert">
          {said}
        </p>
      ))}
      {current === undefined ? (
        <p>
          Drop infrared spectra anywhere on this page, or{' '}
          <label className="library-choose">
            choose them
            <input
              type="file"
              multiple
              onChange={({ target }) => {
                void files.take([...(target.files ?? [])]);
                target.value = '';
              }}
            />
          </label>
          :{' '}
          {mayKeep
            ? 'to keep them here, or to ask what one is most like'
            : 'to ask what one is most like'}
          .
        </p>
      ) : (
        <Incoming
          key={`${current.name} ${current.bytes.byteLength}`}
          file={current}
          mayKeep={mayKeep}
          lastState={lastState}
          add={add}
          onKept={(state) => {
            setLastState(state);
            files.done();
          }}
          onCompare={(compared) => {
            onCompare(compared);
            setLastState(compared.state);
            files.done();
          }}
          onLeave={files.done}
        />
      )}
    </section>
  );
}

function Notice({ notice }: { readonly notice: LibraryNotice | undefined }) {
  return (
    <div role="status" className="library-notice screen-only" data-wrong={notice?.wrong === true}>
      {notice?.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {notice?.undo !== undefined && (
        <Button rank="plain" onClick={() => void notice.undo?.()}>
          Undo
        </Button>
      )}
    </div>
  );
}
