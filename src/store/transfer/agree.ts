import { plainText } from '../documents.ts';
import { refusalError } from '../refusal.ts';
import type { Everything } from '../store.ts';

/**
 * Each file of an export may be well formed while together they say what no store can hold. Throws
 * what `refusalOf` understands.
 */
export function refuseContradictions(everything: Everything): void {
  const { experiments, runs, receipts } = everything;
  refuseInLibrary(everything);

  refuseTwice(
    experiments.map(({ id }) => id),
    'experiments',
  );
  refuseTwice(
    runs.map(({ id }) => id),
    'bench records',
  );
  const versionsOf = new Map(experiments.map(({ id, versions }) => [id, versions]));
  for (const { id, versions } of experiments)
    if (versions.some(({ number }, i) => number !== i + 1))
      throw contradiction(`the versions of experiment "${id}" do not count up from 1`);
  for (const { id, experiment, versionNumber, document } of runs)
    if (versionsOf.get(experiment)?.[versionNumber - 1]?.document !== document)
      throw contradiction(`bench record "${id}" works from a version that is not there`);
  for (const { id } of runs) {
    const own = receipts.get(id) ?? [];
    refuseTwice(
      own.map(({ entry }) => plainText(entry.id)),
      `entries of bench record "${id}"`,
    );
    if (own.some(({ seq }, i) => i > 0 && seq <= own[i - 1]!.seq))
      throw contradiction(`the entries of bench record "${id}" are not in their order`);
  }
  const numbers = [...receipts.values()].flatMap((own) => own.map(({ seq }) => String(seq)));
  refuseTwice(numbers, 'entries of all bench records, by number');
}

function refuseInLibrary({ spectra, attachments }: Everything): void {
  const files = new Set(attachments.map(({ hash }) => hash));
  refuseTwice(
    spectra.map(({ spectrum }) => spectrum.id),
    'spectra',
  );
  refuseTwice(
    spectra.map(({ spectrum }) => spectrum.file),
    'files of the spectra',
  );
  for (const { spectrum } of spectra)
    if (!files.has(spectrum.file))
      throw contradiction(`the file of spectrum "${spectrum.id}" is not there`);
}

function refuseTwice(ids: readonly string[], of: string): void {
  const seen = new Set<string>();
  for (const id of ids) {
    if (seen.has(id)) throw contradiction(`"${id}" is there twice among the ${of}`);
    seen.add(id);
  }
}

function contradiction(what: string): Error {
  return refusalError({
    code: 'import-contradicts-itself',
    message: `This export contradicts itself: ${what}.`,
    hint: 'Take the file as the export wrote it. Nothing was changed.',
  });
}
