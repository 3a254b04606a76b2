import { expect, it } from 'vitest';
import { enacted } from '../enacted.ts';
import { unknownName } from './unknown-name.ts';

it('takes the name of what is not known, without its amount', () => {
  const { experiment, findings } = enacted(
    '# T\n\n## Procedure\n\n1. Charge the flask with water 5 mL and odd ester (2 g, 3 mmol).\n',
  );
  const names = findings.map((finding) => unknownName(experiment, finding));
  expect(names.filter((name) => name !== undefined)).toEqual(['odd ester']);
});
