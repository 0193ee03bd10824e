import { parsePeopleFile, type PeopleFile } from './people-file.ts';
import { readPeopleLine, type LineReading } from './people-line.ts';

/** Reads a people file again whenever it has changed; lines that it had before are not read anew. */
export class PeopleReader {
  #known = new Map<string, LineReading>();

  /** What `parsePeopleFile` says of the text. */
  read(text: string): PeopleFile {
    const known = this.#known;
    const seen = new Map<string, LineReading>();
    const file = parsePeopleFile(text, (line) => {
      const reading = known.get(line) ?? readPeopleLine(line);
      seen.set(line, reading);
      return reading;
    });
    this.#known = seen;
    return file;
  }
}
