/**
 * Buffers that are kept from one question to the next, lent to one question at a time. A question that is asked while
 * another is being answered gets buffers of its own, so neither can spoil the other's answer.
 */
export class Lent<T> {
  private idle: T | null = null;

  constructor(private readonly make: () => T) {}

  /** Answers a question with buffers that nobody else holds; whatever is in them is left over from the one before. */
  use<R>(answer: (buffers: T) => R): R {
    const buffers = this.idle ?? this.make();
    this.idle = null;
    try {
      return answer(buffers);
    } finally {
      this.idle = buffers;
    }
  }
}
