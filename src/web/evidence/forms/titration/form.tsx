import { TITRATION_KINDS } from '../../../../core/evidence/titration/schema.ts';
