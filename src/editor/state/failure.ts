/** What a painter threw while the canvas was painted: nobody but the browser is there to catch it. */
export class PaintingProblem extends Error {
  constructor(cause: unknown) {
    super(cause instanceof Error ? cause.message : String(cause), { cause });
  }
}
