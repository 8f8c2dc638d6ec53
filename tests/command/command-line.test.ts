import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { COMMANDS } from '../../src/command/commands.ts'
import { run } from '../../src/command/run.ts'
import { guideSource } from '../../src/docs/shipped.ts'
import { appWithoutStore, committedDocument } from '../api/asking.ts'
import { commandsIn } from '../docs/commands.ts'
import { textOfPages } from '../print/reading-pdf.ts'

const EXAMPLES = new URL('../../openapi/examples/', import.meta.url)
const exampleBytes = (name: string) => new Uint8Array(readFileSync(new URL(name, EXAMPLES)))

/** Runs a command line on the example files; `input` is what standard input has. */
async function typed(line: string, { input = '', isScreen = false } = {}) {
  const written = new Map<string | null, Uint8Array>()
  let complaints = ''
  const code = await run(line.split(' ').slice(1), {
    read: async (file) => (file === null ? new TextEncoder().encode(input) : exampleBytes(file)),
    write: async (file, bytes) => {
      written.set(file, bytes)
    },
    complain: (text) => {
      complaints += `${text}\n`
    },
    isScreen,
  })
  const text = (file: string | null = null) => new TextDecoder().decode(written.get(file))
  return { code, complaints, written, text }
}

describe('a command', () => {
  test.each([
    ['longchord estimate quarter-loop.json --fields bill', '/v1/estimates?fields=bill', 'quarter-loop.json'],
    [
      'longchord estimates quarter-loop.json --fields=bill,findings',
      '/v1/estimates?fields=bill,findings',
      'quarter-loop.json',
    ],
    ['longchord comparison loop-in-three-metals.json', '/v1/comparisons', 'loop-in-three-metals.json'],
    ['longchord figures passing-loop.json', '/v1/figures', 'passing-loop.json'],
    ['longchord fits connection-to-fit.json', '/v1/fits', 'connection-to-fit.json'],
    ['longchord moves siding-to-move.json', '/v1/moves', 'siding-to-move.json'],
    ['longchord surveys garden-survey.json', '/v1/surveys', 'garden-survey.json'],
    [
      'longchord tables quarter-loop.json --file bill.json --units in',
      '/v1/tables/bill.json?units=in',
      'quarter-loop.json',
    ],
    ['longchord drawing quarter-loop.json --file plan.svg', '/v1/drawings/plan.svg', 'quarter-loop.json'],
    ['longchord drawing quarter-loop.json --file plan.dxf', '/v1/drawings/plan.dxf', 'quarter-loop.json'],
    ['longchord cut-plan six-runs-to-cut.json', '/v1/cut-plans', 'six-runs-to-cut.json'],
    ['longchord setting-outs curves-to-peg-out.json', '/v1/setting-outs', 'curves-to-peg-out.json'],
    ['longchord bend-check check-at-the-bench.json', '/v1/bend-checks', 'check-at-the-bench.json'],
    ['longchord bend-calibrations calibration-by-radii.json', '/v1/bend-calibrations', 'calibration-by-radii.json'],
  ])('answers as the service does: %s', async (line, address, file) => {
    const { code, complaints, text } = await typed(line)
    expect([code, complaints]).toEqual([0, ''])
    const headers = { 'Content-Type': 'application/json' }
    const asked = await appWithoutStore().request(address, { method: 'POST', headers, body: exampleBytes(file) })
    const expected = await asked.text()
    expect(text().length).toBeGreaterThan(100)
    expect(text().trimEnd()).toBe(expected.trimEnd())
  })

  test('without a body is asked by its options alone', async () => {
    const { code, text } = await typed('longchord bends --diameter 18ft --section 250 --chord 300 --chord=500')
    expect(code).toBe(0)
    const [outer] = JSON.parse(text()).rails
    expect(outer.ordinates.map(({ chordMm }: { chordMm: number }) => chordMm)).toEqual([300, 500])
    // closed form: R less half the gauge and head, and the mid-ordinate of a circle
    const measuredMm = 9 * 304.8 + 22.5
    expect(outer.measuredRadiusMm).toBeCloseTo(measuredMm, 9)
    expect(outer.ordinates[0].midMm).toBeCloseTo(measuredMm - Math.sqrt(measuredMm ** 2 - 150 ** 2), 9)
  })

  test('reads a plan from standard input, and a table by the name of its file or by what is said of it', async () => {
    const input = new TextDecoder().decode(exampleBytes('quarter-loop.json'))
    const piped = await typed('longchord estimate - --fields bill', { input })
    expect(piped.text()).toBe((await typed('longchord estimate quarter-loop.json --fields bill')).text())
    const asked = '--section 250 --material brass --fields tracks'
    const rows = await typed(`longchord estimate spur-in-rows.csv ${asked}`)
    expect([rows.code, rows.complaints]).toEqual([0, ''])
    expect((await typed(`longchord estimate spur-in-rows.ods ${asked}`)).text()).toBe(rows.text())
    const csv = new TextDecoder().decode(exampleBytes('spur-in-rows.csv'))
    const said = await typed(`longchord estimate ${asked} --content-type text/csv`, { input: csv })
    expect(said.text()).toBe(rows.text())
  })

  test('writes sheets into a file, and not onto a screen', async () => {
    const line = 'longchord sheets quarter-loop.json --for shop --paper letter'
    const { code, written } = await typed(`${line} --out sheets.pdf`)
    expect([code, [...written.keys()]]).toEqual([0, ['sheets.pdf']])
    const pages = await textOfPages(written.get('sheets.pdf')!)
    expect(pages.join(' ')).toContain('Rail joiner')
    const shown = await typed(line, { isScreen: true })
    expect([shown.code, shown.written.size]).toEqual([2, 0])
    expect(shown.complaints).toContain('--out')
  })
})

