/** Why the service cannot start, in words for whoever starts it: one message that says what is wrong and what to do. */
export class StartFault extends Error {
  override readonly name = 'StartFault'
}
