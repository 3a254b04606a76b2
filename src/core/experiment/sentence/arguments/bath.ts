import { readAmount } from '../../../quantity/amount.ts';
import type { Amount } from '../../../quantity/amount.ts';
import type { BathKind } from '../../step.ts';
import type { Reader } from './reader.ts';

const BATHS: readonly (readonly [RegExp, BathKind, number | undefined])[] = [
  [/^(dry ice|solid co2|dry[- ]ice.*|acetone.?dry ice.*)( bath)?$/, 'dry-ice', -78],
  [/^(ice.?(and|-|–|\/)?.?(salt|nacl|brine).*|salt.?ice.*)$/, 'ice-salt', -10],
  [/^(crushed )?(ice|ice.?(and.)?water)( ?-?bath)?( mixture)?$/, 'ice', 0],
  [
    /^(cold )(water|tap water)( bath)?$|^((running )?(cold )?tap|running (cold )?water)$/,
    'water',
    15,
  ],
  [/^((boiling|hot|warm) )?water( ?-?bath)?$/, 'water', undefined],
  [/^steam( bath| cone)?$/, 'steam', 95],
  [/^(silicone |mineral |hot )?oil( ?-?bath)?$/, 'oil', undefined],
  [/^sand( ?-?bath)?$/, 'sand', undefined],
  [
    /^(aluminium |aluminum |metal |heating )?(block|hotplate|hot ?plate|hot-plate|stirrer hotplate)$/,
    'block',
    undefined,
  ],
  [
    /^(small |gentle |naked |open |low |luminous )*(flame|(bunsen|gas)( burner)?( flame)?|burner)$/,
    'flame',
    undefined,
  ],
  [/^(heating |electric )?mantle$/, 'mantle', undefined],
  [/^(refrigerator|fridge)$/, 'air', 4],
  [/^freezer$/, 'air', -18],
  [/^(air|air bath|oven|drying oven)$/, 'air', undefined],
];

/** Bath temperatures that are no figure in the text are common practice. */
export const readBath: Reader = (piece) => {
  let text = piece.text
    .trim()
    .toLowerCase()
    .replace(/^(?:an?|the)\s+/, '')
    .replace(/[,:]$/, '');
  let temperature: Amount | undefined;
  const at = /^(.*?)\s+(?:at|held at|kept at|maintained at|set to|set at|near)\s+(.+)$/.exec(text);
  const front = /^((?:[-−]?\d[\d–.,-]*\s*°\s*c)|(?:[-−]?\d[\d–.,-]*\s*degrees c))\s+(.+)$/.exec(
    text,
  );
  const bracket = /^(.*?)\s+\(([^()]*°\s*c)\)$/.exec(text);
  const figure = at?.[2] ?? bracket?.[2] ?? front?.[1];
  if (figure) {
    const amount = readAmount(figure.replace(/°\s*c/, '°C'));
    if (amount.kind !== 'temperature') return undefined;
    temperature = amount;
    text = at?.[1] ?? bracket?.[1] ?? front![2]!;
  }
  const found = BATHS.find(([pattern]) => pattern.test(text));
  if (!found) return undefined;
  const usual = /boiling/.test(text)
    ? 100
    : /hot/.test(text)
      ? 80
      : /warm/.test(text)
        ? 45
        : found[2];
  const temperature_C = temperature?.value ?? usual;
  return {
    argument: {
      kind: 'bath',
      bath: found[1],
      ...(temperature_C !== undefined && { temperature_C }),
      ...(temperature && { figure: temperature }),
      ...(temperature === undefined &&
        temperature_C !== undefined && {
          assumed: `${text.replace(/ bath$/, '')} bath taken as ${temperature_C} °C (common practice)`,
        }),
    },
    cost: 0,
  };
};
