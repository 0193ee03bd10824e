/** A call that cannot be answered at all (exit code 2). The message names the file, what is wrong and what would be right. */
export class SessionError extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'SessionError';
  }
}

const NO_RIGHT = 'you may not read or write it (change its permissions, or name a place that is yours)';

/** What the file system says, in words. */
export function causeOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'it is not there',
    ENOTDIR: 'it is not a folder, or a part of its path is none',
    EISDIR: 'it is a folder, not a file',
    EACCES: NO_RIGHT,
    EPERM: NO_RIGHT,
    EEXIST: 'a file stands where a folder is to be; name another place',
    EROFS: 'the disk is read-only',
    ENOSPC: 'the disk is full',
    EDQUOT: 'the disk is full',
    EFBIG: 'it would be larger than files may be here',
    ELOOP: 'its links lead in a circle',
    ENAMETOOLONG: 'its name is too long',
    EMFILE: 'too many files are open',
    EIO: 'the disk does not answer',
  };
  return words[code] ?? (error instanceof Error ? error.message : String(error));
}
