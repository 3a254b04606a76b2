import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, onTestFinished } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

function freshFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'weighboat-start-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

const environment = (folder: string) => {
  const { DATABASE_URL: _elsewhere, ...env } = process.env;
  return { ...env, INIT_CWD: root, WEIGHBOAT_FOLDER: folder };
};

const node = (folder: string, ...args: string[]) =>
  spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8', env: environment(folder) });

/** Starts a server in the folder and waits until it has said where it is. */
async function started(folder: string, ...options: string[]) {
  const args = ['scripts/start.mjs', '--port', '0', ...options];
  const child = spawn(process.execPath, args, {
    cwd: root,
    env: environment(folder),
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const ended = once(child, 'exit') as Promise<[number | null]>;
  onTestFinished(async () => {
    child.kill('SIGKILL');
    await ended;
  });
  let said = '';
  let complained = '';
  child.stderr.setEncoding('utf8').on('data', (part: string) => void (complained += part));
  child.stdout.setEncoding('utf8').on('data', (part: string) => void (said += part));
  const link = () => /Sign in .*: (http:\/\/127\.0\.0\.1:(\d+))\/sign-in#([\w-]+)\n/.exec(said);
  while (link() === null && child.exitCode === null)
    await new Promise((resolve) => setTimeout(resolve, 10));
  const [, origin = '', port = '', token = ''] = link() ?? [];
  return { child, ended, origin, port, token, said: () => said, complained: () => complained };
}

async function signIn({ origin, token }: { origin: string; token: string }): Promise<string> {
  const answer = await fetch(`${origin}/api/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin },
    body: JSON.stringify({ token }),
  });
  expect(answer.status).toBe(200);
  return answer.headers.get('set-cookie')!.split(';')[0]!;
}

describe('npm start', () => {
  it('serves the pages and the demonstration, and stops when it is asked to', async () => {
    const folder = freshFolder();
    const server = await started(folder);
    expect(server.said(), server.complained()).toContain(`Weighboat listens at ${server.origin}`);
    const page = await fetch(server.origin);
    expect([page.status, await page.text()]).toEqual([200, expect.stringContaining('Weighboat')]);
    const cookie = await signIn(server);
    const list = await fetch(`${server.origin}/api/experiments`, { headers: { cookie } });
    const experiments = (await list.json()) as { title: string; runs: number }[];
    expect(experiments.length).toBeGreaterThan(3);
    expect(experiments[0]).toMatchObject({ title: expect.stringMatching(/4-methylcyclohexanol/i) });
    const runs = await fetch(`${server.origin}/api/runs`, { headers: { cookie } });
    const [run] = (await runs.json()) as { id: string }[];
    const feed = await fetch(`${server.origin}/api/runs/${run!.id}/feed`, { headers: { cookie } });
    expect(feed.status).toBe(200);
    server.child.kill('SIGTERM');
    expect(await server.ended).toEqual([0, null]);
    expect(server.said()).toContain('Everything is kept.');
    expect(server.complained().replace(/^Building .*\n/gm, '')).toBe('');
  });

  it('keeps a session and what was made over a new start', async () => {
    const folder = freshFolder();
    const first = await started(folder, '--empty');
    const cookie = await signIn(first);
    const made = await fetch(`${first.origin}/api/experiments`, {
      method: 'POST',
      headers: { cookie, origin: first.origin, 'content-type': 'application/json' },
      body: JSON.stringify({ id: 'experiment-1', text: '# Aspirin\n' }),
    });
    expect(made.status).toBe(201);
    first.child.kill('SIGINT');
    expect(await first.ended).toEqual([0, null]);
    const second = await started(folder);
    const list = await fetch(`${second.origin}/api/experiments`, { headers: { cookie } });
    expect(await list.json()).toMatchObject([{ title: 'Aspirin' }]);
  });

  it('says what to do where the folder or the port is taken, and makes a backup meanwhile', async () => {
    const folder = freshFolder();
    const { port } = await started(folder, '--empty');
    const twice = node(folder, 'scripts/start.mjs', '--port', '0');
    expect([twice.status, twice.stdout]).toEqual([2, '']);
    expect(twice.stderr).toContain(`Another Weighboat uses the folder ${folder}.`);
    const elsewhere = node(freshFolder(), 'scripts/start.mjs', '--port', port);
    expect(elsewhere.stderr).toContain(`Port ${port} is taken on this machine.`);
    const noFolder = join(root, 'package.json');
    const inFile = node(folder, 'scripts/start.mjs', '--folder', noFolder);
    expect([inFile.status, inFile.stderr]).toEqual([
      2,
      expect.stringContaining('cannot be made or used as a folder.'),
    ]);
    const file = join(freshFolder(), 'all.backup');
    const backup = node(folder, 'bin/weighboat.mjs', 'backup', file);
    expect([backup.status, existsSync(file)], backup.stderr).toEqual([0, true]);
    const exporting = node(folder, 'bin/weighboat.mjs', 'export', `${file}.zip`);
    expect([exporting.status, existsSync(`${file}.zip`)]).toEqual([2, false]);
  });
});

describe('what is kept', () => {
  it('goes out, comes in and is put back', async () => {
    const [folder, other, files] = [freshFolder(), freshFolder(), freshFolder()];
    const server = await started(folder);
    server.child.kill('SIGTERM');
    await server.ended;
    const [zip, backup] = [join(files, 'all.zip'), join(files, 'all.backup')];
    const ask = (...args: string[]) => {
      const { status, stdout, stderr } = node(other, 'bin/weighboat.mjs', ...args);
      return { status, said: `${stdout}${stderr}`.replace(/\s+/g, ' ') };
    };
    expect(ask('export', zip, '--folder', folder)).toMatchObject({ status: 0 });
    expect(ask('export', zip, '--folder', folder).said).toContain('is there already');
    const imported = ask('import', zip);
    expect(imported).toMatchObject({ status: 0, said: expect.stringContaining('experiments') });
    expect(ask('import', zip)).toMatchObject({ status: 2 });
    expect(ask('backup', backup)).toMatchObject({ status: 0 });
    expect(ask('restore', backup)).toEqual({
      status: 0,
      said: expect.stringContaining('What was there before is in'),
    });
    expect(ask('restore', zip)).toMatchObject({ status: 2 });
    expect(ask('import', join(files, 'nothing.zip')).said).toContain('There is no file');
  });
});

describe('from the shell', () => {
  it('runs a command', () => {
    const { status, stdout } = node(freshFolder(), 'bin/weighboat.mjs', 'mass', 'NaBH4');
    expect(status).toBe(0);
    expect(stdout).toContain('37.83 g/mol');
  });
});
