import type { EvidenceForm } from './form.ts';

/** In the order in which a laboratory uses them. */
export const FORMS: readonly EvidenceForm[] = [];
