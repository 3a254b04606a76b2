import type { Settings } from '../../wire/settings.ts';
import { useSettings } from '../api/queries.ts';
import { Page } from '../ui/page.tsx';
import { Waiting } from '../ui/waiting.tsx';
import { Devices } from './devices.tsx';
import { ownInstrument } from './form.ts';
import type { Form, Table } from './form.ts';
import { Instruments } from './instruments.tsx';
import type { Keeping } from './keeper.ts';
import { Preferences } from './preferences.tsx';
import { useSettingsForm } from './use-settings-form.ts';
import './settings.css';

/** What this laboratory weighs and measures with, and how it writes. */
export function SettingsPage() {
  const settings = useSettings();
  return (
    <Page title="Laboratory">
      <Waiting of={settings}>{(kept) => <Laboratory kept={kept} />}</Waiting>
    </Page>
  );
}

function Laboratory({ kept }: { readonly kept: Settings }) {
  const { form, keeping, change } = useSettingsForm(kept);
  return (
    <div className="settings">
      <h1>{answerOf(form)}</h1>
      <p className="settings-keeping">
        Kept as you type, for everyone who uses this Weighboat.{' '}
        <strong role="status">{keepingText(keeping)}</strong>
      </p>
      <section aria-labelledby="balances">
        <h2 id="balances">Balances</h2>
        <Instruments
          table="balances"
          rows={form.balances}
          decimalSign={form.decimalSign}
          onChange={(balances) => change({ ...form, balances })}
        />
      </section>
      <section aria-labelledby="glassware">
        <h2 id="glassware">Glassware</h2>
        <Instruments
          table="glassware"
          rows={form.glassware}
          decimalSign={form.decimalSign}
          onChange={(glassware) => change({ ...form, glassware })}
        />
      </section>
      <section aria-labelledby="writing">
        <h2 id="writing">Numbers, words and paper</h2>
        <Preferences form={form} onChange={change} />
      </section>
      <section aria-labelledby="devices" className="screen-only">
        <h2 id="devices">Devices</h2>
        <Devices />
      </section>
      <section aria-labelledby="everything" className="screen-only">
        <h2 id="everything">A copy of everything</h2>
        <p>
          Every version of every experiment, every bench record and these settings, as text files
          and pictures in one zip. <a href="/api/export">Save a copy</a>
        </p>
      </section>
    </div>
  );
}

/** Counts what is whole: a row that is still being written is not kept yet. */
function answerOf(form: Form): string {
  const count = (table: Table) =>
    form[table].filter((row) => row.removed !== true && ownInstrument(row, table) !== undefined)
      .length;
  const [balances, glassware] = [count('balances'), count('glassware')];
  if (balances + glassware === 0) return 'No balance or glassware of your own is set down yet.';
  const weighs = balances === 1 ? '1 balance' : `${balances} balances`;
  const measures = glassware === 1 ? '1 piece of glassware' : `${glassware} pieces of glassware`;
  return `This laboratory has ${weighs} and ${measures} of its own.`;
}

function keepingText(keeping: Keeping): string {
  if (keeping.kind === 'refused') return `Not kept: ${keeping.message} It stays on this device.`;
  return {
    untouched: '',
    keeping: 'Keeping …',
    kept: 'Kept.',
    'no-network': 'Kept on this device; Weighboat cannot be reached. It is tried again by itself.',
  }[keeping.kind];
}
