import type { FastifyError } from 'fastify';
import {
  hasZodFastifySchemaValidationErrors,
  isResponseSerializationError,
} from 'fastify-type-provider-zod';
import { refusalOf } from '../store/refusal.ts';
import type { Refusal } from '../wire/common.ts';
import type { App, ServerContext } from './app.ts';
import { isInterface } from './guard.ts';
import { refused, refusedBy, Refused } from './refused.ts';

const FAULT = refused(
  500,
  'fault',
  'Weighboat made a mistake here. What was kept before is safe.',
  'The window where it runs says what happened; please report that.',
);

/** What a program can do about it; our own pages send nothing of another form. */
const FORMS = 'What each request looks like stands in /api/openapi.json.';

/** Refusals of the framework in our words. */
const WORDS: Readonly<Record<number, Refusal>> = {
  400: { code: 'wrong-input', message: 'The request could not be read.', hint: FORMS },
  413: {
    code: 'too-large',
    message: 'That is more than is taken at once.',
    hint: 'Send it in smaller parts; pictures can be taken at a lower resolution.',
  },
  415: {
    code: 'wrong-media-type',
    message: 'The request is of a media type not taken here.',
    hint: FORMS,
  },
  429: {
    code: 'too-many-requests',
    message: 'That was a great many requests.',
    hint: 'Wait a minute, then go on.',
  },
};

/** "body/entries/0/kind: Invalid option ..." in a sentence. */
function whatIsWrong(error: Pick<FastifyError, 'validation' | 'validationContext'>): Refused {
  const [first] = error.validation ?? [];
  const place = (first?.instancePath ?? '').replace(/^\//, '').replaceAll('/', '.');
  const where = `${error.validationContext ?? 'request'}${place === '' ? '' : ` at ${place}`}`;
  return refused(
    400,
    'wrong-input',
    `The ${where} is not as it should be: ${first?.message}.`,
    FORMS,
  );
}

/** Every error that reaches the framework as the answer that it should be. */
export function answerTo(error: unknown): Refused {
  if (error instanceof Refused) return error;
  if (hasZodFastifySchemaValidationErrors(error)) return whatIsWrong(error);
  const ofStore = refusalOf(error);
  if (ofStore !== undefined) return refusedBy(ofStore);
  if (isResponseSerializationError(error)) return FAULT;
  const { statusCode = 500 } = error as { statusCode?: number };
  const words = WORDS[statusCode] ?? (statusCode < 500 ? WORDS[400] : undefined);
  if (words === undefined) return FAULT;
  return new Refused(statusCode in WORDS ? statusCode : 400, words);
}

/** Turns what a handler throws into an answer, and tells of what is our own fault. */
export function answerFaults(app: App, context: ServerContext): void {
  app.setErrorHandler((error, _request, reply) => {
    const { status, refusal } = answerTo(error);
    if (status === 500) context.onFault(error);
    return reply.code(status).type('application/json').serializer(JSON.stringify).send(refusal);
  });
}

/** What the interface answers where it has no route. */
export const noRoute = (url: string): Refused =>
  isInterface(url)
    ? refused(404, 'not-found', 'There is nothing under this address.', 'See /api/openapi.json.')
    : refused(404, 'not-found', 'There is no page under this address.', 'Start at the shelf: /');
