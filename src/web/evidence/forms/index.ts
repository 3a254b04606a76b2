import { boilingForm } from './boiling/form.tsx';
import { chemicalTestForm } from './chemical-test/form.tsx';
import { densityForm } from './density/form.tsx';
import type { EvidenceForm } from './form.ts';
import { meltingForm } from './melting/form.tsx';
import { refractionForm } from './refraction/form.tsx';
import { rotationForm } from './rotation/form.tsx';
import { titrationForm } from './titration/form.tsx';

/** In the order in which a laboratory uses them. */
export const FORMS: readonly EvidenceForm[] = [
  meltingForm,
  boilingForm,
  refractionForm,
  densityForm,
  chemicalTestForm,
  rotationForm,
  titrationForm,
];
