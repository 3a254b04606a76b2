import { timesAt, keystrokes } from './.k.ts';
import { documentHere } from './files.ts';
import { median } from './measure.ts';
const text = documentHere('two-hundred.md');
const t = keystrokes(text, '## Procedure', 1060, 20_251_014);
const ms = timesAt(t);
console.log(median(ms), ms.reduce((a, b) => a + b) / ms.length);
