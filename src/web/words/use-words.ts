import { useMemo } from 'react';
import type { AmountKind } from '../../core/quantity/amount.ts';
import { formatNumber, formatQuantity } from '../../core/quantity/print.ts';
import { useSettings } from '../api/queries.ts';
import { unbroken, withDecimal } from './decimal.ts';

export interface Words {
  readonly decimal: '.' | ',';
  readonly terms: 'us' | 'uk';
  readonly number: (value: number, digits?: number) => string;
  readonly quantity: (value: number, kind: AmountKind, digits?: number) => string;
  readonly said: (sentence: string) => string;
}

export function wordsOf(decimal: Words['decimal'], terms: Words['terms']): Words {
  return {
    decimal,
    terms,
    number: (value, digits) => formatNumber(value, digits, { decimal }),
    quantity: (value, kind, digits) => formatQuantity(value, kind, digits, { decimal }),
    said: (sentence) => unbroken(withDecimal(sentence, decimal)),
  };
}

/** How numbers and terms are written in this laboratory. */
export function useWords(): Words {
  const { data } = useSettings();
  const decimal = data?.decimalSign ?? '.';
  const terms = data?.terms ?? 'uk';
  return useMemo(() => wordsOf(decimal, terms), [decimal, terms]);
}
