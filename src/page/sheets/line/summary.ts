import type { Severity } from '../../../checking/finding.ts'
import type { Estimate } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { gardenLength, type LengthsIn } from '../../show-length.ts'
import { counted } from '../../words.ts'
import { piecesUsed } from '../saw/ready-made.ts'

/** The main results in one line: length of track, sticks to buy, findings, cost. */
export function summary(estimate: Estimate, lengthsIn: LengthsIn): Html {
  const { tracks, bill, findings, cutting } = estimate
  const trackMm = tracks.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
  const toBuy = bill.lines.reduce((sum, { item, toBuy: count }) => sum + (item === 'rail-stick' ? count : 0), 0)
  const facts = [
    { value: gardenLength(trackMm, lengthsIn), name: 'of track', target: 'drawing' },
    {
      value: counted(toBuy, 'stick'),
      name: `to buy, ${cutting.sticksUsed} used in total${piecesUsed(estimate)}`,
      target: 'shopping',
    },
    { value: findingCount(findings), name: severities(findings), target: 'findings' },
    { value: html`${bill.total} ${bill.currency}`, name: billNote(estimate), target: 'shopping' },
  ]
  return html`<ul class="summary" aria-label="Summary">${facts.map(
    ({ value, name, target }) => html`<li><a href="#${target}"><b>${value}</b> <span>${name}</span></a></li>`,
  )}</ul>`
}

function findingCount(findings: Estimate['findings']): string {
  return findings.length === 0 ? 'No findings' : counted(findings.length, 'finding')
}

function severities(findings: Estimate['findings']): string {
  if (findings.length === 0) return 'all checked rules are met'
  const count = (severity: Severity) => findings.filter((finding) => finding.severity === severity).length
  const parts = [
    { count: count('stop'), name: counted(count('stop'), 'stop') },
    { count: count('warn'), name: counted(count('warn'), 'warning') },
    { count: count('note'), name: counted(count('note'), 'note') },
  ]
  return parts
    .filter((part) => part.count > 0)
    .map(({ name }) => name)
    .join(', ')
}

function billNote({ bill }: Estimate): string {
  if (bill.unpricedLines === 0) return 'for everything to buy'
  return `plus ${counted(bill.unpricedLines, 'line')} without a price`
}
