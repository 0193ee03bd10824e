import { execFile } from 'node:child_process';

/** What git could not do, in words for whoever asked. */
export class HistoryError extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'HistoryError';
  }
}

/** Git's answer was an exit code other than 0. */
export class GitRefusal extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'GitRefusal';
  }
}

/** Where a hook or a script of the user's has told git to look; the folder that is asked about decides instead. */
const PLACES = [
  'GIT_DIR',
  'GIT_WORK_TREE',
  'GIT_INDEX_FILE',
  'GIT_PREFIX',
  'GIT_COMMON_DIR',
  'GIT_NAMESPACE',
  'GIT_OBJECT_DIRECTORY',
  'GIT_ALTERNATE_OBJECT_DIRECTORIES',
  'GIT_EXTERNAL_DIFF',
];

/*
 * A repository from somebody else may set programs to be run (a monitor of files, hooks, filters, textual conversions).
 * Only commands are used that read objects and the index, and what they could start is switched off. No command may
 * fetch: a connection is nobody's wish here.
 */
const GUARDS = [
  ['core.fsmonitor', 'false'],
  ['core.hooksPath', process.platform === 'win32' ? 'NUL' : '/dev/null'],
  ['protocol.allow', 'never'],
  ['log.showSignature', 'false'],
].flatMap(([name, value]) => ['-c', `${name!}=${value!}`]);

/**
 * Runs git in a folder; never through a shell, each argument as it is.
 * @param most bytes of the answer
 * @throws HistoryError when there is no git, GitRefusal with what it said when it could not answer
 */
export function git(folder: string, given: readonly string[], most = 64_000_000): Promise<Buffer> {
  const all = ['--no-pager', '--literal-pathspecs', '--no-replace-objects', ...GUARDS, ...given];
  return new Promise((resolve, reject) => {
    const options = {
      cwd: folder,
      env: environment(),
      maxBuffer: most,
      encoding: 'buffer',
      windowsHide: true,
    } as const;
    execFile('git', all, options, (error, stdout, stderr) => {
      if (error === null) resolve(stdout);
      else if (error.code === 'ENOENT') {
        reject(new HistoryError('There is no git on the path. Install git, or leave --since out.', { cause: error }));
      } else reject(new GitRefusal(stderr.toString('utf8').trim() || error.message));
    });
  });
}

/** An answer of NUL-ended fields. */
export async function gitFields(folder: string, given: readonly string[]): Promise<string[]> {
  const fields = (await git(folder, given)).toString('utf8').split('\0');
  return fields.at(-1) === '' ? fields.slice(0, -1) : fields;
}

function environment(): NodeJS.ProcessEnv {
  const kept = Object.entries(process.env).filter(([name]) => !PLACES.includes(name));
  return {
    ...Object.fromEntries(kept),
    LC_ALL: 'C',
    GIT_OPTIONAL_LOCKS: '0',
    GIT_TERMINAL_PROMPT: '0',
    GIT_NO_LAZY_FETCH: '1',
  };
}
