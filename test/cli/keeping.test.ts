import { describe, expect, it } from 'vitest';
import { runOn } from './fake-io.ts';

describe('the commands of what is kept', () => {
  it.each([
    ['serve', ['--port', '8000', '--empty'], '[[],{"port":"8000","empty":true}]'],
    ['backup', ['a.backup', '--folder', 'f'], '[["a.backup"],{"folder":"f"}]'],
    ['restore', ['a.backup'], '[["a.backup"],{}]'],
    ['export', ['a.zip'], '[["a.zip"],{}]'],
    ['import', ['a.zip'], '[["a.zip"],{}]'],
  ])('%s reaches its work with what was typed', async (name, args, call) => {
    const { exit, err } = await runOn({}, name, ...args);
    expect([exit, err.replace(/\s+/g, ' ')]).toEqual([2, `${name} was reached with ${call}. `]);
  });

  it.each(['backup', 'restore', 'export', 'import'])('%s asks for its file', async (name) => {
    const { exit, err } = await runOn({}, name);
    expect([exit, err]).toEqual([2, expect.stringContaining('Something is missing.')]);
  });
});
