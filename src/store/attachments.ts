import { createHash } from 'node:crypto';
import type { Connection } from './connection.ts';
import { plainText } from './documents.ts';
import { kept, refused } from './refusal.ts';
import type { Attachment, Kept } from './store.ts';

export const sha256 = (bytes: Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

/** Kept once; of what is there already the first media type stands. */
export async function addAttachment(
  { writing }: Connection,
  { hash, mediaType, bytes }: Attachment,
): Promise<Kept<{ hash: string }>> {
  if (sha256(bytes) !== hash)
    return refused(
      'attachment-differs',
      'The file did not arrive as it was sent: its hash is another one.',
      'Send it again.',
    );
  await writing((trx) =>
    trx
      .insertInto('attachments')
      .values({ hash, media_type: plainText(mediaType), bytes })
      .onConflict((conflict) => conflict.column('hash').doNothing())
      .execute(),
  );
  return kept({ hash });
}

export async function attachment(
  { db }: Connection,
  hash: string,
): Promise<Attachment | undefined> {
  const row = await db
    .selectFrom('attachments')
    .selectAll()
    .where('hash', '=', hash)
    .executeTakeFirst();
  return row && { hash, mediaType: row.media_type, bytes: row.bytes };
}
