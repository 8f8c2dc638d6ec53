import fc from 'fast-check'

/** A mutant is dead at the first case that fails: looking for a smaller one takes long, and so do very many cases. */
fc.configureGlobal({ endOnFailure: true, interruptAfterTimeLimit: 500 })
