export type { BenchField, BenchSheet, BenchStep, Measure } from '../../core/report/bench/field.ts';
