import type { Fault } from '../../measure/fault.ts'
import { meantName } from '../fields/nearest.ts'
import type { PlanDraft, TrackDraft } from '../reading/draft.ts'
import { legFaults, linksToLegs, sharedLegFaults } from './legs.ts'
import type { Link } from './link.ts'

/** What is wrong with the starts and ends of tracks that are given by other tracks. */
export function placeFaults(draft: PlanDraft): Fault[] {
  const { tracks } = draft
  const links = linksOf(tracks)
  const atLegs = linksToLegs(draft)
  return [
    ...tracks.flatMap((track, index) => (track ? endFaults(track, ['tracks', index]) : [])),
    ...links.flatMap((link) => linkFaults(link, tracks)),
    ...atLegs.flatMap((link) => legFaults(link, draft)),
    ...circleFaults([...links, ...atLegs], tracks),
    ...sharedLegFaults(draft),
    ...sharedEndFaults(links, tracks),
  ]
}

function linksOf(tracks: PlanDraft['tracks']): Link[] {
  const indexOf = new Map<string, number>()
  for (const [index, track] of tracks.entries())
    if (track?.name !== undefined && !indexOf.has(track.name)) indexOf.set(track.name, index)
  return tracks.flatMap((draft, track) => {
    const { after } = draft?.start ?? {}
    const { before } = draft?.end ?? {}
    const link = (field: Link['field'], name: string | undefined, of: 'start' | 'end'): Link[] =>
      name === undefined ? [] : [{ track, field, name, other: indexOf.get(name), path: ['tracks', track, of, field] }]
    return [...link('after', after, 'start'), ...link('before', before, 'end')]
  })
}

/** What one track says twice about its own start or end. */
function endFaults(track: TrackDraft, at: Fault['path']): Fault[] {
  const { start, end, closed, joinsExisting, gradeLine } = track
  const faults: Fault[] = []
  const refuse = (path: Fault['path'], detail: string, hint: string) =>
    faults.push({ path: [...at, ...path], code: 'contradictory', detail, hint })
  if (closed && end !== undefined && Object.values(end).some((value) => value !== undefined))
    refuse(['end'], 'a closed track ends at its own start', 'leave out end, or closed')
  if ((end?.before !== undefined || end?.to !== undefined) && joinsExisting?.end)
    refuse(['joinsExisting', 'end'], 'this end joins another track of the plan', 'leave out joinsExisting.end')
  const by = start?.after !== undefined ? 'after' : 'from'
  if (start?.[by] === undefined) return faults
  if (by === 'after' && start.from !== undefined)
    refuse(['start', 'from'], 'the start is given twice: by after and by from', 'keep one of them')
  const given = (['x', 'y', 'heading', 'elevation'] as const).filter((field) => start[field] !== undefined)
  if (given.length > 0)
    refuse(
      ['start', by],
      `the start is given twice: by ${by} and by ${given.join(', ')}`,
      `leave out ${given.join(', ')}: the start is where the other track ${by === 'after' ? 'ends' : 'has its turnout'}`,
    )
  if (gradeLine?.[0]?.at === 0 && gradeLine[0].elevation !== undefined)
    refuse(
      ['gradeLine', 0, 'at'],
      by === 'after'
        ? 'the elevation at station 0 is that of the end of the track before'
        : 'the elevation at station 0 is that of the turnout',
      'start the grade line at its first point after station 0, or give the grade from there',
    )
  if (closed)
    refuse(
      ['start', by],
      by === 'after' ? 'a closed track cannot continue from another' : 'a closed track cannot start at a turnout',
      `leave out ${by}, or closed`,
    )
  if (joinsExisting?.start)
    refuse(['joinsExisting', 'start'], 'this start joins another track of the plan', 'leave out joinsExisting.start')
  return faults
}

function linkFaults({ track, field, name, other, path }: Link, tracks: PlanDraft['tracks']): Fault[] {
  if (other === undefined) {
    const names = tracks.map((each) => each?.name)
    // The track meant may be one whose name could not be read.
    if (names.includes(undefined)) return []
    const others = names.filter((_, index) => index !== track) as string[]
    return [
      { path, code: 'unknown-value', detail: `there is no track "${name}" in this plan`, hint: nameHint(name, others) },
    ]
  }
  const refused = (detail: string, hint: string): Fault[] => [{ path, code: 'contradictory', detail, hint }]
  if (other === track)
    return refused(
      field === 'after' ? 'a track cannot continue from its own end' : 'a track cannot end before itself',
      'give the name of another track; a loop that joins its own start is "closed": true',
    )
  const { closed, joinsExisting } = tracks[other]!
  if (closed) return refused(`"${name}" is a closed loop and has no free end`, 'give the name of an open track')
  const end = field === 'after' ? 'end' : 'start'
  if (joinsExisting?.[end])
    return refused(
      `the ${end} of "${name}" joins existing track, and an end can join only one`,
      `leave out joinsExisting.${end} of "${name}"`,
    )
  return []
}

function nameHint(name: string, others: readonly string[]): string {
  const meant = meantName(name, others)
  if (meant !== null) return `did you mean "${meant}"?`
  return others.length === 0 ? 'the plan has no other track' : `use the name of another track, such as "${others[0]}"`
}

/** Tracks that continue from each other in a circle have no place; each is reported. */
function circleFaults(links: readonly Link[], tracks: PlanDraft['tracks']): Fault[] {
  const after = new Map(
    links.filter(({ field }) => field === 'after' || field === 'from').map((link) => [link.track, link]),
  )
  return [...after.values()].flatMap((link): Fault[] => {
    const circle = [link.track]
    let at = link.other
    // A track that leads into a circle without being part of it comes to an end of its own: it never meets itself.
    while (at !== undefined && at !== link.track && !circle.includes(at)) {
      circle.push(at)
      at = after.get(at)?.other
    }
    if (at !== link.track || circle.length === 1) return []
    const names = circle.slice(1).map((index) => `"${tracks[index]!.name}"`)
    return [
      {
        path: link.path,
        code: 'contradictory',
        detail: `"${tracks[link.track]!.name}" continues from ${names.join(', which continues from ')}, which continues from it again: none of them has a place`,
        hint: 'give one of them a start with x, y and heading; to close a ring of tracks, give the last one an end with before',
      },
    ]
  })
}

/** An end of a track joins one other end; track that is lifted joins nothing. */
function sharedEndFaults(links: readonly Link[], tracks: PlanDraft['tracks']): Fault[] {
  const joinedTo = new Map<string, string>()
  return links.flatMap(({ track, field, other, path }): Fault[] => {
    if (other === undefined || other === track) return []
    if ([track, other].some((index) => tracks[index]!.state === 'lifted')) return []
    const endOf = (end: 'start' | 'end', index: number) => `the ${end} of "${tracks[index]!.name}"`
    const [own, its] =
      field === 'after' ? [endOf('start', track), endOf('end', other)] : [endOf('end', track), endOf('start', other)]
    const taken = [own, its].find((end) => joinedTo.has(end))
    const partner = joinedTo.get(taken ?? '')
    if (partner === undefined) {
      joinedTo.set(own, its).set(its, own)
      return []
    }
    if (partner === own || partner === its) return []
    return [
      {
        path,
        code: 'contradictory',
        detail: `${taken} already joins ${partner}`,
        hint: 'an end joins only one other; where a third track branches off, divide the track and leave room for a turnout',
      },
    ]
  })
}
