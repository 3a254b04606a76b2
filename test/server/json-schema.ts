import fc from 'fast-check';

type TypeName = 'object' | 'array' | 'string' | 'number' | 'integer' | 'boolean' | 'null';

/** As much of JSON Schema (draft 2020-12) as the description of our interface uses. */
export interface JsonSchema {
  readonly type?: TypeName | readonly TypeName[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | JsonSchema;
  readonly items?: JsonSchema;
  /** A list of just these, in this order. */
  readonly prefixItems?: readonly JsonSchema[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly JsonSchema[];
  /** Told apart by a constant in each, so that never two fit. */
  readonly oneOf?: readonly JsonSchema[];
  readonly pattern?: string;
  readonly format?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
}

/** Long enough to matter, short enough to send a great many. */
const LONGEST = 60;

const withinLength = (text: string, { minLength = 0, maxLength = Infinity }: JsonSchema): boolean =>
  text.length >= minLength && text.length <= maxLength;

function strings(schema: JsonSchema): fc.Arbitrary<string> {
  const { format, pattern, minLength = 0, maxLength = LONGEST } = schema;
  if (format === 'date') return dates().map((date) => date.slice(0, 10));
  if (format === 'date-time') return dates();
  if (pattern !== undefined)
    return fc.stringMatching(new RegExp(pattern)).filter((text) => withinLength(text, schema));
  const most = Math.max(minLength, Math.min(maxLength, LONGEST));
  return fc
    .string({ unit: 'grapheme', minLength, maxLength: most })
    .filter((text) => withinLength(text, schema));
}

const dates = (): fc.Arbitrary<string> =>
  fc
    .date({ min: new Date(0), max: new Date(4e12), noInvalidDate: true })
    .map((date) => date.toISOString());

function numbers({ type, minimum, exclusiveMinimum, maximum }: JsonSchema): fc.Arbitrary<number> {
  const min = minimum ?? exclusiveMinimum ?? -1e9;
  const max = maximum ?? 1e9;
  if (type === 'integer')
    return fc.integer({ min: Math.max(min, -(2 ** 31)), max: Math.min(max, 2 ** 31 - 1) });
  return fc
    .double({ min, max, noNaN: true })
    .filter((value) => exclusiveMinimum === undefined || value > exclusiveMinimum);
}

function objects({ properties = {}, required = [] }: JsonSchema): fc.Arbitrary<object> {
  const fields = Object.fromEntries(
    Object.entries(properties).map(([name, schema]) => [name, valuesOf(schema)]),
  );
  return fc.record(fields, { requiredKeys: [...required], noNullPrototype: true });
}

/** The alternatives of a schema, a list of types among them; a list of one is none. */
function alternativesOf(schema: JsonSchema): readonly JsonSchema[] | undefined {
  const { type, anyOf, oneOf } = schema;
  if (anyOf !== undefined) return anyOf;
  if (oneOf !== undefined) return oneOf;
  return Array.isArray(type) ? type.map((one: TypeName) => ({ ...schema, type: one })) : undefined;
}

const lists = ({ items = {}, prefixItems, minItems = 0, maxItems = 6 }: JsonSchema) =>
  prefixItems === undefined
    ? fc.array(valuesOf(items), {
        minLength: minItems,
        maxLength: Math.max(minItems, Math.min(maxItems, 6)),
      })
    : fc.tuple(...prefixItems.map(valuesOf));

/** Values that a schema allows. */
export function valuesOf(schema: JsonSchema): fc.Arbitrary<unknown> {
  if ('const' in schema) return fc.constant(schema.const);
  if (schema.enum !== undefined) return fc.constantFrom(...schema.enum);
  const alternatives = alternativesOf(schema);
  if (alternatives !== undefined) return fc.oneof(...alternatives.map(valuesOf));
  if (schema.type === undefined) return fc.jsonValue();
  const byType: Record<TypeName, () => fc.Arbitrary<unknown>> = {
    object: () => objects(schema),
    array: () => lists(schema),
    string: () => strings(schema),
    number: () => numbers(schema),
    integer: () => numbers(schema),
    boolean: () => fc.boolean(),
    null: () => fc.constant(null),
  };
  return byType[schema.type as TypeName]();
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function objectProblems(value: object, schema: JsonSchema, at: string): string[] {
  const { properties = {}, required = [], additionalProperties: rest } = schema;
  const missing = required
    .filter((name) => !(name in value))
    .map((name) => `${at}.${name} missing`);
  const held = Object.entries(value).flatMap(([name, field]) => {
    const own = properties[name];
    if (own !== undefined) return problemsOf(field, own, `${at}.${name}`);
    if (rest === false) return [`${at}.${name} is not declared`];
    return typeof rest === 'object' ? problemsOf(field, rest, `${at}.${name}`) : [];
  });
  return [...missing, ...held];
}

function textProblems(text: string, schema: JsonSchema, at: string): string[] {
  const { pattern, format } = schema;
  if (text.length < (schema.minLength ?? 0)) return [`${at} is too short`];
  if (text.length > (schema.maxLength ?? Infinity)) return [`${at} is too long`];
  if (pattern !== undefined && !new RegExp(pattern, 'u').test(text))
    return [`${at} has no such form`];
  if (format === 'date-time' && Number.isNaN(Date.parse(text))) return [`${at} is no instant`];
  return [];
}

function numberProblems(value: number, schema: JsonSchema, at: string): string[] {
  const { minimum = -Infinity, maximum = Infinity, exclusiveMinimum = -Infinity } = schema;
  if (schema.type === 'integer' && !Number.isInteger(value)) return [`${at} is no whole number`];
  return value < minimum || value > maximum || value <= exclusiveMinimum
    ? [`${at} is out of bounds`]
    : [];
}

/** Where a value is not what a schema allows; empty where it is. */
export function problemsOf(value: unknown, schema: JsonSchema, at = '$'): string[] {
  if ('const' in schema) return value === schema.const ? [] : [`${at} is not the constant`];
  if (schema.enum !== undefined)
    return schema.enum.includes(value) ? [] : [`${at} is none of them`];
  const alternatives = alternativesOf(schema);
  if (alternatives !== undefined)
    return alternatives.some((one) => problemsOf(value, one, at).length === 0)
      ? []
      : [`${at} fits no alternative`];
  if (schema.type === undefined) return [];
  const type = schema.type as TypeName;
  const wrong = [`${at} is no ${type}`];
  const byType: Record<TypeName, () => string[]> = {
    object: () => (isObject(value) ? objectProblems(value, schema, at) : wrong),
    array: () =>
      Array.isArray(value)
        ? value.flatMap((item, n) =>
            problemsOf(item, schema.prefixItems?.[n] ?? schema.items ?? {}, `${at}[${n}]`),
          )
        : wrong,
    string: () => (typeof value === 'string' ? textProblems(value, schema, at) : wrong),
    number: () => (typeof value === 'number' ? numberProblems(value, schema, at) : wrong),
    integer: () => (typeof value === 'number' ? numberProblems(value, schema, at) : wrong),
    boolean: () => (typeof value === 'boolean' ? [] : wrong),
    null: () => (value === null ? [] : wrong),
  };
  return byType[type]();
}
