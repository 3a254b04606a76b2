import type { EvidenceEntered } from '../../core/evidence/schema.ts';
import type { BenchEntry } from '../../core/record/entry.ts';
import type { Acknowledged, RunOpened } from '../../wire/run.ts';
import { askAgain } from '../api/queries.ts';
import { Refused, request } from '../api/request.ts';
import { sha256 } from '../bench/photo/sha256.ts';
import { newId } from '../ui/id.ts';

export interface NewMeasurement {
  readonly evidence: EvidenceEntered;
  /** What is not on the server yet: a photograph, or the file of an instrument. */
  readonly file?: Blob;
  /** Hashes of what is there already. */
  readonly attachments?: readonly string[];
}

type Said = Pick<BenchEntry, 'kind' | 'evidence' | 'attachments' | 'corrects' | 'text'>;

/** The id of the line, once it is on the disk. */
async function enter(run: RunOpened, by: string, said: Said): Promise<string> {
  const entry: BenchEntry = {
    id: newId(),
    at: new Date().toISOString(),
    by,
    bench: run.bench,
    document: run.document,
    ...said,
  };
  const body = { entries: [entry] };
  await request<Acknowledged>(`/api/runs/${run.id}/entries`, { method: 'POST', body });
  await askAgain(`/api/runs/${run.id}`);
  return entry.id;
}

/** Sends the file first: an entry never names what is not there. */
export async function keep(run: RunOpened, by: string, given: NewMeasurement): Promise<string> {
  const hashes = [...(given.attachments ?? [])];
  if (given.file !== undefined) {
    const bytes = await given.file.arrayBuffer();
    const hash = await sha256(new Uint8Array(bytes));
    const type = given.file.type === '' ? 'application/octet-stream' : given.file.type;
    const body = new Blob([bytes], { type });
    await request(`/api/attachments/${hash}`, { method: 'PUT', body });
    hashes.push(hash);
  }
  return enter(run, by, {
    kind: 'evidence',
    evidence: given.evidence,
    ...(hashes.length > 0 && { attachments: hashes }),
  });
}

/** Strikes an entry: it stays legible in the record and no longer counts. */
export const strike = (
  run: RunOpened,
  by: string,
  entry: string,
  reason: string,
): Promise<string> =>
  enter(run, by, {
    kind: 'correction',
    corrects: entry,
    ...(reason.trim() !== '' && { text: reason.trim() }),
  });

/** Why something could not be kept, in words. */
export function refusedText(error: Error): string {
  if (!(error instanceof Refused)) return 'It could not be kept. Try again.';
  const { message, hint } = error.refusal;
  return hint === undefined ? message : `${message} ${hint}`;
}
