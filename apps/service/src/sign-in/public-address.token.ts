/** By this the address is asked for at which people reach the service. */
export const PUBLIC_ADDRESS = Symbol('public address');
