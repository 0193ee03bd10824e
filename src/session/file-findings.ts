import { basename } from 'node:path';
import type { Surroundings } from '../manifest/live-manifest.ts';
import type { Frame, Problem, TextRange } from '../manifest/manifest.ts';
import { nearestWord } from '../manifest/spelling.ts';
import type { PhotoPeople } from '../people/person.ts';
import { isCoveredBy } from '../rules/finding.ts';
import type { Severity } from '../rules/rule.ts';
import type { FileRuleId } from './file-rules.ts';
import { RULE_CATALOGUE } from './file-rules.ts';
import type { LocatedFinding } from './located-finding.ts';
import type { CheckContext } from './check-context.ts';
import { alwaysTooLarge } from './outputs/too-large.ts';
import type { PhotoState } from './photo-states.ts';
import type { Session } from './session.ts';

/** What the files say about a session; each finding has the severity that the manifest gives its rule, unless lower. */
export class FileFindings {
  readonly #context: CheckContext;

  constructor(context: CheckContext) {
    this.#context = context;
  }

  /** About the manifest as a whole, entries that are no readable frames, and the people file. */
  ofSession(
    { text, photos, outputs, problems }: Surroundings,
    { people, peoplePath, photosFolder }: Pick<Session, 'people' | 'peoplePath' | 'photosFolder'>,
  ): LocatedFinding[] {
    const top = photos?.range ?? firstLine(text);
    const findings = problems.flatMap((problem) => this.ofProblem(problem));
    for (const output of outputs) {
      const reason = alwaysTooLarge(output);
      if (reason !== undefined) findings.push(...this.#say('manifest', `Output ${output.id}: ${reason}`, output.key));
    }
    for (const { line, message, severity } of people.problems) {
      findings.push(...this.#say('manifest', `${basename(peoplePath)}, line ${line}: ${message}`, top, severity));
    }
    if ('refused' in photosFolder) findings.push(...this.#say('manifest', photosFolder.refused, top));
    else if (this.#context.isWithoutPhotos) {
      // Who says where the photos are, and is wrong, must not take the answer for a full one.
      const [place, severity] =
        photosFolder.isGiven === true ? ([`in ${photosFolder.path}`, 'error'] as const) : (['here', 'info'] as const);
      const message = `None of the photos is ${place}: the frames are checked from the people file alone.`;
      findings.push(...this.#say('photo-missing', message, top, severity));
    }
    return findings;
  }

  ofProblem({ message, range, severity }: Problem): LocatedFinding[] {
    return this.#say('manifest', message, range, severity);
  }

  /** About one frame's photo and people. */
  ofFrame(frame: Frame, state: PhotoState, measured: PhotoPeople | undefined): LocatedFinding[] {
    const { isFolderRefused, isWithoutPhotos } = this.#context;
    const at = frame.photo.range;
    if (state.kind === 'unusable') return this.#say('photo-missing', state.message, at);
    if (state.kind === 'absent') {
      const isExpected = isFolderRefused || (measured !== undefined && isWithoutPhotos);
      if (isExpected) return measured ? this.#ofSubjects(frame, measured) : [];
      const hint = state.meant === undefined ? '' : ` Did you mean ${state.meant}?`;
      const remedy = 'Check the name, put the photo into the photos folder, or remove the frame.';
      return this.#say('photo-missing', `${frame.photo.value} is not there.${hint} ${remedy}`, at);
    }
    if (!measured && state.kind === 'present' && state.trouble !== undefined) {
      return this.#say('photo-missing', `${frame.photo.value}: ${state.trouble}`, at);
    }
    if (!measured) {
      const message = `Nobody has measured the people in ${frame.photo.value} yet. ${this.#context.toMeasure}`;
      return this.#say('not-measured', message, at);
    }
    if (state.kind === 'changed') {
      const message = `${frame.photo.value} has changed since its people were measured. ${this.#context.toMeasure}`;
      return [...this.#say('stale-measure', message, at), ...this.#ofSubjects(frame, measured)];
    }
    return this.#ofSubjects(frame, measured);
  }

  /** Allowances that cover none of the frame's findings. */
  ofAllowances(frame: Frame, findings: readonly LocatedFinding[]): LocatedFinding[] {
    return [...frame.allow]
      .filter(([key]) => !findings.some((finding) => isCoveredBy(key, finding)))
      .flatMap(([key, { rule, key: range }]) => {
        const ids = RULE_CATALOGUE.map(({ id }) => id);
        const meant = ids.includes(rule) ? undefined : nearestWord(rule, ids);
        const hint = meant === undefined ? 'Remove it when it is no longer needed.' : `Did you mean ${meant}?`;
        return this.#say('unused-allow', `${key} is allowed, but nothing like it is found here. ${hint}`, range);
      });
  }

  #ofSubjects(frame: Frame, { people }: PhotoPeople): LocatedFinding[] {
    if (people.length === 0 && !frame.subjects) {
      const remedy = 'If somebody is there, add the person on the cutting mat.';
      const message = `Nobody was found in ${frame.photo.value}, so no rule about bodies speaks. ${remedy}`;
      return this.#say('not-measured', message, frame.photo.range, 'info');
    }
    const ids = people.map(({ id }) => id);
    const strangers = frame.subjects?.value.filter((id) => !ids.includes(id)) ?? [];
    if (!frame.subjects || strangers.length === 0) return [];
    const known = ids.length === 0 ? 'nobody' : `only ${ids.join(', ')}`;
    const message = `subjects names ${strangers.join(', ')}, but the people file has ${known} in this photo.`;
    return this.#say('manifest', message, frame.subjects.range, 'warning');
  }

  #say(rule: FileRuleId, message: string, range: TextRange, atMost: Severity = 'error'): LocatedFinding[] {
    const severity = this.#context.configuration.files.get(rule) ?? 'error';
    // No setting hides that something could not be read: nobody would know what was not checked.
    if (rule === 'manifest' && atMost === 'error') return [{ rule, severity: 'error', message, range }];
    if (severity === 'off') return [];
    const order: readonly Severity[] = ['info', 'warning', 'error'];
    const lower = order[Math.min(order.indexOf(severity), order.indexOf(atMost))]!;
    return [{ rule, severity: lower, message, range }];
  }
}

function firstLine(text: string): TextRange {
  const end = text.indexOf('\n');
  return { start: 0, end: end === -1 ? text.length : end };
}
