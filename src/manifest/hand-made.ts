/** Manifests as hands write them, for tests of edits: what generated ones do not have. */
export const handMade: readonly string[] = [
  // Tabs after colons and before comments, quoted keys, a comment between the members of a crop.
  `selvedge: 1
"frames":
  - "photo":\t'0142.jpg'\t# tab
    'crop':\t{ "x":\t0.1,\t'y': 0.06, w: 0.8, h: 0.8 }\t# keep
    "straighten":\t-1.4
  - photo: b.jpg
    crop:
      # left and top
      x: 0.1
      y: 0.06

      # size
      w: 0.8
      h: 0.8   # tall
    # nothing below
`,
  // Braces all through, as JSON has them, over several lines.
  `{ "selvedge": 1,
  "frames": [
    { "photo": "a.jpg", "crop": { "x": 0.1, "y": 0.1,
        "w": 0.5, "h": 0.5 }, "note": "one" },
    { "photo": "b.jpg",
      "straighten": 2 }
  ]
}`,
  // A byte order mark, Windows line ends, a document mark, other scripts, no line break at the end.
  '\uFEFF---\r\nselvedge: 1\r\nsession: Möwe 写真 😀\r\nframes:\r\n- photo: 写真/é.jpg # 😀\r\n  note: |\r\n    two lines\r\n    of text\r\n\r\n- photo: 😀.jpg\r\n  crop: {x: 0.1,y: 0.1,w: .5,h: 5e-1}',
  // Anchors that other frames use, whole frames merged, an alias alone.
  `selvedge: 1
x-shared:
  crop: &wide { x: 0, y: 0.1, w: 1, h: 0.8 } # used twice
  base: &base
    straighten: 1.5
    note: from the base
frames:
  - &first
    photo: a.jpg
    crop: *wide
    allow: &why { headroom: "hat" }
  - <<: *first
    photo: b.jpg
  - <<: [*base, *first]
    photo: c.jpg
    straighten: &turn 2.25
  - { photo: d.jpg, straighten: *turn, allow: *why }
  - *first
`,
  // Dashes alone, explicit keys, folded and quoted text over lines, keys of the user's own.
  `selvedge: 1
frames:
  -
    photo: a.jpg
    note: >-
      folded
      text

    x-mine: [1, { crop: 2 }]
  - # said below
    photo: "b\\u00e9.jpg"
    note: "over
      two lines"
    ? crop
    : { x: 0.1, y: 0.1, w: 0.5, h: 0.5 }
  - photo: c.jpg
    length:
    final: ~
photos: proofs # after the frames
`,
];
