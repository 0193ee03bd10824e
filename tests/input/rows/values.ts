import { line, type Row } from './row.ts';

/** Values that no frame can have, each in line 7. */
export const VALUES: readonly Row[] = [
  line(
    'a key named __proto__',
    '__proto__: { final: true }',
    'crops.yaml:7:5  warning  "__proto__" is not a key that I know. (Keys of your own begin with x-.)  [manifest]',
  ),
  line(
    'a key named constructor',
    'constructor: { prototype: 1 }',
    'crops.yaml:7:5  warning  "constructor" is not a key that I know. (Keys of your own begin with x-.)  [manifest]',
  ),
  line('a key that is a list', '? [a, b]\n    : 1', 'crops.yaml:7:7  warning  A key must be a plain word.  [manifest]'),
  line(
    'a key that nobody knows',
    'corp: { x: 0, y: 0, w: 1, h: 1 }',
    'crops.yaml:7:5  warning  "corp" is not a key that I know. Did you mean crop? (Keys of your own begin with x-.)  [manifest]',
  ),
  line(
    'straighten: not a number',
    'straighten: .nan',
    'crops.yaml:7:17  error  straighten is .nan: a picture is turned by −45 to 45 degrees, positive clockwise.  [manifest]',
  ),
  line(
    'straighten: too far',
    'straighten: 45.01',
    'crops.yaml:7:17  error  straighten is 45.01: a picture is turned by −45 to 45 degrees, positive clockwise.  [manifest]',
  ),
  line(
    'straighten: infinity',
    'straighten: -.inf',
    'crops.yaml:7:17  error  straighten is -.inf: a picture is turned by −45 to 45 degrees, positive clockwise.  [manifest]',
  ),
  line(
    'straighten: text',
    'straighten: "-1.4"',
    'crops.yaml:7:17  error  straighten is "-1.4", not a number: a picture is turned by −45 to 45 degrees, positive clockwise; take the quotes off.  [manifest]',
  ),
  line(
    'straighten: a list',
    'straighten: [1]',
    'crops.yaml:7:17  error  straighten cannot be a list: a picture is turned by −45 to 45 degrees, positive clockwise.  [manifest]',
  ),
  line(
    'aspect: nothing to one',
    'aspect: "0:1"',
    'crops.yaml:7:13  error  aspect is "0:1": a shape is original, free or A:B, such as "2:3".  [manifest]',
  ),
  line(
    'aspect: one to nothing',
    'aspect: "1:0"',
    'crops.yaml:7:13  error  aspect is "1:0": a shape is original, free or A:B, such as "2:3".  [manifest]',
  ),
  line(
    'aspect: negative',
    'aspect: "-2:3"',
    'crops.yaml:7:13  error  aspect is "-2:3": a shape is original, free or A:B, such as "2:3".  [manifest]',
  ),
  line(
    'aspect: a strip',
    'aspect: "1:1000"',
    'crops.yaml:7:13  error  aspect is "1:1000": no side is over a hundred times the other.  [manifest]',
  ),
  line(
    'aspect: not a number',
    'aspect: .nan',
    'crops.yaml:7:13  error  aspect is .nan: a shape is original, free or A:B, such as "2:3".  [manifest]',
  ),
  line(
    'aspect: a word',
    'aspect: "portrait"',
    'crops.yaml:7:13  error  aspect is "portrait": a shape is original, free or A:B, such as "2:3".  [manifest]',
  ),
  line(
    'aspect: by',
    'aspect: 2x3',
    'crops.yaml:7:13  error  aspect is "2x3": a shape is original, free or A:B, such as "2:3"; did you mean "2:3"?  [manifest]',
  ),
  line(
    'length: a word nobody knows',
    'length: full',
    'crops.yaml:7:13  error  length is "full": it is one of full-length, three-quarter, half-length, head-and-shoulders, close-up.  [manifest]',
  ),
  line(
    'length: a number',
    'length: 1',
    'crops.yaml:7:13  error  length is 1: it is one of full-length, three-quarter, half-length, head-and-shoulders, close-up.  [manifest]',
  ),
  line(
    'compose: a list',
    'compose: [thirds]',
    'crops.yaml:7:14  error  compose cannot be a list: it is one of thirds, centred, free.  [manifest]',
  ),
  line(
    'subjects: an empty list',
    'subjects: []',
    'crops.yaml:7:15  error  subjects is empty: subjects are a list of people’s numbers, such as [1, 2].  [manifest]',
  ),
  line(
    'subjects: person nought',
    'subjects: [0]',
    'crops.yaml:7:16  error  The first entry of subjects is 0: a subject is a person’s number, from 1.  [manifest]',
  ),
  line(
    'subjects: half a person',
    'subjects: [1.5]',
    'crops.yaml:7:16  error  The first entry of subjects is 1.5: a subject is a person’s number, from 1.  [manifest]',
  ),
  line(
    'subjects: text',
    'subjects: ["1"]',
    'crops.yaml:7:16  error  The first entry of subjects is "1", not a number: a subject is a person’s number, from 1; take the quotes off.  [manifest]',
  ),
  line(
    'subjects: a number beyond counting',
    'subjects: [1e300]',
    'crops.yaml:7:15  warning  subjects names 1e+300, but the people file has only 1 in this photo.  [manifest]',
  ),
  line(
    'subjects: infinity',
    'subjects: [.inf]',
    'crops.yaml:7:16  error  The first entry of subjects is .inf: a subject is a person’s number, from 1.  [manifest]',
  ),
  line(
    'subjects: no list',
    'subjects: 1',
    'crops.yaml:7:15  error  subjects is 1: subjects are a list of people’s numbers, such as [1, 2].  [manifest]',
  ),
  line(
    'subjects: nobody that is there',
    'subjects: [9]',
    'crops.yaml:7:15  warning  subjects names 9, but the people file has only 1 in this photo.  [manifest]',
  ),
  line(
    'allow: without a reason',
    'allow: { joint-cut: "" }',
    'crops.yaml:7:25  error  allow.joint-cut needs a reason: say in a few words why this is meant.  [manifest]',
  ),
  line(
    'allow: a list',
    'allow: [joint-cut]',
    'crops.yaml:7:12  error  allow cannot be a list: allow is a map from rule, or rule/joint, to a reason.  [manifest]',
  ),
  line(
    'allow: no rule of ours',
    'allow: { knee-cut: "meant" }',
    'crops.yaml:7:14  warning  There is no rule "knee-cut". Did you mean face-cut?  [manifest]',
    'crops.yaml: 1 hint: unused-allow 1; show it with --hints',
  ),
  line('final: a word', 'final: "yes"', 'crops.yaml:7:12  error  final is "yes": write true or false.  [manifest]'),
  line('note: a map', 'note: { a: 1 }', 'crops.yaml:7:11  error  note cannot be a map: it is text.  [manifest]'),
  line(
    'deliver: an output nobody delivers',
    'deliver: { square: { x: 0, y: 0, w: 1, h: 1 } }',
    'crops.yaml:7:16  warning  The manifest delivers no output "square". Remove it, or name an output that there is.  [manifest]',
  ),
  line(
    'an unknown tag',
    'straighten: !!python/object:os.system 1',
    'crops.yaml:7:17  warning  Broken YAML: unresolved tag: tag:yaml.org,2002:python/object:os.system.  [manifest]',
    'crops.yaml:7:43  error  straighten is "1", not a number: a picture is turned by −45 to 45 degrees, positive clockwise; take the quotes off.  [manifest]',
  ),
  line(
    'control characters in a value',
    'length: "full\\e[2J\\u009b\\u202e"',
    'crops.yaml:7:13  error  length is "full\\u001b[2J\\u009b\\u202e": it is one of full-length, three-quarter, half-length, head-and-shoulders, close-up.  [manifest]',
  ),
  line(
    'markup in a value',
    'length: "<script>alert(1)</script>"',
    'crops.yaml:7:13  error  length is "<script>alert(1)</script>": it is one of full-length, three-quarter, half-length, head-and-shoulders, close-up.  [manifest]',
  ),
];
