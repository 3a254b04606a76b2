import type { ExperimentOpened } from '../wire/experiment.ts';
import { askAhead } from './api/ahead.ts';
import { deskProgram } from './experiment/desk-program.ts';

/*
 * What the page at this address needs for certain is on its way before the first component is made.
 * A refusal is dealt with where the page asks for the same.
 */

function experiment(id: string): void {
  void askAhead('/api/settings');
  askAhead<ExperimentOpened>(`/api/experiments/${id}`)
    .then(({ head }) => askAhead(`/api/documents/${head.document}/answer`))
    .catch(() => {});
  void deskProgram();
}

const BEGINNINGS: readonly (readonly [RegExp, (id: string) => void])[] = [
  [/^\/$/, () => void askAhead('/api/experiments')],
  [/^\/experiments\/([^/]+)$/, experiment],
  [/^\/runs\/([^/]+)$/, (id) => void askAhead(`/api/runs/${id}`)],
];

const { pathname } = window.location;
if (pathname !== '/sign-in') void askAhead('/api/session');
for (const [pattern, begin] of BEGINNINGS) {
  const found = pattern.exec(pathname);
  if (found !== null) begin(found[1] ?? '');
}
