import { boilingForm } from './boiling/form.tsx';
import { chemicalTestForm } from './chemical-test/form.tsx';
import { chromatogramForm } from './chromatogram/form.tsx';
import { densityForm } from './density/form.tsx';
import type { EvidenceForm } from './form.ts';
import { massForm } from './mass/form.tsx';
import { meltingForm } from './melting/form.tsx';
import { nmrForm } from './nmr/form.tsx';
import { refractionForm } from './refraction/form.tsx';
import { rotationForm } from './rotation/form.tsx';
import { thinLayerForm } from './thin-layer/form.tsx';
import { titrationForm } from './titration/form.tsx';

/** In the order in which a laboratory uses them. */
export const FORMS: readonly EvidenceForm[] = [
  thinLayerForm,
  meltingForm,
  boilingForm,
  refractionForm,
  densityForm,
  chemicalTestForm,
  rotationForm,
  titrationForm,
  chromatogramForm,
  nmrForm,
  massForm,
];
