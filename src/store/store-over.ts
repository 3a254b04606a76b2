import { attachment, addAttachment } from './attachments.ts';
import type { Connection } from './connection.ts';
import type { EntriesAnswer, EntriesCall } from './entries.ts';
import { entriesOf, keepEntries } from './entries.ts';
import { catalogue, isEmpty, putEverything } from './everything.ts';
import { addExperiment, experiment, experiments, putAway } from './experiments.ts';
import { groupCommit } from './group-commit.ts';
import { listeners } from './listeners.ts';
import { keeping, refusalOf } from './refusal.ts';
import { addRun, run, runs } from './runs.ts';
import { setSettings, settings } from './settings.ts';
import { addLink, addPerson, addSession, endSession, session, useLink } from './sign-in.ts';
import {
  addSpectrum,
  changeSpectrum,
  isSpectrumFile,
  spectra,
  spectrum,
  spectrumPrints,
} from './spectra.ts';
import type { Store } from './store.ts';
import { addVersion, nameVersion, version, versions } from './versions.ts';

/** As many entries as one commit takes before the next call has to wait for another. */
const ENTRIES_A_COMMIT = 2000;

/** Every method of a store over a database that was opened; the same for both kinds. */
export function storeOver(connection: Connection): Store {
  const { db, writing } = connection;
  const heard = listeners();
  const writers = groupCommit<EntriesCall, EntriesAnswer>(
    async (calls) => {
      const answers = await keepEntries(connection, calls);
      answers.forEach(({ added }, i) => {
        if (added.length > 0) heard.tell(calls[i]!.run, added);
      });
      return answers;
    },
    ({ entries }) => entries.length,
    ENTRIES_A_COMMIT,
    (error) => refusalOf(error)?.code === 'database-unreachable',
  );
  return {
    kind: connection.kind,
    experiments: () => experiments(connection),
    experiment: (id) => experiment(db, id),
    addExperiment: (given, by) => keeping(() => addExperiment(connection, given, by)),
    putAway: (id, away) => putAway(connection, id, away),
    versions: (id) => versions(connection, id),
    version: (id, number) => version(connection, id, number),
    addVersion: (id, given, by) => keeping(() => addVersion(connection, id, given, by)),
    nameVersion: (id, number, name) => nameVersion(connection, id, number, name),
    documentText: async (hash) =>
      (await db.selectFrom('documents').select('text').where('hash', '=', hash).executeTakeFirst())
        ?.text,
    runs: (id) => runs(connection, id),
    run: (id) => run(db, id),
    addRun: (given) => keeping(() => addRun(connection, given)),
    addEntries: (id, entries, by) =>
      keeping(async () => (await writers.add({ run: id, entries, by })).answer),
    entries: async (id, afterSeq = 0) =>
      (await entriesOf(connection, id, { afterSeq })).map(({ seq, receivedAt, entry }) => ({
        seq,
        receivedAt,
        entry,
      })),
    onEntries: heard.on,
    addAttachment: (given) => keeping(() => addAttachment(connection, given)),
    attachment: (hash) => attachment(connection, hash),
    spectra: () => spectra(db),
    spectrum: (id) => spectrum(db, id),
    addSpectrum: (given, print, by) => keeping(() => addSpectrum(connection, given, print, by)),
    changeSpectrum: (id, change) => changeSpectrum(connection, id, change),
    spectrumPrints: (ids) => spectrumPrints(connection, ids),
    isSpectrumFile: (hash) => isSpectrumFile(connection, hash),
    settings: () => settings(db),
    setSettings: (given) => writing((trx) => setSettings(trx, given)),
    addPerson: (person) => addPerson(connection, person),
    addLink: (link) => addLink(connection, link),
    useLink: (tokenHash, now) => useLink(connection, tokenHash, now),
    addSession: (given) => addSession(connection, given),
    session: (tokenHash, now) => session(connection, tokenHash, now),
    endSession: (tokenHash) => endSession(connection, tokenHash),
    isEmpty: () => isEmpty(db),
    catalogue: () => catalogue(connection),
    receipts: (id, upToSeq) => entriesOf(connection, id, { upToSeq }),
    putEverything: (everything) => keeping(() => putEverything(connection, everything)),
    backupTo: (path) => connection.backupTo(path),
    close: async () => {
      await writers.idle();
      await connection.close();
    },
  };
}
