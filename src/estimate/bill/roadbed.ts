import type { Need } from '../../laying/bill.ts'
import { ballastInPlace, bedSection, looseVolume } from '../../laying/roadbed.ts'
import { roundedUp } from '../../measure/counting.ts'
import type { Roadbed } from '../../plan/rows/ballast-power-extras.ts'
import type { RoadbedAnswer } from '../answer.ts'
import type { TrackNeeds } from './needs.ts'

/** Ballast for the plan: the section, the volume in place and loose, and its line on the bill. */
export function roadbedOf(
  roadbed: Roadbed | null,
  tracks: readonly TrackNeeds[],
): { answer: RoadbedAnswer | null; needs: Need[] } {
  if (!roadbed) return { answer: null, needs: [] }
  const { shrinkagePct, densityKgM3, bag } = roadbed
  const perTrack = tracks.map(({ name, lengthMm, ties, jointTies }) => {
    const { volumeL, tiesL } = ballastInPlace(roadbed, lengthMm, ties + jointTies)
    return { track: name, inPlaceL: volumeL, tiesL, looseL: looseVolume(volumeL, shrinkagePct) }
  })
  const sum = (part: 'inPlaceL' | 'tiesL' | 'looseL') => perTrack.reduce((total, each) => total + each[part], 0)
  const kgPerL = densityKgM3 / 1000
  const byMass = bag !== null && bag.massKg !== null
  const perUnit = byMass ? kgPerL : 1
  const packSize = bag === null ? 1 : (bag.massKg ?? bag.volumeL!)
  const looseL = sum('looseL')
  const { heightMm, baseWidthMm, areaMm2 } = bedSection(roadbed)
  const answer: RoadbedAnswer = {
    kind: roadbed.kind,
    filledTo: roadbed.filledTo,
    section: { crownWidthMm: roadbed.crownWidth, baseWidthMm, heightMm, areaMm2 },
    inPlaceL: sum('inPlaceL'),
    tiesL: sum('tiesL'),
    shrinkagePct,
    volumeL: looseL,
    massKg: looseL * kgPerL,
    bags: bag === null ? null : roundedUp((looseL * perUnit) / packSize),
    tracks: perTrack.map(({ track, inPlaceL, tiesL, looseL: volumeL }) => ({ track, inPlaceL, tiesL, volumeL })),
  }
  const need: Need = {
    item: 'ballast',
    description: bag === null ? 'Ballast, loose' : `Ballast, bags of ${packSize} ${byMass ? 'kg' : 'L'}`,
    unit: byMass ? 'kg' : 'L',
    reasons: perTrack.map(({ track, looseL: volumeL }) => ({
      text: `its bed, plus ${shrinkagePct} % for settling`,
      track,
      quantity: volumeL * perUnit,
    })),
    pack: {
      packSize,
      pricePerPack: bag?.price ?? null,
      onHand: (bag?.onHand ?? 0) * packSize,
      sparePct: bag?.sparePct ?? 0,
      massEachG: byMass ? 1000 : densityKgM3,
    },
  }
  return { answer, needs: [need] }
}
