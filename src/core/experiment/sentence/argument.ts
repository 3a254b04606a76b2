import type { ArgumentKind } from '../verbs/verb.ts';
import { readBath } from './arguments/bath.ts';
import {
  readAcidity,
  readBareTime,
  readEndpoint,
  readPortions,
  readPressure,
  readTemperature,
  readTime,
  readVolume,
} from './arguments/figures.ts';
import { readBracket, readBracketed, readList } from './arguments/material-list.ts';
import { readKeep, readRef, readRefs, readStream, readVessel } from './arguments/places.ts';
import { readDetail, readUntil } from './arguments/prose.ts';
import type { Reader } from './arguments/reader.ts';

export type { ReadArgument } from './arguments/reader.ts';

/** How each kind of argument is read; none that fits gives no reading. */
export const ARGUMENT_READERS: Record<ArgumentKind, Reader> = {
  vessel: readVessel,
  ref: readRef,
  refs: readRefs,
  materials: readList,
  bracketed: readBracketed,
  time: readTime,
  bareTime: readBareTime,
  bracket: readBracket,
  pressure: readPressure,
  volume: readVolume,
  temperature: readTemperature,
  bath: readBath,
  portions: readPortions,
  until: readUntil,
  endpoint: readEndpoint,
  acidity: readAcidity,
  stream: readStream,
  keep: readKeep,
  detail: readDetail,
};
