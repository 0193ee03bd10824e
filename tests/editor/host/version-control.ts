import { execFileSync } from 'node:child_process';

/** Puts everything in a folder under version control, as it is now. */
export function underVersionControl(folder: string): void {
  const git = (...given: string[]): void => {
    execFileSync('git', given, { cwd: folder, stdio: 'pipe' });
  };
  git('init', '--quiet');
  git('add', '--all');
  const author = ['-c', 'user.name=A photographer', '-c', 'user.email=photographer@example.org'];
  git(...author, 'commit', '--quiet', '--message', 'As it came');
}
