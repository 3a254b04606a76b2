import type { Keeping } from '../io.ts';

/** What serves and what opens a store is loaded only here, so that every other command starts without it. */
export const KEEPING: Keeping = {
  serve: async (call) => (await import('./serve.ts')).serve(call),
  backup: async (call) => (await import('./backup.ts')).backup(call),
  restore: async (call) => (await import('./backup.ts')).restore(call),
  exportTo: async (call) => (await import('./transfer.ts')).exportTo(call),
  importFrom: async (call) => (await import('./transfer.ts')).importFrom(call),
};
