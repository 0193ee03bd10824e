import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { connect, createServer, type AddressInfo } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

const SERVER = '/usr/sbin/sshd';

/** Two SSH servers on this machine's loopback, with keys of their own: what GNU parallel takes for two machines. */
export class Machines {
  /** For `parallel --sshloginfile`: one job at a time on each. */
  readonly loginFile: string;
  readonly #servers: readonly ChildProcess[];

  private constructor(loginFile: string, servers: readonly ChildProcess[]) {
    this.loginFile = loginFile;
    this.#servers = servers;
  }

  /** @param folder for keys and configurations */
  static async start(folder: string): Promise<Machines> {
    const key = makeKey(folder, 'key');
    const authorized = join(folder, 'authorized');
    copyFileSync(`${key}.pub`, authorized);
    chmodSync(authorized, 0o600);
    const hosts = ['first', 'second'];
    const ports = await Promise.all(hosts.map(freePort));
    // The server of a privileged user separates privileges in this folder.
    if (process.getuid?.() === 0) mkdirSync('/run/sshd', { recursive: true });
    const servers = hosts.map((host, index) => startServer(folder, host, ports[index]!, authorized));
    await Promise.all(ports.map(hasAnswered));
    const client = join(folder, 'client');
    const common = `HostName 127.0.0.1\n  IdentityFile ${key}\n  StrictHostKeyChecking no\n  UserKnownHostsFile /dev/null\n  LogLevel ERROR\n`;
    writeFileSync(client, hosts.map((host, index) => `Host ${host}\n  Port ${ports[index]}\n  ${common}`).join(''));
    const loginFile = join(folder, 'machines');
    writeFileSync(loginFile, hosts.map((host) => `1/ssh -F ${client} ${host}\n`).join(''));
    return new Machines(loginFile, servers);
  }

  /** Takes a machine away in the middle of its work. */
  lose(index: number): void {
    this.#servers[index]!.kill('SIGKILL');
  }

  close(): void {
    for (const server of this.#servers) server.kill('SIGKILL');
  }
}

/** Whether there are an SSH server, its tools and GNU parallel here. */
export function hasMachines(): boolean {
  const answers = (command: string, option: string): string => {
    const { stdout, stderr } = spawnSync(command, [option], { encoding: 'utf8' });
    return `${stdout}${stderr}`;
  };
  return answers('parallel', '--version').startsWith('GNU parallel') && answers(SERVER, '-V').includes('OpenSSH');
}

function startServer(folder: string, host: string, port: number, authorized: string): ChildProcess {
  const configuration = join(folder, `${host}-server`);
  const lines = [
    `Port ${port}`,
    'ListenAddress 127.0.0.1',
    `HostKey ${makeKey(folder, `${host}-host`)}`,
    `AuthorizedKeysFile ${authorized}`,
    'PasswordAuthentication no',
    'KbdInteractiveAuthentication no',
    'UsePAM no',
    'StrictModes no',
    'PidFile none',
  ];
  writeFileSync(configuration, `${lines.join('\n')}\n`);
  return spawn(SERVER, ['-D', '-f', configuration], { stdio: 'ignore' });
}

function makeKey(folder: string, name: string): string {
  const path = join(folder, name);
  const { status, stderr } = spawnSync('ssh-keygen', ['-q', '-t', 'ed25519', '-N', '', '-f', path], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`ssh-keygen: ${stderr}`);
  return path;
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

async function hasAnswered(port: number): Promise<void> {
  for (let attempt = 0; attempt < 100; attempt++) {
    const socket = connect(port, '127.0.0.1');
    // The server greets; an error rejects.
    const isThere = await once(socket, 'data').then(() => true, () => false); // prettier-ignore
    socket.destroy();
    if (isThere) return;
    await sleep(100);
  }
  throw new Error('The SSH server does not answer.');
}
