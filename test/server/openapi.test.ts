import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { problemsOf, valuesOf } from './json-schema.ts';
import type { JsonSchema } from './json-schema.ts';
import { BENZOIC, serving, withRun } from './serving.ts';
import type { Answer, Ask, Served } from './serving.ts';

type Content = Readonly<Record<string, { readonly schema: JsonSchema }>>;

interface Described {
  readonly requestBody?: { readonly content: Content };
  readonly parameters?: readonly {
    readonly in: 'path' | 'query';
    readonly name: string;
    readonly required?: boolean;
    readonly schema: JsonSchema;
  }[];
  readonly responses: Readonly<Record<string, { readonly content?: Content }>>;
}

type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';

interface Operation {
  readonly method: Method;
  readonly path: string;
  readonly described: Described;
}

interface Request {
  readonly url: string;
  readonly body: unknown;
  readonly headers: Readonly<Record<string, string>>;
  /** It has the form that the description gives. */
  readonly wellFormed: boolean;
}

/** A feed does not end, so that it cannot be asked here; it has tests of its own. */
const ENDLESS = /\/feed$/;
const REQUESTS = 60;

async function operationsOf(ask: Ask): Promise<Operation[]> {
  const { paths }: { paths: Record<string, Record<string, Described>> } = (
    await ask('GET', '/api/openapi.json')
  ).body();
  return Object.entries(paths)
    .filter(([path]) => !ENDLESS.test(path))
    .flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, described]) => ({
        method: method.toUpperCase() as Method,
        path,
        described,
      })),
    );
}

/** Things that are there, so that requests get past the first door. */
const KNOWN: Readonly<Record<string, readonly string[]>> = {
  id: ['experiment-1', 'run-number-1'],
  number: ['1'],
  experiment: ['experiment-1'],
  smiles: ['CCO', 'c1ccccc1O'],
};

/** A text of some length that is more than blanks: some of ours are trimmed before they are counted. */
const isPlain = (value: unknown): boolean =>
  typeof value === 'string'
    ? value === '' || value.trim() !== ''
    : typeof value !== 'object' || value === null || Object.values(value).every(isPlain);

function urls({ path, described: { parameters = [] } }: Operation): fc.Arbitrary<string> {
  const values = parameters.map(({ name, schema, required = false }) => {
    const some = fc.oneof(
      fc.constantFrom(...(KNOWN[name] ?? ['x'])),
      valuesOf(schema).map(String),
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }),
    );
    return required ? some : fc.option(some, { nil: undefined });
  });
  return fc.tuple(...values).map((given) => {
    const query = new URLSearchParams();
    let url = path;
    parameters.forEach(({ in: where, name }, n) => {
      const value = given[n];
      if (value === undefined) return;
      // Dots alone would make it the path of another route.
      const part = /^\.*$/.test(value) ? 'x' : encodeURIComponent(value);
      if (where === 'path') url = url.replace(`{${name}}`, () => part);
      else query.set(name, value);
    });
    const asked = query.toString();
    return asked === '' ? url : `${url}?${asked}`;
  });
}

/** Something in a good body taken away, put in or replaced. */
const damaged = (good: unknown): fc.Arbitrary<unknown> =>
  fc.tuple(fc.nat(20), fc.jsonValue(), fc.boolean()).map(([at, value, drop]) => {
    if (typeof good !== 'object' || good === null) return value;
    const entries = Object.entries(good);
    const [name = 'more'] = entries[at % (entries.length + 1)] ?? [];
    const rest = entries.filter(([other]) => other !== name);
    return Object.fromEntries(drop ? rest : [...rest, [name, value]]);
  });

type Body = Pick<Request, 'body' | 'headers' | 'wellFormed'>;

function bodies({ described: { requestBody } }: Operation): fc.Arbitrary<Body> {
  if (requestBody === undefined)
    return fc.constant({ body: undefined, headers: {}, wellFormed: true });
  const [type, content] = Object.entries(requestBody.content)[0]!;
  const headers = { 'content-type': type };
  if (type !== 'application/json')
    return fc
      .uint8Array({ maxLength: 200 })
      .map((bytes) => ({ body: Buffer.from(bytes), headers, wellFormed: true }));
  const good = valuesOf(content.schema);
  const asJson = (body: unknown, wellFormed: boolean): Body => ({
    body: JSON.stringify(body),
    headers,
    wellFormed,
  });
  return fc.oneof(
    { weight: 4, arbitrary: good.filter(isPlain).map((body) => asJson(body, true)) },
    { weight: 2, arbitrary: good.chain(damaged).map((body) => asJson(body, false)) },
    { weight: 1, arbitrary: fc.jsonValue().map((body) => asJson(body, false)) },
    {
      weight: 1,
      arbitrary: fc
        .tuple(fc.string(), fc.constantFrom(type, 'text/plain', 'x/y', ''))
        .map(([body, other]) => ({ body, headers: { 'content-type': other }, wellFormed: false })),
    },
  );
}

