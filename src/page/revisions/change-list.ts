import { placeInPlan } from '../drawing/plan-drawing.ts'
import { type Html, html } from '../html.ts'
import { formatDegrees, gardenLength, type LengthsIn } from '../show-length.ts'
import { counted, elementNumber, kindName } from '../words.ts'
import type { ElementChange } from './element-changes.ts'

const WORDS = { changed: 'changed', added: 'added', removed: 'taken out', moved: 'moved' } as const
const MOST_LISTED = 60

/** `2 curves changed, 1 straight added`: what has become of elements that are not what they were. */
export function changesInWords(changes: readonly ElementChange[]): string[] {
  return (Object.keys(WORDS) as ElementChange['is'][]).flatMap((is) => {
    const kinds = changes
      .filter((change) => change.is === is)
      .map(({ before, after }) => (after ?? before)!.element.kind)
    return [...new Set(kinds)].map((kind) => {
      const count = kinds.filter((each) => each === kind).length
      return `${counted(count, kindName(kind).toLowerCase())} ${WORDS[is]}`
    })
  })
}

/** Each element that is not what it was, with its figures in both revisions; those that only lie elsewhere are counted. */
export function changeList(changes: readonly ElementChange[], severalTracks: boolean, lengthsIn: LengthsIn): Html {
  const moved = changes.filter(({ is }) => is === 'moved')
  const others = changes.filter(({ is }) => is !== 'moved')
  if (changes.length === 0) return html`<p>No element of a track: all are as long, as curved and where they were.</p>`
  return html`${others.length > 0 && html`<ul class="changes">${others.slice(0, MOST_LISTED).map((change) => listed(change, severalTracks, lengthsIn))}</ul>`}
${others.length > MOST_LISTED && html`<p>… and ${others.length - MOST_LISTED} more.</p>`}
${moved.length > 0 && html`<p>${counted(moved.length, 'element')} only moved: as long and as curved as before.</p>`}`
}

function listed({ is, before, after }: ElementChange, severalTracks: boolean, lengthsIn: LengthsIn): Html {
  const { name, track, element } = (after ?? before)!
  const what = `${kindName(element.kind)} ${elementNumber(element.index, track, severalTracks)} of ${name}`
  const place = after && placeInPlan(after.track, after.element.index)
  const figures =
    is === 'changed'
      ? html`${figuresOf(before!, lengthsIn)} → ${figuresOf(after!, lengthsIn)}`
      : figuresOf((after ?? before)!, lengthsIn)
  return html`<li${place}><b>${what}</b> ${WORDS[is]}: ${figures}</li>`
}

function figuresOf({ element }: NonNullable<ElementChange['after']>, lengthsIn: LengthsIn): Html {
  const { kind, lengthMm, radiusMm, angleDeg, turn, turnout, startRadiusMm, endRadiusMm } = element
  const length = html`${gardenLength(lengthMm, lengthsIn)}`
  if (kind === 'arc')
    return html`radius ${gardenLength(radiusMm ?? 0, lengthsIn)}, ${formatDegrees(angleDeg)} to the ${turn}, ${length} long`
  if (kind === 'easement') {
    const end = (mm: number | null | undefined) =>
      mm == null ? 'straight' : html`radius ${gardenLength(mm, lengthsIn)}`
    return html`from ${end(startRadiusMm)} to ${end(endRadiusMm)}, ${length} long`
  }
  if (turnout) return html`${turnout.name}, ${turnout.type}, ${length} long`
  return html`${kindName(kind).toLowerCase()}, ${length} long`
}
