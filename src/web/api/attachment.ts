import { Refused } from './request.ts';

/** The bytes that are kept under a hash; throws only `Refused`. */
export async function attachmentBytes(hash: string): Promise<Uint8Array> {
  const wrong = (status: number) =>
    new Refused(status, {
      code: 'file-not-here',
      message: 'The file cannot be fetched.',
      hint: 'Is Weighboat still running, and is there a network?',
    });
  let answer: Response;
  try {
    answer = await fetch(`/api/attachments/${hash}`, { credentials: 'same-origin' });
  } catch {
    throw wrong(0);
  }
  if (!answer.ok) throw wrong(answer.status);
  return new Uint8Array(await answer.arrayBuffer());
}