describe('what cannot be answered', () => {
  test('is refused with every fault: its place, what was expected, what to do', async () => {
    const { code, complaints, written } = await typed('longchord estimate three-faults.json')
    expect([code, written.size]).toEqual([1, 0])
    for (const words of [
      '/tracks/0/elements/0/length: "6" has no unit (bad-length)\n    write for example "8 ft"',
      '/tracks/0/elements/1/angle: -30 is too small: 0.000001 is the least (out-of-range)\n    give an angle above zero',
      '/tracks/0/elements/2/lenght: "lenght" is not a field here (unknown-field)\n    did you mean "length"?',
    ])
      expect(complaints).toContain(words)
  })

  test('names the option that is wrong, as the parameter it is', async () => {
    const { code, complaints } = await typed('longchord estimate quarter-loop.json --fieds bill')
    expect(code).toBe(1)
    expect(complaints).toContain('--fieds: ')
    expect(complaints).toContain('did you mean "fields"?')
  })

  test('names row and column of a table', async () => {
    const input = 'kind,length (ft)\ntangent,six\n'
    const line = 'longchord estimate --content-type text/csv --section 250 --material brass'
    const { code, complaints } = await typed(line, { input })
    expect(code).toBe(1)
    expect(complaints).toContain('row 2, column B: ')
  })

  test.each([
    ['longchord', 'no command is given'],
    ['longchord estimat plan.json', 'estimat is no command: there are estimates, '],
    ['longchord estimate a.json b.json', 'one file is read, not 2: leave out b.json'],
    ['longchord estimate quarter-loop.json --fields', '--fields has no value'],
    ['longchord estimate quarter-loop.json -f bill', '-f is no option'],
    ['longchord estimate nothing.json', 'nothing.json cannot be read: '],
    ['longchord estimate quarter-loop.json --out a --out b', '--out is given twice'],
    ['longchord drawings quarter-loop.json', '--file is missing'],
    ['longchord bends plan.json --diameter 18ft', 'bends reads no file: leave out plan.json'],
  ])('is a command line at fault: %s', async (line, complaint) => {
    const { code, complaints, written } = await typed(line)
    expect([code, written.size]).toEqual([2, 0])
    expect(complaints).toContain(complaint)
    expect(complaints).toContain('longchord --help')
  })
})

describe('help', () => {
  test('has every command with what it does, and the version', async () => {
    const { code, text } = await typed('longchord --help')
    expect(code).toBe(0)
    for (const name of Object.keys(COMMANDS)) expect(text()).toMatch(new RegExp(`^  ${name} +[A-Z]`, 'm'))
    expect((await typed('longchord --version')).text()).toMatch(/^\d+\.\d+\.\d+\n$/)
  })

  test.each(Object.entries(COMMANDS))('of %s has every parameter of the interface', async (name, { method, path }) => {
    const { code, text } = await typed(`longchord ${name} --help`)
    expect(code).toBe(0)
    const { parameters = [] } = committedDocument.paths[path]![method] as unknown as {
      parameters?: { name: string; in: string }[]
    }
    const named = [...text().matchAll(/^ {2}--(\S+)/gm)].map(([, option]) => option)
    expect(named).toEqual(
      parameters.filter((each) => each.in !== 'header' && each.name !== 'refresh').map((each) => each.name),
    )
    expect(
      Math.max(
        ...text()
          .split('\n')
          .map((line) => line.length),
      ),
    ).toBeLessThan(140)
  })
})

test('the commands of the guide end and answer as it shows', async () => {
  const commands = commandsIn(guideSource('programs'), /^npx longchord /)
  expect(commands.length).toBeGreaterThan(4)
  for (const { line, answer } of commands) {
    const { code, complaints, text } = await typed(line.replace('npx ', ''))
    expect([line, code]).toEqual([line, line.includes('faults') ? 1 : 0])
    if (answer !== null) expect([line, `${text()}${complaints}`.trimEnd()]).toEqual([line, answer])
  }
})
