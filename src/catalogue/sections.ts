import type { RailSection } from './types.ts'

const MM_PER_INCH = 25.4

/**
 * NMRA RP-15.1 gives no web thickness; the web and the two depths are taken by proportion of the height. The depths are
 * the middle of 0.28–0.30 (head) and 0.17–0.18 (foot) as remembered from that sheet's drawing; the web ratio is from
 * memory.
 */
export const PROPORTIONS_OF_HEIGHT = { web: 0.11, headDepth: 0.29, footDepth: 0.175 } as const

const BY_PROPORTION = ['webThicknessMm', 'headDepthMm', 'footDepthMm'] as const
const RP_15_1 = 'NMRA RP-15.1 Rail (height, base and head width); web and depths by proportion of the height'

/** Heights, foot (base) and head widths in inches as RP-15.1 prints them. */
const PUBLISHED = [
  { code: '297', height: 0.297, foot: 0.25, head: 0.125 },
  { code: '250', height: 0.25, foot: 0.224, head: 0.112 },
  { code: '208', height: 0.208, foot: 0.188, head: 0.094 },
  { code: '148', height: 0.148, foot: 0.132, head: 0.066 },
  { code: '125', height: 0.125, foot: 0.125, head: 0.063 },
  { code: '100', height: 0.1, foot: 0.09, head: 0.045 },
] as const

/**
 * Codes RP-15.1 does not have, between or beyond its rows: foot and head are its neighbours' share of the height (332:
 * that of 297, the nearest; 215: between 208 and 250).
 */
const ESTIMATED = [
  { code: '332', height: 0.332, footShare: 0.842, headShare: 0.421 },
  { code: '215', height: 0.215, footShare: 0.903, headShare: 0.451 },
] as const

/** Rail sections by code, the height in thousandths of an inch; highest first. */
export const SECTIONS: readonly RailSection[] = [
  ...PUBLISHED.map((row) => section(row.code, row.height, row.foot, row.head, false)),
  ...ESTIMATED.map((row) =>
    section(row.code, row.height, row.height * row.footShare, row.height * row.headShare, true),
  ),
].sort((a, b) => b.heightMm - a.heightMm)

function section(code: string, height: number, foot: number, head: number, estimated: boolean): RailSection {
  const heightMm = height * MM_PER_INCH
  return {
    id: code,
    name: `Code ${code}`,
    heightMm,
    headWidthMm: head * MM_PER_INCH,
    footWidthMm: foot * MM_PER_INCH,
    webThicknessMm: heightMm * PROPORTIONS_OF_HEIGHT.web,
    headDepthMm: heightMm * PROPORTIONS_OF_HEIGHT.headDepth,
    footDepthMm: heightMm * PROPORTIONS_OF_HEIGHT.footDepth,
    source: estimated ? 'Estimate: the code is the height; all else by proportion of NMRA RP-15.1 neighbours' : RP_15_1,
    estimated,
    estimatedFields: estimated ? ['footWidthMm', 'headWidthMm', ...BY_PROPORTION] : BY_PROPORTION,
  }
}
