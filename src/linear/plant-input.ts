/** Something that moves the plant from outside: a command, a demand, a reference, or a current into a node. */
export type PlantInput =
  | {
      readonly kind: 'value';
      readonly name: string;
      readonly target: Float64Array;
      readonly place: number;
      readonly weight?: number;
    }
  | { readonly kind: 'current'; readonly name: string; readonly node: number };
