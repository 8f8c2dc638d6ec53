import type { Bend } from '../../../estimate/answer.ts'
import { type Content, type Html, html } from '../../html.ts'
import { benchLength, depthLength, type LengthsIn, turnsFigure } from '../../show-length.ts'
import type { CardContext } from './card-context.ts'
import type { Curve } from './curves-by-radius.ts'

/** A row with a value for each rail; null if there is no value. */
interface Row {
  readonly name: string
  readonly of: (bend: Bend) => Content
}

/** How to bend the two rails of a curve, side by side. */
export function formingTable({ outer, inner }: Curve, context: CardContext): Html {
  const rows = [...radiusRows(outer, context), ...settingRows(context.lengthsIn)]
    .map(({ name, of }) => ({ name, cells: [of(outer), of(inner)] }))
    .filter(({ cells }) => cells.some((cell) => cell !== null))
  return html`<table class="figures forming">
<thead><tr><th scope="col">To bend</th><th scope="col">Outer rail</th><th scope="col">Inner rail</th></tr></thead>
<tbody>${rows.map(({ name, cells }) => html`<tr><th scope="row">${name}</th>${cells.map((cell) => html`<td>${cell ?? '–'}</td>`)}</tr>`)}</tbody></table>`
}

function radiusRows({ forming: { basis, tempers } }: Bend, { lengthsIn, temperName }: CardContext): Row[] {
  const final: Row = { name: 'Radius after springback', of: ({ radiusMm }) => benchLength(radiusMm, lengthsIn) }
  if (basis === null) {
    const ofTemper = (index: number): Row => ({
      name: `if ${temperName(tempers[index]!.temper)}`,
      of: ({ forming }) => benchLength(forming.tempers[index]!.formingRadiusMm, lengthsIn),
    })
    return [
      final,
      { name: 'Bend to, under load', of: ({ forming }) => range(forming.band, lengthsIn) },
      ...(tempers.length > 1 ? tempers.map((_, index) => ofTemper(index)) : []),
    ]
  }
  return [
    final,
    {
      name: 'Bend to, under load',
      of: ({ forming: { formingRadiusMm } }) =>
        formingRadiusMm !== null && html`<b>${benchLength(formingRadiusMm, lengthsIn)}</b>`,
    },
    {
      name: basis === 'calibrated' ? 'Range from the test bends' : 'Range for yield ±15 %',
      of: ({ forming }) => range(forming.band, lengthsIn),
    },
    {
      name: 'Overbend ratio',
      of: ({ forming: { overbendRatio } }) => (overbendRatio === null ? null : overbendRatio.toFixed(2)),
    },
    {
      name: 'Largest strain',
      of: ({ forming: { maxStrainPct, elongationPct } }) =>
        maxStrainPct === null
          ? null
          : `${maxStrainPct.toFixed(2)} %${elongationPct === null ? '' : ` of ${elongationPct} % at fracture`}`,
    },
  ]
}

function settingRows(lengthsIn: LengthsIn): Row[] {
  const machine = (of: (setting: NonNullable<Bend['forming']['machine']>) => Content) => (bend: Bend) =>
    bend.forming.machine && of(bend.forming.machine)
  return [
    {
      name: 'Chord to use',
      of: ({ recommendedChordMm }) =>
        recommendedChordMm === null ? 'none fits' : benchLength(recommendedChordMm, lengthsIn),
    },
    {
      name: 'Roller depth from contact',
      of: machine(({ depthMm }) => html`<b>${depthLength(depthMm, lengthsIn)}</b>`),
    },
    { name: 'Screw turns', of: machine(({ turns }) => (turns === null ? null : turnsFigure(turns))) },
    {
      name: 'Distance between presses',
      of: machine(({ pressStepMm }) => (pressStepMm === null ? null : benchLength(pressStepMm, lengthsIn))),
    },
    {
      name: 'Flatter between presses by',
      of: machine(({ scallopMm }) => (scallopMm === null ? null : depthLength(scallopMm, lengthsIn))),
    },
    {
      name: 'Straight at each end',
      of: machine(({ straightEndMm }) => benchLength(straightEndMm, lengthsIn)),
    },
    {
      name: 'Error with one setting for both rails',
      of: ({ forming: { assembled } }) =>
        assembled &&
        html`${benchLength(Math.abs(assembled.missMm), lengthsIn)} too ${assembled.missMm < 0 ? 'tight' : 'flat'}, ${Math.abs(assembled.missPct).toFixed(1)} %`,
    },
  ]
}

function range({ lowMm, highMm }: Bend['forming']['band'], lengthsIn: LengthsIn): Html {
  return html`${benchLength(lowMm, lengthsIn)} to ${benchLength(highMm, lengthsIn)}`
}