const requests = (operation: Operation): fc.Arbitrary<Request> =>
  fc.tuple(urls(operation), bodies(operation)).map(([url, body]) => ({ url, ...body }));

/** "image/*" allows "image/png"; what stands behind a semicolon does not matter. */
const allows = (type: string, given: string): boolean =>
  type.endsWith('/*') ? given.startsWith(type.slice(0, -1)) : given.split(';')[0] === type;

/** Where an answer is none that the description declares. */
function undeclared({ described }: Operation, { status, headers, text }: Answer): string[] {
  const declared = described.responses[status];
  if (declared === undefined) return [`status ${status} is not declared: ${text.slice(0, 200)}`];
  if (declared.content === undefined) return text === '' ? [] : [`status ${status} has a body`];
  const type = String(headers['content-type']);
  const found = Object.entries(declared.content).find(([one]) => allows(one, type));
  if (found === undefined) return [`the media type ${type} is not declared for ${status}`];
  return found[0] === 'application/json' ? problemsOf(JSON.parse(text), found[1].schema) : [];
}

async function check(served: Served, operation: Operation): Promise<number[]> {
  const statuses: number[] = [];
  await fc.assert(
    fc.asyncProperty(requests(operation), async ({ url, body, headers, wellFormed }) => {
      // A session each: a rate is counted by session, and signing out ends one.
      const ask = served.as(await served.signIn());
      const answer = await ask(operation.method, url, body, headers);
      statuses.push(answer.status);
      expect(undeclared(operation, answer)).toEqual([]);
      expect(answer.status).not.toBe(500);
      if (wellFormed && answer.status === 400) expect(answer.text).not.toContain('The body at');
    }),
    { numRuns: REQUESTS },
  );
  return statuses;
}

describe('the interface and its own description', () => {
  it('every operation answers every request as the description says', async () => {
    const served = await serving();
    const { instructor } = await withRun(served);
    const operations = await operationsOf(instructor);
    expect(operations.length).toBeGreaterThan(25);
    const done = new Set<string>();
    for (const operation of operations) {
      const statuses = await check(served, operation);
      if (statuses.some((status) => status < 300))
        done.add(`${operation.method} ${operation.path}`);
    }
    expect(served.faults).toEqual([]);
    // The requests are good enough to get most of it done, not only to be turned away.
    expect(done.size).toBeGreaterThan(operations.length / 2);
  });

  it('is closed to nobody who is signed in, and complete', async () => {
    const served = await serving();
    const { instructor, run } = await withRun(served);
    const bench = served.as(await served.signIn('bench', run));
    const answer = await bench('GET', '/api/openapi.json');
    const described: { openapi: string; paths: object } = answer.body();
    expect([answer.status, described.openapi]).toEqual([200, '3.1.0']);
    expect(Object.keys(described.paths)).toContain('/api/runs/{id}/feed');
    const drawn = await instructor('POST', '/api/schemes', { text: BENZOIC, dark: false });
    expect(drawn.status).toBe(200);
  });
});

describe('the reader of schemas itself', () => {
  const schema: JsonSchema = {
    type: 'object',
    properties: {
      id: { type: 'string', pattern: '^[a-z]{3}$' },
      n: { anyOf: [{ type: 'integer', minimum: 1 }, { type: 'null' }] },
      list: { type: 'array', items: { enum: ['a', 'b'] } },
    },
    required: ['id', 'n'],
    additionalProperties: false,
  };

  it('finds its own values good', () => {
    fc.assert(
      fc.property(valuesOf(schema), (value) => {
        expect(problemsOf(value, schema)).toEqual([]);
      }),
    );
  });

  it.each([
    [{ id: 'abc' }, '$.n missing'],
    [{ id: 'ABC', n: 1 }, '$.id has no such form'],
    [{ id: 'abc', n: 0 }, '$.n fits no alternative'],
    [{ id: 'abc', n: 1.5 }, '$.n fits no alternative'],
    [{ id: 'abc', n: null, more: 1 }, '$.more is not declared'],
    [{ id: 'abc', n: null, list: ['c'] }, '$.list[0] is none of them'],
    [[], '$ is no object'],
  ])('%j: %s', (value, problem) => {
    expect(problemsOf(value, schema)).toEqual([problem]);
  });
});
