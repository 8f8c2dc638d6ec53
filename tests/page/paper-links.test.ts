import { expect, test } from 'vitest'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { paperLinks } from '../../src/page/sheets/paper-links.ts'
import { spurPlan } from '../estimate/turnout-plans.ts'
import { tagsOf } from './markup.ts'
import { POND_PLAN } from './pond-plan.ts'
import { worked } from './worked.ts'

type Links = Parameters<typeof paperLinks>[0]

const links = (more: Partial<Links> = {}): Links => ({
  base: '/plans/7',
  posted: false,
  lengthsIn: 'both',
  ownUnits: 'both',
  ...more,
})
const hrefs = (...asked: Parameters<typeof paperLinks>) =>
  tagsOf(paperLinks(...asked)!.toString()).flatMap(({ attributes }) => attributes.get('href') ?? [])
const demo = worked(DEMO_PLAN).estimate

/** What an estimate has where the plan has cars. */
const REACH = { track: 'main', atMm: 0, leftMm: 60, leftCar: 'car', rightMm: 60, rightCar: 'car' }

test('a saved plan leads to its print and its drawings', () => {
  expect(hrefs(links(), 'line', demo)).toEqual([
    '/v1/projects/7/sheets.pdf?for=line',
    '/v1/projects/7/plan.dxf',
    '/v1/projects/7/plan.svg',
    '/v1/projects/7/sheets.pdf',
  ])
})

test('an earlier revision to that revision, on letter paper for feet and inches', () => {
  expect(hrefs(links({ base: '/plans/7/revisions/2', lengthsIn: 'feet' }), 'saw', demo)).toEqual([
    '/v1/projects/7/sheets.pdf?for=saw&paper=letter&revision=2',
    '/v1/projects/7/sheets.pdf?paper=letter&revision=2',
  ])
})

test('to templates of what there is in it', () => {
  const asked = (sheet: 'bench' | 'garden', estimate: typeof demo) =>
    hrefs(links(), sheet, estimate).flatMap((href) => new URLSearchParams(href.split('?')[1]).get('template') ?? [])
  expect(asked('bench', demo)).toEqual(['curve', 'chord'])
  expect(asked('garden', worked(POND_PLAN).estimate)).toEqual([])
  expect(asked('bench', worked(spurPlan()).estimate)).toEqual([])
  expect(asked('garden', worked(spurPlan()).estimate)).toEqual(['turnout'])
  expect(asked('garden', { ...demo, envelope: [REACH] })).toContain('envelope')
})

test('one that is only in the form is printed by sending it, from the sheets that have the form', () => {
  const sent = (...asked: Parameters<typeof paperLinks>) =>
    tagsOf(paperLinks(...asked)!.toString()).flatMap(({ attributes }) => attributes.get('formaction') ?? [])
  expect(sent(links({ base: '/sheets', posted: true }), 'bench', demo)).toEqual([
    '/sheets/print.pdf?for=bench',
    '/sheets/print.pdf',
  ])
  expect(sent(links({ posted: true }), 'record', demo)).toEqual(['/plans/7/print.pdf'])
  expect(sent(links({ base: '/demo' }), 'line', demo)).toEqual(['/sheets/print.pdf?for=line', '/sheets/print.pdf'])
  expect(paperLinks(links({ base: '/demo' }), 'saw', demo)).toBeNull()
})
