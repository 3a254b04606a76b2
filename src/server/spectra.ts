import type { FastifyRequest } from 'fastify';
import * as z from 'zod';
import { findKnown } from '../core/chemistry/find.ts';
import { tableWith } from '../core/chemistry/substance.ts';
import type { SampleState } from '../core/evidence/spectrum/infrared.ts';
import { referenceIn } from '../core/evidence/spectrum/library/reference.ts';
import { mostAlike, withBands } from '../core/evidence/spectrum/library/search.ts';
import type { SpectrumChanged } from '../store/spectra.ts';
import { printOf } from '../store/spectrum-print.ts';
import { idSchema } from '../wire/common.ts';
import {
  newSpectrumSchema,
  spectrumChangeSchema,
  spectrumHitsSchema,
  spectrumSchema,
  spectrumSearchSchema,
} from '../wire/spectrum.ts';
import type { SpectrumChange } from '../wire/spectrum.ts';
import type { App, ServerContext } from './app.ts';
import { mayRead } from './attachments.ts';
import { signedInAs } from './guard.ts';
import { BODY_bytes, RATE } from './limits.ts';
import { answers, CLASHES, found, kept, MISSING, NO_ROOM, refused, UNREADABLE } from './refused.ts';
import { spectrumMemory } from './spectrum-memory.ts';

const tags = ['spectra'];
const MOST_HITS = 10;
const MOST_BY_BANDS = 100;

/** The library of reference spectra: read by everybody who is signed in, written by instructors. */
export function spectrumRoutes(app: App, context: ServerContext): void {
  const { store } = context;

  app.get(
    '/api/spectra',
    {
      config: { access: 'signed-in' },
      schema: { tags, response: answers({ 200: z.array(spectrumSchema) }) },
    },
    () => store.spectra(),
  );

  app.post(
    '/api/spectra',
    {
      bodyLimit: BODY_bytes.usual,
      config: { rateLimit: { max: RATE.spectra } },
      schema: {
        tags,
        body: newSpectrumSchema,
        response: answers({
          201: spectrumSchema,
          ...MISSING,
          ...CLASHES,
          ...UNREADABLE,
          ...NO_ROOM,
        }),
      },
    },
    async (request, reply) => {
      const { id, state, file, name, structure } = request.body;
      const print = printOf(await readReference(context, file, state));
      const smiles = structure === null ? null : await smilesOf(context, structure);
      const by = signedInAs(request).session.person.name;
      const given = { id, name: nameIn(name), smiles, state, file };
      return reply.code(201).send(kept(await store.addSpectrum(given, print, by)));
    },
  );

  changeRoute(app, context);
  searchRoute(app, context);
}

function changeRoute(app: App, context: ServerContext): void {
  app.patch(
    '/api/spectra/:id',
    {
      bodyLimit: BODY_bytes.usual,
      config: { rateLimit: { max: RATE.spectra } },
      schema: {
        tags,
        params: z.object({ id: idSchema }),
        body: spectrumChangeSchema,
        response: answers({ 200: spectrumSchema, ...MISSING, ...UNREADABLE, ...NO_ROOM }),
      },
    },
    async ({ params: { id }, body }) => {
      const { file } = found(await context.store.spectrum(id), 'spectrum');
      const change = await changeOf(context, file, body);
      return found(await context.store.changeSpectrum(id, change), 'spectrum');
    },
  );
}

async function changeOf(
  context: ServerContext,
  file: string,
  { name, structure, state, putAway }: SpectrumChange,
): Promise<SpectrumChanged> {
  return {
    ...(name !== undefined && { name: nameIn(name) }),
    ...(putAway !== undefined && { putAway }),
    ...(structure !== undefined && {
      smiles: structure === null ? null : await smilesOf(context, structure),
    }),
    ...(state !== undefined && {
      measured: { state, print: printOf(await readReference(context, file, state)) },
    }),
  };
}

function searchRoute(app: App, context: ServerContext): void {
  const library = spectrumMemory(context.store);
  app.post(
    '/api/spectra/search',
    {
      bodyLimit: BODY_bytes.usual,
      config: { access: 'signed-in', rateLimit: { max: RATE.spectra } },
      schema: {
        tags,
        body: spectrumSearchSchema,
        response: answers({ 200: spectrumHitsSchema, ...MISSING, ...UNREADABLE }),
      },
    },
    async (request) => {
      const { body } = request;
      if ('bands_percm' in body) {
        const { withBands: spectra } = await library();
        const hits = withBands(spectra, body.bands_percm, body.tolerance_percm);
        const byBands = hits
          .slice(0, MOST_BY_BANDS)
          .map(({ id, bands }) => ({ id, bands: [...bands] }));
        return { alike: [], byBands, searched: spectra.length };
      }
      await refuseOthers(request, body.file, context);
      const { fingerprint } = await readReference(context, body.file, body.state);
      const { packed } = await library();
      const alike = mostAlike(packed, fingerprint, MOST_HITS);
      return { alike, byBands: [], searched: packed.ids.length };
    },
  );
}

/** A bench compares what it may read: the files of its record, and those of the library. */
async function refuseOthers(request: FastifyRequest, file: string, { store }: ServerContext) {
  if (!(await mayRead(file, signedInAs(request), store))) found(undefined, 'file');
}

/** Blanks at the ends are nobody's wish; a name of nothing else is none. */
function nameIn(given: string): string {
  const name = given.trim();
  if (name === '')
    throw refused(422, 'name-missing', 'The spectrum needs a name.', 'Say what was measured.');
  return name;
}

/** The attachment read as an infrared spectrum; refused with the reason where it is none. */
async function readReference({ store }: ServerContext, file: string, state: SampleState | null) {
  const { bytes } = found(await store.attachment(file), 'file');
  const read = referenceIn(bytes, state === null ? {} : { state });
  if (!read.ok) throw refused(422, read.problem.code, read.problem.message, read.problem.hint);
  return read;
}

/** A SMILES as it is; a name as the table of substances has it. */
async function smilesOf({ structures }: ServerContext, given: string): Promise<string> {
  const text = given.trim();
  const drawn = text !== '' && (await structures()).canonical(text).ok;
  if (drawn) return text;
  const known = findKnown(tableWith(), text);
  if (known !== undefined && 'substance' in known && known.substance.smiles !== undefined)
    return known.substance.smiles;
  throw refused(
    422,
    'structure-unknown',
    `“${text}” is neither a SMILES nor a name in the table of substances.`,
    'Leave the structure out, or draw it as SMILES: CC(=O)C is acetone.',
  );
}
