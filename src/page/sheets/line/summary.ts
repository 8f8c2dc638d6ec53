import type { Severity } from '../../../checking/finding.ts'
import type { Estimate } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { gardenLength } from '../../show-length.ts'
import { counted } from '../../words.ts'
import { piecesUsed } from '../saw/ready-made.ts'
import { type SheetLinks, sheetLink } from '../sheet-links.ts'
import { isSheet } from '../sheet-names.ts'

/** The main results in one line: length of track, sticks to buy, findings, cost. */
export function summary(estimate: Estimate, links: SheetLinks): Html {
  const { tracks, bill, findings, cutting } = estimate
  const trackMm = tracks.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
  const toBuy = bill.lines.reduce((sum, { item, toBuy: count }) => sum + (item === 'rail-stick' ? count : 0), 0)
  const facts = [
    { value: gardenLength(trackMm, links.lengthsIn), name: 'of track', on: '#drawing' },
    {
      value: counted(toBuy, 'stick'),
      name: `to buy, ${cutting.sticksUsed} used in total${piecesUsed(estimate)}`,
      on: 'shop' as const,
    },
    { value: findingCount(findings), name: severities(findings), on: '#findings' },
    { value: html`${bill.total} ${bill.currency}`, name: billNote(estimate), on: 'shop' as const },
  ]
  return html`<ul class="summary" aria-label="Summary">${facts.map(
    ({ value, name, on }) => html`<li>${tile(on, html`<b>${value}</b> <span>${name}</span>`, links)}</li>`,
  )}</ul>`
}

function tile(on: string, label: Html, links: SheetLinks): Html {
  return isSheet(on) ? sheetLink(links, on, label, { class: 'tile' }) : html`<a class="tile" href="${on}">${label}</a>`
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
