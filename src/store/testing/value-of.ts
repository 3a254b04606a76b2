import type { Kept } from '../store.ts';

export function valueOf<T>(answer: Kept<T>): T {
  if (!answer.ok) throw new Error(`${answer.refusal.code}: ${answer.refusal.message}`);
  return answer.value;
}

export const codeOf = (answer: Kept<unknown>): string => (answer.ok ? 'kept' : answer.refusal.code);
