import { KNEES, peopleFile } from '../../cli/workspace.ts';

/** One hostile input: what lies in the folder, what is asked, what must be answered. */
export interface Row {
  readonly name: string;
  /** Beside these stands a people file with somebody in `a.jpg` and `good.jpg`, unless it is given here. */
  readonly files: Readonly<Record<string, string | Buffer>>;
  /** What plain files cannot say: links, folders, pipes. */
  readonly prepare?: (folder: string) => void | Promise<void>;
  /** `check crops.yaml` if absent; file names are taken in the folder. */
  readonly argv?: readonly string[];
  readonly exit: 0 | 1 | 2;
  /** Each stands in the output exactly so, the folder's own path left out. */
  readonly says: readonly string[];
  /** What must not stand there. */
  readonly neverSays?: readonly string[];
  /** Whether `good.jpg`, the sound frame, is still reported. Absent: it is. */
  readonly others?: 'reported' | 'unreadable';
  /** Whether a fix leaves `good.jpg` as it is: nothing over the frames can be trusted, or its photo alone is missing. */
  readonly fix?: 'leaves';
}

export const PEOPLE = peopleFile({ 'a.jpg': 'standing', 'good.jpg': 'standing' });

/** Lines 1 to 5 of every manifest here; the frames come from line 6 on. */
export const TOP = 'selvedge: 1\naspect: free\ncompose: free\n# told by the client: no feet\nframes:\n';

/** The sound frame, at the end of every manifest: two knees are cut. */
export const GOOD = `  - photo: good.jpg # keep me\n    crop: ${KNEES} # and me\n`;

/** A manifest of a broken frame and the sound one. */
export function manifest(frame: string): string {
  return `${TOP}${frame}${GOOD}`;
}

/** A row of one bad line, line 7, in an otherwise sound frame. */
export function line(name: string, bad: string, ...says: string[]): Row {
  return { name, files: { 'crops.yaml': manifest(`  - photo: a.jpg\n    ${bad}\n`) }, exit: 1, says };
}

/** A row of a whole manifest that is still read. */
export function text(name: string, manifestText: string | Buffer, ...says: string[]): Row {
  return { name, files: { 'crops.yaml': manifestText }, exit: 1, says };
}

/** A row of a manifest of which nothing can be read. */
export function hopeless(name: string, manifestText: string | Buffer, ...says: string[]): Row {
  return { name, files: { 'crops.yaml': manifestText }, exit: 2, says, others: 'unreadable' };
}

/** A row of one bad line in the people file, line 1; the sound frame's own line follows it. */
export function people(name: string, bad: string | Buffer, ...says: string[]): Row {
  const good = Buffer.from(peopleFile({ 'good.jpg': 'standing' }));
  return {
    name,
    files: {
      'crops.yaml': manifest(''),
      'crops.people.jsonl': Buffer.concat([Buffer.from(bad), Buffer.from('\n'), good]),
    },
    exit: 1,
    says,
  };
}
