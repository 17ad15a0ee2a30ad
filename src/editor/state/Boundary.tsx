/** Catches what rendering throws below it and hands it on, where React would take the whole page away. */
import { Component, type ReactNode } from 'react';

export interface BoundaryProps {
  readonly onError: (problem: unknown) => void;
  readonly children: ReactNode;
}

export class Boundary extends Component<BoundaryProps, { readonly isBroken: boolean }> {
  override state = { isBroken: false };
  static getDerivedStateFromError = () => ({ isBroken: true });
  override componentDidCatch(problem: unknown): void {
    this.props.onError(problem);
  }
  override render(): ReactNode {
    return this.state.isBroken ? null : this.props.children;
  }
}
