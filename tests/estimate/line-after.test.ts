import { describe, expect, it } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { type Line, lineAfter, lineOf } from '../../src/estimate/remedies/line.ts'
import { type Patch, patched } from '../../src/fitting/json-patch.ts'

const SENT = {
  rail: { section: '250', material: 'brass', temper: 'half-hard' },
  standards: { minimumRadius: 1500, minimumTangentBetweenReverseCurves: 600 },
  tracks: [
    {
      name: 'main',
      elements: [
        { kind: 'tangent', length: '6 ft' },
        { kind: 'arc', diameter: '9 ft', angle: 40, turn: 'left' },
        { kind: 'easement', length: '2 ft' },
        { kind: 'tangent', length: 300 },
        { kind: 'arc', radius: 1800, angle: 40, turn: 'right' },
      ],
    },
    { name: 'siding', start: { after: 'main' }, elements: [{ kind: 'tangent', length: '2 m' }] },
  ],
}

function read(sent: unknown): Line | null {
  const plan = readPlan(sent)
  return plan.ok ? lineOf(plan.plan, sent) : null
}

/** The line without what is not of its tracks. */
function shown(line: Line | null) {
  return line && { tracks: line.tracks, findings: line.findings }
}

describe('a line with a patch applied', () => {
  const line = read(SENT)!
  const patches: Record<string, Patch> = {
    'another radius': [{ op: 'replace', path: '/tracks/0/elements/4/radius', value: '7 ft' }],
    'a longer straight before a track that continues': [
      { op: 'replace', path: '/tracks/0/elements/0/length', value: 3000 },
    ],
    'one element more and one changed': [
      { op: 'replace', path: '/tracks/0/elements/4/angle', value: 35 },
      { op: 'add', path: '/tracks/0/elements/4', value: { kind: 'easement', length: 600 } },
    ],
    'one element less': [{ op: 'remove', path: '/tracks/0/elements/2' }],
    'both tracks': [
      { op: 'replace', path: '/tracks/0/elements/3/length', value: '1 m' },
      { op: 'replace', path: '/tracks/1/elements/0/length', value: '1 m' },
    ],
    'a value that cannot be read': [{ op: 'replace', path: '/tracks/0/elements/4/radius', value: 'wide' }],
    'a radius that no rail can have': [{ op: 'replace', path: '/tracks/0/elements/4/radius', value: 10 }],
    'a place that does not exist': [{ op: 'replace', path: '/tracks/0/elements/9/radius', value: 900 }],
    'no element left': [{ op: 'remove', path: '/tracks/1/elements/0' }],
    'more than elements': [
      { op: 'replace', path: '/tracks/0/elements/0/length', value: 3000 },
      { op: 'add', path: '/standards/minimumRadius', value: 1200 },
    ],
  }

  for (const [what, patch] of Object.entries(patches))
    it(`is that of the patched plan: ${what}`, () => {
      const changed = patched(SENT, patch)
      expect(shown(lineAfter(patch, line))).toEqual(shown(changed === null ? null : read(changed)))
    })

  it('keeps what it was', () => {
    const before = structuredClone(shown(line))
    for (const patch of Object.values(patches)) lineAfter(patch, line)
    expect(shown(line)).toEqual(before)
  })
})
