/** Powers of ten of the units that one may write, from grams and millilitres. */
const POWER: Readonly<Record<string, number>> = {
  '': 0,
  g: 0,
  mg: -3,
  µg: -6,
  kg: 3,
  ml: 0,
  µl: -3,
  l: 3,
};

/**
 * A number as typed: with point or comma, with or without its unit ("0,001", "0.1 mg", "2 kg").
 * In g or mL; undefined where it is no number.
 */
export function figureIn(text: string): number | undefined {
  const plain = text.replace(/[\s\u00a0\u202f±]/g, '').replace(/[uμ](?=[gl])/i, 'µ');
  const parts = /^(\d*[.,]?\d+|\d+[.,])(µ?[a-z]*)$/i.exec(plain);
  const power = parts && POWER[parts[2]!.toLowerCase()];
  if (!parts || power === undefined) return undefined;
  // By text, so that 0.1 mg is 0.0001 g to the last bit.
  return Number(`${parts[1]!.replace(',', '.')}e${power}`);
}

/** A number as one writes it: no exponent, the decimal sign of the laboratory. */
export function figureText(value: number, decimalSign: '.' | ','): string {
  const text = value.toLocaleString('en', { maximumFractionDigits: 12, useGrouping: false });
  return text.replace('.', decimalSign);
}
