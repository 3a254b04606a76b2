import { spawnSync } from 'node:child_process';
import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sha256 } from '../../src/store/attachments.ts';
import { backUpFolder } from '../../src/store/backup.ts';
import { refusalOf } from '../../src/store/refusal.ts';
import { later, newFolder, sqlitePlace } from '../../src/store/testing/kinds.ts';
import { begin, net, RUN } from '../../src/store/testing/pieces.ts';
import { codeOf, valueOf } from '../../src/store/testing/value-of.ts';
import { DEFAULT_SETTINGS } from '../../src/wire/settings.ts';

/** A disk of 4 MB in memory; undefined where this process may not mount one. */
function smallDisk(): string | undefined {
  const folder = newFolder();
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=4m', 'tmpfs', folder]);
  if (mounted.status !== 0) return undefined;
  later(() => spawnSync('umount', [folder]));
  return folder;
}

describe('a disk that is full', () => {
  it('is said, keeps nothing by halves, and is got over when there is room', async (test) => {
    const disk = smallDisk();
    if (disk === undefined) return test.skip('only root may mount the small disk that this needs');
    const place = await sqlitePlace(join(disk, 'store'));
    const store = await place.open();
    await begin(store);
    writeFileSync(join(disk, 'ballast'), new Uint8Array(1_500_000));
    const acknowledged: string[] = [];
    let refusal: string | undefined;
    for (let n = 0; refusal === undefined; n++) {
      const entries = [1, 2, 3].map((i) => ({ ...net(`${n}-${i}`), text: 'x'.repeat(9000) }));
      const answer = await store.addEntries(RUN, entries, 'R. T.');
      if (answer.ok) acknowledged.push(...answer.value.acknowledged.map(({ id }) => id));
      else refusal = answer.refusal.code;
    }
    expect(refusal).toBe('disk-full');
    const bytes = new Uint8Array(2_000_000);
    const photo = { hash: sha256(bytes), mediaType: 'image/png', bytes };
    expect(codeOf(await store.addAttachment(photo))).toBe('disk-full');
    const large = { ...DEFAULT_SETTINGS, glassware: Array.from({ length: 4000 }, piece) };
    const refused = await store.setSettings(large).then(() => undefined, refusalOf);
    expect(refused?.code).toBe('disk-full');
    const idsOf = async () => (await store.entries(RUN)).map(({ entry }) => entry.id);
    expect(await idsOf()).toEqual(acknowledged);
    expect(await store.settings()).toEqual(DEFAULT_SETTINGS);

    rmSync(join(disk, 'ballast'));
    valueOf(await store.addEntries(RUN, [net('after')], 'R. T.'));
    expect(await idsOf()).toEqual([...acknowledged, 'after']);
    await store.close();
    const again = await place.open();
    expect(await again.entries(RUN)).toHaveLength(acknowledged.length + 1);
  });

  it('takes no part of a backup', async (test) => {
    const disk = smallDisk();
    if (disk === undefined) return test.skip('only root may mount the small disk that this needs');
    const folder = newFolder();
    const store = await (await sqlitePlace(folder)).open();
    const bytes = new Uint8Array(5_000_000);
    valueOf(await store.addAttachment({ hash: sha256(bytes), mediaType: 'image/png', bytes }));
    const path = join(disk, 'backup.sqlite');
    const refused = await store.backupTo(path).then(() => undefined, refusalOf);
    expect(refused?.code).toBe('disk-full');
    expect(codeOf(await backUpFolder(folder, path))).toBe('disk-full');
    expect(readdirSync(disk)).toEqual([]);
  });
});

function piece(_: unknown, n: number) {
  return { id: `flask-${n}`, name: 'x'.repeat(80), volume_mL: 50, tolerance_mL: 0.1 };
}
