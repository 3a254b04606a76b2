import * as z from 'zod';
import { idSchema } from './common.ts';

/** What a person may do. More roles come with the class; a session always says which one it acts in. */
export const ROLES = ['instructor', 'bench'] as const;

export const sessionSchema = z.object({
  person: z.object({ id: idSchema, name: z.string() }),
  role: z.enum(ROLES),
  /** The run that a session of a bench is tied to; null for one that sees everything. */
  run: idSchema.nullable(),
});

/** The one-time token of a sign-in link. */
export const signInSchema = z.strictObject({ token: z.string().min(20).max(200) });

/** A link for another device; with a run it opens that bench record and nothing else. */
export const newLinkSchema = z.strictObject({ run: idSchema.nullable() });
export const linkSchema = z.object({ path: z.string(), expiresAt: z.iso.datetime() });

export type Session = z.infer<typeof sessionSchema>;
export type Role = (typeof ROLES)[number];
