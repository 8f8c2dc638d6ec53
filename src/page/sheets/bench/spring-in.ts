import type { Bend } from '../../../estimate/answer.ts'
import { type Content, type Html, html } from '../../html.ts'
import { benchLength } from '../../show-length.ts'
import type { CardContext } from './card-context.ts'
import type { Curve } from './curves-by-radius.ts'

type SpringIn = NonNullable<Bend['forming']['springIn']>

/** Whether nothing of a curve is bent, wherever it is. */
export function isSprungIn({ places }: Curve): boolean {
  return places.every(({ outer, inner }) => [outer, inner].every(({ forming }) => forming.method === 'spring-in'))
}

/** What a sprung rail asks of hands and ties, the two rails of a curve side by side. */
export function springInTable({ outer, inner }: Curve, { lengthsIn }: CardContext): Html {
  const newtons = (of: (sprung: SpringIn) => number) => (sprung: SpringIn) => `${of(sprung).toFixed(0)} N`
  const rows: { readonly name: string; readonly of: (sprung: SpringIn, bend: Bend) => Content }[] = [
    { name: 'Radius of the rail', of: (_, { radiusMm }) => benchLength(radiusMm, lengthsIn) },
    {
      name: 'Bend the ends to, under load',
      of: (_, { forming: { formingRadiusMm, band } }) =>
        formingRadiusMm === null
          ? html`${benchLength(band.lowMm, lengthsIn)} to ${benchLength(band.highMm, lengthsIn)}`
          : benchLength(formingRadiusMm, lengthsIn),
    },
    { name: 'Hands, each', of: newtons(({ handForceN }) => handForceN) },
    { name: 'Last two ties, each', of: newtons(({ forcePairN }) => forcePairN) },
    { name: 'At a joint, ends set', of: newtons(({ jointForceSetEndsN }) => jointForceSetEndsN) },
    {
      name: 'Ends not set',
      of: ({ jointForceN, jointKinkDeg }) => `${jointForceN.toFixed(0)} N, kink ${jointKinkDeg.toFixed(1)}°`,
    },
    {
      name: 'Chord to use',
      of: (_, { recommendedChordMm }) =>
        recommendedChordMm === null ? 'none fits' : benchLength(recommendedChordMm, lengthsIn),
    },
  ]
  const cell = (bend: Bend, of: (typeof rows)[number]['of']) =>
    html`<td>${bend.forming.springIn ? of(bend.forming.springIn, bend) : '–'}</td>`
  return html`<table class="figures forming">
<thead><tr><th scope="col">To spring in</th><th scope="col">Outer rail</th><th scope="col">Inner rail</th></tr></thead>
<tbody>${rows.map(({ name, of }) => html`<tr><th scope="row">${name}</th>${cell(outer, of)}${cell(inner, of)}</tr>`)}</tbody></table>`
}

/** What to do with rail that is sprung in; empty where no rail of the curve is. */
export function springInNotes({ places }: Curve, { lengthsIn }: CardContext): Html[] {
  const bends = places.flatMap(({ outer, inner }) => [outer, inner])
  const sprung = bends.find(({ forming }) => forming.method === 'spring-in')?.forming
  if (!sprung?.springIn) return []
  const { setEndsFromMm, setEndsToMm, tieSpacingMm } = sprung.springIn
  const length = (mm: number) => benchLength(mm, lengthsIn)
  return [
    html`<b>Do not bend</b> rail that is sprung in. Set only the last ${length(setEndsFromMm)} to ${length(setEndsToMm)} at each end of every stick to the radius by hand, so that the joints do not kink${sprung.assembled && '; take the ties off these ends first'}. Then press the rail into the curve and fasten it to every tie.`,
    html`The ties, ${length(tieSpacingMm)} apart, hold it there. It pushes outward at the ends of the curve and at joints, and nowhere in between.`,
    html`A sprung rail <b>whips</b> when an end slips: wear eye protection, and hold the free end until its last tie is fastened.`,
  ]
}
