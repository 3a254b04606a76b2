import type { Transaction } from 'kysely';
import { outline } from '../core/experiment/outline.ts';
import { normalText, versionOf } from '../core/experiment/version.ts';
import { kept, refused } from './refusal.ts';
import type { Kept } from './store.ts';
import type { DocumentRow, Tables } from './tables.ts';

/**
 * A text as it is kept: in its normal form, of which the hash is the SHA-256. Half a surrogate pair,
 * which no UTF-8 can hold, becomes the replacement character, as it does in the hash.
 */
export async function documentOf(text: string): Promise<Kept<DocumentRow>> {
  if (text.includes('\u0000'))
    return refused(
      'document-not-text',
      'This is not a text.',
      'Save the experiment as Markdown (plain text, UTF-8).',
    );
  const normal = wellFormed(normalText(text));
  const { title, header } = outline(normal);
  return kept({
    hash: await versionOf(normal),
    text: normal,
    title: title || 'Untitled experiment',
    course: header['Course'] ?? null,
  });
}

function wellFormed(text: string): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(new TextEncoder().encode(text));
}

/** A short text that both databases take: PostgreSQL has no zero character. */
export function plainText(text: string): string {
  return wellFormed(text).replaceAll('\u0000', '\uFFFD');
}

export async function keepDocument(trx: Transaction<Tables>, document: DocumentRow): Promise<void> {
  await trx
    .insertInto('documents')
    .values(document)
    .onConflict((conflict) => conflict.column('hash').doNothing())
    .execute();
}
