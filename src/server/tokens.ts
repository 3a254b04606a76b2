import { createHash, randomBytes } from 'node:crypto';

/** 256 bits that nobody can guess, in characters that a link and a cookie take as they are. */
export const newToken = (): string => randomBytes(32).toString('base64url');

/** What is kept of a token: whoever reads the store cannot sign in with it. */
export const hashOf = (token: string): string => createHash('sha256').update(token).digest('hex');
