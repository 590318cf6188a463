import { parameters, type Values } from '../parameter.ts';

/** A protection device by its data sheet. */
export const guardParameters = parameters({
  rating: {
    dimension: 'current',
    symbol: 'I_r',
    means: 'rated current of the protection; its curve is over it',
    min: 0,
    max: 1e6,
    exclusive: true,
  },
});

export type GuardValues = Values<typeof guardParameters>;
