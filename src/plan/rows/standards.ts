import type { Open, Whole } from '../fields/field.ts'
import { bothOrNeither, length, number, shape } from '../fields/kinds.ts'

/** Longest cars to a minimum radius, where the plan names none. */
export const CARS_PER_MINIMUM_RADIUS = 3

/** The smallest curve commonly sold: common practice, no source. */
export const MINIMUM_RADIUS_WITHOUT_CAR_MM = 600

export const maximumGradePct = {
  component: 'MaximumGradePct',
  least: 0,
  most: 100,
  unit: 'in percent',
  sign: ' %',
  says: 'Steepest grade allowed, percent: rise over level run',
  called: 'maximum grade',
} as const

export const STANDARDS = shape(
  'Standards',
  'The rules of good track that the plan is checked against. When left out, the minimum radius is three times the longest car, and the minimum straight between reverse curves is one longest car. Without longestCar the minimum radius is 600 mm, and the straight between reverse curves is not checked, which a finding says.',
  {
    minimumRadius: length({ mayFollow: 'three times the longest car', label: 'Minimum radius' }),
    maximumGradePct: number({
      ...maximumGradePct,
      usual: 2,
      because: 'a main line, common practice',
      shown: '2 %',
      label: 'Maximum grade, %',
    }),
    shortGradeLength: length({
      component: 'ShortGradeLength',
      says: 'Length of a short grade, which may be steeper: the engine has climbed it before the whole train is on it',
      label: 'Length of a short grade',
      blank: 'no grade counts as short',
    }),
    maximumShortGradePct: number({
      ...maximumGradePct,
      component: 'MaximumShortGradePct',
      usual: 3,
      because: 'common practice for short grades',
      shown: '3 %',
      says: 'Steepest grade allowed over no more than shortGradeLength, percent',
      label: 'Maximum short grade, %',
      called: 'maximum short grade',
    }),
    longestCar: length({ label: 'Longest car', blank: 'reverse curves are not checked' }),
    minimumTangentBetweenReverseCurves: length({
      may: 'zero or more',
      mayFollow: 'one longest car',
      label: 'Minimum straight between reverse curves',
    }),
    trackSpacing: length({
      component: 'TrackSpacing',
      says: 'Distance between the centre lines of two tracks at which cars on them clear each other. Fouling points lie where the legs of a turnout are that far apart; when left out, where the widest of the cars clear each other',
      label: 'Track spacing for fouling points',
      blank: 'from the cars',
    }),
    clearance: length({
      component: 'Clearance',
      says: 'Height that must be free over the rails below a track that passes over them; when left out, that of the highest car and 20 mm more (own choice), or 250 mm where no car has a height (own choice, no source)',
      label: 'Clear height under a bridge',
      blank: 'the highest car and 20 mm',
    }),
    deckThickness: length({
      component: 'DeckThickness',
      says: 'From the foot of the rails on a bridge to its underside: ties and deck together; 60 mm when left out (own choice, no source)',
      label: 'Ties and deck of a bridge',
      blank: '60 mm',
    }),
    flangeway: length({
      component: 'Flangeway',
      says: 'Clear width between guard rail and stock rail, and between wing rail and point rail, of turnouts that are built by hand; when left out, 0.06 gauges: 0.106 in on 45 mm, the widest of NMRA S-3.2 for No. 1 gauge',
      label: 'Flangeways of turnouts built by hand',
      blank: '0.06 gauges (NMRA S-3.2)',
    }),
    maximumCouplerOffset: length({
      component: 'MaximumCouplerOffset',
      may: 'zero or more',
      usual: 20,
      because: 'own choice, no source: try your own couplers',
      says: 'How far the couplers of two coupled cars may be off each other sideways on a reverse curve',
      label: 'Couplers may be off sideways by',
    }),
    couplerHeightDifference: length({
      component: 'CouplerHeightDifference',
      says: 'How far the couplers of two coupled cars may be apart in height where the grade changes; with it, and with cars, vertical curves are checked',
      label: 'Couplers may be apart in height by',
      blank: 'grade changes are not checked for couplers',
    }),
    curveResistancePct: number({
      component: 'CurveResistancePct',
      least: 0,
      most: 100,
      unit: 'in percent',
      says: 'Measured in the garden: how much more pull cars take on a curve of curveResistanceRadius than on straight track, percent of their weight; on other curves it is as much more or less as their radius is smaller or larger. When left out it follows from gauge, wheelbase and friction',
      label: 'Curve resistance measured, %',
      blank: 'from gauge and wheelbase',
      called: 'curve resistance',
    }),
    curveResistanceRadius: length({
      component: 'CurveResistanceRadius',
      says: 'Radius of the curve on which curveResistancePct was measured',
      label: 'on a curve of radius',
    }),
    closureGap: length({
      component: 'ClosureGap',
      may: 'zero or more',
      usual: 2,
      because: 'taken up in the joints',
      says: 'Largest distance allowed between the end of a closed track and its start',
      label: 'Allowed gap where a loop closes',
    }),
    closureHeading: number({
      component: 'ClosureHeading',
      least: 0,
      most: 180,
      unit: 'in degrees',
      sign: '°',
      usual: 0.5,
      because: 'taken up in the joints',
      says: 'Largest difference allowed between the headings at the end and the start of a closed track, degrees',
      label: 'Allowed kink where a loop closes, degrees',
      called: 'allowed kink where a loop closes',
    }),
  },
  bothOrNeither('curveResistancePct', 'curveResistanceRadius'),
)

export interface StandardsInput extends Open<typeof STANDARDS.fields> {}
export interface Standards extends Whole<typeof STANDARDS.fields> {}
