import { excerpt } from '../../../measure/excerpt.ts'
import type { Fault } from '../../../measure/fault.ts'

/*
 * A track as one word of the characters A–Z a–z 0–9 - _, so that no program has to encode it in an address:
 *
 *     track    = element *( "_" element )
 *     element  = straight / easement / arc
 *     straight = "S" length                      S6ft      S1p2m    S1524
 *     easement = "E" length                      E2ft
 *     arc      = ( "L" / "R" ) size "-" extent   Ld18ft-a45     Rr2743p2-l600
 *     size     = ( "r" / "d" ) length            radius or diameter of the centre line
 *     extent   = "a" number / "l" length         angle in degrees, or length along the centre line
 *     length   = figure [ unit ]                 as elsewhere; without a unit millimetres
 *     figure   = digits, with "p" for the decimal point and "o" for the bar of a fraction: 7ft6-1o2in is 7 ft 6-1/2 in
 *
 * L turns left, R right. Only here does case matter: S, E, L and R are capitals, the rest is lower case.
 */

/** An element as in a plan, with its values as written. */
export type WrittenElement =
  | { readonly kind: 'tangent' | 'easement'; readonly length: string | number }
  | {
      readonly kind: 'arc'
      readonly turn: 'left' | 'right'
      readonly radius?: string | number
      readonly diameter?: string | number
      readonly angle?: number
      readonly length?: string | number
    }

export type ReadCompact =
  | { readonly ok: true; readonly elements: readonly WrittenElement[] }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const STRAIGHT = /^([SE])([0-9].*)$/
const ARC = /^([LR])([rd])([0-9].*)-([al])([0-9].*)$/
const LENGTH = /^\d+(?:p\d+)?(?:-\d+o\d+)?(?:mm|cm|m|in|ft(?:\d+(?:p\d+|o\d+|-\d+o\d+)?in)?)?$|^\d+o\d+in$/
const ANGLE = /^\d+(?:p\d+)?$/
const KINDS = { S: 'tangent', E: 'easement' } as const
const TURNS = { L: 'left', R: 'right' } as const
const HINT = 'such as S6ft, E2ft or Ld18ft-a45, with _ between elements, p for a decimal point and o for the bar of 1/2'

/**
 * Reads a track written as one word. The values of lengths and angles are not checked here, but where
 * plans are read.
 *
 * @returns the elements, or everything that is wrong; paths are those of the elements: `['elements', 3]`
 */
export function readCompactTrack(text: string): ReadCompact {
  const elements: WrittenElement[] = []
  const faults: Fault[] = []
  let at = 1
  for (const [index, word] of text.split('_').entries()) {
    const element = elementOf(word)
    if (element) elements.push(element)
    else
      faults.push({
        path: ['elements', index],
        code: 'bad-track',
        detail: `element ${index + 1}, from character ${at}: ${shown(word)} is not an element`,
        hint: `write ${HINT}`,
      })
    at += word.length + 1
  }
  return faults.length > 0 ? { ok: false, faults } : { ok: true, elements }
}

function elementOf(word: string): WrittenElement | null {
  const straight = STRAIGHT.exec(word)
  if (straight) {
    const length = lengthOf(straight[2]!)
    return length === null ? null : { kind: KINDS[straight[1] as 'S' | 'E'], length }
  }
  const arc = ARC.exec(word)
  if (!arc) return null
  const [, turn, sizeKind, sizeText, extentKind, extentText] = arc
  const size = lengthOf(sizeText!)
  const extent = extentKind === 'a' ? angleOf(extentText!) : lengthOf(extentText!)
  if (size === null || extent === null) return null
  return {
    kind: 'arc',
    turn: TURNS[turn as 'L' | 'R'],
    [sizeKind === 'r' ? 'radius' : 'diameter']: size,
    [extentKind === 'a' ? 'angle' : 'length']: extent,
  }
}

function lengthOf(text: string): string | number | null {
  if (!LENGTH.test(text)) return null
  const written = text.replaceAll('p', '.').replaceAll('o', '/')
  return /^[\d.]+$/.test(written) ? Number(written) : written
}

function angleOf(text: string): number | null {
  return ANGLE.test(text) ? Number(text.replace('p', '.')) : null
}

function shown(word: string): string {
  if (word === '') return 'nothing between two _'
  return `"${excerpt(word, 30)}"`
}
