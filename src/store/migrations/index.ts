import { first } from './0001-first.ts';
import { spectra } from './0002-spectra.ts';
import type { Migration } from './migration.ts';

/** In order, numbered from 1 without gaps. One that has been released is never edited. */
export const MIGRATIONS: readonly Migration[] = [first, spectra];
